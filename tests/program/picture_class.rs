//! The class of README's pictures: its people are README's, its key is fixed, so that its
//! papers are the same on every machine. No test stands here.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use pumpwright_engine::classes::seal::ClassKey;
use serde_json::Value;

use crate::started::{printed, run};

/// So many of README's people are in it.
const PEOPLE: usize = 12;

/// What people of whom papers are in wrote in place of what is right: the mistake's name,
/// and the item where it is made.
const WRITTEN: [&[(usize, &str)]; 9] = [
    &[(3, "one-way")],
    &[],
    &[(3, "one-way"), (4, "at-cut-out")],
    &[(2, "cut-out")],
    &[(3, "one-way")],
    &[(4, "at-cut-out")],
    &[(1, "inverted")],
    &[(3, "one-way"), (2, "cut-out")],
    &[],
];

/// Makes the class in a folder: papers for all, and marks of those who are in.
pub fn make(place: &Path) {
    let at = |name: &str| place.join(name).display().to_string();
    fs::create_dir_all(place.join("evening")).expect("a folder");
    fs::write(at("evening/class.key"), ClassKey::of([6; 32]).text()).expect("a key");
    let page = include_str!("../../README.md");
    let list = page.split("```csv class.csv\n").nth(1);
    let list = list.and_then(|rest| rest.split("```").next());
    let people: Vec<&str> = list.expect("a list").lines().take(1 + PEOPLE).collect();
    fs::write(at("class.csv"), people.join("\n")).expect("a list");
    printed(&["plan", "new", &at("week6.toml")]);
    let (plan, list, out) = (at("week6.toml"), at("class.csv"), at("evening"));
    printed(&[
        "assign", &plan, "--roster", &list, "--out", &out, "--no-pdf",
    ]);
    fs::write(at("table.csv"), table(place)).expect("a table");
    let marked = run(&["mark", &out, "--answers", &at("table.csv"), "--no-pdf"]);
    assert_eq!(
        (marked.code, marked.err.as_str()),
        (0, ""),
        "{}",
        marked.out
    );
}

/// What is in, typed into a table: a line each, a column for each line of any paper.
fn table(place: &Path) -> String {
    let papers = (1..).zip(WRITTEN);
    let papers: Vec<(String, BTreeMap<String, String>)> = papers
        .map(|(at, mistakes)| {
            let id = format!("{at:03}");
            let written = written(place, &id, mistakes);
            (id, written)
        })
        .collect();
    let columns: BTreeSet<&String> = papers.iter().flat_map(|(_, own)| own.keys()).collect();
    let mut table = "paper".to_owned();
    for column in &columns {
        table = format!("{table},{column}");
    }
    for (id, own) in &papers {
        table = format!("{table}\n{id}");
        for column in &columns {
            let cell = own.get(*column).map_or("", String::as_str);
            table = format!("{table},\"{cell}\"");
        }
    }
    table
}

/// What stands on a paper, by item and line.
fn written(place: &Path, id: &str, mistakes: &[(usize, &str)]) -> BTreeMap<String, String> {
    let path = place.join(format!("evening/week-6/printed/{id}.json"));
    let text = fs::read_to_string(path).expect("a paper");
    let paper: Value = serde_json::from_str(&text).expect("a record");
    let mut written = BTreeMap::new();
    for (item, own) in (1..).zip(list(&paper["items"])) {
        let made = mistakes.iter().find(|(of, _)| *of == item);
        for (line, (step, answer)) in (1..).zip(answers(&own["problem"])) {
            let wrong = made.and_then(|(_, mistake)| wrong(&own["problem"], mistake, &step));
            written.insert(format!("{item}.{line}"), wrong.unwrap_or(answer));
        }
    }
    written
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn text(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

/// The lines that are asked: step, and what is right there as it is written.
fn answers(problem: &Value) -> Vec<(String, String)> {
    let lines = list(&problem["lines"]).iter();
    let asked = lines.filter(|line| line["asks"] != "nothing");
    let written = asked.map(|line| {
        let key = line["asks"]["pick"][1].as_u64();
        let letter = key.and_then(|key| char::from_digit(10 + key as u32, 36));
        let answer = letter.map_or_else(|| text(&line["answer"]), String::from);
        (text(&line["step"]), answer)
    });
    written.collect()
}

/// What a mistake gives, where it is made at this step.
fn wrong(problem: &Value, mistake: &str, step: &str) -> Option<String> {
    let at = match mistake {
        "one-way" => "loop",
        "at-cut-out" => "floor",
        "cut-out" => "charge",
        _ => "head",
    };
    let mut live = list(&problem["mistakes"]).iter();
    let live = live.find(|live| live["id"] == mistake)?;
    (step == at).then(|| text(&live["text"]))
}
