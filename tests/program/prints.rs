//! The PDFs of a class's papers from outside: what is made, what stays, and what stands
//! in them.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::problems::working;

use crate::class_folder::{ClassFolder, files};
use crate::started::{Run, finish, program, run};

const PLAN: &str = r#"format = 1
plan = "week-6"
title = "Week 6"
date = "2026-11-18"
tables = ["copper"]

[[item]]
family = "psi-to-feet"
"#;

/// As rosters have them.
const LIST: &str = "\u{feff}Name\r\n\"D'Arcy-Muñoz, Łucja\"\r\n\"O’Brien, R.\"\r\n\"Žák, Ø.\"\r\n";

struct Class(ClassFolder);

impl Class {
    fn new(name: &str, plan: &str, list: &str) -> Self {
        Self(ClassFolder::new(name, plan, list))
    }

    fn at(&self, name: &str) -> String {
        self.0.at(name)
    }

    fn assign(&self, options: &[&str]) -> Run {
        let (plan, list, class) = (self.at("plan.toml"), self.at("list.csv"), self.at("class"));
        let asked = ["assign", &plan, "--roster", &list, "--out", &class];
        run(&[&asked[..], options].concat())
    }

    fn assigned(&self, options: &[&str]) -> Run {
        let run = self.assign(options);
        assert_eq!((run.code, run.err.as_str()), (0, ""));
        run
    }

    fn bytes(&self, name: &str) -> Vec<u8> {
        fs::read(self.at(&format!("class/week-6/{name}"))).expect(name)
    }

    /// The PDFs of the folder with their bytes.
    fn pdfs(&self) -> BTreeMap<String, Vec<u8>> {
        let folder = PathBuf::from(self.at("class/week-6"));
        let mut found = BTreeMap::new();
        for room in [folder.clone(), folder.join("papers")] {
            for entry in fs::read_dir(room).expect("a folder") {
                let path = entry.expect("an entry").path();
                if path.extension().is_some_and(|ending| ending == "pdf") {
                    let name = path.strip_prefix(&folder).expect("inside");
                    let bytes = fs::read(&path).expect("a file");
                    found.insert(name.display().to_string(), bytes);
                }
            }
        }
        found
    }

    /// Every file of the class; the place of the folder is taken out of what says it.
    fn files(&self) -> BTreeMap<String, Vec<u8>> {
        let all = files(Path::new(&self.at("class"))).into_iter();
        all.map(|(name, bytes)| match String::from_utf8(bytes) {
            Ok(text) => (name, text.replace(self.0.path(), "HERE").into_bytes()),
            Err(packed) => (name, packed.into_bytes()),
        })
        .collect()
    }

    /// What a PDF reads as; none where the machine has no reader of PDFs.
    fn text(&self, name: &str) -> Option<String> {
        let path = self.at(&format!("class/week-6/{name}"));
        let made = Command::new("pdftotext")
            .args(["-layout", &path, "-"])
            .output()
            .ok()?;
        assert!(made.status.success(), "{name}");
        Some(String::from_utf8(made.stdout).expect("UTF-8"))
    }

    fn record(&self, paper: &str) -> serde_json::Value {
        let bytes = self.bytes(&format!("printed/{paper}.json"));
        serde_json::from_slice(&bytes).expect("a record")
    }
}

/// A text without its blanks, since lines break where the page wants them to.
fn solid(text: &str) -> String {
    text.chars().filter(|sign| !sign.is_whitespace()).collect()
}

fn names(pdfs: &BTreeMap<String, Vec<u8>>) -> Vec<&str> {
    pdfs.keys().map(String::as_str).collect()
}

const ALL: [&str; 6] = [
    "key.pdf",
    "papers/001.pdf",
    "papers/002.pdf",
    "papers/003.pdf",
    "print.pdf",
    "strips.pdf",
];

