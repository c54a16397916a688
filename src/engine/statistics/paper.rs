//! A paper as a whole: mean, spread, reliability, error of measurement, passes.

use super::consistency::{Consistency, consistency};
use super::interval::{Interval, of_alpha};
use super::marks::Marks;
use super::normal::NINETY_FIVE;

/// Below so many persons the figures are shown without a verdict. Our own choice.
pub const LEAST_PERSONS: usize = 30;

/// How reliable a paper is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reliability {
    /// Cronbach's alpha; KR-20 where every mark is all or nothing.
    pub alpha: f64,
    /// Its interval, 95 %.
    pub between: Option<Interval>,
    /// KR-21, which takes every question as equally hard.
    pub kr21: f64,
    /// The standard error of measurement, in marks.
    pub error: f64,
}

/// A paper as a whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper {
    /// How many persons.
    pub persons: usize,
    /// Mean of the sums.
    pub mean: f64,
    /// Standard deviation of the sums, by n − 1; nothing below two persons.
    pub deviation: f64,
    /// How reliable it is; none where the sums do not differ.
    pub reliability: Option<Reliability>,
    /// How many reached the pass mark.
    pub passed: usize,
    /// How many lie within one standard error of the pass mark.
    pub near_pass: usize,
    /// How far the same decision would be made by another form.
    pub consistency: Option<Consistency>,
}

/// A paper as a whole; the pass mark is a share of all marks.
pub fn paper(marks: &Marks, pass: f64) -> Paper {
    let totals = marks.totals();
    let persons = totals.len();
    let mean = totals.iter().sum::<f64>() / persons.max(1) as f64;
    let deviation = variance(&totals, mean, 1.0).sqrt();
    let reliability = reliability(marks);
    let questions = marks.questions();
    // A hair below, so that 0.7 of 10 is 7.
    let needed = pass * questions as f64 - 1e-9;
    let error = reliability.map_or(0.0, |found| found.error);
    let near = totals
        .iter()
        .filter(|total| (*total - needed).abs() <= error + 1e-9);
    Paper {
        persons,
        mean,
        deviation,
        reliability,
        passed: totals.iter().filter(|total| **total >= needed).count(),
        near_pass: near.count(),
        consistency: reliability.and_then(|found| {
            let least = needed.ceil().max(0.0) as usize;
            consistency(questions, least, mean, found.kr21)
        }),
    }
}

/// How reliable a paper is; none below two persons or two questions, or where the sums
/// do not differ.
///
/// ```text
/// α = k/(k − 1) (1 − Σ s_i² / s²)        KR-21 = k/(k − 1) (1 − M (k − M) / (k s²))
/// SEM = S √(1 − α)
///
/// k  questions   s_i², s²  variances of a question and of the sums, by n
/// M  mean sum    S  standard deviation of the sums, by n − 1
/// ```
/// Source: Kuder and Richardson, Psychometrika 2 (1937), formulas 20 and 21; Cronbach,
/// Psychometrika 16 (1951); from memory. Below 0 where questions work against each
/// other; SEM is then that of α = 0.
pub fn reliability(marks: &Marks) -> Option<Reliability> {
    let totals = marks.totals();
    let k = marks.questions() as f64;
    if totals.len() < 2 || marks.questions() < 2 {
        return None;
    }
    let mean = totals.iter().sum::<f64>() / totals.len() as f64;
    let spread = variance(&totals, mean, 0.0);
    if spread <= 1e-12 {
        return None;
    }
    let means = marks.means();
    let mut within = 0.0;
    for row in marks.rows() {
        for (mark, mean) in row.iter().zip(&means) {
            within += (mark - mean) * (mark - mean);
        }
    }
    within /= totals.len() as f64;
    let more = k / (k - 1.0);
    let alpha = more * (1.0 - within / spread);
    Some(Reliability {
        alpha,
        between: of_alpha(alpha, totals.len(), marks.questions(), NINETY_FIVE),
        kr21: more * (1.0 - mean * (k - mean) / (k * spread)),
        error: variance(&totals, mean, 1.0).sqrt() * (1.0 - alpha.max(0.0)).max(0.0).sqrt(),
    })
}

/// Mean squared distance from the mean, divided by n less `less`; nothing where that is
/// not above 0.
fn variance(values: &[f64], mean: f64, less: f64) -> f64 {
    let over = values.len() as f64 - less;
    if over <= 0.0 {
        return 0.0;
    }
    values
        .iter()
        .map(|value| (value - mean) * (value - mean))
        .sum::<f64>()
        / over
}
