//! Every kind of figure from a family that stands still: at a terminal of 80 by 24 as
//! the open sheet has it, at 120 by 40 worked, in ASCII, as a list and as a vector page.

use pumpwright_engine::figures::{Frame, Signs, View, cells, list, scene, svg};
use pumpwright_engine::lessons::{Library, SceneKind};
use pumpwright_engine::problems::{Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;

use crate::common::{root, texts};

/// What stands beside a sheet at 120 by 40.
const BESIDE: Frame = Frame {
    columns: 54,
    rows: 34,
};

/// What stands beside a sheet at 100 columns.
const NARROW: Frame = Frame::LEAST;

pub fn still() -> Library {
    let files = texts(&root().join("tests/figures/lessons"), "toml");
    let (library, faults) = Library::read(&files);
    let shown: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{}", shown.join("\n\n"));
    library
}

pub fn drawn(library: &Library, family: &str, system: System) -> Problem {
    let request = Request {
        family,
        level: None,
        system,
        draw: 1,
        settings: &Settings::default(),
    };
    draw(library, &request).expect("a draw")
}

fn picture(problem: &Problem, view: &View, frame: Frame, signs: Signs) -> String {
    let scene = scene(problem, view, frame).expect("a figure");
    cells(&scene, signs).rows().join("\n")
}

#[test]
fn every_kind_looks_as_before() {
    let library = still();
    for kind in SceneKind::ALL {
        let us = drawn(&library, kind.name(), System::Us);
        let si = drawn(&library, kind.name(), System::Si);
        let (before, worked) = (View::before(&us), View::worked(&us));
        let said = scene(&us, &worked, Frame::SCREEN).expect("a figure");
        let parts = [
            (
                "before, 80x24",
                picture(&us, &before, Frame::SCREEN, Signs::Drawn),
            ),
            (
                "worked, 120x40",
                picture(&us, &worked, BESIDE, Signs::Drawn),
            ),
            (
                "worked, metric, ASCII",
                picture(&si, &View::worked(&si), NARROW, Signs::Ascii),
            ),
            ("list, worked", list(&said).join("\n")),
        ];
        let shown: Vec<String> = parts
            .iter()
            .map(|(what, text)| format!("== {what}\n{text}"))
            .collect();
        insta::assert_snapshot!(kind.name(), shown.join("\n\n"));
        insta::assert_snapshot!(format!("{}.svg", kind.name()), svg(&said));
    }
}

/// The figures off which a value is read, drawn from their points.
pub const READ_OFF: [&str; 3] = ["read-chart", "read-trace", "read-panels"];

#[test]
fn what_is_read_off_looks_as_before() {
    let library = still();
    for family in READ_OFF {
        let us = drawn(&library, family, System::Us);
        let si = drawn(&library, family, System::Si);
        let worked = View::worked(&us);
        let said = scene(&us, &worked, Frame::SCREEN).expect("a figure");
        let parts = [
            picture(&us, &View::before(&us), Frame::SCREEN, Signs::Drawn),
            picture(&us, &worked, BESIDE, Signs::Drawn),
            picture(&si, &View::before(&si), NARROW, Signs::Ascii),
            list(&said).join("\n"),
        ];
        assert!(parts[2].is_ascii());
        insta::assert_snapshot!(family, parts.join("\n\n"));
        insta::assert_snapshot!(format!("{family}.svg"), svg(&said));
    }
}

/// The page is whole, names itself, and needs nothing from outside.
#[test]
fn pages_stand_alone() {
    let library = still();
    for kind in SceneKind::ALL {
        let problem = drawn(&library, kind.name(), System::Us);
        let scene = scene(&problem, &View::worked(&problem), Frame::SCREEN).expect("a figure");
        let page = svg(&scene);
        assert!(page.contains("<title id=\"title\">") && page.contains("<desc id=\"desc\">"));
        for outside in [
            "<script",
            "@import",
            "font-face",
            "href",
            "<image",
            "NaN",
            "\"inf",
        ] {
            assert!(!page.contains(outside), "{} has {outside}", kind.name());
        }
        assert_eq!(page.matches("<svg").count(), 1);
        let open = page.matches("<g ").count();
        assert_eq!(open, page.matches("</g>").count());
        for text in problem.caution().iter().flat_map(|text| text.split(' ')) {
            assert!(page.contains(text), "{}: the caution is cut", kind.name());
        }
    }
}

/// ASCII is ASCII.
#[test]
fn ascii_is_ascii() {
    let library = still();
    for kind in SceneKind::ALL {
        let problem = drawn(&library, kind.name(), System::Us);
        let text = picture(&problem, &View::before(&problem), NARROW, Signs::Ascii);
        assert!(text.is_ascii(), "{text}");
    }
}

/// A figure as the learner's own answer has it: the pump hung above the water.
#[test]
fn the_learners_own_figure_is_drawn() {
    use pumpwright_engine::marking::{Manner, Response, written_values};
    let library = still();
    let problem = drawn(&library, "well-section", System::Us);
    let response = Response {
        answers: vec![("setting".into(), "30 ft".into())],
    };
    let written = written_values(&problem, &response, Manner::default());
    assert_eq!(written.len(), 1);
    let own = View::yours(&problem, &written);
    let text = picture(&problem, &own, Frame::SCREEN, Signs::Drawn);
    assert!(text.contains("pump setting 30 ft"), "{text}");
    assert!(text.contains("drawdown ?"), "{text}");
    let row = |what: &str| text.lines().position(|line| line.contains(what));
    assert!(row("pump setting 30 ft") < row("static level"), "{text}");
    insta::assert_snapshot!("yours", text);
}
