//! A mistake that hides: carried through to the last line, and only that line handed in, it must
//! not come within the span of the right figure, nor of the right figure as it is printed.

use pumpwright_engine::marking::{Manner, Response, mark};
use pumpwright_engine::problems::{Problem, Settings};
use pumpwright_engine::quantities::System;

use crate::common::{draw_one, shipped};

fn given(problem: &Problem, name: &str) -> f64 {
    let found = problem.givens.iter().find(|given| given.name == name);
    let text = &found.expect("the given").text;
    let figure = text.split_whitespace().next();
    figure.and_then(|figure| figure.parse().ok()).expect(text)
}

/// 0.0408 gal in a foot of a 1 in bore, 128 fl oz in a gallon, 1 % is 10,000 ppm: worked here
/// once more for the whole depth, for the dry part, and without the piping.
#[test]
fn a_dose_with_a_hidden_mistake_earns_nothing() {
    let library = shipped();
    let face = ("chlorine-dose".to_owned(), 2, System::Us);
    let settings = Settings::default();
    for number in 0..400 {
        let problem = draw_one(&library, &face, number, &settings).expect("a draw");
        let own = |name: &str| given(&problem, name);
        let dose = |feet: f64, piping: f64| {
            let gallons = 0.0408 * own("bore") * own("bore") * feet + piping;
            128.0 * gallons * 100.0 / (10_000.0 * own("bleach"))
        };
        let (depth, still, piping) = (own("depth"), own("static"), own("piping"));
        for (mistake, wrong) in [
            ("whole-depth", dose(depth, piping)),
            ("dry-part", dose(still, piping)),
            ("piping-forgotten", dose(depth - still, 0.0)),
        ] {
            if !problem.mistakes.iter().any(|live| live.id == mistake) {
                continue;
            }
            let answers = vec![("measure".to_owned(), format!("{wrong:.0}"))];
            let marked = mark(&problem, &Response { answers }, Manner::default());
            let line = marked.lines.iter().find(|line| line.id == "measure");
            let earned = line.expect("the last line").marks;
            assert_eq!(
                earned.in_halves(),
                0,
                "{}: {mistake}, {wrong}",
                problem.code
            );
        }
    }
}
