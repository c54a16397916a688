//! Somebody who leaves a class: told, taken along, deleted, so that no file of the folder has
//! the name, and nobody else's paper changes.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use crate::class_folder::{ClassFolder, files};
use crate::started::{Run, printed, run};

const PLAN: &str = r#"format = 1
plan = "week-6"
title = "Week 6"

[[item]]
family = "psi-to-feet"

[[item]]
family = "cable-drop"
"#;

const LIST: &str = "name\n\"D'Arcy, Léa\"\n\"Birch, T.\"\n\"Birch, Ted\"\n\"Cole, M.\"\n";

struct Class(ClassFolder);

impl Class {
    /// A class with a paper each, a make-up, marks and a decision.
    fn marked(name: &str, options: &[&str]) -> Self {
        let class = Self(ClassFolder::new(name, PLAN, LIST));
        class.assigned(options);
        class.assigned(&[options, &["--make-up", "002"]].concat());
        fs::write(
            class.at("typed.csv"),
            "paper,1.1,2.1\n001,17,3\n002,17,2\n002+2,5,5\n",
        )
        .expect("a table");
        let (folder, typed) = (class.at("class"), class.at("typed.csv"));
        let mut asked = vec!["mark", &folder, "--answers", &typed, "--semicolons"];
        asked.extend(["--judge", "002.1=0.5 the unit was told", "--judge"]);
        asked.extend(["001.1=0.5 half right", "--decimal-comma"]);
        asked.extend(options);
        assert_eq!(run(&asked).code, 0);
        class
    }

    fn at(&self, name: &str) -> String {
        self.0.at(name)
    }

    fn assigned(&self, options: &[&str]) -> Run {
        let (plan, list, class) = (self.at("plan.toml"), self.at("list.csv"), self.at("class"));
        let asked = ["assign", &plan, "--roster", &list, "--out", &class];
        let run = run(&[&asked[..], options].concat());
        assert_eq!(run.code, 0, "{}", run.err);
        run
    }

    fn leaver(&self, whom: &str, options: &[&str]) -> Run {
        let class = self.at("class");
        run(&[&["class", &class, "--leaver", whom], options].concat())
    }

    fn plain(&self, text: &str) -> String {
        text.replace(self.0.path(), "HERE")
    }

    /// Every file of the class with its bytes.
    fn files(&self) -> BTreeMap<String, Vec<u8>> {
        files(Path::new(&self.at("class")))
    }

    /// Checks that no file of the folder has the name, or is a paper of the person.
    fn is_without(&self, id: &str, name: &str) {
        for (path, bytes) in self.files() {
            let text = String::from_utf8_lossy(&bytes).into_owned();
            let pdf = is_pdf(&path);
            let text = if pdf { self.pdf_text(&path) } else { text };
            assert!(!text.contains(name), "{path} has the name");
            let file = path.rsplit('/').next().expect("a name");
            let own = file.starts_with(id) || file.contains(&format!("{id}+"));
            assert!(!own, "{path} is there");
        }
    }

    /// What a PDF reads as; nothing where the machine has no reader of PDFs.
    fn pdf_text(&self, path: &str) -> String {
        let path = self.at(&format!("class/{path}"));
        let read = std::process::Command::new("pdftotext")
            .args([&path, "-"])
            .output();
        read.map_or_else(
            |_| String::new(),
            |own| String::from_utf8_lossy(&own.stdout).into_owned(),
        )
    }
}

fn is_pdf(path: &str) -> bool {
    Path::new(path)
        .extension()
        .is_some_and(|ending| ending == "pdf")
}

/// A place that is not there yet.
fn fresh(class: &Class, name: &str) -> String {
    let path = class.at(name);
    let _ = fs::remove_file(&path);
    let _ = fs::remove_dir_all(&path);
    path
}

