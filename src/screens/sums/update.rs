//! What keys do on the back of the sheet.

use super::Sums;
use super::state::work;
use crate::blank::{Blank, Wrote};
use crate::keys::{Press, Tool};
use crate::layout::Focus;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// What Enter does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Enter {
    /// The sum in the blank is worked out.
    WorkOut,
    /// The sum with the pen is written into the line.
    CarryOver,
    /// The sum with the pen is written once more, to be changed.
    Again,
    /// The sums are put away.
    PutAway,
}

/// Takes a press.
pub fn update(sums: &mut Sums, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => enter(sums),
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say("! shows a line: Esc goes back to the sheet first".to_owned()),
        Press::Sums => Outcome::Say("this is the back of the sheet: Esc puts it away".to_owned()),
        Press::Up => up(sums, stroke),
        Press::Down => down(sums, stroke),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut sums.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => write(sums, press),
    }
}

/// What Enter does now.
pub fn enter_does(sums: &Sums) -> Enter {
    match sums.at {
        Some(_) if sums.to_carry().is_some() => Enter::CarryOver,
        Some(_) => Enter::Again,
        None if sums.blank.is_empty() => Enter::PutAway,
        None => Enter::WorkOut,
    }
}

fn enter(sums: &mut Sums) -> Outcome {
    match enter_does(sums) {
        Enter::PutAway => return Outcome::Back,
        Enter::CarryOver => return Outcome::Take(Tool::CarryOver),
        Enter::Again => take_up(sums),
        Enter::WorkOut => work_out(sums),
    }
    sums.scroll.follow();
    Outcome::Stay
}

fn work_out(sums: &mut Sums) {
    match work(sums.blank.trimmed(), &sums.back.done, sums.manner()) {
        Ok(sum) => {
            sums.back.done.push(sum);
            sums.refused = None;
            sums.pen_to_blank();
        }
        Err(words) => sums.refused = Some(words),
    }
}

fn up(sums: &mut Sums, stroke: &Stroke) -> Outcome {
    let first = sums.at == Some(0) || sums.back.done.is_empty();
    if stroke.sight.focus == Focus::Above || (first && stroke.sight.above > 0) {
        sums.scroll.up(1);
        return Outcome::Stay;
    }
    let last = sums.back.done.len().checked_sub(1);
    let to = match sums.at {
        Some(at) => at.checked_sub(1),
        None => last,
    };
    match to {
        Some(at) => bring_back(sums, at),
        None if last.is_none() => Outcome::Say("no sum stands above yet".to_owned()),
        None => Outcome::Say("this is the first sum".to_owned()),
    }
}

fn down(sums: &mut Sums, stroke: &Stroke) -> Outcome {
    let last = sums.at.is_none();
    if stroke.sight.focus == Focus::Below || (last && stroke.sight.below > 0) {
        sums.scroll.down(1);
        return Outcome::Stay;
    }
    match sums.at {
        None => Outcome::Say("this is the blank for the next sum".to_owned()),
        Some(at) if at + 1 < sums.back.done.len() => bring_back(sums, at + 1),
        Some(_) => {
            sums.pen_to_blank();
            sums.scroll.follow();
            Outcome::Stay
        }
    }
}

/// The pen goes to an earlier sum, and its text into the blank.
fn bring_back(sums: &mut Sums, at: usize) -> Outcome {
    if let Some(sum) = sums.back.done.get(at) {
        let text = sum.sum.clone();
        sums.set_aside();
        sums.blank = Blank::holding(&text);
        sums.at = Some(at);
        sums.refused = None;
        sums.scroll.follow();
    }
    Outcome::Stay
}

/// The earlier sum in the blank becomes the next one.
const fn take_up(sums: &mut Sums) {
    sums.at = None;
}

fn write(sums: &mut Sums, press: &Press) -> Outcome {
    match sums.blank.take(press) {
        Wrote::NotMine => return no_use(press),
        Wrote::Full => return Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::Changed => {}
    }
    take_up(sums);
    if sums.blank.is_empty() {
        sums.refused = None;
    }
    sums.scroll.follow();
    Outcome::Stay
}
