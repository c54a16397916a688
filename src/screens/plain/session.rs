//! One run in plain lines: sheet after sheet, and the tools behind `?`.

use std::io::{self, BufRead, Write};
use std::rc::Rc;

use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Request, draw};

use super::lines::Lines;
use super::{PlainDone, PlainOptions};
use crate::keys::{Tool, not_built};
use crate::page::Role;
use crate::words;

/// What is done after a sheet.
#[derive(Debug)]
pub enum After {
    /// The next sheet of the plan.
    Next,
    /// The same job with other numbers.
    Other(Box<Problem>),
    /// Nothing: stop.
    Stop,
}

/// One run.
pub struct Session<'a> {
    pub(super) library: &'a Library,
    pub(super) options: PlainOptions<'a>,
    pub(super) lines: Lines<'a>,
    pub(super) done: PlainDone,
}

impl<'a> Session<'a> {
    /// A run over these streams.
    pub fn new(
        library: &'a Library,
        options: PlainOptions<'a>,
        input: &'a mut dyn BufRead,
        output: &'a mut dyn Write,
    ) -> Self {
        let lines = Lines::new(input, output, (options.ascii, options.echo));
        Self {
            library,
            options,
            lines,
            done: PlainDone::default(),
        }
    }

    /// Works through the sheets.
    pub fn practice(mut self, next: &mut dyn FnMut() -> Option<Problem>) -> io::Result<PlainDone> {
        self.lines.say(
            "note",
            "Write an answer and Enter. ? asks, ! shows the line, @ tables, & works out a sum.",
        )?;
        self.lines.say(
            "note",
            "?K lists the tools, ?Q stops. What you write is kept until you stop.",
        )?;
        let mut number = 0;
        let mut other = None;
        loop {
            let (problem, place) = if let Some(problem) = other.take() {
                (problem, format!("{number}, other numbers"))
            } else {
                let Some(problem) = next() else { break };
                number += 1;
                let count = self.options.count.map(|count| format!(" of {count}"));
                (problem, format!("{number}{}", count.unwrap_or_default()))
            };
            self.lines.say("sheet", &place)?;
            match self.sheet(Rc::new(problem))? {
                After::Next => {}
                After::Other(problem) => other = Some(*problem),
                After::Stop => break,
            }
        }
        self.end()?;
        Ok(self.done)
    }

    fn end(&mut self) -> io::Result<()> {
        let PlainDone {
            sheets,
            score,
            out_of,
        } = self.done;
        let sheets = words::count(sheets, "sheet", "sheets");
        let marks = words::marks(out_of);
        self.lines.say(
            "end",
            &format!("{sheets}, {score} of {marks}. {}", words::NOT_KEPT),
        )
    }

    /// Tools that do the same at every prompt; the others come back.
    pub(super) fn tool(
        &mut self,
        letter: char,
        problem: &Problem,
        here: &[Tool],
    ) -> io::Result<Option<Tool>> {
        let words = match Tool::by_letter(letter) {
            Some(row) if !row.ready => not_built(&row.letter.to_string(), row.name),
            Some(row) if row.tool == Tool::Keys => {
                self.keys(here)?;
                return Ok(None);
            }
            Some(row) if row.tool == Tool::HouseRules => {
                self.rules(problem)?;
                return Ok(None);
            }
            Some(row) if row.tool == Tool::Lesson => {
                self.lesson(problem)?;
                return Ok(None);
            }
            Some(row) if here.contains(&row.tool) => return Ok(Some(row.tool)),
            Some(row) => format!("{} {} has no use here", row.letter, row.name),
            None => format!("{letter} is no tool; ?K lists them"),
        };
        self.lines.say("note", &words)?;
        Ok(None)
    }

    fn keys(&mut self, here: &[Tool]) -> io::Result<()> {
        let everywhere = [Tool::HouseRules, Tool::Lesson, Tool::Keys];
        self.lines
            .say("key ?", "ask about this line; again, one step more of help")?;
        self.lines
            .say("key !", "I do not know, show me this line")?;
        self.lines.say(
            "key @",
            "the table that this line uses; with a number or a word behind it, the one so named",
        )?;
        self.lines.say(
            "key &",
            "works out the sum behind it; alone, lists the sums, s1 and so on",
        )?;
        if here.contains(&Tool::CarryOver) {
            self.lines.say(
                "key ?O",
                "carry over: answers this line with the latest sum; ?O s1 with that one",
            )?;
        }
        let others = here.iter().filter(|tool| **tool != Tool::CarryOver);
        for tool in others.chain(&everywhere) {
            let row = tool.row();
            self.lines.say(
                &format!("key ?{}", row.letter),
                &format!("{}: {}", row.name, row.does),
            )?;
        }
        Ok(())
    }

    fn rules(&mut self, problem: &Problem) -> io::Result<()> {
        let rules = self.library.rules(problem.code.system);
        for entry in crate::rules::reading(problem, rules).lines {
            let text: Vec<&str> = entry.cells.iter().map(|cell| cell.text.trim()).collect();
            let text = text.join("");
            if !text.is_empty() {
                let prefix = if entry.role == Role::Head {
                    "rules"
                } else {
                    "note"
                };
                self.lines.say(prefix, &text)?;
            }
        }
        Ok(())
    }

    /// The same job drawn again.
    pub(super) fn other_numbers(&mut self, problem: &Problem) -> io::Result<Option<After>> {
        let request = Request {
            family: &problem.code.family,
            level: Some(problem.code.level),
            system: problem.code.system,
            draw: (self.options.draws)(),
            settings: self.options.settings,
        };
        match draw(self.library, &request) {
            Ok(problem) => Ok(Some(After::Other(Box::new(problem)))),
            Err(error) => {
                self.lines.say("note", &error.to_string())?;
                Ok(None)
            }
        }
    }
}
