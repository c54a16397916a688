//! What is wrong with a lesson file, where, and what to do about it.

use std::fmt;
use std::ops::Range;

/// As much of a line as is shown beside a fault.
const LINE: usize = 100;

/// A text that lessons are read from. Reading files is the caller's work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SourceFile {
    /// Path as it is shown and as folders are told apart, with `/` between the parts.
    pub path: String,
    /// The whole text.
    pub text: String,
}

/// One fault in a lesson file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// The file's path.
    pub file: String,
    /// Line, from one.
    pub line: usize,
    /// Column in characters, from one.
    pub column: usize,
    /// What is wrong.
    pub message: String,
    /// What could stand there.
    pub has: Vec<String>,
    /// What to do.
    pub remedy: Option<String>,
    /// The lines around it with their numbers.
    pub excerpt: Vec<(usize, String)>,
    /// How many characters are marked, at least one.
    pub width: usize,
}

impl Fault {
    /// A fault at a place of a file, with the line before and after it.
    pub fn at(source: &SourceFile, span: &Range<usize>, message: impl Into<String>) -> Self {
        let text = source.text.as_str();
        let start = floor(text, span.start);
        let end = floor(text, span.end).max(start);
        let before = text.get(..start).unwrap_or_default();
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let line = before.matches('\n').count() + 1;
        let column = before.get(line_start..).unwrap_or_default().chars().count() + 1;
        let marked = text.get(start..end).unwrap_or_default();
        let width = marked
            .lines()
            .next()
            .unwrap_or_default()
            .chars()
            .count()
            .max(1);
        let excerpt = text
            .lines()
            .enumerate()
            .map(|(at, content)| (at + 1, content.to_owned()))
            .skip(line.saturating_sub(2))
            .take(if line == 1 { 2 } else { 3 })
            .collect();
        Self {
            file: source.path.clone(),
            line,
            column,
            message: message.into(),
            has: Vec::new(),
            remedy: None,
            excerpt,
            width,
        }
    }

    /// Whether another says the same of the same place: a file is read once for each
    /// system and level.
    pub(super) fn same_as(&self, other: &Self) -> bool {
        (&self.file, self.line, self.column, &self.message)
            == (&other.file, other.line, other.column, &other.message)
    }

    /// The same fault with what could stand there.
    #[must_use]
    pub fn having(mut self, has: Vec<String>) -> Self {
        self.has = has;
        self
    }

    /// The same fault with what to do.
    #[must_use]
    pub fn remedy(mut self, remedy: impl Into<String>) -> Self {
        self.remedy = Some(remedy.into());
        self
    }

    /// The marked line, how many characters of it stand before the mark, and the
    /// width of the mark. Of a long line only the part around the mark is kept.
    fn window(&self) -> (String, usize, usize) {
        let line: Vec<char> = self.marked_line().chars().collect();
        let before = self.column.saturating_sub(1).min(line.len());
        if line.len() <= LINE {
            return (line.into_iter().collect(), before, self.width);
        }
        let start = before.saturating_sub(LINE / 2).min(line.len() - LINE);
        let end = start + LINE;
        let (head, tail) = (
            if start > 0 { "… " } else { "" },
            if end < line.len() { " …" } else { "" },
        );
        let kept: String = line.iter().skip(start).take(LINE).collect();
        let width = self.width.min(end - before).max(1);
        let shown = head.chars().count();
        (format!("{head}{kept}{tail}"), before - start + shown, width)
    }

    /// The marked line itself.
    pub fn marked_line(&self) -> &str {
        self.excerpt
            .iter()
            .find(|(number, _)| *number == self.line)
            .map_or("", |(_, content)| content.as_str())
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "error: {}", self.message)?;
        writeln!(
            f,
            "  {}, line {}, column {}",
            self.file, self.line, self.column
        )?;
        let number = self.line.to_string();
        let gutter = " ".repeat(number.len());
        let (line, before, width) = self.window();
        writeln!(f, "  {number} | {line}")?;
        let lead: String = line
            .chars()
            .take(before)
            .map(|c| if c == '\t' { '\t' } else { ' ' })
            .collect();
        write!(f, "  {gutter} | {lead}{}", "^".repeat(width))?;
        if !self.has.is_empty() {
            write!(f, "\n  it has: {}", self.has.join(", "))?;
        }
        if let Some(remedy) = &self.remedy {
            write!(f, "\n  remedy: {remedy}")?;
        }
        Ok(())
    }
}

/// The nearest place at or before a byte where a character begins.
fn floor(text: &str, byte: usize) -> usize {
    let mut at = byte.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// The names nearest to a wrong one, best first.
pub fn nearest<'a>(wrong: &str, names: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let mut scored: Vec<(f64, &str)> = names
        .into_iter()
        .map(|name| (strsim::jaro_winkler(wrong, name), name))
        .filter(|(score, _)| *score > 0.75)
        .collect();
    scored.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    scored.dedup_by(|a, b| a.1 == b.1);
    scored
        .into_iter()
        .take(3)
        .map(|(_, name)| name.to_owned())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_points_at_its_place() {
        let source = SourceFile {
            path: "a/b.toml".into(),
            text: "one = 1\ntwo = 'flwo'\nthree = 3\n".into(),
        };
        let fault = Fault::at(&source, &(15..19), "\"flwo\" is not known here")
            .having(vec!["flow".into()])
            .remedy("write \"flow\"");
        let expected = "error: \"flwo\" is not known here\n  a/b.toml, line 2, column 8\n  \
                        2 | two = 'flwo'\n    |        ^^^^\n  it has: flow\n  remedy: write \"flow\"";
        assert_eq!(fault.to_string(), expected);
        assert_eq!(fault.excerpt.len(), 3);
    }

    #[test]
    fn a_place_inside_a_character_or_past_the_end_is_no_panic() {
        let source = SourceFile {
            path: "x".into(),
            text: "ä".into(),
        };
        assert_eq!(Fault::at(&source, &(1..9), "m").column, 1);
        assert_eq!(Fault::at(&source, &(7..7), "m").line, 1);
    }

    #[test]
    fn of_a_long_line_the_part_around_the_mark_is_shown() {
        let source = SourceFile {
            path: "x".into(),
            text: format!("a = '{}flwo{}'", "é".repeat(200), "x".repeat(200)),
        };
        let at = source.text.find("flwo").unwrap();
        let shown = Fault::at(&source, &(at..at + 4), "m").to_string();
        let lines: Vec<&str> = shown.lines().collect();
        assert!(lines[2].chars().count() < 115, "{shown}");
        let marked: String = lines[2]
            .chars()
            .zip(lines[3].chars())
            .filter(|(_, mark)| *mark == '^')
            .map(|(c, _)| c)
            .collect();
        assert_eq!(marked, "flwo");
    }

    #[test]
    fn nearest_names_come_best_first() {
        assert_eq!(nearest("flwo", ["flow", "bore", "slow"]), ["flow"]);
    }
}
