//! A class in the trainer: its work order, marking with the pen, and what its office
//! tells.

use std::rc::Rc;

use super::Trainer;
use crate::class::{Asks, Class};
use crate::class_report::ReportSheet;
use crate::keys::Tool;
use crate::office::{Decision, Keyed, Order, Told};
use crate::page::{Cell, Entry, Role};
use crate::pen::{Pen, Reason};
use crate::plan_sheet::{self, PlanSheet};
use crate::reading::Reading;
use crate::screen::Screen;
use crate::worked::Worked;

impl Trainer<'_> {
    /// Opens the work order: that of the class that is open, else of the one that was
    /// open last. Where it lies on top, another folder can be named.
    pub(super) fn open_class(&mut self, folder: Option<String>) {
        if let Some(at) = self.stack.iter().rposition(is_class) {
            let on_top = at + 1 == self.stack.len();
            while self.stack.len() > at + 1 {
                self.back();
            }
            if let Some(class) = self.class().filter(|_| on_top) {
                let folder = class.folder.clone();
                class.ask(Asks::Folder, &folder);
            }
            return;
        }
        let known = folder.or_else(|| self.desk.class());
        let mut class = Class::of(known.as_deref().unwrap_or_default());
        if known.is_some() {
            class.asks = None;
            class.busy = Some("the folder is being read");
        }
        self.stack.push(Screen::Class(Box::new(class)));
        if let Some(folder) = known {
            self.order(Order::Open(folder));
        }
    }

    /// The work order, wherever it lies.
    fn class(&mut self) -> Option<&mut Class> {
        self.stack.iter_mut().rev().find_map(|screen| match screen {
            Screen::Class(class) => Some(&mut **class),
            _ => None,
        })
    }

    fn pen(&mut self) -> Option<&mut Pen> {
        self.stack.iter_mut().rev().find_map(|screen| match screen {
            Screen::Pen(pen) => Some(&mut **pen),
            _ => None,
        })
    }

    /// Hands an order over; what came of others meanwhile is heard.
    pub(crate) fn order(&mut self, order: Order) {
        let manner = self.manner;
        self.desk.office().order(order, manner);
        self.hear_office();
    }

    /// Takes in what the office told; says whether anything was.
    pub(super) fn hear_office(&mut self) -> bool {
        let mut heard = false;
        while let Some(told) = self.desk.office().told() {
            self.hear(told);
            heard = true;
        }
        heard
    }

    fn hear(&mut self, told: Told) {
        match told {
            Told::Now(now) => {
                self.desk.keep_class(&now.folder);
                if let Some(class) = self.class() {
                    class.busy = None;
                    class.asks = None;
                    class.take_in(now);
                }
            }
            Told::NoClass { folder, why } => {
                if let Some(class) = self.class() {
                    class.busy = None;
                    class.now = None;
                    class.folder = folder;
                    class.ask(Asks::List, "");
                }
                self.say(why);
            }
            Told::Done(lines) => {
                if let Some(class) = self.class() {
                    class.busy = None;
                }
                if self.stack.last().is_some_and(is_class) {
                    let lines = lines.into_iter();
                    let lines =
                        lines.map(|line| Entry::of(Role::Note, vec![Cell::rest(line).hang(2)]));
                    let reading = Reading::new("WHAT WAS DONE", "", lines.collect());
                    self.stack.push(Screen::Reading(reading));
                }
            }
            Told::Samples(samples) => {
                let on_top = self.stack.last().is_some_and(is_class);
                if let Some(class) = self.class() {
                    class.busy = None;
                }
                if on_top {
                    let sheet = PlanSheet::new(samples);
                    self.stack.push(Screen::Plan(Box::new(sheet)));
                }
            }
            Told::Pages(plan, pages) => {
                let sheets = self.stack.iter_mut().filter_map(|screen| match screen {
                    Screen::Plan(sheet) => Some(sheet),
                    _ => None,
                });
                for sheet in sheets.filter(|sheet| sheet.samples.plan.id == plan) {
                    sheet.samples.pages = pages.clone();
                }
            }
            Told::Report(report) => {
                let on_top = self.stack.last().is_some_and(is_class);
                if let Some(class) = self.class() {
                    class.busy = None;
                }
                if on_top {
                    let sheet = ReportSheet::new(report);
                    self.stack.push(Screen::Report(Box::new(sheet)));
                }
            }
            Told::Given(given) => {
                if matches!(self.stack.last(), Some(Screen::Exams(_))) {
                    self.open_given(*given);
                } else {
                    self.say("the paper was read: ? then E, and name it once more");
                }
            }
            Told::Answered(answered) => self.answers_kept(&answered),
            Told::NotAnswered(answered, why) => self.answers_not_kept(&answered, &why),
            Told::Kept(keyed) if keyed.whole => self.filed(&keyed.paper),
            Told::Kept(keyed) => {
                let done = keyed.items.iter().flatten().count();
                self.say(format!(
                    "kept: {} of paper {}",
                    crate::words::count(done, "item", "items"),
                    keyed.paper
                ));
            }
            Told::NotKept(keyed, why) => {
                if let Some(pen) = self.pen().filter(|pen| pen.paper == keyed.paper) {
                    pen.filing = false;
                }
                self.say(format!("paper {} is not kept: {why}", keyed.paper));
            }
            Told::Refused(why) => {
                if let Some(class) = self.class() {
                    class.busy = None;
                    if class.now.is_none() {
                        let folder = class.folder.clone();
                        class.ask(Asks::Folder, &folder);
                    }
                }
                self.say(why);
            }
        }
    }

    /// A paper is filed: back to the work order, at the next who waits.
    fn filed(&mut self, paper: &str) {
        let mine = |pen: &Pen| pen.filing && pen.paper == paper;
        let Some(name) = self
            .pen()
            .filter(|pen| mine(pen))
            .map(|pen| pen.name.clone())
        else {
            return;
        };
        while !self.stack.last().is_some_and(is_class) && self.stack.len() > 1 {
            let _ = self.stack.pop();
        }
        if let Some(class) = self.class() {
            if let Some(now) = &mut class.now {
                now.keyed.remove(paper);
            }
            let next = class.now.as_ref().and_then(|now| {
                let people = now.people.iter();
                people
                    .skip(class.picked.pen + 1)
                    .position(|person| crate::class::waits(now, &person.id))
            });
            let at = next.map_or(class.picked.pen, |next| class.picked.pen + 1 + next);
            class.go(at);
        }
        self.say(format!("kept: the paper of {name}"));
    }

    /// Opens a paper for the pen, as it was left.
    pub(super) fn mark_paper(&mut self, paper: &str) {
        let manner = self.manner;
        let pen = self.class().and_then(|class| {
            let now = class.now.as_ref()?;
            Pen::of(now, paper, manner)
        });
        match pen {
            Some(pen) => self.stack.push(Screen::Pen(Box::new(pen))),
            None => self.say("this paper cannot be read; it is not marked with the pen"),
        }
    }

    /// What was keyed goes to the disk; the work order knows of it at once.
    pub(super) fn keyed(&mut self, keyed: Keyed) {
        if let Some(now) = self.class().and_then(|class| class.now.as_mut()) {
            now.keyed.insert(keyed.paper.clone(), keyed.clone());
        }
        self.order(Order::Key(keyed));
    }

    /// Shows the sample of the plan that is looked at.
    pub(super) fn show_sample(&mut self) {
        let width = crate::layout::text_width(self.size);
        let shown = match self.stack.last() {
            Some(Screen::Plan(sheet)) => plan_sheet::sample(sheet, width),
            _ => None,
        };
        match shown {
            Some(reading) => self.stack.push(Screen::Reading(reading)),
            None => self.say("this item has no sample"),
        }
    }

    /// What was decided goes to the disk.
    pub(super) fn decide(&mut self, decision: Decision) {
        self.order(Order::Decide(decision));
    }

    /// A tool of the class; says whether it is one.
    pub(super) fn take_class_tool(&mut self, tool: Tool) -> bool {
        match (tool, self.stack.last_mut()) {
            (Tool::Class, _) => self.open_class(None),
            (Tool::Mark, Some(Screen::Class(class))) => class.ask(Asks::Answers, ""),
            (Tool::Plan, Some(Screen::Class(class))) => {
                if class.now.as_ref().is_none_or(|now| now.plan.is_none()) {
                    self.say("there is no plan yet");
                } else {
                    class.busy = Some("samples are being drawn");
                    self.order(Order::Samples);
                }
            }
            (Tool::Report, Some(Screen::Class(class))) => {
                if class.now.as_ref().is_none_or(|now| now.papers.is_empty()) {
                    self.say("there is nothing to report yet: papers come first");
                } else {
                    class.busy = Some("the report is being made");
                    self.order(Order::Report);
                }
            }
            (Tool::Plan, Some(Screen::Report(_))) => {
                let _ = self.stack.pop();
                return self.take_class_tool(Tool::Plan);
            }
            (Tool::SitIt, Some(Screen::Plan(_))) => self.sit_the_plan(),
            (Tool::NextNumbers, Some(Screen::Class(class))) => {
                let outcome = crate::class::ask_make_up(class);
                return self.follow(outcome);
            }
            (Tool::NextNumbers, Some(Screen::Plan(sheet))) => {
                sheet.sample = (sheet.sample + 1) % 3;
                self.show_sample();
            }
            (Tool::Ink, Some(Screen::Plan(_))) => {
                let _ = self.stack.pop();
                return self.take_class_tool(Tool::Ink);
            }
            (Tool::Ink, Some(Screen::Class(class))) => {
                let ready = class.now.as_ref().is_some_and(|now| now.plan.is_some());
                if !ready {
                    self.say("there is nothing to print yet: a plan comes first");
                    return true;
                }
                let outcome = crate::class::print(class);
                return self.follow(outcome);
            }
            (Tool::DropItem, Some(Screen::Pen(pen))) => pen.ask(Reason::Drop),
            (Tool::Judge, Some(Screen::Pen(pen))) => pen.ask(Reason::Judge),
            (Tool::Working, Some(Screen::Pen(pen))) => {
                let problem = pen.problem().map(Rc::clone);
                match problem {
                    Some(problem) => {
                        let worked = Worked::new(problem, None);
                        self.stack.push(Screen::Worked(Box::new(worked)));
                    }
                    None => self.say("this item cannot be made again by its record"),
                }
            }
            _ => return false,
        }
        true
    }
}

const fn is_class(screen: &Screen) -> bool {
    matches!(screen, Screen::Class(_))
}
