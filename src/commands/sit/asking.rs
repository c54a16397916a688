//! A paper asked in plain lines: each line begins with a stable word and a colon, one prompt
//! at a time.

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::sit::{SitAsks, SitItem, SitLine, SitPaper};

use crate::console::Console;
use crate::failure::Failure;

/// The most that a line holds, so that a file is not filled by accident.
const LONGEST: usize = 400;

/// What keeps the answers as they stand.
type Keep<'a> = &'a mut dyn FnMut(&Answers) -> Result<(), Failure>;

/// How the asking ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Ended {
    /// The paper is to be handed in.
    HandedIn,
    /// The input ended before.
    Stopped,
}

/// A paper while it is answered.
pub(crate) struct Asking<'a> {
    paper: SitPaper,
    /// What is written on it.
    pub(crate) answers: Answers,
    keep: Keep<'a>,
}

/// An item and a line of it, both from zero.
type Place = (usize, usize);

impl<'a> Asking<'a> {
    /// A paper as it was left; its answers go to `keep` at each one that is written.
    pub(crate) const fn new(paper: SitPaper, answers: Answers, keep: Keep<'a>) -> Self {
        Self {
            paper,
            answers,
            keep,
        }
    }

    /// Asks line by line what is open, and any line again, until it is handed in.
    pub(crate) fn work(&mut self, console: &mut Console) -> Result<Ended, Failure> {
        self.about(console)?;
        let mut open = self.places();
        if self.begun() {
            console.line("note: goes on where it was stopped")?;
            open.retain(|place| self.written(*place).is_empty());
        }
        let mut item = None;
        for place in open {
            if item != Some(place.0) {
                self.job(place.0, console)?;
                item = Some(place.0);
            }
            if !self.ask(place, console)? {
                return Ok(Ended::Stopped);
            }
        }
        self.close(console)
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

    /// What holds for the whole paper.
    fn about(&self, console: &mut Console) -> Result<(), Failure> {
        let head = &self.paper.head;
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
        (self.keep)(&self.answers)
    }

    /// Back to any line, until it is handed in.
    fn close(&mut self, console: &mut Console) -> Result<Ended, Failure> {
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
                return Ok(Ended::Stopped);
            };
            if typed.is_empty() {
                return Ok(Ended::HandedIn);
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
                        return Ok(Ended::Stopped);
                    }
                }
                None => console.line(format_args!(
                    "note: there is no line {}; write item and line, as in 1.1",
                    crate::failure::shown(&typed)
                ))?,
            }
        }
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
pub(crate) fn prompt(console: &mut Console) -> Result<Option<String>, Failure> {
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
