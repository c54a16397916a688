//! The trainer: the stack of screens, and what reaches further than one of them.

mod answering;
mod board;
mod class;
mod evening;
mod exam;
mod overlays;
mod reader;
mod record;
mod setting;

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use pumpwright_engine::entries::Purpose;
use pumpwright_engine::lessons::{Fault, Library};
use pumpwright_engine::marking::{Manner, Marks};
use pumpwright_engine::problems::{DrawError, Problem, Request, Settings, draw, help};
use pumpwright_engine::quantities::System;
use ratatui::buffer::Buffer;
use ratatui::layout::Position;

use crate::desk::Desk;
use crate::fault::{Faults, Of};
use crate::figure::Beside;
use crate::first::First;
use crate::guide::Guide;
use crate::jobs::{Jobs, Waiting};
use crate::keys::{Press, Tool};
use crate::layout::{Laid, Size, lay};
use crate::outcome::{Outcome, Stroke};
use crate::page::Page;
use crate::reading::Reading;
use crate::result::PaperResult;
use crate::rules;
use crate::screen::Screen;
use crate::sheet::{Sheet, asked, number};
use crate::shelf;
use crate::slip::{About, Slip};
use crate::terminal::Runs;
use crate::theme::Look;
use crate::tonight::Planned;
use crate::words;
use crate::worked::Worked;
use crate::{Ending, Start, TrainOptions, paint};

/// The trainer while it runs.
pub struct Trainer<'a> {
    library: &'a Library,
    system: System,
    settings: Settings,
    manner: Manner,
    look: Look,
    draws: Box<dyn FnMut() -> u32 + 'a>,
    size: Size,
    stack: Vec<Screen>,
    /// Sheets that were left half-way, the last one first.
    waiting: Vec<Screen>,
    message: Option<String>,
    sheets: usize,
    score: Marks,
    out_of: Marks,
    desk: Desk<'a>,
    /// Lessons that were opened: the page that was read last, and how many sheets
    /// were drawn from there.
    read: BTreeMap<String, (usize, usize)>,
    /// The marks of the paper that was handed in last, when they are put away.
    marks: Option<Box<PaperResult>>,
    /// What became of a paper that was answered here, to be said at the end.
    answers: Option<String>,
    /// When the last press came, in milliseconds.
    pressed: i64,
    /// Faults in lesson files.
    faults: usize,
    /// What there is to learn, once it was asked.
    guide: Option<Guide<'a>>,
    /// What is left of the evening's jobs, once they were chosen.
    evening: Option<Vec<Planned>>,
    /// The families of which a filled-in sheet was shown this evening.
    shown: BTreeSet<String>,
}

impl<'a> Trainer<'a> {
    /// A trainer at its start.
    pub fn new(library: &'a Library, faults: &[Fault], options: TrainOptions<'a>) -> Self {
        let TrainOptions {
            system,
            settings,
            manner,
            look,
            start,
            draws,
            person,
        } = options;
        let desk = Desk::open(person);
        let mut jobs = Jobs::new(shelf::list(library), faults.len());
        desk.whose().clone_into(&mut jobs.name);
        let mut trainer = Self {
            library,
            system,
            settings,
            manner,
            look,
            draws,
            size: Size {
                columns: 80,
                rows: 24,
            },
            stack: vec![Screen::Jobs(jobs)],
            waiting: Vec::new(),
            message: None,
            sheets: 0,
            score: Marks::default(),
            out_of: Marks::default(),
            desk,
            read: BTreeMap::new(),
            marks: None,
            answers: None,
            pressed: 0,
            faults: faults.len(),
            guide: None,
            evening: None,
            shown: BTreeSet::new(),
        };
        trainer.pressed = trainer.desk.clerk().now().milliseconds;
        trainer.lay_out_drafts();
        if matches!(start, Start::First | Start::Jobs) {
            trainer.lay_front_page();
        }
        match start {
            Start::First if trainer.has_record() => {}
            Start::First => {
                let first = First {
                    keeps: trainer.desk.record().keeps(),
                    ..First::default()
                };
                trainer.stack.push(Screen::First(first));
            }
            Start::Jobs => {}
            Start::Family(family) => trainer.draw_sheet(&family, None),
            Start::Level(family, level) => trainer.draw_sheet(&family, Some(level)),
            Start::Board(problem, mistake) => {
                trainer.open_board(Rc::new(*problem), mistake.as_deref());
            }
            Start::Class(folder) => trainer.open_class(folder),
            Start::Exams => trainer.open_exams(),
            Start::Given(given) => trainer.open_given(*given),
            Start::Paper(paper, minutes) => trainer.open_paper(*paper, minutes),
        }
        if trainer.sitting().is_none() {
            trainer.look_for_sittings();
        }
        if !faults.is_empty() {
            let families = library.families().count();
            let faults = Faults {
                all: faults.to_vec(),
                at: 0,
                of: Of::Lessons,
                families,
                scroll: crate::layout::Scroll::default(),
            };
            trainer.stack.push(Screen::Faults(faults));
        }
        let fault = trainer.desk.fault();
        trainer.stack.extend(fault);
        trainer
    }

