//! What holds of every draw of every family, level and system, under every value
//! of every house rule, and of marking whatever is typed.

#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used)]

#[path = "common/calculator.rs"]
mod calculator;
mod common;
#[path = "common/sums.rs"]
mod sums;

use std::sync::LazyLock;
use std::sync::atomic::{AtomicUsize, Ordering};

use calculator::Calculator;
use common::{Face, draw_one, every_setting, faces, shipped};
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;
use pumpwright_engine::formulas::{SNAP, Value};
use pumpwright_engine::lessons::{Library, basis};
use pumpwright_engine::marking::{Manner, Marked, Marks, Response, Verdict, mark};
use pumpwright_engine::problems::{
    Asks, DRAWS, DrawError, Line, Problem, Settings, WorkedLine, again, working,
};
use pumpwright_engine::quantities::{DecimalSign, read_for};

static LIBRARY: LazyLock<Library> = LazyLock::new(shipped);
static FACES: LazyLock<Vec<Face>> = LazyLock::new(|| faces(&LIBRARY));
static SETTINGS: LazyLock<Vec<Settings>> = LazyLock::new(|| every_setting(&LIBRARY));

/// A drawn problem that a failing test prints by its code.
struct Drawn(Problem);

impl std::fmt::Debug for Drawn {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.0.code)
    }
}

impl std::ops::Deref for Drawn {
    type Target = Problem;

    fn deref(&self) -> &Problem {
        &self.0
    }
}

/// A problem of any family under any setting that it may be drawn under.
fn any_problem() -> impl Strategy<Value = Drawn> {
    let settings = 0..SETTINGS.len();
    (0..FACES.len(), settings, 0..DRAWS).prop_map(|(face, setting, number)| {
        let face = &FACES[face];
        let problem = match draw_one(&LIBRARY, face, number, &SETTINGS[setting]) {
            Ok(problem) => problem,
            Err(DrawError::Ruled(_)) => {
                let drawn = draw_one(&LIBRARY, face, number, &Settings::default());
                drawn.unwrap_or_else(|error| panic!("{}: {error}", face.0))
            }
            Err(error) => panic!("{}: {error}", face.0),
        };
        Drawn(problem)
    })
}

/// What somebody might type: figures, units, signs, letters of any script, nothing.
fn anything() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => "-?[0-9]{1,5}([.,][0-9]{1,4})? ?(psi|kPa|ft|m|gpm|V|ohm|%|stages|in|L/min)?",
        2 => "[a-f0-9 ,-]{0,20}",
        1 => "[0-9] [0-9]/[0-9]{1,2} (in|hp|ft)?",
        2 => "\\PC{0,40}",
        1 => any::<String>(),
        1 => "[\\u{0590}-\\u{06FF}\\u{202A}-\\u{202E}\\u{2066}-\\u{2069}0-9]{0,20}",
        1 => "[\\u{0000}-\\u{001F}\\u{007F}-\\u{009F}0-9.]{0,20}",
        1 => "[0-9e+.-]{100,600}",
        1 => "(1e|9)[0-9]{1,400}",
        1 => Just(String::new()),
    ]
}

/// A sheet as somebody might hand it in: each line empty, right, a known mistake,
/// another line's answer, or anything.
type Sheet = Vec<(u8, u8, String)>;

fn any_sheet() -> impl Strategy<Value = Sheet> {
    proptest::collection::vec((0_u8..6, any::<u8>(), anything()), 5)
}

fn filled(problem: &Problem, sheet: &Sheet) -> Vec<(String, String)> {
    let right: Vec<(String, String)> = worked(problem)
        .into_iter()
        .filter(|worked| asked(problem).iter().any(|line| line.id == worked.id))
        .map(|worked| (worked.id, worked.typed))
        .collect();
    let own_mistakes = |id: &str| -> Vec<&str> {
        let own = problem.mistakes.iter().filter(|mistake| mistake.step == id);
        own.map(|mistake| mistake.text.as_str()).collect()
    };
    right
        .iter()
        .zip(sheet)
        .map(|((id, typed), (kind, which, anything))| {
            let which = usize::from(*which);
            let written = match kind {
                0 | 1 => String::new(),
                2 => typed.clone(),
                3 => match own_mistakes(id).as_slice() {
                    [] => anything.clone(),
                    mistakes => mistakes[which % mistakes.len()].to_owned(),
                },
                4 => right[which % right.len()].1.clone(),
                _ => anything.clone(),
            };
            (id.clone(), written)
        })
        .collect()
}

