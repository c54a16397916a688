//! Where commands print and read: two outputs, an input, and the signs that fit.
//! Tests hand in memory; only `run` hands in the real ones.

use std::fmt;
use std::io::{BufRead, Write};

use serde::Serialize;

use crate::failure::Failure;

/// The widest line of prose.
pub const WIDTH: usize = 78;

/// Where a command prints and reads.
pub struct Console<'a> {
    /// What was asked for.
    pub out: &'a mut dyn Write,
    /// What is said beside it.
    pub err: &'a mut dyn Write,
    /// What is typed, where a command asks.
    pub input: &'a mut dyn BufRead,
    /// Signs beyond ASCII may be printed.
    pub unicode: bool,
}

impl Console<'_> {
    /// Prints a line.
    ///
    /// # Errors
    /// When the output is closed or full.
    pub fn line(&mut self, text: impl fmt::Display) -> Result<(), Failure> {
        let text = self.fitted(&text.to_string());
        Ok(writeln!(self.out, "{text}")?)
    }

    /// What is typed to a question; nothing where the input has ended.
    ///
    /// # Errors
    /// When the output is closed or full, or the input cannot be read.
    pub fn question(&mut self, text: &str) -> Result<String, Failure> {
        write!(self.out, "{} ", self.fitted(text))?;
        self.out.flush()?;
        let mut typed = String::new();
        self.input
            .read_line(&mut typed)
            .map_err(|error| Failure::World(format!("the input cannot be read: {error}")))?;
        Ok(typed.trim().to_owned())
    }

    /// Prints paragraphs, each broken between words.
    ///
    /// # Errors
    /// When the output is closed or full.
    pub fn prose(&mut self, text: &str) -> Result<(), Failure> {
        self.hanging("", text)
    }

    /// Prints text behind a head; further lines stand under the first.
    ///
    /// # Errors
    /// When the output is closed or full.
    pub fn hanging(&mut self, head: &str, text: &str) -> Result<(), Failure> {
        let head = self.fitted(head);
        let indent = " ".repeat(width(&head));
        let mut front: &str = &head;
        let text = self.fitted(text);
        for line in wrapped(&text, WIDTH.saturating_sub(width(&head))) {
            writeln!(self.out, "{}", format!("{front}{line}").trim_end())?;
            front = &indent;
        }
        Ok(())
    }

    /// Prints an empty line.
    ///
    /// # Errors
    /// When the output is closed or full.
    pub fn gap(&mut self) -> Result<(), Failure> {
        Ok(writeln!(self.out)?)
    }

    /// Prints a value as JSON, always in UTF-8.
    ///
    /// # Errors
    /// When the output is closed or full.
    pub fn json<T: Serialize>(&mut self, value: &T) -> Result<(), Failure> {
        serde_json::to_writer_pretty(&mut *self.out, value)?;
        Ok(writeln!(self.out)?)
    }

    /// Says something beside the output. A closed error output is no reason to end.
    pub fn note(&mut self, text: impl fmt::Display) {
        let text = self.fitted(&text.to_string());
        let _unheard = writeln!(self.err, "{text}");
    }

    /// Text in the signs that fit.
    pub fn fitted(&self, text: &str) -> String {
        if self.unicode {
            text.to_owned()
        } else {
            ascii(text)
        }
    }
}

/// How many columns a text takes, counted in characters.
fn width(text: &str) -> usize {
    text.chars().count()
}

/// Text broken between words; line breaks in it stay. A word that is too long
/// gets a line of its own and is not cut.
pub fn wrapped(text: &str, columns: usize) -> Vec<String> {
    text.lines()
        .flat_map(|line| broken(line, columns))
        .collect()
}

fn broken(line: &str, columns: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut current = String::new();
    for word in line.split_whitespace() {
        if !current.is_empty() && width(&current) + 1 + width(word) > columns {
            lines.push(std::mem::take(&mut current));
        }
        if !current.is_empty() {
            current.push(' ');
        }
        current.push_str(word);
    }
    lines.push(current);
    lines
}

/// Text with each sign that is not ASCII spelled in signs that are.
pub fn ascii(text: &str) -> String {
    text.chars()
        .fold(String::with_capacity(text.len()), |mut out, sign| {
            if sign.is_ascii() {
                out.push(sign);
            } else {
                out.push_str(spelled(sign));
            }
            out
        })
}

