//! The report of a class as a page: what to teach again, lines, items, marks, reliability;
//! over several papers how the class went. No name is on it.

use maud::{Markup, html};
use pumpwright_engine::classes::report::{
    Item, LEAST_PERSONS, PlanFigures, Reliability, Report, Sitting, Step, Turn,
};

use crate::page::{Kind, page};
use crate::plot::{Bar, Dot, Said, Track, TrackPoint, bars, dots, track};
use crate::table::{Head, table};
use crate::words::{count, percent, typed};

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
                own.date.clone().unwrap_or_default(),
                format!("{} of {}", own.came_in, own.papers),
            ]
        })
        .collect();
    table("The papers of this report", &heads, &rows)
}

fn teach(report: &Report) -> Markup {
    let plotted: Vec<Dot> = (report.teach.iter().take(DRAWN))
        .map(|turn| Dot {
            label: format!("{} {}, {}", place(turn), turn.family, turn.level),
            share: share(turn),
            between: (turn.between.low, turn.between.high),
        })
        .collect();
    let title = "Teach this again";
    let said = Said {
        name: "teach",
        title,
        tells: "A row for each turn, by its place and family: the share of people who took it \
                among those who met it, with its 80 % interval. The table has the counts.",
    };
    let heads = [
        ("place", true),
        ("turn taken", false),
        ("family, level", false),
        ("how many", true),
        ("likely", true),
    ];
    let rows: Vec<Vec<String>> = report.teach.iter().map(row).collect();
    html! {
        h2 { (title) }
        @if report.teach.is_empty() {
            p { (report.without_turns()) }
        } @else {
            p { "By how many people took the turn; equal numbers share a place (=). \
                 \u{201c}Likely\u{201d} is the 80 % interval." }
            div.pair {
                div { (dots(&said, &plotted)) }
                (table(title, &heads, &rows))
            }
            h3 { "For the board" }
            p { "Each of these problems parts the right figure from that of the turn." }
            ol.lines {
                @for turn in report.teach.iter().take(DRAWN) { li { (board(turn)) } }
            }
        }
    }
}

fn place(turn: &Turn) -> String {
    format!("{}{}", turn.rank, if turn.tied { "=" } else { "" })
}

fn share(turn: &Turn) -> f64 {
    turn.made as f64 / turn.met.max(1) as f64
}

fn row(turn: &Turn) -> Vec<String> {
    let fatal = if turn.fatal {
        " This can kill or maim."
    } else {
        ""
    };
    let perhaps = if turn.perhaps > 0 {
        format!(
            " Of these {} may have taken another turn with the same figure.",
            turn.perhaps
        )
    } else {
        String::new()
    };
    vec![
        place(turn),
        format!("\u{201c}{}\u{201d}{fatal}{perhaps}", typed(&turn.did)),
        format!("{}, {}", turn.family, turn.level),
        whole(&format!("{} of {}", turn.made, turn.met)),
        whole(&format!(
            "{:.0}-{:.0} %",
            100.0 * turn.between.low,
            100.0 * turn.between.high
        )),
    ]
}

/// A short text that no line break parts.
fn whole(text: &str) -> String {
    text.replace(' ', "\u{a0}")
}

fn board(turn: &Turn) -> Markup {
    html! {
        strong { (typed(&turn.title)) } ": \u{201c}" (typed(&turn.did)) "\u{201d} " (typed(&turn.says)) br;
        @match &turn.board {
            Some(code) => code { "pumpwright board " (code) " --mistake " (turn.mistake) },
            None => span.faint { "No draw of it parts its figure well from the others." },
        }
    }
}

