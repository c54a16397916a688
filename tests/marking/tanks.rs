//! Tanks: the air charge, and the water that a tank gives.

use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::Problem;

use crate::pinned::Pinned;
use crate::{COMMA, any, marked, rows, short};

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

/// 45 gal, 30/50 psi, charge 28 psi. Absolute, with 14.7 psi of air: 42.7, 44.7, 64.7.
/// Water at cut-out 1 − 42.7 ÷ 64.7 = 34.0 %, at cut-in 1 − 42.7 ÷ 44.7 = 4.47 %.
/// 45 × 0.2953 = 13.3 gal. With 28 for 42.7: 56.7 % and 37.4 %, 8.7 gal.
#[test]
fn tank_drawdown() {
    let pinned = Pinned {
        family: "pressure-tank/tank-drawdown",
        draws: &[
            (
                "tank",
                "{ row = \"tanks\", where = 'row.volume > 44 gal and row.volume < 46 gal' }",
            ),
            (
                "switch",
                "{ row = \"switches\", where = 'row.name is \"30/50\" | row.name is \"205/345\"' }",
            ),
        ],
        rules: &[],
    };
    let problem = pinned.problem(2, "us", any);
    let right = "right 1; right 1; right 1; right 1; right 1";
    let empty = "not-written 0; not-written 0; not-written 0; not-written 0; not-written 0";
    let all = |last: &str| format!("{right}; {last}");
    let at_end = |name: &str| format!("{empty}; mistake 0 {name}");
    rows(
        &problem,
        Manner::default(),
        &[
            ("42.7; 44.7; 64.7; 34; 4.47; 13.3", &all("right 1")),
            ("42.7; 44.7; 64.7; 34.0 %; 4.5 %; 50.3 L", &all("right 1")),
            (
                "42.7; 44.7; 64.7; 34; 4.47; 13.3 psi",
                &all("unit-of-wrong-kind 0.5"),
            ),
            // 45 × 0.34: down to the last drop. 45 × 20 ÷ 50: by gauge. Boyle by gauge: 16.8.
            ("; ; ; ; ; 15.3", &at_end("down-to-empty")),
            ("; ; ; ; ; 18", &at_end("gauge-ratio")),
            ("; ; ; ; ; 16.8", &at_end("gauge-pressures")),
            ("; ; ; ; ; 45", &at_end("whole-tank")),
            ("; ; ; ; ; 8.7", &at_end("charge-by-gauge")),
            (
                "28; 44.7; 64.7; 56.7; 37.4; 8.7",
                "mistake 0 charge-by-gauge; right 1; right 1; follows 1 by 1; follows 1 by 1; follows 1 by 1",
            ),
            (
                "42.7; 44.7; 64.7; 0.34; 4.47; 13.3",
                "right 1; right 1; right 1; unit-factor 0; right 1; right 1",
            ),
            (
                "; ; ; ; ; 13.3",
                "carried 1 by 6; carried 1 by 6; carried 1 by 6; carried 1 by 6; carried 1 by 6; right 1",
            ),
        ],
    );
}
