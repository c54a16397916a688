//! What keys do on the front page of an evening.

use super::Tonight;
use crate::blank::Wrote;
use crate::keys::{Press, Tool};
use crate::outcome::{Outcome, Stroke, no_use};

/// Takes a press.
pub fn update(tonight: &mut Tonight, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter if tonight.is_over() => Outcome::Take(Tool::Quit),
        Press::Enter => take(tonight),
        Press::Escape => Outcome::Say("this is the front page: ? then Q stops".to_owned()),
        Press::Ask => Outcome::Ask(None),
        Press::Up => go(tonight, -1),
        Press::Down => go(tonight, 1),
        Press::PageUp => go(tonight, -steps(stroke)),
        Press::PageDown => go(tonight, steps(stroke)),
        press => write(tonight, press),
    }
}

fn steps(stroke: &Stroke) -> isize {
    isize::try_from(stroke.sight.page).unwrap_or(1)
}

fn go(tonight: &mut Tonight, by: isize) -> Outcome {
    let last = tonight.count().saturating_sub(1);
    let to = tonight.picked.pen.saturating_add_signed(by).min(last);
    if to == tonight.picked.pen {
        let side = if by < 0 { "first" } else { "last" };
        return Outcome::Say(format!("this is the {side} line"));
    }
    tonight.go(to);
    Outcome::Stay
}

fn take(tonight: &mut Tonight) -> Outcome {
    let Some(line) = tonight.named() else {
        let words = format!("write a line number, 1 to {}", tonight.count());
        return Outcome::Say(words);
    };
    tonight.go(line);
    match line.checked_sub(tonight.waiting.len()) {
        None => Outcome::Resume(line),
        Some(planned) => Outcome::TakePlanned(planned),
    }
}

fn write(tonight: &mut Tonight, press: &Press) -> Outcome {
    if tonight.is_over() {
        return no_use(press);
    }
    let count = tonight.count();
    let wrote = tonight.picked.take(press, count);
    if wrote == Wrote::NotMine {
        return no_use(press);
    }
    tonight.scroll.follow();
    match wrote {
        Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
        _ => Outcome::Stay,
    }
}
