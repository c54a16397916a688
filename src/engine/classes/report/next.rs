//! Next week's plan out of what a report found: the families whose mistakes are to be
//! taught again, then some that were not met lately.

use std::fmt::Write as _;

use super::{Met, Report};
use crate::lessons::Library;
use crate::quantities::System;

/// So many families are taught again. Our own choice, no source.
const AGAIN: usize = 4;
/// So many that were not met lately come beside them. Our own choice, no source.
const OTHERS: usize = 3;

/// What a plan is made of: of a report, or of the table that was written of it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Findings {
    /// The id of the last plan.
    pub plan: String,
    /// Its title.
    pub title: String,
    /// `us` or `si`.
    pub units: String,
    /// The families that were met, those longest ago first.
    pub met: Vec<Met>,
    /// What was missed, the commonest first.
    pub missed: Vec<Missed>,
}

/// A turn to teach again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missed {
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// In the apprentice's own voice.
    pub did: String,
    /// How many people made it.
    pub made: usize,
    /// How many met it.
    pub met: usize,
}

impl Findings {
    /// What a report found.
    pub fn of(report: &Report) -> Self {
        let last = report.sittings.last();
        let missed = report.teach.iter().map(|turn| Missed {
            family: turn.family.clone(),
            level: turn.level,
            did: turn.did.clone(),
            made: turn.made,
            met: turn.met,
        });
        Self {
            plan: last.map(|own| own.plan.clone()).unwrap_or_default(),
            title: last.map(|own| own.title.clone()).unwrap_or_default(),
            units: last.map(|own| own.units.clone()).unwrap_or_default(),
            met: report.families.clone(),
            missed: missed.collect(),
        }
    }
}

/// An item of the plan, with why it is there.
struct Wanted {
    why: Vec<String>,
    family: String,
    level: u8,
}

/// The text of the plan.
///
/// # Errors
/// A sentence, where these lessons have no family that the report tells of.
pub fn next_plan(findings: &Findings, library: &Library) -> Result<String, String> {
    let system = if findings.units == "si" {
        System::Si
    } else {
        System::Us
    };
    let mut items = taught_again(findings, library, system);
    let taught: Vec<String> = items.iter().map(|item| item.family.clone()).collect();
    items.extend(not_lately(findings, &taught, library, system));
    if items.is_empty() {
        return Err(
            "tells of no family that these lessons have; nothing can be planned".to_owned(),
        );
    }
    let mut text = format!(
        "# Next week's plan, out of the report of {}. Change what stands here.\n\
         # pumpwright plan show FILE prints samples; pumpwright check FILE finds faults.\n\
         # pumpwright plan new prints every key with what it is for.\n\n\
         format   = 1\nplan     = \"{}\"    # names the folder of the papers\n\
         title    = \"Next after {}\"\n# date   = \"2026-11-25\"\n\
         units    = \"{}\"\nmarks    = \"steps\"\npass     = 70\nversions = \"one each\"\n",
        one_line(&findings.plan),
        next_id(&findings.plan),
        quoted(&findings.title),
        system.letters(),
    );
    for item in items {
        text.push('\n');
        for why in item.why {
            let _ = writeln!(text, "# {}", one_line(&why));
        }
        let _ = writeln!(
            text,
            "[[item]]\nfamily = \"{}\"\nlevel  = {}",
            item.family, item.level
        );
    }
    Ok(text)
}

