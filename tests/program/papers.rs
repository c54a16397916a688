//! A class's papers from outside: plan, assign, sit, mark, and every odd list and file
//! with its whole message.

use std::fs;
use std::path::Path;
use std::process::Stdio;

use crate::class_folder::ClassFolder;
use crate::lessons::Folder;
use crate::started::{Run, finish, printed, program, run};

pub(crate) const PLAN: &str = r#"format = 1
plan = "week-6"
title = "Week 6"
date = "2026-11-18"

[[item]]
family = "psi-to-feet"

[[item]]
family = "cable-drop"
level = 2

[[item]]
family = "lockout-order"
"#;

const LIST: &str = "\u{feff}Group;Name\r\nA;D'Arcy, Léa\r\nB;Birch, T.\r\nA;=1+1\r\n";

/// A class in a folder of its own.
pub(crate) struct Class(ClassFolder);

impl Class {
    pub(crate) fn new(name: &str) -> Self {
        Self(ClassFolder::new(name, PLAN, LIST))
    }

    pub(crate) fn at(&self, name: &str) -> String {
        self.0.at(name)
    }

    pub(crate) fn text(&self, name: &str) -> String {
        fs::read_to_string(self.at(name)).expect(name)
    }

    pub(crate) fn write(&self, name: &str, text: &str) {
        fs::write(self.at(name), text).expect(name);
    }

    pub(crate) fn assign(&self, list: &str) -> Run {
        run(&[
            "assign",
            &self.at("plan.toml"),
            "--roster",
            &self.at(list),
            "--out",
            &self.at("class"),
            // `prints.rs` looks at the PDFs; they take long in a build for testing.
            "--no-pdf",
        ])
    }

    pub(crate) fn assigned(&self) {
        let run = self.assign("list.csv");
        assert_eq!((run.code, run.err.as_str()), (0, ""));
    }

    /// Sits a paper with these lines.
    pub(crate) fn sit(&self, paper: &str, out: &str, typed: &str) -> Run {
        let input = self.at("typed.txt");
        fs::write(&input, typed).expect("input");
        let mut command = program(&["sit", &self.at(paper), "--out", &self.at(out)]);
        command.stdin(Stdio::from(fs::File::open(&input).expect("input")));
        finish(&mut command)
    }

    pub(crate) fn mark(&self, arguments: &[&str]) -> Run {
        let class = self.at("class");
        run(&[&["mark", class.as_str(), "--no-pdf"], arguments].concat())
    }

    /// The message of a run, its own folder named so.
    pub(crate) fn plain(&self, text: &str) -> String {
        text.replace(self.0.path(), "HERE")
    }

    /// Every file of the class with its bytes.
    pub(crate) fn files(&self) -> Vec<(String, Vec<u8>)> {
        let mut found = Vec::new();
        collect(Path::new(&self.at("class")), &mut found);
        found.sort();
        found
    }
}

fn collect(folder: &Path, into: &mut Vec<(String, Vec<u8>)>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            collect(&path, into);
        } else {
            into.push((path.display().to_string(), fs::read(&path).expect("a file")));
        }
    }
}

#[test]
fn a_new_plan_is_valid_and_is_never_written_over() {
    let text = printed(&["plan", "new"]);
    let folder = Folder::with("papers-plan-new", &[("x.txt", b"x")]);
    let path = format!("{}/new.toml", folder.path());
    let _ = fs::remove_file(&path);
    let said = printed(&["plan", "new", &path]);
    assert_eq!(
        said,
        format!("{path} is written; change it, then: pumpwright plan show {path}\n")
    );
    assert_eq!(fs::read_to_string(&path).expect("the plan"), text);
    let again = run(&["plan", "new", &path]);
    assert_eq!(
        (again.code, again.err),
        (
            2,
            format!("error: {path} is there; name another file, or take it away first\n")
        )
    );
    assert!(printed(&["check", &path]).starts_with("plan week-6: 5 items, "));
    let shown = printed(&["plan", "show", &path]);
    assert!(
        shown.contains("cable-drop") && shown.contains("Expected marks of"),
        "{shown}"
    );
    let pages = if cfg!(feature = "pdf") {
        " pages a paper, as the three samples come out; 24 people take about "
    } else {
        "Pages come with papers; this build has no typesetter for them."
    };
    assert!(shown.replace('\n', " ").contains(pages), "{shown}");
}

