//! Make-up papers from outside: one command for one person, what it makes, what it leaves as
//! it was, how it is marked beside the others, and every refusal with its whole message.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Stdio;

use crate::class_folder::{ClassFolder, files};
#[cfg(unix)]
use crate::pty::Session;
use crate::started::{Run, finish, program, run};

const PLAN: &str = r#"format = 1
plan = "week-6"
title = "Week 6"
due = "2026-11-20"

[[item]]
family = "psi-to-feet"

[[item]]
family = "cable-drop"
level = 2
"#;

const LIST: &str = "name\n\"D'Arcy, Léa\"\n\"Birch, T.\"\n\"Cole, M.\"\n";

struct Class(ClassFolder);

impl Class {
    fn new(name: &str) -> Self {
        Self(ClassFolder::new(name, PLAN, LIST))
    }

    fn at(&self, name: &str) -> String {
        self.0.at(name)
    }

    fn assign(&self, options: &[&str]) -> Run {
        let (plan, list, class) = (self.at("plan.toml"), self.at("list.csv"), self.at("class"));
        let asked = ["assign", &plan, "--roster", &list, "--out", &class];
        run(&[&asked[..], options].concat())
    }

    fn assigned(&self) {
        let run = self.assign(&["--no-pdf"]);
        assert_eq!((run.code, run.err.as_str()), (0, ""));
    }

    fn make_up(&self, whom: &str) -> Run {
        self.assign(&["--no-pdf", "--make-up", whom])
    }

    /// Every file of the class with its bytes.
    fn files(&self) -> BTreeMap<String, Vec<u8>> {
        files(Path::new(&self.at("class")))
    }

    /// What is refused with exactly this, and changes nothing.
    fn refused(&self, whom: &str, sentence: &str) {
        let before = self.files();
        let run = self.make_up(whom);
        let said = run.err.replace(self.0.path(), "HERE");
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{whom}");
        assert_eq!(said, format!("error: {sentence}\n"));
        assert_eq!(self.files(), before, "{whom}");
    }

    fn mark(&self, table: &str) -> Run {
        let typed = self.at("typed.csv");
        fs::write(&typed, table).expect("a table");
        let class = self.at("class");
        run(&["mark", &class, "--no-pdf", "--answers", &typed])
    }

    fn sheet(&self) -> Vec<String> {
        let sheet = fs::read_to_string(self.at("class/week-6/marks.csv")).expect("a sheet");
        sheet.lines().map(str::to_owned).collect()
    }
}

#[test]
fn one_person_has_a_further_paper_and_nothing_else_changes() {
    let class = Class::new("make-up");
    class.assigned();
    let before = class.files();
    let made = class.make_up("birch, t.");
    assert_eq!((made.code, made.err.as_str()), (0, ""));
    let lines: Vec<&str> = made.out.lines().collect();
    assert!(
        lines[0].starts_with("paper 002+2 for Birch, T., in ") && lines.len() == 4,
        "{}",
        made.out
    );
    assert!(lines[1].starts_with("expected marks of "), "{}", made.out);
    assert!(
        lines[2].starts_with("expected marks of paper 002+2: "),
        "{}",
        made.out
    );
    assert_eq!(
        lines[3],
        "screen/002+2.json may be handed out; printed/ is yours alone"
    );
    let mut after = class.files();
    let record = after.remove("week-6/printed/002+2.json").expect("a record");
    let screen = after.remove("week-6/screen/002+2.json").expect("a paper");
    assert_eq!(after, before);
    assert_ne!(after["week-6/screen/002.json"], screen);
    // It is written after the day on which the others come in.
    let screen_text = String::from_utf8(screen.clone()).expect("UTF-8");
    assert!(screen_text.contains("\"due\": null"), "{screen_text}");
    // Again: it is there. What is lost is made again, to the last byte.
    let again = class.make_up("002");
    assert_eq!(
        (again.code, again.out.as_str(), again.err.as_str()),
        (
            0,
            "paper 002+2 is there for Birch, T.; --one-more makes another\n",
            ""
        )
    );
    let all = class.files();
    for name in ["week-6/screen/002+2.json", "week-6/printed/002+2.json"] {
        fs::remove_file(class.at(&format!("class/{name}"))).expect(name);
        class.make_up("002");
        assert_eq!(class.files(), all, "{name}");
    }
    fs::remove_file(class.at("class/week-6/screen/002+2.json")).expect("a paper");
    class.assigned();
    assert_eq!(class.files(), all);
    let third = class.assign(&["--no-pdf", "--make-up", "002", "--one-more"]);
    assert!(third.out.starts_with("paper 002+3 for "), "{}", third.out);
    let mut more = class.files();
    assert_ne!(more.remove("week-6/printed/002+3.json"), Some(record));
    more.remove("week-6/screen/002+3.json");
    assert_eq!(more, all);
    // A late joiner gets the next id, and nobody a make-up's.
    fs::write(class.at("list.csv"), LIST.to_owned() + "\"Dell, A.\"\n").expect("a list");
    let late = class.assign(&["--no-pdf"]);
    assert_eq!(late.err, "note: new on the list: 004 Dell, A.\n");
}