#[test]
fn every_paper_is_printed_once_and_a_late_joiner_changes_nobodys() {
    let class = Class::new("prints-all", PLAN, LIST);
    let run = class.assigned(&[]);
    assert!(run.out.contains("\n6 PDFs written\n"), "{}", run.out);
    assert!(
        run.out.ends_with(
            "papers/, print.pdf and screen/ may be handed out; key.pdf, strips.pdf, printed/ and class.key are yours alone\n"
        ),
        "{}",
        run.out
    );
    let before = class.pdfs();
    assert_eq!(names(&before), ALL);
    // Again: nothing is made, nothing changes.
    let again = class.assigned(&[]);
    assert!(again.out.contains("\n0 PDFs written\n"), "{}", again.out);
    assert!(
        again
            .out
            .ends_with("\neverything is there: nothing had to be written\n"),
        "{}",
        again.out
    );
    assert_eq!(class.pdfs(), before);
    // What a stop took is made again, to the last byte.
    for name in ["papers/002.pdf", "key.pdf"] {
        fs::remove_file(class.at(&format!("class/week-6/{name}"))).expect(name);
    }
    let again = class.assigned(&[]);
    assert!(again.out.contains("\n2 PDFs written\n"), "{}", again.out);
    assert!(
        again.out.ends_with(
            "papers/002.pdf may be handed out; key.pdf, printed/ and class.key are yours alone\n"
        ),
        "{}",
        again.out
    );
    assert_eq!(class.pdfs(), before);
    // A late joiner: one paper more, and the files for all.
    fs::write(class.at("list.csv"), LIST.to_owned() + "\"Cole, M.\"\r\n").expect("a list");
    let late = class.assign(&[]);
    assert!(late.out.contains("\n4 PDFs written\n"), "{}", late.out);
    assert!(
        late.out.ends_with(
            "papers/004.pdf, print.pdf and screen/004.json may be handed out; key.pdf, strips.pdf, printed/ and class.key are yours alone\n"
        ),
        "{}",
        late.out
    );
    let after = class.pdfs();
    for (name, bytes) in before
        .iter()
        .filter(|(name, _)| name.starts_with("papers/"))
    {
        assert_eq!(after.get(name), Some(bytes), "{name}");
    }
    assert!(after.contains_key("papers/004.pdf"));
    assert!(after["print.pdf"] != before["print.pdf"]);
}

/// A make-up stands in no file with others, and has key and strip of its own.
#[test]
fn a_make_up_is_printed_by_itself() {
    let class = Class::new("prints-make-up", PLAN, LIST);
    class.assigned(&[]);
    let before = class.pdfs();
    let made = class.assigned(&["--make-up", "002"]);
    assert!(made.out.contains("\n3 PDFs written\n"), "{}", made.out);
    assert!(
        made.out.ends_with(
            "papers/002+2.pdf and screen/002+2.json may be handed out; key-002+2.pdf, strip-002+2.pdf and printed/ are yours alone\n"
        ),
        "{}",
        made.out
    );
    let after = class.pdfs();
    let own = ["key-002+2.pdf", "papers/002+2.pdf", "strip-002+2.pdf"];
    assert_eq!(after.len(), before.len() + own.len());
    for (name, bytes) in &before {
        assert_eq!(after.get(name), Some(bytes), "{name}");
    }
    if let Some(key) = class.text("key-002+2.pdf") {
        assert!(key.contains("Paper 002+2, problem 1"), "{key}");
        let paper = class.text("papers/002+2.pdf").expect("a paper");
        assert!(paper.contains("002+2") && solid(&paper).contains("O’Brien,R."));
        assert!(
            class
                .text("strip-002+2.pdf")
                .expect("a strip")
                .contains("002+2")
        );
    }
    // What a stop took is made again by either command, to the last byte.
    for (name, options) in own.iter().zip([&["--make-up", "002"][..], &[], &[]]) {
        fs::remove_file(class.at(&format!("class/week-6/{name}"))).expect(name);
        let again = class.assigned(options);
        assert!(again.out.contains("1 PDF written\n"), "{}", again.out);
        assert_eq!(class.pdfs(), after, "{name}");
    }
    // Another size is for all of them.
    class.assigned(&["--size", "a4"]);
    let a4 = class.pdfs();
    assert_eq!(a4.len(), after.len());
    assert!(own.iter().all(|name| a4[*name] != after[*name]));
    class.assigned(&["--size", "letter"]);
    assert_eq!(class.pdfs(), after);
}

