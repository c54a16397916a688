//! The report as plain lines. Whoever prints them breaks the prose and sets the tables.

use std::fmt::Write as _;

use super::{Item, PlanFigures, Reliability, Report, Sitting, Step, Turn};

/// So many turns, lines and items are told; the page and the table have all of them. Our
/// own choice, no source.
const TURNS: usize = 8;
const STEPS: usize = 8;
const ITEMS: usize = 30;
/// As wide as the longest bar is drawn.
const BAR: usize = 24;

/// A part of the plain report.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Plain {
    /// An empty line.
    Gap,
    /// A line as it is.
    Line(String),
    /// Words to be broken, behind a head that further lines stand clear of.
    Prose(String, String),
    /// Rows whose cells stand under one another.
    Table(Vec<Vec<String>>),
}

/// The report as plain lines.
pub fn plain(report: &Report) -> Vec<Plain> {
    let mut out = vec![Plain::Line(report.title())];
    out.push(Plain::Table(report.sittings.iter().map(sitting).collect()));
    teach(report, &mut out);
    steps(report, &mut out);
    for plan in &report.plans {
        items(plan, report.plans.len() > 1, &mut out);
    }
    for sitting in &report.sittings {
        spread(sitting, report.sittings.len() > 1, &mut out);
    }
    for plan in &report.plans {
        reliability(plan, report.plans.len() > 1, &mut out);
    }
    if !report.notes.is_empty() {
        out.push(Plain::Gap);
    }
    for note in &report.notes {
        out.push(Plain::Prose("Note: ".into(), format!("{note}.")));
    }
    out
}

fn prose(out: &mut Vec<Plain>, text: &str) {
    out.push(Plain::Prose(String::new(), text.to_owned()));
}

fn sitting(own: &Sitting) -> Vec<String> {
    vec![
        own.class.clone(),
        own.plan.clone(),
        own.date.clone().unwrap_or_default(),
        format!("{} of {} in", own.came_in, own.papers),
    ]
}

fn head(out: &mut Vec<Plain>, text: &str) {
    out.extend([Plain::Gap, Plain::Line(text.to_owned())]);
}

fn teach(report: &Report, out: &mut Vec<Plain>) {
    head(out, "TEACH THIS AGAIN");
    if report.teach.is_empty() {
        prose(out, report.without_turns());
        return;
    }
    for turn in report.teach.iter().take(TURNS) {
        let place = format!("{:>3}{} ", turn.rank, if turn.tied { "=" } else { " " });
        let place = place.as_str();
        out.push(Plain::Prose(
            place.to_owned(),
            format!(
                "{}, level {}: {} of {}, likely {}",
                turn.family,
                turn.level,
                turn.made,
                turn.met,
                likely(turn)
            ),
        ));
        let indent = " ".repeat(place.len());
        let mut say = |text: String| out.push(Plain::Prose(indent.clone(), text));
        say(format!("\u{201c}{}\u{201d}", turn.did));
        if turn.fatal {
            say("This can kill or maim: teach it whatever its place.".into());
        }
        if turn.perhaps > 0 {
            say(format!(
                "{} of the {} may have taken another turn that gives the same figure.",
                turn.perhaps, turn.made
            ));
        }
        match &turn.board {
            Some(code) => say(format!("board {code} --mistake {}", turn.mistake)),
            None => say("No draw parts its figure well from the others.".into()),
        }
    }
    if report.teach.len() > TURNS {
        let more = report.teach.len() - TURNS;
        prose(out, &format!("{more} more on the page and in the table."));
    }
    let back: Vec<String> = report
        .teach
        .iter()
        .filter(|own| own.comes_back)
        .map(|own| format!("{} ({}, level {})", own.mistake, own.family, own.level))
        .collect();
    if !back.is_empty() {
        prose(
            out,
            &format!("They came back in a later paper: {}.", back.join("; ")),
        );
    }
    prose(
        out,
        "People are counted. Equal numbers share a place (=). \u{201c}Likely\u{201d} is the 80 % \
         interval: what another such class might show.",
    );
}

/// The interval in whole per cent: `26-51 %`.
fn likely(turn: &Turn) -> String {
    let of = |share: f64| fixed(100.0 * share, 0);
    format!("{}-{} %", of(turn.between.low), of(turn.between.high))
}

fn steps(report: &Report, out: &mut Vec<Plain>) {
    head(out, "LINES MISSED");
    let missed: Vec<&Step> = report.steps.iter().filter(|step| step.missed > 0).collect();
    if missed.is_empty() {
        prose(out, "No line was missed.");
        return;
    }
    let several = report.plans.len() > 1;
    let titles = [
        if several { "plan, item" } else { "item" },
        "family, level",
        "line",
        "missed",
        "follows",
        "empty",
    ];
    let mut rows = vec![titles.map(str::to_owned).to_vec()];
    for step in missed.iter().take(STEPS) {
        let item = step.item.to_string();
        rows.push(vec![
            if several {
                format!("{}, {item}", step.plan)
            } else {
                item
            },
            format!("{}, {}", step.family, step.level),
            step.label.clone(),
            format!("{} of {}", step.missed, step.met),
            step.follows.to_string(),
            step.empty.to_string(),
        ]);
    }
    out.push(Plain::Table(rows));
    if missed.len() > STEPS {
        let more = missed.len() - STEPS;
        prose(out, &format!("{more} more on the page and in the table."));
    }
    prose(
        out,
        "Follows: right, worked from an earlier figure that is off; it is not missed. Empty: \
         missed, with nothing written.",
    );
}