#[test]
fn whoever_is_not_meant_for_sure_gets_nothing_and_is_told() {
    let class = Class::new("make-up-refused");
    let none = "HERE/class has no papers; make them by pumpwright assign PLAN --roster CLASS.csv --out HERE/class";
    class.refused("002", none);
    assert!(!Path::new(&class.at("class")).exists());
    class.assigned();
    class.refused(
        "Brich",
        "there is nobody \"Brich\" in this class; give the id, or the whole name: 002 Birch, T.",
    );
    class.refused(
        "Nobody",
        "there is nobody \"Nobody\" in this class; give the id, or the whole name as roster.csv has it",
    );
    let list = |text: &str| fs::write(class.at("list.csv"), text).expect("a list");
    list("name\n\"Birch, T.\"\n\"Dell, A.\"\n");
    class.refused(
        "001",
        "001 D'Arcy, Léa is not on HERE/list.csv; who has left the class gets no paper: put the name back there first",
    );
    class.refused(
        "Dell, A.",
        "Dell, A. is new on HERE/list.csv and has no paper yet; leave --make-up out to make it",
    );
    list("name,id\n\"Birch, T.\",002\n\"Cole, M.\",003\n\"Cole, M.\",c9\n");
    class.refused(
        "cole, m.",
        "\"cole, m.\" is the name of several; give the id: 003, c9",
    );
    // Known to the class, but this plan has no paper for this person.
    list(LIST);
    fs::remove_file(class.at("class/week-6/printed/003.json")).expect("a record");
    class.refused(
        "003",
        "003 Cole, M. has no paper in HERE/class/week-6 yet; leave --make-up out to make it",
    );
    class.assigned();
    let other = PLAN.replace("week-6", "week-7");
    fs::write(class.at("plan.toml"), other).expect("a plan");
    class.refused(
        "002",
        "HERE/class/week-7 has no papers yet; leave --make-up out to make them",
    );
    fs::write(class.at("plan.toml"), PLAN.replace("Week 6", "Week six")).expect("a plan");
    class.refused(
        "002",
        "HERE/class/week-6 has the papers of another plan by the name week-6; give this plan another name (plan = …), or assign HERE/class/week-6/plan.toml as it stands there",
    );
    fs::write(class.at("plan.toml"), PLAN).expect("a plan");
    // Without the text of then nothing could be held apart from the first paper.
    let lessons = class.at("class/week-6/lessons");
    let kept = fs::read_dir(&lessons).expect("lessons").next();
    let kept = kept.expect("a text").expect("a text").path();
    fs::remove_file(&kept).expect("removed");
    class.refused(
        "002",
        &format!(
            "paper 002 cannot be looked at, so no other can be held apart from it: HERE/class/week-6/lessons/{} is missing",
            kept.file_name().expect("a name").display()
        ),
    );
}

