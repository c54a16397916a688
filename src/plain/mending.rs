//! After marking: lines worth another look are written once more. The marks
//! given stay as they are; what is mended is for the hand, not for the score.

use std::collections::BTreeSet;

use pumpwright_engine::marking::{self, Marked, MarkedLine};
use pumpwright_engine::problems;

use super::sheet::Sheet;
use super::{End, Talk, wording};
use crate::failure::Failure;

const TOOLS: &str = "?W for the working, ?N for other numbers, ?Q to stop.";

/// Goes through the lines that are worth another look.
pub fn mend(sheet: &mut Sheet, marked: &Marked, talk: &mut Talk) -> Result<End, Failure> {
    let mut marked = marked.clone();
    let mut passed_over = BTreeSet::new();
    loop {
        let open = |line: &&MarkedLine| {
            line.verdict.asks_for_a_look() && !passed_over.contains(&line.number)
        };
        let Some(line) = marked.lines.iter().find(open) else {
            return after(sheet, talk);
        };
        let number = line.number;
        let of = sheet.places.len();
        let once = format!("line {number} of {of} once more. Enter leaves it. {TOOLS}");
        talk.say("next", &once)?;
        sheet.show_line(number, talk)?;
        let Some(typed) = talk.ask()? else {
            return Ok(End::Stop);
        };
        match typed.as_str() {
            "" => {
                passed_over.insert(number);
            }
            "?" => sheet.help(number, talk)?,
            "!" => sheet.give(number, 3, talk)?,
            tool if tool.starts_with('?') => {
                if let Some(end) = take(sheet, tool, talk)? {
                    return Ok(end);
                }
            }
            answer => marked = again(sheet, number, answer, talk)?.unwrap_or(marked),
        }
    }
}

/// Writes a line once more; nothing where it cannot be read.
fn again(
    sheet: &mut Sheet,
    number: usize,
    answer: &str,
    talk: &mut Talk,
) -> Result<Option<Marked>, Failure> {
    let Some(place) = sheet.places.get(number.wrapping_sub(1)).copied() else {
        return Ok(None);
    };
    if let Err(reason) = marking::keep(sheet.problem, place, answer, sheet.manner) {
        talk.say("note", &reason)?;
        return Ok(None);
    }
    sheet.put(number, answer.to_owned());
    let marked = marking::mark(sheet.problem, &sheet.response(), sheet.manner);
    if let Some(line) = marked.lines.iter().find(|line| line.number == number) {
        let read_as = line.read_as.as_deref().unwrap_or(answer);
        let words = wording::sentence(&line.words);
        let kept = if line.verdict.asks_for_a_look() {
            ""
        } else {
            " The marks above stay as they are."
        };
        let said = format!("{words} {}{kept}", wording::sentence(read_as));
        talk.say(&format!("mended {number}"), &said)?;
        wording::look(line, talk)?;
    }
    Ok(Some(marked))
}

/// Nothing is left to mend.
fn after(sheet: &Sheet, talk: &mut Talk) -> Result<End, Failure> {
    loop {
        talk.say("next", &format!("Enter goes on. {TOOLS}"))?;
        let Some(typed) = talk.ask()? else {
            return Ok(End::Stop);
        };
        match typed.as_str() {
            "" => return Ok(End::Next),
            tool if tool.starts_with('?') && tool.len() > 1 => {
                if let Some(end) = take(sheet, tool, talk)? {
                    return Ok(end);
                }
            }
            _ => talk.say("note", "Nothing is asked here.")?,
        }
    }
}

/// A tool by its letter, after handing in. The working ends the sheet: a line
/// copied from it would mend nothing.
fn take(sheet: &Sheet, typed: &str, talk: &mut Talk) -> Result<Option<End>, Failure> {
    match typed.to_ascii_uppercase().as_str() {
        "?Q" => Ok(Some(End::Stop)),
        "?N" => Ok(Some(End::Again)),
        "?A" => Ok(Some(End::Next)),
        "?W" => {
            wording::working(&problems::working(sheet.problem), talk)?;
            Ok(Some(End::Next))
        }
        _ => sheet.always(typed, talk).map(|()| None),
    }
}
