//! Side sums and tables in plain lines.

use std::io;

use pumpwright_engine::formulas::SideSum;
use pumpwright_engine::lessons::{Exam, paragraphs};
use pumpwright_engine::problems::{Problem, tables_used};
use pumpwright_engine::quantities::{DecimalSign, System};

use super::session::Session;
use super::spoken::spoken;
use super::written::Written;
use crate::sums::{carried, work};
use crate::tables::{Leaf, closed, find, leaves, said};
use crate::words;

/// As many words as are said at once.
const MOST: usize = 6;

/// A line: its word, and what it says.
pub(super) type Told = (String, String);

impl Session<'_> {
    /// Works out a sum; without one, says those that stand on the back of the sheet.
    pub(super) fn sum(&mut self, written: &mut Written, sum: &str) -> io::Result<()> {
        let manner = (written.problem.variant.system, written.manner.decimal);
        self.told(summed(sum, &mut written.back.done, manner))
    }

    /// Says the sums that stand on the back of the sheet.
    pub(super) fn sums(&mut self, written: &Written) -> io::Result<()> {
        self.told(listed(&written.back.done))
    }

    /// Says lines, each with its word.
    fn told(&mut self, told: Vec<Told>) -> io::Result<()> {
        let mut told = told.into_iter();
        told.try_for_each(|(prefix, text)| self.lines.say(&prefix, &text))
    }

    /// The result of a sum as it answers a line; none where there is no such sum.
    pub(super) fn carry_over(
        &mut self,
        written: &Written,
        line: usize,
        name: &str,
    ) -> io::Result<Option<String>> {
        let sum = match named(&written.back.done, name) {
            Ok(sum) => sum,
            Err(words) => {
                self.lines.say("note", &words)?;
                return Ok(None);
            }
        };
        let unit = written
            .problem
            .lines
            .get(line)
            .and_then(|line| line.unit.as_ref());
        Ok(Some(carried(sum, unit, written.manner.decimal)))
    }

    /// Says the table of a line, or the one that a number or a word names.
    pub(super) fn tables(
        &mut self,
        (problem, exam): (&Problem, Option<&Exam>),
        line: Option<usize>,
        asked: &str,
    ) -> io::Result<()> {
        let closed = closed(Some(problem), exam);
        let book = leaves(self.library, problem.variant.system, &closed);
        let used = line.and_then(|line| tables_used(problem, line).into_iter().next());
        let at = if asked.is_empty() {
            used.and_then(|name| book.iter().position(|leaf| leaf.name == name))
        } else {
            find(&book, asked).into_iter().next()
        };
        self.told(opened(&book, at, (line.is_some(), asked)))
    }

    /// Says the words of the trade that stand in a job, each with what it means.
    pub(super) fn words(&mut self, problem: &Problem) -> io::Result<()> {
        let mut text = problem.story.join(" ");
        for line in &problem.lines {
            for part in [". ", &line.label, ". ", &line.says] {
                text.push_str(part);
            }
        }
        let glossary = self.library.glossary();
        let here = glossary.standing_in(&text);
        for word in &here {
            self.lines
                .say(&format!("word {}", word.term), &word.means)?;
        }
        if here.is_empty() {
            self.lines
                .say("note", "no word of the glossary stands here")?;
        }
        self.lines.say("note", "?G and a word brings that word")
    }

    /// Says what a word means, or the words that its letters lead to.
    pub(super) fn word(&mut self, typed: &str) -> io::Result<()> {
        let glossary = self.library.glossary();
        let exactly = glossary.exactly(typed);
        let found = if exactly.is_empty() {
            glossary.find(typed)
        } else {
            exactly
        };
        if found.is_empty() {
            return self.lines.say("note", "no word is like this");
        }
        for word in found.iter().take(MOST) {
            self.lines
                .say(&format!("word {}", word.term), &word.means)?;
            if let [only] = found.as_slice()
                && let Some(care) = &only.care
            {
                self.lines.say("take care", care)?;
            }
        }
        if found.len() > MOST {
            let words = format!(
                "{} words more begin so; write more letters",
                found.len() - MOST
            );
            self.lines.say("note", &words)?;
        }
        Ok(())
    }

    /// Says a lesson, part by part, as it can be read while this problem is open.
    pub(super) fn lesson(&mut self, id: &str, open: &Problem) -> io::Result<()> {
        let (library, system) = (self.library, open.variant.system);
        let Some(lesson) = library.lesson(id) else {
            return self.lines.say("note", "no lesson stands behind this");
        };
        let rules = self.settings.values(library.rules(system));
        let book = leaves(library, system, &closed(Some(open), None));
        self.lines.say("lesson", &lesson.title)?;
        for skill in &lesson.can_do {
            self.lines.say("after it you can", skill)?;
        }
        for part in lesson.parts(system, &rules) {
            self.lines.say("part", &part.head)?;
            if let Some(caution) = &part.caution {
                self.lines.say("caution", &paragraphs(caution).join(" "))?;
            }
            for sentence in part.text.iter().flat_map(|text| words::sentences(text)) {
                self.lines.say("text", sentence)?;
            }
            if let Some(law) = &part.law {
                self.lines.say("law", &spoken(law))?;
            }
            let table = part.table.as_deref();
            let at = table.and_then(|name| book.iter().position(|leaf| *leaf.name == *name));
            if let Some((at, leaf)) = at.and_then(|at| Some((at, book.get(at)?))) {
                self.told(read_out(at, leaf))?;
            }
        }
        if let Some(varies) = lesson.varies(system, &rules) {
            for sentence in words::sentences(&varies) {
                self.lines.say("varies", sentence)?;
            }
        }
        for source in &lesson.sources {
            self.lines.say("source", &words::sentence(source))?;
        }
        match &lesson.note {
            Some(note) => self.lines.say("note", &words::sentence(note)),
            None => Ok(()),
        }
    }
}

