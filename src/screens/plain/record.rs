//! The record in plain lines: a sheet is on the disk before its marks are said, and
//! what is half-written is kept beside it.

use std::io;
use std::rc::Rc;
use std::thread;
use std::time::Duration;

use pumpwright_engine::entries::{Entry, Place};

use super::lines::Came;
use super::session::{Half, Session, Waits};
use super::written::Written;
use crate::clerk::Receipt;
use crate::handed_in::HandedIn;
use crate::sheet::{Sheet, number};
use crate::words;

/// How often a receipt is looked for.
const WAIT: Duration = Duration::from_millis(1);

impl Session<'_> {
    /// Writes a sheet down; says whether the input goes on.
    pub(super) fn write_down(&mut self, handed_in: &HandedIn) -> io::Result<bool> {
        let entry = self.desk.entry_of(handed_in, Place::Plain);
        self.write_entry(&entry, "This sheet is not in the logbook.")
    }

    /// Writes an entry down; says whether the input goes on.
    pub(super) fn write_entry(&mut self, entry: &Entry, not: &str) -> io::Result<bool> {
        loop {
            self.desk.clerk().hand_in(entry.clone());
            let Some(why) = self.receipt(entry) else {
                self.desk.clerk().drop_draft(entry.id);
                return Ok(true);
            };
            self.lines.say("note", &why)?;
            self.lines.say(
                "note",
                &format!("{not} What was kept before stays as it is."),
            )?;
            loop {
                self.lines.say(
                    "next",
                    "a writes it down once more; b goes on without: nothing is kept from now on.",
                )?;
                match self.lines.read()? {
                    Came::End | Came::Letter('q' | 'Q') => return Ok(false),
                    Came::Text(text) if text.eq_ignore_ascii_case("a") => break,
                    Came::Text(text) if text.eq_ignore_ascii_case("b") => {
                        self.desk.clerk().go_on_without();
                        return Ok(true);
                    }
                    _ => self.lines.say("note", "write a or b; ?Q stops")?,
                }
            }
        }
    }

    /// Waits for the receipt of an entry; why it is not kept, where it is not.
    fn receipt(&mut self, entry: &Entry) -> Option<String> {
        loop {
            match self.desk.clerk().receipt() {
                Some(Receipt::Kept(id)) if id == entry.id => return None,
                Some(Receipt::NotKept(id, why)) if id == entry.id => return Some(why),
                Some(_) => {}
                None => thread::sleep(WAIT),
            }
        }
    }

    /// Keeps what stands on a sheet.
    pub(super) fn keep_draft(&mut self, written: &Written) {
        if let Some(draft) = written.sheet().draft() {
            self.desk.clerk().keep(draft);
        }
    }

    /// Sheets that were half-written at the last stop wait again.
    pub(super) fn lay_out_drafts(&mut self) -> io::Result<()> {
        for draft in self.desk.record().drafts() {
            match Sheet::of_draft(&draft, self.library, self.manner) {
                Some(Ok(sheet)) => {
                    let line = sheet.line().and_then(|line| number(&sheet.problem, line));
                    let left = Half::Written(Written::of(&sheet), line.unwrap_or(1));
                    self.waiting.push(Waits { left, aside: false });
                }
                Some(Err(sentence)) if !draft.is_told() => {
                    self.lines.say("note", &sentence)?;
                    self.desk.clerk().keep(draft.told());
                }
                Some(Err(_)) | None => {}
            }
        }
        if !self.waiting.is_empty() {
            let count = words::count(self.waiting.len(), "sheet waits", "sheets wait");
            let words = format!("{count} half-written; ?T lists what waits");
            self.lines.say("note", &words)?;
        }
        Ok(())
    }
}

impl Written {
    /// The same as a sheet of the screen.
    pub(super) fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(Rc::clone(&self.problem), self.manner)
            .line_by_line(self.line_by_line)
            .with_id(self.id, self.purpose);
        sheet.helped = (0..self.problem.lines.len())
            .map(|line| self.helped(line))
            .collect();
        sheet.spent = self.spent.clone();
        sheet.given.clone_from(&self.given);
        sheet.given.resize(self.problem.lines.len(), false);
        sheet.back = self.back.clone();
        for line in 0..self.problem.lines.len() {
            sheet.write(line, self.typed(line));
        }
        let pen = sheet
            .slots
            .iter()
            .position(|slot| slot.blank.is_empty())
            .unwrap_or(sheet.slots.len().saturating_sub(1));
        sheet.pen = pen;
        for (line, first) in self.firsts() {
            sheet.check_again(line, first);
        }
        sheet
    }

    /// What stands on a sheet of the screen.
    pub(super) fn of(sheet: &Sheet) -> Self {
        let mut written = Self::new(
            Rc::clone(&sheet.problem),
            sheet.manner,
            sheet.line_by_line,
            sheet
                .id
                .unwrap_or(pumpwright_engine::entries::Id::new(0, 0)),
        );
        written.purpose = sheet.purpose;
        written.spent = sheet.spent.clone();
        written.given.clone_from(&sheet.given);
        written.back = sheet.back.clone();
        for line in 0..sheet.problem.lines.len() {
            written.set(line, sheet.typed(line).unwrap_or_default());
            written.note_helped(line, sheet.helped.get(line).copied().unwrap_or(0));
        }
        for check in &sheet.checks {
            written.set_first(check.line, check.first.clone());
        }
        written
    }
}
