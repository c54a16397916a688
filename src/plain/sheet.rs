//! One sheet in plain lines: its lines are written, handed in and marked, and
//! those worth another look are written once more.

use pumpwright_engine::marking::{self, Manner, Response};
use pumpwright_engine::problems::{self, Problem};

use super::{End, Practice, Talk, Tally, mending, wording};
use crate::failure::Failure;
use crate::telling;

/// One asked line of the sheet.
#[derive(Debug, Clone, Default)]
struct Written {
    /// What was typed; nothing where it is left out.
    typed: Option<String>,
    /// How often help was asked.
    asked: usize,
    /// Help was given or the line shown.
    helped: bool,
}

/// What comes after an input at a line.
enum Move {
    Stay,
    On,
    End(End),
}

/// A sheet that is being worked.
pub struct Sheet<'a> {
    /// The problem.
    pub problem: &'a Problem,
    /// How answers are read.
    pub manner: Manner,
    /// The places of the lines that are asked.
    pub places: Vec<usize>,
    practice: &'a Practice<'a>,
    written: Vec<Written>,
}

/// Works one sheet to its end.
pub fn work(
    practice: &Practice,
    problem: &Problem,
    talk: &mut Talk,
    tally: &mut Tally,
) -> Result<End, Failure> {
    wording::head(problem, talk)?;
    let places = wording::asked(problem);
    let written = vec![Written::default(); places.len()];
    let mut sheet = Sheet {
        problem,
        manner: practice.manner,
        places,
        practice,
        written,
    };
    for number in 1..=sheet.places.len() {
        if let Some(end) = sheet.write(number, talk)? {
            return Ok(end);
        }
    }
    if let Some(end) = sheet.before_handing_in(talk)? {
        return Ok(end);
    }
    let marked = marking::mark(problem, &sheet.response(), sheet.manner);
    tally.add(&marked);
    for line in &marked.lines {
        let helped = sheet.written.get(line.number.wrapping_sub(1));
        wording::verdict(line, helped.is_some_and(|line| line.helped), talk)?;
    }
    talk.say("marks", &telling::score(&marked))?;
    mending::mend(&mut sheet, &marked, talk)
}

