//! Taking in one file that came: answers from the screen, or a table typed from paper.

use std::path::Path;

use pumpwright_engine::classes::typed::{Shapes, read_typed};

use crate::classroom::{PaperFolder, Taken, text_of};
use crate::console::Console;
use crate::failure::{Failure, shown};

/// Takes in one file; says how many hand-ins of it were left out.
pub(super) fn take(
    file: &Path,
    folder: &PaperFolder,
    (plan, shapes): (&str, &Shapes),
    console: &mut Console,
) -> Result<usize, Failure> {
    let name = file.display();
    let mut left = 0;
    let mut say = |taken: Taken, what: &str, console: &mut Console| match taken {
        Taken::In => {}
        Taken::Before => console.note(format_args!("note: {name}{what} was taken in before")),
        Taken::Out(why) => {
            left += 1;
            console.note(format_args!("note: {name}{what} {why}; it is left out"));
        }
    };
    let text = match text_of(file) {
        Ok(text) => text,
        Err(failure) => {
            let sentence = failure.sentence().unwrap_or_default();
            console.note(format_args!("note: {sentence}; it is left out"));
            return Ok(1);
        }
    };
    let table = file
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
    if !table {
        say(folder.take_answers(plan, &text)?, "", console);
        return Ok(left);
    }
    match read_typed(&text, shapes) {
        Ok(typed) => {
            for note in typed.notes {
                console.note(format_args!("note: {name}: {note}"));
            }
            for row in typed.rows {
                let what = format!(", paper {},", shown(&row.paper));
                for note in row.notes {
                    console.note(format_args!("note: {name}{what} {note}"));
                }
                let taken = match row.hand_in {
                    Ok(hand_in) => folder.take(&hand_in)?,
                    Err(_) if folder.is_unread(&row.paper)? => {
                        Taken::Out("has a record that cannot be read".to_owned())
                    }
                    Err(why) => Taken::Out(why),
                };
                say(taken, &what, console);
            }
        }
        Err(faults) => {
            for fault in faults {
                console.note(format_args!("note: {name}: {fault}"));
            }
            console.note(format_args!("note: {name} is left out"));
            left += 1;
        }
    }
    Ok(left)
}
