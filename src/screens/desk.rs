//! Set-up in the trainer: what was set, when it is offered, and how it comes to
//! hold. Nothing is written to disk here; the caller keeps what is set.

use pumpwright_engine::lessons::Fault;

use crate::fault::{Faults, Of};
use crate::keys::Tool;
use crate::layout::Scroll;
use crate::outcome::Outcome;
use crate::screen::Screen;
use crate::set_up::{Checked, Choices, Form, Line, SetUp, Signs};
use crate::trainer::Trainer;

/// So many sheets are handed in before set-up is offered.
const SHEETS_FIRST: usize = 2;

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
    /// The user of this machine, who a sheet without a name belongs to.
    pub user: String,
    /// Whether set-up was ever asked, so that it is not asked again.
    pub asked: bool,
    /// The fault of the settings file, if it cannot be read.
    pub fault: Option<Fault>,
    /// Who keeps what is set.
    pub keeper: Box<dyn Keeper + 'a>,
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
            user: String::new(),
            asked: true,
            fault: None,
            keeper: Box::new(Forgets),
        }
    }
}

/// The person at the screen, and what set-up is in the middle of.
pub struct Desk<'a> {
    person: Person<'a>,
    name: String,
    pub(crate) checked: Checked,
    /// The form as it was left half-way.
    half_way: Option<Form>,
    /// What was asked for when set-up was offered, and is done after it.
    after: Option<Outcome>,
}

impl<'a> Desk<'a> {
    /// The desk of this person.
    pub fn of(person: Person<'a>) -> Self {
        let name = person.set.name.clone().unwrap_or_default();
        let checked = person.set.checked.unwrap_or(person.default.checked);
        Self {
            person,
            name,
            checked,
            half_way: None,
            after: None,
        }
    }

    /// Whose sheets these are.
    pub fn name(&self) -> &str {
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

    /// What there is to say about what was to be kept.
    pub fn news(&mut self) -> Option<String> {
        self.person.keeper.news()
    }
}

impl Trainer<'_> {
    /// Whether this is the moment to offer set-up: two sheets are done, and the
    /// second is being left.
    pub(crate) fn offers_set_up(&self, outcome: &Outcome) -> bool {
        if self.desk.person.asked || self.sheets() < SHEETS_FIRST {
            return false;
        }
        let mut screens = self.screens().iter().rev();
        let under = screens.find(|screen| !matches!(screen, Screen::Slip(_)));
        match under {
            Some(Screen::HandedIn(_)) => matches!(
                outcome,
                Outcome::Back | Outcome::Take(Tool::NextNumbers | Tool::Tonight)
            ),
            Some(Screen::Worked(_)) => matches!(outcome, Outcome::Take(Tool::NextNumbers)),
            _ => false,
        }
    }

    /// Offers set-up; what was asked for is done after it.
    pub(crate) fn offer_set_up(&mut self, outcome: Outcome) {
        self.put_slip_away();
        self.desk.person.asked = true;
        self.desk.after = Some(outcome);
        self.desk.person.keeper.keep(&self.desk.person.set);
        let form = Form::new(self.choices(), true);
        self.lay_on_top(Screen::SetUp(Box::new(form)));
    }

    /// Opens set-up, as it was left.
    pub(crate) fn open_set_up(&mut self) {
        self.desk.person.asked = true;
        let form = self.desk.half_way.take();
        let form = form.unwrap_or_else(|| Form::new(self.choices(), false));
        self.lay_on_top(Screen::SetUp(Box::new(form)));
    }

    /// A line of the form holds from now on.
    pub(crate) fn set(&mut self, line: Line, choices: &Choices) {
        let person = &mut self.desk.person;
        let set = person.set.clone().with(line, choices, &person.default);
        if set != person.set {
            person.set = set;
            person.keeper.keep(&person.set);
        }
        self.desk.name.clone_from(&choices.name);
        self.desk.checked = choices.checked;
        self.hold(choices);
    }

    /// The form is put away; says what comes after it.
    pub(crate) fn left_set_up(&mut self, mut form: Form) -> Option<Outcome> {
        if form.is_half_way() {
            form.offered = false;
            self.desk.half_way = Some(form);
        }
        self.desk.after.take()
    }

    fn choices(&self) -> Choices {
        let (units, decimal, ascii) = self.holds();
        Choices {
            name: self.desk.name.clone(),
            units,
            decimal,
            signs: if ascii { Signs::Ascii } else { Signs::Drawn },
            checked: self.desk.checked,
        }
    }
}