fn items(plan: &PlanFigures, several: bool, out: &mut Vec<Plain>) {
    head(out, &named("ITEMS", plan, several));
    let known = plan.items.iter().any(|item| item.figures.is_some());
    let titles = [
        "item",
        "family, level",
        "marks",
        "all of it",
        "share",
        "95 %",
        "rest",
        "95 %",
    ];
    let columns = if known { titles.len() } else { 4 };
    let mut rows = vec![
        titles
            .iter()
            .take(columns)
            .map(|own| (*own).to_owned())
            .collect(),
    ];
    rows.extend(plan.items.iter().take(ITEMS).map(item));
    out.push(Plain::Table(rows));
    if plan.items.len() > ITEMS {
        let more = plan.items.len() - ITEMS;
        prose(out, &format!("{more} more on the page and in the table."));
    }
    if known {
        prose(
            out,
            "Share: of the marks, its difficulty. Rest: its correlation with the sum of the other \
             items. Each with its 95 % interval.",
        );
    } else if let Some(missing) = plan.reliability.missing() {
        prose(out, &format!("Difficulty and correlation {missing}."));
    }
}

fn named(what: &str, plan: &PlanFigures, several: bool) -> String {
    if several {
        format!("{what}   {}", plan.label)
    } else {
        what.to_owned()
    }
}

fn item(item: &Item) -> Vec<String> {
    let family = match item.families.as_slice() {
        [(family, level)] => format!("{family}, {level}"),
        several => format!("one of {}", several.len()),
    };
    let mut row = vec![
        item.item.to_string(),
        family,
        item.bears.to_string(),
        format!("{} of {}", item.whole, item.hand_ins),
    ];
    if let Some(found) = &item.figures {
        let two = |value: f64| fixed(value, 2);
        row.push(two(found.difficulty));
        let between = found.difficulty_between;
        row.push(format!("{} to {}", two(between.low), two(between.high)));
        row.push(found.with_rest.map_or_else(|| "none".to_owned(), two));
        let between = found.with_rest_between;
        row.push(between.map_or_else(String::new, |own| {
            format!("{} to {}", two(own.low), two(own.high))
        }));
    }
    row
}

fn spread(own: &Sitting, several: bool, out: &mut Vec<Plain>) {
    let title = if several {
        format!("MARKS   {}, {}", own.class, own.plan)
    } else {
        "MARKS".to_owned()
    };
    head(out, &title);
    let spread = &own.spread;
    let (Some(mean), Some(middle)) = (spread.mean, spread.middle) else {
        prose(out, "No hand-in is marked.");
        return;
    };
    let one = |value: f64| fixed(value, 1);
    let mut said = format!(
        "Mean {} of {}, middle {}",
        one(mean),
        spread.of,
        one(middle)
    );
    if let Some(deviation) = spread.deviation {
        let _ = write!(said, ", spread (SD) {}", one(deviation));
    }
    said.push('.');
    if let Some(pass) = &spread.pass {
        let _ = write!(
            said,
            " {} or more: {} of {}.",
            pass.from, pass.passed, spread.hand_ins
        );
    }
    prose(out, &said);
    let most = spread
        .bins
        .iter()
        .map(|bin| bin.count)
        .max()
        .unwrap_or(0)
        .max(1);
    let rows = spread.bins.iter().map(|bin| {
        let span = if bin.from == bin.to {
            bin.from.to_string()
        } else {
            format!("{}-{}", bin.from, bin.to)
        };
        let long = if most <= BAR {
            bin.count
        } else {
            (bin.count * BAR).div_ceil(most)
        };
        vec![span, bin.count.to_string(), "#".repeat(long)]
    });
    out.push(Plain::Table(rows.collect()));
    if !own.dropped.is_empty() {
        let items: Vec<String> = own.dropped.iter().map(usize::to_string).collect();
        prose(
            out,
            &format!("Dropped, and counted nowhere: item {}.", items.join(", ")),
        );
    }
}

fn reliability(plan: &PlanFigures, several: bool, out: &mut Vec<Plain>) {
    head(out, &named("RELIABILITY", plan, several));
    let found = match &plan.reliability {
        Reliability::Known(found) => found,
        other => {
            let said = other.missing().unwrap_or_default();
            let mut signs = said.chars();
            let first = signs.next().map(|sign| sign.to_ascii_uppercase());
            prose(
                out,
                &format!(
                    "{}{}.",
                    first.into_iter().collect::<String>(),
                    signs.as_str()
                ),
            );
            return;
        }
    };
    let two = |value: f64| fixed(value, 2);
    let between = found.between.map_or_else(String::new, |own| {
        format!(" (95 % interval {} to {})", two(own.low), two(own.high))
    });
    let mut said = format!(
        "{} {}{between}; standard error of measurement {} marks. From {} hand-ins.",
        found.name(),
        two(found.alpha),
        fixed(found.error, 1),
        plan.hand_ins
    );
    if let Some(near) = found.near_pass {
        let _ = write!(
            said,
            " {near} lie within one standard error of the pass mark."
        );
    }
    prose(out, &said);
}

/// A figure with so many decimals; none is below nothing by rounding alone.
pub(super) fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(plain) if plain.chars().all(|sign| matches!(sign, '0' | '.')) => plain.to_owned(),
        _ => text,
    }
}