/// The families of the commonest turns: each at its level, and one level lower before that
/// where most of those who met the turn took it.
fn taught_again(findings: &Findings, library: &Library, system: System) -> Vec<Wanted> {
    let mut families: Vec<(&str, u8)> = Vec::new();
    for missed in &findings.missed {
        let own = (missed.family.as_str(), missed.level);
        let there = library.variant(own.0, own.1, system).is_some();
        if there && !families.contains(&own) && families.len() < AGAIN {
            families.push(own);
        }
    }
    let mut items: Vec<Wanted> = Vec::new();
    for (family, level) in families {
        let turns = findings.missed.iter();
        let turns: Vec<&Missed> = turns
            .filter(|own| (own.family.as_str(), own.level) == (family, level))
            .collect();
        let mut why: Vec<String> = turns
            .iter()
            .map(|own| format!("{} of {}: {}", own.made, own.met, own.did))
            .collect();
        let by_most = turns.iter().any(|own| 2 * own.made > own.met);
        let lower = (1..level).rev();
        let lower = lower
            .into_iter()
            .find(|lower| by_most && library.variant(family, *lower, system).is_some());
        if let Some(lower) = lower {
            why.push("Most took it, so one level lower comes first.".to_owned());
            items.push(Wanted {
                why: std::mem::take(&mut why),
                family: family.to_owned(),
                level: lower,
            });
        }
        items.push(Wanted {
            why,
            family: family.to_owned(),
            level,
        });
    }
    // One family may be there at two levels by itself.
    let mut known: Vec<(String, u8)> = Vec::new();
    items.retain(|item| {
        let own = (item.family.clone(), item.level);
        let new = !known.contains(&own);
        known.push(own);
        new
    });
    items
}

/// Families that were not met lately: first those of earlier papers, then those of the
/// lessons that were met, none twice.
fn not_lately(
    findings: &Findings,
    taught: &[String],
    library: &Library,
    system: System,
) -> Vec<Wanted> {
    let met = |id: &str| findings.met.iter().any(|met| met.family == id);
    let lessons: Vec<&str> = (findings.met.iter())
        .filter_map(|met| Some(library.family(&met.family)?.lesson.as_str()))
        .collect();
    let fresh = library.families().filter(|own| !met(&own.id));
    let of_lesson = fresh.filter(|own| lessons.contains(&own.lesson.as_str()));
    let fresh = of_lesson.map(|own| {
        (
            own.id.clone(),
            own.home,
            "Of a lesson that was met; not in these papers.",
        )
    });
    let early = findings.met.iter().filter(|met| !met.lately);
    let early = early.map(|met| (met.family.clone(), met.level, "Not in the last paper."));
    let mut items: Vec<Wanted> = Vec::new();
    for (family, level, why) in early.chain(fresh) {
        let known = taught.contains(&family) || items.iter().any(|own| own.family == family);
        if !known && library.variant(&family, level, system).is_some() {
            items.push(Wanted {
                why: vec![why.to_owned()],
                family,
                level,
            });
        }
        if items.len() == OTHERS {
            break;
        }
    }
    items
}

/// The id with its number one higher, or with a number behind it.
fn next_id(plan: &str) -> String {
    let kept: String = plan
        .chars()
        .filter(|sign| sign.is_ascii_lowercase() || sign.is_ascii_digit() || *sign == '-')
        .collect();
    let kept = kept.trim_matches('-');
    let digits = kept.chars().rev().take_while(char::is_ascii_digit).count();
    let (before, number) = kept.split_at(kept.len() - digits);
    match number
        .parse::<u64>()
        .ok()
        .and_then(|own| own.checked_add(1))
    {
        Some(next) => format!("{before}{next}"),
        None if kept.is_empty() => "next".to_owned(),
        None => format!("{kept}-2"),
    }
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A text fit for between quotation marks.
fn quoted(text: &str) -> String {
    one_line(text).replace('\\', "/").replace('"', "'")
}

#[cfg(test)]
mod tests {
    use super::next_id;

    #[test]
    fn the_next_number() {
        for (last, next) in [
            ("week-6", "week-7"),
            ("week-9", "week-10"),
            ("cable", "cable-2"),
            ("6", "7"),
            ("", "next"),
            ("w99999999999999999999", "w99999999999999999999-2"),
        ] {
            assert_eq!(next_id(last), next);
        }
    }
}
