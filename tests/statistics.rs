//! The statistics of a class against figures worked out elsewhere, each with its source
//! in the file it stands in, to the tolerance that the file gives.

#![allow(
    clippy::panic,
    dead_code,
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "a test reads its files and may end loudly"
)]

#[path = "calc_support/csv.rs"]
mod csv;

use std::path::{Path, PathBuf};

use csv::{Row, rows};
use proptest::prelude::*;
use pumpwright_engine::statistics::{Item, Marks, Tally, items, paper, reliability};

/// Figures printed to fifteen digits; sums of a thousand persons lose a few.
const TOLERANCE: f64 = 1e-9;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference/statistics")
}

fn read(folder: &Path, name: &str) -> Vec<Row> {
    let path = folder.join(name);
    rows(&std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display())))
}

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().expect(column)
}

/// The names of the questions in the order of the file, and the marks; a row counts
/// as often as its `count` says.
fn marks(text: &str) -> (Vec<String>, Marks) {
    let head = text
        .lines()
        .find(|line| !line.starts_with('#'))
        .expect("a head");
    let names: Vec<String> = head
        .split(',')
        .map(|name| name.trim_matches('"').to_owned())
        .collect();
    let names: Vec<String> = names.into_iter().filter(|name| name != "count").collect();
    let mut cells = Vec::new();
    for row in rows(text) {
        let times = row
            .get("count")
            .map_or(1, |count| count.parse().expect("a count"));
        for _ in 0..times {
            cells.extend(names.iter().map(|name| number(&row, name)));
        }
    }
    let marks = Marks::new(names.len(), cells).expect("marks");
    (names, marks)
}

fn marks_of(name: &str) -> (Vec<String>, Marks) {
    marks(&std::fs::read_to_string(folder().join(name)).expect(name))
}

fn near(ours: f64, theirs: f64, tolerance: f64, what: &str) {
    let off = (ours - theirs).abs();
    assert!(off <= tolerance, "{what}: ours {ours}, theirs {theirs}");
}

/// What one row of the class's file asks for.
fn answer(row: &Row) -> Option<f64> {
    let inputs: Vec<(&str, &str)> = row["inputs"]
        .split(';')
        .filter_map(|part| part.trim().split_once('='))
        .collect();
    let input = |name: &str| {
        inputs
            .iter()
            .find(|(key, _)| *key == name)
            .map(|(_, value)| *value)
    };
    let (names, marks) = marks_of(input("data").expect("data"));
    let count = marks.persons() as f64;
    let whole = || reliability(&marks).expect("a reliability");
    let spread = || {
        let deviation = paper(&marks, 0.7).deviation;
        deviation * deviation * (count - 1.0) / count
    };
    let quantity = row["quantity"].as_str();
    if quantity.starts_with("KR-20, population") || quantity.starts_with("Cronbach") {
        return Some(whole().alpha);
    }
    if quantity.starts_with("KR-20 with sample") {
        // The same with the other variance of the sums: k/(k-1) (1 - Σpq/s²).
        let k = marks.questions() as f64;
        let pq: f64 = marks.means().iter().map(|p| p * (1.0 - p)).sum();
        return Some(k / (k - 1.0) * (1.0 - pq / (spread() * count / (count - 1.0))));
    }
    if quantity.starts_with("score variance") {
        return Some(spread());
    }
    let at = names
        .iter()
        .position(|name| Some(name.as_str()) == input("item"))?;
    let item = items(&marks)[at];
    if quantity.starts_with("item difficulty") {
        return Some(item.difficulty);
    }
    if quantity.contains("with the item in") {
        return item.with_total;
    }
    if quantity.contains("rest of the test") {
        return item.with_rest;
    }
    None
}

#[test]
fn a_class_agrees_with_what_others_found() {
    let (mut checked, mut elsewhere) = (0, 0);
    for row in read(&folder(), "class.csv") {
        let Some(ours) = answer(&row) else {
            // Groups of three persons: the unit test beside the code has them.
            assert!(
                row["quantity"].starts_with("discrimination index"),
                "{}",
                row["quantity"]
            );
            elsewhere += 1;
            continue;
        };
        let expected = number(&row, "expected");
        let tolerance = number(&row, "rel_tol") * expected.abs().max(1e-3);
        near(ours, expected, tolerance, &row["case_id"]);
        checked += 1;
    }
    assert_eq!((checked, elsewhere), (19, 3), "rows went missing");
}

