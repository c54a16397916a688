//! A worked sheet, with what the learner wrote beside it where there is any.

use std::rc::Rc;

use pumpwright_engine::marking::{Marked, Response};
use pumpwright_engine::problems::{Problem, WorkedLine, working};

use crate::layout::Scroll;
use crate::sums::Back;

/// A worked sheet.
#[derive(Debug, Clone)]
pub struct Worked {
    /// The problem.
    pub problem: Rc<Problem>,
    /// Its working.
    pub lines: Vec<WorkedLine>,
    /// What was handed in, marked.
    pub yours: Option<Marked>,
    /// What was handed in, as it was typed.
    pub written: Option<Response>,
    /// The side sums on its back.
    pub back: Back,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Worked {
    /// Works a problem.
    pub fn new(problem: Rc<Problem>, yours: Option<Marked>) -> Self {
        let lines = working(&problem);
        Self {
            problem,
            lines,
            yours,
            written: None,
            back: Back::default(),
            scroll: Scroll::default(),
        }
    }
}
