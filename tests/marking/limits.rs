//! Relief valves and setbacks: what is unsafe is never right, whatever it follows from.

use std::collections::BTreeSet;

use pumpwright_engine::formulas::{Rows, Value};
use pumpwright_engine::lessons::{basis, show};
use pumpwright_engine::marking::{Manner, Marks, Response, Verdict, mark};
use pumpwright_engine::problems::{Asks, Line, Problem, Settings, working};
use pumpwright_engine::quantities::{Quantity, System};

use crate::common::{draw_one, faces, shipped};
use crate::pinned::Pinned;
use crate::{any, marked, rows};

fn relief(tag: &str) -> Problem {
    let tag = format!("{{ of = [{tag}] }}");
    let pinned = Pinned {
        family: "relief-valve/relief-setting",
        draws: &[
            ("cut_out", "{ of = [60] }"),
            (
                "tank",
                "{ row = \"ratings\", where = 'row.limit > 99 psi and row.limit < 101 psi' }",
            ),
            (
                "piping",
                "{ row = \"ratings\", where = 'row.limit > 149 psi and row.limit < 151 psi' }",
            ),
            (
                "truck",
                "{ some = \"relief_valves\", where = 'row.setting < 101 psi', count = [5, 5] }",
            ),
            ("shut_off", "{ of = [140] }"),
            (
                "pump",
                "{ row = \"pump_class\", where = 'row.flow > 9.9 gpm and row.flow < 10.1 gpm' }",
            ),
            ("droop", "{ of = [30] }"),
            ("tag_flow", &tag),
        ],
        rules: &[],
    };
    pinned.problem(2, "us", any)
}

/// Cut-out 60 psi and 10 psi of room: 70 psi. Weakest of 100 and 150: 100 psi. Of 60,
/// 75, 80, 90 and 100 on the truck: 75. The pump still gives the lesser of 13 gpm and
/// 10 × √(65 ÷ 30) = 14.7 gpm: 13 gpm, so 15 gpm is enough (a), and 10 is not (b).
#[test]
fn relief_setting() {
    let enough = relief("15");
    rows(
        &enough,
        Manner::default(),
        &[
            ("70; 100; 75; a", "right 1; right 1; right 1; right 1"),
            (
                "70 psi; 689.5 kPa; 517 kPa; A)",
                "right 1; right 1; right 1; right 1",
            ),
            ("; 100; 75; a", "carried 1 by 3; right 1; right 1; right 1"),
            (
                "; ; 75; a",
                "carried 1 by 3; not-written 0; right 1; right 1",
            ),
            ("70; 100; 80; a", "right 1; right 1; look-here 0; right 1"),
            // A valve that the truck does not have and no list names.
            ("70; 100; 85; a", "right 1; right 1; look-here 0; right 1"),
            (
                "70; 100; 60; a",
                "right 1; right 1; mistake 0 at-cut-out; right 1",
            ),
            (
                "70; 100; 100; a",
                "right 1; right 1; mistake 0 tank-rating; right 1",
            ),
            (
                "70; 150; 75; a",
                "right 1; mistake 0 strongest-part; right 1; right 1",
            ),
            // Above the weakest part: whatever else is right, nobody stands beside it.
            (
                "70; 150; 150; a",
                "right 1; mistake 0 strongest-part; unsafe 0; right 1",
            ),
            (
                "70; 100; 140; a",
                "right 1; right 1; unsafe 0 at-shut-off; right 1",
            ),
            ("70; 100; 110; a", "right 1; right 1; unsafe 0; right 1"),
            // The margin forgotten: 60 psi, and the first valve of 60 follows it.
            (
                "60; 100; 60; a",
                "look-here 0; right 1; follows 1 by 1; right 1",
            ),
            (
                "70; 100; 75; b",
                "right 1; right 1; right 1; mistake 0 turned-round",
            ),
            (
                "70; 100; 75 gpm; a",
                "right 1; right 1; unit-of-wrong-kind 0.5; right 1",
            ),
            ("70; 100; 75; c", "right 1; right 1; right 1; unreadable 0"),
        ],
    );
    let small = relief("10");
    rows(
        &small,
        Manner::default(),
        &[
            ("70; 100; 75; b", "right 1; right 1; right 1; right 1"),
            (
                "70; 100; 75; a",
                "right 1; right 1; right 1; unsafe 0 turned-round",
            ),
        ],
    );
}

