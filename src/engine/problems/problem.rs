//! A drawn problem: everything that a surface shows and that marking needs.
//! One value feeds the trainer, plain lines, papers and exports.

use std::sync::Arc;

use crate::formulas::Value;
use crate::lessons::{Family, Printed, StepPlan, Template, Variant};
use crate::problems::{Code, Figure};
use crate::quantities::Unit;

/// What is said wherever figures stand that were made for training, or are from memory.
pub const TRAINING: &str = "Training figures: on a job the nameplate and the local code decide.";

/// One drawn problem.
#[derive(Debug, Clone)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a fact of its own, and none excludes another"
)]
pub struct Problem {
    /// The code that draws it again; of a sealed problem only its face counts, see
    /// [`Problem::shown_code`].
    pub code: Code,
    /// Whether it was drawn from a secret, so that no code draws it again.
    pub sealed: bool,
    /// The family that it was drawn from.
    pub family: Arc<Family>,
    /// The family at the level and in the unit system of this problem.
    pub variant: Arc<Variant>,
    /// The job, as paragraphs.
    pub story: Vec<String>,
    /// The house rules that it uses and the story does not print.
    pub rules: Vec<RuleLine>,
    /// The jurisdiction sheets whose rows stand in it, each with its day.
    pub sheets: Vec<String>,
    /// What is given, in order; hidden givens left out.
    pub givens: Vec<GivenLine>,
    /// The figure beside the job, where values are read off one.
    pub figure: Option<Figure>,
    /// The lines of the sheet, in order; the last line that is asked answers.
    pub lines: Vec<Line>,
    /// The mistakes that can be made here, with the value that each gives.
    pub mistakes: Vec<LiveMistake>,
    /// Whether figures made for training, or from memory, stand in it; [`TRAINING`] is said
    /// then.
    pub training: bool,
    /// The values by slot: house rules, givens, steps.
    pub values: Vec<Option<Value>>,
    /// Whether both sides of a rounding get the whole tolerance (a house rule).
    pub even_rounding: bool,
    /// Whether an answer must carry its unit (a house rule).
    pub unit_wanted: bool,
}

/// A house rule as printed with the problem.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleLine {
    /// Its name.
    pub name: String,
    /// The name and the value, in words: `tank.precharge_below: 2 psi`.
    pub text: String,
}

/// A given as a list shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct GivenLine {
    /// Its name in formulas.
    pub name: String,
    /// What it is.
    pub label: String,
    /// Its value.
    pub value: Value,
    /// The unit in which it is printed.
    pub unit: Option<Unit>,
    /// The value as the story prints it.
    pub text: String,
}

/// One line of the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The step's name.
    pub id: String,
    /// The step's place in the variant's list.
    pub step: usize,
    /// What is asked.
    pub label: String,
    /// How it is answered.
    pub asks: Asks,
    /// The unit printed beside the blank.
    pub unit: Option<Unit>,
    /// The marks that it bears.
    pub marks: u32,
    /// How the answer is to be written, beside the blank: `to 0.1 %`.
    pub form: String,
    /// The principle, in a sentence.
    pub says: String,
    /// Why it is done or rounded so, where the lesson says it.
    pub why: Option<String>,
}

/// How a line is answered.
#[derive(Debug, Clone, PartialEq)]
pub enum Asks {
    /// Nothing: a step that the working shows and the sheet does not ask.
    Nothing,
    /// A figure with its unit.
    Figure,
    /// A row of a table, written by its name or figure.
    Row,
    /// One of the offers, by its letter. The key is the place of the right one.
    Pick {
        /// The offers in the order shown.
        offers: Vec<Offer>,
        /// The place of the right one.
        key: usize,
    },
    /// The jobs, by their numbers from top to bottom, `-` for one left out.
    Order {
        /// The jobs in the order shown.
        cards: Vec<ShownCard>,
    },
    /// The parts, by the letters of their meanings from top to bottom.
    Match {
        /// The parts in the order shown, each with the place of its meaning.
        parts: Vec<(String, usize)>,
        /// The meanings in the order shown; some are left over.
        meanings: Vec<Offer>,
    },
}

