//! One screen of the stack: which state, update and page belong together.

use std::rc::Rc;

use pumpwright_engine::figures::{self, View};
use pumpwright_engine::marking::Response;
use pumpwright_engine::problems::Problem;

use crate::fault::Faults;
use crate::figure::Figure;
use crate::first::First;
use crate::glossary::WordBook;
use crate::handed_in::HandedIn;
use crate::jobs::Jobs;
use crate::keys::Tool;
use crate::layout::Scroll;
use crate::lesson::LessonPages;
use crate::outcome::{Outcome, Stroke};
use crate::page::Page;
use crate::reading::Reading;
use crate::set_up::Form;
use crate::sheet::Sheet;
use crate::slip::Slip;
use crate::sums::{Back, Sums};
use crate::tables::Tables;
use crate::worked::Worked;
use crate::{
    fault, figure, first, glossary, handed_in, jobs, lesson, reading, set_up, sheet, slip, sums,
    tables, worked,
};

/// A screen with its state.
#[derive(Debug, Clone)]
pub enum Screen {
    /// The first start.
    First(First),
    /// The front page.
    Jobs(Jobs),
    /// A job sheet.
    Sheet(Box<Sheet>),
    /// A sheet that was handed in.
    HandedIn(Box<HandedIn>),
    /// A worked sheet.
    Worked(Box<Worked>),
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
}

impl Screen {
    /// Takes a press.
    pub fn update(&mut self, stroke: &Stroke) -> Outcome {
        match self {
            Self::First(state) => first::update(state, stroke),
            Self::Jobs(state) => jobs::update(state, stroke),
            Self::Sheet(state) => sheet::update(state, stroke),
            Self::HandedIn(state) => handed_in::update(state, stroke),
            Self::Worked(state) => worked::update(state, stroke),
            Self::Slip(state) => slip::update(state, stroke),
            Self::Sums(state) => sums::update(state, stroke),
            Self::Tables(state) => tables::update(state, stroke),
            Self::Figure(state) => figure::update(state, stroke),
            Self::Glossary(state) => glossary::update(state, stroke),
            Self::Reading(state) => reading::update(state, stroke),
            Self::Faults(state) => fault::update(state, stroke),
            Self::Lesson(state) => lesson::update(state, stroke),
            Self::SetUp(state) => set_up::update(state, stroke),
        }
    }

    /// The page of this screen; a slip is laid over the page under it.
    pub fn page(&self, under: Page, width: usize) -> Page {
        match self {
            Self::First(state) => first::page(state),
            Self::Jobs(state) => jobs::page(state, width),
            Self::Sheet(state) => sheet::page(state, width),
            Self::HandedIn(state) => handed_in::page(state, width),
            Self::Worked(state) => worked::page(state, width),
            Self::Slip(state) => slip::page(state, under),
            Self::Sums(state) => sums::page(state, width),
            Self::Tables(state) => tables::page(state, width),
            Self::Figure(state) => figure::page(state, width),
            Self::Glossary(state) => glossary::page(state, width),
            Self::Reading(state) => reading::page(state),
            Self::Faults(state) => fault::page(state),
            Self::Lesson(state) => lesson::page(state, width),
            Self::SetUp(state) => set_up::page(state, width),
        }
    }

    /// Where the screen stands.
    pub fn scrolled(&self) -> Scroll {
        match self {
            Self::First(state) => state.scroll,
            Self::Jobs(state) => state.scroll,
            Self::Sheet(state) => state.scroll,
            Self::HandedIn(state) => state.scroll,
            Self::Worked(state) => state.scroll,
            Self::Slip(state) => state.scroll,
            Self::Sums(state) => state.scroll,
            Self::Tables(state) => state.scroll,
            Self::Figure(state) => state.scroll,
            Self::Glossary(state) => state.scroll,
            Self::Reading(state) => state.scroll,
            Self::Faults(state) => state.scroll,
            Self::Lesson(state) => state.scroll,
            Self::SetUp(state) => state.scroll,
        }
    }

    /// Where the screen stands, to be set.
    pub const fn scroll(&mut self) -> &mut Scroll {
        match self {
            Self::First(state) => &mut state.scroll,
            Self::Jobs(state) => &mut state.scroll,
            Self::Sheet(state) => &mut state.scroll,
            Self::HandedIn(state) => &mut state.scroll,
            Self::Worked(state) => &mut state.scroll,
            Self::Slip(state) => &mut state.scroll,
            Self::Sums(state) => &mut state.scroll,
            Self::Tables(state) => &mut state.scroll,
            Self::Figure(state) => &mut state.scroll,
            Self::Glossary(state) => &mut state.scroll,
            Self::Reading(state) => &mut state.scroll,
            Self::Faults(state) => &mut state.scroll,
            Self::Lesson(state) => &mut state.scroll,
            Self::SetUp(state) => &mut state.scroll,
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
            _ => None,
        }
    }

    /// What was handed in, where it is shown here.
    pub fn response(&self) -> Option<&Response> {
        match self {
            Self::HandedIn(handed_in) => Some(&handed_in.now),
            Self::Worked(worked) => worked.written.as_ref(),
            _ => None,
        }
    }

    /// The figure as this screen may show it.
    pub fn view(&self) -> Option<View> {
        let problem = self.problem()?;
        Some(match self {
            Self::Worked(_) => View::worked(problem),
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
        let mut tools = match self {
            Self::Sheet(sheet) if sheet.mending.is_none() => {
                vec![
                    Tool::Lesson,
                    Tool::HouseRules,
                    Tool::SetAside,
                    Tool::NextNumbers,
                ]
            }
            Self::Sheet(_) | Self::Worked(_) => {
                vec![Tool::Lesson, Tool::HouseRules, Tool::NextNumbers]
            }
            Self::HandedIn(_) => vec![
                Tool::Working,
                Tool::Lesson,
                Tool::HouseRules,
                Tool::NextNumbers,
            ],
            Self::Lesson(_) => vec![Tool::NextNumbers],
            Self::Jobs(_) => vec![Tool::Lesson],
            Self::Sums(sums) if sums.to_carry().is_some() => vec![Tool::CarryOver],
            _ => Vec::new(),
        };
        let drawn = self.problem().is_some_and(|problem| figures::has(problem));
        tools.extend(Some(Tool::Figure).filter(|_| drawn));
        tools.extend(Some(Tool::ViewTurn).filter(|_| drawn && self.response().is_some()));
        tools.extend(Some(Tool::Glossary).filter(|_| !matches!(self, Self::Glossary(_))));
        tools.extend([Tool::Keys, Tool::PlainList]);
        tools.extend(Some(Tool::SetUp).filter(|_| !matches!(self, Self::SetUp(_))));
        tools.extend([Tool::Tonight, Tool::Quit]);
        tools
    }
}
