//! The statistics of a class against figures worked out elsewhere, each with its source
//! in the file it stands in, to the tolerance that the file gives. A row that asks for a
//! measure which the class report does not have is named with the reason.

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
use pumpwright_engine::statistics::{NINETY_FIVE, Tallied, TalliedItem, Tally, of_alpha};

/// Figures printed to fifteen digits; what is worked back from ours loses a few.
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

/// A set of answers, all or nothing.
struct Set {
    /// The names of the questions in the order of the file.
    names: Vec<String>,
    /// A row a person.
    marks: Vec<Vec<u32>>,
}

impl Set {
    /// Of a text; a row counts as often as its `count` says.
    fn of(text: &str) -> Self {
        let head = text
            .lines()
            .find(|line| !line.starts_with('#'))
            .expect("a head");
        let names = head
            .split(',')
            .map(|name| name.trim_matches('"').to_owned());
        let names: Vec<String> = names.filter(|name| name != "count").collect();
        let mut marks = Vec::new();
        for row in rows(text) {
            let times = row
                .get("count")
                .map_or(1, |count| count.parse().expect("a count"));
            let own: Vec<u32> = names.iter().map(|name| number(&row, name) as u32).collect();
            marks.extend(std::iter::repeat_n(own, times));
        }
        Self { names, marks }
    }

    fn named(name: &str) -> Self {
        Self::of(&std::fs::read_to_string(folder().join(name)).expect(name))
    }

    fn place(&self, name: &str) -> usize {
        let at = self.names.iter().position(|known| known == name);
        at.unwrap_or_else(|| panic!("no question {name}"))
    }

    /// The persons taken in one by one: what a class report prints.
    fn tallied(&self) -> Figures {
        self.without(usize::MAX)
    }

    /// The same without a question.
    fn without(&self, question: usize) -> Figures {
        let kept = |at: &usize| *at != question;
        let count = (0..self.names.len()).filter(kept).count();
        let mut tally = Tally::new(&vec![1; count]);
        for row in &self.marks {
            let own: Vec<u32> = (0..row.len()).filter(kept).map(|at| row[at]).collect();
            tally.add(&own).expect("a row of the paper");
        }
        assert_eq!(tally.persons() as usize, self.marks.len());
        Figures {
            paper: tally.paper().expect("a paper"),
            items: tally.items(),
            persons: tally.persons() as f64,
        }
    }
}

/// What a tally gives, and what is worked back from that.
struct Figures {
    paper: Tallied,
    items: Vec<TalliedItem>,
    persons: f64,
}

impl Figures {
    /// Standard deviation of the sums, by n - 1: SEM = S √(1 - α).
    fn deviation(&self) -> f64 {
        self.paper.error / (1.0 - self.paper.alpha).sqrt()
    }

    /// Variance of the sums, by n.
    fn variance(&self) -> f64 {
        self.deviation() * self.deviation() * (self.persons - 1.0) / self.persons
    }

    fn mean(&self) -> f64 {
        self.items.iter().map(|item| item.difficulty).sum()
    }

    /// KR-20 with another variance of the sums: k/(k - 1) (1 - Σpq/s²).
    fn kr20(&self, variance: f64) -> f64 {
        let k = self.items.len() as f64;
        let pq = self
            .items
            .iter()
            .map(|item| item.difficulty * (1.0 - item.difficulty));
        k / (k - 1.0) * (1.0 - pq.sum::<f64>() / variance)
    }

    /// KR-21: k/(k - 1) (1 - M (k - M) / (k s²)).
    fn kr21(&self) -> f64 {
        let (k, mean) = (self.items.len() as f64, self.mean());
        k / (k - 1.0) * (1.0 - mean * (k - mean) / (k * self.variance()))
    }

    /// The correlation of a question with the sum of all, out of the one with the rest: with
    /// R = T - x, s_T² = s_R² + 2 r s_R s_x + s_x², and cov(x, T) = r s_R s_x + s_x².
    fn with_total(&self, at: usize) -> f64 {
        let item = &self.items[at];
        let own = item.difficulty * (1.0 - item.difficulty);
        let (x, r) = (own.sqrt(), item.with_rest.expect("a correlation"));
        let rest = (self.variance() - own + r * r * own).sqrt() - r * x;
        (r * rest + x) / self.variance().sqrt()
    }

    /// ln((1 - p)/p), less the mean of it over the questions.
    fn log_odds(&self, at: usize) -> f64 {
        let of = |item: &TalliedItem| ((1.0 - item.difficulty) / item.difficulty).ln();
        let mean = self.items.iter().map(of).sum::<f64>() / self.items.len() as f64;
        of(&self.items[at]) - mean
    }
}

