//! One screen of the stack: which state, update and page belong together.

use std::rc::Rc;

use pumpwright_engine::figures::{self, View};
use pumpwright_engine::marking::Response;
use pumpwright_engine::problems::Problem;

use crate::answering::Answering;
use crate::board::Board;
use crate::class::Class;
use crate::class_report::ReportSheet;
use crate::exam::Exams;
use crate::fault::Faults;
use crate::figure::Figure;
use crate::first::First;
use crate::glossary::WordBook;
use crate::handed_in::HandedIn;
use crate::jobs::Jobs;
use crate::keeping::Keeping;
use crate::keys::Tool;
use crate::layout::Scroll;
use crate::lesson::LessonPages;
use crate::outcome::{Outcome, Stroke};
use crate::page::Page;
use crate::pen::Pen;
use crate::plan_sheet::PlanSheet;
use crate::reading::Reading;
use crate::result::PaperResult;
use crate::set_up::Form;
use crate::sheet::Sheet;
use crate::sitting::Sitting;
use crate::slip::Slip;
use crate::standing::Standing;
use crate::sums::{Back, Sums};
use crate::tables::Tables;
use crate::through::Through;
use crate::tonight::Tonight;
use crate::trial::Trial;
use crate::worked::Worked;
use crate::{
    answering, board, class, class_report, exam, fault, figure, first, glossary, handed_in, jobs,
    keeping, lesson, pen, plan_sheet, reading, result, set_up, sheet, sitting, slip, standing,
    sums, tables, through, tonight, trial, worked,
};

/// A screen with its state.
#[derive(Debug, Clone)]
pub enum Screen {
    /// The first start.
    First(First),
    /// The list of lessons and jobs.
    Jobs(Jobs),
    /// The front page of an evening.
    Tonight(Box<Tonight>),
    /// The standing.
    Standing(Box<Standing>),
    /// A job sheet.
    Sheet(Box<Sheet>),
    /// A sheet that was handed in.
    HandedIn(Box<HandedIn>),
    /// A sheet that is being written down.
    Keeping(Box<Keeping>),
    /// A worked sheet.
    Worked(Box<Worked>),
    /// A problem on the board.
    Board(Box<Board>),
    /// The slip.
    Slip(Slip),
    /// The back of a sheet.
    Sums(Box<Sums>),
    /// The tables.
    Tables(Box<Tables>),
    /// The figure of a job.
    Figure(Box<Figure>),
    /// The glossary.
    Glossary(Box<WordBook>),
    /// Text to read.
    Reading(Reading),
    /// Lesson files that cannot be read.
    Faults(Faults),
    /// A lesson.
    Lesson(LessonPages),
    /// Set-up.
    SetUp(Box<Form>),
    /// Choosing a paper.
    Exams(Box<Exams>),
    /// A paper that is sat.
    Sitting(Box<Sitting>),
    /// A marked paper.
    Result(Box<PaperResult>),
    /// Questions of a marked paper, worked.
    Through(Box<Through>),
    /// The work order of a class.
    Class(Box<Class>),
    /// A paper with the pen over it.
    Pen(Box<Pen>),
    /// The plan of a class's paper.
    Plan(Box<PlanSheet>),
    /// The report of a class.
    Report(Box<ReportSheet>),
    /// A paper of a class that is answered.
    Answering(Box<Answering>),
    /// The instructor's own try, marked.
    Trial(Box<Trial>),
}

