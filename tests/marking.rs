//! What a good journeyman would give: what is typed, beside the verdict and the
//! marks. The right figures are worked out by hand above each sheet.

#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used)]

mod common;
#[path = "common/pinned.rs"]
mod pinned;

use std::fmt::Write as _;

use pinned::Pinned;
use pumpwright_engine::marking::{Manner, Marked, MarkedLine, Response, Verdict, mark};
use pumpwright_engine::problems::{Asks, Problem};
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

/// Two switches, each by its two names.
const HIGH: (&str, &str) = ("40/60", "275/415");
const MIDDLE: (&str, &str) = ("30/50", "205/345");

fn precharge(system: &str, switch: (&str, &str), rules: &[(&str, &str)]) -> Problem {
    let (us, si) = switch;
    let draw =
        format!("{{ row = \"switches\", where = 'row.name is \"{us}\" | row.name is \"{si}\"' }}");
    let pinned = Pinned {
        family: "pressure-tank/tank-precharge",
        draws: &[("switch", &draw)],
        rules,
    };
    pinned.problem(1, system, any)
}

/// Switch 40/60 psi, 2 psi under cut-in: 38 psi, which is 262.0 kPa.
#[test]
fn tank_precharge() {
    let problem = precharge("us", HIGH, &[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("38", "right 1"),
            ("38 psi", "right 1"),
            ("262 kPa", "right 1"),
            ("2.62 bar", "right 1"),
            ("37 1/2", "right 1"),
            ("75/2 psi", "right 1"),
            ("37.2", "right 1"),
            ("38.8", "right 1"),
            ("38 gpm", "unit-of-wrong-kind 0.5"),
            ("38 ft", "unit-of-wrong-kind 0.5"),
            ("44 ft", "look-here 0"),
            ("36", "look-here 0"),
            // 2.31 ft of water in a psi: 38 over 2.31.
            ("16.45", "unit-factor 0"),
            ("58", "mistake 0 cut-out"),
            ("42", "mistake 0 above"),
            ("40", "mistake 0 equal"),
            ("50", "mistake 0 midpoint"),
            ("276 kPa", "mistake 0 equal"),
            ("61", "unsafe 0"),
            ("", "not-written 0"),
            ("a lot", "unreadable 0"),
            ("38 38", "unreadable 0"),
            ("psi", "unreadable 0"),
        ],
    );
    rows(
        &problem,
        COMMA,
        &[("37,5", "right 1"), ("2,62 bar", "right 1")],
    );
}

/// A known mistake comes with its hint, and the hint does not give the answer away.
#[test]
fn a_known_mistake_is_named_with_its_hint() {
    let problem = precharge("us", HIGH, &[]);
    let marked = marked(&problem, "58", Manner::default());
    let turn = &marked.lines[0].turns[0];
    assert_eq!(turn.did, "I worked from cut-out.");
    assert!(!turn.says.is_empty() && !turn.says.contains("38"));
    assert_eq!(marked.lines[0].words, "look here");
    assert_eq!(marked.score.in_halves(), 0);
}

/// 262 written without a unit is read in psi and would burst the tank; that it is
/// the figure in kPa is said all the same.
#[test]
fn an_unsafe_figure_still_hears_of_its_unit() {
    let problem = precharge("us", HIGH, &[]);
    let marked = marked(&problem, "262", Manner::default());
    assert_eq!(short(&marked.lines[0]), "unsafe 0");
    let note = marked.lines[0].note.as_deref();
    assert_eq!(note, Some("this is the figure in kPa, not in psi"));
}

/// With no room asked, cut-in itself is right and going over it by nothing no mistake;
/// with 5 psi it is 35.
#[test]
fn tank_precharge_under_other_house_rules() {
    let none = precharge("us", HIGH, &[("tank.precharge_below", "0 psi")]);
    rows(
        &none,
        Manner::default(),
        &[
            ("40", "right 1"),
            ("38", "look-here 0"),
            ("60", "mistake 0 cut-out"),
        ],
    );
    let five = precharge("us", HIGH, &[("tank.precharge_below", "5 psi")]);
    rows(
        &five,
        Manner::default(),
        &[
            ("35", "right 1"),
            ("38", "look-here 0"),
            ("45", "mistake 0 above"),
        ],
    );
}