fn near(ours: f64, theirs: f64, tolerance: f64, what: &str) {
    let off = (ours - theirs).abs();
    assert!(off <= tolerance, "{what}: ours {ours}, theirs {theirs}");
}

/// Measures that the class report does not have, and why; each by the start of its cases.
const NOT_OURS: [(&str, &str); 3] = [
    (
        "IA-D",
        "upper less lower group: of 30 hand-ins a group has eight; the correlation with the rest \
         uses all of them",
    ),
    (
        "RA-C",
        "Rasch difficulty: a report prints the share of the marks, which an instructor can read; \
         the difficulty that the learner model works with is set beforehand, not estimated from \
         a class",
    ),
    ("RA-M", "the same by another estimate"),
];

/// What one row of the class's file asks for; none where it is not ours.
fn answer(row: &Row) -> Option<f64> {
    let case = row["case_id"].as_str();
    if NOT_OURS.iter().any(|(start, _)| case.starts_with(start)) {
        return None;
    }
    let input = |name: &str| {
        let parts = row["inputs"].split(';');
        let mut parts = parts.filter_map(|part| part.trim().split_once('='));
        parts.find(|(key, _)| *key == name).map(|(_, value)| value)
    };
    let set = Set::named(input("data").expect("data"));
    let found = set.tallied();
    let at = || set.place(input("item").expect("an item"));
    let quantity = row["quantity"].as_str();
    Some(match quantity {
        _ if quantity.starts_with("KR-20, population") => found.paper.alpha,
        _ if quantity.starts_with("Cronbach") => found.paper.alpha,
        _ if quantity.starts_with("KR-20 with sample") => {
            found.kr20(found.deviation() * found.deviation())
        }
        _ if quantity.starts_with("score variance") => found.variance(),
        _ if quantity.starts_with("item difficulty") => found.items[at()].difficulty,
        _ if quantity.contains("with the item in") => found.with_total(at()),
        _ if quantity.contains("rest of the test") => {
            found.items[at()].with_rest.expect("a correlation")
        }
        _ if quantity.starts_with("log-odds") => found.log_odds(at()),
        other => panic!("{case}: {other} is neither matched nor named as not ours"),
    })
}

#[test]
fn a_class_agrees_with_what_others_found() {
    let (mut checked, mut not_ours) = (0, Vec::new());
    for row in read(&folder(), "class.csv") {
        let Some(ours) = answer(&row) else {
            not_ours.push(row["case_id"].clone());
            continue;
        };
        let expected = number(&row, "expected");
        let tolerance = number(&row, "rel_tol") * expected.abs().max(1e-3);
        near(ours, expected, tolerance, &row["case_id"]);
        checked += 1;
    }
    assert_eq!(checked, 21, "rows went missing");
    let wanted = [
        "IA-D1", "IA-D2", "IA-D3", "RA-C1", "RA-C2", "RA-C3", "RA-C4", "RA-C5", "RA-M1", "RA-M2",
        "RA-M3", "RA-M4", "RA-M5",
    ];
    assert_eq!(not_ours, wanted);
}

/// Items of a set against the columns of its file. Its upper and lower groups and its Rasch
/// difficulties are not ours, see [`NOT_OURS`].
fn check_items(set: &Set, rows: &[Row]) {
    let found = set.tallied();
    assert_eq!(set.names.len(), rows.len());
    for row in rows {
        let name = &row["item"];
        let at = set.place(name);
        let item = &found.items[at];
        let same = |ours: f64, column: &str| {
            let what = format!("{name} {column}");
            near(ours, number(row, column), TOLERANCE, &what);
        };
        same(item.difficulty, "p_correct");
        same(
            item.with_rest.expect("a correlation"),
            "point_biserial_rest",
        );
        same(item.with_rest.expect("a correlation"), "r_drop_psych");
        same(found.with_total(at), "point_biserial");
        same(set.without(at).paper.alpha, "alpha_if_dropped");
    }
}

fn check_paper(set: &Set, row: &Row) {
    let name = &row["dataset"];
    let found = set.tallied();
    assert!(found.paper.is_kr20);
    assert_eq!(found.persons, number(row, "persons_complete"));
    let same = |ours: f64, column: &str| near(ours, number(row, column), TOLERANCE, name);
    same(found.paper.alpha, "kr20");
    same(found.paper.error, "sem");
    same(found.mean(), "mean_score");
    same(found.deviation(), "sd_score_sample");
    same(found.kr21(), "kr21");
}

#[test]
fn a_thousand_candidates_agree_with_a_statistics_package() {
    let set = Set::named("lsat6_patterns.csv");
    check_items(&set, &read(&folder(), "lsat6_items.csv"));
    check_paper(&set, &read(&folder(), "lsat6_summary.csv")[0]);
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
        let set = Set::of(&text.expect(name));
        check_items(&set, &read(&folder, &format!("{name}_items.csv")));
        check_paper(&set, &row);
    }
}