#[test]
fn a_faulty_plan_is_told_with_its_place_by_every_command() {
    let class = Class::new("papers-plan-faulty");
    class.write("plan.toml", &PLAN.replace("cable-drop", "cable-drp"));
    let run_check = run(&["check", &class.at("plan.toml")]);
    let message = "error: there is no family \"cable-drp\"\n  HERE/plan.toml, line 10, column 10\n  \
        10 | family = \"cable-drp\"\n     |          ^^^^^^^^^^^\n  \
        it has: cable-drop, cable-size\n  remedy: write \"cable-drop\"\n";
    assert_eq!(
        (run_check.code, class.plain(&run_check.out)),
        (1, format!("{message}\n1 fault\n"))
    );
    let assigned = class.assign("list.csv");
    assert_eq!(
        (assigned.code, class.plain(&assigned.err)),
        (2, message.to_owned())
    );
    assert!(!Path::new(&class.at("class")).exists());
}

#[test]
fn papers_are_made_once_and_late_joiners_change_nothing() {
    let class = Class::new("papers-assign");
    let run = class.assign("list.csv");
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(
        class
            .plain(&run.out)
            .starts_with("3 papers, 3 new, in HERE/class/week-6\n"),
        "{}",
        run.out
    );
    let before = class.files();
    assert_eq!(
        class.text("class/roster.csv"),
        "\u{feff}id,name\r\n001,\"D'Arcy, Léa\"\r\n002,\"Birch, T.\"\r\n003,'=1+1\r\n"
    );
    // The same again: nothing changes.
    assert!(class.assign("list.csv").out.starts_with("3 papers, 0 new"));
    assert_eq!(class.files(), before);
    // What was stopped half-way is made again, to the last byte.
    fs::remove_file(class.at("class/week-6/printed/002.json")).expect("a record");
    fs::remove_file(class.at("class/week-6/screen/003.json")).expect("a paper");
    class.write("class/week-6/printed/003.json", "{ \"format\": 1,");
    let again = class.assign("list.csv");
    assert!(again.out.starts_with("3 papers, 2 new"));
    // What is left of a record is kept: the paper that was handed out may be another.
    let aside = "class/week-6/printed/003.damaged";
    assert!(
        again
            .err
            .contains("the record of paper 003 could not be read")
    );
    assert_eq!(class.text(aside), "{ \"format\": 1,");
    fs::remove_file(class.at(aside)).expect("the damaged record");
    assert_eq!(class.files(), before);
    // A late joiner.
    class.write("late.csv", "name\n\"Cole, M.\"\n\"birch, T.\"\n");
    let late = class.assign("late.csv");
    assert_eq!(
        late.err,
        "note: new on the list: 004 Cole, M.\nnote: 002 birch, T. was Birch, T.; the paper stays the same\nnote: not on this list, kept all the same: 001 D'Arcy, Léa; 003 =1+1\n"
    );
    let after = class.files();
    let papers = |files: &[(String, Vec<u8>)]| -> Vec<(String, Vec<u8>)> {
        let own = files.iter().filter(|(path, _)| path.contains("/week-6/"));
        own.filter(|(path, _)| !path.contains("/004.json"))
            .cloned()
            .collect()
    };
    assert_eq!(papers(&after), papers(&before));
}