#[test]
fn what_there_is_of_a_leaver_is_told_and_taken_along_without_solutions() {
    let class = Class::marked("leaver-export", &["--no-pdf"]);
    let before = class.files();
    let told = class.leaver("birch, t.", &[]);
    assert_eq!(
        (
            told.code,
            class.plain(&told.out).as_str(),
            told.err.as_str()
        ),
        (
            0,
            "HERE/class has of 002 Birch, T.: 2 papers, 2 hand-ins, 1 mark set by hand, the name\n\
             --export FILE.zip writes them to be taken along, --delete deletes them\n",
            ""
        )
    );
    let (folder, zip) = (fresh(&class, "taken"), fresh(&class, "taken.zip"));
    for to in [&folder, &zip] {
        let written = class.leaver("002", &["--export", to]);
        assert_eq!((written.code, written.err.as_str()), (0, ""));
        assert_eq!(
            written.out,
            format!(
                "{to} is written: what {} has of 002 Birch, T.\n",
                class.at("class")
            )
        );
    }
    assert_eq!(class.files(), before);
    let taken = files(Path::new(&folder));
    let mut wanted = vec![
        "person.csv",
        "read-me.txt",
        "week-6/handed-in/002+2.json",
        "week-6/handed-in/002.json",
        "week-6/judged.json",
        "week-6/marks.csv",
        "week-6/screen/002+2.json",
        "week-6/screen/002.json",
    ];
    if cfg!(feature = "pdf") {
        wanted.push("week-6/slips.pdf");
    }
    assert_eq!(taken.keys().map(String::as_str).collect::<Vec<_>>(), wanted);
    assert_eq!(
        taken["person.csv"],
        "\u{feff}id,name\r\n002,\"Birch, T.\"\r\n".as_bytes()
    );
    let sheet = String::from_utf8(taken["week-6/marks.csv"].clone()).expect("UTF-8");
    let rows: Vec<&str> = sheet.lines().collect();
    assert!(
        rows.len() == 3 && rows[1].starts_with("002;Birch, T.;typed in;0,5;"),
        "{sheet}"
    );
    let judged = String::from_utf8(taken["week-6/judged.json"].clone()).expect("UTF-8");
    assert!(judged.contains("the unit was told") && !judged.contains("half right"));
    for (path, bytes) in &taken {
        for other in ["D'Arcy", "Cole", "Birch, Ted"] {
            assert!(!String::from_utf8_lossy(bytes).contains(other), "{path}");
        }
    }
    // The archive has the same, and a second call gives the same bytes.
    let mut archive =
        zip::ZipArchive::new(fs::File::open(&zip).expect("an archive")).expect("an archive");
    assert_eq!(archive.len(), wanted.len());
    for (name, bytes) in &taken {
        let mut inside = Vec::new();
        let mut file = archive.by_name(name).expect(name);
        std::io::copy(&mut file, &mut inside).expect(name);
        assert_eq!(&inside, bytes, "{name}");
    }
}

#[test]
fn what_cannot_be_done_is_told_and_nothing_is_deleted() {
    let class = Class::marked("leaver-refused", &["--no-pdf"]);
    let before = class.files();
    let taken = fresh(&class, "taken.zip");
    fs::write(&taken, "mine").expect("a file");
    let inside = class.at("class/week-6/taken.zip");
    for (whom, options, said) in [
        (
            "Nobody",
            &["--delete"][..],
            "there is nobody \"Nobody\" in this class; give the id, or the whole name as roster.csv has it",
        ),
        (
            "002",
            &["--delete"],
            "nobody sits here to be asked; add --without-asking to delete all the same",
        ),
        (
            "002",
            &["--export", &taken, "--delete", "--without-asking"],
            "HERE/taken.zip is there; name another file, or take it away first",
        ),
        (
            "002",
            &["--export", &inside, "--delete", "--without-asking"],
            "HERE/class/week-6/taken.zip lies in the folder of the class, from which it is to be taken; name another place",
        ),
    ] {
        let run = class.leaver(whom, options);
        assert_eq!(
            (run.code, class.plain(&run.err)),
            (2, format!("error: {said}\n"))
        );
        assert_eq!(class.files(), before, "{said}");
    }
    assert_eq!(fs::read_to_string(&taken).expect("a file"), "mine");
    let none = class.at("list.csv");
    let run = run(&[
        "class",
        &none,
        "--leaver",
        "002",
        "--delete",
        "--without-asking",
    ]);
    assert_eq!(run.code, 2, "{}", run.err);
    assert_eq!(
        class.plain(&run.err),
        "error: HERE/list.csv is no folder of a class; name one that assign made\n"
    );
}

