//! What a good journeyman would give: what is typed, beside the verdict and the
//! marks. The right figures are worked out by hand above each sheet.

#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used)]

#[path = "../common/mod.rs"]
mod common;
#[path = "../common/pinned.rs"]
mod pinned;

mod arrangements;
mod electric;
mod hidden;
mod limits;
mod pumping;
mod tanks;

use std::fmt::Write as _;

use pumpwright_engine::marking::{Manner, Marked, MarkedLine, Response, Verdict, mark};
use pumpwright_engine::problems::Problem;
use pumpwright_engine::quantities::DecimalSign;

const COMMA: Manner = Manner {
    decimal: DecimalSign::Comma,
};

/// Answers to the lines in the order of the sheet, parted by `;`.
fn response(problem: &Problem, typed: &str) -> Response {
    let lines: Vec<String> = problem.asked().map(|(_, line)| line.id.clone()).collect();
    let typed: Vec<&str> = typed.split(';').map(str::trim).collect();
    assert_eq!(
        typed.len(),
        lines.len(),
        "{lines:?} is answered by {typed:?}"
    );
    let answers = lines.into_iter().zip(typed.into_iter().map(str::to_owned));
    Response {
        answers: answers.collect(),
    }
}

fn marked(problem: &Problem, typed: &str, manner: Manner) -> Marked {
    mark(problem, &response(problem, typed), manner)
}

/// A line's verdict in short: `right 1`, `follows 1 by 2`, `mistake 0 one-way`.
fn short(line: &MarkedLine) -> String {
    let mut text = format!("{} {}", line.verdict.name(), line.marks);
    if let Verdict::Follows { line }
    | Verdict::NotFollowed { line }
    | Verdict::Carried { by: line } = line.verdict
    {
        let _ = write!(text, " by {line}");
    }
    for turn in &line.turns {
        let _ = write!(text, " {}", turn.mistake);
    }
    text
}

/// Each row: what is typed, and what each line earns.
fn rows(problem: &Problem, manner: Manner, rows: &[(&str, &str)]) {
    let mut off = Vec::new();
    for (typed, wanted) in rows {
        let found: Vec<String> = marked(problem, typed, manner)
            .lines
            .iter()
            .map(short)
            .collect();
        let wanted: Vec<&str> = wanted.split(';').map(str::trim).collect();
        if found != wanted {
            off.push(format!("{typed}\n  wanted {wanted:?}\n  found  {found:?}"));
        }
    }
    assert!(
        off.is_empty(),
        "{}\n{}",
        problem.story.join(" "),
        off.join("\n")
    );
}

fn any(_: &Problem) -> bool {
    true
}
