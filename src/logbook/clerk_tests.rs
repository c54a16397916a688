//! The clerk: receipts only after the commit, drafts within a second, and practice
//! that goes on where nothing can be written.

use std::time::{Duration, Instant};

use super::*;
use crate::logbook::store::Logbook;
use crate::logbook::testing::{Folder, sheet};

/// Long enough for a slow disk.
const LONG: Duration = Duration::from_secs(20);

fn until<T>(what: &str, mut look: impl FnMut() -> Option<T>) -> T {
    let end = Instant::now() + LONG;
    loop {
        if let Some(found) = look() {
            return found;
        }
        assert!(Instant::now() < end, "{what} did not come");
        thread::sleep(Duration::from_millis(2));
    }
}

fn draft(number: u128, text: &str) -> Draft {
    Draft {
        id: Id::of_number(number),
        kind: "sheet".to_owned(),
        text: text.to_owned(),
    }
}

#[test]
fn a_receipt_comes_when_it_is_on_the_disk() {
    let folder = Folder::new("clerk");
    let path = folder.path("logbook.db");
    let mut clerk = FileClerk::open(Some(&path), "Ina");
    assert!(clerk.keeps() && clerk.history().is_empty());
    for number in 0..5 {
        let entry = sheet("Ina", number);
        let id = entry.id;
        clerk.hand_in(entry);
        assert_eq!(clerk.history().len(), number as usize + 1);
        let receipt = until("the receipt", || clerk.receipt());
        assert_eq!(receipt, Receipt::Kept(id));
        let there = Logbook::reading(&path).unwrap().history("Ina").unwrap();
        assert_eq!(there, *clerk.history());
    }
    let unsaid = clerk.unsaid();
    drop(clerk);
    assert_eq!(unsaid.next(), None);
}

#[test]
fn what_is_handed_in_last_is_written_before_the_clerk_is_gone() {
    let folder = Folder::new("clerk-stop");
    let path = folder.path("logbook.db");
    let mut clerk = FileClerk::open(Some(&path), "Ina");
    clerk.hand_in(sheet("Ina", 1));
    clerk.keep(draft(1, "half"));
    drop(clerk);
    let clerk = FileClerk::open(Some(&path), "Ina");
    assert_eq!(clerk.history().len(), 1);
    assert_eq!(clerk.drafts(), [draft(1, "half")]);
}

#[test]
fn drafts_are_kept_within_a_second_and_not_at_every_stroke() {
    let folder = Folder::new("clerk-drafts");
    let path = folder.path("logbook.db");
    let mut clerk = FileClerk::open(Some(&path), "Ina");
    let logbook = Logbook::open(&path).unwrap();
    let mut seen = Vec::new();
    let start = Instant::now();
    for number in 0..150 {
        clerk.keep(draft(1, &number.to_string()));
        thread::sleep(Duration::from_millis(10));
        let there = logbook.drafts("Ina").unwrap();
        if seen.last() != Some(&there) {
            seen.push(there);
        }
    }
    let seconds = start.elapsed().as_secs_f64();
    let most = (seconds / 0.7) as usize + 2;
    assert!(
        seen.len() >= 2 && seen.len() <= most,
        "{seen:?} in {seconds} s"
    );
    clerk.drop_draft(Id::of_number(1));
    until("the end of the draft", || {
        logbook.drafts("Ina").unwrap().is_empty().then_some(())
    });
}

#[test]
fn each_person_has_their_own_record() {
    let folder = Folder::new("clerk-persons");
    let path = folder.path("logbook.db");
    let mut clerk = FileClerk::open(Some(&path), "Ina");
    clerk.hand_in(sheet("Ina", 1));
    clerk.keep(draft(1, "hers"));
    clerk.is_for("Tom");
    assert_eq!(clerk.person(), "Tom");
    assert!(clerk.history().is_empty() && clerk.drafts().is_empty());
    clerk.hand_in(sheet("Tom", 2));
    clerk.hand_in(sheet("Tom", 3));
    clerk.is_for("Ina");
    until("her record", || {
        let _ = clerk.news();
        (clerk.history().len() == 1).then_some(())
    });
    assert_eq!(clerk.drafts(), [draft(1, "hers")]);
}

#[test]
fn a_file_that_cannot_be_used_is_said_and_practice_goes_on() {
    let folder = Folder::new("clerk-unusable");
    std::fs::write(
        folder.path("text"),
        "no database, but a long text. ".repeat(99),
    )
    .unwrap();
    std::fs::write(folder.path("file"), "").unwrap();
    let paths = [
        (Some(folder.path("text")), "is damaged"),
        (Some(folder.path("file/logbook.db")), "cannot be written"),
        (Some(folder.path("")), "is no logbook"),
        (None, "names no folder for data"),
    ];
    for (path, words) in paths {
        let mut clerk = FileClerk::open(path.as_deref(), "Ina");
        assert!(!clerk.keeps());
        let sentence = clerk.news().unwrap();
        assert!(sentence.contains(words), "{sentence}");
        let entry = sheet("Ina", 1);
        let id = entry.id;
        clerk.hand_in(entry);
        clerk.keep(draft(1, "half"));
        let receipt = clerk.receipt().unwrap();
        assert!(matches!(receipt, Receipt::NotKept(other, _) if other == id));
        clerk.go_on_without();
        clerk.hand_in(sheet("Ina", 2));
        assert_eq!((clerk.receipt(), clerk.history().len()), (None, 2));
    }
    let text = std::fs::read_to_string(folder.path("text")).unwrap();
    assert!(text.starts_with("no database"), "it is left as it is");
}

#[test]
fn what_was_refused_is_written_when_it_can_be_again() {
    let folder = Folder::new("clerk-full");
    let path = folder.path("logbook.db");
    let mut clerk = FileClerk::open(Some(&path), "Ina");
    let other = Logbook::open(&path).unwrap();
    // The file is held until the writer gives up; then it is let go.
    other.connection.execute_batch("BEGIN IMMEDIATE").unwrap();
    let (one, two) = (sheet("Ina", 1), sheet("Ina", 2));
    let ids = [one.id, two.id];
    clerk.hand_in(one);
    let receipt = until("the refusal", || clerk.receipt());
    assert!(
        matches!(receipt, Receipt::NotKept(id, _) if id == ids[0]),
        "{receipt:?}"
    );
    assert!(clerk.keeps());
    other.connection.execute_batch("COMMIT").unwrap();
    clerk.hand_in(two);
    for id in ids {
        assert_eq!(until("a receipt", || clerk.receipt()), Receipt::Kept(id));
    }
    assert_eq!(other.history("Ina").unwrap().len(), 2);
}

#[test]
fn going_on_without_writes_nothing_more() {
    let folder = Folder::new("clerk-without");
    let path = folder.path("logbook.db");
    let mut clerk = FileClerk::open(Some(&path), "Ina");
    clerk.hand_in(sheet("Ina", 1));
    clerk.go_on_without();
    assert!(!clerk.keeps());
    clerk.hand_in(sheet("Ina", 2));
    clerk.keep(draft(1, "half"));
    assert_eq!(clerk.history().len(), 2);
    assert_eq!(clerk.receipt(), None);
    drop(clerk);
    let clerk = FileClerk::open(Some(&path), "Ina");
    assert_eq!(clerk.history().len(), 1);
    assert!(clerk.drafts().is_empty());
}
