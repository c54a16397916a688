//! The pictures of README, drawn from the real program at a real terminal.
//!
//! To add one: a line in [`pictures`], `.ci/pictures`, and its name in README. Pages of
//! paper are made by `.ci/pictures` itself.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use vt100::Screen;

use crate::logbook::folder;
use crate::picture_class;
use crate::pty::{Session, Start};
use crate::svg::picture;

/// A picture: the name of its file, its words, what is asked for, and what is done.
struct Picture {
    name: &'static str,
    title: &'static str,
    arguments: &'static [&'static str],
    size: (u16, u16),
    /// Keys, and what the screen then shows.
    keys: &'static [(&'static str, &'static str)],
    /// Whether it is of a class: the folder stands behind the arguments.
    of_a_class: bool,
}

const CABLE: [&str; 5] = ["practice", "--family", "cable-drop", "--draw", "7"];
const PAPER: [&str; 3] = ["sit", "--out", "answers.json"];
const BOARD: [&str; 6] = ["board", "cable-drop", "--draw", "7", "--mistake", "one-way"];

fn pictures() -> Vec<Picture> {
    let mut pictures = vec![
        Picture {
            name: "first",
            title: "The first start: what comes, and the five keys",
            arguments: &[],
            size: (80, 24),
            keys: &[("", "Five keys carry you")],
            of_a_class: false,
        },
        Picture {
            name: "sheet",
            title: "A job sheet with its figure: line 1 is written, line 2 has the pen",
            arguments: &CABLE,
            size: (112, 32),
            keys: &[("", "Volts lost"), ("354\r", "line 2 left empty")],
            of_a_class: false,
        },
        Picture {
            name: "handed-in",
            title: "The sheet handed in: line 2 takes a known turn, lines 3 and 4 follow from it",
            arguments: &CABLE,
            size: (96, 30),
            keys: &[
                ("", "Volts lost"),
                ("354\r0.2755\r3.25\r1.4\r", "HANDED IN"),
            ],
            of_a_class: false,
        },
        Picture {
            name: "help",
            title: "Help on line 1, asked for by ? twice: its principle; the formula is one more",
            arguments: &CABLE,
            size: (96, 30),
            keys: &[("", "Volts lost"), ("?", "ASKED"), ("?", "1 principle")],
            of_a_class: false,
        },
        Picture {
            name: "lesson",
            title: "A lesson: its first page",
            arguments: &CABLE,
            size: (96, 30),
            keys: &[("", "Volts lost"), ("?l", "LESSON")],
            of_a_class: false,
        },
        Picture {
            name: "board",
            title: "A problem on the board, worked up to the line of a known wrong turn",
            arguments: &BOARD,
            size: (80, 24),
            keys: &[("", "BOARD")],
            of_a_class: false,
        },
    ];
    pictures.extend(of_a_class());
    pictures
}

/// The instructor's screens.
fn of_a_class() -> Vec<Picture> {
    let picture = |name, title, keys| Picture {
        name,
        title,
        arguments: &["class"],
        size: (80, 24),
        keys,
        of_a_class: true,
    };
    let mut pictures = vec![
        picture(
            "class",
            "The work order of a class: five stages, and each paper with what came of it",
            &[("", "9 of 12 marked")],
        ),
        picture(
            "pen",
            "Marking with the pen: what is right on each line, known turns by letter, what follows",
            &[
                ("", "9 of 12 marked"),
                ("10\r", "item 1 of 5"),
                // What is kept is told when it is on the disk; the next key takes that away.
                ("\r\r", "kept: 2 items of paper 010"),
                ("b", "From there"),
            ],
        ),
        picture(
            "report",
            "The class report: what to teach again first, and no names",
            &[("", "9 of 12 marked"), ("?r", "TEACH THIS AGAIN")],
        ),
        Picture {
            arguments: &PAPER,
            ..picture(
                "paper",
                "A paper on the screen, as an apprentice gets it: the third item, one line written",
                &[
                    ("", "item 1 of 5"),
                    ("\r\r", "item 3 of 5"),
                    ("451\r", "on to line 3"),
                ],
            )
        },
    ];
    // Without the typesetter the plan says that pages come with papers.
    if cfg!(feature = "pdf") {
        pictures.push(picture(
            "plan",
            "The plan of the paper: samples of an item, sums, pages for the printer, fairness",
            &[
                ("", "9 of 12 marked"),
                ("?b", "PLAN"),
                ("3", "pages a paper"),
            ],
        ));
    }
    pictures
}

/// The screen of a picture, as the program draws it today.
fn taken(of: &Picture) -> Screen {
    let place = folder(&format!("picture-{}", of.name));
    let logbook = place.join("logbook.db").display().to_string();
    let settings = place.join("settings.toml").display().to_string();
    let (evening, paper) = (place.join("evening"), "evening/week-6/screen/010.json");
    let last = match of.arguments {
        ["class"] => evening,
        _ => place.join(paper),
    };
    let (last, out) = (last.display().to_string(), place.join("answers.json"));
    let out = out.display().to_string();
    let mut arguments = of.arguments.to_vec();
    if of.of_a_class {
        picture_class::make(&place);
        arguments.push(&last);
    }
    // What is written lies in the place of the picture, and nowhere else.
    for argument in arguments.iter_mut().filter(|own| **own == "answers.json") {
        *argument = &out;
    }
    let mut session = Session::start(&Start {
        arguments: &arguments,
        size: of.size,
        variables: &[
            ("PUMPWRIGHT_LOGBOOK", &logbook),
            ("PUMPWRIGHT_SETTINGS", &settings),
        ],
        shell: None,
    });
    for (keys, shown) in of.keys {
        session.types(keys);
        session.shows(shown);
    }
    let screen = session.settled();
    session.cuts_off();
    screen
}

fn docs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/pictures")
}

/// What the program shows today is what the pictures show.
#[test]
fn the_pictures_are_as_the_program_draws_them() {
    let write = std::env::var_os("PUMPWRIGHT_PICTURES").is_some();
    for of in pictures() {
        let path = docs().join(format!("{}.svg", of.name));
        let drawn = picture(&taken(&of), of.title);
        if write {
            std::fs::create_dir_all(docs()).expect("a folder");
            std::fs::write(&path, drawn).expect("a picture");
            continue;
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(
            kept == drawn,
            "{} is no longer what is shown: .ci/pictures, and look at it",
            path.display()
        );
    }
}

/// README shows each picture that there is, and none that there is not.
#[test]
fn every_picture_stands_in_the_page_with_words() {
    let page = include_str!("../../README.md");
    let shown: BTreeSet<String> = page
        .split("](docs/pictures/")
        .skip(1)
        .filter_map(|rest| Some(rest.split_once(')')?.0.to_owned()))
        .collect();
    let kept: BTreeSet<String> = std::fs::read_dir(docs())
        .expect("pictures")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into()
        })
        .collect();
    assert_eq!(shown, kept);
    assert!(!page.contains("![]("), "a picture has no words");
    for of in pictures() {
        assert!(shown.contains(&format!("{}.svg", of.name)), "{}", of.name);
    }
}