/// The same persons from the last to the first.
fn reversed(marks: &Marks) -> Marks {
    let rows: Vec<&[f64]> = marks.rows().collect();
    let cells = rows.into_iter().rev().flatten().copied().collect();
    Marks::new(marks.questions(), cells).expect("the same marks")
}

/// Items of a set against the columns of its file. Of equal sums the later row counts
/// as lower here and as higher there, so the groups are compared on the rows reversed.
fn check_items(names: &[String], marks: &Marks, rows: &[Row]) {
    let found: Vec<Item> = items(marks);
    let turned: Vec<Item> = items(&reversed(marks));
    assert_eq!(names.len(), rows.len());
    for row in rows {
        let name = &row["item"];
        let at = names.iter().position(|known| known == name).expect(name);
        let item = &found[at];
        let same = |ours: Option<f64>, column: &str| {
            let ours = ours.unwrap_or_else(|| panic!("{name}: no {column}"));
            near(
                ours,
                number(row, column),
                TOLERANCE,
                &format!("{name} {column}"),
            );
        };
        same(Some(item.difficulty), "p_correct");
        same(item.with_total, "point_biserial");
        same(item.with_rest, "point_biserial_rest");
        same(item.with_rest, "r_drop_psych");
        same(turned[at].upper_lower, "discrimination_27");
        same(item.alpha_without, "alpha_if_dropped");
    }
}

/// The same persons taken in one by one: what a class report prints.
fn check_tally(names: &[String], marks: &Marks, items: &[Row], whole: &Row) {
    let mut tally = Tally::new(&vec![1; names.len()]);
    for row in marks.rows() {
        let row: Vec<u32> = row.iter().map(|mark| *mark as u32).collect();
        tally.add(&row).expect("a row of the paper");
    }
    assert_eq!(tally.persons() as usize, marks.persons());
    let found = tally.paper().expect("a paper");
    assert!(found.is_kr20);
    near(found.alpha, number(whole, "kr20"), TOLERANCE, "kr20");
    near(found.error, number(whole, "sem"), TOLERANCE, "sem");
    let all = tally.items();
    for row in items {
        let at = names.iter().position(|known| *known == row["item"]);
        let item = &all[at.expect("the item")];
        near(item.difficulty, number(row, "p_correct"), TOLERANCE, "p");
        let rest = item.with_rest.expect("a correlation");
        near(rest, number(row, "point_biserial_rest"), TOLERANCE, "rest");
    }
}

/// The ten persons of the class's file, taken in one by one.
#[test]
fn a_class_taken_in_one_by_one_agrees_too() {
    let (names, marks) = marks_of("kr20_ten_by_ten.csv");
    let mut tally = Tally::new(&vec![1; names.len()]);
    for row in marks.rows() {
        let row: Vec<u32> = row.iter().map(|mark| *mark as u32).collect();
        tally.add(&row).expect("a row");
    }
    let (all, mut checked) = (tally.items(), 0);
    for row in read(&folder(), "class.csv") {
        let of =
            |name: &str| row["inputs"].contains(&format!("data=kr20_ten_by_ten.csv; item={name}"));
        let at = names.iter().position(|name| of(name));
        let quantity = row["quantity"].as_str();
        let ours = match at {
            None if row["inputs"] == "data=kr20_ten_by_ten.csv"
                && quantity.starts_with("KR-20, population") =>
            {
                Some(tally.paper().expect("a paper").alpha)
            }
            Some(at) if quantity.starts_with("item difficulty") => Some(all[at].difficulty),
            Some(at) if quantity.contains("rest of the test") => all[at].with_rest,
            _ => None,
        };
        let Some(ours) = ours else { continue };
        let expected = number(&row, "expected");
        let tolerance = number(&row, "rel_tol") * expected.abs().max(1e-3);
        near(ours, expected, tolerance, &row["case_id"]);
        checked += 1;
    }
    assert_eq!(checked, 7, "rows went missing");
}

fn check_paper(marks: &Marks, row: &Row) {
    let name = &row["dataset"];
    let whole = paper(marks, 0.7);
    let found = whole.reliability.expect(name);
    assert_eq!(whole.persons as f64, number(row, "persons_complete"));
    near(whole.mean, number(row, "mean_score"), TOLERANCE, name);
    near(
        whole.deviation,
        number(row, "sd_score_sample"),
        TOLERANCE,
        name,
    );
    near(found.alpha, number(row, "kr20"), TOLERANCE, name);
    near(found.kr21, number(row, "kr21"), TOLERANCE, name);
    near(found.error, number(row, "sem"), TOLERANCE, name);
}