#[test]
fn what_stands_in_them_is_what_was_drawn() {
    let class = Class::new("prints-text", PLAN, LIST);
    class.assigned(&[]);
    let Some(all) = class.text("print.pdf") else {
        return;
    };
    let all = solid(&all);
    for name in ["D'Arcy-Muñoz, Łucja", "O’Brien, R.", "Žák, Ø."] {
        assert!(all.contains(&solid(name)), "{name}");
    }
    assert!(all.contains("Tablesthatmaybeopen:copper."), "{all}");
    assert!(all.contains("18Nov2026"), "{all}");
    let (key, strips) = (class.text("key.pdf"), class.text("strips.pdf"));
    let (key, strips) = (key.expect("a key"), strips.expect("strips"));
    for paper in ["001", "002", "003"] {
        let screen: serde_json::Value =
            serde_json::from_slice(&class.bytes(&format!("screen/{paper}.json"))).expect("JSON");
        let own = solid(&class.text(&format!("papers/{paper}.pdf")).expect("a paper"));
        // Every given with its unit: the whole job.
        for said in screen["items"][0]["text"].as_array().expect("a text") {
            let said = solid(said.as_str().expect("a text"));
            // A rule stands as its own line, where its words are set otherwise.
            let said = said.trim_start_matches("Houserule,");
            assert!(own.contains(said), "{said}\n{own}");
            assert!(all.contains(said), "{said}");
        }
        assert!(strips.contains(paper) && key.contains(&format!("Paper {paper}, problem 1")));
    }
}

/// The spans that are accepted, the figures of known mistakes and the words of the key stand
/// on no paper and in no file for the screen.
#[test]
fn no_paper_and_no_screen_file_has_an_answer() {
    let class = Class::new("prints-sealed", PLAN, LIST);
    class.assigned(&[]);
    for paper in ["001", "002", "003"] {
        let record = class.record(paper);
        let screen =
            String::from_utf8(class.bytes(&format!("screen/{paper}.json"))).expect("UTF-8");
        let kept = &record["items"][0]["problem"];
        let lines = kept["lines"].as_array().expect("lines");
        let mut answers = lines
            .iter()
            .map(|line| line["answer"].as_str().expect("an answer"));
        let pages = class.text(&format!("papers/{paper}.pdf"));
        assert!(
            answers.clone().all(|answer| answer.ends_with(" ft")),
            "{lines:?}"
        );
        assert!(
            answers.all(|answer| {
                !screen.contains(answer) && pages.as_ref().is_none_or(|page| !page.contains(answer))
            }),
            "{lines:?} in {screen} or {pages:?}"
        );
        let mistakes = kept["mistakes"].as_array().expect("mistakes");
        assert!(!mistakes.is_empty());
        let texts: Vec<&str> = mistakes
            .iter()
            .filter_map(|own| own["text"].as_str())
            .collect();
        for text in texts.iter().filter(|text| text.len() > 2) {
            assert!(!screen.contains(text), "{text}");
            if let Some(page) = &pages {
                assert!(!page.contains(text), "{text}\n{page}");
            }
        }
        for name in mistakes.iter().filter_map(|own| own["id"].as_str()) {
            assert!(!screen.contains(name), "{name}");
        }
        for word in [" to mark", "Likely turn", "after a:", "On the job:"] {
            assert!(!screen.contains(word), "{word}");
            if let Some(page) = &pages {
                assert!(!page.contains(word), "{word}\n{page}");
            }
        }
    }
    let Some(strips) = class.text("strips.pdf") else {
        return;
    };
    // A span, as the strip prints it.
    let print = class.text("print.pdf").expect("papers");
    let spans: Vec<&str> = strips
        .lines()
        .filter(|line| line.contains(" to "))
        .collect();
    assert!(!spans.is_empty(), "{strips}");
    for line in spans {
        let words: Vec<&str> = line.split_whitespace().collect();
        for at in words.windows(3).filter(|at| at[1] == "to") {
            if at[0].parse::<f64>().is_ok() && at[2].parse::<f64>().is_ok() {
                assert!(!print.contains(&at.join(" ")), "{at:?}");
            }
        }
    }
}

