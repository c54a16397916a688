//! Damaged files: cut short, a page overwritten, a sheet changed, the head gone. What
//! is whole is kept, what is lost is said, the damaged file stays as it was.

use super::*;
use crate::logbook::examine::examine;
use crate::logbook::testing::{Folder, sheet};

const SHEETS: u32 = 120;
const PAGE: usize = 8192;

/// A logbook of many sheets, closed; the bytes of its file.
fn filled(path: &Path) -> Vec<u8> {
    let mut logbook = Logbook::open(path).unwrap();
    for number in 0..SHEETS {
        let person = if number % 3 == 0 { "Tom" } else { "Ina" };
        logbook
            .add(&[Sheet::of(sheet(person, number)).unwrap()])
            .unwrap();
    }
    let draft = Draft {
        id: Id::of_number(9),
        kind: "sheet".to_owned(),
        text: "half".to_owned(),
    };
    logbook
        .write(&[], "Ina", &[DraftChange::Keep(draft)], 1)
        .unwrap();
    logbook.close().unwrap();
    fs::read(path).unwrap()
}

/// Where a text stands in the file.
fn place(bytes: &[u8], text: &str) -> usize {
    let text = text.as_bytes();
    bytes
        .windows(text.len())
        .position(|window| window == text)
        .unwrap()
}

/// Damages a filled logbook, finds it, salvages it.
fn damaged(name: &str, damage: impl Fn(&mut Vec<u8>)) -> (Salvaged, Logbook) {
    let folder = Folder::new(name);
    let path = folder.path("logbook.db");
    let mut bytes = filled(&path);
    assert_eq!(examine(&path).unwrap().findings, [""; 0]);
    damage(&mut bytes);
    fs::write(&path, &bytes).unwrap();
    let findings = examine(&path).unwrap().findings;
    assert!(!findings.is_empty());
    let salvaged = salvage(&path).unwrap();
    assert_eq!(salvaged.aside, folder.path("logbook.damaged.db"));
    assert!(
        fs::read(&salvaged.aside).unwrap() == bytes,
        "it stays as it was"
    );
    let examined = examine(&path).unwrap();
    assert_eq!(examined.findings, [""; 0]);
    assert_eq!(examined.sheets, salvaged.sheets + salvaged.remains.len());
    let logbook = Logbook::existing(&path).unwrap();
    let again = logbook.persons().unwrap();
    assert_eq!(again.len(), 2, "{again:?}");
    (salvaged, logbook)
}

#[test]
fn a_changed_sheet_leaves_what_the_model_reads() {
    let (salvaged, logbook) = damaged("salvage-changed", |bytes| {
        let at = place(bytes, "\"typed\":\"77.5 V");
        bytes[at + 10] = b'9';
    });
    assert_eq!(salvaged.sheets, SHEETS as usize - 1);
    assert_eq!((salvaged.gone, salvaged.drafts), (Some(0), 1));
    let [remains] = &salvaged.remains[..] else {
        panic!("{:?}", salvaged.remains);
    };
    assert_eq!(remains.code, "cable-drop.2us.77");
    // The standing is the same as before.
    let whole: Vec<Entry> = (0..SHEETS).map(|number| sheet("Ina", number)).collect();
    let own = whole.iter().enumerate().filter(|(at, _)| at % 3 != 0);
    let own = own.map(|(_, entry)| entry.response()).collect();
    assert_eq!(logbook.history("Ina").unwrap(), own);
    // The whole sheet from elsewhere takes the place of what was left.
    let mut logbook = logbook;
    let sheet = Sheet::of(whole[77].clone()).unwrap();
    logbook.add(std::slice::from_ref(&sheet)).unwrap();
    assert!(logbook.sheets(None).unwrap().contains(&sheet));
}

#[test]
fn a_page_that_was_overwritten_costs_no_other() {
    for page in 1..8 {
        let (salvaged, _) = damaged(&format!("salvage-page-{page}"), |bytes| {
            bytes[page * PAGE..(page + 1) * PAGE].fill(0x5a);
        });
        let there = salvaged.sheets + salvaged.remains.len();
        let most = SHEETS as usize;
        let told = salvaged.gone.is_none_or(|gone| there + gone >= most);
        assert!(told, "page {page}: {salvaged:?}");
        // Never more than there were: what cannot be told is not guessed.
        let told = salvaged.gone.is_none_or(|gone| there + gone <= most + 1);
        assert!(told, "page {page}: {salvaged:?}");
        assert!(
            salvaged.sheets >= most - 10,
            "page {page}: {}",
            salvaged.sheets
        );
    }
}

#[test]
fn a_file_cut_short_keeps_what_is_before_the_cut() {
    let (salvaged, _) = damaged("salvage-cut", |bytes| {
        let half = bytes.len() / 2 / PAGE * PAGE + 100;
        bytes.truncate(half);
    });
    let whole = salvaged.sheets;
    assert!(
        whole >= SHEETS as usize / 3 && whole < SHEETS as usize,
        "{whole}"
    );
}

#[test]
fn a_file_without_its_head_is_read_from_its_bytes() {
    let (salvaged, _) = damaged("salvage-head", |bytes| bytes[..PAGE].fill(0));
    assert_eq!(salvaged.sheets, SHEETS as usize);
    assert_eq!(salvaged.gone, None, "nothing tells how many there were");
}

#[test]
fn what_only_stands_in_the_log_is_kept() {
    let folder = Folder::new("salvage-log");
    let (path, copy) = (folder.path("logbook.db"), folder.path("copy.db"));
    let mut logbook = Logbook::open(&path).unwrap();
    logbook.add(&[Sheet::of(sheet("Ina", 1)).unwrap()]).unwrap();
    // As a killed program leaves it: the file without its head, the log beside it.
    fs::write(&copy, [0; PAGE]).unwrap();
    fs::copy(&beside::companions(&path)[0], &beside::companions(&copy)[0]).unwrap();
    let salvaged = salvage(&copy).unwrap();
    assert_eq!(salvaged.sheets, 1);
    assert!(folder.path("copy.damaged.db-wal").exists());
    assert_eq!(
        Logbook::reading(&copy).unwrap().sheets(None).unwrap().len(),
        1
    );
}

#[test]
fn what_is_no_logbook_is_left_where_it_is() {
    let folder = Folder::new("salvage-foreign");
    let path = folder.path("letter.txt");
    let text = "Dear Ina, the pump is in. ".repeat(99);
    fs::write(&path, &text).unwrap();
    assert_eq!(examine(&path).unwrap_err().kind, Kind::Foreign);
    let trouble = salvage(&path).unwrap_err();
    assert_eq!(trouble.kind, Kind::Foreign);
    assert_eq!(fs::read_to_string(&path).unwrap(), text);
    assert_eq!(fs::read_dir(folder.path("")).unwrap().count(), 1);
}

#[test]
fn while_another_program_has_it_open_nothing_is_moved() {
    let folder = Folder::new("salvage-busy");
    let path = folder.path("logbook.db");
    filled(&path);
    let open = Logbook::open(&path).unwrap();
    open.persons().unwrap();
    assert_eq!(salvage(&path).unwrap_err().kind, Kind::Busy);
    drop(open);
    assert!(salvage(&path).is_ok());
}
