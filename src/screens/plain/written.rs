//! Writing a sheet in plain lines: head, caution, job, then line by line.

use std::io;
use std::rc::Rc;

use pumpwright_engine::entries::{Id, Purpose};
use pumpwright_engine::marking::{Manner, Response, keep};
use pumpwright_engine::problems::{Asks, Problem, help};

use super::checked::Check;
use super::lines::Came;
use super::session::{After, Half, Session};
use super::spoken::spoken;
use crate::keys::Tool;
use crate::sheet::{Spent, asked, number};
use crate::slip::STEPS;
use crate::sums::Back;

/// What takes a line out again: an empty one keeps what stands.
const NONE: &str = "-";

/// The tools that have a use on a sheet that is being written.
const TOOLS: [Tool; 6] = [
    Tool::SetAside,
    Tool::NextNumbers,
    Tool::PlainList,
    Tool::SetUp,
    Tool::Tonight,
    Tool::Quit,
];

/// How a line was left.
pub enum Left {
    /// With this, as it was typed.
    Typed(String),
    /// With nothing typed.
    AsItIs,
    /// For something else than this line.
    For(After),
    /// For the whole working.
    Working,
}

/// How a visit to a line ends.
enum Visit {
    /// One goes on.
    GoesOn,
    /// The sheet is handed in as it is.
    HandsIn,
    /// The sheet is left.
    Leaves(After),
}

/// What is written on a sheet so far.
pub struct Written {
    /// The problem.
    pub problem: Rc<Problem>,
    /// How figures are written.
    pub manner: Manner,
    /// Whether each line is checked as it is finished.
    pub line_by_line: bool,
    /// The side sums on its back.
    pub back: Back,
    /// The id under which it is kept.
    pub id: Id,
    /// What it is done for.
    pub purpose: Purpose,
    /// How long it took so far.
    pub spent: Spent,
    /// The lines that stood there filled in.
    pub given: Vec<bool>,
    lines: Vec<WrittenLine>,
}

/// What is written at a line so far.
#[derive(Debug, Clone, Default)]
struct WrittenLine {
    /// What was typed.
    typed: String,
    /// What was typed when it was checked the first time.
    first: Option<String>,
    /// Whether `?` was met already.
    asked: bool,
    /// The steps of help given.
    helped: usize,
}

impl Written {
    /// A sheet with nothing written.
    pub fn new(problem: Rc<Problem>, manner: Manner, line_by_line: bool, id: Id) -> Self {
        let lines = vec![WrittenLine::default(); problem.lines.len()];
        Self {
            problem,
            manner,
            line_by_line,
            lines,
            back: Back::default(),
            id,
            purpose: Purpose::Practice,
            spent: Spent::default(),
            given: Vec::new(),
        }
    }

    /// The lines that were checked, and what was written there first.
    pub fn firsts(&self) -> Vec<(usize, String)> {
        let lines = self.lines.iter().enumerate();
        lines
            .filter_map(|(at, line)| Some((at, line.first.clone()?)))
            .collect()
    }

    /// Notes what was written first in a line.
    pub fn set_first(&mut self, line: usize, first: String) {
        if let Some(line) = self.lines.get_mut(line) {
            line.first = Some(first);
        }
    }

    /// Notes how many steps of help a line had.
    pub fn note_helped(&mut self, line: usize, helped: usize) {
        if let Some(line) = self.lines.get_mut(line) {
            line.asked |= helped > 0;
            line.helped = helped;
        }
    }

    /// Everything that stands on it.
    pub fn response(&self) -> Response {
        self.response_of(|line| &line.typed)
    }

    /// Everything as it was written first.
    fn first_writing(&self) -> Response {
        self.response_of(|line| line.first.as_ref().unwrap_or(&line.typed))
    }