fn steps(report: &Report) -> Markup {
    let missed: Vec<&Step> = report.steps.iter().filter(|own| own.missed > 0).collect();
    let title = "Lines missed";
    let several = report.plans.len() > 1;
    let heads = [
        ("item", true),
        ("line", false),
        ("family, level", false),
        ("missed", true),
        ("of these empty", true),
        ("of these not followed", true),
        ("right, follows", true),
        ("right, borne", true),
    ];
    let rows: Vec<Vec<String>> = (missed.iter())
        .map(|own| {
            let plan = if several {
                format!("{}, ", own.plan)
            } else {
                String::new()
            };
            vec![
                format!("{plan}{}", own.item),
                typed(&own.label),
                format!("{}, {}", own.family, own.level),
                whole(&format!("{} of {}", own.missed, own.met)),
                own.empty.to_string(),
                own.unfollowed.to_string(),
                own.follows.to_string(),
                own.carried.to_string(),
            ]
        })
        .collect();
    let plotted: Vec<Dot> = (missed.iter().take(DRAWN))
        .map(|own| Dot {
            label: format!("item {}, {}", own.item, own.family),
            share: own.missed as f64 / own.met.max(1) as f64,
            between: (0.0, own.missed as f64 / own.met.max(1) as f64),
        })
        .collect();
    let said = Said {
        name: "lines",
        title,
        tells: "A row for each line, by its item and family: in what share of the hand-ins it was \
                missed. The table has the counts.",
    };
    html! {
        h2 { (title) }
        @if missed.is_empty() { p { "No line was missed." } } @else {
            p { "Follows: right, worked from an earlier figure that is off; it is not missed. \
                 Borne: left empty, and a later line is right. Not followed: worked from a figure \
                 that could hurt someone." }
            div { (dots(&said, &plotted)) }
            (table(title, &heads, &rows))
        }
    }
}

fn items(plan: &PlanFigures, at: usize, several: bool) -> Markup {
    let title = if several {
        format!("Items of {}", plan.plan)
    } else {
        "Items".to_owned()
    };
    let known = plan.items.iter().any(|own| own.figures.is_some());
    let mut heads = vec![
        ("item", true),
        ("family, level", false),
        ("marks", true),
        ("hand-ins", true),
        ("all of its marks", true),
    ];
    if known {
        heads.extend([
            ("difficulty", true),
            ("95 %", true),
            ("with the rest", true),
            ("95 %", true),
        ]);
    }
    let rows: Vec<Vec<String>> = plan.items.iter().map(item).collect();
    let name = format!("items-{at}");
    let said = Said {
        name: &name,
        title: &title,
        tells: "A row for each item: the mean share of its marks, with its 95 % interval. The \
                table has the same figures.",
    };
    let plotted: Vec<Dot> = (plan.items.iter())
        .filter_map(|own| {
            let found = own.figures?;
            Some(Dot {
                label: format!("item {}", own.item),
                share: found.difficulty,
                between: (found.difficulty_between.low, found.difficulty_between.high),
            })
        })
        .collect();
    html! {
        h2 { (title) }
        @if let (false, Some(missing)) = (known, plan.reliability.missing()) {
            p { "Difficulty and correlation are " (missing) "." }
        }
        @if known {
            p { "Difficulty: the mean share of the marks, high where the item is easy. With the \
                 rest: the correlation with the sum of the other items; near nothing, the item \
                 tells nothing of who knows the work." }
            div { (dots(&said, &plotted)) }
        }
        (table(&title, &heads, &rows))
    }
}

fn item(own: &Item) -> Vec<String> {
    let families = own
        .families
        .iter()
        .map(|(family, level)| format!("{family}, {level}"));
    let mut row = vec![
        own.item.to_string(),
        families.collect::<Vec<_>>().join("; "),
        own.bears.to_string(),
        own.hand_ins.to_string(),
        own.whole.to_string(),
    ];
    if let Some(found) = own.figures {
        let span = |low: f64, high: f64| format!("{low:.2} to {high:.2}");
        row.push(format!("{:.2}", found.difficulty));
        row.push(span(
            found.difficulty_between.low,
            found.difficulty_between.high,
        ));
        row.push(
            found
                .with_rest
                .map_or_else(|| "none".to_owned(), |own| format!("{own:.2}")),
        );
        let between = found.with_rest_between;
        row.push(between.map_or_else(String::new, |own| span(own.low, own.high)));
    }
    row
}

