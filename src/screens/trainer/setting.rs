//! Set-up in the trainer: when it is offered, and how what is set comes to hold.

use super::Trainer;
use crate::keys::Tool;
use crate::outcome::Outcome;
use crate::screen::Screen;
use crate::set_up::{Choices, Line, Signs};

/// So many sheets are handed in before set-up is offered.
const SHEETS_FIRST: usize = 2;

impl Trainer<'_> {
    /// Whether this is the moment to offer set-up: two sheets are done, and the
    /// second is being left.
    pub(super) fn offers_set_up(&self, outcome: &Outcome) -> bool {
        if !self.desk.offers() || self.sheets < SHEETS_FIRST {
            return false;
        }
        let mut screens = self.stack.iter().rev();
        match screens.find(|screen| !matches!(screen, Screen::Slip(_))) {
            Some(Screen::HandedIn(_)) => matches!(
                outcome,
                Outcome::Back | Outcome::Take(Tool::NextNumbers | Tool::Tonight)
            ),
            Some(Screen::Worked(_)) => matches!(outcome, Outcome::Take(Tool::NextNumbers)),
            _ => false,
        }
    }

    /// Offers set-up; what was asked for is done after it.
    pub(super) fn offer_set_up(&mut self, outcome: Outcome) {
        self.put_slip_away();
        self.desk.ask(Some(outcome));
        self.lay_form(true);
    }

    /// Opens set-up, as it was left.
    pub(super) fn open_set_up(&mut self) {
        self.desk.ask(None);
        self.lay_form(false);
    }

    fn lay_form(&mut self, offered: bool) {
        let now = Choices {
            name: self.desk.name.clone(),
            units: self.system,
            decimal: self.manner.decimal,
            signs: if self.look.ascii {
                Signs::Ascii
            } else {
                Signs::Drawn
            },
            checked: self.desk.checked,
            exam: self.desk.exam,
        };
        let form = self.desk.form(now, offered);
        self.stack.push(Screen::SetUp(Box::new(form)));
    }

    /// Lets a line of the form hold from now on; a sheet that is begun stays as it is.
    pub(super) fn set(&mut self, line: Line, choices: &Choices) {
        self.desk.set(line, choices);
        self.system = choices.units;
        self.manner.decimal = choices.decimal;
        self.look.ascii = choices.signs == Signs::Ascii;
        match self.stack.first_mut() {
            Some(Screen::Jobs(jobs)) => self.desk.whose().clone_into(&mut jobs.name),
            Some(Screen::Tonight(tonight)) => self.desk.whose().clone_into(&mut tonight.name),
            _ => {}
        }
    }

    /// Puts the form away and does what was asked for before it; says whether to go on.
    pub(super) fn leave_set_up(&mut self) -> bool {
        let Some(Screen::SetUp(form)) = self.stack.pop() else {
            return true;
        };
        let waits = form.is_half_way();
        let after = self.desk.put_away(*form);
        let goes_on = after.is_none_or(|outcome| self.follow(outcome));
        if waits {
            self.say("kept: what is not done with Enter waits in set-up");
        }
        goes_on
    }
}
