//! The evening's jobs out of the record: which, at which level, and why in words.

use pumpwright_engine::entries::Purpose;
use pumpwright_engine::learner::{Choice, Desk, Dice, Place, Support, Why};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::Problem;

/// So many draws are tried for numbers that show a mistake. Our own choice.
const TRIES: u32 = 30;
/// So many jobs are an evening. Our own choice.
pub const JOBS: usize = 5;

/// One of the evening's jobs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned {
    /// Its family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// Why it is there.
    pub why: String,
    /// Minutes that it may take.
    pub minutes: Option<u32>,
    /// How much of it is worked for the person.
    pub support: Support,
    /// What it is done for.
    pub purpose: Purpose,
    /// A known mistake made twice lately, which the numbers are to show.
    pub contrast: Option<String>,
}

/// The evening's jobs, planned as if each went as predicted. The same person on the
/// same day with the same record gets the same jobs.
pub fn plan(desk: &Desk<'_>, library: &Library) -> Vec<Planned> {
    plan_of(desk, library, JOBS)
}

/// The same with so many jobs.
pub fn plan_of(desk: &Desk<'_>, library: &Library, jobs: usize) -> Vec<Planned> {
    let seed = u64::from(desk.record.responses) << 32 | u64::from(desk.now.day.unsigned_abs());
    let chosen = desk.evening(jobs, &mut Dice::of(seed));
    let last = chosen.len().saturating_sub(1);
    let mut planned = Vec::new();
    for (at, choice) in chosen.iter().enumerate() {
        let place = match at {
            0 => Place::First,
            _ if at == last => Place::Last,
            _ => Place::Middle,
        };
        let facts = &desk.curriculum.families()[choice.family];
        let probe = choice.why == Why::Probe;
        let contrast = desk.record.families[choice.family].contrast_due();
        planned.push(Planned {
            family: facts.id.clone(),
            level: choice.level,
            why: why(desk, choice, place),
            minutes: library.family(&facts.id).and_then(|family| family.minutes),
            support: choice.support,
            purpose: if probe {
                Purpose::Probe
            } else {
                Purpose::Practice
            },
            contrast: contrast.filter(|_| !probe).map(str::to_owned),
        });
    }
    planned
}

/// A problem whose numbers show a mistake: it gives another figure there. Where no draw
/// of some thirty does, the last one drawn.
///
/// # Errors
/// What stands against a draw.
pub fn showing<E>(
    mistake: Option<&str>,
    mut draw: impl FnMut() -> Result<Problem, E>,
) -> Result<Problem, E> {
    let mut problem = draw()?;
    let Some(mistake) = mistake else {
        return Ok(problem);
    };
    for _ in 1..TRIES {
        if problem.mistakes.iter().any(|live| live.id == mistake) {
            break;
        }
        problem = draw()?;
    }
    Ok(problem)
}

fn why(desk: &Desk<'_>, choice: &Choice, place: Place) -> String {
    let now = format!("{:.0} % now", 100.0 * choice.success);
    match choice.why {
        Why::New => "new: you have what it needs".to_owned(),
        Why::Probe => "no help: counts for the forecast".to_owned(),
        Why::Steady if place == Place::First => format!("{now}: a job you know, to begin with"),
        Why::Steady => format!("{now}: a job you know, to end with"),
        Why::Due => match desk.record.families[choice.family].last_right {
            Some(last) => {
                let days = desk.now.day.saturating_sub(last.day).max(0);
                format!("due: last right {}", ago(days))
            }
            None => format!("due: {now}, not right yet"),
        },
        Why::Weakest => format!("{now}: the most to gain"),
    }
}

fn ago(days: i32) -> String {
    match days {
        0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        days => format!("{days} days ago"),
    }
}
