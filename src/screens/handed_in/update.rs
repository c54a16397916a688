//! What keys do on a sheet that was handed in.

use super::HandedIn;
use crate::blank::{Blank, Wrote};
use crate::keys::{Press, Tool};
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(sheet: &mut HandedIn, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter if !sheet.asked_turns().is_empty() => choose(sheet),
        Press::Enter => sheet
            .to_mend()
            .map_or(Outcome::Take(Tool::NextNumbers), Outcome::Mend),
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say("? then W shows the whole working".to_owned()),
        Press::Up => up(sheet, stroke),
        Press::Down => down(sheet, stroke),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut sheet.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press if !sheet.asked_turns().is_empty() => write(sheet, press),
        Press::Type(_) | Press::Paste(_) => {
            Outcome::Say("Enter opens a line before you write in it".to_owned())
        }
        press => no_use(press),
    }
}

/// Another letter takes the place of the one that stands there.
fn write(sheet: &mut HandedIn, press: &Press) -> Outcome {
    if sheet.choice.gives_way_to(press) {
        sheet.choice = Blank::default();
    }
    match sheet.choice.take(press) {
        Wrote::Changed => {
            sheet.scroll.follow();
            Outcome::Stay
        }
        Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::NotMine => no_use(press),
    }
}

fn choose(sheet: &mut HandedIn) -> Outcome {
    let count = sheet.asked_turns().len();
    let typed = sheet.choice.trimmed().to_ascii_lowercase();
    let mut letters = typed.bytes();
    let chosen = match (letters.next(), letters.next()) {
        (Some(letter @ b'a'..=b'z'), None) => usize::from(letter - b'a'),
        _ => usize::MAX,
    };
    if chosen > count {
        return Outcome::Say(format!("write one letter, a to {}", last_letter(count)));
    }
    sheet.choose(chosen);
    Outcome::Stay
}

/// The letter of "something else", behind so many turns.
pub fn last_letter(turns: usize) -> char {
    u8::try_from(turns).map_or('z', |turns| char::from(b'a'.saturating_add(turns)))
}

fn up(sheet: &mut HandedIn, stroke: &Stroke) -> Outcome {
    if stroke.sight.above > 0 {
        sheet.scroll.up(1);
    } else if sheet.at == 0 {
        return Outcome::Say("this is the first line".to_owned());
    } else {
        sheet.look_at(sheet.at - 1);
    }
    Outcome::Stay
}

fn down(sheet: &mut HandedIn, stroke: &Stroke) -> Outcome {
    if stroke.sight.below > 0 {
        sheet.scroll.down(1);
    } else if sheet.at + 1 >= sheet.now_marked.lines.len() {
        return Outcome::Say("this is the last line".to_owned());
    } else {
        sheet.look_at(sheet.at + 1);
    }
    Outcome::Stay
}
