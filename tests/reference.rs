//! Calc against outside figures: every row of `tests/reference` that has the
//! columns of a case, each with its source. PUMPWRIGHT_REFERENCE names another
//! folder of the same columns, kinds and quantities, whose rows are run as well. A
//! row that calc cannot read or does not know fails.

#![cfg(test)]

mod calc_support;

use std::collections::BTreeMap;
use std::path::Path;
use std::{env, fs};

use calc_support::csv::{Row, rows};
use calc_support::inputs::Inputs;
use calc_support::kinds::{Answer, ELSEWHERE, answer};
use calc_support::units::from_si;

/// Rows of our own copies. A lower count means that rows went missing.
const OURS: usize = 814;
/// What `exact` allows for a count: the dust of binary fractions.
const EXACT: f64 = 1e-9;

/// The rows of one kind.
#[derive(Debug, Default, Clone, Copy, PartialEq)]
struct Tally {
    rows: usize,
    passed: usize,
    /// The greatest deviation as a share of the tolerance.
    worst: f64,
}

/// What came of a folder.
#[derive(Debug, Default)]
struct Report {
    kinds: BTreeMap<String, Tally>,
    failures: Vec<String>,
    elsewhere: usize,
}

/// The deviation as a share of the tolerance, or why there is none.
fn judge(row: &Row) -> Result<f64, String> {
    let inputs = Inputs::of(cell(row, "inputs")?);
    let given = answer(cell(row, "kind")?, cell(row, "quantity")?, &inputs)?;
    let (expected, unit) = (cell(row, "expected")?, cell(row, "unit")?);
    match given {
        Answer::Word(word) if names(expected, word) => Ok(0.0),
        Answer::Word(word) => Err(format!("expected {expected}, got {word}")),
        Answer::Number(value) => {
            let wanted: f64 = expected
                .parse()
                .map_err(|_| format!("no figure: {expected}"))?;
            // A count for each length is wanted for the unit's own length.
            let ours = from_si(value, unit).ok_or_else(|| format!("no unit \"{unit}\""))?;
            let share = (ours - wanted).abs() / (tolerance(row)? * wanted.abs()).max(1e-300);
            if share <= 1.0 {
                Ok(share)
            } else {
                Err(format!(
                    "expected {expected} {unit}, got {ours:.9}, {share:.2} tolerances off"
                ))
            }
        }
    }
}

fn cell<'a>(row: &'a Row, column: &str) -> Result<&'a str, String> {
    let text = row.get(column).map(String::as_str);
    text.ok_or_else(|| format!("no column \"{column}\""))
}

fn tolerance(row: &Row) -> Result<f64, String> {
    match cell(row, "rel_tol")? {
        "exact" => Ok(EXACT),
        text => text.parse().map_err(|_| format!("no tolerance: {text}")),
    }
}

/// Whether a source's words, "good condition (0.5 to 2.0)", name calc's band.
fn names(expected: &str, word: &str) -> bool {
    let bands = [
        "new motor",
        "used motor",
        "good condition",
        "insulation damage",
        "below the table",
    ];
    let band = bands.into_iter().find(|band| expected.starts_with(band));
    band.is_some_and(|band| word.starts_with(band))
}