fn marks(own: &Sitting, at: usize, several: bool) -> Markup {
    let title = if several {
        format!("Marks of {}, {}", typed(&own.class), own.plan)
    } else {
        "Marks".to_owned()
    };
    let spread = &own.spread;
    let span = |from: u32, to: u32| {
        if from == to {
            from.to_string()
        } else {
            format!("{from}-{to}")
        }
    };
    let plotted: Vec<Bar> = (spread.bins.iter())
        .map(|bin| Bar {
            label: span(bin.from, bin.to),
            amount: bin.count as f64,
        })
        .collect();
    let name = format!("marks-{at}");
    let said = Said {
        name: &name,
        title: &title,
        tells: "A bar for each span of marks: how many hand-ins lie there. The table has the \
                same counts.",
    };
    let rows: Vec<Vec<String>> = (spread.bins.iter())
        .map(|bin| vec![span(bin.from, bin.to), bin.count.to_string()])
        .collect();
    html! {
        h2 { (title) }
        @match (spread.mean, spread.middle) {
            (Some(mean), Some(middle)) => {
                p {
                    "Mean " (format!("{mean:.1}")) " of " (spread.of) ", middle "
                    (format!("{middle:.1}"))
                    @if let Some(deviation) = spread.deviation {
                        ", spread (SD) " (format!("{deviation:.1}"))
                    }
                    "; " (count(spread.hand_ins, "hand-in", "hand-ins")) "."
                }
                @if let Some(pass) = &spread.pass {
                    p {
                        "The pass mark, " (pass.from) " or more: " (pass.passed) " of "
                        (spread.hand_ins) " (likely " (percent(pass.between.low)) " to "
                        (percent(pass.between.high)) ")."
                    }
                }
                div.pair {
                    div { (bars(&said, &plotted, "hand-ins")) }
                    (table(&title, &[("marks", false), ("hand-ins", true)], &rows))
                }
            }
            _ => p { "No hand-in is marked." },
        }
        @if !own.dropped.is_empty() {
            p { "Dropped, and counted nowhere: item "
                (own.dropped.iter().map(usize::to_string).collect::<Vec<_>>().join(", ")) "." }
        }
    }
}

fn reliability(plan: &PlanFigures, several: bool) -> Markup {
    let title = if several {
        format!("Reliability of {}", plan.plan)
    } else {
        "Reliability".to_owned()
    };
    html! {
        h2 { (title) }
        @match &plan.reliability {
            Reliability::Known(found) => {
                @let heads = [("measure", false), ("figure", true), ("95 %", true), ("hand-ins", true)];
                @let between = found.between.map_or_else(String::new, |own| {
                    format!("{:.2} to {:.2}", own.low, own.high)
                });
                @let hand_ins = plan.hand_ins.to_string();
                @let rows = [
                    vec![found.name().to_owned(), format!("{:.2}", found.alpha), between, hand_ins.clone()],
                    vec!["standard error of measurement, marks".to_owned(), format!("{:.1}", found.error), String::new(), hand_ins],
                ];
                (table(&title, &heads, &rows))
                p { "From " (count(plan.hand_ins, "hand-in", "hand-ins")) " of "
                    (count(plan.classes, "class or year", "classes or years")) ". A mark may lie \
                     off by the standard error by chance alone."
                    @if let Some(near) = found.near_pass {
                        " Within one standard error of the pass mark: " (near) " of "
                        (plan.hand_ins) "."
                    }
                }
            }
            other => p { "Reliability is " (other.missing().unwrap_or_default()) "." },
        }
    }
}

