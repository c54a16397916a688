//! The sheet that is turned over: what is asked there stands beside the sums.

use std::rc::Rc;

use pumpwright_engine::classes::sit::{SitItem, SitPaper};
use pumpwright_engine::problems::Problem;
use pumpwright_engine::quantities::System;

use crate::answering;
use crate::page::Entry;
use crate::sheet;

/// What is asked on the sheet.
#[derive(Debug, Clone)]
pub enum Front {
    /// A job sheet.
    Sheet(Rc<Problem>),
    /// A class's paper, where an item of it is open.
    Paper {
        /// The item; none before the paper is handed in.
        item: Option<Box<SitItem>>,
        /// The system of units of the paper.
        system: System,
    },
}

impl Front {
    /// A class's paper with this item open.
    pub fn paper(paper: &SitPaper, item: Option<&SitItem>) -> Self {
        Self::Paper {
            item: item.cloned().map(Box::new),
            system: paper.head.system(),
        }
    }

    /// The system of units in which results are told.
    pub fn system(&self) -> System {
        match self {
            Self::Sheet(problem) => problem.variant.system,
            Self::Paper { system, .. } => *system,
        }
    }

    /// The caution, where there is one.
    pub fn caution(&self) -> Vec<Entry> {
        match self {
            Self::Sheet(problem) => sheet::caution(problem),
            Self::Paper { item, .. } => {
                let item = item.as_deref();
                item.and_then(answering::caution).into_iter().collect()
            }
        }
    }

    /// The job.
    pub fn job(&self, width: usize) -> Vec<Entry> {
        match self {
            Self::Sheet(problem) => sheet::job(problem, width),
            Self::Paper { item, .. } => {
                let item = item.as_deref();
                item.map(answering::job).unwrap_or_default()
            }
        }
    }
}
