//! What keys do in the tables.

use super::Tables;
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(tables: &mut Tables, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter | Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say("! shows a line: Esc goes back to the sheet first".to_owned()),
        Press::Tables => Outcome::Say("the tables lie open: Esc puts them away".to_owned()),
        Press::Up if stroke.sight.above > 0 => step(tables, stroke),
        Press::Down if stroke.sight.below > 0 => step(tables, stroke),
        Press::Up => turn(tables, false),
        Press::Down => turn(tables, true),
        Press::PageUp | Press::PageDown => step(tables, stroke),
        press => write(tables, press),
    }
}

fn step(tables: &mut Tables, stroke: &Stroke) -> Outcome {
    scrolled(&mut tables.scroll, stroke).unwrap_or(Outcome::Stay)
}

/// Turns to the next table, or back to the one before.
fn turn(tables: &mut Tables, on: bool) -> Outcome {
    let run = tables.run();
    let here = run.iter().position(|at| *at == tables.at);
    let to = match (here, on) {
        (Some(here), true) => here.checked_add(1),
        (Some(here), false) => here.checked_sub(1),
        (None, _) => Some(0),
    };
    if let Some(&at) = to.and_then(|to| run.get(to)) {
        tables.open(at);
        return Outcome::Stay;
    }
    let side = if on { "last" } else { "first" };
    Outcome::Say(match tables.word() {
        Some(word) => format!("this is the {side} table with {word}"),
        None => format!("this is the {side} table"),
    })
}

/// Writing a number or a word opens the book there. A sign after the book was
/// turned by another key begins anew.
fn write(tables: &mut Tables, press: &Press) -> Outcome {
    if tables.by_page && matches!(press, Press::Type(_) | Press::Paste(_)) {
        tables.blank = Blank::default();
    }
    match tables.blank.take(press) {
        Wrote::NotMine => return no_use(press),
        Wrote::Full => return Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::Changed => {}
    }
    tables.by_page = false;
    tables.look();
    Outcome::Stay
}
