//! Comparing with a snap: what differs by the noise of arithmetic is the same.
//! Rounding snaps too, where figures are printed.

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_is_nothing() {
        assert!(same(0.1 + 0.2, 0.3));
        assert!(!same(1.0, 1.000_001));
        assert!(!same(0.0, 1e-300));
        assert!(!same(f64::NAN, f64::NAN));
        assert_eq!(difference(0.1 + 0.2, 0.3), 0.0);
        assert_eq!(difference(3.0, 1.0), 2.0);
    }
}
