//! What keys do on the front page.

use super::{Jobs, Takes};
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use};

/// Takes a press.
pub fn update(jobs: &mut Jobs, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => take(jobs),
        Press::Escape if jobs.word().is_some() => {
            jobs.widen(jobs.pen);
            Outcome::Say("every line is listed again".to_owned())
        }
        Press::Escape if jobs.over => Outcome::Back,
        Press::Escape => Outcome::Say("this is the front page: ? then Q stops".to_owned()),
        Press::Ask => Outcome::Ask(None),
        Press::Up => go(jobs, -1),
        Press::Down => go(jobs, 1),
        Press::PageUp => go(jobs, -steps(stroke)),
        Press::PageDown => go(jobs, steps(stroke)),
        press => write(jobs, press),
    }
}

fn steps(stroke: &Stroke) -> isize {
    isize::try_from(stroke.sight.page).unwrap_or(1)
}

/// The pen goes so many lines up or down in the list as it is narrowed.
fn go(jobs: &mut Jobs, by: isize) -> Outcome {
    let listed = jobs.listed();
    let last = listed.len().saturating_sub(1);
    let at = listed.iter().position(|&line| line == jobs.pen);
    let to = at.unwrap_or(0).saturating_add_signed(by).min(last);
    match listed.get(to) {
        Some(_) if at == Some(to) && by < 0 => Outcome::Say("this is the first line".to_owned()),
        Some(_) if at == Some(to) => Outcome::Say("this is the last line".to_owned()),
        Some(&line) => {
            jobs.go(line);
            Outcome::Stay
        }
        None => Outcome::Say(no_line_has(jobs)),
    }
}

fn no_line_has(jobs: &Jobs) -> String {
    match jobs.word() {
        Some(word) => format!("no line has \"{word}\": Esc lists every line again"),
        None => "there is no line to take".to_owned(),
    }
}

/// Takes the line; the list is whole again when one comes back to it.
fn take(jobs: &mut Jobs) -> Outcome {
    let Some(line) = jobs.named() else {
        return Outcome::Say(match jobs.word() {
            Some(_) => no_line_has(jobs),
            None => format!("write a line number, 1 to {}, or a word", jobs.count()),
        });
    };
    jobs.widen(line);
    if line < jobs.waiting.len() {
        return Outcome::Resume(line);
    }
    match jobs.job(line).map(|job| &job.takes) {
        Some(Takes::Lesson(id)) => Outcome::Read(id.clone()),
        Some(Takes::Family(id)) => Outcome::Draw(id.clone()),
        None => Outcome::Say("there is no line to take".to_owned()),
    }
}

/// Writing a number moves the pen, a word narrows the list. A sign after the pen
/// was moved by another key begins anew.
fn write(jobs: &mut Jobs, press: &Press) -> Outcome {
    if jobs.by_pen && matches!(press, Press::Type(_) | Press::Paste(_)) {
        jobs.written = Blank::default();
    }
    let wrote = jobs.written.take(press);
    if wrote == Wrote::NotMine {
        return no_use(press);
    }
    jobs.by_pen = false;
    let named = match jobs.word() {
        Some(_) if jobs.is_listed(jobs.pen) => None,
        Some(_) => jobs.listed().first().copied(),
        None => jobs.named(),
    };
    if let Some(line) = named {
        jobs.pen = line;
    }
    jobs.scroll.follow();
    if wrote == Wrote::Full {
        Outcome::Say(Wrote::FULL.to_owned())
    } else {
        Outcome::Stay
    }
}