fn setback(east: &str, north: &str, rules: &[(&str, &str)]) -> Problem {
    let (east, north) = (
        format!("{{ of = [{east}] }}"),
        format!("{{ of = [{north}] }}"),
    );
    let pinned = Pinned {
        family: "siting-and-setbacks/setback",
        draws: &[
            (
                "field",
                "{ row = \"setbacks\", where = 'row.from is \"drainfield\" and row.sheet is \"New York\"' }",
            ),
            ("east", &east),
            ("north", &north),
            ("wide", "{ of = [20] }"),
            ("long", "{ of = [40] }"),
        ],
        rules,
    };
    pinned.problem(2, "us", any)
}

/// 60 ft east, 64 ft north: √7696 = 87.73 ft, so 87. Of 100 ft asked, −12.27, so −13:
/// it falls short (b). To the middle: √(70² + 84²) = 109.3. The legs: 124.
#[test]
fn a_setback_that_falls_short_never_passes() {
    let problem = setback("60", "64", &[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("100; 87; -13; b", "right 1; right 1; right 1; right 1"),
            ("100; 87.7; -12.3; b", "right 1; right 1; right 1; right 1"),
            (
                "30.48 m; 26.7 m; −13 ft; b",
                "right 1; right 1; right 1; right 1",
            ),
            (
                "; ; -13; b",
                "carried 1 by 3; carried 1 by 3; right 1; right 1",
            ),
            (
                "; ; ; b",
                "not-written 0; not-written 0; not-written 0; right 1",
            ),
            // Rounded in one's own favor, and worked on: −12 follows 88.
            (
                "100; 88; -12; b",
                "right 1; rounded-wrong-way 0; follows 1 by 2; right 1",
            ),
            (
                "100; 87; -12; b",
                "right 1; right 1; rounded-wrong-way 0; right 1",
            ),
            (
                "100; 26.7; -13; b",
                "right 1; unit-factor 0; right 1; right 1",
            ),
            ("100; 87; 13; b", "right 1; right 1; look-here 0; right 1"),
            // The wrong distance leaves room, and from that room it "passes": never right.
            (
                "100; 109; 9; a",
                "right 1; mistake 0 to-the-center; follows 1 by 2; unsafe 0",
            ),
            (
                "100; 124; 24; a",
                "right 1; mistake 0 legs-added; follows 1 by 2; unsafe 0",
            ),
            (
                "50; 87; 37; a",
                "mistake 0 wrong-row; right 1; follows 1 by 1; unsafe 0",
            ),
            (
                "100; 109; 9; b",
                "right 1; mistake 0 to-the-center; follows 1 by 2; right 1",
            ),
            (
                "; ; 9; a",
                "not-written 0; not-written 0; mistake 0 to-the-center; unsafe 0",
            ),
            (
                "; ; 37; b",
                "not-written 0; not-written 0; mistake 0 wrong-row; right 1",
            ),
            (
                "100; 87; -13; a",
                "right 1; right 1; right 1; unsafe 0 minus-as-room",
            ),
            (
                "100; ; ; ",
                "right 1; not-written 0; not-written 0; not-written 0",
            ),
        ],
    );
    let marked = marked(&problem, "100; 88; -12; b", Manner::default());
    let note = marked.lines[1].note.as_deref();
    assert_eq!(
        note,
        Some("A distance rounded up is a setback that is not there.")
    );
}

