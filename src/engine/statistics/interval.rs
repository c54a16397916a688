//! Intervals for what a sample shows. `deviate` is the normal deviate of the wanted
//! share: 1.2816 for 80 %, 1.96 for 95 %.

/// The ends of an interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Its lower end.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
}

/// The interval of a share seen among n.
///
/// ```text
/// (p + z²/2n ± z √(p(1−p)/n + z²/4n²)) / (1 + z²/n)
/// ```
/// Source: Wilson, Journal of the American Statistical Association 22 (1927), from
/// memory. Range 0 to 1; the whole of it where n is 0. Nine right of twelve lie
/// between 57 and 87 % with 80 %:
/// ```
/// use pumpwright_engine::statistics::{EIGHTY, of_share};
///
/// let between = of_share(9.0 / 12.0, 12.0, EIGHTY);
/// assert_eq!(format!("{:.2} {:.2}", between.low, between.high), "0.57 0.87");
/// ```
pub fn of_share(share: f64, n: f64, deviate: f64) -> Interval {
    if n <= 0.0 {
        return Interval {
            low: 0.0,
            high: 1.0,
        };
    }
    let z2 = deviate * deviate;
    let middle = share + z2 / (2.0 * n);
    let half = deviate
        * (share * (1.0 - share) / n + z2 / (4.0 * n * n))
            .max(0.0)
            .sqrt();
    let scale = 1.0 + z2 / n;
    // Where none or all came, rounding must not leave the share outside.
    Interval {
        low: ((middle - half) / scale).clamp(0.0, share.clamp(0.0, 1.0)),
        high: ((middle + half) / scale).clamp(share.clamp(0.0, 1.0), 1.0),
    }
}

/// The interval of a correlation seen among n; none below four persons.
///
/// ```text
/// tanh(atanh r ± z / √(n − 3))
/// ```
/// Source: Fisher, Biometrika 10 (1915) and Metron 1 (1921), from memory. Range −1 to
/// 1. For 0.5 among 28, 95 %: 0.156 to 0.736 (atanh 0.5 = 0.5493, ± 0.392):
/// ```
/// use pumpwright_engine::statistics::{NINETY_FIVE, of_correlation};
///
/// let between = of_correlation(0.5, 28, NINETY_FIVE).expect("enough persons");
/// assert_eq!(format!("{:.3} {:.3}", between.low, between.high), "0.156 0.736");
/// ```
pub fn of_correlation(correlation: f64, n: usize, deviate: f64) -> Option<Interval> {
    if n < 4 {
        return None;
    }
    let middle = libm::atanh(correlation.clamp(-1.0 + 1e-12, 1.0 - 1e-12));
    let half = deviate / (n as f64 - 3.0).sqrt();
    Some(Interval {
        low: libm::tanh(middle - half),
        high: libm::tanh(middle + half),
    })
}

/// The interval of alpha among n persons and k questions; none below three persons or
/// two questions.
///
/// ```text
/// 1 − (1 − α) e^(±z √(2k / ((k − 1)(n − 2))))
/// ```
/// Source: Bonett, Journal of Educational and Behavioral Statistics 27 (2002), from
/// memory. Range up to 1.
pub fn of_alpha(alpha: f64, persons: usize, questions: usize, deviate: f64) -> Option<Interval> {
    if persons < 3 || questions < 2 {
        return None;
    }
    let k = questions as f64;
    let half = deviate * (2.0 * k / ((k - 1.0) * (persons as f64 - 2.0))).sqrt();
    Some(Interval {
        low: 1.0 - (1.0 - alpha) * libm::exp(half),
        high: 1.0 - (1.0 - alpha) * libm::exp(-half),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statistics::normal::{EIGHTY, NINETY_FIVE};

    #[test]
    fn more_persons_make_it_narrower() {
        let width = |between: Interval| between.high - between.low;
        assert!(width(of_share(0.7, 100.0, EIGHTY)) < width(of_share(0.7, 20.0, EIGHTY)));
        let of = |n| width(of_correlation(0.4, n, NINETY_FIVE).unwrap());
        assert!(of(100) < of(20));
        let of = |n| width(of_alpha(0.7, n, 20, NINETY_FIVE).unwrap());
        assert!(of(100) < of(20));
    }

    #[test]
    fn the_ends_stay_where_they_can_be() {
        for share in [0.0, 1.0] {
            let between = of_share(share, 5.0, NINETY_FIVE);
            assert!(between.low >= 0.0 && between.high <= 1.0 && between.low < between.high);
        }
        let between = of_correlation(1.0, 10, NINETY_FIVE).unwrap();
        assert!(between.low.is_finite() && between.high <= 1.0);
        assert_eq!(of_correlation(0.5, 3, EIGHTY), None);
        assert_eq!(of_alpha(0.5, 2, 5, EIGHTY), None);
    }
}
