//! Reading the lessons, and drawing problems with their worked solutions.

use std::collections::BTreeSet;
use std::hint::black_box;

use divan::Bencher;
use pumpwright::lesson_files;
use pumpwright_engine::figures::{Frame, Signs, View, cells, scene};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, help, working};
use pumpwright_engine::quantities::System;

use crate::shelf::{self, Kind};

/// Every shipped lesson file: read, checked, its formulas parsed. No draws.
#[divan::bench]
fn load_lessons(bencher: Bencher) {
    let files = lesson_files::carried().files;
    bencher.bench(|| Library::read(black_box(&files)));
}

/// One problem with everything that is said about it: story, lines, working, help.
#[divan::bench(args = shelf::kinds())]
fn draw_and_work(bencher: Bencher, kind: &Kind) {
    let library = shelf::library();
    let mut draw = 0;
    bencher
        .with_inputs(|| {
            draw += 1;
            draw
        })
        .bench_local_values(|draw| {
            let problem = shelf::problem(&library, kind, draw);
            let texts = texts(&problem);
            (problem, texts)
        });
}

/// The same without its texts: givens dealt, steps worked, mistakes tried.
#[divan::bench(args = shelf::kinds())]
fn draw_alone(bencher: Bencher, kind: &Kind) {
    let library = shelf::library();
    let mut draw = 0;
    bencher
        .with_inputs(|| {
            draw += 1;
            draw
        })
        .bench_local_values(|draw| shelf::problem(&library, kind, draw));
}

/// The figure of a worked problem in cells, one of each kind of figure.
#[divan::bench(args = figures())]
fn figure_in_cells(bencher: Bencher, kind: &Kind) {
    let library = shelf::library();
    let problem = shelf::problem(&library, kind, shelf::DRAW);
    let view = View::worked(&problem);
    bencher.bench(|| {
        let scene = scene(black_box(&problem), &view, Frame::SCREEN);
        scene.map(|scene| cells(&scene, Signs::Drawn))
    });
}

/// A family for each kind of figure.
fn figures() -> Vec<Kind> {
    let library = shelf::library();
    let mut seen = BTreeSet::new();
    let drawn = |kind: &Kind| {
        let variant = library.variant(&kind.family, kind.level, System::Us)?;
        Some(variant.scene.as_ref()?.kind)
    };
    let mut kinds = shelf::kinds();
    kinds.retain(|kind| drawn(kind).is_some_and(|kind| seen.insert(kind)));
    kinds
}

/// Every text of a problem that some surface prints.
fn texts(problem: &Problem) -> Vec<String> {
    let mut texts = vec![problem.code.to_string()];
    texts.extend(problem.story.iter().cloned());
    texts.extend(
        [problem.caution(), problem.varies(), problem.on_the_job()].map(Option::unwrap_or_default),
    );
    for line in working(problem) {
        texts.extend(line.words.into_iter().chain(line.numbers));
        texts.push(line.text);
    }
    for place in 0..problem.lines.len() {
        texts.extend(help(problem, place).into_iter().flat_map(|help| help.text));
    }
    texts
}