#[test]
fn a_thousand_candidates_agree_with_a_statistics_package() {
    let (names, marks) = marks_of("lsat6_patterns.csv");
    check_items(&names, &marks, &read(&folder(), "lsat6_items.csv"));
    check_paper(&marks, &read(&folder(), "lsat6_summary.csv")[0]);
    let (items, whole) = (
        read(&folder(), "lsat6_items.csv"),
        read(&folder(), "lsat6_summary.csv"),
    );
    check_tally(&names, &marks, &items, &whole[0]);
}

/// Other sets, where a folder of them is named: `NAME_responses.csv`, `NAME_items.csv`
/// and a row each in `summary.csv`.
#[test]
fn other_sets_agree_too() {
    let Some(folder) = std::env::var_os("PUMPWRIGHT_ITEM_SETS").map(PathBuf::from) else {
        println!("PUMPWRIGHT_ITEM_SETS is not set; only our own copies are checked");
        return;
    };
    for row in read(&folder, "summary.csv") {
        let name = &row["dataset"];
        let text = std::fs::read_to_string(folder.join(format!("{name}_responses.csv")));
        let (names, marks) = marks(&text.expect(name));
        check_items(&names, &marks, &read(&folder, &format!("{name}_items.csv")));
        check_paper(&marks, &row);
        let items = read(&folder, &format!("{name}_items.csv"));
        check_tally(&names, &marks, &items, &row);
    }
}

proptest! {
    /// Whatever a class hands in: every figure is a number within its span.
    #[test]
    fn figures_stay_where_they_can_be(
        questions in 1_usize..8,
        cells in proptest::collection::vec(prop_oneof![Just(0.0), Just(1.0), 0.0..=1.0], 0..120),
        pass in 0.0..=1.0_f64,
    ) {
        let whole = cells.len() / questions * questions;
        let marks = Marks::new(questions, cells[..whole].to_vec()).expect("whole rows");
        let all = paper(&marks, pass);
        prop_assert!(all.mean.is_finite() && all.deviation.is_finite());
        prop_assert!(all.passed <= all.persons && all.near_pass <= all.persons);
        if let Some(found) = all.reliability {
            prop_assert!(found.alpha <= 1.0 + 1e-9 && found.error.is_finite());
        }
        if let Some(found) = all.consistency {
            prop_assert!((0.0..=1.0).contains(&found.agreement) && found.kappa.is_finite());
        }
        for item in items(&marks) {
            prop_assert!((0.0..=1.0).contains(&item.difficulty));
            for r in [item.with_total, item.with_rest].into_iter().flatten() {
                prop_assert!((-1.0..=1.0).contains(&r));
            }
            if let (Some(r), Some(between)) = (item.with_rest, item.with_rest_between) {
                prop_assert!(between.low <= r + 1e-9 && r <= between.high + 1e-9);
            }
        }
    }

    /// Who comes first in the list changes nothing but the groups of equals.
    #[test]
    fn the_order_of_persons_does_not_matter(
        cells in proptest::collection::vec(any::<bool>(), 60),
    ) {
        let of = |cells: Vec<bool>| {
            let cells = cells.into_iter().map(|right| f64::from(u8::from(right))).collect();
            Marks::new(5, cells).expect("whole rows")
        };
        let turned: Vec<bool> = cells.chunks(5).rev().flatten().copied().collect();
        let (one, other) = (of(cells), of(turned));
        for (a, b) in items(&one).iter().zip(items(&other)) {
            prop_assert!((a.difficulty - b.difficulty).abs() < 1e-12);
            prop_assert_eq!(a.with_rest.is_some(), b.with_rest.is_some());
            if let (Some(a), Some(b)) = (a.with_rest, b.with_rest) {
                prop_assert!((a - b).abs() < 1e-9);
            }
        }
    }
}

#[test]
fn marks_that_cannot_be_are_refused_in_words() {
    let words = |questions, cells: &[f64]| {
        Marks::new(questions, cells.to_vec())
            .expect_err("a fault")
            .to_string()
    };
    assert_eq!(words(0, &[]), "the paper has no question");
    assert_eq!(
        words(2, &[1.0, 0.0, 1.0]),
        "3 marks do not fill rows of 2 questions: one is missing or too many"
    );
    assert_eq!(
        words(2, &[1.0, 0.0, 1.0, 1.5]),
        "the mark of person 2 at question 2 must be 0 to 1"
    );
    assert!(Marks::new(1, vec![f64::NAN]).is_err());
}
