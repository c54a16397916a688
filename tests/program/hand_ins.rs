//! What came in more than once, what is typed once more, what cannot be read, and what is
//! decided and taken back: each has its sentence, and nothing is lost.

use std::fs;

use crate::papers::Class;

/// Marks with these files; the code, what is noted, and what is printed.
fn marked(class: &Class, files: &[&str]) -> (i32, String, String) {
    let files: Vec<String> = files.iter().map(|name| class.at(name)).collect();
    let mut arguments = vec!["--answers"];
    arguments.extend(files.iter().map(String::as_str));
    let run = class.mark(&arguments);
    (run.code, class.plain(&run.err), run.out)
}

/// The mark sheet's row of somebody.
fn row(class: &Class, id: &str) -> String {
    let sheet = class.text("class/week-6/marks.csv");
    let own = sheet.lines().find(|row| row.starts_with(id));
    own.expect("a row").to_owned()
}

#[test]
fn what_was_taken_in_first_counts_whichever_way_it_came() {
    let class = Class::new("hand-ins-first");
    class.assigned();
    class.write("r.csv", "paper,1.1\n001,100\n");
    let paper = "class/week-6/screen/001.json";
    assert_eq!(class.sit(paper, "s.json", "?Z\n?Z\n").code, 0);
    assert_eq!(marked(&class, &["r.csv"]).0, 0);
    let before = row(&class, "001");
    let (code, err, _) = marked(&class, &["s.json"]);
    assert_eq!((code, err.as_str()), (0, ""));
    let now = row(&class, "001");
    let marks = before.trim_end_matches(|sign| sign != ',');
    let said = now.strip_prefix(marks).expect("the marks as they were");
    assert!(
        said.starts_with("handed in twice: typed in counts; the answers file of 20")
            && said.ends_with(" does not"),
        "{said}"
    );
}