fn manner(comma: bool) -> Manner {
    let decimal = if comma {
        DecimalSign::Comma
    } else {
        DecimalSign::Point
    };
    Manner { decimal }
}

fn worked(problem: &Problem) -> Vec<WorkedLine> {
    working(problem)
        .into_iter()
        .filter(|line| !line.id.is_empty())
        .collect()
}

fn asked(problem: &Problem) -> Vec<&Line> {
    problem.asked().map(|(_, line)| line).collect()
}

fn marked(problem: &Problem, answers: Vec<(String, String)>) -> Marked {
    mark(problem, &Response { answers }, Manner::default())
}

fn only(problem: &Problem, id: &str, typed: &str) -> Marked {
    marked(problem, vec![(id.to_owned(), typed.to_owned())])
}

/// A verdict earns what it says, and no line more than it bears.
fn verdict_and_marks_agree(marked: &Marked) -> Result<(), TestCaseError> {
    let nothing = Marks::default();
    for line in &marked.lines {
        prop_assert!(line.marks <= line.out_of, "{line:?}");
        let earns = match line.verdict {
            Verdict::Right | Verdict::Follows { .. } | Verdict::Carried { .. } => {
                line.marks == line.out_of
            }
            Verdict::UnitOfWrongKind => line.marks.in_halves() * 2 == line.out_of.in_halves(),
            Verdict::PartRight => line.marks > nothing && line.marks < line.out_of,
            _ => line.marks == nothing,
        };
        prop_assert!(earns, "{line:?}");
        prop_assert!(!line.words.is_empty());
    }
    let score: Marks = marked.lines.iter().map(|line| line.marks).sum();
    let out_of: Marks = marked.lines.iter().map(|line| line.out_of).sum();
    prop_assert_eq!(score, marked.score);
    prop_assert_eq!(out_of, marked.out_of);
    prop_assert!(marked.score <= marked.out_of);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(400), failure_persistence: None, ..ProptestConfig::default() })]

    /// A draw meets its requirements and makes sense, and its code draws it again.
    #[test]
    fn a_draw_is_sensible_and_its_code_draws_it_again(problem in any_problem()) {
        let variant = &problem.variant;
        for require in &variant.requires {
            let met = require.that.evaluate(&problem.values, basis(variant.system));
            prop_assert_eq!(met.ok().and_then(|value| value.truth()), Some(true), "{}: {}", problem.code, require.why);
        }
        for (at, step) in variant.steps.iter().enumerate() {
            let Some((least, most)) = &step.sane else { continue };
            let figure = match problem.value(at) {
                Some(Value::Row(row)) => row.key().and_then(Value::number),
                value => value.and_then(Value::number),
            };
            let si = figure.expect("a figure").si;
            let noise = si.abs() * SNAP;
            prop_assert!(si >= least.si - noise && si <= most.si + noise, "{}: {} is {si}", problem.code, step.id);
        }
        let code = problem.code.to_string().parse().expect("its own code");
        let other = again(&LIBRARY, &code).expect("the same problem");
        // House rules that have no say do not stand in the code.
        let own = variant.rule_count;
        prop_assert_eq!(&other.values[own..], &problem.values[own..]);
        prop_assert_eq!(&other.lines, &problem.lines);
        prop_assert_eq!(&other.story, &problem.story);
        prop_assert_eq!(&other.mistakes, &problem.mistakes);
    }

    /// A mistake that can be made is never marked right where it is made, and is known there.
    #[test]
    fn a_mistake_is_known_where_it_is_made(problem in any_problem()) {
        for mistake in problem.mistakes.iter().filter(|mistake| mistake.value.is_some()) {
            let Some(line) = asked(&problem).into_iter().find(|line| line.id == mistake.step) else {
                continue;
            };
            let typed = match &line.asks {
                Asks::Pick { offers, .. } => {
                    let Some(offer) = offers.iter().find(|offer| offer.text == mistake.text) else {
                        continue;
                    };
                    offer.mark.clone()
                }
                _ => mistake.text.clone(),
            };
            let marked = only(&problem, &line.id, &typed);
            let found = marked.lines.iter().find(|found| found.id == line.id).expect("the line");
            prop_assert_eq!(found.marks, Marks::default(), "{}: {}", problem.code, mistake.id);
            prop_assert!(
                found.turns.iter().any(|turn| turn.mistake == mistake.id),
                "{}: {} typed as {typed} is {:?}", problem.code, mistake.id, found
            );
        }
    }

    /// The printed answers, fed back, are right, with the unit and without it.
    #[test]
    fn a_printed_answer_is_right(problem in any_problem()) {
        let mut whole = Vec::new();
        for worked in worked(&problem) {
            let Some(line) = asked(&problem).into_iter().find(|line| line.id == worked.id) else {
                continue;
            };
            whole.push((line.id.clone(), worked.typed.clone()));
            let marked = only(&problem, &line.id, &worked.typed);
            let found = marked.lines.iter().find(|found| found.id == line.id).expect("the line");
            prop_assert_eq!(&found.verdict, &Verdict::Right, "{}: {:?}", problem.code, found);
            if let (Asks::Figure, Some(unit)) = (&line.asks, &line.unit) {
                let reading = read_for(&worked.text, DecimalSign::Point, unit).expect("its own print");
                let shown = unit.from_si(reading.quantity(unit).si);
                let right = worked.value.expect("a figure");
                let grid = problem.variant.steps[line.step].write.map_or(0.0, |write| write.grid_shown);
                let near = (right.abs() * 0.006).max(grid * (1.0 + 1e-9));
                prop_assert!((shown - right).abs() <= near, "{}: {shown} for {right}", problem.code);
            }
        }
        let marked = marked(&problem, whole);
        prop_assert_eq!(marked.score, marked.out_of);
    }

    /// No slot is left open in what a person reads, and the sheet fits.
    #[test]
    fn what_is_read_has_no_open_slot(problem in any_problem()) {
        let mut texts = problem.story.clone();
        texts.extend(problem.caution());
        texts.extend(problem.varies());
        texts.extend(problem.on_the_job());
        texts.extend(problem.rules.iter().map(|rule| rule.text.clone()));
        texts.extend(problem.givens.iter().map(|given| given.text.clone()));
        for line in &problem.lines {
            prop_assert!((1..=30).contains(&line.label.chars().count()), "{}", line.label);
            prop_assert!(line.form.chars().count() <= 24, "{}", line.form);
            texts.push(line.says.clone());
            texts.extend(line.why.clone());
            if let Asks::Pick { offers, key } = &line.asks {
                prop_assert!(offers.len() >= 2 && *key < offers.len());
                for offer in offers {
                    prop_assert!(offer.text.chars().count() <= 66, "{}", offer.text);
                    let alike = offers.iter().filter(|other| other.text == offer.text);
                    prop_assert_eq!(alike.count(), 1, "{}: {}", problem.code, &offer.text);
                    texts.push(offer.text.clone());
                }
            }
        }
        // A reason that many lines share is told with the first of them.
        let mut told = false;
        for worked in working(&problem) {
            prop_assert!(told || !worked.says.is_empty(), "{}: {}", problem.code, worked.id);
            told = true;
            texts.extend((!worked.says.is_empty()).then_some(worked.says));
            texts.extend((!worked.id.is_empty()).then_some(worked.text));
            texts.extend(worked.words);
            texts.extend(worked.numbers);
        }
        for text in texts {
            prop_assert!(!text.contains(['{', '}']) && !text.contains("  ") && !text.trim().is_empty(), "{}: {text:?}", problem.code);
        }
    }

    /// Whatever is typed, marking says a verdict, and earns what the verdict says.
    #[test]
    fn marking_is_total(problem in any_problem(), sheet in any_sheet(), comma in any::<bool>()) {
        let answers = filled(&problem, &sheet);
        let marked = mark(&problem, &Response { answers }, manner(comma));
        verdict_and_marks_agree(&marked)?;
        for (line, asked) in marked.lines.iter().zip(asked(&problem)) {
            let no_digit = !line.typed.chars().any(char::is_numeric);
            if no_digit && matches!(asked.asks, Asks::Figure) && !matches!(line.verdict, Verdict::Carried { .. }) {
                prop_assert_eq!(line.marks, Marks::default(), "{}: {:?}", problem.code, line);
            }
        }
    }

    /// A figure or an offer that could hurt someone earns nothing, whatever else was written.
    #[test]
    fn what_is_unsafe_is_never_right(problem in any_problem(), sheet in any_sheet(), figure in 0.0_f64..400.0) {
        let variant = &problem.variant;
        for line in asked(&problem) {
            let step = &variant.steps[line.step];
            let (Some(formula), Some(slot)) = (&step.unsafe_if, step.slot) else { continue };
            let choices: Vec<(String, Value)> = match &line.asks {
                Asks::Pick { offers, .. } => offers.iter().map(|offer| (offer.mark.clone(), offer.value.clone())).collect(),
                Asks::Row => {
                    let rows = pumpwright_engine::formulas::Rows::all(&variant.row_tables[&line.step]);
                    rows.iter().map(|row| (pumpwright_engine::lessons::show(&Value::Row(row.clone()), None), Value::Row(row))).collect()
                }
                Asks::Figure => {
                    let unit = line.unit.as_ref().expect("a unit");
                    let value = pumpwright_engine::quantities::Quantity::new(unit.to_si(figure), unit.dimension());
                    vec![(format!("{figure}"), Value::Number(value))]
                }
                _ => Vec::new(),
            };
            for (answer, value) in choices {
                let mut values = problem.values.clone();
                values[slot] = Some(value);
                let held = formula.evaluate(&values, basis(variant.system));
                if held.ok().and_then(|held| held.truth()) != Some(true) {
                    continue;
                }
                let mut answers = filled(&problem, &sheet);
                for (id, typed) in &mut answers {
                    if *id == line.id {
                        typed.clone_from(&answer);
                    }
                }
                // A sheet may have more lines than were filled in.
                if answers.iter().all(|(id, _)| *id != line.id) {
                    answers.push((line.id.clone(), answer.clone()));
                }
                let marked = marked(&problem, answers);
                let found = marked.lines.iter().find(|found| found.id == line.id).expect("the line");
                prop_assert_eq!(&found.verdict, &Verdict::Unsafe, "{}: {}: {:?}", problem.code, answer, found);
                prop_assert_eq!(found.marks, Marks::default());
            }
        }
    }

    /// The right answer written into one more empty line never lowers the score.
    #[test]
    fn one_more_right_line_never_costs(problem in any_problem(), sheet in any_sheet()) {
        let right: Vec<WorkedLine> = worked(&problem);
        let mut answers = filled(&problem, &sheet);
        let mut before = marked(&problem, answers.clone()).score;
        for at in 0..answers.len() {
            if !answers[at].1.trim().is_empty() {
                continue;
            }
            let worked = right.iter().find(|worked| worked.id == answers[at].0).expect("its working");
            answers[at].1.clone_from(&worked.typed);
            let after = marked(&problem, answers.clone()).score;
            prop_assert!(after >= before, "{}: {after} after {before}: {answers:?}", problem.code);
            before = after;
        }
    }
}

