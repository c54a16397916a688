//! The little language in which lessons say their sums: parsed with positions,
//! checked for dimension, evaluated, printed. Nothing here knows a lesson.

mod ast;
mod canonical;
mod check;
mod evaluate;
mod fault;
mod formula;
mod kinds;
mod law;
mod lex;
mod parse;
mod print;
mod side_sum;
mod snap;
mod value;

#[cfg(test)]
mod fixture;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod tests;

pub use ast::Expression;
pub use check::{MOST_WORK, check, check_figures};
pub use evaluate::NoValue;
pub use fault::Fault;
pub use formula::Formula;
pub use kinds::kind;
pub use law::evaluate_law;
pub use parse::{DEEPEST, LONGEST, MOST_NODES, parse};
pub use print::{
    Figures, Keys, Leaf, Piece, aloud, break_at_signs, in_letters, in_words, in_words_taken, keys,
    law_letters, law_words, read_out, typeset_numbers, typeset_words, with_numbers,
};
pub use print::{escaped, html_numbers, html_words};
pub use side_sum::{SideSum, work_out};
pub use snap::{SNAP, same};
pub use value::{Column, Name, Row, Rows, Scope, Table, Type, Value};