/// An offer or a meaning.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The letter that takes it.
    pub mark: String,
    /// Its text.
    pub text: String,
    /// The value that it stands for.
    pub value: Value,
}

/// A job to be put in order, as shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShownCard {
    /// The card's id.
    pub id: String,
    /// Its text.
    pub text: String,
    /// Its number in one right order; none where it is to be left out.
    pub place: Option<usize>,
    /// The shown cards that must come before it, by their place in the list.
    pub after: Vec<usize>,
}

/// A mistake that can be made in this problem.
#[derive(Debug, Clone, PartialEq)]
pub struct LiveMistake {
    /// Its place in the variant's list.
    pub index: usize,
    /// Its name.
    pub id: String,
    /// The step where it is made.
    pub step: String,
    /// The value that it gives there; none for an arrangement.
    pub value: Option<Value>,
    /// The value as it would be written.
    pub text: String,
}

impl Problem {
    /// The code as a sheet or a paper prints it: whole, or without seed and revision
    /// where the problem is sealed: `cable-drop.2us`.
    pub fn shown_code(&self) -> String {
        if self.sealed {
            self.code.face()
        } else {
            self.code.to_string()
        }
    }

    /// The lines that are asked, each with its number on the sheet, from one.
    pub fn asked(&self) -> impl Iterator<Item = (usize, &Line)> {
        (1..).zip(self.lines.iter().filter(|line| line.asks != Asks::Nothing))
    }

    /// The marks that can be earned.
    pub fn marks(&self) -> u32 {
        self.asked().map(|(_, line)| line.marks).sum()
    }

    /// What the story tells: the givens and, behind each drawn row, the columns of it
    /// that the story prints, named as formulas name them (`motor.amps`).
    pub fn told(&self) -> Vec<GivenLine> {
        let (names, values) = (&self.variant.names, &self.values);
        let mut told: Vec<GivenLine> = Vec::new();
        for plan in &self.variant.givens {
            let Some(given) = names.get(plan.slot) else {
                continue;
            };
            let line = self.givens.iter().find(|line| line.name == given.name);
            told.extend(line.cloned());
            let row = values
                .get(plan.slot)
                .and_then(|value| value.as_ref()?.row());
            let Some(row) = row else { continue };
            for place in self.variant.story.columns(plan.slot) {
                let column = row.table.columns.get(place);
                let printed = Printed::of(plan.slot, Some(place), names, values);
                let (Some(column), Some(printed)) = (column, printed) else {
                    continue;
                };
                let name = format!("{}.{}", given.name, column.name);
                let text = printed.text();
                let known = line.is_some_and(|line| line.text == text);
                if !known && told.iter().all(|line| line.name != name) {
                    told.push(GivenLine {
                        name,
                        label: column.label.clone(),
                        text,
                        value: printed.value,
                        unit: printed.unit,
                    });
                }
            }
        }
        told
    }

    /// The caution before the numbers.
    pub fn caution(&self) -> Option<String> {
        self.variant.caution.as_ref().map(|text| self.render(text))
    }

    /// What varies by place or maker, with the day of each sheet.
    pub fn varies(&self) -> Option<String> {
        let own = self.variant.varies.as_ref().map(|text| self.render(text));
        let parts: Vec<String> = own.into_iter().chain(self.sheets.iter().cloned()).collect();
        (!parts.is_empty()).then(|| parts.join(" "))
    }

    /// What the figure is good for on the job.
    pub fn on_the_job(&self) -> Option<String> {
        self.variant
            .on_the_job
            .as_ref()
            .map(|text| self.render(text))
    }

    /// The value of a step, by its place in the variant's list.
    pub fn value(&self, step: usize) -> Option<&Value> {
        self.values
            .get(self.variant.steps.get(step)?.slot?)?
            .as_ref()
    }

    /// Whether a step finds a row.
    pub(crate) fn value_is_row(&self, step: &StepPlan) -> bool {
        let value = step.slot.and_then(|slot| self.values.get(slot)?.as_ref());
        matches!(value, Some(Value::Row(_)))
    }

    fn render(&self, text: &Template) -> String {
        text.render(&self.variant.names, &self.values)
    }
}