/// Every printed line of the working comes true from its own printed figures.
#[test]
fn printed_lines_come_true() {
    static READ: AtomicUsize = AtomicUsize::new(0);
    let mut runner = proptest::test_runner::TestRunner::new(ProptestConfig {
        cases: ProptestConfig::default().cases.max(3000),
        failure_persistence: None,
        ..ProptestConfig::default()
    });
    let found = runner.run(&any_problem(), |problem| {
        for worked in working(&problem) {
            let step = problem
                .variant
                .steps
                .iter()
                .find(|step| step.id == worked.id);
            let grid = step
                .and_then(|step| step.write)
                .map_or(0.0, |write| write.grid_shown);
            for line in &worked.numbers {
                if let Some((figure, whole)) = sums::whole(line) {
                    READ.fetch_add(1, Ordering::Relaxed);
                    prop_assert!(
                        whole - 1.0 < figure && figure <= whole,
                        "{}: {line}",
                        problem.code
                    );
                }
                let Some(printed) = sums::read(line) else {
                    continue;
                };
                READ.fetch_add(1, Ordering::Relaxed);
                let off = (printed.sum - printed.result).abs();
                prop_assert!(
                    off <= printed.half_place * (1.0 + 1e-6) + printed.sum.abs() * 1e-9,
                    "{}: {line}: the figures give {}",
                    problem.code,
                    printed.sum
                );
                if let Some((word, taken)) = printed.taken {
                    let fits = match word.as_str() {
                        "up" => taken >= printed.result,
                        "down" => taken <= printed.result,
                        _ => true,
                    };
                    prop_assert!(
                        fits && (taken - printed.result).abs() <= grid + printed.half_place,
                        "{}: {line}",
                        problem.code
                    );
                }
            }
        }
        Ok(())
    });
    assert!(found.is_ok(), "{}", found.unwrap_err());
    assert!(READ.load(Ordering::Relaxed) > 400, "hardly a line was read");
}