/// 80 ft and 80 ft: 113.14 ft, so 113; 13.14 to spare, so 13: it passes (a).
#[test]
fn a_setback_that_passes() {
    let problem = setback("80", "80", &[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("100; 113; 13; a", "right 1; right 1; right 1; right 1"),
            (
                "100; 113; 13; b",
                "right 1; right 1; right 1; mistake 0 minus-as-room",
            ),
            (
                "100; 114; 14; a",
                "right 1; rounded-wrong-way 0; follows 1 by 2; right 1",
            ),
        ],
    );
    // Where the house rule rounds to the nearest, 1 ft is 1 ft on either side.
    let even = setback("80", "80", &[("rounding.safe", "nearest")]);
    rows(
        &even,
        Manner::default(),
        &[
            ("100; 114; 14; a", "right 1; right 1; right 1; right 1"),
            (
                "100; 115; 15; a",
                "right 1; look-here 0; follows 1 by 2; right 1",
            ),
        ],
    );
}

/// What might be written at a line, each with the value that it stands for: every offer, every
/// row, and figures beside the right one.
fn choices(problem: &Problem, line: &Line) -> Vec<(String, Value)> {
    match &line.asks {
        Asks::Pick { offers, .. } => {
            let offers = offers.iter();
            offers
                .map(|offer| (offer.mark.clone(), offer.value.clone()))
                .collect()
        }
        Asks::Row => Rows::all(&problem.variant.row_tables[&line.step])
            .iter()
            .map(|row| (show(&Value::Row(row.clone()), None), Value::Row(row)))
            .collect(),
        Asks::Figure => {
            let unit = line.unit.as_ref().expect("a unit");
            let right = problem.value(line.step).and_then(Value::number);
            let right = unit.from_si(right.expect("a figure").si);
            [0.0, 0.25, 0.5, 0.8, 0.95, 1.05, 1.25, 2.0, 4.0, 20.0]
                .map(|by| {
                    let figure = right * by;
                    let value = Quantity::new(unit.to_si(figure), unit.dimension());
                    (figure.to_string(), Value::Number(value))
                })
                .into()
        }
        _ => Vec::new(),
    }
}

/// Every limit that a lesson sets can be broken, and whoever breaks it earns nothing there:
/// with everything else right, alone, and where it follows from an earlier figure that is off.
#[test]
fn every_limit_of_every_family_is_held() {
    let library = shipped();
    let (mut limits, mut broken, mut tried) = (BTreeSet::new(), BTreeSet::new(), 0);
    for face in faces(&library) {
        for draw in 0..6 {
            let problem = draw_one(&library, &face, draw, &Settings::default()).expect("drawn");
            let worked = working(&problem);
            let right: Vec<(String, String)> = (problem.asked())
                .map(|(_, line)| {
                    let own = worked.iter().find(|own| own.id == line.id);
                    (line.id.clone(), own.expect("worked").typed.clone())
                })
                .collect();
            for (number, line) in problem.asked() {
                let step = &problem.variant.steps[line.step];
                let (Some(formula), Some(slot)) = (&step.unsafe_if, step.slot) else {
                    continue;
                };
                let name = format!("{} {}", face.0, line.id);
                limits.insert(name.clone());
                for (typed, value) in choices(&problem, line) {
                    let mut values = problem.values.clone();
                    values[slot] = Some(value);
                    let held = formula.evaluate(&values, basis(problem.variant.system));
                    if held.ok().and_then(|held| held.truth()) != Some(true) {
                        continue;
                    }
                    broken.insert(name.clone());
                    let at = number - 1;
                    let mut whole = right.clone();
                    whole[at].1.clone_from(&typed);
                    let mut sheets = vec![vec![whole[at].clone()], whole.clone()];
                    for earlier in 0..at {
                        let figure = right[earlier].1.split(' ').next().expect("a word");
                        let Ok(figure) = figure.parse::<f64>() else {
                            continue;
                        };
                        for by in [0.5, 1.5] {
                            let mut off = whole.clone();
                            off[earlier].1 = (figure * by).to_string();
                            sheets.push(off);
                        }
                    }
                    for answers in sheets {
                        tried += 1;
                        let marked = mark(&problem, &Response { answers }, Manner::default());
                        let own = &marked.lines[at];
                        assert_eq!(
                            (&own.verdict, own.marks),
                            (&Verdict::Unsafe, Marks::default()),
                            "{} {name}: {typed}",
                            problem.code
                        );
                    }
                }
            }
        }
    }
    assert_eq!(broken, limits, "a limit that nothing breaks");
    assert!(limits.len() > 10 && tried > 1000, "{limits:?} {tried}");
}

