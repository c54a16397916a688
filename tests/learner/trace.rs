//! The model against a trace that was worked out elsewhere: 120 tries of one person
//! and the state after each, from the reference implementation of the same model.

use pumpwright_engine::learner::{Moment, Observation, State};

/// The rows; their source stands on the first line.
const TRACE: &str = include_str!("../reference/learner/model_trace.csv");

/// Nine digits are printed.
const TOLERANCE: f64 = 1e-9;

/// The levels of the trace are 1, 2 and 3; the middle one is the home level.
const OFFSETS: [f64; 3] = [-0.8, 0.0, 0.8];

#[test]
fn the_trace_is_reproduced() {
    let mut state = State::new(8);
    let mut checked = 0;
    let rows = TRACE.lines().filter(|line| !line.starts_with('#'));
    for row in rows.skip(1) {
        let cells: Vec<&str> = row.split(',').collect();
        let whole = |at: usize| cells[at].parse::<i64>().expect(row);
        let number = |at: usize| cells[at].parse::<f64>().expect(row);
        let family = whole(3) as usize;
        let chance = state.observe(&Observation {
            family,
            offset: OFFSETS[whole(4) as usize - 1],
            right: whole(5) == 1,
            options: None,
            when: Moment {
                seconds: whole(2),
                day: whole(1) as i32,
            },
        });
        let strength = &state.families[family];
        let ours = [
            chance,
            strength.belief.mean,
            strength.belief.variance,
            strength.half_life,
            state.ability.mean,
            state.ability.variance,
            state.pace.mean,
            state.pace.variance,
        ];
        for (at, ours) in ours.into_iter().enumerate() {
            let off = (ours - number(6 + at)).abs();
            assert!(off <= TOLERANCE, "{row}: column {} is {ours}", 6 + at);
        }
        checked += 1;
    }
    assert_eq!(checked, 120, "rows went missing from the reference file");
}
