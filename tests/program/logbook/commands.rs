//! Show, export, import, merge, delete: what they print and what they refuse.

use std::fs;
use std::path::Path;

use pumpwright::logbook::{DraftChange, Logbook};
use pumpwright_engine::entries::{Id, moment};
use pumpwright_engine::learner::{Curriculum, Record, standing};
use pumpwright_screens::Draft;

use super::{add, folder, handed_in, printed, run, text};
use crate::inside::library;
use crate::schema::{held, schema};
use crate::started::{finish, program};

#[test]
fn show_tells_where_somebody_stands_and_the_last_sheets() {
    let library = library();
    let file = folder("show").join("logbook.db");
    add(&file, handed_in(&library, "Ina", 40));
    add(&file, handed_in(&library, "Tomas", 3));
    let shown = printed(&file, &["logbook", "show", "--as", "Ina", "--count", "3"]);
    for words in [
        "Ina: 40 sheets, from 2026-09-21 to 2026-09-26\nin ",
        "\nalso there: Tomas, 3 sheets\n",
        "\nSTANDING: ",
        " kinds of job were not met yet\n",
        "\nLATEST\n  2026-09-26 06:13  ",
    ] {
        assert!(shown.contains(words), "{words} is not in\n{shown}");
    }
    let latest = shown.split("LATEST\n").nth(1).expect("the last sheets");
    assert_eq!(latest.lines().count(), 3, "{shown}");
    assert!(
        shown.lines().all(|line| line.chars().count() <= 120),
        "{shown}"
    );

    let json = printed(&file, &["logbook", "show", "--as", "Ina", "--json"]);
    let value = held(&schema("logbook"), &json);
    assert_eq!(
        (&value["sheets"], &value["person"]),
        (&40.into(), &"Ina".into())
    );
    assert_eq!(value["latest"].as_array().expect("a list").len(), 10);
    assert_eq!(value["standing"].as_array().expect("a list").len(), 7);

    let nobody = printed(&file, &["logbook", "show", "--as", "Zoe"]);
    assert!(nobody.starts_with("Zoe: 0 sheets\n"), "{nobody}");
}

#[test]
fn whose_record_it_is_comes_from_option_then_settings_then_the_machine() {
    let library = library();
    let folder = folder("whose");
    let file = folder.join("logbook.db");
    add(&file, handed_in(&library, "Ina", 2));
    let settings = folder.join("settings.toml");
    fs::write(&settings, "format = 1\nname = \"Ina\"\n").expect("a file");
    let show = ["logbook", "show"];
    let set = finish(
        program(&show)
            .env("PUMPWRIGHT_SETTINGS", &settings)
            .env("PUMPWRIGHT_LOGBOOK", &file),
    );
    assert!(set.out.starts_with("Ina: 2 sheets"), "{}", set.out);
    let user = finish(
        program(&show)
            .env("USER", "tom")
            .env("PUMPWRIGHT_LOGBOOK", &file),
    );
    assert!(
        user.out.starts_with("Ina: 2 sheets"),
        "who alone is there is meant: {}",
        user.out
    );
    add(&file, handed_in(&library, "Bo", 1));
    let one_of_two = finish(
        program(&show)
            .env("USER", "tom")
            .env("PUMPWRIGHT_LOGBOOK", &file),
    );
    assert!(
        one_of_two.out.starts_with("tom: 0 sheets"),
        "{}",
        one_of_two.out
    );
    let named = ["--logbook", text(&file), "logbook", "show", "--as", "Ina"];
    let named = finish(program(&named).env("PUMPWRIGHT_LOGBOOK", "other.db"));
    assert!(named.out.starts_with("Ina: 2 sheets"), "{}", named.out);
    let data = folder.join("data");
    let home = finish(
        program(&show)
            .env_remove("PUMPWRIGHT_LOGBOOK")
            .env("HOME", &folder)
            .env("XDG_DATA_HOME", &data),
    );
    assert_eq!(home.code, 2);
    let expected = data.join("pumpwright").join("logbook.db");
    assert!(home.err.contains(text(&expected)), "{}", home.err);
}