/// Switch 205/345 kPa, 14 kPa under cut-in: 191 kPa, which is 27.7 psi.
#[test]
fn tank_precharge_in_kilopascals() {
    let problem = precharge("si", MIDDLE, &[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("191", "right 1"),
            ("191 kPa", "right 1"),
            ("27.7 psi", "right 1"),
            ("1.91 bar", "right 1"),
            ("196", "right 1"),
            ("198", "look-here 0"),
            ("27.7", "unit-factor 0"),
            ("331", "mistake 0 cut-out"),
            ("219", "mistake 0 above"),
            ("205", "mistake 0 equal"),
            ("275", "mistake 0 midpoint"),
            ("346", "unsafe 0"),
        ],
    );
}

fn stages(level: u8, draws: &[(&str, &str)], rules: &[(&str, &str)]) -> Problem {
    let pinned = Pinned {
        family: "pump-curve-and-staging/stage-count",
        draws,
        rules,
    };
    pinned.problem(level, "us", any)
}

/// 124 psi at 9 psi a stage: 13.78, so 14 stages. As head: 2.31 × 124 ÷ 9 = 31.83.
#[test]
fn stage_count_by_pressure() {
    let problem = stages(1, &[("needed", "{ of = [124] }")], &[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("13.78; 14", "right 1; right 1"),
            ("124/9; 14", "right 1; right 1"),
            ("; 14", "carried 1 by 2; right 1"),
            ("13.78; ", "right 1; not-written 0"),
            ("13.78; 13", "right 1; mistake 0 rounded-down"),
            ("; 13", "not-written 0; mistake 0 rounded-down"),
            ("31.83; 32", "mistake 0 head-for-pressure; follows 1 by 1"),
            ("; 32", "not-written 0; mistake 0 head-for-pressure"),
            ("12.2; 13", "look-here 0; follows 1 by 1"),
            ("12.2; 14", "look-here 0; right 1"),
            ("13.78; 14 psi", "right 1; unit-of-wrong-kind 0.5"),
            ("13.78; 13.78", "right 1; look-here 0"),
            ("; ", "not-written 0; not-written 0"),
        ],
    );
    // 124 ÷ 8 = 15.5, so 16.
    let eight = stages(
        1,
        &[("needed", "{ of = [124] }")],
        &[("stage.pressure", "8 psi")],
    );
    rows(
        &eight,
        Manner::default(),
        &[
            ("15.5; 16", "right 1; right 1"),
            ("15 1/2; 16", "right 1; right 1"),
            ("15.5; 15", "right 1; mistake 0 rounded-down"),
        ],
    );
}

/// 260 ft at 21 ft a stage: 12.381, so 13. At the shut valve's 28 ft: 9.286, so 10.
/// Without the tank's 50 psi, 115.5 ft: 144.5 ÷ 21 = 6.881, so 7.
#[test]
fn stage_count_by_the_curve() {
    let draws = [
        (
            "pump",
            "{ row = \"pump_class\", where = 'row.flow > 9.9 gpm and row.flow < 10.1 gpm' }",
        ),
        ("cut_out", "{ of = [50] }"),
        ("total_head", "{ us = { of = [260] }, si = { of = [80] } }"),
    ];
    let problem = stages(2, &draws, &[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("21; 12.38; 13", "right 1; right 1; right 1"),
            ("6.40 m; 12.4; 13", "right 1; right 1; right 1"),
            ("; ; 13", "carried 1 by 3; carried 1 by 3; right 1"),
            (
                "28; 9.29; 10",
                "mistake 0 shut-off-head; follows 1 by 1; follows 1 by 1",
            ),
            (
                "; ; 10",
                "not-written 0; not-written 0; mistake 0 shut-off-head",
            ),
            (
                "; ; 7",
                "not-written 0; not-written 0; mistake 0 pressure-left-out",
            ),
            (
                "21; 6.88; 7",
                "right 1; mistake 0 pressure-left-out; follows 1 by 2",
            ),
            ("21; 12.4; 12", "right 1; right 1; mistake 0 rounded-down"),
            ("28; 12.4; 13", "mistake 0 shut-off-head; right 1; right 1"),
            (
                "21 psi; 12.4; 13",
                "unit-of-wrong-kind 0.5; right 1; right 1",
            ),
        ],
    );
}

fn cable(rules: &[(&str, &str)]) -> Problem {
    let pinned = Pinned {
        family: "drop-cable/cable-drop",
        draws: &[
            (
                "motor",
                "{ row = \"motors\", where = 'row.name is \"1 hp\" | row.name is \"0.75 kW\"' }",
            ),
            (
                "wire",
                "{ row = \"copper\", where = 'row.name is \"AWG 10\" | row.name is \"6 mm2\"' }",
            ),
            ("buried", "{ of = [200] }"),
            ("drop", "{ of = [300] }"),
        ],
        rules,
    };
    pinned.problem(2, "us", any)
}

