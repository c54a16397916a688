//! Cable and motor: a chain of four lines, a pick, and the sheet's own house rules.

use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::{Asks, Problem};

use crate::pinned::Pinned;
use crate::{any, marked, rows};

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
