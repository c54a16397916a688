//! What keys do on the standing screen.

use super::{Line, Standing};
use crate::blank::Wrote;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use};

/// Takes a press.
pub fn update(standing: &mut Standing, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => take(standing),
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Up => go(standing, -1),
        Press::Down => go(standing, 1),
        Press::PageUp => go(standing, -steps(stroke)),
        Press::PageDown => go(standing, steps(stroke)),
        press => write(standing, press),
    }
}

fn steps(stroke: &Stroke) -> isize {
    isize::try_from(stroke.sight.page).unwrap_or(1)
}

fn go(standing: &mut Standing, by: isize) -> Outcome {
    let last = standing.lines.len().saturating_sub(1);
    let to = standing.picked.pen.saturating_add_signed(by).min(last);
    if to == standing.picked.pen {
        let side = if by < 0 { "first" } else { "last" };
        return Outcome::Say(format!("this is the {side} line"));
    }
    standing.go(to);
    Outcome::Stay
}

fn take(standing: &mut Standing) -> Outcome {
    let line = standing.named().and_then(|line| standing.lines.get(line));
    match line {
        Some(Line::Family { family, .. }) => Outcome::Draw(family.clone()),
        Some(Line::Turn {
            family, mistake, ..
        }) => Outcome::DrawContrast {
            family: family.clone(),
            mistake: mistake.clone(),
        },
        None => Outcome::Say(format!(
            "write a line number, 1 to {}",
            standing.lines.len()
        )),
    }
}

fn write(standing: &mut Standing, press: &Press) -> Outcome {
    let count = standing.lines.len();
    let wrote = standing.picked.take(press, count);
    if wrote == Wrote::NotMine {
        return no_use(press);
    }
    standing.scroll.follow();
    match wrote {
        Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
        _ => Outcome::Stay,
    }
}
