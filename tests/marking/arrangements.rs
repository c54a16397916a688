//! Orders and matches: the share of what is right, and what ends the item.

use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::{Asks, Problem};

use crate::pinned::Pinned;
use crate::{marked, rows, short};

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