    /// Takes a press in a window of the size that was drawn last; says whether to go on.
    pub fn take(&mut self, press: Press) -> bool {
        self.note_time();
        let said = self.message.take();
        if paint::too_small(self.size) {
            self.message = said;
            return true;
        }
        let stroke = Stroke {
            press,
            sight: self.lay().sight,
        };
        let outcome = self
            .stack
            .last_mut()
            .map_or(Outcome::Stay, |top| top.update(&stroke));
        let goes_on = self.follow(outcome);
        self.keep_draft();
        self.keep_answers();
        let top = self.lay().top;
        if let Some(screen) = self.stack.last_mut() {
            screen.scroll().top = top;
        }
        goes_on
    }

    /// The page that is shown.
    pub fn page(&self) -> Page {
        let beside = self.beside();
        let width = match &beside {
            Some(beside) => beside.text_columns(self.size),
            None => crate::layout::text_width(self.size),
        };
        let mut page = Page::default();
        for (index, screen) in self.stack.iter().enumerate().rev().take(2).rev() {
            let top = index + 1 == self.stack.len();
            if top || matches!(self.stack.last(), Some(Screen::Slip(_))) {
                page = screen.page(page, width);
            }
        }
        if beside.is_some() {
            page.leave_the_figure_out();
        }
        page.beside = beside;
        page.message.clone_from(&self.message);
        page
    }

    /// The figure beside the sheet that is shown, also under a slip.
    fn beside(&self) -> Option<Beside> {
        let slip = matches!(self.stack.last(), Some(Screen::Slip(_)));
        let shown = self.stack.iter().rev().nth(usize::from(slip))?;
        let problem = shown.problem()?;
        Beside::of(problem, &shown.view()?, self.size, self.look)
    }

    /// The size of the window from now on.
    pub const fn resize(&mut self, size: Size) {
        self.size = size;
    }

    /// What is left to say when the terminal is given back.
    pub fn ending(&self) -> Ending {
        let done = match self.sheets {
            0 if self.answers.is_some() => {
                let line = self.answers.clone().unwrap_or_default();
                return Ending { line };
            }
            0 => {
                let line = if self.desk.record().keeps() {
                    "No sheet was handed in. What was begun is kept."
                } else {
                    "No sheet was handed in; nothing is kept after the stop."
                };
                let line = line.to_owned();
                return Ending { line };
            }
            sheets => format!(
                "{} handed in, {} of {}.",
                words::count(sheets, "sheet", "sheets"),
                self.score,
                words::marks(self.out_of)
            ),
        };
        Ending {
            line: format!("{done} {}", self.kept_words()),
        }
    }

    /// The screens, from the lowest to the one on top.
    #[cfg(test)]
    pub(crate) fn stack(&self) -> &[Screen] {
        &self.stack
    }

    fn lay(&self) -> Laid {
        let scroll = self.stack.last().map(Screen::scrolled).unwrap_or_default();
        lay(&self.page(), self.look, self.size, scroll)
    }

    fn say(&mut self, words: impl Into<String>) {
        self.message = Some(words.into());
    }

