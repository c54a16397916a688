//! The score in words: every line with its marks and the reason.

use super::marked::{Marked, MarkedLine, Marks, Verdict};

impl Marked {
    /// The same with these lines left out of the marks: they stood there filled in. A
    /// line that was changed to something else than right keeps its verdict, and earns
    /// nothing either.
    #[must_use]
    pub fn with_given(mut self, given: &[&str]) -> Self {
        for line in &mut self.lines {
            if given.contains(&line.id.as_str()) {
                line.marks = Marks::default();
                line.out_of = Marks::default();
                if line.verdict == Verdict::Right {
                    "right, given".clone_into(&mut line.words);
                }
            }
        }
        self.score = self.lines.iter().map(|line| line.marks).sum();
        self.out_of = self.lines.iter().map(|line| line.out_of).sum();
        self.explained = explain(&self.lines, self.score, self.out_of);
        self
    }
}

/// The sentences that explain a score, and the sum.
pub(super) fn explain(lines: &[MarkedLine], score: Marks, out_of: Marks) -> Vec<String> {
    let mut sentences = Vec::new();
    let (given, asked): (Vec<&MarkedLine>, Vec<&MarkedLine>) = lines
        .iter()
        .partition(|line| line.out_of == Marks::default());
    match given.as_slice() {
        [] => {}
        [one] => sentences.push(format!("Line {} was given: no marks.", one.number)),
        several => {
            let numbers: Vec<String> = several.iter().map(|line| line.number.to_string()).collect();
            sentences.push(format!(
                "Lines {} were given: no marks.",
                numbers.join(", ")
            ));
        }
    }
    let mut rest = asked.as_slice();
    while let Some(first) = rest.first() {
        let alike = |line: &&&MarkedLine| same_reason(&line.verdict, &first.verdict);
        let count = rest.iter().take_while(alike).count().max(1);
        let (group, after) = rest.split_at(count);
        sentences.push(sentence(group));
        rest = after;
    }
    sentences.push(format!("{score} of {out_of}."));
    sentences
}

fn same_reason(a: &Verdict, b: &Verdict) -> bool {
    match (a, b) {
        (Verdict::Follows { line: a }, Verdict::Follows { line: b })
        | (Verdict::Carried { by: a }, Verdict::Carried { by: b })
        | (Verdict::NotFollowed { line: a }, Verdict::NotFollowed { line: b }) => a == b,
        (a, b) => a == b && matches!(a, Verdict::Right | Verdict::NotWritten),
    }
}

fn sentence(group: &[&MarkedLine]) -> String {
    let marks: Marks = group.iter().map(|line| line.marks).sum();
    let numbers: Vec<String> = group.iter().map(|line| line.number.to_string()).collect();
    let (lines, is) = match numbers.as_slice() {
        [only] => (format!("Line {only}"), "is"),
        [first @ .., last] => (format!("Lines {} and {last}", first.join(", ")), "are"),
        [] => return String::new(),
    };
    let earned = earned(marks);
    match group.first().map(|line| &line.verdict) {
        Some(Verdict::Right) => format!("{lines} {is} right: {earned}."),
        Some(Verdict::Follows { line }) => {
            format!("{lines} {is} rightly worked from your own line {line}: {earned}.")
        }
        Some(Verdict::Carried { by }) => {
            format!("{lines} may stay empty, since line {by} rests on it and is right: {earned}.")
        }
        Some(Verdict::UnitOfWrongKind) => {
            format!("{lines} has the right figure, but not its unit: {earned}, half.")
        }
        Some(Verdict::UnitFactor) => format!("{lines} is off by a unit: {earned}."),
        Some(Verdict::RoundedWrongWay) => {
            format!("{lines} is rounded to the wrong side: {earned}.")
        }
        Some(Verdict::Mistake) => format!("{lines} takes a known turn: {earned}."),
        Some(Verdict::Unsafe) => format!("{lines} could hurt someone: {earned}."),
        Some(Verdict::NotFollowed { line }) => {
            format!("{lines} {is} worked from line {line}, which is not followed: {earned}.")
        }
        Some(Verdict::PartRight) => format!("{lines} is right in part: {earned}."),
        Some(Verdict::NotWritten) => format!("{lines} {is} not written: {earned}."),
        Some(Verdict::Unreadable) => format!("{lines} cannot be read: {earned}."),
        Some(Verdict::LookHere) | None => format!("{lines} needs another look: {earned}."),
    }
}

fn earned(marks: Marks) -> String {
    match marks.in_halves() {
        0 => "no mark".to_owned(),
        1 => "half a mark".to_owned(),
        2 => "1 mark".to_owned(),
        _ => format!("{marks} marks"),
    }
}
