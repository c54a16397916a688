//! The evening in the trainer: the front page that the record makes, the sheets that
//! are taken from there, and where one stands.

use std::rc::Rc;

use pumpwright_engine::learner::standing as stands;
use pumpwright_engine::learner::{Desk, Stage, Support};
use pumpwright_engine::problems::Problem;

use super::Trainer;
use crate::calendar;
use crate::guide::Guide;
use crate::jobs::Jobs;
use crate::screen::Screen;
use crate::shelf;
use crate::tonight::{Planned, Tonight, plan, showing};
use crate::worked::Worked;

/// So many names stand in a note.
const NAMES: usize = 6;

impl Trainer<'_> {
    /// Whether the record says anything yet.
    pub(super) fn has_record(&self) -> bool {
        !self.desk.record().history().is_empty()
    }

    /// Does something with what the record says now.
    fn with_record<T>(&mut self, read: impl FnOnce(&Self, &Guide<'_>, &Desk<'_>) -> T) -> T {
        let library = self.library;
        let guide = match self.guide.take() {
            Some(guide) => guide,
            None => Guide::of(library),
        };
        let now = self.desk.clerk().now();
        let record = guide.record(self.desk.record().history());
        let desk = guide.desk(&record, now);
        let read = read(self, &guide, &desk);
        self.guide = Some(guide);
        read
    }

    /// Lays the front page that fits the record at the foot of the stack.
    pub(super) fn lay_front_page(&mut self) {
        if !self.has_record() || self.stack.is_empty() {
            return;
        }
        let planned = self.evening.take();
        let begun = planned.is_some();
        let (tonight, plan) = self.with_record(|trainer, guide, desk| {
            let plan = planned.unwrap_or_else(|| plan(desk, trainer.library));
            let tonight = Tonight {
                name: trainer.desk.whose().to_owned(),
                day: calendar::with_weekday(desk.now.day),
                exam: trainer
                    .desk
                    .exam
                    .map(|exam| until(calendar::count(exam), desk.now.day)),
                plan: plan.clone(),
                begun,
                notes: notes(guide, desk),
                faults: trainer.faults,
                ..Tonight::default()
            };
            (tonight, plan)
        });
        self.evening = Some(plan);
        let mut tonight = tonight;
        tonight.go(0);
        self.stack[0] = Screen::Tonight(Box::new(tonight));
        self.list_waiting();
    }

    /// A job of the evening is done, if it was one.
    pub(super) fn note_done(&mut self, family: &str) {
        if let Some(evening) = &mut self.evening
            && let Some(place) = evening.iter().position(|job| job.family == family)
        {
            evening.remove(place);
        }
    }

    /// Takes a job of the evening: worked first where that is what helps.
    pub(super) fn take_planned(&mut self, place: usize) {
        let planned = self.evening.as_ref().and_then(|evening| evening.get(place));
        let Some(planned) = planned.cloned() else {
            return;
        };
        let Some(problem) = self.drawn_for(&planned) else {
            return;
        };
        if planned.support == Support::Worked && !self.shown.contains(&planned.family) {
            self.shown.insert(planned.family);
            self.front_page();
            let worked = Worked::new(Rc::new(problem), None);
            self.stack.push(Screen::Worked(Box::new(worked)));
            self.say("first one that is filled in; then the same with other numbers, for you");
            return;
        }
        self.front_page();
        self.message = None;
        let mut sheet = self.new_sheet(problem, planned.purpose);
        if planned.support == Support::Part {
            sheet.give_first_half();
        }
        self.stack.push(Screen::Sheet(Box::new(sheet)));
    }

    fn drawn_for(&mut self, planned: &Planned) -> Option<Problem> {
        let Planned {
            family,
            level,
            contrast,
            ..
        } = planned;
        let drawn = showing(contrast.as_deref(), || self.draw(family, Some(*level)));
        drawn.map_err(|error| self.say(error.to_string())).ok()
    }

    /// Draws a sheet whose numbers show a mistake.
    pub(super) fn draw_contrast(&mut self, family: &str, mistake: &str) {
        let drawn = showing(Some(mistake), || self.draw(family, None));
        self.lay_sheet(drawn);
    }

    /// Opens the standing screen.
    pub(super) fn open_standing(&mut self) {
        if !self.has_record() {
            return self.say("there is no record yet: hand a sheet in first");
        }
        let standing = self.with_record(|trainer, guide, desk| {
            let lessons = (trainer.library, trainer.system);
            let exam = (guide.exam, trainer.desk.exam.map(calendar::count));
            let person = (trainer.desk.whose(), trainer.desk.record().history());
            crate::standing::read(desk, lessons, person, exam)
        });
        self.stack.push(Screen::Standing(Box::new(standing)));
    }

    /// Opens the list of lessons and jobs over the evening's page.
    pub(super) fn open_jobs(&mut self) {
        let mut jobs = Jobs::new(shelf::list(self.library), self.faults);
        self.desk.whose().clone_into(&mut jobs.name);
        jobs.over = true;
        self.stack.push(Screen::Jobs(jobs));
        self.list_waiting();
    }
}

/// The day of the exam, and what is left until then.
fn until(exam: i32, today: i32) -> String {
    let day = calendar::short(exam);
    match exam.saturating_sub(today) {
        0 => format!("{day}, today"),
        1 => format!("{day}, tomorrow"),
        days if days > 0 => format!("{day}, in {days} days"),
        _ => format!("{day}, gone by"),
    }
}

/// What stands under the evening's list: what one now does without help, and which
/// areas of the exam were not met.
fn notes(guide: &Guide<'_>, desk: &Desk<'_>) -> Vec<String> {
    let families = guide.curriculum.families().iter().enumerate();
    let holding: Vec<&str> = families
        .filter(|(place, _)| stands(desk.record, *place, desk.now).stage == Stage::Holding)
        .map(|(_, facts)| facts.id.as_str())
        .collect();
    let mut notes = Vec::new();
    if !holding.is_empty() {
        notes.push(format!("Without help you now do: {}.", some(&holding)));
    }
    if let Some(exam) = guide.exam {
        let met = |lesson: &String| {
            let families = guide.curriculum.families().iter().enumerate();
            families
                .filter(|(_, facts)| facts.lesson == *lesson)
                .any(|(place, _)| desk.record.families[place].responses > 0)
        };
        let open: Vec<String> = exam
            .areas
            .iter()
            .filter(|area| !area.lessons.iter().any(met))
            .map(|area| format!("{} ({} %)", area.name, area.weight))
            .collect();
        let open: Vec<&str> = open.iter().map(String::as_str).collect();
        if !open.is_empty() {
            notes.push(format!("Not met for the exam yet: {}.", some(&open)));
        }
    }
    notes
}

/// The first few of a list, and how many more there are.
fn some(names: &[&str]) -> String {
    let shown = names.get(..NAMES).unwrap_or(names).join("; ");
    match names.len().saturating_sub(NAMES) {
        0 => shown,
        more => format!("{shown} and {more} more"),
    }
}
