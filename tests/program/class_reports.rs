//! A class's report from outside: what cannot be read or written has a line of its own and
//! stops nothing else, and rows of several plans are told apart.

use std::fs;

use crate::class_folder::ClassFolder;
use crate::started::{Run, printed, run};

const PLAN: &str = r#"format = 1
plan = "week-6"
title = "Week 6"
date = "2026-11-18"

[[item]]
family = "psi-to-feet"
"#;

const LIST: &str = "name\nAsh\nBirch\nCole\n";

/// A class of three, with papers of one plan.
fn class(name: &str) -> ClassFolder {
    let class = ClassFolder::new(name, PLAN, LIST);
    assign(&class, PLAN);
    class
}

/// Papers of a plan for the class.
fn assign(class: &ClassFolder, plan: &str) {
    let path = class.at("plan.toml");
    fs::write(&path, plan).expect("a plan");
    let (list, out) = (class.at("list.csv"), class.at("class"));
    printed(&[
        "assign", &path, "--roster", &list, "--out", &out, "--no-pdf",
    ]);
}

/// Marks what was typed for papers of a plan.
fn mark(class: &ClassFolder, plan: &str, typed: &str) -> Run {
    let (folder, file) = (class.at(&format!("class/{plan}")), class.at("typed.csv"));
    fs::write(&file, typed).expect("answers");
    run(&["mark", &folder, "--answers", &file, "--no-pdf"])
}

/// What a run said beside its output, without the place of the folder.
fn said(class: &ClassFolder, run: &Run) -> String {
    run.err.replace(class.path(), "HERE")
}

const TYPED: &str = "paper,1.1\n001,17\n002,3\n";

#[test]
fn a_file_that_is_not_ours_is_told_and_the_others_are_written() {
    let class = class("report-foreign");
    let foreign = "<p>my own page</p>";
    fs::write(class.at("class/week-6/report.html"), foreign).expect("a page");
    let marked = mark(&class, "week-6", TYPED);
    assert_eq!(
        (marked.code, said(&class, &marked)),
        (
            1,
            "note: HERE/class/week-6/report.html is there and is no class report of this program; \
             name another file\n"
                .to_owned()
        )
    );
    let page = fs::read_to_string(class.at("class/week-6/report.html")).expect("the page");
    assert_eq!(page, foreign);
    for name in ["marks.csv", "report.csv"] {
        let written = format!("{} is written\n", class.at(&format!("class/week-6/{name}")));
        assert!(marked.out.contains(&written), "{name}: {}", marked.out);
    }
    // So it is with each of them.
    fs::write(class.at("class/week-6/marks.csv"), "mine").expect("a table");
    fs::remove_file(class.at("class/week-6/report.html")).expect("removed");
    let marked = mark(&class, "week-6", TYPED);
    assert_eq!(marked.code, 1);
    assert!(
        said(&class, &marked).ends_with(
            "note: HERE/class/week-6/marks.csv is there and is no mark sheet of this program; \
             name another file\n"
        ),
        "{}",
        marked.err
    );
    assert!(marked.out.contains("report.html is written\n"));
}

#[test]
fn what_cannot_be_read_is_told_and_the_rest_is_reported() {
    let class = class("report-unreadable");
    assert_eq!(mark(&class, "week-6", TYPED).code, 0);
    fs::write(class.at("class/week-6/printed/003.json"), "{").expect("a record");
    fs::write(class.at("class/week-6/handed-in/002.json"), "{\"form").expect("a hand-in");
    let folder = class.at("class");
    let report = run(&["report", &folder]);
    let told = said(&class, &report);
    assert_eq!(report.code, 1, "{told}");
    let lines: Vec<&str> = told.lines().collect();
    assert_eq!(lines.len(), 2, "{told}");
    for (line, name) in lines.iter().zip(["printed/003.json", "handed-in/002.json"]) {
        let begins = format!("note: HERE/class/week-6/{name} ");
        assert!(line.starts_with(&begins), "{line}");
    }
    assert!(
        report
            .out
            .starts_with("Class report: Week 6\nclass  week-6  2026-11-18  1 of 2 in\n"),
        "{}",
        report.out
    );
    let next = class.at("next.toml");
    let _ = fs::remove_file(&next);
    let planned = run(&["plan", "new", "--from", &folder, &next]);
    assert_eq!((planned.code, said(&class, &planned)), (1, told));
    assert!(printed(&["check", &next]).contains("plan week-7: "));
}

#[test]
fn rows_of_several_plans_are_told_apart_and_pooled_classes_are_counted() {
    let one = class("report-plans-one");
    let later = PLAN
        .replace("week-6", "week-7")
        .replace("Week 6", "Week 7")
        .replace("11-18", "11-25");
    assign(&one, &later);
    assert_eq!(mark(&one, "week-6", TYPED).code, 0);
    assert_eq!(mark(&one, "week-7", TYPED).code, 0);
    // The same plan in another class is pooled.
    let other = class("report-plans-other");
    assert_eq!(mark(&other, "week-6", TYPED).code, 0);
    // A plan of the same name with other items is not.
    let third = ClassFolder::new("report-plans-third", PLAN, LIST);
    assign(&third, &PLAN.replace("psi-to-feet", "box-parts"));
    let (page, table) = (one.at("all.html"), one.at("all.csv"));
    let folders = [&one, &other, &third].map(|class| class.at("class"));
    let [first, second, last] = &folders;
    let report = printed(&[
        "report", first, second, last, "--html", &page, "--csv", &table,
    ]);
    for head in ["ITEMS   week-7\n", "ITEMS   week-6 of ", "plan, item"] {
        assert!(report.contains(head), "{head} is not in\n{report}");
    }
    let page = fs::read_to_string(&page).expect("a page");
    for head in ["week-6 1.1 ", "week-7 1.1 ", "Items of week-7"] {
        assert!(page.contains(head), "{head}");
    }
    let table = fs::read_to_string(&table).expect("a table");
    let head = "\u{feff}part,what,class,plan,date,item,family,level,name,words,count,of,classes,";
    assert!(table.starts_with(head), "{table}");
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let rows = reader.records().map(|row| row.expect("a row"));
    let items = rows.filter(|row| &row[0] == "item");
    // Whether classes are named, the plan, what the item is drawn from, how many classes.
    let named = |row: &csv::StringRecord| {
        let of_classes = !row[2].is_empty();
        (of_classes, [3, 9, 12].map(|at| row[at].to_owned()))
    };
    let mut items: Vec<_> = items.map(|row| named(&row)).collect();
    items.sort();
    let wanted = [
        (false, ["week-7", "psi-to-feet, 1", "1"]),
        (true, ["week-6", "box-parts, 1", "1"]),
        (true, ["week-6", "psi-to-feet, 1", "2"]),
    ];
    let wanted = wanted.map(|(named, cells)| (named, cells.map(str::to_owned)));
    assert_eq!(items, wanted, "{table}");
}