#[cfg(unix)]
#[test]
fn the_key_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let class = Class::new("papers-assign-key");
    class.assigned();
    let mode = fs::metadata(class.at("class/class.key"))
        .expect("a key")
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o600);
    // Records have every answer, so the folder lets nobody else in.
    let folder = fs::metadata(class.at("class")).expect("a folder");
    assert_eq!(folder.permissions().mode() & 0o777, 0o700);
    let key = class.text("class/class.key");
    let secret = key.lines().nth(1).expect("a secret");
    let others = class
        .files()
        .into_iter()
        .filter(|(path, _)| !path.ends_with("class.key"));
    for (path, bytes) in others {
        assert!(!String::from_utf8_lossy(&bytes).contains(secret), "{path}");
    }
}

#[test]
fn odd_lists_are_told_and_nothing_is_made() {
    let class = Class::new("papers-lists");
    let columns = "its first line names the columns: name, or last name and first name, and id where you have ids of your own";
    for (text, said) in [
        (String::new(), format!("the roster is empty; {columns}")),
        ("name\n".to_owned(), "the roster has its first line and nobody under it; write a line for each person".to_owned()),
        ("who\nAsh\n".to_owned(), format!("line 1 names no column for the names; {columns}")),
        ("name\nAsh, R.\n".to_owned(), "line 2 has more cells than the first line has columns; put a name with a comma in quotes: \"D'Arcy, L.\"".to_owned()),
        ("name\nAsh\nBirch\nASH\n".to_owned(), "line 4 has the name of line 2: ASH; take one of the two out, or tell them apart in a column id".to_owned()),
        ("name;id\nAsh;7\nBirch;7\n;8\n".to_owned(), "line 3 has the id of line 2; give one of the two another\n  line 4 has no name; write it, or take the line out".to_owned()),
        ("name\n\"Ash\nBirch\n".to_owned(), "line 2 begins a cell in quotes that runs over the end of the line; close the quotes".to_owned()),
    ] {
        class.write("odd.csv", &text);
        let run = class.assign("odd.csv");
        assert_eq!((run.code, class.plain(&run.err)), (2, format!("error: HERE/odd.csv: {said}\n")), "{text:?}");
        assert_eq!(run.out, "");
    }
    fs::write(class.at("odd.csv"), b"name\n\xc4sh\n").expect("a list");
    let run = class.assign("odd.csv");
    assert_eq!(
        (run.code, class.plain(&run.err)),
        (
            2,
            "error: HERE/odd.csv is not UTF-8 text from byte 5 on; save it as UTF-8\n".to_owned()
        )
    );
    let run = class.assign("none.csv");
    assert_eq!(run.code, 3);
    assert!(
        class
            .plain(&run.err)
            .starts_with("error: HERE/none.csv cannot be read: "),
        "{}",
        run.err
    );
    assert!(!Path::new(&class.at("class")).exists());
}

#[test]
fn another_plan_of_the_same_name_and_a_broken_key_are_refused() {
    let class = Class::new("papers-assign-other");
    class.assigned();
    class.write("plan.toml", &PLAN.replace("Week 6", "Week six"));
    let run = class.assign("list.csv");
    assert_eq!((run.code, class.plain(&run.err)), (2, "error: HERE/class/week-6 has the papers of another plan by the name week-6; give this plan another name (plan = …), or assign HERE/class/week-6/plan.toml as it stands there\n".to_owned()));
    class.write("class/class.key", "pumpwright class key 1\n12\n");
    let run = class.assign("list.csv");
    assert_eq!((run.code, class.plain(&run.err)), (2, "error: HERE/class/class.key holds no class key; put the one of this class back: papers that are printed stay markable without it\n".to_owned()));
}

