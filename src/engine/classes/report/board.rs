//! A problem for the board in which a mistake shows: its figure lies well apart from the
//! right one, and from the figures of the other mistakes.

use crate::formulas::Value;
use crate::lessons::Library;
use crate::problems::{LiveMistake, Problem, Request, Settings, draw};
use crate::quantities::System;

/// Among so many draws the one is taken that parts the figures best. Our own choice,
/// no source.
const DRAWS: u32 = 24;
/// Apart by this share of the greater figure, the first draw will do. Our own choice, no
/// source.
const CLEARLY: f64 = 0.25;
/// Nearer than by this share they are not apart. Our own choice, no source.
const LEAST: f64 = 0.05;

/// What is looked for.
pub(super) struct Wanted<'a> {
    pub family: &'a str,
    pub level: u8,
    pub mistake: &'a str,
    pub system: System,
    /// The house rules of the paper; where these lessons do not have them, their own hold.
    pub rules: &'a [(String, String)],
}

/// The code of such a problem; none where there is none among the draws.
pub(super) fn separating(library: &Library, wanted: &Wanted<'_>) -> Option<String> {
    let mut settings = Settings::default();
    let set = |(name, value): &(String, String)| settings.set(library, name, value).is_ok();
    if !wanted.rules.iter().all(set) {
        settings = Settings::default();
    }
    let mut best: Option<(f64, String)> = None;
    for number in 0..DRAWS {
        let request = Request {
            family: wanted.family,
            level: Some(wanted.level),
            system: wanted.system,
            draw: number,
            settings: &settings,
        };
        // A family that is gone, or has another level now, has no problem for the board.
        let problem = draw(library, &request).ok()?;
        let live = problem.mistakes.iter().find(|own| own.id == wanted.mistake);
        let Some(apart) = live.map(|live| apart(&problem, live)) else {
            continue;
        };
        if apart >= LEAST && best.as_ref().is_none_or(|(known, _)| apart > *known) {
            best = Some((apart, problem.code.to_string()));
        }
        if apart >= CLEARLY {
            break;
        }
    }
    best.map(|(_, code)| code)
}

/// How far the figure of a mistake lies from the right one and from those of the others, as
/// a share; what is no figure is apart where it is written otherwise.
fn apart(problem: &Problem, live: &LiveMistake) -> f64 {
    let Some(wrong) = &live.value else {
        return 1.0;
    };
    let line = problem.lines.iter().find(|line| line.id == live.step);
    let right = line.and_then(|line| problem.value(line.step));
    let others = problem.mistakes.iter();
    let others = others.filter(|own| own.step == live.step && own.id != live.id);
    let others = others.filter_map(|own| own.value.as_ref());
    let gaps = right.into_iter().chain(others).map(|own| gap(own, wrong));
    gaps.fold(1.0, f64::min)
}

fn gap(one: &Value, other: &Value) -> f64 {
    match (one.number(), other.number()) {
        (Some(one), Some(other)) => {
            let greater = one.si.abs().max(other.si.abs());
            if greater > 0.0 {
                (one.si - other.si).abs() / greater
            } else {
                0.0
            }
        }
        _ if one == other => 0.0,
        _ => 1.0,
    }
}
