//! Accepted spans of arguments, and the words in which one is refused.

use thiserror::Error;

/// The span in which a function accepts an argument.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// What is bounded, as a reader says it.
    pub what: &'static str,
    /// The unit in which the span is stated; empty for a plain number.
    pub unit: &'static str,
    /// The least accepted figure.
    pub min: f64,
    /// The greatest accepted figure.
    pub max: f64,
}

impl Bounds {
    /// A span: what is bounded, its unit, the least and the greatest figure.
    pub const fn of(what: &'static str, unit: &'static str, min: f64, max: f64) -> Self {
        Self {
            what,
            unit,
            min,
            max,
        }
    }

    /// Gives the figure back if it lies in the span.
    pub fn check(self, figure: f64) -> Result<f64, Refusal> {
        if figure >= self.min && figure <= self.max {
            Ok(figure)
        } else {
            Err(Refusal::OutOfRange {
                bounds: self,
                figure,
            })
        }
    }
}

/// Why a calculation gives no value.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum Refusal {
    /// An argument outside its accepted span.
    #[error("{} is {}{}{}; it must be {} to {}{}{}", .bounds.what, tidy(*.figure), gap(.bounds.unit), .bounds.unit, plain(.bounds.min), plain(.bounds.max), gap(.bounds.unit), .bounds.unit)]
    OutOfRange {
        /// The span that was left.
        bounds: Bounds,
        /// The figure given, in the unit of the span.
        figure: f64,
    },
    /// An argument that is absent or of another kind.
    #[error("{name} is missing or is not {wants}")]
    Argument {
        /// The argument's name.
        name: &'static str,
        /// What it has to be.
        wants: &'static str,
    },
    /// Two arguments that cannot stand together.
    #[error("{0}")]
    Conflict(&'static str),
}

fn gap(unit: &str) -> &'static str {
    if unit.is_empty() { "" } else { " " }
}

/// The figure without the last digits, which are dust from changing units.
fn tidy(figure: f64) -> String {
    plain(format!("{figure:.8e}").parse().unwrap_or(figure))
}

/// A figure as it is read best: no row of zeros before or after it.
fn plain(figure: f64) -> String {
    let size = figure.abs();
    if size != 0.0 && size.is_finite() && !(1e-5..1e8).contains(&size) {
        format!("{figure:e}")
    } else {
        format!("{figure}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const C: Bounds = Bounds {
        what: "Hazen-Williams C",
        unit: "",
        min: 40.0,
        max: 160.0,
    };

    #[test]
    fn a_refusal_names_the_argument_and_its_span() {
        let refusal = C.check(15.0).unwrap_err();
        assert_eq!(
            refusal.to_string(),
            "Hazen-Williams C is 15; it must be 40 to 160"
        );
        assert!(C.check(f64::NAN).is_err());
        assert!(C.check(f64::INFINITY).is_err());
    }

    #[test]
    fn a_refusal_shows_no_row_of_zeros() {
        let u = Bounds::of("u", "", 1e-30, 700.0);
        let refusal = u.check(1_496_000_000.0).unwrap_err();
        assert_eq!(refusal.to_string(), "u is 1.496e9; it must be 1e-30 to 700");
    }

    #[test]
    fn a_refusal_shows_no_dust_from_changing_units() {
        let refusal = C.check(160.000_000_000_000_03 * 1.1).unwrap_err();
        assert!(refusal.to_string().starts_with("Hazen-Williams C is 176;"));
    }
}
