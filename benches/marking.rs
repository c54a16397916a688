//! Marking a response, and what of it cannot be saved: reading the answers and
//! working the formulas once.

use std::hint::black_box;

use divan::Bencher;
use pumpwright_engine::formulas::{Formula, Value};
use pumpwright_engine::lessons::basis;
use pumpwright_engine::marking::{Manner, Response, mark};
use pumpwright_engine::problems::{Problem, working};
use pumpwright_engine::quantities::{DecimalSign, Unit, read_for};

use crate::shelf;

const MANNER: Manner = Manner {
    decimal: DecimalSign::Point,
};

/// A response with every line right.
fn right(problem: &Problem) -> Response {
    let worked = working(problem);
    let typed = |id: &str| {
        let line = worked.iter().find(|line| line.id == id);
        line.map_or_else(String::new, |line| line.typed.clone())
    };
    let answers = problem
        .asked()
        .map(|(_, line)| (line.id.clone(), typed(&line.id)));
    Response {
        answers: answers.collect(),
    }
}

/// The longest sheet, every line right.
#[divan::bench]
fn mark_all_right(bencher: Bencher) {
    let problem = shelf::longest(&shelf::library());
    let response = right(&problem);
    bencher.bench(|| mark(black_box(&problem), black_box(&response), MANNER));
}

/// The longest sheet with a known mistake on its first line that has one, so
/// that what follows is worked from the learner's own figure.
#[divan::bench]
fn mark_a_mistake(bencher: Bencher) {
    let problem = shelf::longest(&shelf::library());
    let mut response = right(&problem);
    let mistake = problem.mistakes.iter().find(|live| live.value.is_some());
    let mistake = mistake.expect("a known mistake");
    for (id, typed) in &mut response.answers {
        if *id == mistake.step {
            typed.clone_from(&mistake.text);
        }
    }
    bencher.bench(|| mark(black_box(&problem), black_box(&response), MANNER));
}

/// The longest sheet, every line off by 17 %, so that all mistakes are tried.
#[divan::bench]
fn mark_all_off(bencher: Bencher) {
    let problem = shelf::longest(&shelf::library());
    let worked = working(&problem);
    let off = |id: &str| {
        let line = worked.iter().find(|line| line.id == id);
        let value = line.and_then(|line| line.value);
        value.map_or_else(|| "a".to_owned(), |value| format!("{:.4}", value * 1.17))
    };
    let answers = problem
        .asked()
        .map(|(_, line)| (line.id.clone(), off(&line.id)));
    let response = Response {
        answers: answers.collect(),
    };
    bencher.bench(|| mark(black_box(&problem), black_box(&response), MANNER));
}

/// The printed figures of the same sheet, carried as far as the working needs them.
#[divan::bench]
fn floor_working(bencher: Bencher) {
    let problem = shelf::longest(&shelf::library());
    bencher.bench(|| working(black_box(&problem)));
}

/// The figures of the same response, read and nothing more.
#[divan::bench]
fn floor_reading(bencher: Bencher) {
    let problem = shelf::longest(&shelf::library());
    let response = right(&problem);
    let figures: Vec<(String, Unit)> = problem
        .asked()
        .zip(response.answers)
        .filter_map(|((_, line), (_, typed))| Some((typed, line.unit.clone()?)))
        .collect();
    bencher.bench(|| {
        for (typed, unit) in black_box(&figures) {
            black_box(read_for(typed, DecimalSign::Point, unit).ok());
        }
    });
}

/// The formulas of the same sheet, each worked once.
#[divan::bench]
fn floor_formulas(bencher: Bencher) {
    let problem = shelf::longest(&shelf::library());
    let steps = problem.variant.steps.iter();
    let formulas: Vec<&Formula> = steps.filter_map(|step| step.body.formula()).collect();
    let basis = basis(problem.variant.system);
    let values: &[Option<Value>] = &problem.values;
    bencher.bench(|| {
        for formula in black_box(&formulas) {
            black_box(formula.evaluate(black_box(values), basis).ok());
        }
    });
}
