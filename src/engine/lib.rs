//! From a lesson file to a marked problem: no terminal, no clock, no file opened.
//!
//! The rooms in the order of their layers, each of which may use those before it
//! and never those after: [`cells`], [`quantities`], [`formulas`], [`lessons`],
//! [`problems`], [`marking`], [`figures`], [`statistics`], [`papers`], [`learner`],
//! [`entries`], [`classes`].

pub mod cells;
pub mod classes;
pub mod entries;
pub mod figures;
pub mod formulas;
pub mod learner;
pub mod lessons;
pub mod marking;
pub mod papers;
pub mod problems;
pub mod quantities;
pub mod statistics;
