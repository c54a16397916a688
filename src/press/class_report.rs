//! The report of a class as a page: what to teach again, lines, items, marks, reliability;
//! over several papers how the class went. No name is on it.

mod items;
mod lines;
mod marks;
mod over_time;
mod teach;

use maud::{Markup, html};
use pumpwright_engine::classes::report::{LEAST_PERSONS, Report};

use self::items::items;
use self::lines::steps;
use self::marks::{marks, reliability};
use self::over_time::over_time;
use self::teach::teach;
use crate::page::{Kind, page};
use crate::table::{Head, table};
use crate::words::typed;

/// So many turns and lines are drawn; the tables have all of them.
const DRAWN: usize = 12;

/// The report as a page.
pub fn class_report(report: &Report) -> String {
    let title = typed(&report.title());
    let body = html! {
        h1 { (title) }
        (head(report))
        (teach(report))
        (steps(report))
        @for (at, plan) in report.plans.iter().enumerate() { (items(plan, at, report.plans.len() > 1)) }
        @for (at, own) in report.sittings.iter().enumerate() { (marks(own, at, report.sittings.len() > 1)) }
        @for plan in &report.plans { (reliability(plan, report.plans.len() > 1)) }
        (over_time(report))
        @if !report.notes.is_empty() {
            h2 { "Notes" }
            ul { @for note in &report.notes { li { (typed(note)) "." } } }
        }
        h2 { "How to read this" }
        p { "Who is not in counts as not in, not as nought. What was dropped, or cannot be marked, \
             counts nowhere. An interval of 80 % leaves one time in five for what lies outside \
             of it: it tells what another such class might show." }
        p { "Reliability and the figures of items come from " (LEAST_PERSONS) " hand-ins or more \
             of the same plan; give the folders of several classes or years to pool them. Nobody \
             is named here, and nobody is ranked." }
    };
    page(Kind::ClassReport, &title, &body)
}

fn head(report: &Report) -> Markup {
    let heads: [Head<'_>; 4] = [
        ("class", false),
        ("paper", false),
        ("day", false),
        ("in", true),
    ];
    let rows: Vec<Vec<String>> = (report.sittings.iter())
        .map(|own| {
            vec![
                typed(&own.class),
                format!("{} ({})", typed(&own.title), own.plan),
                whole(&own.date.clone().unwrap_or_default()),
                whole(&format!("{} of {}", own.came_in, own.papers)),
            ]
        })
        .collect();
    table("The papers of this report", &heads, &rows)
}

/// A short text that no line break parts, at a blank or behind a hyphen.
fn whole(text: &str) -> String {
    text.replace(' ', "\u{a0}")
        .replace('-', "\u{2060}-\u{2060}")
}

/// A family and its level: the level does not stand alone on a line.
fn leveled(family: &str, level: u8) -> String {
    format!("{family},\u{a0}{level}")
}