#[test]
fn a_leaver_is_deleted_everywhere_and_nobody_elses_paper_changes() {
    let class = Class::marked("leaver-deleted", &["--no-pdf"]);
    let before = class.files();
    let taken = fresh(&class, "taken.zip");
    let both = ["--export", &taken, "--delete", "--without-asking"];
    let gone = class.leaver("Birch, T.", &both);
    assert_eq!((gone.code, gone.err.as_str()), (0, ""));
    assert_eq!(
        class.plain(&gone.out),
        "HERE/taken.zip is written: what HERE/class has of 002 Birch, T.\n\
         002 Birch, T. is deleted from HERE/class: 2 papers, 2 hand-ins, 1 mark set by hand, the name\n\
         made anew in HERE/class/week-6: marks.csv, report.csv, report.html\n\
         The id 002 stays taken. What was exported, copied or handed out before is still there.\n"
    );
    assert!(Path::new(&taken).is_file());
    class.is_without("002", "Birch, T.");
    let after = class.files();
    // What is made anew, and what had the name, is another; all else is as it was.
    for (path, bytes) in &after {
        let other = ["marks.csv", "report.csv", "report.html", "decisions.json"];
        let other = other.iter().any(|name| path.ends_with(name)) || path.starts_with("roster.");
        assert_eq!(other, before.get(path) != Some(bytes), "{path}");
    }
    assert_eq!(
        String::from_utf8_lossy(&after["roster.csv"]),
        "\u{feff}id,name\r\n001,\"D'Arcy, Léa\"\r\n003,\"Birch, Ted\"\r\n004,\"Cole, M.\"\r\n"
    );
    // Marks are written as they were, and decisions on others stand.
    let sheet = String::from_utf8_lossy(&after["week-6/marks.csv"]).into_owned();
    let rows: Vec<&str> = sheet.lines().collect();
    assert!(rows.len() == 4 && rows[1].contains(";0,5;"), "{sheet}");
    let again = class.leaver("002", &["--delete", "--without-asking"]);
    assert_eq!(
        (again.code, again.err.as_str()),
        (
            2,
            "error: whoever had the id 002 was deleted from this class; the id stays taken\n"
        )
    );
    let said = printed(&["class", &class.at("class"), "--plain"]);
    assert!(said.contains("3 people, ids made"), "{said}");
    // Answers that come in later find no paper.
    let (folder, typed) = (class.at("class"), class.at("typed.csv"));
    let late = run(&["mark", &folder, "--no-pdf", "--answers", &typed]);
    assert_eq!(late.code, 1);
    assert!(
        late.err.contains(
            "paper 002, is none of the 3 papers in this folder, 001 to 004; it is left out"
        ),
        "{}",
        late.err
    );
    class.is_without("002", "Birch, T.");
}

/// The name on a later list is somebody new; the id is refused.
#[test]
fn a_deleted_name_comes_back_as_somebody_new_and_the_id_never() {
    let class = Class::marked("leaver-back", &["--no-pdf"]);
    let papers = class.files();
    let gone = class.leaver("002", &["--delete", "--without-asking"]);
    assert_eq!(gone.code, 0, "{}", gone.err);
    let list = "id,name\n001,\"D'Arcy, Léa\"\n002,\"Birch, T.\"\n";
    fs::write(class.at("ids.csv"), list).expect("a list");
    let (plan, ids, folder) = (
        class.at("plan.toml"),
        class.at("ids.csv"),
        class.at("class"),
    );
    let before = class.files();
    let refused = run(&[
        "assign", &plan, "--roster", &ids, "--out", &folder, "--no-pdf",
    ]);
    assert_eq!(
        (refused.code, class.plain(&refused.err)),
        (
            2,
            "error: HERE/ids.csv: line 3 has the id 002, whose data were deleted; take the line out, or give another id\n"
                .to_owned()
        )
    );
    assert_eq!(class.files(), before);
    let again = class.assigned(&["--no-pdf"]);
    assert_eq!(again.err, "note: new on the list: 005 Birch, T.\n");
    let after = class.files();
    for id in ["001", "003", "004"] {
        let record = format!("week-6/printed/{id}.json");
        assert_eq!(after[&record], papers[&record]);
    }
    assert!(after.contains_key("week-6/printed/005.json"));
    assert!(!after.contains_key("week-6/printed/002.json"));
    // A further plan draws for those who are there, each with the neighbors of before.
    fs::write(class.at("plan.toml"), PLAN.replace("week-6", "week-7")).expect("a plan");
    class.assigned(&["--no-pdf"]);
    let numbers: Vec<String> = class.files().into_keys().collect();
    assert!(!numbers.contains(&"week-7/printed/002.json".to_owned()));
    assert!(numbers.contains(&"week-7/printed/004.json".to_owned()));
}

