//! Set-up in plain lines: the same lines, one prompt each.

use std::io;

use super::lines::Came;
use super::session::{After, Session};
use crate::blank::Blank;
use crate::set_up::{Choices, Form, Line, Signs, written};

/// What takes a name or a day out again: an empty line keeps what holds.
const NONE: &str = "-";

impl Session<'_> {
    /// Asks for what set-up decides; says when the input ends or one stops there.
    pub(super) fn set_up(&mut self) -> io::Result<Option<After>> {
        self.desk.ask(None);
        let now = Choices {
            name: self.desk.name.clone(),
            units: self.system,
            decimal: self.manner.decimal,
            signs: if self.lines.look.ascii {
                Signs::Ascii
            } else {
                Signs::Drawn
            },
            checked: self.desk.checked,
            exam: self.desk.exam,
        };
        let mut form = Form::new(now, false);
        self.lines.say(
            "set-up",
            "Enter alone keeps a line as it is. Units, decimal sign and checking hold from the \
             next sheet on.",
        )?;
        for (at, line) in Line::ALL.into_iter().enumerate() {
            form.pen = at;
            if let Some(after) = self.set_line(&mut form, at, line)? {
                return Ok(Some(after));
            }
        }
        self.said_news()?;
        Ok(None)
    }

    fn set_line(&mut self, form: &mut Form, at: usize, line: Line) -> io::Result<Option<After>> {
        loop {
            self.lines.say(
                &format!("set-up {} of {}", at + 1, Line::ALL.len()),
                &asked(line, &form.now),
            )?;
            let typed = match self.lines.read()? {
                Came::End | Came::Letter('q' | 'Q') => return Ok(Some(After::Stop)),
                Came::Text(typed) if typed.is_empty() => return Ok(None),
                Came::Text(typed) => typed,
                _ => {
                    let words = "write this line, or Enter alone keeps it; ?Q stops";
                    self.lines.say("note", words)?;
                    continue;
                }
            };
            let typed = match (line, typed.as_str()) {
                (Line::Name | Line::Exam, NONE) => "",
                (_, typed) => typed,
            };
            if let Some(blank) = form.blanks.get_mut(at) {
                *blank = Blank::holding(typed);
            }
            match form.read() {
                Ok(()) => {
                    self.hold(line, &form.now);
                    return Ok(None);
                }
                Err(words) => self.lines.say("note", &words)?,
            }
        }
    }

    /// Lets a line hold from now on.
    fn hold(&mut self, line: Line, choices: &Choices) {
        self.desk.set(line, choices);
        self.system = choices.units;
        self.manner.decimal = choices.decimal;
        self.lines.look.ascii = choices.signs == Signs::Ascii;
    }

    fn said_news(&mut self) -> io::Result<()> {
        while let Some(news) = self.desk.news() {
            self.lines.say("note", &news)?;
        }
        Ok(())
    }
}

fn asked(line: Line, now: &Choices) -> String {
    // To hear, a sign has its name.
    let holds = match written(line, now).as_str() {
        "" => "nothing".to_owned(),
        "." => "point".to_owned(),
        "," => "comma".to_owned(),
        holds => holds.to_owned(),
    };
    let offers = match line {
        Line::Name => "empty for this machine's user",
        Line::Exam => "as 2027-03-15",
        Line::Decimal => "the sign of a point or of a comma",
        line => line.offers(),
    };
    let out = match line {
        Line::Exam if now.exam.is_some() => format!("; {NONE} takes it out"),
        Line::Name if !now.name.is_empty() => format!("; {NONE} takes it out"),
        _ => String::new(),
    };
    format!("{}, {offers}. Now: {holds}{out}", line.label())
}
