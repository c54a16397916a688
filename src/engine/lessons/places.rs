//! Where the characters of a text stand in its file. TOML drops line ends and
//! turns escapes into characters, so the two do not keep step.

use std::ops::Range;

/// Runs of characters that stand side by side in the file too, each by its first
/// byte in the text and in the file; never empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Places(Vec<(usize, usize)>);

impl Places {
    /// The places of a text that was read from the quoted value at `span`.
    pub fn of(file: &str, span: &Range<usize>, text: &str) -> Self {
        let rest = |at: usize| file.get(at..).unwrap_or_default();
        let escaped = rest(span.start).starts_with('"');
        let mut at = span.start + opening(rest(span.start));
        let mut out = 0;
        let mut runs = vec![(0, at)];
        for c in text.chars() {
            let skipped = if escaped { fold(rest(at)) } else { 0 };
            if skipped > 0 {
                at += skipped;
                runs.push((out, at));
            }
            let long = written(rest(at), c, escaped);
            at += long;
            out += c.len_utf8();
            if long != c.len_utf8() {
                runs.push((out, at));
            }
        }
        Self(runs)
    }

    /// The place in the file of a byte of the text.
    pub fn byte(&self, byte: usize) -> usize {
        let run = self.0.iter().rev().find(|(text, _)| *text <= byte);
        run.map_or(0, |(text, file)| file + (byte - text))
    }

    /// The place in the file of a part of the text.
    pub fn part(&self, part: &Range<usize>) -> Range<usize> {
        let start = self.byte(part.start);
        if part.end <= part.start {
            return start..start;
        }
        start..self.byte(part.end - 1) + 1
    }

    /// The places of the rest of the text.
    pub fn from(&self, byte: usize) -> Self {
        let later = self.0.iter().filter(|(text, _)| *text > byte);
        let later = later.map(|(text, file)| (text - byte, *file));
        Self(std::iter::once((0, self.byte(byte))).chain(later).collect())
    }
}

/// How many bytes the opening quotes take, with the line end that TOML drops after three.
fn opening(rest: &str) -> usize {
    if rest.starts_with("'''") || rest.starts_with("\"\"\"") {
        let after = rest.get(3..).unwrap_or_default();
        if after.starts_with("\r\n") {
            5
        } else if after.starts_with('\n') {
            4
        } else {
            3
        }
    } else {
        1
    }
}

/// How many bytes a backslash at a line's end takes, with the blanks after it.
fn fold(rest: &str) -> usize {
    let Some(after) = rest.strip_prefix('\\') else {
        return 0;
    };
    let next = after.trim_start_matches([' ', '\t']);
    if next.starts_with(['\n', '\r']) {
        let blank = |c: char| matches!(c, ' ' | '\t' | '\n' | '\r');
        rest.len() - after.trim_start_matches(blank).len()
    } else {
        0
    }
}

/// How many bytes a character takes as it is written.
fn written(rest: &str, c: char, escaped: bool) -> usize {
    if escaped && rest.starts_with('\\') {
        return match rest.as_bytes().get(1) {
            Some(b'u') => 6,
            Some(b'U') => 10,
            Some(b'x') => 4,
            _ => 2,
        };
    }
    if c == '\n' && rest.starts_with("\r\n") {
        return 2;
    }
    c.len_utf8()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place(file: &str, text: &str, wanted: &str) -> usize {
        let places = Places::of(file, &(0..file.len()), text);
        places.byte(text.find(wanted).expect("the wanted part"))
    }

    #[test]
    fn folded_lines_and_escapes_are_counted() {
        for (file, text) in [
            ("'a slot'", "a slot"),
            ("\"a \\\"b\\\" \\u00bd slot\"", "a \"b\" ½ slot"),
            ("\"\"\"\na \\\n   slot\"\"\"", "a slot"),
            ("\"\"\"a \\\r\n \r\n slot\"\"\"", "a slot"),
            ("'''\r\na\r\nslot'''", "a\nslot"),
            ("'''\na \\ slot'''", "a \\ slot"),
        ] {
            let found = place(file, text, "slot");
            assert_eq!(file.get(found..found + 4), Some("slot"), "{file}");
        }
    }

    #[test]
    fn the_rest_of_a_text_keeps_its_places() {
        let file = "\"\\\"us\\\" | \\\"si\\\" slot\"";
        let places = Places::of(file, &(0..file.len()), "\"us\" | \"si\" slot").from(7);
        let found = places.part(&(5..9));
        assert_eq!(file.get(found), Some("slot"));
    }
}
