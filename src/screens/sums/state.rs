//! What stands on the back of a sheet, and how a sum is worked out and carried
//! over to the front.

use pumpwright_engine::classes::sit::SitAsks;
use pumpwright_engine::formulas::{SideSum, work_out};
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::{Asks, Problem};
use pumpwright_engine::quantities::{DecimalSign, System, Unit};

use super::front::Front;
use crate::answering::Answering;
use crate::blank::Blank;
use crate::layout::Scroll;
use crate::sheet::{Sheet, number};

/// What stays with the sheet.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Back {
    /// The sums that were worked out; the first is `s1`.
    pub done: Vec<SideSum>,
    /// Sums that are being written, the last one last: one that is half-typed
    /// waits while an earlier sum is changed.
    pub drafts: Vec<Blank>,
}

impl Back {
    /// Whether nothing stands here.
    pub fn is_empty(&self) -> bool {
        self.done.is_empty() && self.drafts.is_empty()
    }

    /// The sums as they were typed, to be kept.
    pub fn texts(&self) -> Vec<String> {
        self.done.iter().map(|sum| sum.sum.clone()).collect()
    }

    /// What is half-typed, to be kept.
    pub fn half_typed(&self) -> Vec<String> {
        let drafts = self.drafts.iter().filter(|blank| !blank.is_empty());
        drafts.map(|blank| blank.text().to_owned()).collect()
    }

    /// Lays out again what was half-typed.
    pub fn type_again(&mut self, texts: &[String]) {
        self.drafts
            .extend(texts.iter().map(|text| Blank::holding(text)));
    }

    /// Works sums out that were kept; one that cannot be any more is left out.
    pub fn work_again(&mut self, texts: &[String], problem: &Problem, manner: Manner) {
        for text in texts {
            let manner = (problem.variant.system, manner.decimal);
            self.done.extend(work(text, &self.done, manner));
        }
    }
}

/// The line of the sheet from which one came.
#[derive(Debug, Clone, PartialEq)]
pub struct CameFrom {
    /// Its number on the sheet; on a paper item and line, as in `3.2`.
    pub number: String,
    /// What it asks.
    pub label: String,
    /// The unit beside its blank.
    pub unit: Option<Unit>,
    /// What stands in it.
    pub holds: String,
    /// Whether a figure is written there.
    pub figure: bool,
}

impl CameFrom {
    /// The line with the pen.
    pub fn sheet(sheet: &Sheet) -> Option<Self> {
        let slot = sheet.slot()?;
        let line = sheet.problem.lines.get(slot.line)?;
        Some(Self {
            number: number(&sheet.problem, slot.line)?.to_string(),
            label: line.label.clone(),
            unit: line.unit.clone(),
            holds: slot.blank.trimmed().to_owned(),
            figure: matches!(line.asks, Asks::Figure | Asks::Row),
        })
    }

    /// The line of a class's paper with the pen.
    pub fn paper(answering: &Answering) -> Option<Self> {
        let item = answering.item()?;
        let line = item.lines.get(answering.pen)?;
        Some(Self {
            number: answering.pen_at(),
            label: line.label.clone(),
            unit: line.unit.as_deref().and_then(|unit| Unit::parse(unit).ok()),
            holds: answering.blank(answering.pen)?.trimmed().to_owned(),
            figure: matches!(line.asks, SitAsks::Figure | SitAsks::Row),
        })
    }
}