#[test]
fn without_pdfs_none_is_made_and_they_come_later_from_what_was_printed() {
    let class = Class::new("prints-later", PLAN, LIST);
    let run = class.assigned(&["--no-pdf"]);
    assert!(!run.out.contains("PDF"), "{}", run.out);
    assert!(!Path::new(&class.at("class/week-6/print.pdf")).exists());
    let record = class.bytes("printed/001.json");
    class.assigned(&[]);
    let usual = class.pdfs();
    assert_eq!(names(&usual), ALL);
    assert_eq!(class.bytes("printed/001.json"), record);
    // Another size makes all of them anew, and stays for the next time.
    class.assigned(&["--size", "a4"]);
    let a4 = class.pdfs();
    assert!(
        usual
            .iter()
            .all(|(name, bytes)| a4.get(name) != Some(bytes))
    );
    assert!(class.assigned(&[]).out.contains("\n0 PDFs written\n"));
    class.assigned(&["--size", "letter"]);
    assert_eq!(class.pdfs(), usual);
}

#[test]
fn a_name_without_letters_gets_a_line_to_write_it_on() {
    let class = Class::new("prints-letters", PLAN, "name\n李\n");
    let run = class.assign(&[]);
    assert_eq!(
        (run.code, run.err.as_str()),
        (
            0,
            "note: 李 has a sign that the program's letters lack, '李'; paper 001 has a line to write the name on\n"
        )
    );
    assert!(class.pdfs().contains_key("papers/001.pdf"));
}

#[test]
fn versions_have_one_key_each() {
    let plan = PLAN.replace("tables =", "versions = 2\ntables =");
    let class = Class::new("prints-versions", &plan, LIST);
    class.assigned(&[]);
    let Some(key) = class.text("key.pdf") else {
        return;
    };
    assert!(key.contains("Version 1, problem 1") && key.contains("Version 2, problem 1"));
    assert!(
        !key.contains("Version 3") && !key.contains("Paper 0"),
        "{key}"
    );
    assert!(
        class
            .text("papers/002.pdf")
            .expect("a paper")
            .contains("version 2")
    );
}

/// Stopped at any moment, no file is half: what is there is what a whole run makes. The
/// program is killed as soon as a file of its work is there, a later one each time.
#[test]
fn a_stop_leaves_no_half_file_and_the_next_run_goes_on() {
    let whole = Class::new("prints-whole", PLAN, LIST);
    whole.assigned(&["--no-pdf"]);
    let key = fs::read(whole.at("class/class.key")).expect("a key");
    whole.assigned(&[]);
    let wanted = whole.files();
    let class = Class::new("prints-killed", PLAN, LIST);
    fs::create_dir_all(class.at("class")).expect("a folder");
    fs::write(class.at("class/class.key"), key).expect("a key");
    let mut killed = 0;
    for seen in [
        "roster.json",
        "week-6/printed/001.json",
        "week-6/screen/003.json",
        "week-6/papers/001.pdf",
    ] {
        let (plan, list) = (class.at("plan.toml"), class.at("list.csv"));
        let out = class.at("class");
        let mut child = program(&["assign", &plan, "--roster", &list, "--out", &out])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("started");
        let seen = class.at(&format!("class/{seen}"));
        while !Path::new(&seen).exists() && child.try_wait().expect("asked").is_none() {
            std::thread::sleep(Duration::from_millis(1));
        }
        let _ = child.kill();
        killed += usize::from(child.wait().expect("ended").code().is_none());
        for (name, bytes) in class.files() {
            let beside = name.contains(".pumpwright.");
            // What the files hold is told as far as they are made.
            let own = beside || name.ends_with("prints.json") || wanted.get(&name) == Some(&bytes);
            assert!(own, "{name} is half, or another");
        }
    }
    assert!(
        killed >= 3,
        "the program was done before it was killed: {killed}"
    );
    let (plan, list) = (class.at("plan.toml"), class.at("list.csv"));
    let out = class.at("class");
    let last = finish(&mut program(&[
        "assign", &plan, "--roster", &list, "--out", &out,
    ]));
    assert_eq!(last.code, 0, "{}", last.err);
    let mut made = class.files();
    made.retain(|name, _| !name.contains(".pumpwright."));
    let names = |all: &BTreeMap<String, Vec<u8>>| all.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(&made), names(&wanted));
    assert!(made == wanted, "a file is another");
}

