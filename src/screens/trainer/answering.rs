//! A paper of a class that is answered here: one that was given as a file, and the
//! instructor's own try of the plan, of which nothing is kept.

use std::rc::Rc;

use pumpwright_engine::classes::sit::SitPaper;

use super::Trainer;
use crate::answering::{Answering, Goes};
use crate::office::{Answered, Given, Order};
use crate::page::{Cell, Entry, Role};
use crate::plan_sheet::unseen;
use crate::reading::Reading;
use crate::screen::Screen;
use crate::tables::{self, Tables};
use crate::trial::{Trial, ready};

const MINUTE: i64 = 60_000;

impl Trainer<'_> {
    /// The paper that is answered, under whatever lies on it.
    pub(super) fn answering(&self) -> Option<&Answering> {
        self.stack.iter().rev().find_map(|screen| match screen {
            Screen::Answering(answering) => Some(&**answering),
            _ => None,
        })
    }

    pub(super) fn answering_mut(&mut self) -> Option<&mut Answering> {
        self.stack.iter_mut().rev().find_map(|screen| match screen {
            Screen::Answering(answering) => Some(&mut **answering),
            _ => None,
        })
    }

    /// Opens a paper that was given as a file, as it was left.
    pub(super) fn open_given(&mut self, given: Given) {
        self.front_page();
        self.message = None;
        let answering = Answering::given(given, self.manner.decimal);
        if answering.is_begun() {
            self.say("it goes on where it was stopped");
        }
        self.stack.push(Screen::Answering(Box::new(answering)));
    }

    /// What is written goes to the disk, as soon as it is.
    pub(super) fn keep_answers(&mut self) {
        let Some(answering) = self.answering_mut().filter(|own| own.changed) else {
            return;
        };
        answering.changed = false;
        if let Some(answered) = answering.answered(false) {
            self.order(Order::Answer(Box::new(answered)));
        }
    }

    /// Hands the paper in; the instructor's own try is marked here.
    pub(super) fn hand_in_answers(&mut self) {
        let answering = self.answering_mut();
        let Some(answered) = answering.and_then(|own| own.answered(true)) else {
            return self.mark_own_try();
        };
        if let Some(answering) = self.answering_mut() {
            answering.handing_in = true;
            answering.changed = false;
        }
        self.order(Order::Answer(Box::new(answered)));
    }

    /// The answers are on the disk: says where, and what to do with them.
    pub(super) fn answers_kept(&mut self, answered: &Answered) {
        let out = &answered.out;
        if !answered.whole {
            return;
        }
        let mine = |screen: &Screen| matches!(screen, Screen::Answering(own) if own.handing_in);
        while self.stack.iter().any(mine) {
            let _ = self.stack.pop();
        }
        self.answers = Some(format!(
            "Handed in as {out}. Give that file to your instructor."
        ));
        let line = |text: &str| Entry::of(Role::Text, vec![Cell::rest(text).hang(2)]);
        let lines = vec![
            line(&format!("Handed in as {out}")),
            line("Give that file to your instructor. It says what you wrote and when."),
        ];
        let reading = Reading::new("PAPER, HANDED IN", &answered.answers.name, lines);
        self.stack.push(Screen::Reading(reading));
    }

    /// The answers are not on the disk; what is written stays on the screen.
    pub(super) fn answers_not_kept(&mut self, answered: &Answered, why: &str) {
        if let Some(answering) = self.answering_mut() {
            answering.handing_in = false;
            // The next press tries it again.
            answering.changed = !answered.whole;
        }
        self.say(format!("not kept: {why}"));
    }

    /// A paper that is put away half-way: where it waits is said.
    pub(super) fn put_answers_away(&mut self, answering: Answering) {
        match (&answering.goes, self.stack.last_mut()) {
            (Goes::Nowhere { .. }, Some(Screen::Plan(sheet))) => {
                sheet.tried = Some(Box::new(answering));
                self.say("your try waits as long as this plan is open: ? then X");
            }
            (Goes::File(out), _) if answering.is_begun() => {
                let words = format!("not handed in; kept beside {out}");
                self.answers = Some(format!(
                    "The paper is not handed in; what you wrote is kept in {out}.draft."
                ));
                self.say(words);
            }
            _ => {}
        }
    }

    /// Opens a draw of the plan as somebody gets it: none of the samples whose answers
    /// stand beside it.
    pub(super) fn sit_the_plan(&mut self) {
        let since = self.desk.clerk().now().milliseconds;
        let number = (self.draws)() as usize;
        let Some(Screen::Plan(sheet)) = self.stack.last_mut() else {
            return;
        };
        if let Some(tried) = sheet.tried.take() {
            self.stack.push(Screen::Answering(tried));
            return self.say("it goes on where it was left");
        }
        let Some(paper) = unseen(&sheet.samples.papers, number) else {
            return self.say("this plan cannot be drawn");
        };
        let trial = (Rc::new(ready(paper)), since);
        let answering = Answering::tried(SitPaper::of(paper), trial, self.manner.decimal);
        self.stack.push(Screen::Answering(Box::new(answering)));
    }

    fn mark_own_try(&mut self) {
        let now = self.desk.clerk().now().milliseconds;
        let manner = self.manner;
        let sat = |screen: &Screen| matches!(screen, Screen::Answering(_));
        let Some(place) = self.stack.iter().rposition(sat) else {
            return;
        };
        self.stack.truncate(place + 1);
        let Some(Screen::Answering(answering)) = self.stack.pop() else {
            return;
        };
        if let Goes::Nowhere { ready, since } = &answering.goes {
            let minutes = (now - since).max(0).div_euclid(MINUTE);
            let trial = Trial::of(Rc::clone(ready), answering.written(), minutes, manner);
            self.stack.push(Screen::Trial(Box::new(trial)));
        }
    }

    /// Shows the item of the tried paper with the pen, worked.
    pub(super) fn show_tried(&mut self) {
        let worked = match self.stack.last() {
            Some(Screen::Trial(trial)) => trial.worked(),
            _ => None,
        };
        match worked {
            Some(worked) => self.stack.push(Screen::Worked(Box::new(worked))),
            None => self.say("this item cannot be shown"),
        }
    }

    /// The tables that may be open beside the paper.
    pub(super) fn open_tables_of_paper(&mut self) {
        let Some(answering) = self.answering() else {
            return;
        };
        let sentence = &answering.paper.head.tables;
        match tables::beside(self.library, &self.settings, sentence, answering.item()) {
            Ok(leaves) => {
                let tables = Tables::new(leaves, 0, None);
                self.stack.push(Screen::Tables(Box::new(tables)));
            }
            Err(sentence) => self.say(sentence),
        }
    }

    /// The figure of the open item, as the file has it.
    pub(super) fn open_figure_of_paper(&mut self) {
        let Some(item) = self.answering().and_then(Answering::item) else {
            return;
        };
        let Some(figure) = &item.figure else {
            return self.say("this item has no figure");
        };
        let wide = figure.drawn.iter().map(|row| crate::wrap::cells(row)).max();
        if self.look.ascii || wide.unwrap_or(0) > crate::layout::text_width(self.size) {
            return self
                .say("the figure stands on the sheet as a list; it needs signs and 80 columns");
        }
        let rows = figure.drawn.iter();
        let rows = rows.map(|row| Entry::of(Role::Drawing, vec![Cell::rest(row.as_str()).kept()]));
        let reading = Reading::new("FIGURE", "what is asked is left out", rows.collect());
        self.stack.push(Screen::Reading(reading));
    }
}
