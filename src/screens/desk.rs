//! The person at the screen: what was set, and who keeps it. Nothing is written
//! to disk here.

use pumpwright_engine::entries::{Circumstances, Entry, Place, entry};
use pumpwright_engine::lessons::Fault;
use pumpwright_engine::marking::Marked;

use crate::calendar::Date;
use crate::clerk::{Clerk, InMemory};
use crate::fault::{Faults, Of};
use crate::handed_in::HandedIn;
use crate::layout::Scroll;
use crate::office::{NoOffice, Office};
use crate::outcome::Outcome;
use crate::result::PaperResult;
use crate::screen::Screen;
use crate::set_up::{Checked, Choices, Form, Line, SetUp};
use crate::sheet::Sheet;

/// Who keeps what is set. No key waits for it.
pub trait Keeper {
    /// Takes what is set, to be kept; comes back at once.
    fn keep(&mut self, set: &SetUp);
    /// What has to be said about it since, if anything.
    fn news(&mut self) -> Option<String>;
}

/// What the caller knows of the person at the screen.
pub struct Person<'a> {
    /// What this person set.
    pub set: SetUp,
    /// What holds where nothing is set.
    pub default: Choices,
    /// Under which name this run goes, whatever is set.
    pub called: Option<String>,
    /// The user of this machine, who a sheet without a name belongs to.
    pub user: String,
    /// Whether set-up was ever asked, so that it is not asked again.
    pub asked: bool,
    /// The fault of the settings file, if it cannot be read.
    pub fault: Option<Fault>,
    /// Who keeps what is set.
    pub keeper: Box<dyn Keeper + 'a>,
    /// Who keeps the record of what is handed in.
    pub clerk: Box<dyn Clerk + 'a>,
    /// Who keeps the folders of classes.
    pub office: Box<dyn Office + 'a>,
}

/// Keeps nothing: what is set holds until the stop.
struct Forgets;

impl Keeper for Forgets {
    fn keep(&mut self, _: &SetUp) {}

    fn news(&mut self) -> Option<String> {
        None
    }
}

impl Person<'_> {
    /// Somebody of whom nothing is known, and nothing is kept.
    pub fn unknown(default: Choices) -> Self {
        Self {
            set: SetUp::default(),
            default,
            called: None,
            user: String::new(),
            asked: true,
            fault: None,
            keeper: Box::new(Forgets),
            clerk: Box::new(InMemory::default()),
            office: Box::new(NoOffice::default()),
        }
    }
}

/// The person at the screen, and what set-up is in the middle of.
pub struct Desk<'a> {
    person: Person<'a>,
    /// The name that was set; empty for this machine's user.
    pub name: String,
    /// When a sheet is checked.
    pub checked: Checked,
    /// The day of the exam.
    pub exam: Option<Date>,
    /// The form as it was left half-way.
    half_way: Option<Form>,
    /// What was asked for when set-up was offered, and is done after it.
    after: Option<Outcome>,
}

impl<'a> Desk<'a> {
    /// The desk of this person.
    pub fn of(person: Person<'a>) -> Self {
        let called = person.called.clone();
        let name = called
            .or_else(|| person.set.name.clone())
            .unwrap_or_default();
        let checked = person.set.checked.unwrap_or(person.default.checked);
        let exam = person.set.exam.or(person.default.exam);
        Self {
            person,
            name,
            checked,
            exam,
            half_way: None,
            after: None,
        }
    }

    /// The desk of this person. Whose record it is the clerk knows; a name that is set
    /// changes what stands on the sheets, and parts nobody from the record.
    pub fn open(person: Person<'a>) -> Self {
        let mut desk = Self::of(person);
        if desk.person.clerk.person().is_empty() {
            let whose = desk.whose().to_owned();
            desk.person.clerk.is_for(&whose);
        }
        desk
    }

    /// What is written down of a sheet that was handed in.
    pub fn entry_of(&mut self, handed_in: &HandedIn, place: Place) -> Entry {
        self.entry_with(&handed_in.sheet, &handed_in.marked, place)
    }