/// The back of a sheet, as long as it lies on top.
#[derive(Debug, Clone)]
pub struct Sums {
    /// What stays with the sheet.
    pub back: Back,
    /// What the blank shows: the sum that is being written, or an earlier one.
    pub blank: Blank,
    /// The earlier sum with the pen, as long as its text is as it was.
    pub at: Option<usize>,
    /// Why the sum in the blank cannot be worked out.
    pub refused: Option<String>,
    /// The sheet whose back this is.
    pub front: Front,
    /// The line from which one came, where one is written.
    pub line: Option<CameFrom>,
    /// How figures are written.
    pub decimal: DecimalSign,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Sums {
    /// The back of a sheet, with the pen at the blank.
    pub fn new(front: Front, mut back: Back, line: Option<CameFrom>, decimal: DecimalSign) -> Self {
        Self {
            blank: back.drafts.pop().unwrap_or_default(),
            back,
            at: None,
            refused: None,
            front,
            line,
            decimal,
            scroll: Scroll {
                top: 0,
                follow: true,
            },
        }
    }

    /// The system of units and how figures are written.
    pub fn manner(&self) -> (System, DecimalSign) {
        (self.front.system(), self.decimal)
    }

    /// What stays with the sheet when this is put away.
    pub fn left(&self) -> Back {
        let mut left = self.clone();
        left.set_aside();
        left.back
    }

    /// Takes out of the way what is half-typed.
    pub fn set_aside(&mut self) {
        if self.at.is_none() && !self.blank.is_empty() {
            self.back.drafts.push(self.blank.clone());
        }
    }

    /// Puts the pen at the blank, with what was half-typed last.
    pub fn pen_to_blank(&mut self) {
        self.at = None;
        self.blank = self.back.drafts.pop().unwrap_or_default();
    }

    /// The sum that can be carried over: the one with the pen, else the latest.
    pub fn to_carry(&self) -> Option<(usize, &CameFrom)> {
        let line = self.line.as_ref().filter(|line| line.figure)?;
        let at = self.at.or_else(|| self.back.done.len().checked_sub(1))?;
        Some((at, line))
    }

    /// The result as it is written into the line.
    pub fn carried(&self) -> Option<(usize, String)> {
        let (at, line) = self.to_carry()?;
        let sum = self.back.done.get(at)?;
        Some((at, carried(sum, line.unit.as_ref(), self.decimal)))
    }
}

/// Works out a sum as it was typed.
///
/// # Errors
/// What to look at.
pub fn work(
    typed: &str,
    earlier: &[SideSum],
    (system, decimal): (System, DecimalSign),
) -> Result<SideSum, String> {
    let mut sum = work_out(&with_points(typed, decimal), earlier, system)?;
    typed.trim().clone_into(&mut sum.sum);
    Ok(sum)
}

/// A result as it is written into a line with this unit. A share is both a plain
/// number and per cent: the line's unit says which.
pub fn carried(sum: &SideSum, unit: Option<&Unit>, decimal: DecimalSign) -> String {
    let percent = unit.is_some_and(|unit| unit.symbol() == "%");
    let text = match sum.text.split_once(" = ") {
        Some((_, share)) if percent => share,
        Some((plain, _)) => plain,
        None => &sum.text,
    };
    match decimal {
        DecimalSign::Point => text.to_owned(),
        DecimalSign::Comma => text.replace('.', ","),
    }
}

/// Where the comma is the decimal sign, a comma between digits is the point, and
/// a semicolon parts what a comma would.
fn with_points(typed: &str, decimal: DecimalSign) -> String {
    if decimal == DecimalSign::Point {
        return typed.to_owned();
    }
    let signs: Vec<char> = typed.chars().collect();
    let digit = |at: Option<usize>| {
        at.and_then(|at| signs.get(at))
            .is_some_and(char::is_ascii_digit)
    };
    let read = signs.iter().enumerate().map(|(at, &sign)| match sign {
        ',' if digit(at.checked_sub(1)) && digit(at.checked_add(1)) => '.',
        ';' => ',',
        _ => sign,
    });
    read.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comma_is_a_point_where_that_is_the_custom() {
        let comma = (System::Si, DecimalSign::Comma);
        let sum = work("min(3,5 m; 2,25 m) + 0,5 m", &[], comma).expect("a sum");
        assert_eq!(sum.sum, "min(3,5 m; 2,25 m) + 0,5 m");
        assert_eq!(carried(&sum, None, DecimalSign::Comma), "2,75 m");
        assert!(work("3,5 m", &[], (System::Si, DecimalSign::Point)).is_err());
    }

    #[test]
    fn a_share_is_carried_as_the_line_wants_it() {
        let sum = work("10.1 V / 230 V", &[], (System::Us, DecimalSign::Point)).expect("a sum");
        let percent = Unit::parse("%").ok();
        assert_eq!(
            carried(&sum, percent.as_ref(), DecimalSign::Point),
            "4.3913 %"
        );
        assert_eq!(carried(&sum, None, DecimalSign::Point), "0.043913");
    }
}