#[test]
fn what_is_exported_and_imported_gives_the_same_standing_to_the_last_digit() {
    let library = library();
    let folder = folder("round");
    let file = folder.join("logbook.db");
    add(&file, handed_in(&library, "Ina", 60));
    add(&file, handed_in(&library, "=Tom", 5));
    let show = |file: &Path| {
        let json = printed(file, &["logbook", "show", "--as", "Ina", "--json"]);
        let mut value: serde_json::Value = serde_json::from_str(&json).expect("JSON");
        value["file"] = "".into();
        // These fall from second to second.
        for family in value["standing"].as_array_mut().expect("a list") {
            for key in ["success", "low", "high", "sure"] {
                let share = family[key].as_f64().expect("a number");
                assert!(share > 0.0 && share < 1.0);
                family[key] = 0.into();
            }
        }
        value
    };
    let curriculum = Curriculum::of(&library);
    let standings = |file: &Path| {
        let logbook = Logbook::there(file).expect("a logbook");
        let record = Record::replay(&curriculum, &logbook.history("Ina").expect("a history"));
        let families = 0..curriculum.families().len();
        let now = moment(1_800_000_000_000, 0);
        let standings = families.map(|family| standing(&record, family, now));
        standings.collect::<Vec<_>>()
    };
    let before = show(&file);
    for form in ["csv", "jsonl"] {
        let export = folder.join(format!("all.{form}"));
        let option = format!("--{form}");
        let said = printed(
            &file,
            &["logbook", "export", &option, text(&export), "--everybody"],
        );
        assert!(said.starts_with("65 sheets written to "), "{said}");
        let fresh = folder.join(format!("{form}.db"));
        let said = printed(&fresh, &["logbook", "import", text(&export)]);
        assert_eq!(said, "65 sheets taken in; 0 there already\n");
        assert_eq!(show(&fresh), before);
        assert_eq!(standings(&fresh), standings(&file));
        let own = |file| Logbook::there(file).expect("there");
        assert_eq!(own(&fresh).sheets(None), own(&file).sheets(None));
        assert_eq!(own(&fresh).history("Ina"), own(&file).history("Ina"));
        let said = printed(&fresh, &["logbook", "import", text(&export)]);
        assert_eq!(said, "0 sheets taken in; 65 there already\n");
    }
    // One person alone, and the file that is there is replaced by one of its kind only.
    let export = folder.join("all.csv");
    let one = ["logbook", "export", "--as", "=Tom", "--csv", text(&export)];
    assert!(printed(&file, &one).starts_with("5 sheets written"));
    let other = folder.join("letter.csv");
    fs::write(&other, "Dear Ina").expect("a file");
    let refused = run(&file, &["logbook", "export", "--csv", text(&other)]);
    assert_eq!(refused.code, 2);
    assert!(
        refused.err.contains("is no export of this program"),
        "{}",
        refused.err
    );
    assert_eq!(fs::read_to_string(&other).expect("the file"), "Dear Ina");
}

#[test]
fn a_file_with_faults_is_refused_whole_with_its_lines() {
    let library = library();
    let folder = folder("faults");
    let (file, fresh) = (folder.join("logbook.db"), folder.join("fresh.db"));
    add(&file, handed_in(&library, "Ina", 3));
    let export = folder.join("ina.jsonl");
    printed(
        &file,
        &["logbook", "export", "--as", "Ina", "--jsonl", text(&export)],
    );
    let good = fs::read_to_string(&export).expect("the export");
    let bad = good.replacen("\"level\":", "\"level\":-", 1) + "no sheet\n";
    fs::write(&export, &bad).expect("a file");
    let refused = run(&fresh, &["logbook", "import", text(&export)]);
    assert_eq!((refused.code, refused.out.as_str()), (2, ""));
    let lines: Vec<&str> = refused.err.lines().collect();
    assert!(lines[0].contains("ina.jsonl, line 1: "), "{lines:?}");
    assert!(lines[1].contains("ina.jsonl, line 4: "), "{lines:?}");
    assert!(lines[2].starts_with("error: nothing of "), "{lines:?}");
    assert!(!fresh.exists(), "nothing is made");
    let missing = run(&fresh, &["logbook", "import", "no-such-file.csv"]);
    assert_eq!(missing.code, 2);
    assert!(
        missing.err.contains("no-such-file.csv cannot be read"),
        "{}",
        missing.err
    );
}

#[test]
fn merging_is_a_union_in_whatever_order() {
    let library = library();
    let folder = folder("merge");
    let all = handed_in(&library, "Ina", 12);
    let (one, two) = (folder.join("one.db"), folder.join("two.db"));
    add(&one, all[..8].to_vec());
    add(&two, all[4..].to_vec());
    let (forth, back) = (folder.join("forth.db"), folder.join("back.db"));
    for (file, order) in [(&forth, [&one, &two]), (&back, [&two, &one])] {
        for other in order {
            printed(file, &["logbook", "merge", text(other)]);
        }
    }
    let sheets = |file| Logbook::there(file).expect("there").sheets(None);
    assert_eq!(sheets(&forth), sheets(&back));
    assert_eq!(sheets(&forth).expect("sheets").len(), 12);
    let said = printed(&forth, &["logbook", "merge", text(&one)]);
    assert_eq!(said, "0 sheets taken in; 8 there already\n");
    let missing = run(&forth, &["logbook", "merge", "no-such.db"]);
    assert_eq!(
        missing.err,
        "error: there is no file no-such.db to take in\n"
    );
    assert_eq!(missing.code, 2);
}