    /// What is written down of the questions of a paper that was handed in: one entry
    /// each, with the sitting and the area.
    pub fn entries_of(&mut self, result: &PaperResult, place: Place) -> Vec<Entry> {
        let sitting = &result.sitting;
        let questions = sitting.paper.questions.iter().zip(&sitting.sheets);
        let questions = questions.zip(&result.marked.questions);
        let entries = questions.map(|((question, sheet), marked)| {
            let area = sitting.paper.exam.areas.get(question.area);
            Entry {
                sitting: Some(sitting.id.to_string()),
                area: area.map(|area| area.name.clone()),
                ..self.entry_with(sheet, &marked.marked, place)
            }
        });
        entries.collect()
    }

    fn entry_with(&mut self, sheet: &Sheet, marked: &Marked, place: Place) -> Entry {
        let clerk = &mut self.person.clerk;
        let now = clerk.now();
        let by = Circumstances {
            id: sheet.id.unwrap_or_else(|| clerk.fresh_id()),
            person: clerk.person().to_owned(),
            at: now.milliseconds,
            zone: now.zone,
            purpose: sheet.purpose,
            place,
            seconds: sheet.spent.seconds(),
            helped: sheet.helped.clone(),
            line_seconds: sheet.spent.line_seconds(),
            given: sheet.given.clone(),
            program: clerk.program().to_owned(),
        };
        entry(&sheet.problem, marked, by)
    }

    /// Whose sheets these are.
    pub fn whose(&self) -> &str {
        if self.name.is_empty() {
            &self.person.user
        } else {
            &self.name
        }
    }

    /// The fault of the settings file, as a screen.
    pub fn fault(&mut self) -> Option<Screen> {
        let fault = self.person.fault.take()?;
        Some(Screen::Faults(Faults {
            all: vec![fault],
            at: 0,
            of: Of::Settings,
            families: 0,
            scroll: Scroll::default(),
        }))
    }

    /// Whether set-up is still to be offered.
    pub const fn offers(&self) -> bool {
        !self.person.asked
    }

    /// Set-up is asked: not again. A file that stands there says so from then on.
    pub fn ask(&mut self, after: Option<Outcome>) {
        if !self.person.asked {
            self.person.asked = true;
            self.person.keeper.keep(&self.person.set);
        }
        self.after = after;
    }

    /// The form as it was left half-way, or anew.
    pub fn form(&mut self, now: Choices, offered: bool) -> Form {
        let half_way = self.half_way.take();
        half_way.unwrap_or_else(|| Form::new(now, offered))
    }

    /// A line of the form holds from now on, and is kept.
    pub fn set(&mut self, line: Line, choices: &Choices) {
        let person = &mut self.person;
        let set = person.set.clone().with(line, choices, &person.default);
        if set != person.set {
            person.set = set;
            person.keeper.keep(&person.set);
        }
        self.name.clone_from(&choices.name);
        self.checked = choices.checked;
        self.exam = choices.exam;
    }

    /// Who keeps the folders of classes.
    pub fn office(&mut self) -> &mut (dyn Office + 'a) {
        &mut *self.person.office
    }

    /// The folder of the class that was open last.
    pub fn class(&self) -> Option<String> {
        self.person.set.class.clone()
    }

    /// This class is open now, and is remembered.
    pub fn keep_class(&mut self, folder: &str) {
        let person = &mut self.person;
        if person.set.class.as_deref() != Some(folder) {
            person.set.class = Some(folder.to_owned());
            person.keeper.keep(&person.set);
        }
    }

    /// Who keeps the record of what is handed in.
    pub fn clerk(&mut self) -> &mut (dyn Clerk + 'a) {
        &mut *self.person.clerk
    }

    /// The record, to be read.
    pub fn record(&self) -> &(dyn Clerk + 'a) {
        &*self.person.clerk
    }

    /// The form is put away; says what comes after it.
    pub fn put_away(&mut self, mut form: Form) -> Option<Outcome> {
        if form.is_half_way() {
            form.offered = false;
            self.half_way = Some(form);
        }
        self.after.take()
    }

    /// What there is to say about what was to be kept.
    pub fn news(&mut self) -> Option<String> {
        let news = self.person.keeper.news();
        news.or_else(|| self.person.clerk.news())
    }
}
