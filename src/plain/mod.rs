//! Practice in plain lines: one prompt at a time, every line with a prefix and
//! a colon, nothing overwritten, no escape codes. To hear, or to drive from a
//! script. What is right is said by marking; here is asking and printing only.

mod mending;
mod sheet;
mod wording;

use std::io::{BufRead as _, Read as _};

use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::Problem;

pub use wording::spelled_out;

use crate::console::Console;
use crate::failure::Failure;

/// Bytes of one line that are read; the rest is passed over.
const LONGEST: u64 = 4096;

/// What a practice is made of.
pub struct Practice<'a> {
    /// The lessons.
    pub library: &'a Library,
    /// How answers are read.
    pub manner: Manner,
    /// What is typed does not show by itself, so it is printed.
    pub echo: bool,
    /// How many sheets; none: until it is stopped.
    pub count: Option<u32>,
    /// The problem of the sheet of this number, from zero, and whether other
    /// numbers of this family are wanted instead of the next in turn.
    pub next: &'a dyn Fn(u32, Option<&str>) -> Result<Problem, Failure>,
}

/// How a sheet ended.
#[derive(Debug, Clone, PartialEq, Eq)]
enum End {
    /// On to the next.
    Next,
    /// The same job with other numbers.
    Again,
    /// Stop.
    Stop,
}

/// What has been done so far.
#[derive(Debug, Clone, Copy, Default)]
struct Tally {
    sheets: u32,
    halves: u32,
    out_of: u32,
}

/// Works sheets until the count is reached, or the input ends.
///
/// # Errors
/// When a problem cannot be drawn, or the output is closed or full.
pub fn practice(practice: &Practice, console: &mut Console) -> Result<(), Failure> {
    let mut talk = Talk {
        console,
        echo: practice.echo,
    };
    talk.say(
        "note",
        "Write an answer and Enter. ? asks, ! shows the line.",
    )?;
    talk.say("note", "?K lists the tools, ?Q stops.")?;
    let mut tally = Tally::default();
    let mut again: Option<String> = None;
    let mut number = 0_u32;
    while practice.count.is_none_or(|count| number < count) {
        let problem = (practice.next)(number, again.as_deref())?;
        number = number.saturating_add(1);
        let place = match practice.count {
            Some(count) => format!("{number} of {count}"),
            None => number.to_string(),
        };
        talk.say("sheet", &place)?;
        let end = sheet::work(practice, &problem, &mut talk, &mut tally)?;
        again = (end == End::Again).then(|| problem.family.id.to_string());
        if end == End::Stop {
            break;
        }
    }
    talk.say("end", &tally.words())
}

impl Tally {
    fn add(&mut self, marked: &pumpwright_engine::marking::Marked) {
        self.sheets = self.sheets.saturating_add(1);
        self.halves = self.halves.saturating_add(marked.score.in_halves());
        self.out_of = self.out_of.saturating_add(marked.out_of.in_halves());
    }

    fn words(self) -> String {
        let sheets = if self.sheets == 1 { "sheet" } else { "sheets" };
        format!(
            "{} {sheets}, {} of {} marks.",
            self.sheets,
            f64::from(self.halves) / 2.0,
            f64::from(self.out_of) / 2.0
        )
    }
}

/// The conversation: what is said, and what is typed.
struct Talk<'a, 'c> {
    console: &'a mut Console<'c>,
    echo: bool,
}

impl Talk<'_, '_> {
    /// Says one line, or several with the same prefix.
    fn say(&mut self, prefix: &str, text: &str) -> Result<(), Failure> {
        for line in text.lines().filter(|line| !line.trim().is_empty()) {
            self.console
                .line(format_args!("{prefix}: {}", line.trim()))?;
        }
        Ok(())
    }

    /// Asks for a line; nothing where the input has ended.
    fn ask(&mut self) -> Result<Option<String>, Failure> {
        write!(self.console.out, "write: ")?;
        self.console.out.flush()?;
        let typed = self.read()?;
        let typed = typed.map(|typed| typed.trim().to_owned());
        if self.echo {
            let shown = typed
                .as_deref()
                .map(crate::failure::shown)
                .unwrap_or_default();
            self.console.line(shown)?;
        } else if typed.is_none() {
            self.console.gap()?;
        }
        Ok(typed)
    }

    fn read(&mut self) -> Result<Option<String>, Failure> {
        let mut bytes = Vec::new();
        let unread = |error: std::io::Error| Failure::World(format!("the input fails: {error}"));
        let mut limited = (&mut *self.console.input).take(LONGEST);
        if limited.read_until(b'\n', &mut bytes).map_err(unread)? == 0 {
            return Ok(None);
        }
        if bytes.last() != Some(&b'\n') {
            self.pass_over().map_err(unread)?;
        }
        Ok(Some(String::from_utf8_lossy(&bytes).into_owned()))
    }

    /// Passes over the rest of a line without holding it.
    fn pass_over(&mut self) -> std::io::Result<()> {
        loop {
            let held = self.console.input.fill_buf()?;
            if held.is_empty() {
                return Ok(());
            }
            let end = held.iter().position(|byte| *byte == b'\n');
            let used = end.map_or(held.len(), |end| end + 1);
            self.console.input.consume(used);
            if end.is_some() {
                return Ok(());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use super::*;

    fn typed(input: &[u8]) -> (Vec<Option<String>>, String) {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let mut input = Cursor::new(input);
        let mut console = Console {
            out: &mut out,
            err: &mut err,
            input: &mut input,
            unicode: true,
        };
        let mut talk = Talk {
            console: &mut console,
            echo: true,
        };
        let mut lines = Vec::new();
        for _ in 0..4 {
            lines.push(talk.ask().unwrap());
        }
        (lines, String::from_utf8(out).unwrap())
    }

    #[test]
    fn a_line_is_read_whatever_stands_in_it_and_the_input_may_end() {
        let (lines, shown) = typed(b" 38 psi \n\xff\x1b[2J\n");
        assert_eq!(lines[0].as_deref(), Some("38 psi"));
        assert_eq!(lines[1].as_deref(), Some("\u{fffd}\x1b[2J"));
        assert_eq!(lines[2..], [None, None]);
        assert!(
            !shown.contains('\x1b') && shown.starts_with("write: 38 psi\n"),
            "{shown}"
        );
    }

    #[test]
    fn an_endless_line_is_passed_over() {
        let mut input = vec![b'x'; 100_000];
        input.extend(b"\nnext\n");
        let (lines, _) = typed(&input);
        assert!(lines[0].as_ref().is_some_and(|line| line.len() <= 4096));
        assert_eq!(lines[1].as_deref(), Some("next"));
    }
}