impl Screen {
    /// Takes a press.
    pub fn update(&mut self, stroke: &Stroke) -> Outcome {
        match self {
            Self::First(state) => first::update(state, stroke),
            Self::Jobs(state) => jobs::update(state, stroke),
            Self::Tonight(state) => tonight::update(state, stroke),
            Self::Standing(state) => standing::update(state, stroke),
            Self::Sheet(state) => sheet::update(state, stroke),
            Self::HandedIn(state) => handed_in::update(state, stroke),
            Self::Keeping(state) => keeping::update(state, stroke),
            Self::Worked(state) => worked::update(state, stroke),
            Self::Board(state) => board::update(state, stroke),
            Self::Slip(state) => slip::update(state, stroke),
            Self::Sums(state) => sums::update(state, stroke),
            Self::Tables(state) => tables::update(state, stroke),
            Self::Figure(state) => figure::update(state, stroke),
            Self::Glossary(state) => glossary::update(state, stroke),
            Self::Reading(state) => reading::update(state, stroke),
            Self::Faults(state) => fault::update(state, stroke),
            Self::Lesson(state) => lesson::update(state, stroke),
            Self::SetUp(state) => set_up::update(state, stroke),
            Self::Exams(state) => exam::update(state, stroke),
            Self::Sitting(state) => sitting::update(state, stroke),
            Self::Result(state) => result::update(state, stroke),
            Self::Through(state) => through::update(state, stroke),
            Self::Class(state) => class::update(state, stroke),
            Self::Pen(state) => pen::update(state, stroke),
            Self::Plan(state) => plan_sheet::update(state, stroke),
            Self::Report(state) => class_report::update(state, stroke),
            Self::Answering(state) => answering::update(state, stroke),
            Self::Trial(state) => trial::update(state, stroke),
        }
    }

    /// The page of this screen; a slip is laid over the page under it.
    pub fn page(&self, under: Page, width: usize) -> Page {
        match self {
            Self::First(state) => first::page(state),
            Self::Jobs(state) => jobs::page(state, width),
            Self::Tonight(state) => tonight::page(state, width),
            Self::Standing(state) => standing::page(state, width),
            Self::Sheet(state) => sheet::page(state, width),
            Self::HandedIn(state) => handed_in::page(state, width),
            Self::Keeping(state) => keeping::page(state),
            Self::Worked(state) => worked::page(state, width),
            Self::Board(state) => board::page(state, width),
            Self::Slip(state) => slip::page(state, under),
            Self::Sums(state) => sums::page(state, width),
            Self::Tables(state) => tables::page(state, width),
            Self::Figure(state) => figure::page(state, width),
            Self::Glossary(state) => glossary::page(state, width),
            Self::Reading(state) => reading::page(state),
            Self::Faults(state) => fault::page(state),
            Self::Lesson(state) => lesson::page(state, width),
            Self::SetUp(state) => set_up::page(state, width),
            Self::Exams(state) => exam::page(state, width),
            Self::Sitting(state) => sitting::page(state, width),
            Self::Result(state) => result::page(state, width),
            Self::Through(state) => through::page(state, width),
            Self::Class(state) => class::page(state, width),
            Self::Pen(state) => pen::page(state, width),
            Self::Plan(state) => plan_sheet::page(state, width),
            Self::Report(state) => class_report::page(state, width),
            Self::Answering(state) => answering::page(state, width),
            Self::Trial(state) => trial::page(state, width),
        }
    }

    /// Where the screen stands.
    pub fn scrolled(&self) -> Scroll {
        match self {
            Self::First(state) => state.scroll,
            Self::Jobs(state) => state.scroll,
            Self::Tonight(state) => state.scroll,
            Self::Standing(state) => state.scroll,
            Self::Sheet(state) => state.scroll,
            Self::HandedIn(state) => state.scroll,
            Self::Keeping(state) => state.scroll,
            Self::Worked(state) => state.scroll,
            Self::Board(state) => state.scroll,
            Self::Slip(state) => state.scroll,
            Self::Sums(state) => state.scroll,
            Self::Tables(state) => state.scroll,
            Self::Figure(state) => state.scroll,
            Self::Glossary(state) => state.scroll,
            Self::Reading(state) => state.scroll,
            Self::Faults(state) => state.scroll,
            Self::Lesson(state) => state.scroll,
            Self::SetUp(state) => state.scroll,
            Self::Exams(state) => state.scroll,
            Self::Sitting(state) => state.scrolled(),
            Self::Result(state) => state.scroll,
            Self::Through(state) => state.scroll,
            Self::Class(state) => state.scroll,
            Self::Pen(state) => state.scroll,
            Self::Plan(state) => state.scroll,
            Self::Report(state) => state.scroll,
            Self::Answering(state) => state.scroll,
            Self::Trial(state) => state.scroll,
        }
    }

