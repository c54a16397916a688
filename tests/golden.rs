//! A problem code draws the same problem for good: problems drawn before stand in
//! `golden/problems.txt` and are drawn again from their codes.
//!
//! `PUMPWRIGHT_BLESS=1` writes the file anew after a family, a table or a house
//! rule has changed, which gives new revisions and so new codes. A code whose
//! problem changes under the same revision is refused even then: that would spoil
//! printed papers. What draws otherwise needs a new edition of the sampling rules.

#![allow(clippy::disallowed_methods, clippy::expect_used, clippy::panic)]

mod common;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::PathBuf;

use common::{bless, draw_one, every_setting, faces, root, shipped, still_files};
use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Library, SourceFile, show};
use pumpwright_engine::problems::{
    Asks, Code, DrawError, Offer, Problem, Settings, again, working,
};

/// Draws of each family, level and system; the numbers are arbitrary.
const DRAWS: [u32; 4] = [0, 1, 61, 70_001];

const HEAD: &str = "\
# Problems as their codes drew them before. A line here may change only where its
# code has a new revision; PUMPWRIGHT_BLESS=1 cargo test --test golden keeps to that.
";

fn file() -> PathBuf {
    root().join("tests/golden/problems.txt")
}

/// Every family under the default rules, and once under each other value of a rule it uses.
fn problems(library: &Library) -> Vec<Problem> {
    let mut found = Vec::new();
    for face in faces(library) {
        for settings in every_setting(library) {
            let numbers = if settings == Settings::default() {
                DRAWS.as_slice()
            } else {
                &[2]
            };
            for &number in numbers {
                match draw_one(library, &face, number, &settings) {
                    Ok(problem) if numbers.len() > 1 || !problem.code.rules.is_empty() => {
                        found.push(problem);
                    }
                    Ok(_) | Err(DrawError::Ruled(_)) => {}
                    Err(error) => panic!("{}: {error}", face.0),
                }
            }
        }
    }
    found
}

/// All that a code fixes: givens, values, what is shown in which order, answers, mistakes.
fn page(problem: &Problem) -> String {
    let mut page = String::new();
    for given in &problem.givens {
        let _ = writeln!(page, "given {} = {}", given.name, given.text);
    }
    for (at, step) in problem.variant.steps.iter().enumerate() {
        if let Some(value) = problem.value(at) {
            let _ = writeln!(page, "step {} = {}", step.id, twelve(value));
        }
    }
    for line in &problem.lines {
        let _ = writeln!(page, "line {}: {}", line.id, shown(&line.asks));
    }
    for worked in working(problem).iter().filter(|line| !line.id.is_empty()) {
        let step = problem.variant.step(&worked.id);
        let picked = step.and_then(|at| problem.value(at)?.truth()).is_some();
        let text = if picked { "" } else { worked.text.as_str() };
        let _ = writeln!(page, "answer {}: {text} [{}]", worked.id, worked.typed);
    }
    for mistake in &problem.mistakes {
        let value = mistake.value.as_ref().map(twelve).unwrap_or_default();
        let line = format!("mistake {} at {}: {value}", mistake.id, mistake.step);
        let _ = writeln!(page, "{}", line.trim_end_matches([' ', ':']));
    }
    plain_powers(&page)
}

/// How a power in a unit is printed, `ft2` or `ft²`, may be mended at any time.
fn plain_powers(page: &str) -> String {
    page.replace('²', "2").replace('³', "3")
}

fn offered(offer: &Offer) -> String {
    match &offer.value {
        Value::Truth(_) => show(&offer.value, None),
        _ => offer.text.clone(),
    }
}

/// A value to twelve figures, in SI.
fn twelve(value: &Value) -> String {
    match value {
        Value::Number(quantity) => format!("{:.11e}", quantity.si),
        other => show(other, None),
    }
}

fn shown(asks: &Asks) -> String {
    let list = |texts: Vec<&str>| texts.join(" / ");
    match asks {
        Asks::Nothing => "not asked".into(),
        Asks::Figure => "a figure".into(),
        Asks::Row => "a row".into(),
        Asks::Pick { offers, key } => {
            // The words for yes and no may be mended at any time.
            let texts: Vec<String> = offers.iter().map(offered).collect();
            format!("pick {key} of {}", texts.join(" / "))
        }
        Asks::Order { cards } => {
            let ids = cards.iter().map(|card| card.id.as_str()).collect();
            format!("order of {}", list(ids))
        }
        Asks::Match { parts, meanings } => {
            let parts = parts.iter().map(|(part, _)| part.as_str()).collect();
            let meanings = meanings.iter().map(|offer| offer.text.as_str()).collect();
            format!("match of {} with {}", list(parts), list(meanings))
        }
    }
}

/// The pages of the file, by their codes, in the order of the file.
fn written() -> Vec<(String, String)> {
    let text = std::fs::read_to_string(file()).unwrap_or_default();
    let text = text.replace("\r\n", "\n");
    let mut pages: Vec<(String, String)> = Vec::new();
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        if let Some(code) = line.strip_prefix("== ") {
            pages.push((code.to_owned(), String::new()));
        } else if let Some((_, page)) = pages.last_mut()
            && !line.is_empty()
        {
            page.push_str(line);
            page.push('\n');
        }
    }
    pages
}

fn bless_the_file(library: &Library) {
    let known: BTreeMap<String, String> = written().into_iter().collect();
    let mut text = HEAD.to_owned();
    for problem in problems(library) {
        let (code, page) = (problem.code.to_string(), page(&problem));
        if let Some(before) = known.get(&code) {
            assert_eq!(
                *before, page,
                "{code} draws another problem under the same revision; give the sampling rules a new edition"
            );
        }
        let _ = write!(text, "\n== {code}\n{page}");
    }
    std::fs::write(file(), text).expect("a file to write");
}