/// Works out a sum and puts it with those before; without one, tells these.
pub(super) fn summed(
    sum: &str,
    done: &mut Vec<SideSum>,
    manner: (System, DecimalSign),
) -> Vec<Told> {
    if sum.is_empty() {
        return listed(done);
    }
    match work(sum, done, manner) {
        Ok(sum) => {
            let words = format!("{}, as s{}", spoken(&sum.text), done.len() + 1);
            done.push(sum);
            vec![told("sum", &words)]
        }
        Err(words) => vec![told("look", &words)],
    }
}

/// The sum of this name, `s2`, the latest without one; else what there is.
pub(super) fn named<'a>(done: &'a [SideSum], name: &str) -> Result<&'a SideSum, String> {
    let at = match name.trim_start_matches(['s', 'S']) {
        "" => done.len().checked_sub(1),
        number => {
            let number = number.parse::<usize>().ok();
            number.and_then(|number| number.checked_sub(1))
        }
    };
    let words = || match done.len() {
        0 => "no sum is worked out yet: & and a sum works one out".to_owned(),
        count => format!("the sums are s1 to s{count}"),
    };
    at.and_then(|at| done.get(at)).ok_or_else(words)
}

/// The sums that were worked out.
fn listed(done: &[SideSum]) -> Vec<Told> {
    if done.is_empty() {
        return vec![told("note", "write the sum behind &, with its units")];
    }
    let each = (1..).zip(done).map(|(number, sum): (usize, _)| {
        let text = format!("{} equals {}", spoken(&sum.sum), spoken(&sum.text));
        (format!("sum s{number}"), text)
    });
    each.collect()
}

/// The table at a place, else what there is, and why none was found: at a line, or by what
/// was asked.
pub(super) fn opened(
    book: &[Leaf],
    at: Option<usize>,
    (at_line, asked): (bool, &str),
) -> Vec<Told> {
    if let Some((at, leaf)) = at.and_then(|at| Some((at, book.get(at)?))) {
        return read_out(at, leaf);
    }
    let mut lines = Vec::new();
    if !asked.is_empty() {
        lines.push(told("note", "no table has this"));
    } else if at_line {
        lines.push(told("note", "this line uses no table"));
    }
    let titles = (1..).zip(book);
    lines.extend(titles.map(|(number, leaf): (usize, _)| {
        let prefix = format!("table {number}");
        (prefix, leaf.title.clone())
    }));
    lines.push(told("note", "@ and a number or a word brings a table"));
    lines
}

/// A table, row by row.
fn read_out(at: usize, leaf: &Leaf) -> Vec<Told> {
    let mut lines = vec![(format!("table {}", at + 1), leaf.title.clone())];
    lines.extend(leaf.basis.iter().map(|basis| told("note", basis)));
    if let Some(why) = leaf.closed {
        lines.push(told("note", why));
        return lines;
    }
    let columns = leaf.columns();
    let rows = columns.iter().map(|column| column.cells.len()).max();
    let rows = 0..rows.unwrap_or(0);
    lines.extend(rows.map(|row| told("row", &spoken(&said(&columns, row)))));
    lines.push(told("source", &leaf.source));
    lines
}

fn told(prefix: &str, text: &str) -> Told {
    (prefix.to_owned(), text.to_owned())
}