/// The shares of the marks over several papers of a class.
fn over_time(report: &Report) -> Markup {
    let mut classes: Vec<&str> = report
        .sittings
        .iter()
        .map(|own| own.class.as_str())
        .collect();
    classes.dedup();
    html! {
        @for (at, class) in classes.iter().enumerate() {
            @let own: Vec<(usize, &Sitting)> = report.sittings.iter().enumerate()
                .filter(|(_, own)| own.class == **class).collect();
            @if own.len() > 1 { (one_class(report, at, class, &own)) }
        }
    }
}

fn one_class(report: &Report, at: usize, class: &str, own: &[(usize, &Sitting)]) -> Markup {
    let title = format!("{} over {} papers", typed(class), own.len());
    let name = format!("over-{at}");
    let said = Said {
        name: &name,
        title: &title,
        tells: "The mean share of the marks, paper by paper, and one standard deviation to both \
                sides. The table has the same figures.",
    };
    let shares = |own: &Sitting| {
        let of = own.spread.of.number().max(0.5);
        let share = |value: f64| value / of;
        Some((
            share(own.spread.mean?),
            own.spread.deviation.map(share),
            own.spread.middle.map(share)?,
        ))
    };
    let places = own.iter().map(|(_, sitting)| {
        let point = shares(sitting).map(|(mean, deviation, _)| {
            let off = deviation.unwrap_or(0.0);
            TrackPoint {
                share: mean,
                between: ((mean - off).max(0.0), (mean + off).min(1.0)),
            }
        });
        (sitting.plan.clone(), point)
    });
    let plotted = Track {
        places: places.collect(),
        mark: (0.5, "half of the marks".to_owned()),
    };
    let rows: Vec<Vec<String>> = (own.iter())
        .map(|(_, sitting)| {
            let found = shares(sitting);
            let cell = |value: Option<f64>| value.map_or_else(String::new, percent);
            let pass = sitting.spread.pass.map_or_else(String::new, |pass| {
                format!("{} of {}", pass.passed, sitting.spread.hand_ins)
            });
            vec![
                sitting.plan.clone(),
                sitting.date.clone().unwrap_or_default(),
                sitting.came_in.to_string(),
                cell(found.map(|own| own.0)),
                cell(found.and_then(|own| own.1)),
                cell(found.map(|own| own.2)),
                pass,
            ]
        })
        .collect();
    let heads = [
        ("paper", false),
        ("day", false),
        ("in", true),
        ("mean", true),
        ("SD", true),
        ("middle", true),
        ("passed", true),
    ];
    html! {
        h2 { (title) }
        div.pair {
            div { (track(&said, &plotted)) }
            (table(&title, &heads, &rows))
        }
        (back(report, own))
    }
}

/// The turns that a class took in more than one of its papers.
fn back(report: &Report, own: &[(usize, &Sitting)]) -> Markup {
    let seen = |turn: &Turn, at: usize| turn.seen.get(at).copied().flatten();
    let again = |turn: &&Turn| {
        let times = own
            .iter()
            .filter(|(at, _)| seen(turn, *at).is_some_and(|own| own.0 > 0));
        times.count() > 1
    };
    let turns: Vec<&Turn> = report.teach.iter().filter(again).collect();
    let mut heads = vec![("turn taken", false), ("family, level", false)];
    heads.extend(own.iter().map(|(_, sitting)| (sitting.plan.as_str(), true)));
    let rows: Vec<Vec<String>> = (turns.iter())
        .map(|turn| {
            let mut row = vec![
                format!("\u{201c}{}\u{201d}", typed(&turn.did)),
                format!("{}, {}", turn.family, turn.level),
            ];
            row.extend(own.iter().map(|(at, _)| {
                let seen = seen(turn, *at);
                seen.map_or_else(String::new, |(made, met)| format!("{made} of {met}"))
            }));
            row
        })
        .collect();
    html! {
        h3 { "Mistakes that come back" }
        @if turns.is_empty() { p { "None was made in more than one of these papers." } }
        @else { (table("Mistakes that come back", &heads, &rows)) }
    }
}
