//! A paper in plain lines: the same features as on the screen.

use insta::assert_snapshot;
use pumpwright_engine::entries::{Place, Purpose};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::Settings;
use pumpwright_engine::quantities::System;

use super::bench::{MANNER, library, person};
use super::exam::Shared;
use crate::SetUp;
use crate::plain::{ExamAsked, PlainOptions, exam_plain};

const MINUTE: i64 = 60_000;

/// What is printed when these lines are typed.
fn run(library: &Library, clerk: &Shared, minutes: Option<u32>, typed: &str) -> String {
    let (said, given) = run_to(library, clerk, minutes, typed);
    assert_eq!(given, None, "{said}");
    said
}

/// The same, with the file of a paper that is to be answered elsewhere.
fn run_to(
    library: &Library,
    clerk: &Shared,
    minutes: Option<u32>,
    typed: &str,
) -> (String, Option<String>) {
    let settings = Settings::default();
    let mut draws = || 1;
    let (mut person, _) = person(SetUp::default());
    person.clerk = Box::new(clerk.clone());
    let options = PlainOptions {
        system: System::Us,
        settings: &settings,
        manner: MANNER,
        ascii: false,
        echo: true,
        count: None,
        by_record: false,
        draws: &mut draws,
        person,
    };
    let asked = ExamAsked {
        paper: None,
        minutes,
        opens: &|file| match file {
            "nowhere.json" => Err("nowhere.json cannot be read: no such file".to_owned()),
            _ => Ok(()),
        },
    };
    let (mut input, mut output) = (typed.as_bytes(), Vec::new());
    let given = exam_plain(library, asked, options, (&mut input, &mut output));
    let given = given.expect("memory can be written");
    (String::from_utf8(output).expect("it is text"), given)
}

#[test]
fn a_paper_from_an_instructor_stands_in_the_list_and_its_file_is_asked() {
    let library = library();
    let last = "3\n\n3\n  in & out/?019.json \nthe paper has this\n";
    let (said, given) = run_to(&library, &Shared::default(), None, last);
    assert_eq!(given.as_deref(), Some("in & out/?019.json"));
    assert_snapshot!(said);
    // A file that cannot be opened is told, and one goes back to the list; where the input
    // ends behind it, it is handed on to be refused.
    let refused = "3\nnowhere.json\n";
    let (said, given) = run_to(
        &library,
        &Shared::default(),
        None,
        &format!("{refused}?q\n"),
    );
    assert_eq!(given, None, "{said}");
    assert!(
        said.contains("note: nowhere.json cannot be read: no such file\nnext: A number takes"),
        "{said}"
    );
    let then = format!("{refused}3\n019.json\n");
    let (_, given) = run_to(&library, &Shared::default(), None, &then);
    assert_eq!(given.as_deref(), Some("019.json"));
    let (_, given) = run_to(&library, &Shared::default(), None, refused);
    assert_eq!(given.as_deref(), Some("nowhere.json"));
    // Where the input ends nothing is opened.
    let said = run(&library, &Shared::default(), None, "3\n");
    assert!(
        said.ends_with("goes back to the list.\nwrite: \n"),
        "{said}"
    );
}

#[test]
fn a_paper_from_the_list_to_its_working() {
    let clerk = Shared::default();
    let typed = "1\n\na\n?a\n\n?2\nb\n?z\n12\n-\n?z\n?z\n2\n\n";
    assert_snapshot!(run(&library(), &clerk, None, typed));
    let entries = clerk.entries();
    assert_eq!(entries.len(), 12);
    for entry in &entries {
        assert_eq!((entry.place, entry.purpose), (Place::Plain, Purpose::Exam));
        assert!(entry.sitting.is_some() && entry.area.is_some());
    }
    assert!(clerk.drafts().is_empty());
}

#[test]
fn there_is_no_help_but_tables_and_sums() {
    let typed = "?\n!\n?g pump\n?l\n?s\n@ 1\n& 2 ft + 3 ft\n&\n?k\n?q\n";
    let said = run(
        &library(),
        &Shared::default(),
        Some(0),
        &format!("1\n{typed}"),
    );
    assert_eq!(
        said.matches("note: no help on this paper").count(),
        3,
        "{said}"
    );
    assert!(said.contains("L lesson has no use on a paper"), "{said}");
    assert!(
        said.contains("sum: 5 ft, as s1") && said.contains("table 1:"),
        "{said}"
    );
    assert!(said.contains("no clock"), "{said}");
    assert!(said.contains("end: Kept as it stands"), "{said}");
}

#[test]
fn a_paper_that_was_stopped_is_gone_on_with() {
    let (library, clerk) = (library(), Shared::default());
    clerk.at(0);
    let first = run(&library, &clerk, None, "1\n\na\nb\n?q\n");
    assert!(first.contains("question: 3 of 12, answered 2"), "{first}");
    clerk.at(30 * MINUTE);
    let second = run(&library, &clerk, None, "\n?q\n");
    assert!(second.contains("line 1: go on: Licensing exam"), "{second}");
    let words = "Kept up to question 3. The clock ran on: 2 h left.";
    assert!(second.contains(words), "{second}");
    assert!(second.contains("question: 3 of 12, answered 2"), "{second}");
    clerk.at(200 * MINUTE);
    let third = run(&library, &clerk, None, "\n");
    assert!(third.contains("handed in as it stands"), "{third}");
    assert!(third.contains("result: "), "{third}");
    assert_eq!(clerk.entries().len(), 12);
}

#[test]
fn odd_lines_are_met_with_what_can_be_written() {
    let said = run(
        &library(),
        &Shared::default(),
        None,
        "99\nx\n1\nsoon\n601\n5\n?99\nzz\n?z\n99\nx\n?z\n77\n",
    );
    for words in [
        "write a line number, 1 to 3",
        "write the minutes, 1 to 600, or 0 for no clock",
        "5 min left of 5 min",
        "cannot read",
        "write the number of a question",
        "write a number, or ?W, or Enter alone",
    ] {
        assert!(said.contains(words), "{words} is not in\n{said}");
    }
}
