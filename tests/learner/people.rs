//! What the laws are tried on: a small curriculum and arbitrary histories.

use proptest::prelude::*;
use pumpwright_engine::learner::{
    Blueprint, Curriculum, FamilyFacts, History, Moment, Response, Try,
};

/// How many families the small curriculum has.
pub const FAMILIES: usize = 6;

/// Six families in two lessons; the last three rest on the first three.
pub fn curriculum() -> Curriculum {
    let family = |at: usize| FamilyFacts {
        id: format!("f{at}"),
        lesson: format!("l{}", at / 3),
        levels: if at == 0 { vec![1] } else { vec![1, 2, 3] },
        home: if at == 0 { 1 } else { 2 },
        quick: Some(4),
        after: Vec::new(),
        needs: if at < 3 { vec![] } else { vec![at - 3] },
        skills: if at < 3 { vec![at] } else { vec![at - 3, at] },
    };
    Curriculum::new((0..FAMILIES).map(family).collect())
}

/// An exam of 50 questions, every family the same.
pub fn blueprint(curriculum: &Curriculum) -> Blueprint {
    Blueprint::even(curriculum, 50, 0.7)
}

/// A moment so many seconds on.
pub fn at(seconds: i64) -> Moment {
    Moment {
        seconds,
        day: i32::try_from(seconds.div_euclid(86_400)).unwrap_or(0),
    }
}

/// A response with one try at its own skill, and one at the skill before where there is.
pub fn response(
    id: u128,
    seconds: i64,
    family: usize,
    level: u8,
    right: bool,
    probe: bool,
) -> Response {
    let tried = |skill: usize| Try {
        skill: format!("f{skill}").into(),
        right,
        helped: false,
        seconds: Some(60),
        options: None,
        mistake: (!right).then(|| "off".into()),
    };
    let mut tries = vec![tried(family)];
    if family >= 3 {
        tries.push(tried(family - 3));
    }
    Response {
        when: at(seconds),
        id,
        problem: format!("code-{id}").into(),
        family: format!("f{family}").into(),
        level,
        probe,
        tries,
    }
}

prop_compose! {
    /// Any try: of known and unknown families, quick, helped, picked.
    fn any_try()(
        skill in 0..FAMILIES + 1,
        right in any::<bool>(),
        helped in any::<bool>(),
        seconds in proptest::option::of(0_u32..500),
        options in proptest::option::of(any::<u8>()),
        mistake in proptest::option::of(0_u8..3),
    ) -> Try {
        Try {
            skill: format!("f{skill}").into(),
            right,
            helped,
            seconds,
            options,
            mistake: mistake.map(|at| format!("mistake-{at}").into()),
        }
    }
}

prop_compose! {
    /// Any response within the time given; ids and codes may repeat.
    pub fn any_response(seconds: std::ops::Range<i64>)(
        seconds in seconds,
        id in 0_u128..60,
        problem in 0_u8..200,
        family in 0..FAMILIES + 1,
        level in 0_u8..6,
        probe in any::<bool>(),
        tries in proptest::collection::vec(any_try(), 0..5),
    ) -> Response {
        Response {
            when: at(seconds),
            id,
            problem: format!("code-{problem}").into(),
            family: format!("f{family}").into(),
            level,
            probe,
            tries,
        }
    }
}

/// Any history of a year.
pub fn any_history() -> impl Strategy<Value = History> {
    proptest::collection::vec(any_response(0..365 * 86_400), 0..60)
        .prop_map(|all| all.into_iter().collect())
}
