//! The two functions that the model rests on, from `libm`, so that the same history
//! gives the same digits on every machine.

use std::f64::consts::PI;

/// The logistic function.
///
/// ```text
/// σ(x) = 1 / (1 + e^−x)          x held to ±30
/// ```
/// Range: above 0, below 1, for whatever x; 0.5 at 0.
pub fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + libm::exp(-x.clamp(-30.0, 30.0)))
}

/// The logistic function averaged over a normal z of this mean and variance.
///
/// ```text
/// E σ(z) ≈ σ(m / √(1 + πV/8))
/// ```
/// Source: MacKay, "The evidence framework applied to classification networks",
/// Neural Computation 4 (1992), from memory. Range: above 0, below 1.
pub fn averaged_logistic(mean: f64, variance: f64) -> f64 {
    logistic(mean / (1.0 + PI * variance / 8.0).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the integral itself, by the trapezoid rule: within 0.02 everywhere.
    #[test]
    fn the_average_is_near_the_integral() {
        for mean in [-3.0, -1.0, 0.0, 0.62, 2.0] {
            for variance in [0.05, 0.5, 1.5] {
                let deviation = f64::sqrt(variance);
                let (mut sum, mut weight) = (0.0, 0.0);
                for at in -600..=600 {
                    let x = f64::from(at) / 100.0;
                    let density = libm::exp(-x * x / 2.0);
                    sum += density * logistic(mean + deviation * x);
                    weight += density;
                }
                let off = averaged_logistic(mean, variance) - sum / weight;
                assert!(off.abs() < 0.02, "{mean} {variance}: {off}");
            }
        }
    }
}
