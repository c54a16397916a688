//! What keys do while a sheet is being written down.

use super::{Keeping, ask};
use crate::outcome::{Outcome, Stroke};

/// Takes a press.
pub fn update(keeping: &mut Keeping, stroke: &Stroke) -> Outcome {
    let trouble = keeping.trouble.is_some();
    ask::update("sheet", trouble, &mut keeping.choice, stroke)
}
