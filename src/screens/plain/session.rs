//! One run in plain lines: sheet after sheet, those that wait, and the tools
//! behind `?` that do the same at every prompt.

use std::collections::VecDeque;
use std::io::{self, BufRead, Write};
use std::rc::Rc;

use pumpwright_engine::figures::{self, Frame, View};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::{DrawError, Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;

use super::lines::Lines;
use super::spoken::spoken;
use super::written::Written;
use super::{PlainDone, PlainOptions};
use crate::desk::Desk;
use crate::handed_in::HandedIn;
use crate::keys::Tool;
use crate::page::Role;
use crate::set_up::Checked;
use crate::tonight::Planned;
use crate::words;

/// What is done after a sheet.
#[derive(Debug)]
pub enum After {
    /// The next sheet of the plan.
    Next,
    /// This sheet, and how one came to it.
    Other(Box<Problem>, &'static str),
    /// A sheet that waits, by its place in the list.
    GoOn(usize),
    /// The next sheet of the plan; this one waits and comes back behind it.
    Aside,
    /// Nothing: stop.
    Stop,
}

/// A sheet that was left half-way.
pub struct Waits {
    /// What stands on it.
    pub left: Half,
    /// Whether it was set aside, and so comes back behind the plan.
    pub aside: bool,
}

/// How far a sheet is that waits.
pub enum Half {
    /// Written up to the line of this number.
    Written(Written, usize),
    /// Handed in, with a line to mend.
    HandedIn(Box<HandedIn>, Written),
}

/// One run.
pub struct Session<'a> {
    pub(super) library: &'a Library,
    pub(super) settings: &'a Settings,
    pub(super) system: System,
    pub(super) manner: Manner,
    pub(super) desk: Desk<'a>,
    pub(super) lines: Lines<'a>,
    pub(super) done: PlainDone,
    /// Sheets that were left half-way, the last one first.
    pub(super) waiting: Vec<Waits>,
    draws: &'a mut dyn FnMut() -> u32,
    /// How many sheets are planned, if that is known.
    pub(super) count: Option<usize>,
    /// What is left of the evening's jobs, where the record chooses.
    pub(super) evening: Option<VecDeque<Planned>>,
    by_record: bool,
}

impl<'a> Session<'a> {
    /// A run over these streams.
    pub fn new(
        library: &'a Library,
        options: PlainOptions<'a>,
        input: &'a mut dyn BufRead,
        output: &'a mut dyn Write,
    ) -> Self {
        Self {
            library,
            settings: options.settings,
            system: options.system,
            manner: options.manner,
            desk: Desk::open(options.person),
            lines: Lines::new(input, output, (options.ascii, options.echo)),
            done: PlainDone::default(),
            waiting: Vec::new(),
            draws: options.draws,
            count: options.count,
            evening: None,
            by_record: options.by_record,
        }
    }

    /// Works through the sheets.
    pub fn practice(
        mut self,
        next: &mut dyn FnMut(System) -> Option<Problem>,
    ) -> io::Result<PlainDone> {
        self.lines.say(
            "note",
            "Write an answer and Enter. ? asks, ! shows the line, @ tables, & works out a sum.",
        )?;
        self.lines.say(
            "note",
            if self.desk.record().keeps() {
                "?K lists the tools, ?Q stops. What you write is kept."
            } else {
                "?K lists the tools, ?Q stops. What you write is kept until you stop."
            },
        )?;
        self.lay_out_drafts()?;
        if self.by_record {
            self.plan_evening()?;
        }
        let mut number = 0;
        let mut after = After::Next;
        loop {
            after = match after {
                After::Stop => break,
                After::Next | After::Aside if self.evening.is_some() => {
                    let job = self.evening.as_mut().and_then(VecDeque::pop_front);
                    match job {
                        Some(job) => {
                            number += 1;
                            let count = self.count.unwrap_or(number);
                            self.lines.say("sheet", &format!("{number} of {count}"))?;
                            self.planned(&job)?
                        }
                        None => self.after_the_plan()?,
                    }
                }
                After::Next | After::Aside => {
                    if let Some(problem) = next(self.system) {
                        number += 1;
                        let count = self.count.map(|count| format!(" of {count}"));
                        let count = count.unwrap_or_default();
                        self.lines.say("sheet", &format!("{number}{count}"))?;
                        self.sheet(Rc::new(problem))?
                    } else {
                        self.after_the_plan()?
                    }
                }
                After::Other(problem, how) => {
                    self.lines.say("sheet", &format!("{number}, {how}"))?;
                    self.sheet(Rc::new(*problem))?
                }
                After::GoOn(place) => self.go_on(place)?,
            };
        }
        self.end()?;
        Ok(self.done)
    }

    /// What comes behind the plan: the sheets that were set aside, then nothing.
    fn after_the_plan(&mut self) -> io::Result<After> {
        match self.waiting.iter().rposition(|waits| waits.aside) {
            Some(last) => self.go_on(last),
            None => {
                if self.evening.is_some() {
                    self.lines.say("note", "that was tonight's sheet")?;
                }
                Ok(After::Stop)
            }
        }
    }

    /// Goes on with a sheet that waits.
    fn go_on(&mut self, place: usize) -> io::Result<After> {
        if place >= self.waiting.len() {
            return Ok(After::Next);
        }
        match self.waiting.remove(place).left {
            Half::Written(written, number) => {
                let family = &written.problem.family.id;
                self.lines
                    .say("sheet", &format!("{family}, gone on with"))?;
                self.said_again(&written)?;
                self.work(written, number)
            }
            Half::HandedIn(handed_in, written) => {
                let family = &written.problem.family.id;
                self.lines.say("sheet", &format!("{family}, handed in"))?;
                self.said_again(&written)?;
                self.mend(handed_in, written)
            }
        }
    }

    /// Lets a sheet wait that is left for something else, if something is on it.
    pub(super) fn leave(&mut self, left: Half, after: After) -> io::Result<After> {
        let aside = matches!(after, After::Aside);
        let begun = match &left {
            Half::Written(written, _) => written.is_begun(),
            Half::HandedIn(..) => true,
        };
        if matches!(after, After::Stop | After::Next) || !(aside || begun) {
            return Ok(after);
        }
        if aside {
            let words = "set aside: it comes back behind the plan; ?T lists what waits";
            self.lines.say("note", words)?;
        } else {
            self.lines
                .say("note", "kept: the sheet waits; ?T lists what waits")?;
        }
        self.waiting.insert(0, Waits { left, aside });
        Ok(match after {
            After::GoOn(place) => After::GoOn(place + 1),
            after => after,
        })
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
            &format!("{sheets}, {score} of {marks}. {}", self.kept_words()),
        )
    }

    fn kept_words(&self) -> &'static str {
        if self.desk.record().keeps() {
            words::KEPT
        } else {
            words::NOT_KEPT
        }
    }

    /// Whether lines of a new sheet are checked as they are finished.
    pub(super) fn line_by_line(&self) -> bool {
        self.desk.checked == Checked::LineByLine
    }

    /// Tools that do the same at every prompt; the others come back.
    pub(super) fn tool(
        &mut self,
        letter: char,
        problem: &Problem,
        here: &[Tool],
    ) -> io::Result<Option<Tool>> {
        let words = match Tool::by_letter(letter) {
            Some(row) if row.tool == Tool::Keys => {
                self.keys(here, problem)?;
                return Ok(None);
            }
            Some(row) if row.tool == Tool::Figure => {
                self.figure(problem, here.contains(&Tool::Working))?;
                return Ok(None);
            }
            Some(row) if row.tool == Tool::HouseRules => {
                self.rules(problem)?;
                return Ok(None);
            }
            Some(row) if row.tool == Tool::Glossary => {
                self.words(problem)?;
                return Ok(None);
            }
            Some(row) if row.tool == Tool::Lesson => {
                self.lesson(&problem.family.lesson, problem)?;
                return Ok(None);
            }
            Some(row) if here.contains(&row.tool) => return Ok(Some(row.tool)),
            Some(row) => format!("{} {} has no use here", row.letter, row.name),
            None => format!("{letter} is no tool; ?K lists them"),
        };
        self.lines.say("note", &words)?;
        Ok(None)
    }

    /// What a tool does that has to do with the sheet that is open; nothing comes
    /// back where one stays at it.
    pub(super) fn take(&mut self, tool: Tool, written: &Written) -> io::Result<Option<After>> {
        match tool {
            Tool::NextNumbers => self.other_numbers(&written.problem),
            Tool::SetAside => Ok(Some(After::Aside)),
            Tool::Tonight => self.front(&written.problem),
            Tool::SetUp => self.set_up(),
            Tool::PlainList => {
                self.said_again(written)?;
                Ok(None)
            }
            _ => Ok(Some(After::Stop)),
        }
    }

    /// Says the figure as the list of its numbers; of a sheet that is open, without what
    /// it asks.
    fn figure(&mut self, problem: &Problem, handed_in: bool) -> io::Result<()> {
        let view = if handed_in {
            View::worked(problem)
        } else {
            View::before(problem)
        };
        let Some(scene) = figures::scene(problem, &view, Frame::SCREEN) else {
            return self.lines.say("note", "this job has no figure");
        };
        for line in figures::list(&scene) {
            self.lines.say("figure", &spoken(&line))?;
        }
        Ok(())
    }

    fn keys(&mut self, here: &[Tool], problem: &Problem) -> io::Result<()> {
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
        self.lines.say(
            "key ?G",
            "the words of this job and what they mean; with a word behind it, that one",
        )?;
        if figures::has(problem) {
            self.lines
                .say("key ?F", "the figure of this job, as a list of its numbers")?;
        }
        let others = here.iter().filter(|tool| **tool != Tool::CarryOver);
        for tool in others.chain(&everywhere) {
            let row = tool.row();
            self.lines.say(
                &format!("key ?{}", row.letter),
                &format!("{}: {}", row.name, does(*tool)),
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
    fn other_numbers(&mut self, problem: &Problem) -> io::Result<Option<After>> {
        let code = &problem.code;
        let drawn = self.draw(&code.family, Some(code.level))?;
        Ok(drawn.map(|problem| After::Other(Box::new(problem), "other numbers")))
    }

    /// The number of a fresh draw.
    pub(super) fn fresh_draw(&mut self) -> u32 {
        (self.draws)()
    }

    /// A sheet of this family; what stands against it is said.
    pub(super) fn draw(&mut self, family: &str, level: Option<u8>) -> io::Result<Option<Problem>> {
        let drawn = self.drawn(family, level);
        self.said_against(drawn)
    }

    /// A sheet of this family.
    pub(super) fn drawn(&mut self, family: &str, level: Option<u8>) -> Result<Problem, DrawError> {
        let request = Request {
            family,
            level,
            system: self.system,
            draw: (self.draws)(),
            settings: self.settings,
        };
        draw(self.library, &request)
    }

    /// Says what stands against a draw.
    pub(super) fn said_against(
        &mut self,
        drawn: Result<Problem, DrawError>,
    ) -> io::Result<Option<Problem>> {
        match drawn {
            Ok(problem) => Ok(Some(problem)),
            Err(error) => {
                self.lines.say("note", &error.to_string())?;
                Ok(None)
            }
        }
    }
}

/// What a tool does, where plain lines do it in their own way.
fn does(tool: Tool) -> &'static str {
    match tool {
        Tool::PlainList => "says this sheet once more, with what is written",
        Tool::SetAside => "leaves this sheet; it comes back behind the others",
        Tool::Working => "the worked solution",
        Tool::Tonight => "lessons, jobs and the sheets that wait, to take one",
        _ => tool.row().does,
    }
}
