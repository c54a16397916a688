//! A formula as a learner reads it: in words, then with its numbers put in. One
//! walk makes a neutral tree of labels, figures and signs; each way of writing
//! is a file that walks that tree. Plain text is the first of them.

mod fits;
mod html;
mod keys;
mod laws;
mod math;
mod plain;
mod shape;
mod spoken;
mod trials;
mod typeset;

use pumpwright_calc::registry::{Basis, Function, Law};

use crate::quantities::{System, Unit};

use super::evaluate::Around;
use super::formula::{Formula, What};
use super::value::{Name, Value};

pub use keys::Keys;
pub use spoken::read_out;
pub use typeset::Piece;

use laws::{law_of, letters_of};
use plain::plain;
use shape::{Mode, Shaper};

/// A name, or a column of the row that a name holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Leaf {
    /// The place of the name.
    pub slot: usize,
    /// The place of the column in the row's table, where one is read.
    pub column: Option<usize>,
}

/// How the values of the names are printed: whoever draws a problem knows to how
/// many figures.
pub trait Figures {
    /// The value as it is printed, with its unit; a word or the name of a row
    /// as it is.
    fn text(&self, leaf: Leaf) -> String;
    /// The figure alone, in this unit.
    fn bare(&self, leaf: Leaf, unit: &Unit) -> String;
}

/// The formula in words: "amps × ohms in the loop". Of a calculation, its law.
pub fn in_words(formula: &Formula, names: &[Name]) -> String {
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Words(None),
    };
    plain(&shaper.root())
}

/// The same of what these values take: of a branch only the part taken.
pub fn in_words_taken(
    formula: &Formula,
    names: &[Name],
    values: &[Option<Value>],
    basis: Basis,
) -> String {
    let around = Around {
        values,
        basis,
        candidate: None,
    };
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Words(Some(around)),
    };
    plain(&shaper.root())
}

/// The formula with its numbers put in: one line, or of a search a line for each
/// row that was tried, at most eight.
pub fn with_numbers(
    formula: &Formula,
    names: &[Name],
    values: &[Option<Value>],
    basis: Basis,
    figures: &dyn Figures,
) -> Vec<String> {
    let around = Around {
        values,
        basis,
        candidate: None,
    };
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Numbers(around, figures),
    };
    match &formula.0.root.what {
        What::Search(search) => trials::trials(&shaper, search),
        _ => vec![plain(&shaper.root())],
    }
}

/// The keys to press on a plain calculator for a formula with its numbers put in; none
/// where it has no power and no root, or is nothing to be pressed.
pub fn keys(
    formula: &Formula,
    names: &[Name],
    values: &[Option<Value>],
    basis: Basis,
    figures: &dyn Figures,
) -> Option<Keys> {
    let around = Around {
        values,
        basis,
        candidate: None,
    };
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Numbers(around, figures),
    };
    keys::keys(&shaper.root())
}

/// A formula with a power or a root as it is read aloud: "east squared plus …".
pub fn aloud(
    formula: &Formula,
    names: &[Name],
    values: &[Option<Value>],
    basis: Basis,
) -> Option<String> {
    let around = Around {
        values,
        basis,
        candidate: None,
    };
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Words(Some(around)),
    };
    keys::aloud(&shaper.root())
}

/// The formula in words for the typesetter, of a branch only the part that these
/// values take.
pub fn typeset_words(
    formula: &Formula,
    names: &[Name],
    values: &[Option<Value>],
    basis: Basis,
) -> Vec<Piece> {
    let around = Around {
        values,
        basis,
        candidate: None,
    };
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Words(Some(around)),
    };
    typeset::pieces(&shaper.root())
}

/// The formula with its numbers put in for the typesetter: one line, or of a search a
/// line for each row that was tried, at most eight.
pub fn typeset_numbers(
    formula: &Formula,
    names: &[Name],
    values: &[Option<Value>],
    basis: Basis,
    figures: &dyn Figures,
) -> Vec<Vec<Piece>> {
    let around = Around {
        values,
        basis,
        candidate: None,
    };
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Numbers(around, figures),
    };
    match &formula.0.root.what {
        What::Search(search) => trials::trials(&shaper, search)
            .into_iter()
            .map(|line| vec![Piece::Prose(line)])
            .collect(),
        _ => vec![typeset::pieces(&shaper.root())],
    }
}

