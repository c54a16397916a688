//! Reading and writing lines: prefixes, prompts, the end of the input.

use std::io::{self, BufRead, Read, Write};

use crate::theme::Look;

/// The longest line that is read in one piece, in bytes.
const LONGEST: u64 = 4096;

/// What came in at a prompt.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Came {
    /// `?`
    Ask,
    /// `!`
    Show,
    /// `@`, and the number or the word behind it.
    Tables(String),
    /// `&`, and the sum behind it.
    Sums(String),
    /// `?O`, and the name of a sum behind it.
    CarryOver(String),
    /// `?G`, and the word behind it.
    Word(String),
    /// `?` and a letter.
    Letter(char),
    /// Something written; empty where only Enter came.
    Text(String),
    /// The input ended.
    End,
}

impl Came {
    pub(super) fn from_line(line: &str) -> Self {
        let text = line.trim();
        let mut signs = text.chars();
        match (signs.next(), signs.as_str().trim()) {
            (Some('?'), "") => Self::Ask,
            (Some('?'), rest) if rest.len() > 1 && carries(rest) => {
                Self::CarryOver(rest[1..].trim().to_owned())
            }
            (Some('?'), rest) if looks_up(rest) => Self::Word(rest[1..].trim().to_owned()),
            (Some('?'), rest) => match rest.chars().next() {
                Some(letter) if rest.chars().count() == 1 => Self::Letter(letter),
                _ => Self::Text(text.to_owned()),
            },
            (Some('!'), "") => Self::Show,
            (Some('@'), rest) => Self::Tables(rest.to_owned()),
            (Some('&'), rest) => Self::Sums(rest.to_owned()),
            _ => Self::Text(text.to_owned()),
        }
    }
}

/// Whether this is G, a blank and a word.
fn looks_up(rest: &str) -> bool {
    let word = rest.strip_prefix(['g', 'G']);
    word.is_some_and(|word| word.starts_with(' ') && !word.trim().is_empty())
}

/// Whether this is O and the name of a sum.
fn carries(rest: &str) -> bool {
    let name = rest.strip_prefix(['o', 'O']).map(str::trim);
    let number = name.and_then(|name| name.strip_prefix(['s', 'S']));
    number.is_some_and(|number| number.chars().all(|sign| sign.is_ascii_digit()))
}

/// The two ends of the conversation.
pub struct Lines<'a> {
    input: &'a mut dyn BufRead,
    output: &'a mut dyn Write,
    /// With which signs it is written.
    pub(super) look: Look,
    echo: bool,
}

impl<'a> Lines<'a> {
    /// Lines over these streams.
    pub fn new(
        input: &'a mut dyn BufRead,
        output: &'a mut dyn Write,
        (ascii, echo): (bool, bool),
    ) -> Self {
        Self {
            input,
            output,
            look: Look {
                ascii,
                colour: false,
            },
            echo,
        }
    }

    /// Writes a line behind its prefix.
    pub fn say(&mut self, prefix: &str, text: &str) -> io::Result<()> {
        let shown = self.look.text(text).replace('\n', " ");
        writeln!(self.output, "{prefix}: {shown}")
    }

    /// Writes a prompt and reads one line.
    pub fn read(&mut self) -> io::Result<Came> {
        let line = self.read_words()?;
        Ok(line.map_or(Came::End, |line| Came::from_line(&line)))
    }

    /// Writes a prompt and reads words, in which every sign is written; none where the input
    /// ends.
    pub fn read_words(&mut self) -> io::Result<Option<String>> {
        write!(self.output, "write: ")?;
        self.output.flush()?;
        let mut bytes = Vec::new();
        let read = Read::take(&mut *self.input, LONGEST).read_until(b'\n', &mut bytes)?;
        if read == 0 {
            writeln!(self.output)?;
            return Ok(None);
        }
        let line = String::from_utf8_lossy(&bytes);
        let line = line.trim_end_matches(['\r', '\n']);
        if self.echo {
            writeln!(self.output, "{}", self.look.text(line))?;
        }
        Ok(Some(line.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_are_told_from_answers() {
        assert_eq!(Came::from_line(" ? \n"), Came::Ask);
        assert_eq!(Came::from_line("?w"), Came::Letter('w'));
        assert_eq!(Came::from_line("!"), Came::Show);
        let sum = Came::Sums("3 ft + 2 ft".into());
        assert_eq!(Came::from_line("& 3 ft + 2 ft"), sum);
        assert_eq!(Came::from_line("@"), Came::Tables(String::new()));
        assert_eq!(Came::from_line("@ copper"), Came::Tables("copper".into()));
        assert_eq!(Came::from_line("?o s2"), Came::CarryOver("s2".into()));
        assert_eq!(Came::from_line("?O"), Came::Letter('O'));
        assert_eq!(
            Came::from_line("?g drop pipe"),
            Came::Word("drop pipe".into())
        );
        assert_eq!(Came::from_line("?gauge"), Came::Text("?gauge".into()));
        assert_eq!(Came::from_line("-4 ft"), Came::Text("-4 ft".into()));
        assert_eq!(Came::from_line(""), Came::Text(String::new()));
        assert_eq!(Came::from_line("what?"), Came::Text("what?".into()));
    }
}
