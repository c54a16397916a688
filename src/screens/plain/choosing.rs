//! Choosing a paper in plain lines: which exam with which clock, the sitting that was stopped,
//! or the file of a paper that an instructor gave.

use std::io;

use pumpwright_engine::papers::{PaperRequest, draw_paper};

use super::lines::Came;
use super::session::Session;
use crate::exam::{self, Exams, Stopped, Takes};
use crate::sitting::{NO_HELP, Sitting};

/// What is taken of the list of papers.
pub enum Taken {
    /// A paper that is sat here.
    Sitting(Box<Sitting>),
    /// The file of a paper that an instructor gave.
    Given(String),
    /// Nothing.
    None,
}

impl Session<'_> {
    /// The list of papers, and what is taken of it.
    pub(super) fn choose(
        &mut self,
        minutes: Option<u32>,
        opens: &dyn Fn(&str) -> Result<(), String>,
    ) -> io::Result<Taken> {
        let now = self.desk.clerk().now().milliseconds;
        let library = self.library;
        let stopped = self.left()?.into_iter();
        let stopped: Vec<Stopped> = stopped.map(|left| left.stopped(library, now)).collect();
        let papers = Exams::new(library, stopped, None).with_given().papers;
        for (number, paper) in (1..).zip(&papers) {
            let text = format!("{}, {}", paper.title, paper.size);
            self.lines.say(&format!("line {number}"), &text)?;
        }
        let mut refused = None;
        loop {
            self.lines
                .say("next", "A number takes its line, Enter alone takes line 1.")?;
            let number: usize = match self.lines.read()? {
                // Input that ends behind a file that cannot be opened has it told as a fault.
                Came::End => return Ok(refused.map_or(Taken::None, Taken::Given)),
                Came::Letter('q' | 'Q') => return Ok(Taken::None),
                Came::Text(text) if text.is_empty() => 1,
                Came::Text(text) => text.parse().unwrap_or(0),
                _ => 0,
            };
            let Some(paper) = number.checked_sub(1).and_then(|at| papers.get(at)) else {
                let words = format!("write a line number, 1 to {}", papers.len());
                self.lines.say("note", &words)?;
                continue;
            };
            match &paper.takes {
                Takes::Marks => return Ok(Taken::None),
                Takes::Given => {
                    let Some(file) = self.ask_file()? else {
                        return Ok(refused.map_or(Taken::None, Taken::Given));
                    };
                    if file.is_empty() {
                        continue;
                    }
                    match opens(&file) {
                        Ok(()) => return Ok(Taken::Given(file)),
                        Err(words) => {
                            self.lines.say("note", &words)?;
                            refused = Some(file);
                        }
                    }
                }
                Takes::GoOn(id) => {
                    let left = self.left()?.into_iter().find(|left| left.id() == *id);
                    let Some(left) = left else {
                        return Ok(Taken::None);
                    };
                    match left.lay_out(self.library, self.manner, now) {
                        Ok(sitting) => {
                            self.lines.say("note", &sitting.came_back())?;
                            return Ok(Taken::Sitting(Box::new(sitting)));
                        }
                        Err(words) => self.lines.say("note", &words)?,
                    }
                }
                Takes::Exam(exam) => {
                    let minutes = match minutes {
                        Some(minutes) => Some(minutes),
                        None => self.ask_minutes(paper.minutes)?,
                    };
                    let Some(minutes) = minutes else {
                        return Ok(Taken::None);
                    };
                    let request = PaperRequest {
                        exam,
                        system: self.system,
                        draw: self.fresh_draw(),
                        settings: self.settings,
                    };
                    match draw_paper(self.library, &request) {
                        Ok(paper) => {
                            let sitting = self.begin(paper, minutes);
                            return Ok(Taken::Sitting(Box::new(sitting)));
                        }
                        Err(error) => self.lines.say("note", &error.to_string())?,
                    }
                }
            }
        }
    }

    /// The file of a paper that an instructor gave: empty where one goes back to the list,
    /// none where the input ends.
    fn ask_file(&mut self) -> io::Result<Option<String>> {
        let words =
            "Write the file of the paper, as in 019.json. Enter alone goes back to the list.";
        self.lines.say("next", words)?;
        let typed = self.lines.read_words()?;
        Ok(typed.map(|typed| typed.trim().to_owned()))
    }

    /// The minutes of the clock, 0 for no clock; nothing where the input ends.
    fn ask_minutes(&mut self, own: u32) -> io::Result<Option<u32>> {
        loop {
            let words = format!(
                "Enter starts a clock of {own} minutes; or write the minutes, 0 for no clock."
            );
            self.lines.say("next", &words)?;
            match self.lines.read()? {
                Came::End | Came::Letter('q' | 'Q') => return Ok(None),
                Came::Text(text) if text.is_empty() => return Ok(Some(own)),
                Came::Text(text) => match exam::read_minutes(&text) {
                    Ok(minutes) => return Ok(Some(minutes.unwrap_or(0))),
                    Err(words) => self.lines.say("note", &words)?,
                },
                _ => self.lines.say("note", NO_HELP)?,
            }
        }
    }
}