/// 200 ft and 300 ft: 500 ft. 0.248 ohm per 100 ft: 1.24 ohm. 9.7 A: 12.028 V.
/// Of 230 V: 5.2296 %.
#[test]
fn cable_drop() {
    let problem = cable(&[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("500; 1.24; 12.0; 5.2", "right 1; right 1; right 1; right 1"),
            (
                "152.4 m; 1.24 ohm; 12.03 V; 5.23 %",
                "right 1; right 1; right 1; right 1",
            ),
            (
                "; ; ; 5.2",
                "carried 1 by 4; carried 1 by 4; carried 1 by 4; right 1",
            ),
            (
                "500; ; ; ",
                "right 1; not-written 0; not-written 0; not-written 0",
            ),
            // A slip of the pen in the run, worked on rightly: 600 ft, 1.488 ohm, 14.43 V, 6.28 %.
            (
                "600; 1.488; 14.43; 6.3",
                "look-here 0; follows 1 by 1; follows 1 by 1; follows 1 by 1",
            ),
            // Two slips: 12.028 V written 21.0, and 21 ÷ 230 = 9.13 %.
            (
                "500; 1.24; 21.0; 9.1",
                "right 1; right 1; look-here 0; follows 1 by 3",
            ),
            // 300 ft: 0.744 ohm, 7.217 V, 3.138 %.
            (
                "300; 0.744; 7.22; 3.1",
                "mistake 0 drop-only; follows 1 by 1; follows 1 by 1; follows 1 by 1",
            ),
            (
                "; ; ; 3.1",
                "not-written 0; not-written 0; not-written 0; mistake 0 drop-only",
            ),
            (
                "500; 0.62; 6.01; 2.6",
                "right 1; mistake 0 one-way; follows 1 by 2; follows 1 by 2",
            ),
            (
                "; ; ; 2.6",
                "not-written 0; not-written 0; not-written 0; mistake 0 one-way",
            ),
            // 12.028 ÷ 115 = 10.46 %.
            (
                "500; 1.24; 12.0; 10.5",
                "right 1; right 1; right 1; mistake 0 of-115",
            ),
            // A wrong line that nothing follows.
            (
                "600; 1.24; 12.0; 5.2",
                "look-here 0; right 1; right 1; right 1",
            ),
            (
                "500; 1.24; 12.0 A; 5.2",
                "right 1; right 1; unit-of-wrong-kind 0.5; right 1",
            ),
            (
                "500; 1.24; 13.1 A; 5.2",
                "right 1; right 1; look-here 0; right 1",
            ),
            (
                "152.4; 1.24; 12.0; 5.2",
                "unit-factor 0; right 1; right 1; right 1",
            ),
            (
                "500; 1.24; 12.0; 0.052",
                "right 1; right 1; right 1; unit-factor 0",
            ),
            (
                "500; 1.24; 12.0; 0.0523",
                "right 1; right 1; right 1; unit-factor 0",
            ),
            (
                "500; 1.24; ?; 5.2",
                "right 1; right 1; unreadable 0; right 1",
            ),
        ],
    );
}

/// Four bare figures: each half where the unit is wanted, whole where it stands there.
#[test]
fn a_unit_that_is_wanted_halves_a_bare_figure() {
    let problem = cable(&[("marking.unit", "wanted")]);
    rows(
        &problem,
        Manner::default(),
        &[
            (
                "500; 1.24; 12.0; 5.2",
                "unit-of-wrong-kind 0.5; unit-of-wrong-kind 0.5; unit-of-wrong-kind 0.5; unit-of-wrong-kind 0.5",
            ),
            (
                "500 ft; 1.24 ohm; 12.0 V; 5.2 %",
                "right 1; right 1; right 1; right 1",
            ),
            (
                "500 ft; 1.24; 12.0 V; 5.2 %",
                "right 1; unit-of-wrong-kind 0.5; right 1; right 1",
            ),
            (
                "600; 1.488; 14.43 V; 6.3 %",
                "look-here 0; unit-of-wrong-kind 0.5; follows 1 by 1; follows 1 by 1",
            ),
        ],
    );
}

