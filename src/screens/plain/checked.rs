//! Checking line by line in plain lines: what a line is worth as soon as it is
//! written. The first writing is what is marked.

use std::io;

use pumpwright_engine::marking::mark;

use super::marked::verdict_words;
use super::session::Session;
use super::written::Written;

/// What comes of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Check {
    /// One goes on.
    GoesOn,
    /// The line is worth a look, and may be written again.
    Looks,
    /// The sheet ends here: what is written would hurt somebody.
    Ends,
}

impl Session<'_> {
    /// Checks a line that was written, where the sheet is checked line by line.
    pub(super) fn check(&mut self, written: &mut Written, line: usize) -> io::Result<Check> {
        if !written.line_by_line || written.typed(line).is_empty() {
            return Ok(Check::GoesOn);
        }
        let all = mark(&written.problem, &written.response(), written.manner);
        let id = written.problem.lines.get(line).map(|line| &line.id);
        let Some(marked) = all.lines.into_iter().find(|marked| Some(&marked.id) == id) else {
            return Ok(Check::GoesOn);
        };
        written.note_first(line);
        if marked.turns.iter().any(|turn| turn.fatal) {
            return Ok(Check::Ends);
        }
        let prefix = format!("check {}", marked.number);
        self.lines.say(&prefix, &verdict_words(&marked))?;
        self.all_turns(&marked, &written.problem)?;
        Ok(if marked.verdict.asks_for_a_look() {
            Check::Looks
        } else {
            Check::GoesOn
        })
    }
}
