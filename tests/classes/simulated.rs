//! Simulated apprentices with known abilities and planted mistakes, who answer the papers
//! that were drawn for them.

use std::collections::BTreeMap;

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::marks::{ClassMarks, Decisions, HandIn, Ready, mark_class};
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::classes::strip::strip;
use pumpwright_engine::learner::Dice;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::Problem;

use crate::kept::right;
use crate::support::Class;

/// Families with a mistake each, and the share of those who meet one that make it.
pub const PLANTED: [(&str, &str, f64); 4] = [
    ("cable-drop", "one-way", 0.5),
    ("tank-precharge", "equal", 0.36),
    ("psi-to-feet", "inverted", 0.22),
    ("relief-setting", "tank-rating", 0.1),
];

/// A plan that asks each of them once, with a date, and two things beside.
const QUIZ: &str = r#"
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
family = "relief-setting"
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
        let class = Class::new(QUIZ, count);
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
    if let Some((_, mistake, share)) = share {
        let made = (throw < *share).then(|| plant(problem, mistake)).flatten();
        if let Some((line, text, after)) = made {
            typed[line] = text;
            for (at, figure) in after {
                typed[at] = figure;
            }
            return (typed, Some((*mistake).to_owned()));
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

/// A line, what is written there, and what follows on later lines.
type Planted = (usize, String, Vec<(usize, String)>);

/// A mistake of a problem that gives a figure of its own, and what follows from it.
fn plant(problem: &Problem, mistake: &str) -> Option<Planted> {
    let key = strip(problem);
    let mut turns = key.lines.iter().flat_map(|line| &line.turns);
    let turn = turns.find(|own| own.mistakes == [mistake])?;
    let after = key.after.iter().find(|own| own.letter == turn.letter);
    let after = after.map(|own| own.figures.clone()).unwrap_or_default();
    let after = after.into_iter().map(|(line, text)| (line - 1, text));
    Some((turn.line - 1, turn.text.clone(), after.collect()))
}