/// As a choice: 5.2 % among one conductor's 2.6 %, the well's 3.1 % and 10.5 % of 115 V.
#[test]
fn a_choice_asks_one_pick() {
    let problem = cable(&[("sheet.form", "choice")]);
    let lines: Vec<_> = problem.asked().collect();
    let [(1, line)] = lines.as_slice() else {
        panic!("one line: {lines:?}");
    };
    let Asks::Pick { offers, .. } = &line.asks else {
        panic!("a pick: {:?}", line.asks);
    };
    let mut texts: Vec<&str> = offers.iter().map(|offer| offer.text.as_str()).collect();
    texts.sort_unstable();
    assert_eq!(texts, ["10.5 %", "2.6 %", "3.1 %", "5.2 %"]);
    let mark_of = |text: &str| {
        let offer = offers.iter().find(|offer| offer.text == text);
        offer.expect("the offer").mark.clone()
    };
    for (text, wanted) in [
        ("5.2 %", "right 1"),
        ("2.6 %", "mistake 0 one-way"),
        ("3.1 %", "mistake 0 drop-only"),
        ("10.5 %", "mistake 0 of-115"),
    ] {
        rows(&problem, Manner::default(), &[(&mark_of(text), wanted)]);
    }
    rows(
        &problem,
        Manner::default(),
        &[
            ("e", "unreadable 0"),
            ("5.2", "unreadable 0"),
            ("", "not-written 0"),
        ],
    );
}

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

fn megohm(place: &str, reading: &str) -> Problem {
    let (place, reading) = (
        format!("{{ of = [\"{place}\"] }}"),
        format!("{{ of = [{reading}] }}"),
    );
    let pinned = Pinned {
        family: "motor-tests/megohm-verdict",
        draws: &[("place", &place), ("reading", &reading)],
        rules: &[],
    };
    pinned.problem(1, "us", any)
}

/// In service 1.2 megohm is over 0.5 and under 2: in good order.
#[test]
fn megohm_verdict() {
    let problem = megohm("in the well, in service", "1.2");
    let (_, line) = problem.asked().next().expect("a line");
    let Asks::Pick { offers, .. } = &line.asks else {
        panic!("a pick");
    };
    assert_eq!(offers.len(), 5);
    for (text, wanted) in [
        ("in good order: write it down and watch it", "right 1"),
        (
            "not fit to set: send it back or dry it",
            "mistake 0 bench-band-in-well",
        ),
        ("find the damage and mend it", "mistake 0 ohm-not-megohm"),
        ("pull the pump today", "mistake 0 pull-at-once"),
    ] {
        let offer = offers.iter().find(|offer| offer.text == text).expect(text);
        rows(&problem, Manner::default(), &[(&offer.mark, wanted)]);
        rows(
            &problem,
            Manner::default(),
            &[(&format!("{})", offer.mark.to_uppercase()), wanted)],
        );
    }
}

/// Numbers for jobs by their ids in the order wanted; what is not named is left out.
fn in_order(problem: &Problem, wanted: &[&str]) -> String {
    let (_, line) = problem.asked().next().expect("a line");
    let Asks::Order { cards } = &line.asks else {
        panic!("an order");
    };
    let numbers = cards.iter().map(|card| {
        let place = wanted.iter().position(|id| *id == card.id);
        place.map_or_else(|| "-".to_owned(), |place| (place + 1).to_string())
    });
    numbers.collect::<Vec<_>>().join(" ")
}

fn order_of(shown: &[&str]) -> Problem {
    let pinned = Pinned {
        family: "motor-tests/insulation-order",
        draws: &[],
        rules: &[],
    };
    pinned.problem(1, "us", |problem| {
        let Some((_, line)) = problem.asked().next() else {
            return false;
        };
        let Asks::Order { cards } = &line.asks else {
            return false;
        };
        cards.len() == shown.len() && cards.iter().all(|card| shown.contains(&card.id.as_str()))
    })
}

const ALWAYS: [&str; 7] = ["open", "lock", "proof", "leads", "read", "drain", "restore"];