/// The first square written 20 % short: the second line follows from it, less the same
/// square of the rise. The wrong square is no reason to take more than that.
#[test]
fn a_wrong_figure_does_not_widen_what_follows_from_it() {
    let library = shipped();
    for draw in 0..10 {
        let face = ("setback-on-slope".to_owned(), 3, System::Us);
        let bank = draw_one(&library, &face, draw, &Settings::default()).expect("a bank");
        let worked = working(&bank);
        let square = |at: usize| worked[at].value.expect("a square");
        let own = square(0) * 0.8;
        let follows = own - (square(0) - square(1));
        let second = |figure: f64| {
            let typed = format!("{own:.0}; {figure:.0}; ; ");
            let marked = marked(&bank, &typed, Manner::default());
            marked.lines[1].verdict.name()
        };
        assert_eq!(second(follows), "follows", "{}", bank.code);
        assert_eq!(second(square(1)), "right", "{}", bank.code);
        for share in [0.8, 0.85, 1.15, 1.2] {
            let typed = follows * share;
            assert_eq!(second(typed), "look-here", "{}: {typed}", bank.code);
        }
    }
}

/// Warm pipe that bears less than the tank, written a tenth too strong: whoever stands beside
/// it is hurt when it bursts. The ceiling that follows from that figure earns nothing, the true
/// one does, and what does not hang on it stays right. Written a tenth too weak it is off and
/// safe, and what follows from it is followed.
#[test]
fn nothing_is_earned_by_what_follows_from_an_unsafe_figure() {
    let library = shipped();
    let mut seen = 0;
    for draw in 0..80 {
        let face = ("relief-setting".to_owned(), 3, System::Us);
        let valve = draw_one(&library, &face, draw, &Settings::default()).expect("a valve");
        let typed = working(&valve).into_iter().map(|line| line.typed);
        let typed: Vec<String> = typed.filter(|typed| !typed.is_empty()).collect();
        let [floor, share, warm, ceiling, setting, passes] = &typed[..] else {
            panic!("six lines: {typed:?}");
        };
        let figure = |text: &str| -> f64 {
            let figure = text.split(' ').next().expect("a word");
            figure.parse().expect("a figure")
        };
        if (figure(warm) - figure(ceiling)).abs() > 1.0 {
            continue;
        }
        let verdicts = |own_warm: f64, own_ceiling: f64| {
            let typed = format!("{floor}; {share}; {own_warm}; {own_ceiling}; {setting}; {passes}");
            let marked = marked(&valve, &typed, Manner::default());
            let lines = marked.lines.iter().skip(2).take(2);
            lines
                .map(|line| format!("{} {}", line.verdict.name(), line.marks))
                .collect::<Vec<_>>()
        };
        let right = figure(warm);
        assert_eq!(verdicts(right, right), ["right 1", "right 1"]);
        assert_eq!(
            verdicts(right * 0.9, right * 0.9),
            ["look-here 0", "follows 1"],
            "{}",
            valve.code
        );
        // Unless the tank is the weaker then.
        let strong = verdicts(right * 1.1, right * 1.1);
        assert_eq!(strong[0], "unsafe 0", "{}", valve.code);
        assert!(strong[1].ends_with(" 0"), "{}: {strong:?}", valve.code);
        seen += usize::from(strong[1] == "not-followed 0");
        assert_eq!(
            verdicts(right * 1.1, right),
            ["unsafe 0", "right 1"],
            "{}",
            valve.code
        );
    }
    assert!(seen > 5, "{seen}");
}
