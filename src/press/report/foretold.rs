//! The forecast of the exam: now, and as it was at the end of each week. Below the
//! evidence that it needs, what is missing.

use maud::{Markup, html};
use pumpwright_engine::learner::{Evidence, Week, weeks};

use super::Read;
use crate::plot::{Said, Track, TrackPoint, track};
use crate::table::table;
use crate::words;

/// The part of the report.
pub fn part(read: &Read<'_>) -> Markup {
    let report = read.report;
    let weeks = weeks(
        &read.curriculum,
        report.history,
        &read.blueprint,
        report.now,
    );
    let exam = read.exam.map_or("the exam", |exam| exam.title.as_str());
    html! {
        h2 { "Would it be a pass?" }
        p { "For " (exam) ": " (read.blueprint.questions) " questions, pass mark "
            (words::percent(read.blueprint.pass)) "." }
        (now(read))
        @if weeks.iter().any(|week| week.forecast.is_some()) { (over_time(read, &weeks)) }
    }
}

/// What holds today.
fn now(read: &Read<'_>) -> Markup {
    let evidence = Evidence::of(&read.record, &read.blueprint);
    if !evidence.is_enough() {
        return missing(&evidence);
    }
    let forecast = pumpwright_engine::learner::forecast(
        &read.curriculum,
        &read.record,
        &read.blueprint,
        read.report.now,
    );
    html! {
        p {
            "Today: " (words::percent(forecast.score)) " of the questions right, between "
            (words::between(forecast.between)) " with 80 %. The chance to pass is "
            (words::percent(forecast.pass)) "."
        }
        p.faint {
            "It rests on " (evidence.probe_steps) " lines without help in probes, and on "
            (words::percent(evidence.met)) " of the paper's families met."
        }
    }
}

/// What is not there yet.
fn missing(evidence: &Evidence) -> Markup {
    let steps = evidence
        .probe_steps
        .saturating_add(evidence.steps_missing());
    let needed = evidence.met + evidence.blueprint_missing();
    html! {
        p { "There is not enough yet to say. What is missing:" }
        ul {
            @if evidence.steps_missing() > 0 {
                li { (words::count(evidence.steps_missing() as usize, "line", "lines"))
                     " without help in probes: there are " (evidence.probe_steps) " of "
                     (steps) "." }
            }
            @if evidence.blueprint_missing() > 0.0 {
                li { (words::percent(evidence.blueprint_missing()))
                     " of the paper's families: " (words::percent(evidence.met.max(0.0))) " of "
                     (words::percent(needed)) " were met." }
            }
        }
        p { "Each evening in the trainer brings some of both." }
    }
}

fn over_time(read: &Read<'_>, weeks: &[Week]) -> Markup {
    let places = weeks.iter().map(|week| {
        let point = week.forecast.map(|forecast| TrackPoint {
            share: forecast.score,
            between: forecast.between,
        });
        (words::short_day(week.end.day), point)
    });
    let drawn = Track {
        places: places.collect(),
        mark: (
            read.blueprint.pass,
            format!("pass {}", words::percent(read.blueprint.pass)),
        ),
    };
    let title = "The forecast week by week";
    let said = Said {
        name: "forecast",
        title,
        tells: "The expected share of right answers at the end of each week as a line, its 80 % \
                interval as a band around it, the pass mark as a broken line. Weeks without \
                enough evidence have no point. The table has the same figures.",
    };
    let rows: Vec<Vec<String>> = weeks.iter().rev().map(row).collect();
    let heads = [
        ("week to", false),
        ("score", true),
        ("80 % interval", true),
        ("chance to pass", true),
    ];
    html! {
        h3 { (title) }
        p.faint { "Each week is worked anew from what was handed in until its end, by the \
                   model of today." }
        div.pair {
            div { (track(&said, &drawn)) }
            (table(title, &heads, &rows))
        }
    }
}

fn row(week: &Week) -> Vec<String> {
    let day = words::day(week.end.day);
    match &week.forecast {
        Some(forecast) => vec![
            day,
            words::percent(forecast.score),
            words::between(forecast.between),
            words::percent(forecast.pass),
        ],
        None => vec![day, "not enough".to_owned(), String::new(), String::new()],
    }
}