/// Seven jobs in a row ask 6 + 5 + 4 + 3 + 2 + 1 = 21 befores. One pair exchanged
/// leaves 20 of 21, down to the half: 0.5.
#[test]
fn insulation_order() {
    let problem = order_of(&ALWAYS);
    let typed = |ids: &[&str]| in_order(&problem, ids);
    for (ids, wanted) in [
        (ALWAYS.as_slice(), "right 1"),
        (
            &["open", "lock", "proof", "read", "leads", "drain", "restore"],
            "part-right 0.5 leads-still-on",
        ),
        (
            &["lock", "open", "proof", "leads", "read", "drain", "restore"],
            "part-right 0.5",
        ),
        // What could kill ends it, however much else is right.
        (
            &["open", "proof", "lock", "leads", "read", "drain", "restore"],
            "unsafe 0 proof-before-lock",
        ),
        (
            &["open", "lock", "leads", "proof", "read", "drain", "restore"],
            "unsafe 0 hands-before-proof",
        ),
        (
            &["open", "lock", "proof", "leads", "read", "restore", "drain"],
            "unsafe 0 discharged-late",
        ),
        (
            &["open", "lock", "proof", "leads", "read", "restore"],
            "unsafe 0 not-discharged",
        ),
        // Two fatal ways at once are both named; the harmless one is not.
        (
            &["open", "lock", "read", "leads", "proof", "drain", "restore"],
            "unsafe 0 tester-before-proof hands-before-proof",
        ),
        // Backwards, every pair is wrong, and most of it kills.
        (
            &["restore", "drain", "read", "leads", "proof", "lock", "open"],
            "unsafe 0 tester-before-proof hands-before-proof proof-before-lock discharged-late",
        ),
    ] {
        rows(&problem, Manner::default(), &[(&typed(ids), wanted)]);
    }
    rows(
        &problem,
        Manner::default(),
        &[
            ("", "not-written 0"),
            ("1 2 3", "unreadable 0"),
            ("1 1 2 3 4 5 6", "unreadable 0"),
            ("1 2 3 4 5 6 8", "unreadable 0"),
            ("- - - - - - -", "unsafe 0 not-discharged"),
        ],
    );
    let marked = marked(
        &problem,
        &typed(&["open", "proof", "lock", "leads", "read", "drain", "restore"]),
        Manner::default(),
    );
    assert_eq!(marked.lines[0].words, "stop: unsafe order");
    assert!(marked.lines[0].turns[0].fatal);
}

/// With a job that does not belong: left out it is right, put anywhere it ends the item.
#[test]
fn a_decoy_is_left_out() {
    let mut shown = ALWAYS.to_vec();
    shown.push("supply");
    let problem = order_of(&shown);
    let typed = |ids: &[&str]| in_order(&problem, ids);
    let mut used = ALWAYS.to_vec();
    used.insert(3, "supply");
    rows(
        &problem,
        Manner::default(),
        &[
            (&typed(&ALWAYS), "right 1"),
            (&typed(&used), "unsafe 0 power-for-the-tester"),
        ],
    );
}

/// Five parts, a mark between them: four right are 0.8, down to the half; two are 0.4: none.
#[test]
fn box_parts() {
    let pinned = Pinned {
        family: "motors-and-control-box/box-parts",
        draws: &[],
        rules: &[],
    };
    let problem = pinned.problem(1, "us", |problem| {
        let ids: Vec<&str> = problem
            .mistakes
            .iter()
            .map(|live| live.id.as_str())
            .collect();
        ids.contains(&"run-as-start")
    });
    let (_, line) = problem.asked().next().expect("a line");
    let Asks::Match { parts, meanings } = &line.asks else {
        panic!("a match");
    };
    assert_eq!((parts.len(), meanings.len()), (5, 6));
    let right: Vec<String> = parts
        .iter()
        .map(|(_, key)| meanings[*key].mark.clone())
        .collect();
    let at = parts
        .iter()
        .position(|(part, _)| part == "run capacitor")
        .expect("the part");
    let helps = meanings
        .iter()
        .find(|offer| offer.text == "helps only while the motor starts")
        .expect("the meaning");
    let mut mixed = right.clone();
    mixed[at].clone_from(&helps.mark);
    let mut open = right.clone();
    open[at] = "-".into();
    let two: Vec<String> = right
        .iter()
        .enumerate()
        .map(|(at, mark)| if at < 2 { mark.clone() } else { "-".into() })
        .collect();
    rows(
        &problem,
        Manner::default(),
        &[
            (&right.join(" "), "right 1"),
            (&right.concat(), "right 1"),
            (&right.join(",").to_uppercase(), "right 1"),
            (&open.join(" "), "part-right 0.5"),
            (&two.join(" "), "look-here 0"),
            ("a b", "unreadable 0"),
            ("a b c d z", "unreadable 0"),
            ("", "not-written 0"),
        ],
    );
    let marked = marked(&problem, &mixed.join(" "), Manner::default());
    assert_eq!(short(&marked.lines[0]), "part-right 0.5 run-as-start");
    assert_eq!(marked.lines[0].note.as_deref(), Some("4 of 5 right."));
}

/// The score is explained line by line, and its last sentence is the sum.
#[test]
fn the_score_is_explained() {
    let problem = cable(&[]);
    let marked = marked(&problem, "600; 1.488; 14.43; 5.2 V", Manner::default());
    assert_eq!(
        marked.explained,
        [
            "Line 1 needs another look: no mark.",
            "Lines 2 and 3 are rightly worked from your own line 1: 2 marks.",
            "Line 4 has the right figure, but not its unit: half a mark, half.",
            "2.5 of 4.",
        ]
    );
    assert_eq!(marked.first_to_mend().map(|line| line.number), Some(1));
}