impl Sheet<'_> {
    /// What is written so far, by the ids of the lines.
    pub fn response(&self) -> Response {
        let lines = self.places.iter().zip(&self.written);
        let answers = lines.filter_map(|(place, written)| {
            let line = self.problem.lines.get(*place)?;
            Some((line.id.clone(), written.typed.clone()?))
        });
        Response {
            answers: answers.collect(),
        }
    }

    /// Writes into a line, by its number from one.
    pub fn put(&mut self, number: usize, typed: String) {
        if let Some(written) = self.written.get_mut(number.wrapping_sub(1)) {
            written.typed = Some(typed);
        }
    }

    /// Says what a line asks; false where there is no such line.
    pub fn show_line(&self, number: usize, talk: &mut Talk) -> Result<bool, Failure> {
        let place = self.places.get(number.wrapping_sub(1));
        match place.and_then(|place| self.problem.lines.get(*place)) {
            Some(line) => {
                wording::line(line, number, self.places.len(), talk)?;
                Ok(true)
            }
            None => Ok(false),
        }
    }

    /// Asks for a line until something is kept or it is left out.
    fn write(&mut self, number: usize, talk: &mut Talk) -> Result<Option<End>, Failure> {
        self.show_line(number, talk)?;
        loop {
            let Some(typed) = talk.ask()? else {
                return Ok(Some(End::Stop));
            };
            match self.take(number, &typed, talk)? {
                Move::Stay => {}
                Move::On => return Ok(None),
                Move::End(end) => return Ok(Some(end)),
            }
        }
    }

    fn take(&mut self, number: usize, typed: &str, talk: &mut Talk) -> Result<Move, Failure> {
        match typed {
            "" => {
                if let Some(written) = self.written.get_mut(number.wrapping_sub(1)) {
                    written.typed = None;
                }
                talk.say(&format!("left {number}"), "not written")?;
                return Ok(Move::On);
            }
            "?" => self.help(number, talk)?,
            "!" => self.give(number, 3, talk)?,
            tool if tool.starts_with('?') => {
                return Ok(self.tool(tool, talk)?.map_or(Move::Stay, Move::End));
            }
            answer => return self.keep(number, answer, talk),
        }
        Ok(Move::Stay)
    }

    fn keep(&mut self, number: usize, answer: &str, talk: &mut Talk) -> Result<Move, Failure> {
        let Some(place) = self.places.get(number.wrapping_sub(1)).copied() else {
            return Ok(Move::On);
        };
        match marking::keep(self.problem, place, answer, self.manner) {
            Ok(kept) => {
                self.put(number, answer.to_owned());
                let helped = self.written.get(number.wrapping_sub(1));
                let with = if helped.is_some_and(|line| line.helped) {
                    ", with help"
                } else {
                    ""
                };
                talk.say(&format!("kept {number}"), &format!("{kept}{with}"))?;
                Ok(Move::On)
            }
            Err(reason) => {
                talk.say("note", &reason)?;
                Ok(Move::Stay)
            }
        }
    }

    /// The first `?` says what a second one gives; then help comes step by step.
    pub fn help(&mut self, number: usize, talk: &mut Talk) -> Result<(), Failure> {
        let Some(written) = self.written.get_mut(number.wrapping_sub(1)) else {
            return Ok(());
        };
        written.asked += 1;
        match written.asked {
            1 => talk.say(
                "ask",
                "? again gives the principle, and is recorded as help. ! shows the line. \
                 ?K lists the tools.",
            ),
            more => self.give(number, (more - 2).min(3), talk),
        }
    }

    /// Gives one of the four steps of help on a line.
    pub fn give(&mut self, number: usize, step: usize, talk: &mut Talk) -> Result<(), Failure> {
        let at = number.wrapping_sub(1);
        let Some(place) = self.places.get(at) else {
            return Ok(());
        };
        let help = problems::help(self.problem, *place);
        if let Some(help) = help.get(step) {
            let prefix = format!("help {} of 4, {}", step + 1, help.name);
            for line in &help.text {
                talk.say(&prefix, &wording::spelled_out(line))?;
            }
        }
        if let Some(written) = self.written.get_mut(at) {
            written.helped = true;
            written.asked = written.asked.max(step + 2);
        }
        Ok(())
    }

    /// A tool by its letter, while the sheet is not handed in.
    fn tool(&self, typed: &str, talk: &mut Talk) -> Result<Option<End>, Failure> {
        match typed.to_ascii_uppercase().as_str() {
            "?Q" => return Ok(Some(End::Stop)),
            "?N" => return Ok(Some(End::Again)),
            "?A" => return Ok(Some(End::Next)),
            "?W" => talk.say("note", "The working is there once the sheet is handed in.")?,
            _ => self.always(typed, talk)?,
        }
        Ok(None)
    }

    /// The tools that are there before and after handing in.
    pub fn always(&self, typed: &str, talk: &mut Talk) -> Result<(), Failure> {
        match typed.to_ascii_uppercase().as_str() {
            "?H" => self.house_rules(talk),
            "?L" => self.lesson(talk),
            "?S" => wording::head(self.problem, talk),
            "?K" => {
                for tool in TOOLS {
                    talk.say("tool", tool)?;
                }
                Ok(())
            }
            other => {
                let shown = crate::failure::shown(other);
                talk.say("note", &format!("{shown} is no tool here; ?K lists them."))
            }
        }
    }

    fn house_rules(&self, talk: &mut Talk) -> Result<(), Failure> {
        for rule in &self.problem.rules {
            talk.say("rule", &rule.text)?;
        }
        if let Some(varies) = self.problem.varies() {
            talk.say("varies", &varies)?;
        }
        for source in telling::sources(self.problem) {
            talk.say("source", &source)?;
        }
        Ok(())
    }

    fn lesson(&self, talk: &mut Talk) -> Result<(), Failure> {
        let library = self.practice.library;
        let Some(lesson) = library.lesson(&self.problem.family.lesson) else {
            return talk.say("note", "This family has no lesson text.");
        };
        talk.say("lesson", &lesson.title)?;
        for part in telling::parts(library, lesson, self.problem.variant.system) {
            talk.say("part", &part.head)?;
            for paragraph in &part.text {
                talk.say("text", paragraph)?;
            }
            if let Some(law) = &part.law {
                talk.say("law", &wording::spelled_out(law))?;
            }
            if let Some(caution) = &part.caution {
                talk.say("caution", caution)?;
            }
        }
        Ok(())
    }

    /// The last stop before handing in: any line can be written again.
    fn before_handing_in(&mut self, talk: &mut Talk) -> Result<Option<End>, Failure> {
        let last = self.places.len();
        loop {
            let back = match last {
                1 => "1 goes back to the line.".to_owned(),
                last => format!("A number from 1 to {last} goes back to that line."),
            };
            talk.say("next", &format!("Enter hands in. {back}"))?;
            let Some(typed) = talk.ask()? else {
                return Ok(Some(End::Stop));
            };
            if typed.is_empty() {
                return Ok(None);
            }
            if typed.starts_with('?') && typed.len() > 1 {
                if let Some(end) = self.tool(&typed, talk)? {
                    return Ok(Some(end));
                }
                continue;
            }
            match typed
                .parse()
                .ok()
                .filter(|number| (1..=last).contains(number))
            {
                Some(number) => {
                    if let Some(end) = self.write(number, talk)? {
                        return Ok(Some(end));
                    }
                }
                None => talk.say("note", "This is no line of the sheet.")?,
            }
        }
    }
}

const TOOLS: &[&str] = &[
    "?A leaves this sheet for the next",
    "?H house rules, what varies, sources",
    "?K these tools",
    "?L the lesson",
    "?N the same job with other numbers",
    "?Q stops",
    "?S says the sheet again",
    "?W the working, once the sheet is handed in",
];
