//! Writing a sheet in plain lines: head, caution, job, then line by line.

use std::io;
use std::rc::Rc;

use pumpwright_engine::marking::{Response, keep};
use pumpwright_engine::problems::{Asks, Line, Problem, help};

use super::lines::Came;
use super::session::{After, Session};
use super::spoken::spoken;
use crate::keys::Tool;
use crate::sheet::{Sheet, asked, number};
use crate::slip::STEPS;
use crate::sums::Back;
use crate::words;

/// What is left out beside a blank, because it is so everywhere.
const USUAL_FORM: &str = "3 figures are enough";

/// How a line was left.
pub enum Left {
    /// With this, as it was typed; empty where nothing was.
    Typed(String),
    /// For something else than this line.
    For(After),
    /// For the whole working.
    Working,
}

/// What is written on a sheet so far.
pub struct Written {
    /// The problem.
    pub problem: Rc<Problem>,
    /// Its lines.
    lines: Vec<WrittenLine>,
    /// The side sums on its back.
    pub back: Back,
}

/// What is written at a line so far.
#[derive(Debug, Clone, Default)]
struct WrittenLine {
    /// What was typed.
    typed: String,
    /// Whether `?` was met already.
    asked: bool,
    /// The steps of help given.
    helped: usize,
}

impl Written {
    fn new(problem: Rc<Problem>) -> Self {
        let lines = vec![WrittenLine::default(); problem.lines.len()];
        Self {
            problem,
            lines,
            back: Back::default(),
        }
    }