/// A tally of some rows of marks, of which none is above what its question bears.
fn tally_of(most: &[u32], rows: &[&[u32]]) -> Tally {
    let mut tally = Tally::new(most);
    for row in rows {
        let own: Vec<u32> = row
            .iter()
            .zip(most)
            .map(|(mark, most)| mark % (most + 1))
            .collect();
        tally.add(&own).expect("a row that fits");
    }
    tally
}

/// Marks in part: seven persons, questions that bear 4, 2 and 6. Worked a second way with
/// Python's statistics and math modules from the formulas as the sources print them.
#[test]
fn marks_in_part_and_their_intervals_agree_with_a_second_way() {
    let rows: [&[u32]; 7] = [
        &[4, 0, 6],
        &[3, 1, 5],
        &[2, 1, 2],
        &[4, 2, 6],
        &[0, 0, 1],
        &[1, 1, 3],
        &[3, 2, 4],
    ];
    let tally = tally_of(&[4, 2, 6], &rows);
    let paper = tally.paper().expect("a paper");
    let same = |ours: f64, theirs: f64, what: &str| near(ours, theirs, 1e-12, what);
    assert!(!paper.is_kr20, "marks in part are no right and wrong");
    same(paper.alpha, 0.787_625_418_060_200_8, "alpha");
    same(paper.error, 1.738_910_441_572_400_8, "SEM");
    let between = paper.between.expect("an interval");
    same(between.low, 0.030_739_716_981_212_584, "alpha, low");
    same(between.high, 0.953_466_613_824_689, "alpha, high");
    let items = tally.items();
    for (item, (difficulty, with_rest)) in items.iter().zip([
        (0.607_142_857_142_857_1, 0.915_249_233_498_881_5),
        (0.5, 0.360_041_149_911_547_7),
        (0.642_857_142_857_142_9, 0.834_497_179_245_487),
    ]) {
        same(item.difficulty, difficulty, "difficulty");
        same(item.with_rest.expect("it varies"), with_rest, "correlation");
    }
    let first = items[0].difficulty_between;
    same(first.low, 0.275_995_827_520_709_5, "difficulty, low");
    same(first.high, 0.862_361_936_393_571_8, "difficulty, high");
    let third = items[2].with_rest_between.expect("enough persons");
    same(third.low, 0.219_172_551_879_746_4, "correlation, low");
    same(third.high, 0.974_902_385_572_95, "correlation, high");
    // All or nothing, and every question alike: that alone is KR-20.
    for (most, rows, is_kr20) in [
        ([2, 2], [[2, 0], [2, 2], [0, 0]], true),
        ([2, 2], [[2, 0], [2, 1], [0, 0]], false),
        ([2, 4], [[2, 0], [2, 4], [0, 0]], false),
    ] {
        let rows: Vec<&[u32]> = rows.iter().map(|row| &row[..]).collect();
        let found = tally_of(&most, &rows).paper().expect("a paper");
        assert_eq!(found.is_kr20, is_kr20, "{rows:?}");
    }
    let wide = of_alpha(0.7, 30, 20, NINETY_FIVE).expect("enough persons");
    same(wide.low, 0.486_519_052_108_737_14, "alpha of 30, low");
    same(wide.high, 0.824_725_726_690_333_2, "alpha of 30, high");
}

proptest! {
    /// Whatever a class hands in: every figure is a number within its span, and who comes
    /// first in the list changes nothing at all.
    #[test]
    fn figures_stay_where_they_can_be(
        most in proptest::collection::vec(1_u32..40, 1..8),
        marks in proptest::collection::vec(any::<u32>(), 0..160),
    ) {
        let mut rows: Vec<&[u32]> = marks.chunks_exact(most.len()).collect();
        let tally = tally_of(&most, &rows);
        if let Some(found) = tally.paper() {
            prop_assert!(found.alpha <= 1.0 + 1e-9 && found.error.is_finite());
            if let Some(between) = found.between {
                prop_assert!(between.low <= found.alpha + 1e-9);
                prop_assert!(found.alpha <= between.high + 1e-9);
            }
        }
        for item in tally.items() {
            prop_assert!((0.0..=1.0).contains(&item.difficulty));
            let between = item.difficulty_between;
            prop_assert!(between.low <= item.difficulty && item.difficulty <= between.high);
            if let Some(r) = item.with_rest {
                prop_assert!((-1.0..=1.0).contains(&r));
            }
            if let (Some(r), Some(between)) = (item.with_rest, item.with_rest_between) {
                prop_assert!(between.low <= r + 1e-9 && r <= between.high + 1e-9);
            }
        }
        rows.reverse();
        prop_assert_eq!(tally_of(&most, &rows), tally);
    }
}
