//! A scale: from values to places along a line, and the round values that it marks.

use crate::quantities::{Unit, print};

/// A scale along a line, in the unit in which it is read.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ruler {
    /// The values at its ends.
    values: (f64, f64),
    /// The places of its ends.
    places: (f64, f64),
}

impl Ruler {
    /// A scale from zero on that reaches a value.
    pub fn from_zero(most: f64, places: (f64, f64)) -> Self {
        Self::between((0.0, most), places)
    }

    pub fn between(values: (f64, f64), places: (f64, f64)) -> Self {
        let (low, high) = values;
        // A scale of nothing would have no places.
        let high = if high > low && high.is_finite() {
            high
        } else {
            low + 1.0
        };
        Self {
            values: (low, high),
            places,
        }
    }

    /// The place of a value, never past the ends.
    pub fn at(&self, value: f64) -> f64 {
        let (low, high) = self.values;
        let share = ((value - low) / (high - low)).clamp(0.0, 1.0);
        (self.places.1 - self.places.0).mul_add(share, self.places.0)
    }

    /// The round values between its ends, so many at most, each with its text.
    pub fn ticks(&self, most: usize) -> Vec<(f64, String)> {
        let (low, high) = self.values;
        let step = step((high - low) / most.max(1) as f64);
        let mut found = Vec::new();
        let mut count = (low / step).ceil();
        while count * step <= high * (1.0 + 1e-9) && found.len() <= most {
            let value = print::rounded(count * step, step, print::Direction::Nearest);
            found.push((value, print::on_grid(value, step)));
            count += 1.0;
        }
        found
    }
}

/// The least of 1, 2 and 5 times a power of ten that is no less than a width.
fn step(width: f64) -> f64 {
    if width <= 0.0 || !width.is_finite() {
        return 1.0;
    }
    let power = libm::pow(10.0, libm::log10(width).floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|factor| factor * power)
        .find(|step| *step >= width * (1.0 - 1e-9))
        .unwrap_or(10.0 * power)
}

/// The value in a unit.
pub(super) fn in_unit(si: f64, unit: Option<&Unit>) -> f64 {
    unit.map_or(si, |unit| unit.from_si(si))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_few() {
        let ruler = Ruler::from_zero(327.0, (0.0, 10.0));
        let texts: Vec<String> = ruler.ticks(6).into_iter().map(|(_, text)| text).collect();
        assert_eq!(texts, ["0", "100", "200", "300"]);
        let fine = Ruler::between((0.2, 0.9), (0.0, 10.0));
        assert_eq!(fine.ticks(4)[0].1, "0.2");
    }

    #[test]
    fn a_scale_of_nothing_has_places_all_the_same() {
        assert_eq!(Ruler::from_zero(0.0, (3.0, 9.0)).at(0.0), 3.0);
        assert_eq!(Ruler::from_zero(f64::NAN, (3.0, 9.0)).at(5.0), 9.0);
        assert!(Ruler::from_zero(0.0, (3.0, 9.0)).ticks(4).len() > 1);
    }
}