    /// Does what a screen asked for; says whether to go on.
    fn follow(&mut self, outcome: Outcome) -> bool {
        if self.offers_set_up(&outcome) {
            self.offer_set_up(outcome);
            return true;
        }
        match outcome {
            Outcome::Back if matches!(self.stack.last(), Some(Screen::SetUp(_))) => {
                return self.leave_set_up();
            }
            Outcome::Stay => {}
            Outcome::Say(words) => self.say(words),
            Outcome::Back => self.back(),
            Outcome::Ask(line) => self.open_slip(line, false),
            Outcome::Show(line) => self.open_slip(Some(line), true),
            Outcome::Helped { line, steps } => self.note_help(line, steps),
            Outcome::Tables if self.answering().is_some() => self.open_tables_of_paper(),
            Outcome::Tables => self.open_tables(),
            Outcome::Sums => self.open_sums(),
            Outcome::Take(tool) => return self.take_tool(tool),
            Outcome::HandIn(response) => self.hand_in(response),
            Outcome::TakePlanned(place) => self.take_planned(place),
            Outcome::DrawContrast { family, mistake } => self.draw_contrast(&family, &mistake),
            Outcome::WriteAgain => self.write_again(),
            Outcome::GoOnWithout => self.go_on_without(),
            Outcome::Mend(line) => self.open_mending(line),
            Outcome::Mended { line, typed } => self.mended(line, &typed),
            Outcome::Sit { exam, minutes } => self.sit(&exam, minutes),
            Outcome::GoOnSitting(id) => self.go_on_sitting(id),
            Outcome::ShowMarks => self.show_marks(),
            Outcome::HandInPaper => self.hand_in_paper(),
            Outcome::GoThrough(area) => self.go_through(area),
            Outcome::HandInAnswers => self.hand_in_answers(),
            Outcome::ShowTried => self.show_tried(),
            Outcome::Order(order) => self.order(order),
            Outcome::MarkPaper(paper) => self.mark_paper(&paper),
            Outcome::Keyed(keyed) => self.keyed(keyed),
            Outcome::ShowSample => self.show_sample(),
            Outcome::PutOnBoard { code, mistake } => self.put_on_board(&code, &mistake),
            Outcome::Decide(decision) => self.decide(decision),
            Outcome::ShowFirst => self.show_first(),
            Outcome::Draw(family) => self.draw_sheet(&family, None),
            Outcome::Resume(index) => self.resume(index),
            Outcome::ShowWorked(family) => self.show_worked(&family),
            Outcome::Read(lesson) => self.open_lesson(&lesson),
            Outcome::Set {
                line,
                choices,
                last,
            } => {
                self.set(line, &choices);
                return !last || self.leave_set_up();
            }
        }
        true
    }

    fn back(&mut self) {
        if self.stack.len() < 2 {
            return;
        }
        match self.stack.pop() {
            Some(Screen::Sums(sums)) => self.keep_sums(&sums.left()),
            Some(Screen::SetUp(form)) => {
                let _ = self.desk.put_away(*form);
            }
            Some(Screen::Lesson(lesson)) => self.note_read(&lesson),
            Some(Screen::Result(result)) => self.marks = Some(result),
            Some(Screen::Answering(answering)) => self.put_answers_away(*answering),
            Some(Screen::Sheet(sheet)) if sheet.mending.is_some() => {
                if let Some(Screen::HandedIn(handed_in)) = self.stack.last_mut() {
                    handed_in.half_way.push(*sheet);
                }
            }
            Some(screen) if screen.is_half_way() => {
                self.waiting.insert(0, screen);
                self.say("kept: the sheet waits at the head of this list");
            }
            _ => {}
        }
        self.list_waiting();
    }

    fn list_waiting(&mut self) {
        let waiting: Vec<Waiting> = self.waiting.iter().filter_map(waiting).collect();
        for screen in &mut self.stack {
            match screen {
                Screen::Jobs(jobs) if jobs.waiting != waiting => jobs.set_waiting(waiting.clone()),
                Screen::Tonight(tonight) if tonight.waiting != waiting => {
                    tonight.set_waiting(waiting.clone());
                }
                _ => {}
            }
        }
    }

    fn front_page(&mut self) {
        while self.stack.len() > 1 {
            self.back();
        }
        if matches!(self.stack.first(), Some(Screen::Tonight(_))) {
            self.lay_front_page();
        }
    }

    fn open_slip(&mut self, line: Option<usize>, shown: bool) {
        let sheet = self.stack.last().and_then(Screen::sheet);
        let about = sheet.zip(line).and_then(|(sheet, line)| about(sheet, line));
        let tools = self.tools_here();
        let mut slip = Slip::new(about, tools);
        let sat = self.sitting().is_some() || self.answering().is_some();
        slip.no_help = sat.then_some(crate::sitting::NO_HELP);
        if let Some(about) = slip.about.as_mut().filter(|_| shown) {
            about.given = about.steps.len();
            let (line, steps) = (about.line, about.given);
            self.note_help(line, steps);
        }
        self.stack.push(Screen::Slip(slip));
    }