#[test]
fn codes_draw_the_problems_that_they_drew_before() {
    let library = shipped();
    if bless() {
        bless_the_file(&library);
    }
    let pages = written();
    assert!(pages.len() > 80, "pages went missing: {}", pages.len());
    for (code, before) in pages {
        let read: Code = code.parse().expect("a code of the file");
        let problem = again(&library, &read).unwrap_or_else(|error| {
            panic!("{code}: {error}\nif the family was meant to change, bless the file")
        });
        assert_eq!(problem.code, read);
        assert_eq!(
            page(&problem),
            before,
            "{code} draws another problem than before"
        );
    }
}

/// Nothing shipped is left out of the file.
#[test]
fn every_family_level_and_system_stands_in_the_file() {
    if bless() {
        return;
    }
    let library = shipped();
    let codes: Vec<Code> = written()
        .iter()
        .map(|(code, _)| code.parse().expect("a code of the file"))
        .collect();
    for (family, level, system) in faces(&library) {
        let own = codes
            .iter()
            .filter(|code| (&code.family, code.level, code.system) == (&family, level, system));
        assert!(own.count() >= DRAWS.len(), "{family} {level}{system}");
    }
}

fn revisions(files: &[SourceFile]) -> BTreeMap<String, u32> {
    let (library, faults) = Library::read(files);
    assert!(faults.is_empty(), "{faults:?}");
    faces(&library)
        .into_iter()
        .map(|(family, level, system)| {
            let variant = library
                .variant(&family, level, system)
                .expect("the variant");
            (format!("{family}.{level}{system}"), variant.revision)
        })
        .collect()
}

/// The files that stand still with one text exchanged in one of them, or in all.
fn changed(path: &str, from: &str, to: &str) -> Vec<SourceFile> {
    let mut files = still_files();
    let mut found = 0;
    for file in files.iter_mut().filter(|file| file.path.ends_with(path)) {
        found += file.text.matches(from).count();
        file.text = file.text.replace(from, to);
    }
    assert!(found > 0, "{path} does not have {from}");
    files
}

/// A house rule more, before all others.
const MUG: &str = "\
format = 1
[[rule]]
rule = \"shop.mug\"
words = [\"blue\", \"red\"]
default = \"blue\"
why = \"Mugs differ.\"
source = \"made for this test\"
";

/// Mending a spelling must not spoil a printed paper.
#[test]
fn texts_and_house_rules_that_have_no_say_leave_the_revision() {
    let before = revisions(&still_files());
    for (path, from, to) in [
        ("setback.toml", "\"Minus means", "\"A minus means"),
        (
            "cable-drop.toml",
            "Volts lost on the way down",
            "Volts lost",
        ),
        (
            "cable-drop.toml",
            "The panel is in the barn",
            "The panel is in a barn",
        ),
        ("setback.toml", "\"it passes\"", "\"it passes here\""),
        (
            "insulation-order.toml",
            "Lock and tag it",
            "Lock it and tag it",
        ),
        ("motors.toml", "training figures", "figures for training"),
        ("rules.toml", "format = 1", MUG),
        (
            "tank-precharge.toml",
            "\nlevels ",
            "\n# a comment\nlevels   ",
        ),
    ] {
        assert_eq!(
            revisions(&changed(path, from, to)),
            before,
            "{path}: {from}"
        );
    }
}

/// What decides a number or a verdict gives a new revision, to that family alone.
#[test]
fn what_decides_gives_a_new_revision() {
    let before = revisions(&still_files());
    for (path, from, to, touched) in [
        (
            "cable-drop.toml",
            "by = \"1 ft | 0.5 m\"",
            "by = \"2 ft | 0.5 m\"",
            "cable-drop.2us",
        ),
        (
            "cable-drop.toml",
            "to = 500, by = 1",
            "to = 510, by = 1",
            "cable-drop.2us",
        ),
        (
            "motors.toml",
            "4.9, 6.0",
            "4.9, 6.1",
            "cable-drop.2us cable-drop.2si",
        ),
        (
            "tank-precharge.toml",
            "charge > switch.cut_out",
            "charge >= switch.cut_out",
            "tank-precharge.1us tank-precharge.1si",
        ),
        (
            "relief-setting.toml",
            "max(tank.limit, piping.limit)",
            "piping.limit",
            "relief-setting.2us relief-setting.2si",
        ),
        (
            "rules.toml",
            "default = \"9 | 62\"",
            "default = \"9.5 | 62\"",
            "stage-count.1us",
        ),
        (
            "insulation-order.toml",
            "show = [7, 9]",
            "show = [8, 9]",
            "insulation-order.1us insulation-order.1si",
        ),
        (
            "box-parts.toml",
            "spare = 1",
            "spare = 0",
            "box-parts.1us box-parts.1si",
        ),
        (
            "megohm-verdict.toml",
            "count = 5",
            "count = 4",
            "megohm-verdict.1us megohm-verdict.1si",
        ),
    ] {
        let after = revisions(&changed(path, from, to));
        let differ: Vec<&str> = before
            .iter()
            .filter(|(face, revision)| after.get(*face) != Some(revision))
            .map(|(face, _)| face.as_str())
            .collect();
        let mut wanted: Vec<&str> = touched.split(' ').collect();
        wanted.sort_unstable();
        assert_eq!(differ, wanted, "{path}: {from}");
    }
}
