//! A sheet handed in, in plain lines: verdicts, turns, marks, mending, working.

use std::io;
use std::rc::Rc;

use pumpwright_engine::marking::{MarkedLine, Response, Turn, Verdict};
use pumpwright_engine::problems::{Problem, working};

use super::lines::Came;
use super::session::{After, Half, Session};
use super::spoken::spoken;
use super::written::{Left, Written};
use crate::handed_in::HandedIn;
use crate::keys::Tool;
use crate::sheet::{Sheet, asked, number};
use crate::words;

const TOOLS: [Tool; 6] = [
    Tool::Working,
    Tool::NextNumbers,
    Tool::PlainList,
    Tool::SetUp,
    Tool::Tonight,
    Tool::Quit,
];
const CHOICES: &str = "?W for the working, ?N for other numbers, ?Q to stop.";

impl Session<'_> {
    /// Marks what was written first, then has the lines mended as long as the
    /// learner likes. Lines that were written again before it was handed in are
    /// mended already.
    pub(super) fn handed_in(
        &mut self,
        sheet: Sheet,
        (first, again): (Response, Vec<(usize, String)>),
        written: Written,
    ) -> io::Result<After> {
        let mut handed_in = HandedIn::new(sheet, first);
        if !self.write_down(&handed_in)? {
            return Ok(After::Stop);
        }
        for (line, typed) in again {
            handed_in.mend(line, &typed, written.helped(line));
        }
        self.done.sheets += 1;
        self.done.score += handed_in.marked.score;
        self.done.out_of += handed_in.marked.out_of;
        if !self.verdicts(&handed_in, &written.problem)? {
            return Ok(After::Stop);
        }
        self.mend(Box::new(handed_in), written)
    }

    /// Has the lines of a sheet mended that was handed in.
    pub(super) fn mend(
        &mut self,
        mut handed_in: Box<HandedIn>,
        mut written: Written,
    ) -> io::Result<After> {
        while let Some(line) = handed_in.to_mend() {
            let number = number(&written.problem, line).unwrap_or(1);
            let count = asked(&written.problem);
            self.lines.say(
                "next",
                &format!("line {number} of {count} once more. Enter alone goes on, {CHOICES}"),
            )?;
            match self.write_line(&mut written, line, &TOOLS)? {
                Left::For(after) => return self.leave(Half::HandedIn(handed_in, written), after),
                Left::Working => {
                    self.working(&written)?;
                    return Ok(After::Next);
                }
                Left::AsItIs => return Ok(After::Next),
                Left::Typed(typed) => {
                    if let Some(marked) =
                        handed_in.mend(line, &typed, written.helped(line)).cloned()
                    {
                        written.set(line, typed);
                        self.mended(&marked)?;
                        if !self.turns(&marked, &written.problem)? {
                            return Ok(After::Stop);
                        }
                    }
                }
            }
        }
        if let Some(text) = words::on_the_job(&written.problem) {
            self.lines.say("note", &text)?;
        }
        self.all_right(&mut written)
    }

    fn all_right(&mut self, written: &mut Written) -> io::Result<After> {
        let problem = Rc::clone(&written.problem);
        loop {
            self.lines
                .say("next", &format!("Enter goes on. {CHOICES}"))?;
            match self.lines.read()? {
                Came::End => return Ok(After::Stop),
                Came::Letter(letter) => match self.tool(letter, &problem, &TOOLS)? {
                    Some(Tool::Working) => self.working(written)?,
                    Some(tool) => {
                        if let Some(after) = self.take(tool, written)? {
                            return Ok(after);
                        }
                    }
                    None => {}
                },
                Came::Tables(asked) => self.tables((&problem, None), None, &asked)?,
                Came::Word(word) => self.word(&word)?,
                Came::Sums(sum) => self.sum(written, &sum)?,
                Came::Text(text) if text.is_empty() => return Ok(After::Next),
                Came::Text(_) | Came::CarryOver(_) | Came::Ask | Came::Show => {
                    self.lines
                        .say("note", "every line is right; nothing is left to write")?;
                }
            }
        }
    }

    /// Says the verdicts and the marks; says whether the input goes on.
    fn verdicts(&mut self, handed_in: &HandedIn, problem: &Problem) -> io::Result<bool> {
        for line in &handed_in.marked.lines {
            self.verdict(handed_in, line)?;
            let again = handed_in
                .mended
                .iter()
                .find(|mended| mended.id == line.id)
                .map(|mended| &mended.line);
            // What was to be looked at there was said when it was checked.
            if let Some(again) = again {
                self.mended(again)?;
            }
            if !self.turns(again.unwrap_or(line), problem)? {
                return Ok(false);
            }
        }
        let marked = &handed_in.marked;
        let sum = format!("{} of {}.", marked.score, marked.out_of);
        let reasons = marked.explained.iter().filter(|reason| **reason != sum);
        let reasons = reasons.map(String::as_str).collect::<Vec<_>>().join(" ");
        self.lines
            .say("marks", format!("{sum} {reasons}").trim_end())?;
        Ok(true)
    }

    fn verdict(&mut self, handed_in: &HandedIn, line: &MarkedLine) -> io::Result<()> {
        let help = match handed_in.helped(line) {
            0 => "",
            crate::slip::STEPS => " Shown.",
            _ => " With help.",
        };
        let marks = format!("{} of {}.{help}", words::marks(line.marks), line.out_of);
        let text = format!("{} {marks}", verdict_words(line));
        self.lines.say(&format!("verdict {}", line.number), &text)
    }

    fn mended(&mut self, line: &MarkedLine) -> io::Result<()> {
        let text = format!("{} The marks above stay as they are.", verdict_words(line));
        self.lines.say(&format!("mended {}", line.number), &text)
    }

    /// Says the likely turn and what to look at; asks where two turns give one
    /// figure. Says whether the input goes on.
    fn turns(&mut self, line: &MarkedLine, problem: &Problem) -> io::Result<bool> {
        if line.turns.len() < 2 || !line.alternatives {
            self.all_turns(line, problem)?;
            return Ok(true);
        }
        match self.which(line, &line.turns)? {
            Some(chosen) => {
                if let Some(turn) = line.turns.get(chosen) {
                    self.look(line, turn)?;
                }
            }
            None => return Ok(false),
        }
        self.noted(line)?;
        Ok(true)
    }

    /// Says every likely turn of a line and what to look at; where none is known,
    /// what the line goes by.
    pub(super) fn all_turns(&mut self, line: &MarkedLine, problem: &Problem) -> io::Result<()> {
        for turn in &line.turns {
            self.likely(line, turn)?;
            self.look(line, turn)?;
        }
        self.noted(line)?;
        let known = !line.turns.is_empty() || line.note.is_some();
        let written = line.verdict != Verdict::NotWritten;
        if known || !written || !line.verdict.asks_for_a_look() {
            return Ok(());
        }
        match words::principle(problem, &line.id) {
            Some(says) => self.lines.say(&format!("look {}", line.number), says),
            None => Ok(()),
        }
    }

    fn noted(&mut self, line: &MarkedLine) -> io::Result<()> {
        match &line.note {
            Some(note) => self.lines.say(&format!("look {}", line.number), note),
            None => Ok(()),
        }
    }

    fn likely(&mut self, line: &MarkedLine, turn: &Turn) -> io::Result<()> {
        let text = format!("likely {}", words::turn(turn));
        self.lines.say(&format!("turn {}", line.number), &text)
    }

    fn look(&mut self, line: &MarkedLine, turn: &Turn) -> io::Result<()> {
        let prefix = format!("look {}", line.number);
        self.lines.say(&prefix, &turn.says)?;
        if let Some(look) = &turn.look {
            self.lines.say(&prefix, look)?;
        }
        Ok(())
    }

    /// Asks which of several turns it was; past the last one for something else.
    fn which(&mut self, line: &MarkedLine, turns: &[Turn]) -> io::Result<Option<usize>> {
        let prefix = format!("turn {}", line.number);
        for (letter, turn) in ('a'..).zip(turns) {
            self.lines
                .say(&prefix, &format!("{letter}, {}", words::turn(turn)))?;
        }
        let letters: Vec<char> = ('a'..).take(turns.len() + 1).collect();
        let last = letters.last().copied().unwrap_or('a');
        self.lines
            .say(&prefix, &format!("{last}, something else"))?;
        loop {
            self.lines.say(
                "next",
                &format!("Which was it? Write one letter, a to {last}."),
            )?;
            match self.lines.read()? {
                Came::End | Came::Letter('q' | 'Q') => return Ok(None),
                Came::Text(text) => {
                    let text = text.to_ascii_lowercase();
                    let chosen = letters.iter().position(|letter| text == letter.to_string());
                    if chosen.is_some() {
                        return Ok(chosen);
                    }
                }
                _ => {}
            }
        }
    }

    /// Says the whole working of a sheet.
    pub(super) fn working(&mut self, written: &Written) -> io::Result<()> {
        let problem = &*written.problem;
        for line in working(problem) {
            let place = problem.lines.iter().position(|other| other.id == line.id);
            let number = place.and_then(|place| number(problem, place));
            let prefix = number.map_or("working".to_owned(), |number| format!("working {number}"));
            let mut words = line.words.iter();
            let first = words.next().map(|text| format!("{} = {text}", line.label));
            for text in first.iter().chain(words).chain(&line.numbers) {
                self.lines.say(&prefix, &spoken(text))?;
            }
            if line.words.is_empty() && line.numbers.is_empty() {
                for text in crate::worked::arranged(problem, &line) {
                    self.lines.say(&prefix, &spoken(&text))?;
                }
            }
        }
        if !written.back.done.is_empty() {
            self.lines
                .say("note", "your sums on the back of this sheet")?;
            self.sums(written)?;
        }
        Ok(())
    }
}

/// A verdict with what was written.
pub(super) fn verdict_words(line: &MarkedLine) -> String {
    let written = words::written(line);
    let written = if written.is_empty() {
        String::new()
    } else {
        format!(" {written}.")
    };
    format!("{}.{written}", line.words.trim_end_matches('.'))
}
