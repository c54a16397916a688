//! How plain lines say a job and ask for one of its lines.

use std::io;

use pumpwright_engine::marking::{in_order, read_order};
use pumpwright_engine::problems::{Asks, Line, Problem};

use super::lines::Lines;
use super::session::Session;
use crate::sheet::{asked, number};
use crate::words;

/// What is left out beside a blank, because it is so everywhere.
const USUAL_FORM: &str = "3 figures are enough";

/// How an order is asked for.
pub const ORDER_FORM: &str =
    ", one number for each job from top to bottom, - for what does not belong";

/// How a match is asked for.
pub const MATCH_FORM: &str = ", one letter for each part from top to bottom";

/// An order as it was understood: the jobs first to last, then those that are left out.
pub fn understood<'t>(jobs: &[&'t str], numbers: &[Option<usize>]) -> Vec<(&'static str, &'t str)> {
    let (done, out) = in_order(numbers);
    let text = |at: &usize| jobs.get(*at).copied();
    let prefix = (0..).map(|at| if at == 0 { "first" } else { "then" });
    let done = prefix.zip(done.iter().filter_map(text));
    let out = out.iter().filter_map(text).map(|text| ("left out", text));
    done.chain(out).collect()
}

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
        self.lines.offers(line)?;
        let prefix = format!("line {number} of {}", asked(problem));
        self.lines.say(
            &prefix,
            &format!("{}{}", line.label, asked_form(problem, line)),
        )
    }

    /// Says how an order was understood.
    pub(super) fn understood(&mut self, line: &Line, typed: &str) -> io::Result<()> {
        let Asks::Order { cards } = &line.asks else {
            return Ok(());
        };
        let jobs: Vec<&str> = cards.iter().map(|card| card.text.as_str()).collect();
        let Ok(numbers) = read_order(typed, jobs.len()) else {
            return Ok(());
        };
        let told = understood(&jobs, &numbers).into_iter();
        for (word, job) in told {
            self.lines.say(word, job)?;
        }
        Ok(())
    }
}

impl Lines<'_> {
    /// Says what can be chosen, put in order or matched at a line.
    pub(super) fn offers(&mut self, line: &Line) -> io::Result<()> {
        match &line.asks {
            Asks::Nothing | Asks::Figure | Asks::Row => {}
            Asks::Pick { offers, .. } => {
                for offer in offers {
                    self.say(&format!("offer {}", offer.mark), &offer.text)?;
                }
            }
            Asks::Order { cards } => {
                for (place, card) in (1..).zip(cards) {
                    self.say(&format!("job {place}"), &card.text)?;
                }
            }
            Asks::Match { parts, meanings } => {
                for (place, (part, _)) in (1..).zip(parts) {
                    self.say(&format!("part {place}"), part)?;
                }
                for meaning in meanings {
                    self.say(&format!("meaning {}", meaning.mark), &meaning.text)?;
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
        Asks::Order { .. } => return ORDER_FORM.to_owned(),
        Asks::Match { .. } => return MATCH_FORM.to_owned(),
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
