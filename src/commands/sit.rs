//! Answering a paper in plain lines: each line begins with a stable word and a colon, one
//! prompt at a time. What is written is kept at every answer, until it is handed in.

use std::path::Path;

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::sit::{SitAsks, SitItem, SitLine, SitPaper};
use pumpwright_engine::marking::Manner;
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_screens::{Given, Look, Person, Start, TrainOptions};

use super::practice;
use crate::classroom::answers::{AnswerFile, own_name, read_paper};
use crate::cli::Sit;
use crate::console::Console;
use crate::failure::Failure;

/// The most that a line holds, so that a file is not filled by accident.
const LONGEST: usize = 400;

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
pub fn plainly(asked: &Sit, console: &mut Console) -> Result<(), Failure> {
    let (paper, answers, file) = open(&asked.file, asked.out.as_deref(), Path::new(""))?;
    let mut sitting = Sitting {
        paper,
        answers,
        file,
    };
    sitting.head(console)?;
    let mut open = sitting.places();
    if sitting.begun() {
        console.line("note: goes on where it was stopped")?;
        open.retain(|place| sitting.written(*place).is_empty());
    }
    let mut item = None;
    for place in open {
        if item != Some(place.0) {
            sitting.job(place.0, console)?;
            item = Some(place.0);
        }
        if !sitting.ask(place, console)? {
            return sitting.stopped(console);
        }
    }
    sitting.close(console)
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

/// A paper while it is answered. A place is an item and a line of it, both from zero.
struct Sitting {
    paper: SitPaper,
    answers: Answers,
    file: AnswerFile,
}

type Place = (usize, usize);

impl Sitting {
    fn begun(&self) -> bool {
        let mut written = self.answers.items.iter().flatten();
        written.any(|text| !text.is_empty())
    }

    fn places(&self) -> Vec<Place> {
        let items = self.paper.items.iter().enumerate();
        let lines = |(at, item): (usize, &SitItem)| {
            (0..item.lines.len())
                .map(move |line| (at, line))
                .collect::<Vec<_>>()
        };
        items.flat_map(lines).collect()
    }

    fn written(&self, (item, line): Place) -> &str {
        let lines = self.answers.items.get(item);
        lines
            .and_then(|lines| lines.get(line))
            .map_or("", String::as_str)
    }

    fn head(&self, console: &mut Console) -> Result<(), Failure> {
        let head = &self.paper.head;
        console.line(format_args!("paper: {}", head.title))?;
        if let Some(date) = &head.date {
            console.line(format_args!("date: {date}"))?;
        }
        let person = &self.paper.person;
        console.line(format_args!("name: {}", person.name))?;
        console.line(format_args!("number: {}", person.id))?;
        console.line(format_args!(
            "marks: {}, about {} minutes",
            head.marks, head.minutes
        ))?;
        console.line(format_args!("tables: {}", head.tables))?;
        console.line("note: Write an answer and Enter. Enter alone leaves a line open.")
    }

    /// The text of a job.
    fn job(&self, at: usize, console: &mut Console) -> Result<(), Failure> {
        let Some(item) = self.paper.items.get(at) else {
            return Ok(());
        };
        let count = self.paper.items.len();
        console.line(format_args!(
            "item {} of {count}: {}",
            item.number, item.title
        ))?;
        console.line(format_args!("code: {}", item.code))?;
        let noun = if item.marks == 1 { "mark" } else { "marks" };
        console.line(format_args!("worth: {} {noun}", item.marks))?;
        if let Some(caution) = &item.caution {
            console.line(format_args!("caution: {caution}"))?;
        }
        for text in &item.text {
            console.line(format_args!("text: {text}"))?;
        }
        for line in item.figure.iter().flat_map(|figure| &figure.list) {
            console.line(format_args!("figure: {line}"))?;
        }
        Ok(())
    }

    /// Asks one line; says whether the input goes on.
    fn ask(&mut self, place: Place, console: &mut Console) -> Result<bool, Failure> {
        let item = self.paper.items.get(place.0);
        let Some((item, line)) = item.and_then(|item| Some((item, item.lines.get(place.1)?)))
        else {
            return Ok(true);
        };
        for text in asked(item, line) {
            console.line(text)?;
        }
        let Some(typed) = prompt(console)? else {
            return Ok(false);
        };
        self.write(place, &typed)?;
        if !typed.is_empty() {
            console.line(format_args!(
                "kept {}.{}: {typed}",
                item_number(place),
                place.1 + 1
            ))?;
        }
        Ok(true)
    }

    fn write(&mut self, (item, line): Place, typed: &str) -> Result<(), Failure> {
        if let Some(place) = self
            .answers
            .items
            .get_mut(item)
            .and_then(|own| own.get_mut(line))
        {
            typed.clone_into(place);
        }
        self.file.keep(&self.answers)
    }

    /// Back to any line, until it is handed in.
    fn close(mut self, console: &mut Console) -> Result<(), Failure> {
        loop {
            let places = self.places();
            let open: Vec<String> = places
                .iter()
                .filter(|place| self.written(**place).is_empty())
                .map(|place| format!("{}.{}", item_number(*place), place.1 + 1))
                .collect();
            if !open.is_empty() {
                console.line(format_args!("open: {}", open.join(" ")))?;
            }
            console
                .line("next: Enter hands in. An item and a line, as in 3.2, goes back there.")?;
            let Some(typed) = prompt(console)? else {
                return self.stopped(console);
            };
            if typed.is_empty() {
                return self.hand_in(console);
            }
            let place = typed.split_once('.').and_then(|(item, line)| {
                let place = (
                    item.trim().parse::<usize>().ok()?,
                    line.trim().parse::<usize>().ok()?,
                );
                Some((place.0.checked_sub(1)?, place.1.checked_sub(1)?))
            });
            match place.filter(|place| places.contains(place)) {
                Some(place) => {
                    self.job(place.0, console)?;
                    if !self.ask(place, console)? {
                        return self.stopped(console);
                    }
                }
                None => console.line(format_args!(
                    "note: there is no line {}; write item and line, as in 1.1",
                    crate::failure::shown(&typed)
                ))?,
            }
        }
    }

    fn hand_in(self, console: &mut Console) -> Result<(), Failure> {
        self.file.hand_in(self.answers)?;
        let out = self.file.out().display();
        console.line(format_args!("end: handed in as {out}"))?;
        console.line("next: give that file to your instructor")
    }

    fn stopped(self, console: &mut Console) -> Result<(), Failure> {
        if self.file.draft().exists() {
            return console.line(format_args!(
                "end: not handed in; kept in {}, the same command goes on",
                self.file.draft().display()
            ));
        }
        console.line("end: nothing was written")
    }
}

const fn item_number(place: Place) -> usize {
    place.0 + 1
}

/// What is asked at a line, in lines.
fn asked(item: &SitItem, line: &SitLine) -> Vec<String> {
    let mut lines = Vec::new();
    let lettered = |list: &[pumpwright_engine::classes::sit::Lettered]| {
        let list = list.iter();
        list.map(|one| format!("{}: {}", one.letter, one.text))
            .collect::<Vec<_>>()
    };
    let unit = line
        .unit
        .as_ref()
        .map_or_else(String::new, |unit| format!(", in {unit}"));
    let form = match (&line.asks, line.form.as_str()) {
        (SitAsks::Order(_), _) => ", the numbers from first to last, - for one left out".to_owned(),
        (SitAsks::Match { .. }, _) => ", the letters for the parts from top to bottom".to_owned(),
        (_, "") => String::new(),
        (_, form) => format!(", {form}"),
    };
    lines.push(format!(
        "line {} of {}: {}{unit}{form}",
        line.number,
        item.lines.len(),
        line.label
    ));
    match &line.asks {
        SitAsks::Figure | SitAsks::Row => {}
        SitAsks::Pick(offers) => lines.extend(lettered(offers)),
        SitAsks::Order(jobs) => {
            let numbered = jobs.iter().enumerate();
            lines.extend(numbered.map(|(at, job)| format!("{}: {job}", at + 1)));
        }
        SitAsks::Match { parts, meanings } => {
            let numbered = parts.iter().enumerate();
            lines.extend(numbered.map(|(at, part)| format!("part {}: {part}", at + 1)));
            lines.extend(lettered(meanings));
        }
    }
    lines
}

/// What is written; none where the input ends.
fn prompt(console: &mut Console) -> Result<Option<String>, Failure> {
    write!(console.out, "write: ")?;
    console.out.flush()?;
    let mut typed = String::new();
    let read = console.input.read_line(&mut typed);
    let read =
        read.map_err(|error| Failure::World(format!("the input cannot be read: {error}")))?;
    if read == 0 {
        console.gap()?;
        return Ok(None);
    }
    let plain = typed.trim().chars().filter(|c| !c.is_control());
    Ok(Some(plain.take(LONGEST).collect()))
}