    /// Where the screen stands, to be set.
    pub fn scroll(&mut self) -> &mut Scroll {
        match self {
            Self::First(state) => &mut state.scroll,
            Self::Jobs(state) => &mut state.scroll,
            Self::Tonight(state) => &mut state.scroll,
            Self::Standing(state) => &mut state.scroll,
            Self::Sheet(state) => &mut state.scroll,
            Self::HandedIn(state) => &mut state.scroll,
            Self::Keeping(state) => &mut state.scroll,
            Self::Worked(state) => &mut state.scroll,
            Self::Board(state) => &mut state.scroll,
            Self::Slip(state) => &mut state.scroll,
            Self::Sums(state) => &mut state.scroll,
            Self::Tables(state) => &mut state.scroll,
            Self::Figure(state) => &mut state.scroll,
            Self::Glossary(state) => &mut state.scroll,
            Self::Reading(state) => &mut state.scroll,
            Self::Faults(state) => &mut state.scroll,
            Self::Lesson(state) => &mut state.scroll,
            Self::SetUp(state) => &mut state.scroll,
            Self::Exams(state) => &mut state.scroll,
            Self::Sitting(state) => state.scroll(),
            Self::Result(state) => &mut state.scroll,
            Self::Through(state) => &mut state.scroll,
            Self::Class(state) => &mut state.scroll,
            Self::Pen(state) => &mut state.scroll,
            Self::Plan(state) => &mut state.scroll,
            Self::Report(state) => &mut state.scroll,
            Self::Answering(state) => &mut state.scroll,
            Self::Trial(state) => &mut state.scroll,
        }
    }

    /// The sheet that is written here.
    pub fn sheet(&self) -> Option<&Sheet> {
        match self {
            Self::Sheet(sheet) => Some(sheet),
            _ => None,
        }
    }

    /// The sheet whose help is noted here.
    pub fn sheet_mut(&mut self) -> Option<&mut Sheet> {
        match self {
            Self::Sheet(sheet) => Some(sheet),
            Self::HandedIn(handed_in) => Some(&mut handed_in.sheet),
            _ => None,
        }
    }

    /// The side sums of the sheet that is shown here.
    pub fn back(&mut self) -> Option<&mut Back> {
        match self {
            Self::Sheet(sheet) => Some(&mut sheet.back),
            Self::HandedIn(handed_in) => Some(&mut handed_in.sheet.back),
            Self::Worked(worked) => Some(&mut worked.back),
            Self::Sitting(sitting) => sitting.sheet_mut().map(|sheet| &mut sheet.back),
            Self::Through(through) => through.worked_mut().map(|worked| &mut worked.back),
            Self::Answering(answering) => Some(&mut answering.back),
            _ => None,
        }
    }

    /// The place in the problem of the line with the pen, or that is looked at.
    pub fn line(&self) -> Option<usize> {
        match self {
            Self::Sheet(sheet) => sheet.line(),
            Self::HandedIn(handed_in) => handed_in.looked_at(),
            _ => None,
        }
    }

    /// The problem that is shown here.
    pub fn problem(&self) -> Option<&Rc<Problem>> {
        match self {
            Self::Sheet(sheet) => Some(&sheet.problem),
            Self::HandedIn(handed_in) => Some(handed_in.problem()),
            Self::Worked(worked) => Some(&worked.problem),
            Self::Board(board) => Some(&board.problem),
            Self::Sitting(sitting) => sitting.sheet().map(|sheet| &sheet.problem),
            Self::Through(through) => through.worked().map(|worked| &worked.problem),
            _ => None,
        }
    }

    /// What was handed in, where it is shown here.
    pub fn response(&self) -> Option<&Response> {
        match self {
            Self::HandedIn(handed_in) => Some(&handed_in.now),
            Self::Worked(worked) => worked.written.as_ref(),
            Self::Through(through) => through.worked()?.written.as_ref(),
            _ => None,
        }
    }

