//! The time spent, week by week.

use maud::{Markup, html};
use pumpwright_engine::entries::{Place, time_by_week};

use super::Read;
use crate::plot::{Bar, Said, bars};
use crate::table::table;
use crate::words;

/// The part of the report.
pub fn part(read: &Read<'_>) -> Markup {
    let entries = read.report.entries;
    let weeks = time_by_week(entries, read.report.now.day);
    let seconds: u64 = weeks.iter().map(|week| week.seconds).sum();
    let untold = entries
        .iter()
        .filter(|entry| entry.place == Place::Paper && entry.seconds == 0)
        .count();
    let plotted: Vec<Bar> = weeks
        .iter()
        .map(|week| Bar {
            label: words::short_day(week.monday),
            amount: week.seconds as f64 / 60.0,
        })
        .collect();
    let rows: Vec<Vec<String>> = weeks
        .iter()
        .rev()
        .map(|week| {
            vec![
                words::day(week.monday),
                week.sheets.to_string(),
                words::time(week.seconds),
            ]
        })
        .collect();
    let title = "Time at sheets, week by week";
    let said = Said {
        name: "time",
        title,
        tells: "A bar for each week, as high as the minutes spent at sheets. The table has the \
                same figures.",
    };
    let heads = [("week from", false), ("sheets", true), ("time", true)];
    html! {
        h2 { "Time" }
        @if weeks.is_empty() {
            p { "No sheet was handed in yet." }
        } @else {
            p { "Together " (words::time(seconds)) " at sheets in "
                (words::count(weeks.len(), "week", "weeks"))
                ": from the first sight of each to the hand-in."
                @if untold > 0 {
                    " Not in it: " (words::count(untold, "sheet", "sheets"))
                    " done on paper without a time."
                }
            }
            div.pair {
                div { (bars(&said, &plotted, "minutes")) }
                (table(title, &heads, &rows))
            }
        }
    }
}
