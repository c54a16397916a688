//! How long standing, choice and forecast take out of a long history, and the analysis
//! of a large class. `cargo bench -p pumpwright-engine --bench learner`.

#![allow(clippy::cast_possible_wrap)]

use std::hint::black_box;

use divan::Bencher;
use pumpwright_engine::learner::{
    Blueprint, Curriculum, Desk, Dice, Evening, FamilyFacts, History, Moment, Place, Record,
    Response, Try, forecast, standing,
};
use pumpwright_engine::statistics::Tally;

fn main() {
    divan::main();
}

const FAMILIES: usize = 85;
const RESPONSES: usize = 10_000;

fn curriculum() -> Curriculum {
    let family = |at: usize| FamilyFacts {
        id: format!("family-{at}"),
        lesson: format!("lesson-{}", at / 3),
        levels: vec![1, 2, 3],
        home: 2,
        quick: Some(4),
        after: Vec::new(),
        needs: (at.saturating_sub(2)..at).collect(),
        skills: (at.saturating_sub(1)..=at).collect(),
    };
    Curriculum::new((0..FAMILIES).map(family).collect())
}

/// Ten thousand responses of four steps, 25 a day.
fn history() -> History {
    let mut dice = Dice::of(7);
    let responses = (0..RESPONSES).map(|at| {
        let family = (dice.share() * FAMILIES as f64) as usize;
        let mut tried = |skill: usize| Try {
            skill: format!("family-{skill}").into(),
            right: dice.share() < 0.7,
            helped: dice.share() < 0.1,
            seconds: Some(60),
            options: None,
            mistake: None,
        };
        let before = family.saturating_sub(1);
        let tries = [before, family, family, family].map(&mut tried);
        let (day, number) = (at / 25, at % 25);
        Response {
            when: Moment {
                seconds: (day * 86_400 + number * 200) as i64,
                day: day as i32,
            },
            id: at as u128,
            problem: format!("problem-{at}").into(),
            family: format!("family-{family}").into(),
            level: 1 + (at % 3) as u8,
            probe: at % 5 == 0,
            tries: tries.into(),
        }
    });
    responses.collect()
}

/// The whole: history replayed, standing of every family, next problem, two forecasts.
#[divan::bench]
fn standing_and_next_from_10_000_responses(bencher: Bencher) {
    let (curriculum, history) = (curriculum(), history());
    let blueprint = Blueprint::even(&curriculum, 75, 0.7);
    let now = Moment {
        seconds: 401 * 86_400,
        day: 401,
    };
    bencher.bench(|| {
        let record = Record::replay(&curriculum, black_box(&history));
        let standings: Vec<_> = (0..FAMILIES)
            .map(|family| standing(&record, family, now))
            .collect();
        let desk = Desk {
            curriculum: &curriculum,
            record: &record,
            blueprint: &blueprint,
            now,
        };
        let next = desk.next(&Evening::of(&record, now), Place::Middle, &mut Dice::of(1));
        let today = forecast(&curriculum, &record, &blueprint, now);
        let then = forecast(&curriculum, &record, &blueprint, now.later(17));
        (standings, next, today, then)
    });
}

/// Of it: the history replayed.
#[divan::bench]
fn replay_10_000_responses(bencher: Bencher) {
    let (curriculum, history) = (curriculum(), history());
    bencher.bench(|| Record::replay(&curriculum, black_box(&history)));
}

/// A million item responses as a class report takes them in: 10,000 persons at 100 questions
/// of two marks, counted in halves.
#[divan::bench]
fn analysis_of_1_000_000_item_responses(bencher: Bencher) {
    let mut dice = Dice::of(3);
    let mut rows: Vec<Vec<u32>> = Vec::new();
    for _ in 0..10_000 {
        let ability = dice.share();
        let mark = |own: f64| {
            if own < 0.3 + 0.6 * ability {
                4
            } else {
                (own * 4.0) as u32
            }
        };
        rows.push((0..100).map(|_| mark(dice.share())).collect());
    }
    bencher.bench(|| {
        let mut tally = Tally::new(&[4; 100]);
        for row in black_box(&rows) {
            // A row that does not fit would leave fewer persons.
            let _ = tally.add(row);
        }
        (tally.persons(), tally.paper(), tally.items())
    });
}
