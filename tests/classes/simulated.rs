//! Simulated apprentices with known abilities and planted mistakes, who answer the papers
//! that were drawn for them.

use std::collections::{BTreeMap, BTreeSet};

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::marks::{ClassMarks, Decisions, HandIn, Ready, mark_class};
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::classes::strip::strip;
use pumpwright_engine::learner::Dice;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::Problem;

use crate::kept::right;
use crate::support::Class;

/// Mistakes, and the share of those who meet one that make it.
pub const PLANTED: [(&str, f64); 4] = [
    ("cable-drop", 0.5),
    ("tank-precharge", 0.36),
    ("psi-to-feet", 0.22),
    ("box-parts", 0.1),
];

/// A plan that asks each of them once, and something beside.
pub const PLAN: &str = r#"
format = 1
plan = "week-6"
title = "Week 6"
date = "2026-11-18"
pass = 70

[[item]]
family = "psi-to-feet"
[[item]]
family = "cable-drop"
level = 2
marks = 6
[[item]]
family = "tank-precharge"
[[item]]
family = "box-parts"
[[item]]
family = "lockout-order"
marks = 8
[[item]]
family = "megohm-verdict"
"#;

pub struct Simulated {
    pub class: Class,
    pub ready: BTreeMap<String, Ready>,
    pub hand_ins: Vec<HandIn>,
    /// How many people were made to make each mistake, by family and name.
    pub planted: BTreeMap<(String, String), usize>,
}

impl Simulated {
    pub fn new(count: usize) -> Self {
        let class = Class::new(PLAN, count);
        let library = class.text.library();
        let mut dice = Dice::of(11);
        let mut planted = BTreeMap::new();
        let (mut ready, mut hand_ins) = (BTreeMap::new(), Vec::new());
        for paper in class.papers() {
            let ability = 0.55 + 0.44 * dice.share();
            let mut answers = Answers::to(&SitPaper::of(&paper));
            for (item, blank) in paper.items.iter().zip(&mut answers.items) {
                let (typed, made) = answered(&item.problem, ability, &mut dice);
                if let Some(mistake) = made {
                    let family = item.problem.family.id.clone();
                    *planted.entry((family, mistake)).or_default() += 1;
                }
                *blank = typed;
            }
            hand_ins.push(HandIn::from(answers));
            let printed = class.printed(&paper);
            ready.insert(paper.person.id.clone(), Ready::of(printed, &library));
        }
        Self {
            class,
            ready,
            hand_ins,
            planted,
        }
    }

    pub fn marks(&self, decisions: &Decisions) -> ClassMarks {
        self.some(&self.hand_ins, decisions)
    }

    pub fn some(&self, hand_ins: &[HandIn], decisions: &Decisions) -> ClassMarks {
        let people = &self.class.people;
        let came = (hand_ins, decisions);
        mark_class(people, &self.ready, came, Manner::default())
    }
}

/// What somebody writes on an item, and the planted mistake that was made in it.
fn answered(problem: &Problem, ability: f64, dice: &mut Dice) -> (Vec<String>, Option<String>) {
    let mut typed: Vec<String> = right(problem)
        .answers
        .into_iter()
        .map(|own| own.1)
        .collect();
    let share = PLANTED.iter().find(|own| own.0 == problem.family.id);
    let throw = dice.share();
    if let Some((_, share)) = share {
        let made = (throw < *share).then(|| plant(problem)).flatten();
        if let Some((line, text, after, mistake)) = made {
            typed[line] = text;
            for (at, figure) in after {
                typed[at] = figure;
            }
            return (typed, Some(mistake));
        }
    }
    // Whoever knows less leaves more lines empty, from the last on.
    if dice.share() > ability {
        let from = (dice.share() * typed.len() as f64) as usize;
        for text in &mut typed[from..] {
            text.clear();
        }
    }
    (typed, None)
}

type Planted = (usize, String, Vec<(usize, String)>, String);

/// The first mistake of a problem that gives a figure of its own, and what follows from it.
fn plant(problem: &Problem) -> Option<Planted> {
    let key = strip(problem);
    let texts: BTreeSet<&str> = problem
        .mistakes
        .iter()
        .map(|own| own.text.as_str())
        .collect();
    let alone = texts.len() == problem.mistakes.len();
    let live = problem
        .mistakes
        .iter()
        .find(|own| own.value.is_some() && alone)?;
    let asked: Vec<&str> = problem.asked().map(|(_, line)| line.id.as_str()).collect();
    let line = asked.iter().position(|id| *id == live.step)?;
    let letter = key
        .lines
        .get(line)?
        .turns
        .iter()
        .find(|own| own.text == live.text)?
        .letter;
    let after = key.after.iter().find(|own| own.letter == letter);
    let after = after.map(|own| own.figures.clone()).unwrap_or_default();
    let after = after.into_iter().map(|(line, text)| (line - 1, text));
    Some((line, live.text.clone(), after.collect(), live.id.clone()))
}