/// Begins a paper, stops, goes on and hands in.
fn sit_stop_and_go_on(class: &Class, paper: &str) {
    let begun = class.sit(paper, "a.json", "100 ft\n");
    assert_eq!(begun.code, 0, "{}", begun.err);
    assert!(
        begun
            .out
            .starts_with("paper: Week 6\ndate: 2026-11-18\nname: D'Arcy, Léa\nnumber: 001\n"),
        "{}",
        begun.out
    );
    assert!(
        class
            .plain(&begun.out)
            .ends_with("end: not handed in; kept in HERE/a.json.draft, the same command goes on\n"),
        "{}",
        begun.out
    );
    let gone_on = class.sit(paper, "a.json", "\n1.07\n\n2\n1 2 3\n\n9.9\n1.1\n110\n?z\n");
    assert_eq!(gone_on.code, 0, "{}", gone_on.err);
    assert!(
        gone_on
            .out
            .contains("note: goes on where it was stopped\nitem 2 of 3"),
        "{}",
        gone_on.out
    );
    assert!(gone_on.out.contains("open: 2.1 2.3\n"), "{}", gone_on.out);
    assert!(
        gone_on
            .out
            .contains("note: there is no line 9.9; write item and line, as in 1.1\n"),
        "{}",
        gone_on.out
    );
    assert!(
        class
            .plain(&gone_on.out)
            .ends_with("end: handed in as HERE/a.json\nnext: give that file to your instructor\n")
    );
    assert!(!Path::new(&class.at("a.json.draft")).exists());
    let twice = class.sit(paper, "a.json", "");
    assert_eq!((twice.code, class.plain(&twice.err)), (2, "error: HERE/a.json is there: this paper was handed in; hand that file over, or name another by --out\n".to_owned()));
    let wrong = class.sit("plan.toml", "b.json", "");
    assert_eq!((wrong.code, class.plain(&wrong.err)), (2, "error: HERE/plan.toml is no paper for the screen of this program; name one that it wrote\n".to_owned()));
}

/// The paper is begun, stopped, gone on with and handed in; then everything comes to be
/// marked, with what is odd in lines of its own.
#[test]
fn a_paper_is_sat_handed_in_and_marked() {
    let class = Class::new("papers-sit");
    class.assigned();
    let paper = "class/week-6/screen/001.json";
    sit_stop_and_go_on(&class, paper);
    // A second hand-in, a damaged file, a foreign paper, a table.
    assert_eq!(class.sit(paper, "second.json", "7\n\n\n\n\n\n?z\n").code, 0);
    class.write("damaged.json", &class.text("a.json").replace("110", "111"));
    class.write("short.json", &class.text("a.json")[..60]);
    let other = Class::new("papers-other-sit");
    other.write("plan.toml", &PLAN.replace("week-6", "week-7"));
    other.assigned();
    assert_eq!(
        other
            .sit("class/week-7/screen/001.json", "b.json", "\n\n\n\n\n\n?z\n")
            .code,
        0
    );
    let another = Class::new("papers-another-sit");
    another.assigned();
    assert_eq!(another.sit(paper, "c.json", "\n\n\n\n\n\n?z\n").code, 0);
    class.write("typed.csv", "paper;1.1;2.1\n002;100;300\n077;1;1\n");
    let files = [
        "a.json",
        "second.json",
        "damaged.json",
        "short.json",
        "typed.csv",
    ]
    .map(|name| class.at(name));
    let (foreign, printing) = (other.at("b.json"), another.at("c.json"));
    let mut arguments = vec!["--answers"];
    arguments.extend(files.iter().map(String::as_str));
    arguments.extend([foreign.as_str(), printing.as_str()]);
    let marked = class.mark(&arguments);
    let said = class
        .plain(&marked.err)
        .replace(&foreign, "FOREIGN")
        .replace(&printing, "PRINTING");
    assert_eq!(
        said,
        "note: HERE/damaged.json is damaged: its checksum is not that of its answers; ask for the file once more; it is left out\n\
         note: HERE/short.json breaks off or is damaged in line 4; ask for the file once more; it is left out\n\
         note: HERE/typed.csv, paper 077, is none of the 3 papers in this folder, 001 to 003; it is left out\n\
         note: FOREIGN is of the plan week-7, not of week-6; it is left out\n\
         note: PRINTING answers another printing of paper 001 than the one that is kept here, or the paper 001 of another class; it is left out\n\
         note: 001, 3.1: `1 2 3` cannot be read\n"
    );
    assert_eq!(marked.code, 1);
    let rows: Vec<&str> = marked.out.lines().collect();
    assert_eq!(rows[0], "Week 6");
    assert!(
        rows[1].starts_with("001  D'Arcy, Léa  ")
            && rows[1].contains("handed in twice: the answers file of 20")
            && rows[1].ends_with(" does not"),
        "{}",
        rows[1]
    );
    assert_eq!(rows[3], "003  =1+1         not in");
    assert_eq!(rows[4], "2 of 3 marked");
    let sheet = class.text("class/week-6/marks.csv");
    assert!(sheet.starts_with("\u{feff}id,name,came in,item 1,item 2,item 3,marks,out of,notes\r\n001,\"D'Arcy, Léa\",20"), "{sheet}");
    assert!(sheet.contains("\r\n003,'=1+1,not in,,,,,,\r\n"), "{sheet}");
    // Taken in before: nothing changes, and that is no fault.
    let again = class.mark(&["--answers", &files[0]]);
    assert_eq!(
        (again.code, class.plain(&again.err)),
        (
            0,
            "note: HERE/a.json was taken in before\nnote: 001, 3.1: `1 2 3` cannot be read\n"
                .to_owned()
        )
    );
    assert_eq!(class.text("class/week-6/marks.csv"), sheet);
}