    fn note_help(&mut self, line: usize, steps: usize) {
        let sheet = self.stack.iter_mut().rev().find_map(Screen::sheet_mut);
        if let Some(helped) = sheet.and_then(|sheet| sheet.helped.get_mut(line)) {
            *helped = steps.max(*helped);
        }
    }

    fn take_tool(&mut self, tool: Tool) -> bool {
        self.put_slip_away();
        if self.take_class_tool(tool) {
            return true;
        }
        match tool {
            Tool::Quit => return false,
            Tool::Tonight => {
                self.front_page();
                self.lay_front_page();
            }
            Tool::Standing => self.open_standing(),
            Tool::NextNumbers => self.next_numbers(),
            Tool::Working if matches!(self.stack.last(), Some(Screen::Result(_))) => {
                self.go_through(None);
            }
            Tool::Working => self.show_working(),
            Tool::ViewTurn if self.board().is_some() => self.show_known_turn(),
            Tool::Exam => self.open_exams(),
            Tool::HandIn => match self.stack.last_mut() {
                Some(Screen::Sitting(sitting)) => sitting.close(),
                Some(Screen::Answering(answering)) => answering.close(),
                _ => {}
            },
            Tool::CarryOver => self.carry_over(),
            Tool::SetAside => self.set_aside(),
            Tool::Figure if self.answering().is_some() => self.open_figure_of_paper(),
            Tool::Figure => self.open_figure(),
            Tool::ViewTurn => self.open_turn(),
            Tool::SetUp => self.open_set_up(),
            Tool::Glossary => self.open_glossary(),
            Tool::Lesson => self.open_lesson_of_this(),
            Tool::Keys => {
                let tools = self.tools_here();
                self.stack.push(Screen::Reading(Reading::keys(&tools)));
            }
            Tool::PlainList => {
                let page = self.page();
                let lines = page.plain(self.look);
                self.stack
                    .push(Screen::Reading(Reading::list(&page.title, lines)));
            }
            Tool::HouseRules => {
                if let Some(problem) = self.problem() {
                    let reading = rules::reading(&problem, self.library.rules(self.system));
                    self.stack.push(Screen::Reading(reading));
                }
            }
            other => {
                let row = other.row();
                self.say(format!("{} {} has no use here", row.letter, row.name));
            }
        }
        true
    }

    /// The problem of the screen on top.
    fn problem(&self) -> Option<Rc<Problem>> {
        self.stack.last().and_then(Screen::problem).cloned()
    }

    fn next_numbers(&mut self) {
        if let Some(Screen::Lesson(lesson)) = self.stack.last() {
            match lesson.family.clone() {
                Some(family) => self.draw_from_lesson(&family),
                None => self.say("no job of this lesson can be drawn"),
            }
            return;
        }
        if self.board().is_some() {
            return self.board_again();
        }
        if let Some(problem) = self.problem() {
            let (family, level) = (problem.code.family.clone(), problem.code.level);
            self.draw_sheet(&family, Some(level));
        }
    }

    fn draw(&mut self, family: &str, level: Option<u8>) -> Result<Problem, DrawError> {
        let request = Request {
            family,
            level,
            system: self.system,
            draw: (self.draws)(),
            settings: &self.settings,
        };
        draw(self.library, &request)
    }

    /// Draws a sheet and lays it on the front page; what was begun waits.
    fn draw_sheet(&mut self, family: &str, level: Option<u8>) {
        let drawn = self.draw(family, level);
        self.lay_sheet(drawn);
    }

    /// Lays a drawn problem on the front page, for practice.
    fn lay_sheet(&mut self, drawn: Result<Problem, DrawError>) {
        match drawn {
            Ok(problem) => {
                self.front_page();
                self.message = None;
                let sheet = self.new_sheet(problem, Purpose::Practice);
                self.stack.push(Screen::Sheet(Box::new(sheet)));
            }
            Err(error) => self.say(error.to_string()),
        }
    }

    fn show_first(&mut self) {
        let Some(family) = shelf::first_family(self.library, self.system) else {
            self.stack.pop();
            return;
        };
        match self.draw(&family, None) {
            Ok(problem) => {
                self.stack.truncate(1);
                let worked = Worked::new(Rc::new(problem), None);
                self.stack.push(Screen::Worked(Box::new(worked)));
            }
            Err(error) => self.say(error.to_string()),
        }
    }