    fn response_of(&self, typed: impl Fn(&WrittenLine) -> &String) -> Response {
        let lines = self.problem.lines.iter().zip(&self.lines);
        let answers = lines.map(|(asked, line)| (asked.id.clone(), typed(line).clone()));
        Response {
            answers: answers.filter(|(_, typed)| !typed.is_empty()).collect(),
        }
    }

    /// The lines that stand otherwise than they were written first.
    fn written_again(&self) -> Vec<(usize, String)> {
        let lines = self.lines.iter().enumerate();
        let changed = lines.filter(|(_, line)| {
            let first = line.first.as_ref();
            !line.typed.is_empty() && first.is_some_and(|first| *first != line.typed)
        });
        changed.map(|(at, line)| (at, line.typed.clone())).collect()
    }

    /// Notes what stands in a line, if it is its first writing.
    pub fn note_first(&mut self, line: usize) {
        if let Some(line) = self.lines.get_mut(line) {
            let typed = &line.typed;
            line.first.get_or_insert_with(|| typed.clone());
        }
    }

    /// Whether anything is written, on the front or on the back.
    pub fn is_begun(&self) -> bool {
        let written = |line: &WrittenLine| !line.typed.is_empty();
        self.lines.iter().any(written) || !self.back.done.is_empty()
    }

    /// What stands in a line.
    pub fn typed(&self, line: usize) -> &str {
        self.lines.get(line).map_or("", |line| &line.typed)
    }

    /// Writes a line.
    pub fn set(&mut self, line: usize, typed: String) {
        if let Some(line) = self.lines.get_mut(line) {
            line.typed = typed;
        }
    }

    /// The tools that have a use at a line.
    fn tools(&self, line: usize, tools: &[Tool]) -> Vec<Tool> {
        let asks = self.problem.lines.get(line).map(|line| &line.asks);
        let figure = matches!(asks, Some(Asks::Figure | Asks::Row));
        let carry = figure.then_some(Tool::CarryOver);
        tools.iter().copied().chain(carry).collect()
    }

    /// The steps of help that were given on a line.
    pub fn helped(&self, line: usize) -> usize {
        self.lines.get(line).map_or(0, |line| line.helped)
    }

    fn line(&self, number: usize) -> Option<usize> {
        (0..self.problem.lines.len())
            .find(|&line| self::number(&self.problem, line) == Some(number))
    }
}

