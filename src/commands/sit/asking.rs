//! A paper asked in plain lines: each line begins with a stable word and a colon, one prompt
//! at a time.

use std::collections::VecDeque;

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::sit::{SitAsks, SitItem, SitLine, SitPaper};
use pumpwright_screens::{Heard, MATCH_FORM, ORDER_FORM, PaperTools};

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
    tools: PaperTools<'a>,
    keep: Keep<'a>,
}

/// What takes an answer out again.
const NONE: &str = "-";

/// What hands in a paper on which lines are open.
const HAND_IN: &str = "?Z";

/// How one comes away from a line.
enum Away {
    /// To the next open one.
    On,
    /// To this one.
    To(Place),
    /// To what is open, before the paper is handed in.
    Close,
    /// Nothing more is read.
    Stop,
}

/// An item and a line of it, both from zero.
type Place = (usize, usize);

impl<'a> Asking<'a> {
    /// A paper as it was left; its answers go to `keep` at each one that is written.
    pub(crate) fn new(
        (paper, answers): (SitPaper, Answers),
        tools: PaperTools<'a>,
        keep: Keep<'a>,
    ) -> Self {
        Self {
            paper,
            answers,
            tools,
            keep,
        }
    }

    /// Asks line by line what is open, and any line again, until it is handed in.
    pub(crate) fn work(&mut self, console: &mut Console) -> Result<Ended, Failure> {
        self.about(console)?;
        let mut open = VecDeque::from(self.places());
        if self.begun() {
            console.line("note: goes on where it was stopped")?;
            open.retain(|place| self.written(*place).is_empty());
        }
        let mut item = None;
        while let Some(place) = open.pop_front() {
            if item != Some(place.0) {
                self.job(place.0, console)?;
                item = Some(place.0);
            }
            match self.ask(place, console)? {
                Away::On => {}
                Away::To(other) => {
                    // What is open here is asked again behind it.
                    if self.written(place).is_empty() && other != place {
                        open.push_front(place);
                    }
                    open.retain(|place| *place != other);
                    open.push_front(other);
                }
                Away::Close => break,
                Away::Stop => return Ok(Ended::Stopped),
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
        console.line(format_args!("note: {}", PaperTools::WORDS))
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

    /// Asks one line until it is written, left as it is, or left for another.
    fn ask(&mut self, place: Place, console: &mut Console) -> Result<Away, Failure> {
        self.asked(place, console)?;
        loop {
            let Some(typed) = prompt(console)? else {
                return Ok(Away::Stop);
            };
            match self.tools.hear(&self.paper, Some(place), &typed) {
                Heard::Answer => {
                    if self.answer(place, &typed, console)? {
                        return Ok(Away::On);
                    }
                }
                Heard::Carried(answer) => {
                    if self.answer(place, &answer, console)? {
                        return Ok(Away::On);
                    }
                }
                Heard::Stop => return Ok(Away::Stop),
                Heard::Close => return Ok(Away::Close),
                Heard::To(item, line) => return Ok(Away::To((item, line))),
                Heard::Again => {
                    self.job(place.0, console)?;
                    self.asked(place, console)?;
                }
                Heard::Said(said) => said.iter().try_for_each(|line| console.line(line))?,
            }
        }
    }

    fn line(&self, place: Place) -> Option<(&SitItem, &SitLine)> {
        let item = self.paper.items.get(place.0)?;
        Some((item, item.lines.get(place.1)?))
    }

    /// Says what is asked at a line, and what stands there already.
    fn asked(&self, place: Place, console: &mut Console) -> Result<(), Failure> {
        let Some((item, line)) = self.line(place) else {
            return Ok(());
        };
        for text in asked(item, line) {
            console.line(text)?;
        }
        match self.written(place) {
            "" => Ok(()),
            holds => console.line(format_args!(
                "note: It holds {holds}. Enter keeps that, {NONE} alone takes it out."
            )),
        }
    }

    /// Keeps an answer as it was written; says whether to go on. An order or a match that is
    /// not one sign for each row is asked for once more.
    fn answer(
        &mut self,
        place: Place,
        typed: &str,
        console: &mut Console,
    ) -> Result<bool, Failure> {
        let number = format!("{}.{}", item_number(place), place.1 + 1);
        let holds = self.written(place).to_owned();
        if typed.is_empty() && !holds.is_empty() {
            console.line(format_args!("kept {number}: {holds}"))?;
            return Ok(true);
        }
        if typed == NONE && !holds.is_empty() {
            self.write(place, "")?;
            console.line(format_args!("kept {number}: nothing, the line is open"))?;
            return Ok(true);
        }
        self.write(place, typed)?;
        if typed.is_empty() {
            return Ok(true);
        }
        console.line(format_args!("kept {number}: {typed}"))?;
        let Some((_, line)) = self.line(place) else {
            return Ok(true);
        };
        for told in self.tools.told(line, typed) {
            console.line(told)?;
        }
        if self.tools.reads(line, typed) || !line.is_arranged() {
            return Ok(true);
        }
        console.line("note: Write it once more; Enter alone leaves it so.")?;
        Ok(false)
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
            let numbers = |with: &dyn Fn(Place) -> bool| {
                let places = places.iter().filter(|place| with(**place));
                let number = |place: &Place| format!("{}.{}", item_number(*place), place.1 + 1);
                places.map(number).collect::<Vec<_>>().join(" ")
            };
            let open = numbers(&|place| self.written(place).is_empty());
            if !open.is_empty() {
                console.line(format_args!("open: {open}"))?;
            }
            let unread = numbers(&|place| {
                let line = self.line(place);
                line.is_some_and(|(_, line)| !self.tools.reads(line, self.written(place)))
            });
            if !unread.is_empty() {
                console.line(format_args!("cannot be read: {unread}"))?;
            }
            let by = if open.is_empty() { "Enter" } else { HAND_IN };
            console.line(format_args!(
                "next: {by} hands in. An item and a line, as in 3.2, goes back there."
            ))?;
            let Some(typed) = prompt(console)? else {
                return Ok(Ended::Stopped);
            };
            if typed.is_empty() {
                if open.is_empty() {
                    return Ok(Ended::HandedIn);
                }
                console.line(format_args!(
                    "note: Lines are open. Enter alone hands nothing in; {HAND_IN} does."
                ))?;
                continue;
            }
            let mut to = match self.tools.hear(&self.paper, None, &typed) {
                Heard::Stop => return Ok(Ended::Stopped),
                Heard::Close => return Ok(Ended::HandedIn),
                // No line has the pen here, and nothing is carried over.
                Heard::Again | Heard::Carried(_) => continue,
                Heard::Said(said) => {
                    said.iter().try_for_each(|line| console.line(line))?;
                    continue;
                }
                Heard::To(item, line) => Some((item, line)),
                Heard::Answer => named(&typed).filter(|place| places.contains(place)),
            };
            if to.is_none() {
                console.line(format_args!(
                    "note: there is no line {}; write item and line, as in 1.1",
                    crate::failure::shown(&typed)
                ))?;
            }
            while let Some(place) = to.take() {
                self.job(place.0, console)?;
                match self.ask(place, console)? {
                    Away::On | Away::Close => {}
                    Away::To(other) => to = Some(other),
                    Away::Stop => return Ok(Ended::Stopped),
                }
            }
        }
    }
}

/// An item and a line, as in `3.2`.
fn named(typed: &str) -> Option<Place> {
    let (item, line) = typed.split_once('.')?;
    let number = |text: &str| text.trim().parse::<usize>().ok()?.checked_sub(1);
    Some((number(item)?, number(line)?))
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
        (SitAsks::Order(_), _) => ORDER_FORM.to_owned(),
        (SitAsks::Match { .. }, _) => MATCH_FORM.to_owned(),
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
            lines.extend(numbered.map(|(at, job)| format!("job {}: {job}", at + 1)));
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
