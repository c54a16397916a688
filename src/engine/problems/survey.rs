//! The lesson check's second half: a family drawn many times, and what a reader
//! of its file would want to know of the draws.

use std::collections::BTreeMap;

use super::dealer::{Dealer, Rejected, Seed};
use super::draw::{DrawError, Request, TRIES};
use super::judge::Judge;
use super::problem::{Asks, Problem};
use super::settings::{FORM, Settings};
use super::solve::with_step;
use super::working::comes_true;
use super::written;
use crate::formulas::Value;
use crate::lessons::{Library, Within, basis};
use crate::quantities::System;

/// The least share of tries, of those that the guard did not take, that must be kept.
const LEAST_KEPT: f64 = 0.1;
/// The greatest share of sensible draws that the guard may take.
const MOST_GUARDED: f64 = 0.1;
/// The least share of draws in which an offer that is ever right must be right.
const LEAST_RIGHT: f64 = 0.1;
/// The least share of draws in which a mistake must be live.
const LEAST_LIVE: f64 = 0.2;
/// The greatest share of draws in which something is off that chance may bring.
const CHANCE: f64 = 0.1;
/// The two faces of a formula may differ by this share.
const FACES: f64 = 0.005;
/// Trade arithmetic carries three figures; half a unit in the last is at most this share.
const THREE_FIGURES: f64 = 0.005;
/// From so many draws on, a share that misses its limit is no chance.
const TAKEN_AT_THEIR_WORD: u32 = 1000;
/// One in so many draws is made for each value of a house rule that is not the default.
const THINNER: u32 = 10;

/// Columns and rows that a sheet has at 80 by 24.
const STORY_WIDTH: usize = 76;
const STORY_ROWS: usize = 8;
const LABEL: usize = 28;
const OFFER: usize = 66;
const CARD: usize = 68;
const PART: usize = 20;
const MEANING: usize = 46;

/// What the draws of one family, level and system showed under some house rules.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// The system of units.
    pub system: System,
    /// The house rule off its default, as `name=value`; none: all at their defaults.
    pub rule: Option<String>,
    /// Problems drawn.
    pub drawn: u32,
    /// Tries made.
    pub tries: u32,
    /// Tries that had no value somewhere.
    pub no_value: u32,
    /// Tries that did not meet a requirement.
    pub refused: u32,
    /// Tries that met all requirements and in which a mistake would be marked right.
    pub guarded: u32,
    /// What a reader of the file must mend.
    pub findings: Vec<String>,
}

impl Survey {
    /// The share of tries that met every requirement.
    pub fn accepted(&self) -> f64 {
        share(self.drawn + self.guarded, self.tries)
    }

    /// The share of sensible draws that the guard took.
    pub fn guard_rate(&self) -> f64 {
        share(self.guarded, self.drawn + self.guarded)
    }
}

/// How far a share of so many draws may be off a limit by chance: two standard
/// deviations. A thousand draws and more are taken at their word.
fn by_chance(limit: f64, draws: u32) -> f64 {
    if draws >= TAKEN_AT_THEIR_WORD || draws == 0 {
        return 0.0;
    }
    2.0 * (limit * (1.0 - limit) / f64::from(draws)).sqrt()
}

fn share(part: u32, of: u32) -> f64 {
    if of == 0 {
        0.0
    } else {
        f64::from(part) / f64::from(of)
    }
}

/// Draws a family many times at a level in a system: under the defaults, then
/// thinner under each other value of each house rule that it uses.
pub fn survey(
    library: &Library,
    family: &str,
    level: u8,
    system: System,
    draws: u32,
) -> Vec<Survey> {
    let mut surveys = Vec::new();
    for (rule, settings) in every_setting(library, family, level, system) {
        let request = Request {
            family,
            level: Some(level),
            system,
            draw: 0,
            settings: &settings,
        };
        let count = if rule.is_some() {
            draws.div_ceil(THINNER)
        } else {
            draws
        };
        match Dealer::new(library, &request) {
            Ok(dealer) => surveys.push(Tally::new(library, &dealer, rule).run(count)),
            Err(DrawError::Ruled(_)) => {}
            Err(error) => surveys.push(Survey {
                family: family.to_owned(),
                level,
                system,
                rule,
                drawn: 0,
                tries: 0,
                no_value: 0,
                refused: 0,
                guarded: 0,
                findings: vec![error.to_string()],
            }),
        }
    }
    surveys
}

