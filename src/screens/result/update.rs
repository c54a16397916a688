//! What keys do on a marked paper.

use super::state::PaperResult;
use crate::blank::Wrote;
use crate::keeping::ask;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(result: &mut PaperResult, stroke: &Stroke) -> Outcome {
    if !result.is_written_down() {
        return on_its_way(result, stroke);
    }
    match &stroke.press {
        Press::Enter => match result.named() {
            Some(area) => {
                result.picked.pen = area;
                Outcome::GoThrough(Some(area))
            }
            None => Outcome::Say(format!(
                "write a line number, 1 to {}",
                result.marked.areas.len()
            )),
        },
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say("Enter goes through what went wrong in this line".to_owned()),
        Press::Up if result.picked.pen == 0 => scrolled(&mut result.scroll, stroke)
            .unwrap_or_else(|| Outcome::Say("this is the first line".to_owned())),
        Press::Down if result.picked.pen + 1 >= result.marked.areas.len() => {
            scrolled(&mut result.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Up => go(result, result.picked.pen - 1),
        Press::Down => go(result, result.picked.pen + 1),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut result.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => write(result, press),
    }
}

fn go(result: &mut PaperResult, area: usize) -> Outcome {
    result.go(area);
    Outcome::Stay
}

/// Writing a number moves the pen. A sign after the pen was moved begins anew.
fn write(result: &mut PaperResult, press: &Press) -> Outcome {
    let count = result.marked.areas.len();
    let wrote = result.picked.take(press, count);
    if wrote == Wrote::NotMine {
        return no_use(press);
    }
    result.scroll.follow();
    if wrote == Wrote::Full {
        Outcome::Say(Wrote::FULL.to_owned())
    } else {
        Outcome::Stay
    }
}

/// While it is being written down, and where it cannot be.
fn on_its_way(result: &mut PaperResult, stroke: &Stroke) -> Outcome {
    let trouble = result.trouble.is_some();
    ask::update("paper", trouble, &mut result.picked.number, stroke)
}
