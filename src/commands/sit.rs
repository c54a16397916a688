//! Answering a paper in plain lines: each line begins with a stable word and a colon, one
//! prompt at a time. What is written is kept at every answer, until it is handed in.

use std::path::{Path, PathBuf};

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::sit::{SitAsks, SitItem, SitLine, SitPaper};

use crate::classroom::text_of;
use crate::cli::Sit;
use crate::console::Console;
use crate::failure::Failure;
use crate::{own_file, platform};

/// The most that a line holds, so that a file is not filled by accident.
const LONGEST: usize = 400;

/// Asks a paper and writes the file of answers.
///
/// # Errors
/// When the paper cannot be read, or the answers cannot be kept.
pub fn run(asked: &Sit, console: &mut Console) -> Result<(), Failure> {
    let shown = asked.file.display();
    let text = text_of(&asked.file)?;
    let paper = SitPaper::read(&text).map_err(|what| Failure::Input(format!("{shown} {what}")))?;
    let out = asked
        .out
        .clone()
        .unwrap_or_else(|| PathBuf::from(own_name(&paper)));
    if out.exists() {
        return Err(Failure::Input(format!(
            "{} is there: this paper was handed in; hand that file over, or name another by --out",
            out.display()
        )));
    }
    let mut sitting = Sitting::of(paper, &out)?;
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
    sitting.close(&out, console)
}

/// The name of the file of answers: the next plan's is another.
fn own_name(paper: &SitPaper) -> String {
    format!("answers-{}-{}.json", paper.head.plan, paper.person.id)
}

/// A paper while it is answered. A place is an item and a line of it, both from zero.
struct Sitting {
    paper: SitPaper,
    answers: Answers,
    draft: PathBuf,
}

type Place = (usize, usize);

impl Sitting {
    /// A paper as it was left, or fresh.
    fn of(paper: SitPaper, out: &Path) -> Result<Self, Failure> {
        let mut name = out.as_os_str().to_owned();
        name.push(".draft");
        let draft = PathBuf::from(name);
        let mut answers = Answers::to(&paper);
        if draft.exists() {
            // A draft of another paper, or a broken one, is no reason to lose either.
            match Answers::read(&text_of(&draft)?) {
                Ok(kept) if kept.sum == answers.sum => answers = kept,
                Ok(_) => {
                    return Err(Failure::Input(format!(
                        "{} belongs to another paper; name another file by --out",
                        draft.display()
                    )));
                }
                Err(what) => {
                    return Err(Failure::Input(format!(
                        "{} {what}, or take it away to begin anew",
                        draft.display()
                    )));
                }
            }
        }
        Ok(Self {
            paper,
            answers,
            draft,
        })
    }

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
        own_file::put(&self.draft, self.answers.text().as_bytes()).map_err(|error| {
            Failure::World(format!(
                "{} cannot be written: {error}",
                self.draft.display()
            ))
        })
    }

    /// Back to any line, until it is handed in.
    fn close(mut self, out: &Path, console: &mut Console) -> Result<(), Failure> {
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
                return self.hand_in(out, console);
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

    fn hand_in(mut self, out: &Path, console: &mut Console) -> Result<(), Failure> {
        (self.answers.at, self.answers.zone) = platform::clock();
        own_file::replace(out, self.answers.text().as_bytes()).map_err(|error| {
            Failure::World(format!(
                "{} cannot be written: {error}; what you wrote is kept in {}",
                out.display(),
                self.draft.display()
            ))
        })?;
        // It is handed in; that its draft may stay is no fault.
        let _ = std::fs::remove_file(&self.draft);
        console.line(format_args!("end: handed in as {}", out.display()))?;
        console.line("next: give that file to your instructor")
    }

    fn stopped(self, console: &mut Console) -> Result<(), Failure> {
        if self.draft.exists() {
            return console.line(format_args!(
                "end: not handed in; kept in {}, the same command goes on",
                self.draft.display()
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
