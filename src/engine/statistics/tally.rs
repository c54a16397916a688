//! Marks of a paper taken in person by person, in sums of whole numbers: a million answers
//! need no more room than one row, and the order of the persons changes no digit.

use super::interval::{Interval, of_alpha, of_correlation, of_share};
use super::normal::NINETY_FIVE;

/// Below so many persons a class report shows no such figure. Our own choice, no source.
pub const LEAST_PERSONS: usize = 30;

/// Sums over the persons of a paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tally {
    questions: Vec<Sums>,
    persons: u64,
    total: u128,
    total_squares: u128,
}

/// Sums over the persons at one question.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Sums {
    /// The most that can be earned.
    most: u32,
    own: u128,
    squares: u128,
    with_total: u128,
    /// Whether everybody earned all or nothing.
    whole: bool,
}

/// A row that does not fit the paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a row of marks must have one for each question, none above the most that it bears")]
pub struct RowFault;

/// A paper as a whole, out of a tally.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tallied {
    /// Cronbach's alpha over the marks as they are.
    pub alpha: f64,
    /// Its interval, 95 %.
    pub between: Option<Interval>,
    /// Whether alpha is KR-20: every question bears the same, all or nothing.
    pub is_kr20: bool,
    /// The standard error of measurement, in the units of the marks.
    pub error: f64,
}

/// A question, out of a tally.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TalliedItem {
    /// Mean share of its marks: high where it is easy.
    pub difficulty: f64,
    /// Its interval, 95 %.
    pub difficulty_between: Interval,
    /// Correlation with the sum of the other questions; none where either does not vary.
    pub with_rest: Option<f64>,
    /// Its interval, 95 %.
    pub with_rest_between: Option<Interval>,
}

impl Tally {
    /// A tally of no persons; each question with the most that it bears.
    pub fn new(most: &[u32]) -> Self {
        let sums = |most: &u32| Sums {
            most: *most,
            own: 0,
            squares: 0,
            with_total: 0,
            whole: true,
        };
        Self {
            questions: most.iter().map(sums).collect(),
            persons: 0,
            total: 0,
            total_squares: 0,
        }
    }

    /// Takes in one person's marks.
    ///
    /// # Errors
    /// [`RowFault`] where the row does not fit; the tally stays as it was.
    pub fn add(&mut self, row: &[u32]) -> Result<(), RowFault> {
        let fits = row
            .iter()
            .zip(&self.questions)
            .all(|(x, own)| *x <= own.most);
        if row.len() != self.questions.len() || !fits {
            return Err(RowFault);
        }
        let total: u64 = row.iter().map(|mark| u64::from(*mark)).sum();
        for (sums, mark) in self.questions.iter_mut().zip(row) {
            let own = u64::from(*mark);
            sums.own += u128::from(own);
            // Each factor is below 2^32 or a sum of few such.
            sums.squares += u128::from(own) * u128::from(own);
            sums.with_total += u128::from(own) * u128::from(total);
            sums.whole &= *mark == 0 || *mark == sums.most;
        }
        self.persons += 1;
        self.total += u128::from(total);
        self.total_squares += u128::from(total) * u128::from(total);
        Ok(())
    }

    /// How many persons were taken in.
    pub const fn persons(&self) -> u64 {
        self.persons
    }

    /// Σ over persons of what lies about two means, times the persons: n Σxy − Σx Σy.
    fn about(&self, products: u128, one: u128, other: u128) -> f64 {
        let n = u128::from(self.persons);
        let (sum, means) = (n.saturating_mul(products), one.saturating_mul(other));
        if sum >= means {
            (sum - means) as f64
        } else {
            -((means - sum) as f64)
        }
    }

