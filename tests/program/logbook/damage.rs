//! Damaged files, other files, a full disk: a clear sentence, and nothing is lost.

use std::fs;

use super::{add, folder, handed_in, printed, run, text};
use crate::inside::library;

#[test]
fn check_finds_nothing_in_a_sound_logbook_and_says_what_is_there() {
    let library = library();
    let file = folder("check").join("logbook.db");
    let none = run(&file, &["logbook", "check"]);
    assert_eq!(none.code, 2);
    assert!(none.err.contains("there is no logbook"), "{}", none.err);
    add(&file, handed_in(&library, "Ina", 5));
    let said = printed(&file, &["logbook", "check"]);
    assert!(
        said.ends_with("nothing is wrong. 5 sheets of 1 person, 0 half written\n"),
        "{said}"
    );
}

#[test]
fn a_damaged_file_is_moved_aside_and_what_is_readable_is_kept() {
    let library = library();
    let folder = folder("damaged");
    let file = folder.join("logbook.db");
    add(&file, handed_in(&library, "Ina", 60));
    let mut bytes = fs::read(&file).expect("the file");
    // The page in the middle, of those that hold sheets.
    let begins = b"{\"format\":1,";
    let places = (0..bytes.len() - begins.len()).filter(|at| bytes[*at..].starts_with(begins));
    let places: Vec<usize> = places.collect();
    let page = places[places.len() / 2] / 8192;
    bytes[page * 8192..(page + 1) * 8192].fill(0x5a);
    fs::write(&file, &bytes).expect("a file");
    let checked = run(&file, &["logbook", "check"]);
    assert_eq!(checked.code, 1, "{}", checked.err);
    let aside = folder.join("logbook.damaged.db");
    for words in [
        "is damaged:",
        "logbook.damaged.db, as it",
        "In its place",
        "only right and wrong",
    ] {
        let flat = checked.out.replace('\n', " ");
        assert!(flat.contains(words), "{words} is not in\n{}", checked.out);
    }
    assert!(fs::read(&aside).expect("the damaged file") == bytes);
    let said = printed(&file, &["logbook", "check"]);
    assert!(said.contains("nothing is wrong. 60 sheets"), "{said}");
    let shown = printed(&file, &["logbook", "show", "--as", "Ina"]);
    assert!(shown.starts_with("Ina: 60 sheets"), "{shown}");
}

/// Where the file does not tell any more how many sheets there were, none is counted as lost.
#[test]
fn what_a_small_file_cannot_tell_is_not_guessed() {
    let folder = folder("damaged-small");
    let file = folder.join("logbook.db");
    add(&file, handed_in(&library(), "Ina", 2));
    let mut bytes = fs::read(&file).expect("the file");
    bytes[..100].fill(0);
    fs::write(&file, &bytes).expect("a file");
    let checked = run(&file, &["logbook", "check"]);
    assert_eq!(checked.code, 1, "{}", checked.err);
    let flat = checked.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("what could be read: 2 sheets, 0 half written."),
        "{flat}"
    );
    assert!(
        flat.ends_with(
            "Whether more sheets stood in it cannot be read there any more. A copy of the logbook from elsewhere brings back what is missing: pumpwright logbook merge FILE"
        ),
        "{flat}"
    );
}

#[test]
fn other_files_and_newer_ones_are_refused_and_left_alone() {
    let folder = folder("others");
    let letter = folder.join("letter.txt");
    let words = "Dear Ina, the pump is in and runs. ".repeat(300);
    fs::write(&letter, &words).expect("a file");
    let newer = folder.join("newer.db");
    add(&newer, handed_in(&library(), "Ina", 2));
    let connection = rusqlite::Connection::open(&newer).expect("the file");
    connection
        .pragma_update(None, "user_version", 99)
        .expect("a newer version");
    drop(connection);
    let before = fs::read(&newer).expect("the file");
    for arguments in [
        &["logbook", "show", "--as", "Ina"][..],
        &["logbook", "check"],
        &["logbook", "export", "--csv", "out.csv"],
        &["logbook", "merge", text(&newer)],
        &["logbook", "delete", "--as", "Ina", "--without-asking"],
    ] {
        let refused = run(&newer, arguments);
        assert_eq!(refused.code, 3, "{arguments:?}: {}", refused.err);
        assert!(
            refused.err.contains("written by a newer pumpwright"),
            "{}",
            refused.err
        );
        if arguments[1] != "merge" {
            let refused = run(&letter, arguments);
            assert!(
                matches!(refused.code, 1 | 3),
                "{arguments:?}: {}",
                refused.err
            );
            assert!(refused.err.contains("letter.txt"), "{}", refused.err);
            if arguments[1] == "check" {
                // It must not send one to itself.
                assert_eq!(refused.code, 3, "{}", refused.out);
                assert!(refused.err.contains("is no logbook"), "{}", refused.err);
                let said = refused.out + &refused.err;
                assert!(!said.contains("logbook check"), "{said}");
            }
        }
    }
    assert!(fs::read(&newer).expect("the file") == before);
    assert_eq!(fs::read_to_string(&letter).expect("the file"), words);
    let mut names: Vec<_> = fs::read_dir(&folder)
        .expect("the folder")
        .map(|entry| entry.expect("an entry").file_name())
        .collect();
    names.sort();
    assert_eq!(names, ["letter.txt", "newer.db"]);
}

/// Only a debug build takes the limit from its environment.
#[cfg(debug_assertions)]
#[test]
fn a_full_disk_is_said_and_nothing_is_lost() {
    use crate::started::{finish, program};
    let library = library();
    let folder = folder("full");
    let (file, more) = (folder.join("logbook.db"), folder.join("more.jsonl"));
    let source = folder.join("source.db");
    add(&file, handed_in(&library, "Ina", 20));
    add(&source, handed_in(&library, "Ina", 200));
    printed(
        &source,
        &["logbook", "export", "--as", "Ina", "--jsonl", text(&more)],
    );
    let import = ["logbook", "import", text(&more)];
    let full = finish(
        program(&import)
            .env("PUMPWRIGHT_LOGBOOK", &file)
            .env("PUMPWRIGHT_TEST_PAGES", "12"),
    );
    assert_eq!((full.code, full.out.as_str()), (3, ""));
    for words in [
        "the disk is full",
        "Free some space",
        "what was kept before is safe",
    ] {
        assert!(full.err.contains(words), "{}", full.err);
    }
    let said = printed(&file, &["logbook", "check"]);
    assert!(said.contains("nothing is wrong. 20 sheets"), "{said}");
    assert_eq!(
        printed(&file, &import),
        "180 sheets taken in; 20 there already\n"
    );
}