/// What a survey under everything that a class's rules file sets goes by.
const CLASS: &str = "the rules file";

/// The defaults, and each other value of each rule that bears on the family.
fn every_setting(
    library: &Library,
    family: &str,
    level: u8,
    system: System,
) -> Vec<(Option<String>, Settings)> {
    let mut all = vec![(None, Settings::default())];
    let Some(variant) = library.variant(family, level, system) else {
        return all;
    };
    let numeric = variant.is_numeric();
    let class = Settings::of_class(library);
    if class != Settings::default() {
        all.push((Some(CLASS.to_owned()), class));
    }
    for (at, rule) in library.rules(system).iter().enumerate() {
        let bears = variant.rules_used.contains(&at) || (rule.name == FORM && numeric);
        if !bears {
            continue;
        }
        for choice in rule.choices.iter().skip(1) {
            let mut settings = Settings::default();
            if settings.set(library, &rule.name, &choice.text).is_ok() {
                all.push((Some(format!("{}={}", rule.name, choice.text)), settings));
            }
        }
    }
    all
}

/// Counts while drawing.
struct Tally<'a> {
    library: &'a Library,
    dealer: &'a Dealer,
    survey: Survey,
    live: BTreeMap<String, u32>,
    right: BTreeMap<String, u32>,
    /// How often each remark was made, and the draw that it was first made of.
    counts: BTreeMap<String, (u32, u32)>,
    /// The draw that is looked at.
    draw: u32,
}

impl<'a> Tally<'a> {
    fn new(library: &'a Library, dealer: &'a Dealer, rule: Option<String>) -> Self {
        let variant = &dealer.variant;
        Self {
            library,
            dealer,
            survey: Survey {
                family: dealer.family.id.clone(),
                level: variant.level,
                system: variant.system,
                rule,
                drawn: 0,
                tries: 0,
                no_value: 0,
                refused: 0,
                guarded: 0,
                findings: Vec::new(),
            },
            live: variant
                .mistakes
                .iter()
                .map(|mistake| (mistake.id.clone(), 0))
                .collect(),
            right: BTreeMap::new(),
            counts: BTreeMap::new(),
            draw: 0,
        }
    }

    fn run(mut self, draws: u32) -> Survey {
        for draw in 0..draws {
            self.draw = draw;
            match self.one(draw) {
                Some(problem) => {
                    self.survey.drawn += 1;
                    self.look(&problem);
                }
                None => self.note(format!("no problem in {TRIES} tries")),
            }
        }
        self.conclude()
    }

    fn one(&mut self, draw: u32) -> Option<Problem> {
        let seed = super::draw::scatter(draw);
        for attempt in 0..TRIES {
            self.survey.tries += 1;
            match self.dealer.try_once(Seed::Open(seed), attempt) {
                Ok(problem) => return Some(problem),
                Err(Rejected::NoValue) => self.survey.no_value += 1,
                Err(Rejected::Requirement) => self.survey.refused += 1,
                Err(Rejected::Guard) => self.survey.guarded += 1,
            }
        }
        None
    }

    /// Counts a remark; remarks that are the same are told once, with their number.
    fn note(&mut self, remark: String) {
        let (count, _) = self.counts.entry(remark).or_insert((0, self.draw));
        *count += 1;
    }

    fn look(&mut self, problem: &Problem) {
        for mistake in &problem.mistakes {
            if let Some(count) = self.live.get_mut(&mistake.id) {
                *count += 1;
            }
        }
        self.look_at_text(problem);
        self.look_at_values(problem);
        self.look_at_edges(problem);
        if !comes_true(problem) {
            self.note("a worked line is not true of its printed figures".to_owned());
        }
        if self.survey.rule.is_none() {
            self.look_at_faces(problem);
        }
    }

