//! The standing screen out of the record: every family, what comes back, and the
//! forecast with what it rests on.

use pumpwright_engine::learner::{
    Desk, Evidence, History, Stage, Week, commonest, forecast, standing as stands, weeks,
};
use pumpwright_engine::lessons::{Exam, Library};
use pumpwright_engine::quantities::System;

use super::state::{Line, Standing};
use crate::calendar;

/// Without an exam date the projection looks so many days ahead. Our own choice.
const PROJECTION: i32 = 30;
/// So many weeks are shown.
const WEEKS: usize = 8;
/// So many turns are shown.
const TURNS: usize = 4;

/// What the record says; families that were met come first.
pub fn read(
    desk: &Desk<'_>,
    (library, system): (&Library, System),
    (whose, history): (&str, &History),
    (exam, exam_day): (Option<&Exam>, Option<i32>),
) -> Standing {
    let families = desk.curriculum.families().iter().enumerate();
    let mut lines: Vec<Line> = families
        .map(|(place, facts)| {
            let own = stands(desk.record, place, desk.now);
            let met = own.stage != Stage::NotMet;
            Line::Family {
                family: facts.id.clone(),
                stage: own.stage,
                chance: met.then_some((own.success, own.between)),
                refresh: match own.due_in {
                    Some(0) => "now".to_owned(),
                    Some(days) if own.stage == Stage::Holding => {
                        calendar::short(desk.now.day.saturating_add(days))
                    }
                    _ => "-".to_owned(),
                },
            }
        })
        .collect();
    lines.sort_by_key(|line| match line {
        Line::Family { stage, .. } => match stage {
            Stage::Slipping => 0,
            Stage::Building => 1,
            Stage::Holding => 2,
            Stage::NotMet => 3,
        },
        Line::Turn { .. } => 4,
    });
    let repeated = commonest(desk.curriculum, desk.record).into_iter();
    lines.extend(repeated.take(TURNS).filter_map(|repeated| {
        let facts = desk.curriculum.families().get(repeated.family)?;
        let variant = library.variant(&facts.id, facts.home, system)?;
        let plan = variant
            .mistakes
            .iter()
            .find(|mistake| mistake.id == repeated.mistake)?;
        Some(Line::Turn {
            family: facts.id.clone(),
            did: plan.did.render(&variant.names, &[]),
            mistake: repeated.mistake,
            times: (repeated.times, repeated.of),
        })
    }));
    let whose = match whose {
        "" => calendar::with_weekday(desk.now.day),
        whose => format!("{whose}, {}", calendar::with_weekday(desk.now.day)),
    };
    let mut standing = Standing {
        place: whose,
        lines,
        weeks: last_weeks(desk, history),
        ..Standing::default()
    };
    foretell(&mut standing, desk, exam, exam_day);
    standing.go(0);
    standing
}

/// The last weeks that anything was done in or after.
fn last_weeks(desk: &Desk<'_>, history: &History) -> Vec<Week> {
    let mut told = weeks(desk.curriculum, history, desk.blueprint, desk.now);
    told.split_off(told.len().saturating_sub(WEEKS))
}

/// The forecast for today; below the evidence that it needs, what is missing.
fn foretell(standing: &mut Standing, desk: &Desk<'_>, exam: Option<&Exam>, exam_day: Option<i32>) {
    let Some(exam) = exam else { return };
    let evidence = Evidence::of(desk.record, desk.blueprint);
    let met = (100.0 * evidence.met).max(0.0);
    let steps = evidence.probe_steps;
    standing.forecast.push((
        format!(
            "FORECAST for the {}-question paper, pass {} %",
            exam.questions, exam.pass
        ),
        String::new(),
    ));
    if !evidence.is_enough() {
        standing.rests = format!(
            "Not enough yet: {steps} of {} lines without help in probes, {met:.0} % of {:.0} % of \
             the paper's jobs met. Tonight brings both.",
            steps + evidence.steps_missing(),
            100.0 * (evidence.met + evidence.blueprint_missing())
        );
        return;
    }
    let today = forecast(desk.curriculum, desk.record, desk.blueprint, desk.now);
    let ahead = exam_day.map_or(PROJECTION, |day| day.saturating_sub(desk.now.day));
    let later = desk.now.later(if ahead > 0 { ahead } else { PROJECTION });
    let then = forecast(desk.curriculum, desk.record, desk.blueprint, later);
    for (when, forecast) in [
        ("today".to_owned(), today),
        (format!("{}, projection", calendar::short(later.day)), then),
    ] {
        let percent = |share: f64| format!("{:.0}", 100.0 * share);
        standing.forecast.push((
            when,
            format!(
                "{} %, between {} and {}     chance to pass {} %",
                percent(forecast.score),
                percent(forecast.between.0),
                percent(forecast.between.1),
                percent(forecast.pass)
            ),
        ));
    }
    standing.rests = format!(
        "The projection is for no practice from now on. It rests on {steps} lines without help \
         in probes and on {met:.0} % of the paper's jobs met."
    );
}
