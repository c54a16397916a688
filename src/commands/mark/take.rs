//! Taking in files that came: answers from the screen, or tables typed from paper.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::typed::{Shapes, Typed, read_typed};

use crate::classroom::{PaperFolder, Taken, text_of};
use crate::console::Console;
use crate::failure::{Failure, shown};

/// A file that came, with its text or why it has none.
pub(super) struct Arrived<'a> {
    file: &'a Path,
    text: Result<String, Failure>,
}

/// The files in the order in which they are taken in: as they are named, but for files of
/// answers to one paper, of which the one that was handed in first comes first.
pub(super) fn in_order(files: &[PathBuf]) -> Vec<Arrived<'_>> {
    let arrived = files.iter().map(|file| Arrived {
        file,
        text: text_of(file),
    });
    let mut arrived: Vec<Arrived<'_>> = arrived.collect();
    let mut of_paper: BTreeMap<String, Vec<(usize, i64)>> = BTreeMap::new();
    for (place, own) in arrived
        .iter()
        .enumerate()
        .filter(|(_, own)| !own.is_table())
    {
        let answers = own.text.as_ref().ok().map(|text| Answers::read(text));
        if let Some(Ok(answers)) = answers {
            let places = of_paper.entry(answers.paper).or_default();
            places.push((place, answers.at));
        }
    }
    for mut own in of_paper.into_values() {
        // Of few files the one that is before all others by the clock goes to the front.
        for first in 0..own.len() {
            let rest = own.iter().enumerate().skip(first);
            let earliest = rest.min_by_key(|(_, (_, at))| *at).map(|(index, _)| index);
            let Some((one, other)) = earliest.and_then(|index| {
                let pair = (own.get(first)?.0, own.get(index)?.0);
                // The files change places, and so do their times.
                let (at, before) = (own.get(index)?.1, own.get(first)?.1);
                own.get_mut(first)?.1 = at;
                own.get_mut(index)?.1 = before;
                Some(pair)
            }) else {
                continue;
            };
            arrived.swap(one, other);
        }
    }
    arrived
}

impl Arrived<'_> {
    fn is_table(&self) -> bool {
        let ending = self.file.extension();
        ending.is_some_and(|ending| ending.eq_ignore_ascii_case("csv"))
    }

    /// Takes it in; says how many hand-ins of it were left out.
    pub(super) fn take(
        &self,
        folder: &PaperFolder,
        (plan, shapes): (&str, &Shapes),
        console: &mut Console,
    ) -> Result<usize, Failure> {
        let text = match &self.text {
            Ok(text) => text,
            Err(failure) => {
                let sentence = failure.sentence().unwrap_or_default();
                console.note(format_args!("note: {sentence}; it is left out"));
                return Ok(1);
            }
        };
        let name = self.file.display().to_string();
        if !self.is_table() {
            let taken = folder.take_answers(plan, text)?;
            return Ok(say(&name, taken, console));
        }
        match read_typed(text, shapes) {
            Ok(typed) => take_table(&name, typed, folder, console),
            Err(faults) => {
                for fault in faults {
                    console.note(format_args!("note: {name}: {fault}"));
                }
                console.note(format_args!("note: {name} is left out"));
                Ok(1)
            }
        }
    }
}

/// Takes in the rows of a table; says how many were left out.
fn take_table(
    name: &str,
    typed: Typed,
    folder: &PaperFolder,
    console: &mut Console,
) -> Result<usize, Failure> {
    let mut left = 0;
    for note in typed.notes {
        console.note(format_args!("note: {name}: {note}"));
    }
    for row in typed.rows {
        let what = format!("{name}, paper {}", shown(&row.paper));
        for note in row.notes {
            console.note(format_args!("note: {what}, {note}"));
        }
        let taken = match row.hand_in {
            Ok(hand_in) => {
                let (taken, mended) = folder.take_typed(&hand_in, &typed.columns)?;
                if let Some(mended) = mended {
                    console.note(format_args!("note: {what}: {mended}"));
                }
                taken
            }
            Err(_) if folder.is_unread(&row.paper)? => {
                Taken::Out("has a record that cannot be read".to_owned())
            }
            Err(why) => Taken::Out(why),
        };
        left += say(&format!("{what},"), taken, console);
    }
    for row in typed.empty {
        if let (_, Some(mended)) = folder.take_typed(&row, &typed.columns)? {
            console.note(format_args!("note: {name}, paper {}: {mended}", row.paper));
        }
    }
    Ok(left)
}

/// Says what became of a hand-in; how many were left out.
fn say(what: &str, taken: Taken, console: &mut Console) -> usize {
    match taken {
        Taken::In => 0,
        Taken::Before => {
            console.note(format_args!("note: {what} was taken in before"));
            0
        }
        Taken::Out(why) => {
            console.note(format_args!("note: {what} {why}; it is left out"));
            1
        }
    }
}
