//! The file as a set: adding in any order gives the same, reading gives what the
//! entries say, a full disk loses nothing, and a schema of before is read.

use std::path::Path;

use proptest::prelude::*;
use pumpwright_engine::entries::Entry;

use super::*;
use crate::logbook::testing::{Folder, any_entry, sheet};

fn sheets(entries: impl IntoIterator<Item = Entry>) -> Vec<Sheet> {
    entries
        .into_iter()
        .map(|entry| Sheet::of(entry).unwrap())
        .collect()
}

fn draft(number: u128, text: &str) -> Draft {
    Draft {
        id: Id::of_number(number),
        kind: "sheet".to_owned(),
        text: text.to_owned(),
    }
}

/// A logbook in memory: the disk is slow, and these tests open hundreds.
fn in_memory() -> Logbook {
    let mut connection = Connection::open_in_memory().unwrap();
    let path = Path::new("memory");
    schema::migrate(&mut connection, path, &STEPS).unwrap();
    Logbook {
        path: path.to_owned(),
        connection,
        notices: Vec::new(),
    }
}

fn persons(all: &[Sheet]) -> Vec<String> {
    let mut persons: Vec<String> = all.iter().map(|sheet| sheet.entry.person.clone()).collect();
    persons.sort();
    persons.dedup();
    persons
}

#[test]
fn what_was_added_is_there_when_it_is_opened_again() {
    let folder = Folder::new("store");
    let path = folder.path("logbook.db");
    let entries = sheets([sheet("Ina", 2), sheet("Ina", 1), sheet("Tom", 3)]);
    let mut logbook = Logbook::open(&path).unwrap();
    assert_eq!(logbook.add(&entries).unwrap().new, 3);
    assert_eq!(logbook.add(&entries).unwrap().known, 3);
    drop(logbook);
    let logbook = Logbook::reading(&path).unwrap();
    let ina = logbook.sheets(Some("Ina")).unwrap();
    assert_eq!(ina, [entries[1].clone(), entries[0].clone()]);
    assert_eq!(logbook.sheets(None).unwrap().len(), 3);
    assert_eq!(logbook.latest("Ina", 1).unwrap(), entries[..1]);
    assert_eq!(
        logbook.persons().unwrap(),
        [("Ina".to_owned(), 2), ("Tom".to_owned(), 1)]
    );
    assert_eq!(
        Logbook::existing(&folder.path("no.db")).unwrap_err().kind,
        Kind::Missing
    );
}

#[test]
fn drafts_are_replaced_in_place_and_go_with_their_sheet() {
    let mut logbook = in_memory();
    let done = sheet("Ina", 1);
    let id = done.id.number();
    for (at, text) in [(0, "a"), (1, "ab")] {
        let changes = [
            DraftChange::Keep(draft(id, text)),
            DraftChange::Keep(draft(7, "other")),
        ];
        logbook.write(&[], "Ina", &changes, at).unwrap();
    }
    logbook
        .write(&[], "Tom", &[DraftChange::Keep(draft(8, "his"))], 9)
        .unwrap();
    assert_eq!(
        logbook.drafts("Ina").unwrap(),
        [draft(id, "ab"), draft(7, "other")]
    );
    logbook.add(&sheets([done])).unwrap();
    assert_eq!(logbook.drafts("Ina").unwrap(), [draft(7, "other")]);
    logbook
        .write(&[], "Ina", &[DraftChange::Drop(Id::of_number(7))], 9)
        .unwrap();
    assert_eq!(logbook.drafts("Ina").unwrap(), []);
    assert_eq!(logbook.drafts("Tom").unwrap(), [draft(8, "his")]);
}

#[test]
fn what_is_deleted_is_gone_from_the_file_and_the_others_stay() {
    let folder = Folder::new("delete");
    let path = folder.path("logbook.db");
    let mut logbook = Logbook::open(&path).unwrap();
    let mut secret = sheet("Tom", 1);
    secret.lines[0].typed = "nobody else may read this".to_owned();
    logbook.add(&sheets([secret, sheet("Ina", 2)])).unwrap();
    logbook
        .write(
            &[],
            "Tom",
            &[DraftChange::Keep(draft(8, "half a secret"))],
            9,
        )
        .unwrap();
    assert_eq!(logbook.delete("Tom"), Ok(1));
    assert_eq!(logbook.delete("Tom"), Ok(0));
    assert_eq!(logbook.persons().unwrap(), [("Ina".to_owned(), 1)]);
    drop(logbook);
    let bytes = std::fs::read(&path).unwrap();
    let text = String::from_utf8_lossy(&bytes);
    assert!(!text.contains("nobody else") && !text.contains("half a secret"));
    assert!(text.contains("Volts lost"));
}