#[test]
fn deleting_without_a_terminal_needs_a_word_and_leaves_the_others() {
    let library = library();
    let file = folder("delete").join("logbook.db");
    add(&file, handed_in(&library, "Ina", 4));
    add(&file, handed_in(&library, "Tomas", 2));
    for (arguments, words) in [
        (&["logbook", "delete"][..], "--as NAME"),
        (
            &["logbook", "delete", "--as", "Ina"],
            "add --without-asking",
        ),
        (
            &["logbook", "delete", "--as", "Zoe", "--without-asking"],
            "there is no record of \"Zoe\" here; there is one of Ina, Tomas",
        ),
    ] {
        let refused = run(&file, arguments);
        assert_eq!(refused.code, 2, "{}", refused.err);
        assert!(refused.err.contains(words), "{}", refused.err);
    }
    let gone = ["logbook", "delete", "--as", "Ina", "--without-asking"];
    assert!(printed(&file, &gone).starts_with("4 sheets of Ina deleted\n"));
    let shown = printed(&file, &["logbook", "show", "--as", "Tomas"]);
    assert!(
        shown.starts_with("Tomas: 2 sheets") && !shown.contains("Ina"),
        "{shown}"
    );
}

#[cfg(unix)]
#[test]
fn deleting_at_a_terminal_asks_twice_and_offers_an_export() {
    use crate::pty::{Session, Start};
    let library = library();
    let folder = folder("delete-asked");
    let file = folder.join("logbook.db");
    let export = folder.join("ina.csv");
    add(&file, handed_in(&library, "Ina", 4));
    let start = || {
        Session::start(&Start {
            arguments: &["logbook", "delete", "--as", "Ina"],
            variables: &[("PUMPWRIGHT_LOGBOOK", text(&file))],
            ..Start::default()
        })
    };
    let mut session = start();
    session.shows("or nothing:");
    session.types("ina.doc\n");
    session.shows("must end with .csv or .jsonl");
    session.types(&format!("{}\n", text(&export)));
    session.shows("4 sheets written to");
    session.types("yes\n");
    session.shows("type the name:");
    session.types("ina\n");
    session.shows("Nothing is deleted.");
    assert!(
        fs::read_to_string(&export)
            .expect("the export")
            .contains(",Ina,")
    );
    assert!(printed(&file, &["logbook", "show", "--as", "Ina"]).contains("4 sheets"));
    let mut session = start();
    session.shows("or nothing:");
    session.types("\n");
    session.shows("yes or no:");
    session.types("yes\n");
    session.shows("type the name:");
    session.types("Ina\n");
    session.shows("4 sheets of Ina deleted");
    let refused = run(&file, &["logbook", "show", "--as", "Ina"]);
    assert!(refused.out.starts_with("Ina: 0 sheets"), "{}", refused.out);
}

/// A half-written sheet of this problem, as the trainer keeps it.
fn half_written(number: u128, code: &str, slot: &str) -> DraftChange {
    let text = serde_json::json!({
        "format": 1, "code": code, "purpose": "practice", "pen": 0, "slots": [slot, "", "", ""],
        "helped": [0, 0, 0, 0], "given": [false, false, false, false], "line_by_line": false,
        "firsts": [], "sums": [], "spent": 9000, "lines_spent": [9000, 0, 0, 0],
    });
    DraftChange::Keep(Draft {
        id: Id::new(1_790_000_000_000, number),
        kind: "sheet".to_owned(),
        text: text.to_string(),
    })
}

#[test]
fn tidy_throws_away_what_cannot_be_laid_out_again_and_nothing_else() {
    let file = folder("tidy").join("logbook.db");
    let problem = printed(&file, &["problem", "cable-drop", "--draw", "5"]);
    let code = problem.lines().nth(1).expect("a code");
    let mut logbook = Logbook::open(&file).expect("a logbook");
    let drafts = [
        half_written(1, code, "548 ft"),
        half_written(2, "pump-hoist.2us.35ATHJY.F0R7J", "1 1/2 t"),
    ];
    let write = logbook.write(&[], "Ina", &drafts, 1_790_000_000_000);
    write.expect("room");
    logbook.close().expect("closed");
    let tidy = ["logbook", "tidy", "--as", "Ina"];
    assert_eq!(
        printed(&file, &tidy),
        "  pump-hoist.2us.35ATHJY.F0R7J: 1 1/2 t\n1 draft is thrown away\n"
    );
    let kept = Logbook::open(&file).expect("a logbook");
    let kept = kept.drafts("Ina").expect("drafts");
    assert!(kept.len() == 1 && kept[0].text.contains(code), "{kept:?}");
    assert_eq!(
        printed(&file, &tidy),
        "nothing is thrown away: everything half-written can be laid out again\n"
    );
}
