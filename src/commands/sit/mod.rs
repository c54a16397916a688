//! Answering a paper: on the screen, or in plain lines, where what is written is kept at every
//! answer, until it is handed in.

mod asking;

use std::path::Path;

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_screens::{Given, Look, PaperTools, Person, Start, TrainOptions};

use super::practice;
use crate::classroom::answers::{AnswerFile, own_name, read_paper};
use crate::cli::Sit;
use crate::console::Console;
use crate::failure::Failure;

pub(crate) use asking::{Asking, Ended, prompt};

/// Opens a paper as it was left; its answers go into the file that is named, else into one
/// in this folder.
pub(crate) fn open(
    file: &Path,
    out: Option<&Path>,
    folder: &Path,
) -> Result<(SitPaper, Answers, AnswerFile), Failure> {
    let paper = read_paper(file)?;
    let own = || folder.join(own_name(&paper));
    let file = AnswerFile::at(out.map_or_else(own, Path::to_owned));
    let answers = file.begin(&paper)?;
    Ok((paper, answers, file))
}

/// Asks a paper in plain lines and writes the file of answers.
///
/// # Errors
/// When the paper cannot be read, or the answers cannot be kept.
pub fn plainly(asked: &Sit, tools: PaperTools<'_>, console: &mut Console) -> Result<(), Failure> {
    let out = (asked.out.as_deref(), Path::new(""));
    ask(&asked.file, out, tools, console)
}

/// The same of a paper that is named by its file; its answers lie beside it.
///
/// # Errors
/// As [`plainly`].
pub fn given(file: &Path, tools: PaperTools<'_>, console: &mut Console) -> Result<(), Failure> {
    ask(file, (None, beside(file)), tools, console)
}

/// Whether such a paper can be answered.
///
/// # Errors
/// As [`given`], before anything is asked.
pub fn opens(file: &Path) -> Result<(), Failure> {
    open(file, None, beside(file)).map(|_| ())
}

/// The folder in which a file lies.
fn beside(file: &Path) -> &Path {
    file.parent().unwrap_or_else(|| Path::new(""))
}

fn ask(
    file: &Path,
    (out, folder): (Option<&Path>, &Path),
    tools: PaperTools<'_>,
    console: &mut Console,
) -> Result<(), Failure> {
    let (paper, answers, file) = open(file, out, folder)?;
    head(&paper, console)?;
    let mut keep = |answers: &Answers| file.keep(answers);
    let mut asking = Asking::new((paper, answers), tools, &mut keep);
    let ended = asking.work(console)?;
    let answers = asking.answers;
    match ended {
        Ended::HandedIn => {
            file.hand_in(answers)?;
            console.line(format_args!("end: handed in as {}", file.out().display()))?;
            console.line("next: give that file to your instructor")
        }
        Ended::Stopped if file.draft().exists() => console.line(format_args!(
            "end: not handed in; kept in {}, the same command goes on",
            file.draft().display()
        )),
        Ended::Stopped => console.line("end: nothing was written"),
    }
}

/// Whose paper it is.
fn head(paper: &SitPaper, console: &mut Console) -> Result<(), Failure> {
    console.line(format_args!("paper: {}", paper.head.title))?;
    if let Some(date) = &paper.head.date {
        console.line(format_args!("date: {date}"))?;
    }
    console.line(format_args!("name: {}", paper.person.name))?;
    console.line(format_args!("number: {}", paper.person.id))
}

/// What the trainer's screens are told to begin with a paper.
///
/// # Errors
/// When the paper cannot be read, or what is half written is not of it.
pub fn for_the_screen<'a>(
    asked: &Sit,
    decimal: DecimalSign,
    look: Look,
    person: Person<'a>,
) -> Result<TrainOptions<'a>, Failure> {
    let (paper, answers, file) = open(&asked.file, asked.out.as_deref(), Path::new(""))?;
    let out = file.out().display().to_string();
    Ok(TrainOptions {
        system: person.set.units.unwrap_or(System::Us),
        settings: pumpwright_engine::problems::Settings::default(),
        manner: Manner { decimal },
        look,
        draws: Box::new(practice::draws(None)),
        start: Start::Given(Box::new(Given {
            paper,
            answers,
            out,
        })),
        person,
    })
}
