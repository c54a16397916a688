//! The calculations of the trade that a figure needs for its own picture, by the
//! figures of the problem's system of units.

use pumpwright_calc::registry::{Value, find};

use crate::lessons::basis;
use crate::quantities::System;

/// Absolute pressure in pascal, of what a gauge reads.
pub(super) fn absolute(gauge: f64, system: System) -> Option<f64> {
    call("pressure.absolute", gauge, system)
}

/// Pressure in pascal that a head of water in meters makes.
pub(super) fn to_pressure(head: f64, system: System) -> Option<f64> {
    call("head.to_pressure", head, system)
}

fn call(name: &str, input: f64, system: System) -> Option<f64> {
    let function = find(name)?;
    match (function.call)(basis(system), &[Value::Number(input)]) {
        Ok(Value::Number(value)) => Some(value),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 28 psi counts as 42.7 psi, as in calc's own example.
    #[test]
    fn the_trade_counts_the_air_outside() {
        let psi = 6_894.757_293_168;
        let found = absolute(28.0 * psi, System::Us).unwrap() / psi;
        assert!((found - 42.7).abs() < 1e-6, "{found}");
        let head = to_pressure(2.31 * 0.3048, System::Us).unwrap() / psi;
        assert!((head - 1.0).abs() < 1e-9, "{head}");
    }
}
