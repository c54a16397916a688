//! The normal distribution, by `libm`, so that it gives the same digits on every machine.

use std::f64::consts::SQRT_2;

/// Normal deviate of an 80 % interval. Source: any table of the normal distribution.
pub const EIGHTY: f64 = 1.281_551_565_544_600_4;

/// Normal deviate of a 95 % interval. Source: any table of the normal distribution.
pub const NINETY_FIVE: f64 = 1.959_963_984_540_054;

/// The chance that a standard normal lies below x.
///
/// ```text
/// Φ(x) = erfc(−x/√2) / 2
/// ```
/// Range 0 to 1. Any table of the normal distribution has Φ(1.96) = 0.975:
/// ```
/// use pumpwright_engine::statistics::normal_below;
///
/// assert_eq!(format!("{:.3}", normal_below(1.96)), "0.975");
/// ```
pub fn normal_below(x: f64) -> f64 {
    0.5 * libm::erfc(-x / SQRT_2)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the normal distribution as any table prints it.
    #[test]
    fn it_agrees_with_the_tables() {
        for (x, printed) in [(0.0, 0.5), (1.0, 0.8413), (1.96, 0.9750), (-1.2816, 0.1000)] {
            assert!((normal_below(x) - printed).abs() < 5e-5, "{x}");
        }
        assert!((normal_below(EIGHTY) - 0.9).abs() < 1e-12);
        assert!((normal_below(NINETY_FIVE) - 0.975).abs() < 1e-12);
    }
}