    fn look_at_text(&mut self, problem: &Problem) {
        let rows: usize = problem
            .story
            .iter()
            .map(|text| rows(text, STORY_WIDTH))
            .sum();
        if rows > STORY_ROWS {
            self.note(format!(
                "the story takes {rows} rows of a screen; {STORY_ROWS} fit"
            ));
        }
        for line in &problem.lines {
            self.too_long("label", &line.label, LABEL);
            match &line.asks {
                Asks::Pick { offers, key } => {
                    for offer in offers {
                        self.too_long("offer", &offer.text, OFFER);
                        self.right
                            .entry(format!("{}: {}", line.id, offer.text))
                            .or_default();
                    }
                    if let Some(offer) = offers.get(*key) {
                        *self
                            .right
                            .entry(format!("{}: {}", line.id, offer.text))
                            .or_default() += 1;
                    }
                    if offers.len() < 2 {
                        self.note(format!("line {} has nothing to choose from", line.id));
                    }
                }
                Asks::Order { cards } => {
                    for card in cards {
                        self.too_long("job", &card.text, CARD);
                    }
                }
                Asks::Match { parts, meanings } => {
                    for (part, _) in parts {
                        self.too_long("part", part, PART);
                    }
                    for meaning in meanings {
                        self.too_long("meaning", &meaning.text, MEANING);
                    }
                }
                Asks::Nothing | Asks::Figure | Asks::Row => {}
            }
        }
    }

    fn too_long(&mut self, what: &str, text: &str, most: usize) {
        if unicode_width::UnicodeWidthStr::width(text) > most {
            self.note(format!(
                "the {what} \"{text}\" is longer than {most} columns"
            ));
        }
    }

    /// Values outside their sane span, and tolerances that are too narrow or too wide.
    fn look_at_values(&mut self, problem: &Problem) {
        let variant = &problem.variant;
        let judge = Judge {
            variant,
            values: &problem.values,
            even: problem.even_rounding,
        };
        for (at, step) in variant.steps.iter().enumerate() {
            let Some(value) = problem.value(at) else {
                continue;
            };
            let figure = match value {
                Value::Number(quantity) => *quantity,
                Value::Row(row) => match row.key().and_then(Value::number) {
                    Some(quantity) => quantity,
                    None => continue,
                },
                _ => continue,
            };
            if let Some((least, most)) = step.sane
                && (figure.dimension != least.dimension
                    || figure.si < least.si - same_slack(least.si)
                    || figure.si > most.si + same_slack(most.si))
            {
                let text = written::answer(&judge, at, value);
                self.note(format!(
                    "step {} gives {text}, outside its sane span",
                    step.id
                ));
            }
            let (Value::Number(_), Some(within)) = (value, step.within) else {
                continue;
            };
            let tolerance = judge.tolerance(at, figure.si);
            let widest = tolerance.below.max(tolerance.above);
            let carried = step.write.map_or(0.0, |write| write.grid / 2.0);
            // A value that is short anyway is written whole: nothing is rounded.
            let rounded = step
                .unit
                .as_ref()
                .is_none_or(|unit| !written::is_short(unit.from_si(figure.si)));
            if rounded
                && within != Within::Exact
                && widest + carried < figure.si.abs() * THREE_FIGURES
            {
                self.note(format!(
                    "step {}: within is narrower than three figures deserve",
                    step.id
                ));
            }
            let own = problem
                .mistakes
                .iter()
                .filter(|mistake| mistake.step == step.id);
            let near = own.filter_map(|mistake| {
                let wrong = mistake.value.as_ref()?.number()?;
                Some(((wrong.si - figure.si).abs(), mistake.id.clone()))
            });
            if let Some((distance, id)) = near.min_by(|a, b| a.0.total_cmp(&b.0))
                && widest > distance / 2.0
            {
                self.note(format!(
                    "step {}: within reaches more than half the way to the mistake {id}",
                    step.id
                ));
            }
        }
    }

    /// A figure that is marked right must not lead to another decision further down.
    fn look_at_edges(&mut self, problem: &Problem) {
        let variant = &problem.variant;
        let judge = Judge {
            variant,
            values: &problem.values,
            even: problem.even_rounding,
        };
        for (at, step) in variant.steps.iter().enumerate() {
            let Some(Value::Number(right)) = problem.value(at) else {
                continue;
            };
            let tolerance = judge.tolerance(at, right.si);
            for off in [-tolerance.below, tolerance.above] {
                if off == 0.0 {
                    continue;
                }
                let mut moved = *right;
                moved.si += off;
                let changed = with_step(variant, &problem.values, at, Value::Number(moved));
                for (later, decided) in variant.steps.iter().enumerate().skip(at + 1) {
                    let decides = decided
                        .body
                        .formula()
                        .is_some_and(crate::formulas::Formula::decides);
                    let Some(slot) = decided.slot.filter(|_| decides) else {
                        continue;
                    };
                    if problem.value(later) != changed.get(slot).and_then(Option::as_ref) {
                        let remark = format!(
                            "the tolerance of step {} carries step {} over its edge; keep it farther off with a requirement",
                            step.id, decided.id
                        );
                        self.note(remark);
                    }
                }
            }
        }
    }

