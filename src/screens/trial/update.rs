//! What keys do on the marks of a paper that was tried.

use super::state::Trial;
use crate::blank::Wrote;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(trial: &mut Trial, stroke: &Stroke) -> Outcome {
    let count = trial.marked.len();
    match &stroke.press {
        Press::Enter => match trial.named() {
            Some(item) => {
                trial.picked.pen = item;
                Outcome::ShowTried
            }
            None => Outcome::Say(format!("write an item number, 1 to {count}")),
        },
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut trial.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Up if trial.picked.pen == 0 => Outcome::Say("this is the first item".to_owned()),
        Press::Up => go(trial, trial.picked.pen - 1),
        Press::Down if trial.picked.pen + 1 >= count => {
            Outcome::Say("this is the last item".to_owned())
        }
        Press::Down => go(trial, trial.picked.pen + 1),
        press => match trial.picked.take(press, count) {
            Wrote::NotMine => no_use(press),
            Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
            Wrote::Changed => {
                trial.scroll.follow();
                Outcome::Stay
            }
        },
    }
}

fn go(trial: &mut Trial, item: usize) -> Outcome {
    trial.go(item);
    Outcome::Stay
}
