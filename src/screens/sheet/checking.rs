//! Checking line by line: what a line is worth as soon as it is finished. The
//! first writing is what is marked; a line that is written again is only checked.

use pumpwright_engine::marking::{MarkedLine, Response, keep, mark};

use super::state::{Sheet, number};
use super::update::Enter;
use crate::keys::Press;
use crate::layout::LABEL;
use crate::outcome::Outcome;
use crate::page::{Cell, Entry, Role};
use crate::words;

/// A line that was checked.
#[derive(Debug, Clone, PartialEq)]
pub struct Check {
    /// The place of the line in the problem.
    pub line: usize,
    /// What was written there when it was checked the first time.
    pub first: String,
    /// What was written there when it was checked the last time.
    pub typed: String,
    /// How that stands.
    pub marked: MarkedLine,
}

/// What Enter checks at the blank with the pen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Checks {
    /// Nothing: the sheet is checked whole, or the line is not finished.
    Nothing,
    /// This line, and whether it was checked before.
    Line {
        /// Whether it is written again.
        again: bool,
    },
    /// Nothing more: the line stands as it was checked, and is worth a look.
    LookedAt,
}

impl Sheet {
    /// The same sheet, checked line by line or whole.
    #[must_use]
    pub fn line_by_line(self, line_by_line: bool) -> Self {
        Self {
            line_by_line,
            ..self
        }
    }

    /// Whether lines are checked as they are finished.
    pub fn checks_lines(&self) -> bool {
        self.line_by_line && self.mending.is_none()
    }

    /// How a line stands, if it was checked and not changed since.
    pub fn checked(&self, line: usize) -> Option<&Check> {
        let check = self.checks.iter().find(|check| check.line == line)?;
        (self.typed(line).as_deref() == Some(check.typed.as_str())).then_some(check)
    }

    /// Everything as it was written first.
    pub fn first_writing(&self) -> Response {
        let mut response = self.response();
        for check in &self.checks {
            let Some(line) = self.problem.lines.get(check.line) else {
                continue;
            };
            response.answers.retain(|(id, _)| *id != line.id);
            response
                .answers
                .push((line.id.clone(), check.first.clone()));
        }
        response
    }

    /// The lines that stand otherwise than they were written first.
    pub fn written_again(&self) -> Vec<(usize, String)> {
        let changed = self.checks.iter().filter_map(|check| {
            let typed = self.typed(check.line)?;
            (typed != check.first).then_some((check.line, typed))
        });
        changed.collect()
    }

    /// Checks a line once more that was checked before the sheet was left: what was
    /// written first stays the first.
    pub fn check_again(&mut self, line: usize, first: String) {
        let now = self.typed(line).unwrap_or_default();
        if self.check(line, now).is_some()
            && let Some(check) = self.checks.iter_mut().find(|check| check.line == line)
        {
            check.first = first;
        }
    }

    fn check(&mut self, line: usize, typed: String) -> Option<MarkedLine> {
        let id = &self.problem.lines.get(line)?.id;
        let all = mark(&self.problem, &self.response(), self.manner);
        let marked = all.lines.into_iter().find(|marked| marked.id == *id)?;
        match self.checks.iter_mut().find(|check| check.line == line) {
            Some(check) => {
                check.typed = typed;
                check.marked = marked.clone();
            }
            None => self.checks.push(Check {
                line,
                first: typed.clone(),
                typed,
                marked: marked.clone(),
            }),
        }
        Some(marked)
    }
}

/// What Enter checks before it goes where it leads.
pub fn checks(sheet: &Sheet, leads: Enter) -> Checks {
    let Some(line) = sheet.line().filter(|_| sheet.checks_lines()) else {
        return Checks::Nothing;
    };
    let stays = |to: usize| sheet.slots.get(to).is_some_and(|slot| slot.line == line);
    if matches!(leads, Enter::To(to) if stays(to)) || sheet.typed(line).is_none() {
        return Checks::Nothing;
    }
    match sheet.checked(line) {
        Some(check) if check.marked.verdict.asks_for_a_look() => Checks::LookedAt,
        Some(_) => Checks::Nothing,
        None => Checks::Line {
            again: sheet.checks.iter().any(|check| check.line == line),
        },
    }
}

