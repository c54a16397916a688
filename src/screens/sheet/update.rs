//! What keys do on a job sheet. Nothing written is ever thrown away by one.

use pumpwright_engine::marking::keep;
use pumpwright_engine::problems::{Asks, Line};

use super::Sheet;
use super::checking::{self, Came, Checks};
use super::state::{Slot, number};
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::layout::Focus;
use crate::outcome::{Outcome, Stroke, no_use};

/// What Enter does at a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Enter {
    /// The pen goes to this blank.
    To(usize),
    /// The sheet, or the line that is written once more, is handed in.
    HandIn,
}

/// Takes a press.
pub fn update(sheet: &mut Sheet, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => enter(sheet),
        Press::Escape => {
            let _ = leave(sheet);
            Outcome::Back
        }
        Press::Ask => Outcome::Ask(sheet.line()),
        Press::Show => sheet
            .line()
            .map_or_else(|| no_use(&Press::Show), Outcome::Show),
        Press::Up => up(sheet, stroke),
        Press::Down => down(sheet, stroke),
        Press::PageUp | Press::PageDown => {
            crate::outcome::scrolled(&mut sheet.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => write(sheet, press),
    }
}

/// Where Enter leads from the blank with the pen.
pub fn enter_leads(sheet: &Sheet) -> Enter {
    let last = sheet.slots.len().saturating_sub(1);
    let Some(slot) = sheet.slot() else {
        return Enter::HandIn;
    };
    if slot.part.is_some() {
        let open = |(_, other): &(usize, &Slot)| other.line == slot.line && other.blank.is_empty();
        let slots = || sheet.slots.iter().enumerate();
        let below = slots().skip(sheet.pen + 1).find(open);
        // With nothing written here, Enter goes on to what is open below only, so
        // that an arrangement can be handed in with something left open.
        let above = slots()
            .take(sheet.pen)
            .find(open)
            .filter(|_| !slot.blank.is_empty());
        let other_line = slots()
            .skip(sheet.pen)
            .find(|(_, other)| other.line != slot.line);
        let found = below.or(above).or(other_line);
        return found.map_or(Enter::HandIn, |(index, _)| Enter::To(index));
    }
    if sheet.pen < last {
        Enter::To(sheet.pen + 1)
    } else {
        Enter::HandIn
    }
}

/// Whether Enter leads to no other blank of the sheet.
pub fn is_at_its_end(sheet: &Sheet) -> bool {
    enter_leads(sheet) == Enter::HandIn
}

fn enter(sheet: &mut Sheet) -> Outcome {
    sheet.scroll.follow();
    if let Err(words) = leave(sheet) {
        return Outcome::Say(words);
    }
    let mut said = kept_words(sheet);
    let leads = enter_leads(sheet);
    if let Checks::Line { .. } = checking::checks(sheet, leads) {
        match checking::check(sheet) {
            Came::Stays(outcome) => return outcome,
            Came::GoesOn(words) => said = Some(words),
        }
    }
    match leads {
        Enter::To(slot) => {
            sheet.pen = slot;
            said.map_or(Outcome::Stay, Outcome::Say)
        }
        Enter::HandIn => hand_in(sheet),
    }
}

fn hand_in(sheet: &mut Sheet) -> Outcome {
    for slot in 0..sheet.slots.len() {
        if let Err(words) = read(sheet, slot) {
            sheet.pen = slot;
            return Outcome::Say(words);
        }
    }
    for (slot, line, typed) in arranged(sheet) {
        if let Err(words) = keep(&sheet.problem, line, &typed, sheet.manner) {
            sheet.pen = slot;
            return Outcome::Say(words);
        }
    }
    if !sheet.is_begun() {
        return Outcome::Say("nothing is written yet: write this line, or ! shows it".to_owned());
    }
    match (&sheet.mending, sheet.line()) {
        (Some(_), Some(line)) => Outcome::Mended {
            line,
            typed: sheet.typed(line).unwrap_or_default(),
        },
        _ => Outcome::HandIn(sheet.first_writing()),
    }
}

/// The arrangements that are begun: the place of the first blank, the line, all
/// that is written in it.
fn arranged(sheet: &Sheet) -> Vec<(usize, usize, String)> {
    let firsts = sheet
        .slots
        .iter()
        .enumerate()
        .filter(|(_, slot)| slot.part == Some(0));
    firsts
        .filter_map(|(at, slot)| Some((at, slot.line, sheet.typed(slot.line)?)))
        .collect()
}

/// Reads the blank that the pen leaves and keeps it as it was read.
fn leave(sheet: &mut Sheet) -> Result<(), String> {
    let kept = read(sheet, sheet.pen)?;
    if let Some(slot) = sheet.slots.get_mut(sheet.pen) {
        slot.kept = kept;
    }
    Ok(())
}

/// What a blank is read as; none where it is empty.
fn read(sheet: &Sheet, slot: usize) -> Result<Option<String>, String> {
    let Some(slot) = sheet.slots.get(slot).filter(|slot| !slot.blank.is_empty()) else {
        return Ok(None);
    };
    let typed = slot.blank.trimmed();
    let line = sheet.problem.lines.get(slot.line);
    match (slot.part, line.map(|line| &line.asks)) {
        (Some(_), Some(Asks::Order { cards })) => read_place(typed, cards.len()),
        (Some(_), Some(Asks::Match { meanings, .. })) => {
            let known = meanings
                .iter()
                .any(|meaning| meaning.mark.eq_ignore_ascii_case(typed));
            if known {
                Ok(None)
            } else {
                Err(read_letters(meanings.len()))
            }
        }
        _ => keep(&sheet.problem, slot.line, typed, sheet.manner).map(Some),
    }
}

fn read_place(typed: &str, cards: usize) -> Result<Option<String>, String> {
    let place = typed
        .parse::<usize>()
        .is_ok_and(|place| (1..=cards).contains(&place));
    if place || typed == "-" {
        return Ok(None);
    }
    Err(format!(
        "write a number from 1 to {cards}, or - for what does not belong"
    ))
}

fn read_letters(meanings: usize) -> String {
    let last = u8::try_from(meanings.saturating_sub(1))
        .unwrap_or(0)
        .saturating_add(b'a');
    format!("write one letter, a to {}", char::from(last))
}

fn kept_words(sheet: &Sheet) -> Option<String> {
    let slot = sheet.slot()?;
    let kept = slot.kept.as_ref().filter(|kept| kept.contains(" = "))?;
    Some(format!(
        "line {} is read as {kept}",
        number(&sheet.problem, slot.line)?
    ))
}

fn up(sheet: &mut Sheet, stroke: &Stroke) -> Outcome {
    if stroke.sight.focus == Focus::Above || (sheet.pen == 0 && stroke.sight.above > 0) {
        sheet.scroll.up(1);
        return Outcome::Stay;
    }
    if sheet.pen == 0 {
        return Outcome::Say("this is the first line".to_owned());
    }
    go(sheet, sheet.pen - 1)
}

fn down(sheet: &mut Sheet, stroke: &Stroke) -> Outcome {
    let last = sheet.pen + 1 >= sheet.slots.len();
    if stroke.sight.focus == Focus::Below || (last && stroke.sight.below > 0) {
        sheet.scroll.down(1);
        return Outcome::Stay;
    }
    if last {
        return Outcome::Say("this is the last line".to_owned());
    }
    go(sheet, sheet.pen + 1)
}

/// The pen goes to another blank. What cannot be read stays where it is.
fn go(sheet: &mut Sheet, slot: usize) -> Outcome {
    let left = leave(sheet);
    let from = sheet.line().and_then(|line| number(&sheet.problem, line));
    sheet.pen = slot;
    sheet.scroll.follow();
    match (left, from) {
        (Err(words), Some(from)) => Outcome::Say(format!("line {from}: {words}")),
        (Err(words), None) => Outcome::Say(words),
        (Ok(()), _) => Outcome::Stay,
    }
}

fn write(sheet: &mut Sheet, press: &Press) -> Outcome {
    let pen = sheet.pen;
    let anew = checking::begins_anew(sheet, press);
    // Behind what is no offer's letter, the words of an offer go on.
    let letter = sheet.slot().is_some_and(|slot| match asks(sheet, slot) {
        Some(Asks::Pick { offers, .. }) => {
            let held = slot.blank.text();
            offers.iter().any(|own| own.mark.eq_ignore_ascii_case(held))
        }
        Some(Asks::Match { .. }) => true,
        _ => false,
    });
    let Some(slot) = sheet.slots.get_mut(pen) else {
        return no_use(press);
    };
    if anew || (letter && slot.blank.gives_way_to(press)) {
        slot.blank = Blank::default();
    }
    let wrote = slot.blank.take(press);
    if wrote != Wrote::NotMine {
        slot.kept = None;
        sheet.scroll.follow();
    }
    match wrote {
        Wrote::Changed => Outcome::Stay,
        Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::NotMine => no_use(press),
    }
}

/// What Enter does, in words.
pub fn next_words(sheet: &Sheet) -> String {
    let Some(slot) = sheet.slot() else {
        return "Enter: hand in this sheet".to_owned();
    };
    let here = number(&sheet.problem, slot.line).unwrap_or(1);
    let leads = enter_leads(sheet);
    let goes_to = match leads {
        Enter::To(to) => format!("on to {}", to_words(sheet, slot, to)),
        Enter::HandIn => "hand in this sheet".to_owned(),
    };
    match checking::checks(sheet, leads) {
        Checks::Nothing => {}
        Checks::Line { again } => {
            let again = if again { " once more" } else { "" };
            return format!("Enter: check line {here}{again}, {goes_to}");
        }
        Checks::LookedAt => return format!("Enter: {goes_to}, or write line {here} again first"),
    }
    match leads {
        Enter::HandIn if sheet.mending.is_some() => format!("Enter: check line {here} once more"),
        Enter::HandIn => hand_in_words(sheet),
        Enter::To(to) => {
            let done = done_words(sheet, slot, here);
            format!("Enter: {done}, on to {}", to_words(sheet, slot, to))
        }
    }
}

fn hand_in_words(sheet: &Sheet) -> String {
    if !sheet.is_begun() {
        let here = sheet
            .slot()
            .and_then(|slot| number(&sheet.problem, slot.line));
        return format!(
            "Enter: hand in this sheet, when line {} is written",
            here.unwrap_or(1)
        );
    }
    let empty = sheet.slots.iter().filter(|slot| slot.blank.is_empty());
    let lines: std::collections::BTreeSet<usize> = empty
        .filter_map(|slot| number(&sheet.problem, slot.line))
        .collect();
    let last = sheet
        .slots
        .last()
        .and_then(|slot| number(&sheet.problem, slot.line));
    match last.filter(|last| lines.contains(last)) {
        Some(last) => format!("Enter: hand in this sheet, with line {last} not full"),
        None => "Enter: hand in this sheet".to_owned(),
    }
}

fn asks<'a>(sheet: &'a Sheet, slot: &Slot) -> Option<&'a Asks> {
    sheet
        .problem
        .lines
        .get(slot.line)
        .map(|line: &Line| &line.asks)
}

fn done_words(sheet: &Sheet, slot: &Slot, here: usize) -> String {
    let empty = slot.blank.is_empty();
    let state = if empty { "left empty" } else { "done" };
    match (asks(sheet, slot), slot.part) {
        (Some(Asks::Order { .. }), _) => format!("this number {state}"),
        (Some(Asks::Match { .. }), Some(part)) => format!("part {} {state}", part + 1),
        _ => format!("line {here} {state}"),
    }
}

fn to_words(sheet: &Sheet, from: &Slot, to: usize) -> String {
    let Some(slot) = sheet.slots.get(to) else {
        return String::new();
    };
    match (asks(sheet, slot), slot.part) {
        (Some(Asks::Order { .. }), _) if slot.line == from.line => "the next empty one".to_owned(),
        (Some(Asks::Match { .. }), Some(part)) if slot.line == from.line => {
            format!("part {}", part + 1)
        }
        _ => format!("line {}", number(&sheet.problem, slot.line).unwrap_or(1)),
    }
}
