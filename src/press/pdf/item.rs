//! One problem of a paper: all that a person who works it sees, and nothing of its
//! answer. The type has no place for a value, a seed or a mistake.

use pumpwright_engine::figures::{Frame, View, list, scene, svg};
use pumpwright_engine::problems::{Asks, Figure, Line, Problem};
use serde::Serialize;

use super::text::{clean, marks};

/// The frame of a figure: as wide as the column at 8 point letters.
const FRAME: Frame = Frame {
    columns: 70,
    rows: 18,
};

/// A problem as it is printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Item {
    /// Its number on the paper.
    pub number: usize,
    /// The job.
    pub title: String,
    /// What can hurt where such work is done; before the numbers.
    pub cautions: Vec<String>,
    /// The story, as paragraphs.
    pub story: Vec<String>,
    /// The points of a figure, and what is marked on it.
    pub points: Option<Points>,
    /// The figure.
    pub drawing: Option<Drawing>,
    /// What is asked, in order.
    pub asked: Vec<Asked>,
    /// The house rules that the story does not print.
    pub rules: Vec<String>,
    /// What stands with each jurisdiction sheet that is used: its day and its caution.
    pub sheets: Vec<String>,
    /// Family, level, system and house rules; not the seed, so that nobody can draw it again.
    pub code: String,
    /// "4 marks".
    pub marks_said: String,
    /// The marks that it bears.
    pub marks: u32,
    /// Whether figures made for training stand in it.
    pub training: bool,
}

/// A drawing with its words.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Drawing {
    /// As SVG.
    pub svg: String,
    /// The same as a list in words.
    pub said: String,
}

/// The points of a figure as a table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Points {
    /// What stands over it.
    pub title: String,
    /// The heads of its columns.
    pub heads: Vec<String>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
    /// What is marked, in words.
    pub marked: Vec<String>,
}

/// A line that is asked.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Asked {
    /// Its number in the problem.
    pub number: usize,
    /// What is asked.
    pub label: String,
    /// How it is answered.
    pub answer: Answer,
    /// How the answer is to be written: "to 0.1 %"; empty where nothing is said.
    pub form: String,
}

/// How a line is answered.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub enum Answer {
    /// A figure, with its unit printed behind the blank, or a row of a table by its name.
    Write {
        /// The unit; empty where there is none.
        unit: String,
        /// The unit read aloud.
        spoken: String,
    },
    /// One of several, by its letter.
    Pick {
        /// The offers in the order shown.
        offers: Vec<Card>,
    },
    /// Jobs that get a number each, or a dash.
    Order {
        /// The jobs in the order shown.
        cards: Vec<String>,
    },
    /// Parts that get a letter each.
    Match {
        /// The parts in the order shown.
        parts: Vec<String>,
        /// The meanings in the order shown.
        meanings: Vec<Card>,
    },
}

/// An offer, or a meaning, with its letter.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Card {
    /// The letter.
    pub mark: String,
    /// The text.
    pub text: String,
}

impl Item {
    /// A drawn problem under its number, bearing so many marks.
    pub fn of(problem: &Problem, number: usize, marks: u32) -> Self {
        Self {
            number,
            title: problem.family.title.clone(),
            cautions: problem
                .caution()
                .into_iter()
                .map(|text| clean(&text))
                .collect(),
            story: problem.story.iter().map(|text| clean(text)).collect(),
            points: problem.figure.as_ref().and_then(Points::of),
            drawing: Drawing::of(problem),
            asked: problem
                .asked()
                .map(|(number, line)| Asked::of(number, line))
                .collect(),
            rules: problem.rules.iter().map(|rule| rule.text.clone()).collect(),
            sheets: problem.sheets.iter().map(|text| clean(text)).collect(),
            code: problem.code.face(),
            marks_said: self::marks(marks),
            marks,
            training: problem.training,
        }
    }
}

impl Points {
    fn of(figure: &Figure) -> Option<Self> {
        let mut rows = figure.table();
        if rows.len() < 2 {
            return None;
        }
        let heads = rows.remove(0);
        Some(Self {
            title: figure.title.clone(),
            heads,
            rows,
            marked: figure.marked(),
        })
    }
}

impl Drawing {
    /// The figure as the sheet shows it before it is handed in. The caution stands over
    /// the problem, so it is not said once more inside.
    fn of(problem: &Problem) -> Option<Self> {
        let mut drawn = scene(problem, &View::before(problem), FRAME)?;
        drawn.caution = None;
        Some(Self {
            svg: svg(&drawn),
            said: list(&drawn).join(". "),
        })
    }
}

impl Asked {
    fn of(number: usize, line: &Line) -> Self {
        let cards = |offers: &[pumpwright_engine::problems::Offer]| {
            let card = |offer: &pumpwright_engine::problems::Offer| Card {
                mark: offer.mark.clone(),
                text: offer.text.clone(),
            };
            offers.iter().map(card).collect()
        };
        let unit = line.unit.as_ref();
        let answer = match &line.asks {
            Asks::Nothing | Asks::Figure | Asks::Row => Answer::Write {
                unit: unit.map_or_else(String::new, |unit| unit.symbol().to_owned()),
                spoken: unit.map_or_else(String::new, pumpwright_engine::quantities::Unit::spoken),
            },
            Asks::Pick { offers, .. } => Answer::Pick {
                offers: cards(offers),
            },
            Asks::Order { cards } => Answer::Order {
                cards: cards.iter().map(|card| card.text.clone()).collect(),
            },
            Asks::Match { parts, meanings } => Answer::Match {
                parts: parts.iter().map(|(part, _)| part.clone()).collect(),
                meanings: cards(meanings),
            },
        };
        Self {
            number,
            label: line.label.clone(),
            answer,
            form: line.form.clone(),
        }
    }
}