/// The keys that are shown for a power or a root give the printed result, on a calculator
/// that works each key as it comes and on one that knows which sign comes first.
#[test]
fn keys_give_the_result_on_either_calculator() {
    let mut pressed = 0;
    for face in FACES.iter() {
        for number in 0..12 {
            let problem = draw_one(&LIBRARY, face, number, &Settings::default()).expect("a draw");
            for worked in worked(&problem).iter().filter(|line| !line.keys.is_empty()) {
                let right = worked.value.expect("a figure");
                for kind in [Calculator::Chain, Calculator::Algebraic] {
                    let shown =
                        calculator::pressed(kind, &worked.keys).expect("keys that can be pressed");
                    let off = (shown - right).abs();
                    assert!(
                        off <= 0.006 * right.abs(),
                        "{}: {:?} shows {shown}, not {right}",
                        problem.code,
                        worked.keys
                    );
                    pressed += 1;
                }
                let aloud = worked.aloud.as_ref().expect("the words");
                assert!(
                    ["squared", "cubed", "root", "power"]
                        .iter()
                        .any(|word| aloud.contains(word)),
                    "{aloud}"
                );
            }
        }
    }
    assert!(pressed > 200, "hardly a line was pressed: {pressed}");
}

/// A line of the working that prints a power or a root has the keys for it.
#[test]
fn most_powers_and_roots_have_keys() {
    let (mut with, mut without) = (0, Vec::new());
    for face in FACES.iter() {
        let problem = draw_one(&LIBRARY, face, 1, &Settings::default()).expect("a draw");
        for worked in worked(&problem) {
            if worked.aloud.is_none() {
                continue;
            }
            if worked.keys.is_empty() {
                without.push(format!("{} {}: {:?}", face.0, worked.id, worked.numbers));
            } else {
                with += 1;
            }
        }
    }
    assert!(
        without.len() * 5 <= with,
        "{with} have keys, not:\n{}",
        without.join("\n")
    );
}