fn spelled(sign: char) -> &'static str {
    match sign {
        '×' | '·' | '▲' => "*",
        '÷' => "/",
        '−' | '–' | '—' | '─' => "-",
        '°' => "deg",
        'Ω' | '\u{2126}' => "ohm",
        '²' => "^2",
        '³' => "^3",
        '¹' => "^1",
        '√' => "sqrt",
        'π' => "pi",
        'η' => "eta",
        'ρ' => "rho",
        '≤' => "<=",
        '≥' => ">=",
        '≠' => "is not",
        '≈' => "about ",
        '→' => "->",
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '“' | '”' | '″' => "\"",
        '‘' | '’' | '′' => "'",
        '…' => "...",
        '✓' => "+",
        '▸' => ">",
        '◐' => "~",
        '\u{a0}' | '\u{202f}' | '\u{2009}' => " ",
        '○' | '•' => "o",
        'µ' | 'μ' => "u",
        _ => letter(sign),
    }
}

/// Latin letters with marks, as names have them, and what is left without the marks.
const LETTERS: [(&str, &str); 46] = [
    ("ÀÁÂÃÄÅĀĂĄ", "A"),
    ("àáâãäåāăą", "a"),
    ("ÇĆĈĊČ", "C"),
    ("çćĉċč", "c"),
    ("ÐĎĐ", "D"),
    ("ðďđ", "d"),
    ("ÈÉÊËĒĔĖĘĚ", "E"),
    ("èéêëēĕėęě", "e"),
    ("ĜĞĠĢ", "G"),
    ("ĝğġģ", "g"),
    ("ĤĦ", "H"),
    ("ĥħ", "h"),
    ("ÌÍÎÏĨĪĬĮİ", "I"),
    ("ìíîïĩīĭįı", "i"),
    ("Ĵ", "J"),
    ("ĵ", "j"),
    ("Ķ", "K"),
    ("ķ", "k"),
    ("ĹĻĽŁ", "L"),
    ("ĺļľł", "l"),
    ("ÑŃŅŇ", "N"),
    ("ñńņň", "n"),
    ("ÒÓÔÕÖØŌŎŐ", "O"),
    ("òóôõöøōŏő", "o"),
    ("ŔŖŘ", "R"),
    ("ŕŗř", "r"),
    ("ŚŜŞŠȘ", "S"),
    ("śŝşšș", "s"),
    ("ŢŤŦȚ", "T"),
    ("ţťŧț", "t"),
    ("ÙÚÛÜŨŪŬŮŰŲ", "U"),
    ("ùúûüũūŭůűų", "u"),
    ("Ŵ", "W"),
    ("ŵ", "w"),
    ("ÝŶŸ", "Y"),
    ("ýŷÿ", "y"),
    ("ŹŻŽ", "Z"),
    ("źżž", "z"),
    ("Æ", "AE"),
    ("æ", "ae"),
    ("Œ", "OE"),
    ("œ", "oe"),
    ("Þ", "Th"),
    ("þ", "th"),
    ("ß", "ss"),
    ("ẞ", "SS"),
];

fn letter(sign: char) -> &'static str {
    let found = LETTERS.iter().find(|(marked, _)| marked.contains(sign));
    found.map_or("?", |(_, bare)| bare)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_breaks_between_words_and_keeps_its_own_breaks() {
        assert_eq!(
            wrapped("one two three\n\nfour", 8),
            ["one two", "three", "", "four"]
        );
        assert_eq!(wrapped("indivisible word", 4), ["indivisible", "word"]);
        assert!(wrapped("", 8).is_empty());
    }

    #[test]
    fn ascii_spells_the_trade_s_signs() {
        assert_eq!(
            ascii("8.0 A × 1.267 Ω ÷ 2, 5 m², 20 °C"),
            "8.0 A * 1.267 ohm / 2, 5 m^2, 20 degC"
        );
        assert!(ascii("日本 – ▲").is_ascii());
    }

    #[test]
    fn names_keep_their_letters_without_the_marks() {
        assert_eq!(
            ascii("Zoë D’Arcy, Łukasz Østby, Žofie Dvořák, Þór Weiß"),
            "Zoe D'Arcy, Lukasz Ostby, Zofie Dvorak, Thor Weiss"
        );
    }

    #[test]
    fn further_lines_stand_under_the_first() {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let mut console = Console {
            out: &mut out,
            err: &mut err,
            input: &mut std::io::empty(),
            unicode: true,
        };
        let text = "word ".repeat(30);
        console.hanging("caution: ", &text).unwrap();
        let printed = String::from_utf8(out).unwrap();
        let lines: Vec<_> = printed.lines().collect();
        assert!(
            lines.len() > 1 && lines.iter().all(|line| line.len() <= WIDTH),
            "{printed}"
        );
        assert!(lines[0].starts_with("caution: word") && lines[1].starts_with("         word"));
    }
}
