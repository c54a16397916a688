//! Wrong plans, each beside the whole message that its author reads.
//!
//! `PUMPWRIGHT_BLESS=1` writes the messages anew; read each of them as an instructor
//! would before it is committed.

use std::collections::BTreeSet;

use pumpwright_engine::classes::plan::{self, is_plan};
use pumpwright_engine::lessons::Library;

use crate::common::{bless, root, texts};
use crate::support::{FILES, PLAN, source};

#[test]
fn every_wrong_plan_has_its_message() {
    let folder = root().join("tests/bad_plans");
    let (library, _) = Library::read(&FILES);
    let mut off = Vec::new();
    let mut seen = BTreeSet::new();
    for wrong in texts(&folder, "toml") {
        let Err(faults) = plan::read(&mut library.clone(), &wrong) else {
            panic!("{} is read without a fault", wrong.path)
        };
        for fault in &faults {
            assert!(
                fault
                    .remedy
                    .as_ref()
                    .is_some_and(|remedy| !remedy.is_empty()),
                "no remedy for {fault}"
            );
        }
        let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
        let said = said.join("\n\n") + "\n";
        let beside = folder.join(&wrong.path).with_extension("txt");
        seen.insert(beside.clone());
        if bless() {
            std::fs::write(&beside, &said).expect("a file to write");
            continue;
        }
        let expected = std::fs::read_to_string(&beside).unwrap_or_default();
        if expected.replace("\r\n", "\n") != said {
            off.push(format!(
                "== {}\n-- expected\n{expected}-- said\n{said}",
                wrong.path
            ));
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
    assert!(seen.len() > 25, "wrong plans went missing");
    for text in texts(&folder, "txt") {
        assert!(
            seen.contains(&folder.join(&text.path)),
            "{} has no plan beside it",
            text.path
        );
    }
}

#[test]
fn a_plan_is_known_by_its_first_lines() {
    assert!(is_plan(PLAN) && is_plan(plan::NEW) && is_plan("\u{feff}plan = 1"));
    assert!(!is_plan("[[item]]\nplan = 1") && !is_plan("planned = 1") && !is_plan(""));
}

#[test]
fn sums_are_those_of_the_items() {
    let (mut library, _) = Library::read(&FILES);
    let plan = plan::read(&mut library, &source(PLAN)).unwrap();
    assert_eq!(plan.count(), 10);
    assert_eq!(plan.places().count(), 10);
    let pass = plan.pass_marks().unwrap().number();
    let least = f64::from(plan.marks()) * 0.7;
    assert!(pass >= least && pass < least + 0.5, "{pass} {least}");
    assert!(plan.minutes() >= 20);
    // The plan's own figure of a house rule is drawn with.
    let text = PLAN.replace("2.5 | 17", "2.5 | 16");
    assert!(plan::read(&mut library, &source(&text)).is_ok());
}