/// In one command files of answers are taken in by the clock, whichever is named first.
#[test]
fn of_two_files_in_one_command_the_one_handed_in_first_counts() {
    let class = Class::new("hand-ins-order");
    class.assigned();
    let paper = "class/week-6/screen/001.json";
    assert_eq!(class.sit(paper, "b.json", "7\n?Z\n?Z\n").code, 0);
    assert_eq!(class.sit(paper, "a.json", "8\n?Z\n?Z\n").code, 0);
    let (code, err, out) = marked(&class, &["a.json", "b.json"]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(
        out.contains("handed in twice: the answers file of "),
        "{out}"
    );
    let first = class.text("class/week-6/handed-in/001.json");
    assert!(first.contains("\"7\""), "{first}");
    assert!(
        class
            .text("class/week-6/handed-in/001-2.json")
            .contains("\"8\"")
    );
}

#[test]
fn a_later_table_mends_its_own_columns_and_says_so() {
    let class = Class::new("hand-ins-mended");
    class.assigned();
    class.write("c1.csv", "paper,1.1,2.1\n002,1,38\n");
    class.write("c2.csv", "paper,1.1\n2,166\n");
    class.write("c3.csv", "paper,1.1\n002,\n003,\n");
    class.write("c4.csv", "paper,1.1,2.1\n002,,\n");
    assert_eq!(marked(&class, &["c1.csv"]).1, "");
    for (file, said, kept) in [
        (
            "c2.csv",
            "note: HERE/c2.csv, paper 2, is taken as paper 002\n\
             note: HERE/c2.csv, paper 2: 1.1 is typed anew; the rest stays\n",
            ["166", "38"],
        ),
        (
            "c1.csv",
            "note: HERE/c1.csv, paper 002: 1.1 is typed anew; the rest stays\n",
            ["1", "38"],
        ),
        (
            "c1.csv",
            "note: HERE/c1.csv, paper 002, was taken in before\n",
            ["1", "38"],
        ),
        (
            "c3.csv",
            "note: HERE/c3.csv, paper 002: 1.1 is emptied; the rest stays\n",
            ["", "38"],
        ),
        (
            "c4.csv",
            "note: HERE/c4.csv, paper 002: an empty row; what was typed before stays\n",
            ["", "38"],
        ),
    ] {
        let (code, err, out) = marked(&class, &[file]);
        assert_eq!((code, err.as_str()), (0, said), "{file}");
        assert!(out.contains("1 of 3 marked"), "{out}");
        let names =
            ["-4", "-3", "-2", ""].map(|late| format!("class/week-6/handed-in/002{late}.json"));
        let there = |name: &&String| std::path::Path::new(&class.at(name)).exists();
        let latest = class.text(names.iter().find(there).expect("a hand-in"));
        let kept = kept.map(|text| format!("[\n        \"{text}\""));
        assert!(
            kept.iter().all(|text| latest.contains(text)),
            "{file}: {latest}"
        );
    }
}

#[test]
fn what_cannot_be_read_is_quoted_and_stops_nothing() {
    let class = Class::new("hand-ins-unread");
    class.assigned();
    class.write(
        "t.csv",
        "paper,1.1,2.1,2.2,2.3\n001,6O9,abc,1-2-3,x y z\n002,,6O9,,\n",
    );
    let said = "note: 001, 1.1: `6O9` cannot be read\n\
                note: 001, 2.1: `abc` cannot be read\n\
                note: 001, 2.2: `1-2-3` cannot be read\n\
                note: 001, 1 more answer cannot be read\n\
                note: 002, 2.1: `6O9` cannot be read\n";
    let (code, err, out) = marked(&class, &["t.csv"]);
    assert_eq!((code, err.as_str()), (0, said));
    assert!(out.contains("2 of 3 marked"), "{out}");
    let own = row(&class, "001");
    let notes = ",1.1: `6O9` cannot be read; 2.1: `abc` cannot be read; 2.2: `1-2-3` cannot be read; 1 more answer cannot be read";
    assert!(own.ends_with(notes), "{own}");
    // Whose marks are set by hand has been looked at.
    let run = class.mark(&["--judge", "002.2=1 meant 609", "--drop", "1=read out"]);
    assert!(
        !run.err.contains("note: 002") && !run.err.contains("1.1"),
        "{}",
        run.err
    );
}

#[test]
fn results_that_cannot_be_written_are_an_error_and_change_nothing() {
    let class = Class::new("hand-ins-refused");
    class.assigned();
    class.write("t.csv", "paper,1.1\n001,100\n");
    for name in ["marks.csv", "report.html", "report.csv"] {
        fs::create_dir(class.at(&format!("class/week-6/{name}"))).expect("a folder in the way");
    }
    let (code, err, out) = marked(&class, &["t.csv"]);
    assert_eq!(code, 3, "{err}");
    let lines: Vec<&str> = err.lines().collect();
    assert_eq!(lines.len(), 4, "{err}");
    for (line, start) in lines.iter().zip([
        "error: HERE/class/week-6/marks.csv cannot be written: ",
        "  HERE/class/week-6/report.html cannot be written: ",
        "  HERE/class/week-6/report.csv cannot be written: ",
        "  see that HERE/class/week-6 can be written to and has room, then mark again: what was kept before is unchanged",
    ]) {
        assert!(line.starts_with(start), "{err}");
    }
    assert!(out.ends_with("1 of 3 marked\n"), "{out}");
}

#[test]
fn a_decision_is_taken_back_and_one_for_nothing_waits() {
    let class = Class::new("hand-ins-back");
    class.assigned();
    class.write("t.csv", "paper,1.1\n001,100\n");
    assert_eq!(marked(&class, &["t.csv"]).1, "");
    let before = class.text("class/week-6/marks.csv");
    let run = class.mark(&["--drop", "2=read out", "--judge", "001.1=0.5 told me"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(class.text("class/week-6/marks.csv") != before);
    let run = class.mark(&["--drop", "2=", "--judge", "001.1="]);
    let said = "note: item 2 counts again\n\
                note: item 1 of paper 001 has the marks again that are worked out\n";
    assert_eq!((run.code, run.err.as_str()), (0, said));
    assert_eq!(class.text("class/week-6/marks.csv"), before);
    let run = class.mark(&["--drop", "2=", "--judge", "001.1= "]);
    let said = "note: item 2 was not dropped; nothing is taken back\n\
                note: item 1 of paper 001 was not judged; nothing is taken back\n";
    assert_eq!((run.code, run.err.as_str()), (0, said));
    let run = class.mark(&["--judge", "002.1=1 by word of mouth"]);
    let said = "note: paper 002 has nothing in yet; what item 1 is judged counts once it is in\n";
    assert_eq!((run.code, run.err.as_str()), (0, said));
}

#[test]
fn an_empty_table_is_called_empty() {
    let class = Class::new("hand-ins-empty");
    class.assigned();
    class.write("t6.csv", "\u{feff}\n");
    let (code, err, _) = marked(&class, &["t6.csv"]);
    assert_eq!(
        (code, err.as_str()),
        (
            1,
            "note: HERE/t6.csv: the table is empty; write paper,1.1,1.2,2.1 in its first line, item and line, and a line for each paper\n\
             note: HERE/t6.csv is left out\n"
        )
    );
}