impl Session<'_> {
    /// Works a new sheet.
    pub(super) fn sheet(&mut self, problem: Rc<Problem>) -> io::Result<After> {
        self.head(&problem)?;
        let id = self.desk.clerk().fresh_id();
        let written = Written::new(problem, self.manner, self.line_by_line(), id);
        self.work(written, 1)
    }

    /// Works a sheet from one of its lines on.
    pub(super) fn work(&mut self, mut written: Written, from: usize) -> io::Result<After> {
        let count = asked(&written.problem);
        for number in from..=count {
            match self.visit(&mut written, number)? {
                Visit::GoesOn => {}
                Visit::HandsIn => return self.hand_in(written),
                Visit::Leaves(after) => {
                    return self.leave(Half::Written(written, number), after);
                }
            }
        }
        loop {
            let back = match count {
                1 => "1 goes back to the line.".to_owned(),
                _ => format!("A number from 1 to {count} goes back to that line."),
            };
            self.lines.say("next", &format!("Enter hands in. {back}"))?;
            let after = match self.lines.read()? {
                Came::End => return Ok(After::Stop),
                Came::Letter(letter) => match self.tool(letter, &written.problem, &TOOLS)? {
                    Some(tool) => self.take(tool, &written)?,
                    None => None,
                },
                Came::Text(text) if text.is_empty() => {
                    if !written.response().answers.is_empty() {
                        return self.hand_in(written);
                    }
                    self.lines
                        .say("note", "nothing is written yet: 1 goes to the first line")?;
                    None
                }
                Came::Text(text) => match text.parse() {
                    Ok(number) if (1..=count).contains(&number) => {
                        match self.visit(&mut written, number)? {
                            Visit::GoesOn => None,
                            Visit::HandsIn => return self.hand_in(written),
                            Visit::Leaves(after) => Some(after),
                        }
                    }
                    _ => {
                        self.lines
                            .say("note", "Enter alone hands in, a line number goes back")?;
                        None
                    }
                },
                Came::Tables(asked) => {
                    self.tables((&written.problem, None), None, &asked)?;
                    None
                }
                Came::Word(word) => {
                    self.word(&word)?;
                    None
                }
                Came::Sums(sum) => {
                    self.sum(&mut written, &sum)?;
                    None
                }
                Came::CarryOver(_) | Came::Ask | Came::Show => {
                    self.lines
                        .say("note", "go back to a line by its number first")?;
                    None
                }
            };
            if let Some(after) = after {
                // Past its last line: gone on with, it is to be handed in.
                return self.leave(Half::Written(written, count + 1), after);
            }
        }
    }

    fn hand_in(&mut self, written: Written) -> io::Result<After> {
        let sheet = written.sheet();
        let again = written.written_again();
        self.handed_in(sheet, (written.first_writing(), again), written)
    }

    /// Says a sheet once more, with what is written on it.
    pub(super) fn said_again(&mut self, written: &Written) -> io::Result<()> {
        self.head(&written.problem)?;
        for (number, line) in written.problem.asked() {
            let place = written.line(number).unwrap_or(0);
            let text = match written.typed(place) {
                "" => "(empty)".to_owned(),
                typed => kept_words(written, place, typed).unwrap_or_else(|words| words),
            };
            let prefix = format!("line {number} of {}", asked(&written.problem));
            self.lines
                .say(&prefix, &format!("{}: {text}", line.label))?;
        }
        Ok(())
    }

    /// Has one line written, and checked where the sheet is checked line by line.
    fn visit(&mut self, written: &mut Written, number: usize) -> io::Result<Visit> {
        let Some(line) = written.line(number) else {
            return Ok(Visit::GoesOn);
        };
        loop {
            let began = self.desk.clerk().now().milliseconds;
            let left = self.write_line(written, line, &TOOLS)?;
            let passed = self.desk.clerk().now().milliseconds - began;
            written.spent.add(passed, Some(line));
            match left {
                Left::For(after) => return Ok(Visit::Leaves(after)),
                Left::Working => {}
                Left::AsItIs => {
                    let kept = match written.typed(line) {
                        "" => "nothing, the line is empty".to_owned(),
                        typed => kept_words(written, line, typed).unwrap_or_else(|words| words),
                    };
                    self.lines.say(&format!("kept {number}"), &kept)?;
                    return Ok(Visit::GoesOn);
                }
                Left::Typed(typed) => written.set(line, typed),
            }
            self.keep_draft(written);
            match self.check(written, line)? {
                Check::GoesOn => return Ok(Visit::GoesOn),
                Check::Ends => return Ok(Visit::HandsIn),
                Check::Looks => {
                    let words = format!("Enter alone goes on. Or write line {number} once more.");
                    self.lines.say("next", &words)?;
                }
            }
        }
    }

    /// Asks for one line until it is written, left as it is, or left for a tool.
    pub(super) fn write_line(
        &mut self,
        written: &mut Written,
        line: usize,
        tools: &[Tool],
    ) -> io::Result<Left> {
        self.ask_for(&written.problem, line)?;
        let here = written.tools(line, tools);
        let mends = here.contains(&Tool::Working);
        if !mends {
            self.holds(written, line)?;
        }
        loop {
            let came = match self.lines.read()? {
                Came::Letter('o' | 'O') if here.contains(&Tool::CarryOver) => {
                    Came::CarryOver(String::new())
                }
                Came::CarryOver(_) if !here.contains(&Tool::CarryOver) => Came::Letter('O'),
                came => came,
            };
            match came {
                Came::End => return Ok(Left::For(After::Stop)),
                Came::Ask => self.help(written, line)?,
                Came::Show => self.show(written, line)?,
                Came::Tables(asked) => self.tables((&written.problem, None), Some(line), &asked)?,
                Came::Word(word) => self.word(&word)?,
                Came::Sums(sum) => self.sum(written, &sum)?,
                Came::CarryOver(name) => {
                    if let Some(text) = self.carry_over(written, line, &name)?
                        && self.kept(written, line, &text)?
                    {
                        return Ok(Left::Typed(text));
                    }
                }
                Came::Letter(letter) => match self.tool(letter, &written.problem, &here)? {
                    Some(Tool::Working) => return Ok(Left::Working),
                    Some(tool) => {
                        if let Some(after) = self.take(tool, written)? {
                            return Ok(Left::For(after));
                        }
                        self.ask_for(&written.problem, line)?;
                    }
                    None => {}
                },
                Came::Text(text) if text.is_empty() => return Ok(Left::AsItIs),
                Came::Text(text) if text == NONE && !mends && !written.typed(line).is_empty() => {
                    written.set(line, String::new());
                    return Ok(Left::AsItIs);
                }
                Came::Text(text) => {
                    if self.kept(written, line, &text)? {
                        return Ok(Left::Typed(text));
                    }
                }
            }
        }
    }

    /// Says what stands in a line already.
    fn holds(&mut self, written: &Written, line: usize) -> io::Result<()> {
        let typed = written.typed(line);
        if typed.is_empty() {
            return Ok(());
        }
        let words = format!("It holds {typed}. Enter keeps that, {NONE} alone takes it out.");
        self.lines.say("note", &words)
    }

    /// Says how an answer is kept, or what can be read; says whether it is kept.
    fn kept(&mut self, written: &Written, line: usize, text: &str) -> io::Result<bool> {
        let number = number(&written.problem, line).unwrap_or(1);
        match kept_words(written, line, text) {
            Ok(kept) => {
                self.lines.say(&format!("kept {number}"), &kept)?;
                if let Some(line) = written.problem.lines.get(line) {
                    self.understood(line, text)?;
                }
                Ok(true)
            }
            Err(words) => {
                self.lines.say("note", &words)?;
                Ok(false)
            }
        }
    }

    fn help(&mut self, written: &mut Written, line: usize) -> io::Result<()> {
        let Some(at) = written.lines.get_mut(line) else {
            return Ok(());
        };
        if !std::mem::replace(&mut at.asked, true) && at.helped == 0 {
            let words = "? again gives the principle, and is recorded as help. ! shows the line. \
                         ?K lists the tools.";
            return self.lines.say("ask", words);
        }
        if at.helped >= STEPS {
            let words = "this is all the help there is on this line";
            return self.lines.say("ask", words);
        }
        at.helped += 1;
        let step = at.helped;
        self.step(written, line, step)
    }

    fn show(&mut self, written: &mut Written, line: usize) -> io::Result<()> {
        if let Some(at) = written.lines.get_mut(line) {
            at.helped = STEPS;
        }
        self.step(written, line, STEPS)
    }

    fn step(&mut self, written: &Written, line: usize, step: usize) -> io::Result<()> {
        let steps = help(&written.problem, line);
        if let Some(help) = steps.get(step.saturating_sub(1)) {
            let prefix = format!("help {step} of {STEPS}, {}", help.name);
            for text in &help.text {
                self.lines.say(&prefix, &spoken(text))?;
            }
        }
        Ok(())
    }
}

/// How an answer is kept, with the help that was given; or what can be read.
fn kept_words(written: &Written, line: usize, text: &str) -> Result<String, String> {
    let kept = keep(&written.problem, line, text, written.manner)?;
    Ok(format!("{kept}{}", help_words(written.helped(line))))
}

const fn help_words(helped: usize) -> &'static str {
    match helped {
        0 => "",
        STEPS => ", shown",
        _ => ", with help",
    }
}