#[test]
fn a_make_up_is_sat_and_marked_with_the_class() {
    let class = Class::new("make-up-marked");
    class.assigned();
    for whom in ["001", "002"] {
        assert_eq!(class.make_up(whom).code, 0);
    }
    // The first of 002 came in twice: its second file is no make-up's.
    class.mark("paper,1.1\n002,17\n");
    let input = class.at("typed.txt");
    fs::write(&input, "17\n?Z\n?Z\n").expect("input");
    let sit = |number: &str, out: &str| {
        let screen = class.at(&format!("class/week-6/screen/{number}.json"));
        let mut command = program(&["sit", &screen, "--out", out]);
        command.stdin(Stdio::from(fs::File::open(&input).expect("input")));
        let sat = finish(&mut command);
        assert_eq!(sat.code, 0, "{}", sat.err);
    };
    let (first, make_up) = (class.at("a-002.json"), class.at("a-002+2.json"));
    sit("002", &first);
    sit("002+2", &make_up);
    let folder = class.at("class");
    let asked = ["mark", &folder, "--no-pdf", "--answers"];
    let marked = run(&[&asked[..], &[&first, &make_up]].concat());
    assert_eq!((marked.code, marked.err.as_str()), (0, ""));
    let names = fs::read_dir(class.at("class/week-6/handed-in")).expect("a folder");
    let mut names: Vec<String> = names
        .map(|entry| entry.expect("an entry").file_name().display().to_string())
        .collect();
    names.sort();
    assert_eq!(names, ["002+2.json", "002-2.json", "002.json"]);
    let typed = class.mark("paper,1.1\n001+2,12\n");
    let rows: Vec<&str> = typed.out.lines().collect();
    for (row, starts, ends) in [
        (
            1,
            "001    D'Arcy, Léa",
            "not in  the make-up 001+2 counts in its place",
        ),
        (2, "001+2  D'Arcy, Léa", "make-up of 001"),
        (
            3,
            "002    Birch, T.",
            "; the make-up 002+2 is in, too; both stand",
        ),
        (4, "002+2  Birch, T.", "make-up of 002"),
        (5, "003    Cole, M.", "not in"),
        (6, "3 of 4 marked", "3 of 4 marked"),
    ] {
        let own = rows[row].trim_end();
        assert!(own.starts_with(starts) && own.ends_with(ends), "{own}");
    }
    let sheet = class.sheet();
    assert_eq!(sheet.len(), 6);
    assert!(
        sheet[1].ends_with(",the make-up 001+2 counts in its place"),
        "{}",
        sheet[1]
    );
    assert!(
        sheet[2].starts_with("001+2,\"D'Arcy, Léa\",typed in,"),
        "{}",
        sheet[2]
    );
    // Nothing is late that has no day.
    assert!(!sheet[4].contains("late"), "{}", sheet[4]);
    let judged = run(&[
        "mark",
        &folder,
        "--no-pdf",
        "--judge",
        "002+2.1=0.5 half right",
    ]);
    assert_eq!(judged.code, 0, "{}", judged.err);
    assert!(class.sheet()[4].contains("item 1: judged 0.5: half right"));
    assert!(!class.sheet()[3].contains("judged"));
    // Each hand-in counts once, and people are counted as people.
    let report = run(&["report", &folder]);
    assert!(report.out.contains("  3 of 4 in\n"), "{}", report.out);
    let order = run(&["class", &folder, "--plain"]);
    for words in [
        "3 people, ids made",
        "3 papers",
        "2 make-ups",
        "3 of 4 marked",
        "001+2",
    ] {
        assert!(
            order.out.contains(words),
            "{words} is not in\n{}",
            order.out
        );
    }
}

/// On the screen a make-up has a line of its own, its number whole, and is marked with the pen.
#[cfg(unix)]
#[test]
fn a_make_up_is_marked_with_the_pen_from_its_line() {
    use crate::pty::{Session, Start};
    let class = Class::new("make-up-pen");
    class.assigned();
    assert_eq!(class.make_up("002").code, 0);
    // The class that was opened last is kept in the settings.
    let settings = class.at("settings.toml");
    let mut session = Session::start(&Start {
        arguments: &["class", &class.at("class")],
        variables: &[("PUMPWRIGHT_SETTINGS", &settings)],
        ..Start::default()
    });
    session.shows("3    002+2 Birch, T.");
    session.types("3\r");
    session.shows("paper 002+2");
    session.types("\r");
    session.shows("item 2 of 2");
    session.types("\r");
    session.shows("002+2 counts in its");
    session.cuts_off();
    assert!(class.files().contains_key("week-6/handed-in/002+2.json"));
}

/// Versions are for the class: a make-up is one person's own.
#[test]
fn where_papers_have_versions_a_make_up_has_none() {
    let class = Class::new("make-up-versions");
    let plan = PLAN.replace("due =", "versions = 2\norder = \"shuffled\"\ndue =");
    fs::write(class.at("plan.toml"), plan).expect("a plan");
    class.assigned();
    let made = class.make_up("003");
    assert_eq!((made.code, made.err.as_str()), (0, ""));
    let record = &class.files()["week-6/printed/003+2.json"];
    let record: serde_json::Value = serde_json::from_slice(record).expect("JSON");
    assert!(record["version"].is_null());
}

/// On the work order N asks first; the command of the same name makes it.
#[cfg(unix)]
#[test]
fn a_make_up_is_made_on_the_work_order() {
    let class = Class::new("make-up-on-screen");
    class.assigned();
    let mut session = Session::of(&["class", &class.at("class")]);
    session.shows("mark the paper of D'Arcy");
    session.types("2?n");
    session.shows("Enter: make a make-up paper for Birch, T.");
    assert!(!Path::new(&class.at("class/week-6/printed/002+2.json")).exists());
    session.types("\r");
    session.shows("paper 002+2 for Birch, T.");
    session.types("\r");
    session.shows("key made, 1 make-up");
    session.types("?q");
    session.ends();
    assert!(Path::new(&class.at("class/week-6/printed/002+2.json")).exists());
}