    /// The two faces of a formula must say the same sum.
    fn look_at_faces(&mut self, problem: &Problem) {
        let variant = &problem.variant;
        if variant.system != System::Us {
            return;
        }
        let family = &self.survey.family;
        let Some(other) = self.library.variant(family, variant.level, System::Si) else {
            return;
        };
        let mut remarks = Vec::new();
        for (at, step) in variant.steps.iter().enumerate() {
            let twin = other.steps.get(at).and_then(|step| step.body.formula());
            let (Some(own), Some(twin)) = (step.body.formula(), twin) else {
                continue;
            };
            if own.canonical() == twin.canonical() {
                continue;
            }
            let found = twin.evaluate(&problem.values, basis(System::Si));
            if let (Some(Value::Number(right)), Ok(Value::Number(found))) =
                (problem.value(at), found)
                && (right.si - found.si).abs() > FACES * right.si.abs()
            {
                remarks.push(format!(
                    "step {}: its two faces differ by more than 0.5 %",
                    step.id
                ));
            }
        }
        for remark in remarks {
            self.note(remark);
        }
    }

    fn conclude(mut self) -> Survey {
        let drawn = self.survey.drawn;
        let mut findings = Vec::new();
        let sensible = self.survey.drawn + self.survey.guarded;
        if self.survey.accepted() < LEAST_KEPT {
            findings.push(format!(
                "only {:.1} % of tries met every requirement; {:.0} % must",
                100.0 * self.survey.accepted(),
                100.0 * LEAST_KEPT
            ));
        }
        if sensible > 0
            && self.survey.guard_rate() > MOST_GUARDED + by_chance(MOST_GUARDED, sensible)
        {
            findings.push(format!(
                "in {:.1} % of sensible draws a mistake would be marked right; {:.0} % may be",
                100.0 * self.survey.guard_rate(),
                100.0 * MOST_GUARDED
            ));
        }
        let chance = |remark: &str| remark.contains("more than half the way");
        for (remark, (count, first)) in &self.counts {
            if chance(remark) && share(*count, drawn) <= CHANCE + by_chance(CHANCE, drawn) {
                continue;
            }
            findings.push(format!(
                "{remark} ({count} of {drawn} draws, the first at --draw {first})"
            ));
        }
        if self.survey.rule.is_none() {
            for (mistake, count) in &self.live {
                if share(*count, drawn) < LEAST_LIVE - by_chance(LEAST_LIVE, drawn) {
                    findings.push(format!(
                        "the mistake {mistake} can be made in {:.0} % of draws; {:.0} % is the least",
                        100.0 * share(*count, drawn),
                        100.0 * LEAST_LIVE
                    ));
                }
            }
            for (offer, count) in &self.right {
                if *count > 0 && share(*count, drawn) < LEAST_RIGHT - by_chance(LEAST_RIGHT, drawn)
                {
                    findings.push(format!(
                        "the offer \"{offer}\" is right in {:.0} % of draws; {:.0} % is the least",
                        100.0 * share(*count, drawn),
                        100.0 * LEAST_RIGHT
                    ));
                }
            }
        }
        self.survey.findings = findings;
        self.survey
    }
}

/// How far a value may lie outside a span by the last bits of unit factors.
fn same_slack(bound: f64) -> f64 {
    bound.abs() * crate::formulas::SNAP
}

/// How many rows a text takes at a width, broken at blanks.
fn rows(text: &str, width: usize) -> usize {
    let mut rows = 1;
    let mut used = 0;
    for word in text.split_whitespace() {
        let wide = unicode_width::UnicodeWidthStr::width(word);
        if used > 0 && used + 1 + wide > width {
            rows += 1;
            used = wide;
        } else {
            used += wide + usize::from(used > 0);
        }
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_broken_at_blanks() {
        assert_eq!(rows("one two three", 7), 2);
        assert_eq!(rows("", 7), 1);
        assert_eq!(share(1, 4), 0.25);
    }
}
