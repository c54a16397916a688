//! The front page in plain lines: the sheets that wait, and every lesson and job,
//! found by a word and taken by a number.

use std::io;

use pumpwright_engine::problems::Problem;

use super::lines::Came;
use super::session::{After, Half, Session, Waits};
use crate::blank::Blank;
use crate::jobs::{Job, Jobs, Takes, Waiting, stopped};
use crate::sheet::{asked, number};
use crate::{shelf, words};

/// The word that lists every line.
const ALL: &str = "all";

impl Session<'_> {
    /// The front page, opened from a sheet; nothing comes back where one goes back to it.
    pub(super) fn front(&mut self, open: &Problem) -> io::Result<Option<After>> {
        let mut jobs = Jobs::new(shelf::list(self.library), 0);
        jobs.set_waiting(self.waiting.iter().map(waiting).collect());
        let lesson = |job: &&Job| matches!(job.takes, Takes::Lesson(_));
        let lessons = jobs.all.iter().filter(lesson).count();
        let counted = format!(
            "{} and {}",
            words::count(lessons, "lesson", "lessons"),
            words::count(jobs.all.len() - lessons, "job", "jobs")
        );
        self.lines.say("front page", &counted)?;
        for line in 0..jobs.waiting.len() {
            self.say_line(&jobs, line)?;
        }
        loop {
            self.lines.say(
                "next",
                "A word lists the lines that have it, \"all\" lists every line, a number takes \
                 its line. Enter goes back to the sheet.",
            )?;
            let typed = match self.lines.read()? {
                Came::End | Came::Letter('q' | 'Q') => return Ok(Some(After::Stop)),
                Came::Text(typed) if typed.is_empty() => return Ok(None),
                Came::Text(typed) => typed,
                _ => {
                    let words = "write a number or a word, or Enter goes back; ?Q stops";
                    self.lines.say("note", words)?;
                    continue;
                }
            };
            if typed.eq_ignore_ascii_case(ALL) {
                for line in 0..jobs.count() {
                    self.say_line(&jobs, line)?;
                }
                continue;
            }
            jobs.written = Blank::holding(&typed);
            if jobs.word().is_some() {
                self.list(&jobs, &typed)?;
            } else if let Some(after) = self.take_line(&jobs, open)? {
                return Ok(Some(after));
            }
        }
    }

    /// Lists the lines that have a word.
    fn list(&mut self, jobs: &Jobs, word: &str) -> io::Result<()> {
        let listed = jobs.listed();
        if listed.is_empty() {
            let words = format!("no line has \"{word}\"");
            return self.lines.say("note", &words);
        }
        for line in listed {
            self.say_line(jobs, line)?;
        }
        Ok(())
    }

    fn take_line(&mut self, jobs: &Jobs, open: &Problem) -> io::Result<Option<After>> {
        let Some(line) = jobs.named() else {
            let words = format!("write a line number, 1 to {}, or a word", jobs.count());
            self.lines.say("note", &words)?;
            return Ok(None);
        };
        if line < jobs.waiting.len() {
            return Ok(Some(After::GoOn(line)));
        }
        match jobs.job(line).map(|job| &job.takes) {
            Some(Takes::Lesson(id)) => {
                self.lesson(id, open)?;
                Ok(None)
            }
            Some(Takes::Family(id)) => {
                let drawn = self.draw(id, None)?;
                Ok(drawn.map(|problem| After::Other(Box::new(problem), "from the front page")))
            }
            None => Ok(None),
        }
    }

    fn say_line(&mut self, jobs: &Jobs, line: usize) -> io::Result<()> {
        let text = match (jobs.waiting.get(line), jobs.job(line)) {
            (Some(waiting), _) => format!("go on with {}, {}", waiting.family, stopped(waiting)),
            (None, Some(job)) => job_words(job),
            (None, None) => return Ok(()),
        };
        self.lines.say(&format!("line {}", line + 1), &text)
    }
}

fn job_words(job: &Job) -> String {
    match &job.takes {
        Takes::Lesson(_) => format!("read {}", job.title),
        Takes::Family(id) => {
            let minutes = job.minutes.map(|minutes| format!(", {minutes} min"));
            let minutes = minutes.unwrap_or_default();
            format!("work {}, {id}{minutes}", job.title)
        }
    }
}

/// How a sheet that waits stands in the list.
fn waiting(waits: &Waits) -> Waiting {
    let (written, line, handed_in) = match &waits.left {
        Half::Written(written, number) => (written, *number, false),
        Half::HandedIn(handed_in, written) => {
            let line = handed_in.to_mend();
            let number = line.and_then(|line| number(&written.problem, line));
            (written, number.unwrap_or(1), true)
        }
    };
    Waiting {
        family: written.problem.family.id.clone(),
        line,
        lines: asked(&written.problem),
        handed_in,
    }
}
