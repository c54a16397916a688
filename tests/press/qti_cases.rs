//! One problem of every kind as a package, and what is answered there with the marks that
//! our own marking gives: for the check in a real browser, which `.ci/long` runs.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use pumpwright_engine::lessons::{Kind, Library};
use pumpwright_engine::marking::{Follow, Verdict, follow};
use pumpwright_engine::problems::{Asks, Problem, Settings};
use pumpwright_press::qti::package;

use crate::common::{draw_one, faces, shipped};
use crate::qti::{attempts, given, key, left_out, ours};
use crate::qti_rules::{Given, outcomes, read};

/// As many sets of answers a problem.
const MOST: usize = 14;

/// What a problem is chosen for.
type Wanted = Box<dyn Fn(&Problem) -> bool>;

/// The first problem of each kind, the first that asks a row, the first with a power, the
/// first in which a figure that follows is written up.
fn chosen(library: &Library) -> Vec<Problem> {
    let drawn = faces(library).into_iter();
    let drawn = drawn.filter_map(|face| draw_one(library, &face, 7, &Settings::default()).ok());
    let drawn: Vec<Problem> = drawn.collect();
    let mut wanted: Vec<Wanted> = Vec::new();
    for kind in Kind::ALL {
        wanted.push(Box::new(move |problem| problem.variant.kind == kind));
    }
    let row = |problem: &Problem| problem.lines.iter().any(|line| line.asks == Asks::Row);
    wanted.push(Box::new(row));
    wanted.push(Box::new(|problem| {
        let worked = pumpwright_engine::problems::working(problem);
        worked.iter().any(|line| line.aloud.is_some())
    }));
    wanted.push(Box::new(|problem| {
        let follows = |line| matches!(follow(problem, line), Follow::Product { .. });
        let mut asked = problem.asked();
        asked.any(|(_, line)| line.form.starts_with("up to") && follows(line))
    }));
    let first = |wanted: &dyn Fn(&Problem) -> bool| {
        let found = drawn.iter().find(|problem| wanted(problem));
        found.expect("every kind is shipped").clone()
    };
    let mut chosen: Vec<Problem> = wanted.iter().map(|wanted| first(wanted)).collect();
    chosen.dedup_by_key(|problem| problem.code.to_string());
    chosen
}

/// A text as JSON.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

fn shown(given: &Given) -> String {
    match given {
        Given::Number(number) => quoted(&number.to_string()),
        Given::Name(name) => quoted(name),
        Given::Pairs(pairs) => {
            let pairs: Vec<String> = pairs.iter().map(|pair| quoted(pair)).collect();
            format!("[{}]", pairs.join(","))
        }
        Given::Truth(truth) => truth.to_string(),
    }
}

fn responses(given: &[(String, Given)]) -> String {
    let given = given
        .iter()
        .map(|(id, given)| format!("{}:{}", quoted(id), shown(given)));
    format!("{{{}}}", given.collect::<Vec<_>>().join(","))
}

/// The cases of one item, as the check reads them.
fn cases(problem: &Problem, path: &str, text: &str) -> String {
    let item = read(text);
    let key = key(problem, &item);
    let asked: Vec<_> = problem.asked().collect();
    let mut all = attempts(problem, &key);
    all.dedup();
    let step = all.len().div_ceil(MOST).max(1);
    let mut cases = Vec::new();
    let mut followed = false;
    for (at, answers) in all.iter().enumerate() {
        let marked = ours(problem, answers);
        // The first that follows is taken to its step, where it is written on a grid.
        let mut lines = marked.lines.iter();
        let follows = lines.any(|line| matches!(line.verdict, Verdict::Follows { .. }));
        let first = follows && !followed;
        followed |= follows;
        if at >= 3 && at % step != 0 && !first {
            continue;
        }
        let mut expected = format!("\"SCORE\":{}", marked.score.number());
        let lines = asked.iter().zip(answers);
        let given: Vec<_> = lines
            .flat_map(|((number, line), typed)| given(problem, *number, line, typed))
            .collect();
        let found = outcomes(&item, &given.iter().cloned().collect(), 1);
        let mut apart = false;
        for (line, (number, asked)) in marked.lines.iter().zip(&asked) {
            let (marks, theirs) = (
                line.marks.number(),
                found.number(&format!("SCORE_{number}")),
            );
            apart |= marks != theirs && left_out(problem, asked, line, theirs);
            let _ = write!(expected, ",\"SCORE_{number}\":{marks}");
        }
        // The item says that one's own figure does not count there.
        if apart {
            continue;
        }
        cases.push(format!(
            "{{\"name\":{},\"responses\":{},\"expect\":{{{expected}}},\"shows\":[\"Worked solution\"],\"hides_before\":[\"Worked solution\",\"likely turn\"]}}",
            quoted(&format!("{at}: {}", answers.join(" | "))),
            responses(&given)
        ));
        if at == 0 {
            cases.push(format!(
                "{{\"name\":\"hint, then right\",\"steps\":[{{\"responses\":{{\"HINT_1\":true}},\"submit\":false}},{{\"responses\":{}}}],\"expect\":{{{expected}}},\"shows\":[\"Hint for line 1:\",\"Worked solution\"],\"hides_before\":[\"Hint for line 1:\"]}}",
                responses(&given)
            ));
            cases.push(
                "{\"name\":\"hint alone\",\"steps\":[{\"responses\":{\"HINT_1\":true},\"submit\":false}],\"expect\":{\"SCORE\":0},\"shows\":[\"Hint for line 1:\"],\"hides\":[\"Worked solution\"]}".to_owned(),
            );
        }
    }
    format!(
        "{{\"item\":{},\"cases\":[\n{}]}}",
        quoted(path),
        cases.join(",\n")
    )
}

fn write(path: &Path, bytes: &[u8]) {
    fs::create_dir_all(path.parent().expect("in a folder")).expect("a folder");
    fs::write(path, bytes).expect("a file");
}

#[test]
#[ignore = "writes what the check in a browser needs into the folder PUMPWRIGHT_QTI_CASES"]
fn cases_for_a_browser() {
    let folder = std::env::var_os("PUMPWRIGHT_QTI_CASES").expect("a folder for the cases");
    let folder = PathBuf::from(folder);
    let problems = chosen(&shipped());
    let whole = package("One problem of every kind", &problems);
    for file in &whole.files {
        write(
            &folder.join("package").join(&file.path),
            file.text.as_bytes(),
        );
    }
    let items = whole
        .files
        .iter()
        .filter(|file| file.path.starts_with("items/"));
    let cases: Vec<String> = items
        .zip(&problems)
        .map(|(file, problem)| cases(problem, &format!("package/{}", file.path), &file.text))
        .collect();
    write(
        &folder.join("cases.json"),
        format!("[{}]\n", cases.join(",\n")).as_bytes(),
    );
}
