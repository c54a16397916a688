//! How well chances were foretold: what was said beside what came.

use super::interval::{Interval, of_share};
use super::normal::EIGHTY;

/// So many bins of the same width stand in the table. Common practice, no source.
pub const BINS: usize = 10;

/// What was foretold with about the same chance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bin {
    /// The lower end of the chances in it.
    pub from: f64,
    /// The upper end.
    pub to: f64,
    /// How many there are.
    pub count: usize,
    /// The mean chance that was foretold.
    pub said: f64,
    /// The share that came.
    pub came: f64,
    /// The interval of that share, 80 %.
    pub between: Interval,
}

/// How well chances were foretold.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibration {
    /// How many were.
    pub count: usize,
    /// The share of all that came.
    pub base_rate: f64,
    /// The mean squared distance from what came; 0 is best.
    pub brier: f64,
    /// The same if the base rate had been said each time.
    pub brier_of_base_rate: f64,
    /// The expected calibration error.
    pub error: f64,
    /// The bins that hold anything, from the lowest chance up.
    pub bins: Vec<Bin>,
}

/// How well these chances were foretold; none where there is none. A chance that is no
/// number is left out.
///
/// ```text
/// Brier = Σ (p − o)² / n       of the base rate b: b (1 − b)
/// error = Σ over bins |Σ p − Σ o| / n
/// ```
/// p is the chance, o is 1 where it came. Source: Brier, Monthly Weather Review 78
/// (1950), and Naeini, Cooper and Hauskrecht, AAAI Conference (2015), from memory; ten
/// bins of the same width. Ranges 0 to 1. Two right of which 0.8 was said, two of which
/// 0.4 was said and one came:
/// ```
/// use pumpwright_engine::statistics::calibration;
///
/// let found = calibration(&[(0.8, true), (0.8, true), (0.4, true), (0.4, false)]).unwrap();
/// assert_eq!(format!("{:.2} {:.2}", found.brier, found.error), "0.15 0.15");
/// assert_eq!((found.base_rate, found.brier_of_base_rate), (0.75, 0.1875));
/// ```
pub fn calibration(foretold: &[(f64, bool)]) -> Option<Calibration> {
    let mut sums = [(0_usize, 0.0_f64, 0.0_f64); BINS];
    let (mut count, mut squares) = (0_usize, 0.0);
    for (chance, came) in foretold.iter().filter(|(chance, _)| chance.is_finite()) {
        let chance = chance.clamp(0.0, 1.0);
        let came = f64::from(u8::from(*came));
        let bin = &mut sums[((chance * BINS as f64) as usize).min(BINS - 1)];
        bin.0 += 1;
        bin.1 += chance;
        bin.2 += came;
        count += 1;
        squares += (chance - came) * (chance - came);
    }
    if count == 0 {
        return None;
    }
    let all = count as f64;
    let base_rate = sums.iter().map(|(_, _, came)| came).sum::<f64>() / all;
    let off: f64 = sums.iter().map(|(_, said, came)| (said - came).abs()).sum();
    let bins = sums.iter().enumerate().filter(|(_, (held, ..))| *held > 0);
    let bins = bins.map(|(at, (held, said, came))| {
        let n = *held as f64;
        Bin {
            from: at as f64 / BINS as f64,
            to: (at + 1) as f64 / BINS as f64,
            count: *held,
            said: said / n,
            came: came / n,
            between: of_share(came / n, n, EIGHTY),
        }
    });
    Some(Calibration {
        count,
        base_rate,
        brier: squares / all,
        brier_of_base_rate: base_rate * (1.0 - base_rate),
        error: off / all,
        bins: bins.collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn nothing_foretold_is_no_table_and_odd_chances_do_no_harm() {
        assert_eq!(calibration(&[]), None);
        assert_eq!(calibration(&[(f64::NAN, true)]), None);
        let found = calibration(&[(7.0, true), (-3.0, false), (1.0, true)]).unwrap();
        assert_eq!((found.brier, found.error, found.bins.len()), (0.0, 0.0, 2));
    }

    proptest! {
        #[test]
        fn the_sums_stay_in_their_ranges(said in prop::collection::vec((0.0..=1.0f64, any::<bool>()), 1..60)) {
            let found = calibration(&said).unwrap();
            prop_assert_eq!(found.bins.iter().map(|bin| bin.count).sum::<usize>(), said.len());
            for part in [found.brier, found.error, found.base_rate] {
                prop_assert!((0.0..=1.0).contains(&part));
            }
            // Saying a chance of one's own is never better than knowing what came.
            let known: Vec<(f64, bool)> = said.iter().map(|(_, came)| (f64::from(u8::from(*came)), *came)).collect();
            prop_assert!(calibration(&known).unwrap().brier <= found.brier);
            for bin in &found.bins {
                prop_assert!(bin.from <= bin.said + 1e-9 && bin.said <= bin.to + 1e-9);
                prop_assert!(bin.between.low <= bin.came && bin.came <= bin.between.high);
            }
        }
    }
}
