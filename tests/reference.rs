//! Calc against outside figures. The rows lie in `tests/reference`, each with
//! its source; PUMPWRIGHT_REFERENCE names another folder of the same columns,
//! whose rows are checked as well. What calc does not cover is named.

#![cfg(test)]

mod calc_support;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::{env, fs};

use calc_support::csv::{Row, rows};
use calc_support::inputs::Inputs;
use calc_support::kinds::{Answer, answers};
use calc_support::units::from_si;

/// Rows of our own copies that agree. A lower count means that rows went
/// missing or are no longer covered.
const OURS: usize = 67;

/// What our own copies hold and calc does not cover.
const UNCOVERED: [(&str, &str); 3] = [
    (
        "relief_valve",
        "flow the relief valve must pass at its setting",
    ),
    ("specific_capacity", "specific capacity"),
    ("water_properties", "dynamic viscosity of water at 1 atm"),
];

/// What came of a row.
#[derive(Debug, Clone, PartialEq)]
enum Outcome {
    Agrees,
    Differs(String),
    NotCovered,
}

/// What came of a folder.
#[derive(Debug, Default)]
struct Tally {
    agree: BTreeMap<String, usize>,
    differ: Vec<String>,
    uncovered: BTreeMap<(String, String), usize>,
}

fn judge(row: &Row) -> Outcome {
    let inputs = Inputs::of(&row["inputs"]);
    let (kind, quantity, unit) = (&row["kind"], &row["quantity"], &row["unit"]);
    let Some(answers) = answers(kind, quantity, unit, &inputs) else {
        return Outcome::NotCovered;
    };
    if !inputs.left_over().is_empty() || another_table(row) {
        return Outcome::NotCovered;
    }
    for answer in answers {
        if let Some(off) = difference(row, &answer) {
            return Outcome::Differs(format!("{} {kind}, {quantity}: {off}", row["case_id"]));
        }
    }
    Outcome::Agrees
}

/// Bands of insulation differ by maker; calc has one maker's table.
fn another_table(row: &Row) -> bool {
    row["kind"] == "megohm_band" && !row["source"].contains("table 45")
}

/// How far an answer is from what the row expects, if too far.
fn difference(row: &Row, answer: &Answer) -> Option<String> {
    let (expected, unit) = (row["expected"].as_str(), row["unit"].as_str());
    match answer {
        Answer::Refused(why) => Some(format!("expected {expected} {unit}, refused: {why}")),
        Answer::Word(word) => {
            // The source's own words, cut to those that name the band.
            let named = [
                "new motor",
                "used motor",
                "good condition",
                "insulation damage",
            ];
            let band = named.into_iter().find(|band| expected.starts_with(band));
            let agrees = band.is_some_and(|band| word.starts_with(band));
            (!agrees).then(|| format!("expected {expected}, got {word}"))
        }
        Answer::Number(value) => {
            let ours = from_si(*value, unit).unwrap_or_else(|| panic!("no unit {unit}"));
            let wanted: f64 = expected.parse().expect(expected);
            let tolerance: f64 = row["rel_tol"].parse().unwrap_or(1e-12);
            let off = (ours - wanted).abs();
            let agrees = off <= tolerance * wanted.abs();
            (!agrees).then(|| format!("expected {expected} {unit}, got {ours:.9}"))
        }
    }
}

fn tally(folder: &Path) -> Tally {
    let mut tally = Tally::default();
    let entries = fs::read_dir(folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut files: Vec<_> = entries
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.sort();
    for file in files
        .iter()
        .filter(|file| file.extension().is_some_and(|end| end == "csv"))
    {
        let text = fs::read_to_string(file).expect("a text file");
        for row in rows(&text).iter().filter(|row| row.contains_key("case_id")) {
            match judge(row) {
                Outcome::Agrees => *tally.agree.entry(row["kind"].clone()).or_default() += 1,
                Outcome::Differs(off) => tally.differ.push(off),
                Outcome::NotCovered => {
                    let what = (row["kind"].clone(), row["quantity"].clone());
                    *tally.uncovered.entry(what).or_default() += 1;
                }
            }
        }
    }
    tally
}

fn show(folder: &Path, tally: &Tally) {
    println!("{}:", folder.display());
    for (kind, count) in &tally.agree {
        println!("  {count:3} agree: {kind}");
    }
    for ((kind, quantity), count) in &tally.uncovered {
        println!("  {count:3} not covered: {kind}, {quantity}");
    }
}

#[test]
fn calc_agrees_with_our_copies() {
    let folder = calc_support::tests_folder().join("reference");
    let tally = tally(&folder);
    show(&folder, &tally);
    assert!(tally.differ.is_empty(), "{}", tally.differ.join("\n"));
    assert_eq!(tally.agree.values().sum::<usize>(), OURS, "rows that agree");
    let uncovered: BTreeSet<(&str, &str)> = tally
        .uncovered
        .keys()
        .map(|(kind, quantity)| (kind.as_str(), quantity.as_str()))
        .collect();
    assert_eq!(uncovered, BTreeSet::from(UNCOVERED));
}

#[test]
fn calc_agrees_with_the_other_folder() {
    let Some(folder) = env::var_os("PUMPWRIGHT_REFERENCE") else {
        println!("PUMPWRIGHT_REFERENCE is not set; only our own copies are checked");
        return;
    };
    let folder = Path::new(&folder);
    let tally = tally(folder);
    show(folder, &tally);
    assert!(tally.differ.is_empty(), "{}", tally.differ.join("\n"));
}

fn row(kind: &str, inputs: &str, expected: &str, unit: &str) -> Row {
    let cells = [
        ("case_id", "T"),
        ("kind", kind),
        ("quantity", "a test of the test"),
        ("inputs", inputs),
        ("expected", expected),
        ("unit", unit),
        ("rel_tol", "0.0001"),
        ("source", "table 45"),
    ];
    let owned = cells.map(|(name, cell)| (name.to_owned(), cell.to_owned()));
    owned.into_iter().collect()
}

/// 2.31 ft a psi is 115.5 ft at 50 psi; a thousandth more must be caught, and a
/// wrong band, and a figure that calc refuses.
#[test]
fn a_wrong_figure_is_caught() {
    let inputs = "pressure=50 psi; head_per_pressure=2.31 ft/psi";
    let judged = |expected| judge(&row("head_pressure", inputs, expected, "ft"));
    assert_eq!(judged("115.5"), Outcome::Agrees);
    assert!(matches!(judged("115.62"), Outcome::Differs(_)));
    let inputs = "resistance=1.1 megohm; place=in well with drop cable";
    let judged = |expected| judge(&row("megohm_band", inputs, expected, "text"));
    assert_eq!(judged("good condition (0.5 to 2.0)"), Outcome::Agrees);
    assert!(matches!(
        judged("new motor (2.0 or more)"),
        Outcome::Differs(_)
    ));
    let inputs = "flow=10 gpm; C=15; inside_diameter=1 in; length=100 ft";
    let judged = judge(&row("hazen_williams", inputs, "5", "ft"));
    assert!(matches!(judged, Outcome::Differs(_)));
}

#[test]
fn an_input_that_calc_does_not_take_is_not_covered() {
    let inputs = "pressure=50 psi; head_per_pressure=2.31 ft/psi; salt=3 %";
    assert_eq!(
        judge(&row("head_pressure", inputs, "115.5", "ft")),
        Outcome::NotCovered
    );
    assert_eq!(
        judge(&row("water_hammer", inputs, "115.5", "ft")),
        Outcome::NotCovered
    );
}
