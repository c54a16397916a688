//! How plain lines say a job and ask for one of its lines.

use std::io;

use pumpwright_engine::problems::{Asks, Line, Problem};

use super::session::Session;
use crate::sheet::{asked, number};
use crate::words;

/// What is left out beside a blank, because it is so everywhere.
const USUAL_FORM: &str = "3 figures are enough";

impl Session<'_> {
    /// Says the head of a sheet: job, code, caution, the job in words.
    pub(super) fn head(&mut self, problem: &Problem) -> io::Result<()> {
        self.lines.say("job", words::title(problem))?;
        self.lines.say("code", &problem.code.to_string())?;
        self.job(problem)
    }

    /// Says a job: caution, the job in words, its figure, its house rules.
    pub(super) fn job(&mut self, problem: &Problem) -> io::Result<()> {
        if let Some(caution) = words::caution(problem) {
            self.lines.say("caution", &caution)?;
        }
        for paragraph in &problem.story {
            for sentence in words::sentences(paragraph) {
                self.lines.say("text", sentence)?;
            }
        }
        if let Some(figure) = &problem.figure {
            self.lines.say("figure", &figure.title)?;
            for sentence in figure.sentences() {
                self.lines.say("point", &sentence)?;
            }
        }
        for rule in &problem.rules {
            self.lines.say("text", &words::rule(rule))?;
        }
        if problem.training {
            self.lines.say("note", words::TRAINING)?;
        }
        Ok(())
    }

    /// Asks for a line: what can be chosen, then what is to be written.
    pub(super) fn ask_for(&mut self, problem: &Problem, index: usize) -> io::Result<()> {
        let Some(line) = problem.lines.get(index) else {
            return Ok(());
        };
        let number = number(problem, index).unwrap_or(1);
        self.offers(line)?;
        let prefix = format!("line {number} of {}", asked(problem));
        self.lines.say(
            &prefix,
            &format!("{}{}", line.label, asked_form(problem, line)),
        )
    }

    /// Says what can be chosen, put in order or matched at a line.
    pub(super) fn offers(&mut self, line: &Line) -> io::Result<()> {
        match &line.asks {
            Asks::Nothing | Asks::Figure | Asks::Row => {}
            Asks::Pick { offers, .. } => {
                for offer in offers {
                    self.lines
                        .say(&format!("offer {}", offer.mark), &offer.text)?;
                }
            }
            Asks::Order { cards } => {
                for (place, card) in (1..).zip(cards) {
                    self.lines.say(&format!("job {place}"), &card.text)?;
                }
            }
            Asks::Match { parts, meanings } => {
                for (place, (part, _)) in (1..).zip(parts) {
                    self.lines.say(&format!("part {place}"), part)?;
                }
                for meaning in meanings {
                    self.lines
                        .say(&format!("meaning {}", meaning.mark), &meaning.text)?;
                }
            }
        }
        Ok(())
    }
}

/// The unit and the form of an answer, behind its label.
pub(super) fn asked_form(problem: &Problem, line: &Line) -> String {
    match &line.asks {
        Asks::Pick { .. } => return ", one letter".to_owned(),
        Asks::Order { .. } => {
            return ", one number for each job from top to bottom, - for what does not belong"
                .to_owned();
        }
        Asks::Match { .. } => return ", one letter for each part from top to bottom".to_owned(),
        _ => {}
    }
    let unit = words::unit(problem, line);
    let spoken = if unit == "%" { "per cent" } else { &unit };
    let mut parts = vec![String::new()];
    if !unit.is_empty() {
        parts.push(format!("in {spoken}"));
    }
    let form = words::form(problem, line);
    if !form.is_empty() && form != USUAL_FORM {
        parts.push(form.trim_end_matches(&unit).trim_end().to_owned());
    }
    parts.join(", ")
}