#[test]
fn what_is_decided_outlives_the_marking() {
    let class = Class::new("papers-decide");
    class.assigned();
    class.write("typed.csv", "paper,1.1\n001,100\n");
    let run = class.mark(&[
        "--answers",
        &class.at("typed.csv"),
        "--drop",
        "3=the photo was another",
        "--judge",
        "001.1=0.5 told me the unit",
        "--semicolons",
        "--decimal",
        "comma",
    ]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(
        run.out
            .contains("item 3 dropped: the photo was another\n1 of 3 marked\n"),
        "{}",
        run.out
    );
    let again = class.mark(&["--semicolons", "--decimal", "comma"]);
    assert_eq!(again, run);
    let sheet = class.text("class/week-6/marks.csv");
    assert!(
        sheet.contains("\r\n001;D'Arcy, Léa;typed in;0,5;0;;0,5;"),
        "{sheet}"
    );
    for (arguments, said) in [
        (
            ["--drop", "9=x"],
            "there is no item \"9\"; the plan has items 1 to 3",
        ),
        (
            ["--judge", "009.1=1 x"],
            "there is no paper \"009\" in this class; it has 001 to 003",
        ),
        (
            ["--judge", "001.1=0.3 x"],
            "\"0.3\" are no marks; write whole or half ones, as in 2.5",
        ),
        (
            ["--judge", "001.1=1"],
            "\"001.1=1\" gives no reason; write it as PAPER.ITEM=MARKS REASON, or 001.1= alone to take the marks back",
        ),
    ] {
        let run = class.mark(&arguments);
        assert_eq!((run.code, run.err), (2, format!("error: {said}\n")));
    }
}

#[test]
fn a_folder_without_papers_is_told() {
    let folder = Folder::with("papers-none", &[("x.txt", b"x")]);
    let run = run(&["mark", folder.path()]);
    let path = folder.path();
    assert_eq!(
        (run.code, run.err),
        (
            2,
            format!(
                "error: {path} has no papers; make them by pumpwright assign PLAN --roster CLASS.csv --out {path}\n"
            )
        )
    );
}

#[test]
fn a_file_or_nothing_is_no_folder_of_papers() {
    let folder = Folder::with("papers-a-file", &[("x.txt", b"x")]);
    let remedy = "name the folder of a class, or of one of its papers";
    for (name, odd) in [("x.txt", "is a file"), ("nowhere", "is not there")] {
        let path = format!("{}/{name}", folder.path());
        for command in ["mark", "report"] {
            let run = run(&[command, &path]);
            let said = format!("error: {path} {odd}; {remedy}\n");
            assert_eq!((run.code, run.err), (2, said), "{command}");
        }
    }
}

#[test]
fn a_report_is_printed_written_and_planned_from() {
    let class = Class::new("papers-report");
    class.assigned();
    class.write("typed.csv", "paper,1.1\n001,17\n002,3\n");
    let marked = class.mark(&["--answers", &class.at("typed.csv")]);
    assert_eq!(marked.code, 0, "{}", marked.err);
    let page = class.text("class/week-6/report.html");
    assert!(page.starts_with("<!DOCTYPE html>\n<!-- pumpwright: class report -->\n"));
    assert!(page.ends_with("</html>\n") && !page.contains("<script"));
    let table = class.text("class/week-6/report.csv");
    assert!(table.starts_with("\u{feff}part,what,class,"), "{table}");
    for text in [&page, &table] {
        assert!(
            !text.contains("D'Arcy") && !text.contains("Birch"),
            "a name"
        );
    }
    let folder = class.at("class");
    let said = printed(&["report", &folder]);
    assert!(
        said.starts_with("Class report: Week 6\nclass  week-6  2026-11-18  2 of 3 in\n"),
        "{said}"
    );
    assert!(
        said.contains("it needs 30 hand-ins of this plan, 2 are here"),
        "{said}"
    );
    // Named twice it counts once.
    assert_eq!(
        printed(&["report", &folder, &class.at("class/week-6")]),
        said
    );
    let next = class.at("next.toml");
    printed(&[
        "plan",
        "new",
        "--from",
        &class.at("class/week-6/report.csv"),
        &next,
    ]);
    assert!(printed(&["check", &next]).contains("plan week-7: "));
    let from_folder = printed(&["plan", "new", "--from", &folder]);
    assert_eq!(from_folder, class.text("next.toml"));
    let page = class.at("class/week-6/report.html");
    let refused = run(&["plan", "new", "--from", &page]);
    assert_eq!(
        (refused.code, class.plain(&refused.err)),
        (2, "error: HERE/class/week-6/report.html is a page; name the report.csv beside it, or the folder\n".to_owned())
    );
}

#[test]
fn the_work_order_is_printed_and_what_is_no_class_is_told() {
    let class = Class::new("papers-work-order");
    class.assigned();
    let said = printed(&["class", &class.at("class"), "--plain"]);
    for words in ["3 people, ids made", "0 of 3 marked", "D'Arcy, L\u{e9}a"] {
        assert!(said.contains(words), "{words} is not in\n{said}");
    }
    for (name, what) in [
        ("list.csv", "is no folder; name the folder of a class"),
        (
            "nowhere",
            "is not there yet: name the list of the class on the screen, by the same command without --plain, or make papers: pumpwright assign PLAN --roster LIST --out FOLDER",
        ),
    ] {
        let run = run(&["class", &class.at(name), "--plain"]);
        assert_eq!(
            (run.code, class.plain(&run.err)),
            (2, format!("error: HERE/{name} {what}\n"))
        );
    }
}

#[test]
fn a_class_is_made_in_a_folder_not_in_a_file() {
    let class = Class::new("papers-in-a-file");
    let (plan, list) = (class.at("plan.toml"), class.at("list.csv"));
    let before = class.text("list.csv");
    let run = run(&["assign", &plan, "--roster", &list, "--out", &list]);
    let said = "error: HERE/list.csv is a file; name a folder, which is made where there is none\n";
    assert_eq!((run.code, &*class.plain(&run.err)), (2, said));
    assert_eq!(class.text("list.csv"), before);
}