#[test]
fn the_files_are_sound_and_have_their_letters_in_them() {
    let class = Class::new("prints-sound", PLAN, LIST);
    class.assigned(&[]);
    for name in ALL {
        sound(&class, name);
    }
}

/// A PDF is whole, and its letters are in it.
fn sound(class: &Class, name: &str) {
    let path = class.at(&format!("class/week-6/{name}"));
    if let Ok(checked) = Command::new("qpdf").args(["--check", &path]).output() {
        assert!(checked.status.success(), "{name}");
    }
    let Ok(fonts) = Command::new("pdffonts").arg(&path).output() else {
        return;
    };
    let fonts = String::from_utf8(fonts.stdout).expect("UTF-8");
    let rows: Vec<&str> = fonts.lines().skip(2).collect();
    assert!(!rows.is_empty(), "{name} has no letters");
    for row in rows {
        // Embedded, a subset, and with its letters told: emb, sub, uni.
        assert!(row.contains("yes yes yes"), "{name}: {row}");
    }
}

/// Names as a school's list has them: accents, apostrophes, hyphens, commas.
const SURNAMES: [&str; 13] = [
    "D'Arcy-Muñoz",
    "O’Brien",
    "Žák",
    "Ångström",
    "Nuñez y Gómez",
    "Müller-Lüdenscheidt",
    "Łukasiewicz",
    "Çelik",
    "Þórsdóttir",
    "van der Oß",
    "Sørensen",
    "Ștefănescu",
    "Gale",
];

/// A class that needs a second file for the printer: every name, given and unit stands in
/// the files, which are sound and have their letters in them.
#[test]
#[cfg_attr(
    debug_assertions,
    ignore = "26 papers take long in a build for testing; the release tests of .ci/long do it"
)]
fn a_class_of_twenty_six_is_printed_in_two_parts() {
    let people = SURNAMES
        .iter()
        .flat_map(|own| [format!("{own}, Zoë"), format!("{own}, T. J.")]);
    let people: Vec<String> = people.collect();
    let list: Vec<String> = people.iter().map(|own| format!("\"{own}\"\r\n")).collect();
    let list = list.concat();
    let plan = PLAN.to_owned() + "\n[[item]]\nfamily = \"cable-drop\"\nlevel = 2\n";
    let class = Class::new("prints-two-parts", &plan, &format!("name\r\n{list}"));
    let run = class.assign(&[]);
    assert_eq!(
        (run.code, run.err.as_str()),
        (
            0,
            "note: 26 papers are printed, the last of them in print-2.pdf\n"
        )
    );
    let pdfs = class.pdfs();
    let together =
        ["key", "strips", "print"].map(|own| [format!("{own}.pdf"), format!("{own}-2.pdf")]);
    let together: Vec<String> = together.into_iter().flatten().collect();
    assert_eq!(pdfs.len(), 26 + together.len());
    for name in pdfs.keys() {
        sound(&class, name);
    }
    let Some(first) = class.text("print.pdf") else {
        println!("pdftotext is not there; names, givens and units were not looked for");
        return;
    };
    let second = class.text("print-2.pdf").expect("the second part");
    let (first, second) = (solid(&first), solid(&second));
    for (at, name) in people.iter().enumerate() {
        let id = format!("{:03}", at + 1);
        let own = solid(&class.text(&format!("papers/{id}.pdf")).expect("a paper"));
        let (part, other) = if at < 24 {
            (&first, &second)
        } else {
            (&second, &first)
        };
        assert!(
            own.contains(&solid(name)) && part.contains(&solid(name)),
            "{name}"
        );
        assert!(!other.contains(&solid(name)), "{name} stands in both parts");
        let screen: serde_json::Value =
            serde_json::from_slice(&class.bytes(&format!("screen/{id}.json"))).expect("JSON");
        for item in screen["items"].as_array().expect("items") {
            for said in item["text"].as_array().expect("a text") {
                let said = solid(said.as_str().expect("a text"));
                // A rule stands as its own line, where its words are set otherwise.
                let said = said.trim_start_matches("Houserule,");
                assert!(own.contains(said), "{said}\n{own}");
                assert!(part.contains(said), "{said}");
            }
            for unit in item["lines"].as_array().expect("lines") {
                let unit = unit["unit"].as_str().map(solid);
                assert!(unit.is_none_or(|unit| own.contains(&unit)), "{id}");
            }
        }
    }
}