#[test]
fn a_full_disk_is_said_and_what_was_kept_stays() {
    let folder = Folder::new("full");
    let mut logbook = Logbook::open(&folder.path("logbook.db")).unwrap();
    let first = sheets((0..20).map(|number| sheet("Ina", number)));
    logbook.add(&first).unwrap();
    let full = |logbook: &Logbook, pages: u32| {
        let limit = format!("PRAGMA max_page_count = {pages}");
        logbook
            .connection
            .query_row(&limit, [], |_| Ok(()))
            .unwrap();
    };
    full(&logbook, 1);
    let more = sheets((20..60).map(|number| sheet("Ina", number)));
    let trouble = logbook.add(&more).unwrap_err();
    assert_eq!(trouble.kind, Kind::Full);
    assert!(
        trouble.to_string().contains("the disk is full"),
        "{trouble}"
    );
    assert_eq!(logbook.sheets(None).unwrap(), first);
    full(&logbook, 100_000);
    assert_eq!(logbook.add(&more).unwrap().new, 40);
}

#[test]
fn another_program_that_does_not_let_go_is_said() {
    let folder = Folder::new("busy");
    let path = folder.path("logbook.db");
    let mut logbook = Logbook::open(&path).unwrap();
    let other = Logbook::open(&path).unwrap();
    logbook
        .connection
        .pragma_update(None, "busy_timeout", 10)
        .unwrap();
    other.connection.execute_batch("BEGIN IMMEDIATE").unwrap();
    let trouble = logbook.add(&sheets([sheet("Ina", 1)])).unwrap_err();
    assert_eq!(trouble.kind, Kind::Busy);
    other.connection.execute_batch("COMMIT").unwrap();
    assert_eq!(logbook.add(&sheets([sheet("Ina", 1)])).unwrap().new, 1);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn the_file_gives_the_history_that_the_entries_give(
        entries in prop::collection::vec(any_entry(), 0..8),
    ) {
        let mut logbook = in_memory();
        let all = sheets(entries);
        logbook.add(&all).unwrap();
        let kept = logbook.sheets(None).unwrap();
        for person in persons(&all) {
            let own = kept.iter().filter(|sheet| sheet.entry.person == person);
            let history: History = own.map(|sheet| sheet.entry.response()).collect();
            prop_assert_eq!(logbook.history(&person).unwrap(), history);
        }
    }

    #[test]
    fn a_union_is_the_same_in_any_order(
        one in prop::collection::vec(any_entry(), 0..6),
        other in prop::collection::vec(any_entry(), 0..6),
    ) {
        let (one, other) = (sheets(one), sheets(other));
        let mut forth = in_memory();
        forth.add(&one).unwrap();
        forth.add(&other).unwrap();
        let mut back = in_memory();
        for sheet in other.iter().chain(&one).rev() {
            back.add(std::slice::from_ref(sheet)).unwrap();
        }
        prop_assert_eq!(forth.sheets(None).unwrap(), back.sheets(None).unwrap());
        let again = forth.add(&one).unwrap();
        prop_assert_eq!(again.new, 0);
        prop_assert_eq!(forth.sheets(None).unwrap(), back.sheets(None).unwrap());
    }

    #[test]
    fn the_history_of_a_union_is_the_union_of_the_histories(
        one in prop::collection::vec(any_entry(), 0..6),
        other in prop::collection::vec(any_entry(), 0..6),
    ) {
        let ina = |mut entries: Vec<Entry>| {
            for entry in &mut entries {
                "Ina".clone_into(&mut entry.person);
            }
            sheets(entries)
        };
        let (one, other) = (ina(one), ina(other));
        let of = |sheets: &[Sheet]| {
            let mut logbook = in_memory();
            logbook.add(sheets).unwrap();
            logbook.history("Ina").unwrap()
        };
        let union = of(&[one.clone(), other.clone()].concat());
        prop_assert_eq!(union, of(&one).merged(of(&other)));
    }
}