/// Stopped at any point, the same command goes on; a reason that has the name is told.
#[test]
fn a_stop_half_way_is_gone_on_with_and_what_others_wrote_is_told() {
    let class = Class::marked("leaver-stopped", &["--no-pdf"]);
    for name in [
        "handed-in/002.json",
        "screen/002.json",
        "printed/002.json",
        "marks.csv",
    ] {
        fs::remove_file(class.at(&format!("class/week-6/{name}"))).expect(name);
    }
    // What a stop and damage leave.
    let left = [
        "screen/.pumpwright.77.new",
        "printed/002.damaged",
        "handed-in/002-3.json",
        "pen/002.json",
    ];
    fs::create_dir_all(class.at("class/week-6/pen")).expect("a folder");
    for name in left {
        fs::write(class.at(&format!("class/week-6/{name}")), "{ \"Birch, T.\"").expect(name);
    }
    let decisions = class.at("class/week-6/decisions.json");
    let text = fs::read_to_string(&decisions).expect("decisions");
    fs::write(
        &decisions,
        text.replace("half right", "as Birch, T. had it"),
    )
    .expect("decisions");
    let gone = class.leaver("002", &["--delete", "--without-asking"]);
    assert_eq!(gone.code, 1);
    assert_eq!(
        class.plain(&gone.err),
        "note: the name still stands in HERE/class/week-6/decisions.json; change it there, or take it away\n"
    );
    let text = fs::read_to_string(&decisions).expect("decisions");
    fs::write(&decisions, text.replace("Birch, T.", "a neighbor")).expect("decisions");
    class.is_without("002", "Birch, T.");
    for name in left {
        assert!(!PathBuf::from(class.at(&format!("class/week-6/{name}"))).exists());
    }
}

/// What is printed of several is printed anew, the same as `assign` would.
#[cfg(feature = "pdf")]
#[test]
fn prints_and_slips_are_made_anew_without_the_leaver() {
    let class = Class::marked("leaver-prints", &[]);
    let gone = class.leaver("002", &["--delete", "--without-asking"]);
    assert_eq!((gone.code, gone.err.as_str()), (0, ""));
    assert!(
        class.plain(&gone.out).contains(
            "made anew in HERE/class/week-6: key.pdf, marks.csv, print.pdf, report.csv, report.html, slips.pdf, strips.pdf\n"
        ),
        "{}",
        gone.out
    );
    class.is_without("002", "Birch, T.");
    let names: Vec<String> = class
        .files()
        .into_keys()
        .filter(|own| is_pdf(own))
        .collect();
    assert_eq!(names.len(), 7, "{names:?}");
    fs::write(class.at("list.csv"), LIST.replace("\"Birch, T.\"\n", "")).expect("a list");
    let again = class.assigned(&[]);
    assert!(again.out.contains("\n0 PDFs written\n"), "{}", again.out);
}

#[cfg(unix)]
#[test]
fn at_a_terminal_it_offers_the_export_and_asks_twice() {
    use crate::pty::{Session, Start};
    let class = Class::marked("leaver-asked", &["--no-pdf"]);
    let before = class.files();
    let (folder, taken) = (class.at("class"), fresh(&class, "taken.zip"));
    let arguments = ["class", &folder, "--leaver", "002", "--delete"];
    let start = || {
        Session::start(&Start {
            arguments: &arguments,
            ..Start::default()
        })
    };
    let mut session = start();
    session.shows("or nothing:");
    session.types(&format!("{taken}\n"));
    session.shows("yes or no:");
    assert!(Path::new(&taken).is_file());
    session.types("yes\n");
    session.shows("type the name:");
    session.types("Birch\n");
    session.shows("Nothing is deleted.");
    assert_eq!(class.files(), before);
    let mut session = start();
    session.shows("or nothing:");
    session.types("\n");
    session.shows("yes or no:");
    session.types("yes\n");
    session.shows("type the name:");
    session.types("Birch, T.\n");
    session.shows("stays taken.");
    let _ = session.ends();
    class.is_without("002", "Birch, T.");
}
