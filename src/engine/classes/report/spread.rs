//! How the marks of a class are spread. Marks are counted in halves, so that every sum is
//! exact.

use crate::marking::Marks;
use crate::statistics::{EIGHTY, Interval, of_share};

/// So many bars at most. Our own choice, no source.
const BARS: u32 = 8;

/// How marks are spread.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// How many hand-ins: those with every item marked that counts.
    pub hand_ins: usize,
    /// How many are left out, since an item of theirs cannot be marked.
    pub left_out: usize,
    /// The marks that could be earned.
    pub of: Marks,
    /// Their mean; none where there is no hand-in.
    pub mean: Option<f64>,
    /// The one in the middle, or between the two in the middle.
    pub middle: Option<f64>,
    /// The standard deviation, by n − 1; none below two.
    pub deviation: Option<f64>,
    /// Who passed, where the plan has a pass mark.
    pub pass: Option<Pass>,
    /// How many lie where, from the least mark to the most that there is.
    pub bins: Vec<Bin>,
}

/// Who passed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pass {
    /// The least marks that pass.
    pub from: Marks,
    /// How many have them.
    pub passed: usize,
    /// The 80 % interval of their share.
    pub between: Interval,
}

/// So many marks lie here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bin {
    /// The least whole mark.
    pub from: u32,
    /// The greatest whole mark; a half above it lies here, too.
    pub to: u32,
    /// How many.
    pub count: usize,
}

impl Spread {
    /// The spread of some marks in halves, out of so many; `pass` is the least that passes.
    pub(super) fn of(mut halves: Vec<u32>, of: Marks, pass: Option<u32>, left_out: usize) -> Self {
        halves.sort_unstable();
        let n = halves.len();
        let sum: u64 = halves.iter().map(|own| u64::from(*own)).sum();
        let squares: u128 = (halves.iter())
            .map(|own| u128::from(*own) * u128::from(*own))
            .sum();
        let count = n as f64;
        let deviation = (n > 1).then(|| {
            let about = n as u128 * squares - u128::from(sum) * u128::from(sum);
            (about as f64 / (count * (count - 1.0))).sqrt() / 2.0
        });
        let at = |place: usize| halves.get(place).copied().map_or(0.0, f64::from);
        Self {
            hand_ins: n,
            left_out,
            of,
            mean: (n > 0).then(|| sum as f64 / count / 2.0),
            middle: (n > 0).then(|| (at((n - 1) / 2) + at(n / 2)) / 4.0),
            deviation,
            pass: pass.map(|pass| {
                let passed = halves.iter().filter(|own| **own >= pass).count();
                let share = passed as f64 / count.max(1.0);
                Pass {
                    from: Marks::halves(pass),
                    passed,
                    between: of_share(share, count, EIGHTY),
                }
            }),
            bins: bins(&halves),
        }
    }
}

/// Bars of one width in whole marks, from the least mark on.
fn bins(sorted: &[u32]) -> Vec<Bin> {
    let (Some(least), Some(most)) = (sorted.first(), sorted.last()) else {
        return Vec::new();
    };
    let (least, most) = (least / 2, most / 2);
    let wide = |wide: &u32| (most / wide - least / wide) < BARS;
    // 1, 2, 3, 5 and ten times as many: what people count by.
    let steps = (0..6).flat_map(|power| [1, 2, 3, 5].map(|own: u32| own * 10_u32.pow(power)));
    let Some(width) = steps.into_iter().find(|own| wide(own)) else {
        return Vec::new();
    };
    let bars = least / width..=most / width;
    bars.map(|bar| Bin {
        from: bar * width,
        to: bar * width + width - 1,
        count: (sorted.iter())
            .filter(|own| *own / 2 / width == bar)
            .count(),
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn no_one_and_two_hand_ins() {
        let none = Spread::of(Vec::new(), Marks::whole(10), Some(14), 0);
        assert_eq!((none.mean, none.middle, none.deviation), (None, None, None));
        assert!(none.bins.is_empty());
        let one = Spread::of(vec![15], Marks::whole(10), Some(14), 0);
        assert_eq!(
            (one.mean, one.middle, one.deviation),
            (Some(7.5), Some(7.5), None)
        );
        let two = Spread::of(vec![15, 11], Marks::whole(10), None, 0);
        assert_eq!((two.mean, two.middle), (Some(6.5), Some(6.5)));
        // The marks 5.5 and 7.5: √2 apart from one another's mean.
        assert!((two.deviation.unwrap() - std::f64::consts::SQRT_2).abs() < 1e-12);
        assert_eq!(two.bins.len(), 3);
    }

    #[test]
    fn bars_of_three_marks() {
        let marks = [18, 20, 22, 25, 28, 30, 31, 34, 36, 38];
        let found = Spread::of(
            marks.map(|own| own * 2).to_vec(),
            Marks::whole(40),
            Some(56),
            1,
        );
        let said: Vec<_> = found
            .bins
            .iter()
            .map(|bin| (bin.from, bin.to, bin.count))
            .collect();
        assert_eq!(
            said,
            [
                (18, 20, 2),
                (21, 23, 1),
                (24, 26, 1),
                (27, 29, 1),
                (30, 32, 2),
                (33, 35, 1),
                (36, 38, 2)
            ]
        );
        assert_eq!(found.pass.unwrap().passed, 6);
    }

    proptest! {
        #[test]
        fn every_mark_lies_in_one_bar(halves in prop::collection::vec(0..4000_u32, 0..60)) {
            let found = Spread::of(halves.clone(), Marks::whole(2000), None, 0);
            prop_assert_eq!(found.bins.iter().map(|bin| bin.count).sum::<usize>(), halves.len());
            prop_assert!(found.bins.len() <= BARS as usize);
            let mut other = halves;
            other.reverse();
            prop_assert_eq!(Spread::of(other, Marks::whole(2000), None, 0), found);
        }
    }
}