    fn response(&self) -> Response {
        let lines = self.problem.lines.iter().zip(&self.lines);
        let written = lines.filter(|(_, line)| !line.typed.is_empty());
        let answers = written.map(|(asked, line)| (asked.id.clone(), line.typed.clone()));
        Response {
            answers: answers.collect(),
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
    /// Works one sheet.
    pub(super) fn sheet(&mut self, problem: Rc<Problem>) -> io::Result<After> {
        self.head(&problem)?;
        let mut written = Written::new(problem);
        let count = asked(&written.problem);
        for number in 1..=count {
            if let Some(after) = self.visit(&mut written, number)? {
                return Ok(after);
            }
        }
        loop {
            let back = match count {
                1 => "1 goes back to the line.".to_owned(),
                _ => format!("A number from 1 to {count} goes back to that line."),
            };
            self.lines.say("next", &format!("Enter hands in. {back}"))?;
            match self.lines.read()? {
                Came::End => return Ok(After::Stop),
                Came::Letter(letter) => {
                    if let Some(after) = self.leave_by(letter, &written.problem)? {
                        return Ok(after);
                    }
                }
                Came::Text(text) if text.is_empty() => {
                    if written.response().answers.is_empty() {
                        self.lines
                            .say("note", "nothing is written yet: 1 goes to the first line")?;
                        continue;
                    }
                    return self.hand_in(written);
                }
                Came::Text(text) => match text.parse() {
                    Ok(number) if (1..=count).contains(&number) => {
                        if let Some(after) = self.visit(&mut written, number)? {
                            return Ok(after);
                        }
                    }
                    _ => self
                        .lines
                        .say("note", "Enter alone hands in, a line number goes back")?,
                },
                Came::Tables(asked) => self.tables(&written.problem, None, &asked)?,
                Came::Sums(sum) => self.sum(&mut written, &sum)?,
                Came::CarryOver(_) | Came::Ask | Came::Show => {
                    self.lines
                        .say("note", "go back to a line by its number first")?;
                }
            }
        }
    }

    fn hand_in(&mut self, written: Written) -> io::Result<After> {
        let response = written.response();
        let mut sheet = Sheet::new(Rc::clone(&written.problem), self.options.manner);
        sheet.helped = written.lines.iter().map(|line| line.helped).collect();
        self.handed_in(sheet, response, written)
    }

    fn head(&mut self, problem: &Problem) -> io::Result<()> {
        self.lines.say("job", words::title(problem))?;
        self.lines.say("code", &problem.code.to_string())?;
        if let Some(caution) = words::caution(problem) {
            self.lines.say("caution", &caution)?;
        }
        for paragraph in &problem.story {
            for sentence in words::sentences(paragraph) {
                self.lines.say("text", sentence)?;
            }
        }
        if let Some(figure) = &problem.figure {
            self.lines.say("figure", &figure.title)?;
            for sentence in figure.sentences() {
                self.lines.say("point", &sentence)?;
            }
        }
        for rule in &problem.rules {
            self.lines.say("text", &words::rule(rule))?;
        }
        if problem.training {
            self.lines.say("note", words::TRAINING)?;
        }
        Ok(())
    }

    fn visit(&mut self, written: &mut Written, number: usize) -> io::Result<Option<After>> {
        let Some(line) = written.line(number) else {
            return Ok(None);
        };
        match self.write_line(written, line, &[Tool::NextNumbers, Tool::Quit])? {
            Left::For(after) => return Ok(Some(after)),
            Left::Working => {}
            Left::Typed(typed) => {
                if let Some(line) = written.lines.get_mut(line) {
                    line.typed = typed;
                }
            }
        }
        Ok(None)
    }

    /// Asks for one line until it is written, left empty, or left for a tool.
    pub(super) fn write_line(
        &mut self,
        written: &mut Written,
        line: usize,
        tools: &[Tool],
    ) -> io::Result<Left> {
        self.ask_for(&written.problem, line)?;
        let here = written.tools(line, tools);
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
                Came::Tables(asked) => self.tables(&written.problem, Some(line), &asked)?,
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
                        if let Some(after) = self.leave(tool, &written.problem)? {
                            return Ok(Left::For(after));
                        }
                    }
                    None => {}
                },
                Came::Text(text) => {
                    if self.kept(written, line, &text)? {
                        return Ok(Left::Typed(text));
                    }
                }
            }
        }
    }

    /// Says how an answer is kept, or what can be read; says whether it is kept.
    fn kept(&mut self, written: &Written, line: usize, text: &str) -> io::Result<bool> {
        let number = number(&written.problem, line).unwrap_or(1);
        let kept = if text.is_empty() {
            Ok("nothing, the line is empty".to_owned())
        } else {
            keep(&written.problem, line, text, self.options.manner)
        };
        match kept {
            Ok(kept) => {
                let help = if text.is_empty() {
                    ""
                } else {
                    help_words(written.helped(line))
                };
                self.lines
                    .say(&format!("kept {number}"), &format!("{kept}{help}"))?;
                Ok(true)
            }
            Err(words) => {
                self.lines.say("note", &words)?;
                Ok(false)
            }
        }
    }

    fn leave_by(&mut self, letter: char, problem: &Problem) -> io::Result<Option<After>> {
        match self.tool(letter, problem, &[Tool::NextNumbers, Tool::Quit])? {
            Some(tool) => self.leave(tool, problem),
            None => Ok(None),
        }
    }

    /// What a tool that leaves the sheet does.
    pub(super) fn leave(&mut self, tool: Tool, problem: &Problem) -> io::Result<Option<After>> {
        match tool {
            Tool::NextNumbers => self.other_numbers(problem),
            _ => Ok(Some(After::Stop)),
        }
    }

    fn ask_for(&mut self, problem: &Problem, index: usize) -> io::Result<()> {
        let Some(line) = problem.lines.get(index) else {
            return Ok(());
        };
        let number = number(problem, index).unwrap_or(1);
        self.offers(line)?;
        let prefix = format!("line {number} of {}", asked(problem));
        self.lines.say(
            &prefix,
            &format!("{}{}", line.label, asked_form(problem, line)),
        )
    }

    fn offers(&mut self, line: &Line) -> io::Result<()> {
        match &line.asks {
            Asks::Nothing | Asks::Figure | Asks::Row => {}
            Asks::Pick { offers, .. } => {
                for offer in offers {
                    self.lines
                        .say(&format!("offer {}", offer.mark), &offer.text)?;
                }
            }
            Asks::Order { cards } => {
                for (place, card) in (1..).zip(cards) {
                    self.lines.say(&format!("job {place}"), &card.text)?;
                }
            }
            Asks::Match { parts, meanings } => {
                for (place, (part, _)) in (1..).zip(parts) {
                    self.lines.say(&format!("part {place}"), part)?;
                }
                for meaning in meanings {
                    self.lines
                        .say(&format!("meaning {}", meaning.mark), &meaning.text)?;
                }
            }
        }
        Ok(())
    }

    fn help(&mut self, written: &mut Written, line: usize) -> io::Result<()> {
        let Some(at) = written.lines.get_mut(line) else {
            return Ok(());
        };
        if !std::mem::replace(&mut at.asked, true) && at.helped == 0 {
            let words = "? again gives the principle, and is recorded as help. ! shows the line.";
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

const fn help_words(helped: usize) -> &'static str {
    match helped {
        0 => "",
        STEPS => ", shown",
        _ => ", with help",
    }
}

/// The unit and the form of an answer, behind its label.
fn asked_form(problem: &Problem, line: &Line) -> String {
    match &line.asks {
        Asks::Pick { .. } => return ", one letter".to_owned(),
        Asks::Order { .. } => {
            return ", one number for each job from top to bottom, - for what does not belong"
                .to_owned();
        }
        Asks::Match { .. } => return ", one letter for each part from top to bottom".to_owned(),
        _ => {}
    }
    let unit = words::unit(problem, line);
    let spoken = if unit == "%" { "per cent" } else { &unit };
    let mut parts = vec![String::new()];
    if !unit.is_empty() {
        parts.push(format!("in {spoken}"));
    }
    if !line.form.is_empty() && line.form != USUAL_FORM {
        parts.push(line.form.trim_end_matches(&unit).trim_end().to_owned());
    }
    parts.join(", ")
}