/// Who is in gets a page: marks, what went wrong in words, what to practise, what was
/// decided; who is not gets none.
#[test]
fn slips_say_what_went_wrong_and_what_to_practise() {
    let class = Class::new("prints-slips", PLAN, LIST);
    class.assigned(&["--no-pdf"]);
    let record = class.record("001");
    let mistake = &record["items"][0]["problem"]["mistakes"][0];
    let wrong = mistake["text"].as_str().expect("a figure").to_owned();
    let typed = format!("paper;1.1\n001;{wrong}\n002;\"1\"\n");
    fs::write(class.at("typed.csv"), typed).expect("a table");
    let (folder, typed) = (class.at("class"), class.at("typed.csv"));
    let judge = "002.1=0.5 the scale was bent";
    let asked = ["mark", &folder, "--answers", &typed, "--judge", judge];
    let marked = run(&[&asked[..], &["--decimal-comma", "--semicolons"]].concat());
    assert_eq!((marked.code, marked.err.as_str()), (0, ""));
    assert!(
        marked.out.ends_with("slips.pdf is written\n"),
        "{}",
        marked.out
    );
    let sheet = String::from_utf8(class.bytes("marks.csv")).expect("UTF-8");
    assert!(sheet.contains(";0,5;"), "{sheet}");
    let Some(text) = class.text("slips.pdf") else {
        return;
    };
    assert!(text.contains("Paper 001") && text.contains("Paper 002"));
    assert!(!text.contains("Paper 003"), "{text}");
    for said in [
        "0,5 of 1 marks",
        "judged 0.5: the scale was bent.",
        &*format!("Line 1, head of water, “{wrong}”: "),
        "pumpwright practice --family psi-to-feet",
    ] {
        assert!(solid(&text).contains(&solid(said)), "{said}\n{text}");
    }
    let first = class.bytes("slips.pdf");
    let again = run(&["mark", &folder, "--decimal-comma", "--semicolons"]);
    assert_eq!(again.code, 0, "{}", again.err);
    assert_eq!(class.bytes("slips.pdf"), first);
}

/// The answers of the key are those that `problem --worked` prints of a problem: both print
/// the engine's working, here that of the problems as the records have them.
#[test]
fn the_keys_answers_are_those_of_the_working() {
    let class = Class::new("prints-key", PLAN, LIST);
    class.assigned(&[]);
    let Some(key) = class.text("key.pdf") else {
        return;
    };
    let key = solid(&key);
    let mut answers = std::collections::BTreeSet::new();
    for number in ["001", "002", "003"] {
        let printed: PrintedPaper =
            serde_json::from_slice(&class.bytes(&format!("printed/{number}.json"))).expect("JSON");
        let lessons = class.bytes(&format!("lessons/{}.json", printed.lessons));
        let lessons: LessonText = serde_json::from_slice(&lessons).expect("JSON");
        let paper = printed.paper(&lessons.library()).expect("made again");
        for item in &paper.items {
            for line in working(&item.problem)
                .iter()
                .filter(|line| !line.text.is_empty())
            {
                assert!(key.contains(&solid(&line.text)), "{}", line.text);
                answers.insert(line.text.clone());
            }
        }
    }
    assert!(answers.len() >= 3, "{answers:?}");
}
