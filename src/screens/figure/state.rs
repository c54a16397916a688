//! A figure that is looked at.

use std::rc::Rc;

use pumpwright_engine::figures::{Seen, Signs, View};
use pumpwright_engine::problems::Problem;

use crate::layout::Scroll;
use crate::theme::Look;

/// The signs that a look allows.
pub(crate) const fn signs(look: Look) -> Signs {
    if look.ascii {
        Signs::Ascii
    } else {
        Signs::Drawn
    }
}

/// A figure that is looked at.
#[derive(Debug, Clone)]
pub struct Figure {
    /// The problem.
    pub problem: Rc<Problem>,
    /// From where it is looked at.
    pub view: View,
    /// With which signs it is drawn.
    pub signs: Signs,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Figure {
    /// The figure of a problem under a view.
    pub fn new(problem: Rc<Problem>, view: View, look: Look) -> Self {
        Self {
            problem,
            view,
            signs: signs(look),
            scroll: Scroll::default(),
        }
    }

    /// What is said of the view.
    pub const fn place(&self) -> &'static str {
        match self.view.seen {
            Seen::Before => "what is asked is left out",
            Seen::Worked => "with what was asked",
            Seen::Yours => "what your answer would look like",
        }
    }
}