    /// The figure as this screen may show it.
    pub fn view(&self) -> Option<View> {
        let problem = self.problem()?;
        Some(match self {
            Self::Worked(_) | Self::Through(_) => View::worked(problem),
            Self::Board(board) => board.view(),
            _ => View::before(problem),
        })
    }

    /// Whether something written here waits to be gone on with.
    pub fn is_half_way(&self) -> bool {
        match self {
            Self::Sheet(sheet) => {
                sheet.mending.is_none() && (sheet.is_begun() || !sheet.back.is_empty())
            }
            Self::HandedIn(handed_in) => !handed_in.worked && handed_in.to_mend().is_some(),
            _ => false,
        }
    }

    /// The tools that have a use here.
    pub fn tools(&self) -> Vec<Tool> {
        // A sheet on its way to the disk is not left alone.
        if matches!(self, Self::Keeping(_)) {
            return vec![Tool::Keys, Tool::PlainList, Tool::Quit];
        }
        if let Self::Sitting(sitting) = self {
            return sitting.tools();
        }
        if let Self::Answering(answering) = self {
            return answering.tools();
        }
        if matches!(self, Self::Result(result) if !result.is_written_down()) {
            return vec![Tool::Keys, Tool::PlainList, Tool::Quit];
        }
        let mut tools = match self {
            Self::Sheet(sheet) if sheet.mending.is_none() => {
                vec![
                    Tool::Lesson,
                    Tool::HouseRules,
                    Tool::SetAside,
                    Tool::NextNumbers,
                ]
            }
            Self::Result(_) => vec![Tool::Working],
            Self::Class(class) => {
                let make_up = Some(Tool::NextNumbers).filter(|_| class.has_lines());
                let others = [Tool::Plan, Tool::Ink, Tool::Mark, Tool::Report];
                others.into_iter().chain(make_up).collect()
            }
            Self::Report(_) => vec![Tool::Plan],
            Self::Plan(_) => vec![Tool::SitIt, Tool::NextNumbers, Tool::Ink],
            Self::Pen(_) => vec![Tool::Working, Tool::DropItem, Tool::Judge],
            Self::Sheet(_) | Self::Through(_) => {
                vec![Tool::Lesson, Tool::HouseRules, Tool::NextNumbers]
            }
            Self::Board(board) => {
                let turns = !board.problem.mistakes.is_empty();
                let turn = Some(Tool::ViewTurn).filter(|_| turns);
                let others = [Tool::NextNumbers, Tool::Lesson, Tool::HouseRules];
                turn.into_iter().chain(others).collect()
            }
            Self::HandedIn(_) | Self::Worked(_) => vec![
                Tool::Working,
                Tool::Lesson,
                Tool::HouseRules,
                Tool::NextNumbers,
            ],
            Self::Lesson(_) => vec![Tool::NextNumbers],
            Self::Jobs(_) | Self::Tonight(_) | Self::Standing(_) => vec![Tool::Lesson],
            Self::Sums(sums) if sums.to_carry().is_some() => vec![Tool::CarryOver],
            _ => Vec::new(),
        };
        let drawn = self.problem().is_some_and(|problem| figures::has(problem));
        tools.extend(Some(Tool::Figure).filter(|_| drawn));
        tools.extend(Some(Tool::ViewTurn).filter(|_| drawn && self.response().is_some()));
        tools.extend(Some(Tool::Glossary).filter(|_| !matches!(self, Self::Glossary(_))));
        tools.extend([Tool::Keys, Tool::PlainList]);
        tools.extend(Some(Tool::SetUp).filter(|_| !matches!(self, Self::SetUp(_))));
        tools.extend(Some(Tool::Exam).filter(|_| !matches!(self, Self::Exams(_))));
        tools.extend(Some(Tool::Standing).filter(|_| !matches!(self, Self::Standing(_))));
        tools.extend([Tool::Class, Tool::Tonight, Tool::Quit]);
        tools
    }
}