/// The reader of printed lines reads what it should, and nothing else.
#[test]
fn the_reader_of_printed_lines_can_tell() {
    let read = |line| sums::read(line).map(|printed| (printed.sum, printed.result));
    assert_eq!(read("229 ft + 416 ft = 645 ft"), Some((645.0, 645.0)));
    assert_eq!(read("0.5 × 640 ÷ 100 = 3.21 ohm"), Some((3.2, 3.21)));
    assert_eq!(read("√((3 ft)² + (4 ft)²) = 5 ft"), Some((5.0, 5.0)));
    assert_eq!(read("20 V ÷ 80 V = 25 %"), Some((25.0, 25.0)));
    assert_eq!(read("60 psi: less than 75 psi."), None);
    assert_eq!(read("13.4 stages, up to a whole number = 14 stages"), None);
    let whole = sums::whole("13.4 stages, up to a whole number = 14 stages");
    assert_eq!(whole, Some((13.4, 14.0)));
    assert_eq!(read("the smaller of 125 psi and 100 psi = 100 psi"), None);
    let down = sums::read("123.7 ft − 100 ft = 23.7 ft, down to 23 ft").unwrap();
    assert_eq!(down.taken, Some(("down".into(), 23.0)));
    assert!((down.half_place - 0.05).abs() < 1e-12);
}