    /// The worked sheet of a sheet that was handed in; from there, the board.
    fn show_working(&mut self) {
        if let Some(Screen::Worked(worked)) = self.stack.last() {
            let problem = Rc::clone(&worked.problem);
            return self.open_board(problem, None);
        }
        if let Some(Screen::HandedIn(handed_in)) = self.stack.last_mut() {
            handed_in.worked = true;
            let marked = handed_in.now_marked.clone();
            let mut worked = Worked::new(Rc::clone(handed_in.problem()), Some(marked));
            worked.back = handed_in.sheet.back.clone();
            worked.written = Some(handed_in.now.clone());
            self.stack.push(Screen::Worked(Box::new(worked)));
        }
    }

    fn open_mending(&mut self, line: usize) {
        if let Some(Screen::HandedIn(handed_in)) = self.stack.last_mut() {
            let mut sheet = handed_in.once_more(line);
            sheet.back = handed_in.sheet.back.clone();
            self.stack.push(Screen::Sheet(Box::new(sheet)));
        }
    }

    fn mended(&mut self, line: usize, typed: &str) {
        let helped = match self.stack.pop() {
            Some(Screen::Sheet(sheet)) => sheet.helped.get(line).copied().unwrap_or(0),
            _ => 0,
        };
        let Some(Screen::HandedIn(handed_in)) = self.stack.last_mut() else {
            return;
        };
        let number = number(handed_in.problem(), line).unwrap_or(1);
        let marked = handed_in.mend(line, typed, helped);
        if let Some(words) = marked.map(|marked| marked.words.clone()) {
            self.say(format!(
                "line {number}: {words}; the marks stay as they are"
            ));
        }
    }

    fn resume(&mut self, index: usize) {
        if index < self.waiting.len() {
            let screen = self.waiting.remove(index);
            self.list_waiting();
            self.stack.push(screen);
        }
    }
}

impl Trainer<'_> {
    fn put_slip_away(&mut self) {
        if let Some(Screen::Slip(_)) = self.stack.last() {
            self.stack.pop();
        }
    }

    fn set_aside(&mut self) {
        if let Some(Screen::Sitting(sitting)) = self.stack.last_mut() {
            let words = sitting.leave_for_later();
            return self.say(words);
        }
        let aside = |screen: &Screen| screen.sheet().is_some_and(|sheet| sheet.mending.is_none());
        if self.stack.last().is_some_and(aside)
            && let Some(screen) = self.stack.pop()
        {
            self.waiting.insert(0, screen);
            self.front_page();
            self.list_waiting();
            self.say("set aside: the sheet waits at the head of this list");
        }
    }
}

impl Runs for Trainer<'_> {
    fn draw(&mut self, buffer: &mut Buffer) -> Option<Position> {
        self.resize(Size {
            columns: buffer.area.width.into(),
            rows: buffer.area.height.into(),
        });
        let laid = self.lay();
        paint::paint(&self.page(), &laid, self.look, buffer)
    }

    fn press(&mut self, press: Press) -> bool {
        self.take(press)
    }

    fn news(&mut self) -> bool {
        let news = self.desk.news();
        let any = news.is_some();
        self.message = news.or_else(|| self.message.take());
        let receipts = self.take_receipts();
        let told = self.hear_office();
        self.tick() || receipts || any || told
    }

    fn waits(&self) -> bool {
        self.waits_for_the_disk() || self.paper_waits_for_the_disk()
    }
}

fn about(sheet: &Sheet, line: usize) -> Option<About> {
    let number = number(&sheet.problem, line)?;
    let steps = help(&sheet.problem, line);
    let given = sheet.helped.get(line).copied().unwrap_or(0);
    Some(About {
        line,
        number,
        steps,
        given,
    })
}

/// How a sheet that waits stands in the list.
fn waiting(screen: &Screen) -> Option<Waiting> {
    let problem = screen.problem()?;
    let line = match screen {
        Screen::Sheet(sheet) => sheet.line(),
        Screen::HandedIn(handed_in) => handed_in.to_mend(),
        _ => None,
    };
    Some(Waiting {
        family: problem.family.id.clone(),
        line: line.and_then(|line| number(problem, line)).unwrap_or(1),
        lines: asked(problem),
        handed_in: matches!(screen, Screen::HandedIn(_)),
    })
}