/// The law of a calculation over the words of what goes in: "2.31 × pressure".
pub fn law_words(function: &Function, system: System) -> String {
    let labels: Vec<String> = function
        .inputs
        .iter()
        .map(|port| port.label.to_owned())
        .collect();
    law_text(function, system, &labels)
}

/// The law of a calculation over its letters: "2.31 × p".
pub fn law_letters(function: &Function, system: System) -> String {
    let letters: Vec<String> = function
        .inputs
        .iter()
        .map(|port| port.letter.to_owned())
        .collect();
    law_text(function, system, &letters)
}

/// The formula in words as HTML, of a branch only the part that these values take.
pub fn html_words(
    formula: &Formula,
    names: &[Name],
    values: &[Option<Value>],
    basis: Basis,
) -> String {
    let around = Around {
        values,
        basis,
        candidate: None,
    };
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Words(Some(around)),
    };
    html::html(&shaper.root())
}

/// The formula with its numbers put in as HTML: one line, or of a search a line for each
/// row that was tried, at most eight.
pub fn html_numbers(
    formula: &Formula,
    names: &[Name],
    values: &[Option<Value>],
    basis: Basis,
    figures: &dyn Figures,
) -> Vec<String> {
    let around = Around {
        values,
        basis,
        candidate: None,
    };
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Numbers(around, figures),
    };
    match &formula.0.root.what {
        What::Search(search) => {
            let lines = trials::trials(&shaper, search);
            lines.iter().map(|line| html::escaped(line)).collect()
        }
        _ => vec![html::html(&shaper.root())],
    }
}

/// Text as HTML has it.
pub fn escaped(text: &str) -> String {
    html::escaped(text)
}

fn law_text(function: &Function, system: System, inputs: &[String]) -> String {
    match law_of(function, system) {
        Some(law) => {
            let put = |at: usize| inputs.get(at).cloned().unwrap_or_default();
            plain(&law.with(&|at| math::Math::Text(put(at))))
        }
        None => laws::named(function),
    }
}

/// For lines that grow too long: the law of the calculation that the formula is,
/// over its letters, and what each letter stands for.
pub fn in_letters(formula: &Formula, names: &[Name]) -> Option<(String, Vec<(String, String)>)> {
    let What::Call(function, inputs) = &formula.0.root.what else {
        return None;
    };
    if !matches!(function.law, Law::Shown(_)) {
        return None;
    }
    let shaper = Shaper {
        body: &formula.0,
        names,
        mode: Mode::Words(None),
    };
    let labels = inputs.iter().map(|input| plain(&shaper.part(input)));
    let legend = letters_of(function)
        .map(str::to_owned)
        .zip(labels)
        .collect();
    Some((law_letters(function, formula.system()), legend))
}

/// A line cut before its signs, each piece at most so wide where it can be.
pub fn break_at_signs(line: &str, width: usize) -> Vec<String> {
    const SIGNS: [&str; 6] = [" + ", " − ", " × ", " ÷ ", " and ", " or "];
    let mut lines: Vec<String> = Vec::new();
    let mut rest = line;
    let mut piece_from = 0;
    let mut last_cut = None;
    for (at, _) in line.char_indices() {
        let (Some(after), Some(piece)) = (line.get(at..), line.get(piece_from..at)) else {
            continue;
        };
        let wide = unicode_width::UnicodeWidthStr::width(piece) > width;
        if let (true, Some(cut)) = (wide, last_cut) {
            lines.push(line.get(piece_from..cut).unwrap_or_default().to_owned());
            piece_from = cut + 1;
            rest = line.get(piece_from..).unwrap_or_default();
            last_cut = None;
        }
        if at > piece_from && SIGNS.iter().any(|sign| after.starts_with(sign)) {
            last_cut = Some(at);
        }
    }
    let too_wide = unicode_width::UnicodeWidthStr::width(rest) > width;
    if let (true, Some(cut)) = (too_wide, last_cut) {
        lines.push(line.get(piece_from..cut).unwrap_or_default().to_owned());
        rest = line.get(cut + 1..).unwrap_or_default();
    }
    lines.push(rest.to_owned());
    lines
}

#[cfg(test)]
mod tests;