    /// The paper as a whole; none below two persons or two questions, or where the sums do
    /// not differ.
    ///
    /// ```text
    /// α = k/(k − 1) (1 − Σ s_i² / s²)        SEM = S √(1 − α)
    ///
    /// k  questions   s_i², s²  variances of a question and of the sums, by n
    ///                S         standard deviation of the sums, by n − 1
    /// ```
    /// Source: Kuder and Richardson, Psychometrika 2 (1937), formula 20; Cronbach,
    /// Psychometrika 16 (1951); from memory. Below 0 where questions work against each
    /// other; SEM is then that of α = 0.
    pub fn paper(&self) -> Option<Tallied> {
        let k = self.questions.len();
        if self.persons < 2 || k < 2 {
            return None;
        }
        let spread = self.about(self.total_squares, self.total, self.total);
        if spread <= 0.0 {
            return None;
        }
        let within: f64 = (self.questions.iter())
            .map(|own| self.about(own.squares, own.own, own.own))
            .sum();
        let alpha = k as f64 / (k as f64 - 1.0) * (1.0 - within / spread);
        let n = self.persons as f64;
        let mut bears = self.questions.iter().map(|own| own.most);
        let first = bears.next();
        Some(Tallied {
            alpha,
            between: of_alpha(alpha, self.persons as usize, k, NINETY_FIVE),
            is_kr20: bears.all(|most| Some(most) == first)
                && self.questions.iter().all(|own| own.whole),
            error: (spread / (n * (n - 1.0)) * (1.0 - alpha.max(0.0)).max(0.0)).sqrt(),
        })
    }

    /// Every question; nothing where nobody was taken in.
    ///
    /// ```text
    /// with_rest = cov(x, T − x) / (s_x s_(T−x))
    /// ```
    /// For marks of all or nothing it is the point-biserial correlation. Source of the
    /// measures: Ebel and Frisbie, *Essentials of Educational Measurement*, from memory.
    /// The interval of the difficulty is Wilson's, which is
    /// of shares all or nothing; for marks in part it is rather too wide.
    pub fn items(&self) -> Vec<TalliedItem> {
        if self.persons == 0 {
            return Vec::new();
        }
        let n = self.persons as f64;
        let spread = self.about(self.total_squares, self.total, self.total);
        let item = |own: &Sums| {
            let bears = f64::from(own.most.max(1));
            let difficulty = own.own as f64 / n / bears;
            let alone = self.about(own.squares, own.own, own.own);
            let together = self.about(own.with_total, own.own, self.total);
            let rest = spread - 2.0 * together + alone;
            // Centered sums are whole numbers, so what is not above 0 does not vary.
            let with_rest = (alone >= 1.0 && rest >= 1.0)
                .then(|| ((together - alone) / (alone * rest).sqrt()).clamp(-1.0, 1.0));
            TalliedItem {
                difficulty,
                difficulty_between: of_share(difficulty, n, NINETY_FIVE),
                with_rest,
                with_rest_between: with_rest
                    .and_then(|r| of_correlation(r, self.persons as usize, NINETY_FIVE)),
            }
        };
        self.questions.iter().map(item).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_persons_and_marks_that_do_not_differ_give_no_figure() {
        let mut tally = Tally::new(&[2, 2]);
        assert_eq!((tally.paper(), tally.items()), (None, Vec::new()));
        tally.add(&[2, 1]).unwrap();
        assert_eq!(tally.paper(), None);
        assert_eq!(tally.items()[0].with_rest, None);
        tally.add(&[2, 1]).unwrap();
        assert_eq!(tally.paper(), None);
        assert_eq!(tally.items()[1].difficulty, 0.5);
    }

    #[test]
    fn a_row_that_does_not_fit_changes_nothing() {
        let mut tally = Tally::new(&[2, 2]);
        tally.add(&[2, 1]).unwrap();
        let before = tally.clone();
        assert_eq!(tally.add(&[1]), Err(RowFault));
        assert_eq!(tally.add(&[3, 0]), Err(RowFault));
        assert_eq!(tally, before);
    }
}
