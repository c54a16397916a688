//! Comparing and rounding with a snap: what differs by the noise of arithmetic
//! is the same. Without it 190 ft over 19 ft, both held in meters, rounds up
//! to 11.

/// How far apart, relative to the larger, two figures may be and still be one.
/// A double carries sixteen digits; a formula of a few hundred signs loses a
/// few of them. The figure is our own choice; no source.
pub const SNAP: f64 = 1e-9;

/// Whether two figures are the same but for the noise of arithmetic.
pub fn same(a: f64, b: f64) -> bool {
    a == b || (a - b).abs() <= SNAP * a.abs().max(b.abs())
}

/// A difference that agrees with the comparison of its sides: zero where they
/// are the same.
pub(super) fn difference(a: f64, b: f64) -> f64 {
    if same(a, b) { 0.0 } else { a - b }
}

/// Which way a figure is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Up,
    Down,
    Near,
}

/// A figure on a grid. `Down` goes towards minus infinity; halves go away from
/// zero under `Near`. A quotient nearly whole is whole, and one nearly half is
/// half.
pub(super) fn on_grid(value: f64, grid: f64, way: Way) -> f64 {
    let quotient = value / grid;
    let whole = quotient.round();
    if same(quotient, whole) || (quotient - whole).abs() <= SNAP {
        return whole * grid;
    }
    let steps = match way {
        Way::Up => quotient.ceil(),
        Way::Down => quotient.floor(),
        Way::Near => {
            let half = quotient.trunc() + 0.5_f64.copysign(quotient);
            if same(quotient, half) {
                half.round()
            } else {
                whole
            }
        }
    };
    steps * grid
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_is_nothing() {
        assert!(same(0.1 + 0.2, 0.3));
        assert!(!same(1.0, 1.000_001));
        assert!(!same(0.0, 1e-300));
        assert_eq!(difference(0.1 + 0.2, 0.3), 0.0);
    }

    #[test]
    fn ten_stages_stay_ten() {
        let (total, stage) = (190.0 * 0.3048, 19.0 * 0.3048);
        assert_eq!(on_grid(total / stage, 1.0, Way::Up), 10.0);
        assert_eq!(on_grid(10.000_1, 1.0, Way::Up), 11.0);
        assert_eq!(on_grid(9.999_999_999_9, 1.0, Way::Down), 10.0);
    }

    #[test]
    fn down_goes_towards_minus_infinity() {
        assert_eq!(on_grid(-2.5, 1.0, Way::Down), -3.0);
        assert_eq!(on_grid(-2.5, 1.0, Way::Up), -2.0);
        assert_eq!(on_grid(-2.5, 1.0, Way::Near), -3.0);
        assert_eq!(on_grid(2.5, 1.0, Way::Near), 3.0);
        assert_eq!(on_grid(2.499_999_999_999, 1.0, Way::Near), 3.0);
        assert_eq!(on_grid(12.0, 5.0, Way::Up), 15.0);
    }
}
