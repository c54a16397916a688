//! A refusal in the words of who typed: the input's name, and the span in the unit asked
//! for, where calc states it in a unit of its own.

use pumpwright_calc::bounds::{Bounds, Refusal};
use pumpwright_calc::registry::{Function, Value};
use pumpwright_engine::formulas::same;
use pumpwright_engine::quantities::Unit;

use super::slot::{Slot, short};
use crate::cli::Units;

/// Why a formula gives no value for these inputs.
pub(super) fn refused(
    refusal: Refusal,
    function: &Function,
    units: Units,
    inputs: &[Value],
) -> String {
    let Refusal::OutOfRange { bounds, figure } = refusal else {
        return refusal.to_string();
    };
    let slots = function.inputs.iter().map(|port| Slot { port, units });
    let found = slots
        .zip(inputs)
        .find(|(slot, value)| is_it(*slot, **value, bounds, figure));
    match found {
        Some((slot, value)) => sentence(slot, *value, bounds),
        None => refusal.to_string(),
    }
}

/// Whether this input is the figure that was refused.
fn is_it(slot: Slot, value: Value, bounds: Bounds, figure: f64) -> bool {
    let Value::Number(si) = value else {
        return false;
    };
    match (slot.unit(), Unit::parse(bounds.unit)) {
        (Some(own), Ok(theirs)) => {
            own.dimension() == theirs.dimension() && same(theirs.to_si(figure), si)
        }
        (None, _) => bounds.unit.is_empty() && same(figure, si),
        (Some(_), Err(_)) => false,
    }
}

fn sentence(slot: Slot, value: Value, bounds: Bounds) -> String {
    let name = slot.port.name;
    let what = if bounds.what == name {
        name.to_owned()
    } else {
        format!("{name} ({})", bounds.what)
    };
    let (least, most) = match (slot.unit(), Unit::parse(bounds.unit)) {
        (Some(own), Ok(theirs)) if own.symbol() != theirs.symbol() => {
            let changed = |figure: f64| short(own.from_si(theirs.to_si(figure)));
            (changed(bounds.min), changed(bounds.max))
        }
        _ => (bounds.min.to_string(), bounds.max.to_string()),
    };
    let unit = slot
        .unit_text()
        .map_or(String::new(), |unit| format!(" {unit}"));
    format!(
        "{what} is {}; it must be {least} to {most}{unit}",
        slot.text(value)
    )
}
