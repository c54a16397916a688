//! Every shipped lesson loads, draws, solves and marks.

mod common;

use common::shipped;
use pumpwright_engine::problems::{Request, Settings, draw};
use pumpwright_engine::quantities::System;

#[test]
fn every_family_draws_at_every_level_in_both_systems() {
    let library = shipped();
    for family in library.families() {
        for &level in &family.levels {
            for system in System::BOTH {
                for n in 0..50 {
                    let settings = Settings::default();
                    let request =
                        Request { family: &family.id, level: Some(level), system, draw: n, settings: &settings };
                    let problem = draw(&library, &request).unwrap_or_else(|error| panic!("{error}"));
                    if n == 0 {
                        println!("{}\n{:#?}\n{:#?}", problem.code, problem.story, problem.givens);
                        for line in &problem.lines { println!("{} {:?} [{:?}] {}", line.label, problem.value(line.step), line.unit.as_ref().map(|u| u.symbol().to_string()), line.form); }
                        for m in &problem.mistakes { println!("   {} @ {} = {}", m.id, m.step, m.text); }
                    }
                    let again = pumpwright_engine::problems::again(&library, &problem.code).expect("the same");
                    assert_eq!(again.values, problem.values);
                    assert_eq!(again.lines, problem.lines);
                }
            }
        }
    }
}