/// What comes of a check.
pub enum Came {
    /// Enter goes where it leads; this is said.
    GoesOn(String),
    /// The pen stays, and this is the answer.
    Stays(Outcome),
}

/// Checks the line with the pen.
pub fn check(sheet: &mut Sheet) -> Came {
    let Some((line, typed)) = sheet
        .line()
        .and_then(|line| Some((line, sheet.typed(line)?)))
    else {
        return Came::Stays(Outcome::Stay);
    };
    let read = match keep(&sheet.problem, line, &typed, sheet.manner) {
        Ok(read) => read,
        Err(words) => return Came::Stays(Outcome::Say(words)),
    };
    let Some(marked) = sheet.check(line, typed) else {
        return Came::Stays(Outcome::Stay);
    };
    if marked.turns.iter().any(|turn| turn.fatal) {
        return Came::Stays(Outcome::HandIn(sheet.first_writing()));
    }
    let number = number(&sheet.problem, line).unwrap_or(1);
    let read = if read.contains(" = ") {
        format!("line {number} is read as {read}: ")
    } else {
        format!("line {number}: ")
    };
    if marked.verdict.asks_for_a_look() {
        let words = format!("{read}{}; what to look at stands below", marked.words);
        return Came::Stays(Outcome::Say(words));
    }
    Came::GoesOn(format!("{read}{}", marked.words))
}

/// Whether a sign typed at the end of a line that is worth a look begins it anew:
/// what was written first is kept beside it.
pub fn begins_anew(sheet: &Sheet, press: &Press) -> bool {
    let Some(slot) = sheet.slot().filter(|slot| slot.part.is_none()) else {
        return false;
    };
    let check = sheet.checked(slot.line).filter(|_| sheet.checks_lines());
    matches!(press, Press::Type(_) | Press::Paste(_))
        && slot.blank.before() == slot.blank.text()
        && check.is_some_and(|check| check.marked.verdict.asks_for_a_look())
}

/// What was written first in a line that was changed since it was checked.
pub fn was(sheet: &Sheet, line: usize) -> Option<String> {
    let check = sheet.checks.iter().find(|check| check.line == line)?;
    let changed = sheet.checked(line).is_none();
    changed.then(|| format!("first {}", check.first))
}

/// The verdict of a line that stands as it was checked.
pub fn verdict(sheet: &Sheet, line: usize) -> Option<(&MarkedLine, String)> {
    let check = sheet.checked(line)?;
    let helped = sheet.helped.get(line).copied().unwrap_or(0);
    Some((&check.marked, words::verdict(&check.marked, helped)))
}

/// What to look at in the line with the pen.
pub fn look(sheet: &Sheet) -> Vec<Entry> {
    let check = sheet.line().and_then(|line| sheet.checked(line));
    let Some(check) = check.filter(|check| check.marked.verdict.asks_for_a_look()) else {
        return Vec::new();
    };
    let marked = &check.marked;
    let mut texts = Vec::new();
    for (at, turn) in marked.turns.iter().enumerate() {
        let likely = if at > 0 && marked.alternatives {
            "Or:"
        } else {
            "Likely turn:"
        };
        texts.push(format!("{likely}  {}", words::turn(turn)));
        texts.push(turn.says.clone());
        texts.extend(words::look(turn));
    }
    texts.extend(marked.note.clone());
    if texts.is_empty() {
        let says = words::principle(&sheet.problem, &marked.id).unwrap_or_default();
        texts.push(format!("{} {says}", words::sentence(&marked.words)));
    }
    let label = format!("LINE {}", marked.number);
    let labels = std::iter::once(label).chain(std::iter::repeat(String::new()));
    let lines = labels.zip(texts).map(|(label, text)| {
        let cells = vec![
            Cell::columns(label, LABEL).bold(),
            Cell::rest(text.trim_end().to_owned()),
        ];
        Entry::of(Role::Turn, cells).focused(true)
    });
    std::iter::once(Entry::rule()).chain(lines).collect()
}
