//! Papers made some time ago: their lessons have changed since, or their records are damaged.
//! They are marked by what was printed, and what cannot be read stops nothing else.

use std::fs;
use std::path::Path;

use crate::lessons::Folder;
use crate::papers::{Class, PLAN};
use crate::started::run;

/// The family of the first item.
const PSI_TO_FEET: &str = "pressure-and-head/psi-to-feet.toml";

/// The text of a lesson file as it is shipped.
fn shipped(path: &str) -> String {
    let lessons = Path::new(env!("CARGO_MANIFEST_DIR")).join("lessons");
    fs::read_to_string(lessons.join(path)).expect("the family")
}

#[test]
fn papers_of_older_lessons_are_marked_by_what_was_printed() {
    let class = Class::new("papers-year");
    class.assigned();
    class.write("typed.csv", "paper,1.1\n001,100\n");
    assert_eq!(class.mark(&["--answers", &class.at("typed.csv")]).err, "");
    let before = class.text("class/week-6/marks.csv");
    let text = shipped(PSI_TO_FEET);
    let lessons = Folder::with(
        "year-lessons",
        &[(
            PSI_TO_FEET,
            text.replace("format  = 1", "format  = 1\n# changed")
                .as_bytes(),
        )],
    );
    let marked = class.mark(&["--lessons", lessons.path()]);
    assert_eq!(
        marked.err,
        "note: 3 papers were drawn from other lessons than today's; they are marked by what was printed\n"
    );
    assert_eq!(class.text("class/week-6/marks.csv"), before);
    assert_eq!(marked.code, 0);
}

/// A year on: papers were made while the lesson counted 2.5 ft for each psi, and are marked
/// with the lesson mended. What counts is what was printed; new papers are of the new lesson.
#[test]
fn papers_made_before_a_lesson_changed_are_marked_by_the_lesson_of_then() {
    let text = shipped(PSI_TO_FEET);
    let old = text.replace("'head.from_pressure(pressure)'", "'2.5 ft/psi * pressure'");
    assert!(old != text);
    let lessons = Folder::with("year-old-lessons", &[(PSI_TO_FEET, old.as_bytes())]);
    let plan = PLAN
        .split("[[item]]")
        .take(2)
        .collect::<Vec<_>>()
        .join("[[item]]");
    let marks = |name: &str, old: bool| {
        let class = Class::new(name);
        class.write("plan.toml", &plan);
        let (plan, list) = (class.at("plan.toml"), class.at("list.csv"));
        let out = class.at("class");
        let asked = [
            "assign", &plan, "--roster", &list, "--out", &out, "--no-pdf",
        ];
        let with: &[&str] = if old {
            &["--lessons", lessons.path()]
        } else {
            &[]
        };
        let made = run(&[&asked[..], with].concat());
        assert_eq!((made.code, made.err.as_str()), (0, ""));
        // What the job says, and what the lesson of then made of it.
        let paper: serde_json::Value =
            serde_json::from_str(&class.text("class/week-6/screen/001.json")).expect("JSON");
        let told = paper["items"][0]["text"][0].as_str().expect("a text");
        let words: Vec<&str> = told.split_whitespace().collect();
        let at = words.iter().position(|word| word.starts_with("psi"));
        let psi: f64 = words[at.expect("psi") - 1].parse().expect("a figure");
        class.write("typed.csv", &format!("paper,1.1\n001,{}\n", 2.5 * psi));
        let marked = class.mark(&["--answers", &class.at("typed.csv")]);
        let row = marked.out.lines().find(|line| line.starts_with("001"));
        (row.expect("a row").to_owned(), marked.err)
    };
    let (then, said) = marks("papers-year-before", true);
    assert!(then.contains("1 of 1"), "{then}");
    assert_eq!(
        said,
        "note: 3 papers were drawn from other lessons than today's; they are marked by what was printed\n"
    );
    let (now, said) = marks("papers-year-after", false);
    assert!(now.contains("0 of 1"), "{now}");
    assert_eq!(said, "");
}

/// A record of a newer program and one that is broken each have their line; the rest of the
/// class is marked.
#[test]
fn records_that_cannot_be_read_stop_nothing_else() {
    let class = Class::new("papers-records");
    class.assigned();
    let newer =
        class
            .text("class/week-6/printed/001.json")
            .replacen("\"format\": 1", "\"format\": 2", 1);
    class.write("class/week-6/printed/001.json", &newer);
    class.write("class/week-6/printed/002.json", "{ \"format\": 1,\n");
    let run = class.mark(&[]);
    assert_eq!(run.code, 1);
    assert_eq!(
        class.plain(&run.err),
        "note: HERE/class/week-6/printed/001.json is written in format 2; this program reads format 1: use a newer program\n\
         note: HERE/class/week-6/printed/002.json breaks off or is damaged in line 2; put it back as it was\n"
    );
    assert!(run.out.contains("marks.csv is written\n"), "{}", run.out);
    // Nor does a file of answers to such a paper stop those that come after it.
    class.write("typed.csv", "paper,1.1\n003,5\n");
    class.write("class/week-6/handed-in/003.json", "{ \"format\": 1,\n");
    let typed = class.at("typed.csv");
    let run = class.mark(&["--answers", &typed]);
    assert_eq!(run.code, 1);
    assert!(Path::new(&class.at("class/week-6/handed-in/003-2.json")).exists());
    // Two of the papers cannot be read; the third is marked, and by what was typed.
    assert!(run.out.contains("\n1 of 1 marked\n"), "{}", run.out);
    let kept = class.text("class/week-6/handed-in/003-2.json");
    assert!(kept.contains("\"5\""), "{kept}");
}

/// What comes in of a paper whose record is damaged is left out; that the record is damaged
/// is said once.
#[test]
fn what_comes_in_of_a_damaged_record_is_told_and_the_record_once() {
    let class = Class::new("papers-record-once");
    class.assigned();
    let paper = "class/week-6/screen/002.json";
    assert_eq!(class.sit(paper, "a.json", "7\n\n\n\n\n\n?z\n").code, 0);
    class.write("typed.csv", "paper,1.1\n001,5\n002,5\n");
    let (a, typed) = (class.at("a.json"), class.at("typed.csv"));
    let record = class.text("class/week-6/printed/002.json");
    class.write("class/week-6/printed/002.json", &record[..200]);
    let broken = record[..200].matches('\n').count() + 1;
    let run = class.mark(&["--answers", &a, &typed]);
    assert_eq!(run.code, 1);
    assert_eq!(
        class.plain(&run.err),
        format!(
            "note: HERE/a.json is of paper 002, whose record cannot be read; it is left out\n\
             note: HERE/typed.csv, paper 002, has a record that cannot be read; it is left out\n\
             note: HERE/class/week-6/printed/002.json breaks off or is damaged in line {broken}; put it back as it was\n"
        )
    );
    // The same of what lies there already: the paper is this class's, its record is not to be read.
    class.write("class/week-6/printed/002.json", &record);
    assert_eq!(class.mark(&["--answers", &a]).code, 0);
    class.write("class/week-6/printed/002.json", &record[..200]);
    assert_eq!(
        class.plain(&class.mark(&[]).err),
        format!(
            "note: HERE/class/week-6/printed/002.json breaks off or is damaged in line {broken}; put it back as it was\n\
             note: a hand-in is of paper 002, of which this class has no record that can be read; it is left out\n"
        )
    );
}