fn run(folder: &Path) -> Report {
    let entries = fs::read_dir(folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut files: Vec<_> = entries
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.retain(|file| file.extension().is_some_and(|end| end == "csv"));
    files.sort();
    let mut report = Report::default();
    for file in files {
        let text = fs::read_to_string(&file).expect("a text file");
        for row in rows(&text).iter().filter(|row| row.contains_key("case_id")) {
            take(&mut report, row);
        }
    }
    report
}

fn take(report: &mut Report, row: &Row) {
    let kind = row.get("kind").cloned().unwrap_or_default();
    if ELSEWHERE.contains(&kind.as_str()) {
        report.elsewhere += 1;
        return;
    }
    let tally = report.kinds.entry(kind.clone()).or_default();
    tally.rows += 1;
    match judge(row) {
        Ok(share) => {
            tally.passed += 1;
            tally.worst = tally.worst.max(share);
        }
        Err(why) => {
            let quantity = row.get("quantity").map_or("", String::as_str);
            report
                .failures
                .push(format!("{} {kind}, {quantity}: {why}", row["case_id"]));
        }
    }
}

fn show(folder: &Path, report: &Report) {
    println!("{}", folder.display());
    println!(
        "{:26} {:>5} {:>7}   worst deviation over tolerance",
        "kind", "rows", "passed"
    );
    for (kind, tally) in &report.kinds {
        println!(
            "{kind:26} {:>5} {:>7}   {:.3}",
            tally.rows, tally.passed, tally.worst
        );
    }
    if report.elsewhere > 0 {
        println!(
            "{} rows belong to the analysis of a class",
            report.elsewhere
        );
    }
}

#[test]
fn calc_agrees_with_our_copies() {
    let folder = calc_support::tests_folder().join("reference");
    let report = run(&folder);
    show(&folder, &report);
    assert!(report.failures.is_empty(), "{}", report.failures.join("\n"));
    let passed: usize = report.kinds.values().map(|tally| tally.passed).sum();
    assert_eq!(passed, OURS, "rows that agree");
    assert_eq!(report.elsewhere, 0);
}

#[test]
fn calc_agrees_with_the_other_folder() {
    let Some(folder) = env::var_os("PUMPWRIGHT_REFERENCE") else {
        println!("PUMPWRIGHT_REFERENCE is not set; only our own copies are checked");
        return;
    };
    let report = run(Path::new(&folder));
    show(Path::new(&folder), &report);
    assert!(report.failures.is_empty(), "{}", report.failures.join("\n"));
    assert!(!report.kinds.is_empty(), "the folder holds no rows");
}

fn row(kind: &str, quantity: &str, inputs: &str, expected: [&str; 2]) -> Row {
    let [expected, unit] = expected;
    let cells = [
        ("case_id", "T"),
        ("kind", kind),
        ("quantity", quantity),
        ("inputs", inputs),
        ("expected", expected),
        ("unit", unit),
        ("rel_tol", "0.0001"),
    ];
    let owned = cells.map(|(name, cell)| (name.to_owned(), cell.to_owned()));
    owned.into_iter().collect()
}

/// 2.31 ft a psi is 115.5 ft at 50 psi; a thousandth more must be caught, and a
/// wrong band, and a figure that calc refuses.
#[test]
fn a_wrong_figure_is_caught() {
    let inputs = "pressure=50 psi; head_per_pressure=2.31 ft/psi";
    let head = "head from pressure, trade factor";
    let judged = |expected| judge(&row("head_pressure", head, inputs, [expected, "ft"]));
    assert!(judged("115.5").is_ok());
    assert!(judged("115.62").unwrap_err().contains("tolerances off"));
    let inputs = "resistance=1.1 megohm; place=in well with drop cable";
    let band = "condition from a megohm reading";
    let judged = |expected| judge(&row("megohm_band", band, inputs, [expected, "text"]));
    assert!(judged("good condition (0.5 to 2.0)").is_ok());
    assert!(judged("new motor (2.0 or more)").is_err());
    let inputs = "flow=10 gpm; C=15; inside_diameter=1 in; length=100 ft";
    let friction = "friction head, Hazen-Williams";
    let judged = judge(&row("hazen_williams", friction, inputs, ["5", "ft"]));
    assert!(judged.unwrap_err().contains("it must be 40 to 160"));
}

#[test]
fn what_calc_does_not_know_is_a_failure_with_its_name() {
    let head = "head from pressure, trade factor";
    let plain = "pressure=50 psi; head_per_pressure=2.31 ft/psi";
    let says = |kind, quantity, inputs: &str, unit| {
        judge(&row(kind, quantity, inputs, ["115.5", unit])).unwrap_err()
    };
    let salted = format!("{plain}; salt=3 %");
    assert!(says("head_pressure", head, &salted, "ft").contains("salt"));
    assert!(says("head_of_steam", head, plain, "ft").contains("head_of_steam"));
    assert!(says("head_pressure", "taste of water", plain, "ft").contains("taste of water"));
    assert!(says("head_pressure", head, plain, "cubit").contains("cubit"));
    let cubits = "pressure=50 psi; head_per_pressure=2 cubit/psi";
    assert!(says("head_pressure", head, cubits, "ft").contains("unknown unit"));
    assert!(says("head_pressure", head, "pressure=50 psi", "ft").contains("is given"));
}
