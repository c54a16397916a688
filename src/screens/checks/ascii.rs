//! ASCII screens: every sign that a lesson or the engine prints has a spelling,
//! and a screen that is asked to be ASCII is.

use std::collections::BTreeSet;

use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Request, Settings, draw, help, working};
use pumpwright_engine::quantities::System;

use super::bench::{Bench, shipped, shipped_files};
use crate::theme::Look;

const ASCII: Look = Look {
    ascii: true,
    colour: false,
};

/// A few draws of every family, level and system.
fn problems(library: &Library) -> Vec<Problem> {
    let settings = Settings::default();
    let mut drawn = Vec::new();
    for family in library.families() {
        for &level in &family.levels {
            for system in [System::Us, System::Si] {
                for number in 1..6 {
                    let request = Request {
                        family: &family.id,
                        level: Some(level),
                        system,
                        draw: number,
                        settings: &settings,
                    };
                    drawn.push(draw(library, &request).expect("a shipped family draws"));
                }
            }
        }
    }
    drawn
}

/// Everything that the engine says of a problem.
fn texts(problem: &Problem) -> Vec<String> {
    let mut texts = problem.story.clone();
    texts.extend(problem.caution());
    texts.extend(problem.varies());
    texts.extend(problem.on_the_job());
    for (at, line) in problem.lines.iter().enumerate() {
        texts.extend([
            line.label.clone(),
            line.form.clone(),
            crate::words::unit(problem, line),
        ]);
        texts.extend(help(problem, at).into_iter().flat_map(|help| help.text));
    }
    for line in working(problem) {
        texts.extend(line.words);
        texts.extend(line.numbers);
        texts.extend([line.text, line.says]);
        texts.extend(line.why);
    }
    texts
}

#[test]
fn every_sign_of_the_lessons_and_the_engine_has_an_ascii_spelling() {
    let library = shipped();
    let files = shipped_files().into_iter().map(|file| file.text);
    let said = problems(&library)
        .into_iter()
        .flat_map(|problem| texts(&problem));
    let signs: BTreeSet<char> = files
        .chain(said)
        .flat_map(|text| text.chars().collect::<Vec<_>>())
        .filter(|sign| !sign.is_ascii())
        .collect();
    assert!(signs.contains(&'×') && signs.contains(&'°'), "{signs:?}");
    for sign in signs {
        let spelled = ASCII.text(&sign.to_string());
        assert!(spelled.is_ascii() && spelled != "?", "{sign}: {spelled}");
    }
}

#[test]
fn an_ascii_screen_is_ascii() {
    let library = shipped();
    for family in library.families() {
        for tape in [
            "",
            "????",
            "@",
            "&2½ in + 1 ft⏎8 Ω × 3 A⏎",
            "1⏎2⏎3⏎4⏎5⏎6⏎7⏎8⏎9⏎",
            "1⏎2⏎3⏎4⏎5⏎?w",
            "?h",
        ] {
            let mut bench = Bench::family(&library, &family.id, (100, 60));
            bench.play(tape);
            let text = bench.text();
            assert!(text.is_ascii(), "{} {tape}\n{text}", family.id);
        }
    }
}
