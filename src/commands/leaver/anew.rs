//! What is made of the papers of several, made anew when one of them is deleted, in the form
//! in which it was; and a sentence where that cannot be done.

use std::io;

use pumpwright_engine::classes::sheet::SheetForm;
use pumpwright_engine::quantities::DecimalSign;

use crate::classroom::leaver::Belongings;
use crate::cli::Mark;
use crate::commands::assign::Lessons;
use crate::commands::mark;
use crate::console::Console;
use crate::failure::Failure;

/// Makes it, and says what was made and what is gone.
///
/// # Errors
/// When the output is closed.
pub fn make(
    own: &Belongings,
    (form, decimal): (SheetForm, DecimalSign),
    lessons: &mut Lessons<'_>,
    console: &mut Console,
) -> Result<(), Failure> {
    // What was of this person alone is gone with the papers.
    if own.together.is_empty() || own.folder.is_empty() {
        return Ok(());
    }
    if own.has("print.pdf") {
        let done = prints(own, console);
        note(done, console);
    }
    if own.has("marks.csv") {
        let done = marks(own, (form, decimal), lessons);
        note(done, console);
    }
    let name = |path: &std::path::PathBuf| {
        let name = path.file_name();
        name.map_or_else(String::new, |name| name.to_string_lossy().into_owned())
    };
    let (there, gone): (Vec<_>, Vec<_>) = own.together.iter().partition(|path| path.is_file());
    let named = |paths: Vec<&std::path::PathBuf>| {
        let names: Vec<String> = paths.into_iter().map(name).collect();
        names.join(", ")
    };
    let folder = own.folder.path().display();
    if !there.is_empty() {
        console.line(format_args!("made anew in {folder}: {}", named(there)))?;
    }
    if !gone.is_empty() {
        console.line(format_args!(
            "gone from {folder}: {}; assign and mark make such files anew",
            named(gone)
        ))?;
    }
    Ok(())
}

/// That something is not made anew undoes nothing: it is told, and the rest goes on.
fn note(done: Result<(), Failure>, console: &mut Console) {
    if let Err(failure) = done
        && let Some(sentence) = failure.sentence()
    {
        console.note(format_args!("note: {sentence}"));
    }
}

#[cfg(feature = "pdf")]
fn prints(own: &Belongings, console: &mut Console) -> Result<(), Failure> {
    let roster = own.folder.roster()?;
    crate::classroom::prints::anew(&own.folder, &roster, console)
}

#[cfg(not(feature = "pdf"))]
#[expect(
    clippy::unnecessary_wraps,
    reason = "with the typesetter there are faults"
)]
fn prints(_: &Belongings, _: &mut Console) -> Result<(), Failure> {
    Ok(())
}

/// What the command `mark` does; what it prints was printed before.
fn marks(
    own: &Belongings,
    (form, decimal): (SheetForm, DecimalSign),
    lessons: &mut Lessons<'_>,
) -> Result<(), Failure> {
    let asked = Mark {
        folder: own.folder.path().to_owned(),
        answers: Vec::new(),
        drop: Vec::new(),
        judge: Vec::new(),
        semicolons: form.separator == ';',
        decimal_comma: form.decimal == DecimalSign::Comma,
        no_pdf: !own.has("slips.pdf"),
    };
    let mut silent = Console {
        out: &mut io::sink(),
        err: &mut io::sink(),
        input: &mut io::empty(),
        unicode: true,
    };
    match mark::run(&asked, decimal, lessons, &mut silent) {
        Ok(()) | Err(Failure::Found) => Ok(()),
        Err(failure) => Err(failure),
    }
}
