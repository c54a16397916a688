//! One question of a paper: how hard it is and how well it parts those who know from
//! those who do not.

use super::interval::{Interval, of_correlation, of_difference, of_share};
use super::marks::Marks;
use super::normal::NINETY_FIVE;

/// The share of the persons in the upper and in the lower group.
///
/// Source: Kelley, Journal of Educational Psychology 30 (1939), from memory.
const GROUP: f64 = 0.27;

/// One question.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Item {
    /// Mean share of its marks: its difficulty, high where it is easy.
    pub difficulty: f64,
    /// Its interval, 95 %.
    pub difficulty_between: Interval,
    /// Correlation with the sum of all questions, itself among them; none where
    /// either does not vary.
    pub with_total: Option<f64>,
    /// Correlation with the sum of the other questions.
    pub with_rest: Option<f64>,
    /// Its interval, 95 %.
    pub with_rest_between: Option<Interval>,
    /// Mean of the upper group less that of the lower; none where a group is empty.
    pub upper_lower: Option<f64>,
    /// Its interval, 95 %.
    pub upper_lower_between: Option<Interval>,
    /// Alpha of the paper without it; none where that cannot be said.
    pub alpha_without: Option<f64>,
}

/// Every question of a paper.
///
/// ```text
/// with_total = cov(x, T) / (s_x s_T)        with_rest = cov(x, T − x) / (s_x s_(T−x))
/// upper_lower = mean of the best 27 % − mean of the last 27 %, by their sums
/// ```
/// For marks of all or nothing the correlation is the point-biserial one. A group has
/// ⌊0.27 n⌋ persons; of equal sums the later row counts as lower. Source of the
/// measures: Ebel and Frisbie, *Essentials of Educational Measurement*, from memory.
pub fn items(marks: &Marks) -> Vec<Item> {
    grouped(
        marks,
        (GROUP * marks.persons() as f64 + 1e-9).floor() as usize,
    )
}

/// What the rows give of one question: centered sums.
#[derive(Clone, Copy, Default)]
struct Sums {
    own: f64,
    with_total: f64,
}

/// Every question, with groups of this size.
fn grouped(marks: &Marks, size: usize) -> Vec<Item> {
    let persons = marks.persons();
    let totals = marks.totals();
    let means = marks.means();
    let mean = totals.iter().sum::<f64>() / persons.max(1) as f64;
    let mut sums = vec![Sums::default(); marks.questions()];
    for (row, total) in marks.rows().zip(&totals) {
        let above = total - mean;
        for ((sum, mark), mean) in sums.iter_mut().zip(row).zip(&means) {
            let off = mark - mean;
            sum.own += off * off;
            sum.with_total += off * above;
        }
    }
    let spread: f64 = totals
        .iter()
        .map(|total| (total - mean) * (total - mean))
        .sum();
    let within: f64 = sums.iter().map(|sum| sum.own).sum();
    let groups = groups(marks, &totals, size);
    let count = marks.questions() as f64;
    let item = |(at, sum): (usize, &Sums)| {
        let rest = spread - 2.0 * sum.with_total + sum.own;
        let with_rest = ratio(sum.with_total - sum.own, sum.own, rest);
        let means_of = groups.as_ref().map(|(upper, lower)| (upper[at], lower[at]));
        Item {
            difficulty: if persons == 0 { 0.0 } else { means[at] },
            difficulty_between: of_share(means[at], persons as f64, NINETY_FIVE),
            with_total: ratio(sum.with_total, sum.own, spread),
            with_rest,
            with_rest_between: with_rest.and_then(|r| of_correlation(r, persons, NINETY_FIVE)),
            upper_lower: means_of.map(|(upper, lower)| upper - lower),
            upper_lower_between: means_of
                .map(|(upper, lower)| of_difference(upper, lower, size as f64, NINETY_FIVE)),
            alpha_without: (count > 2.0 && rest > 1e-9).then(|| {
                let fewer = count - 1.0;
                fewer / (fewer - 1.0) * (1.0 - (within - sum.own) / rest)
            }),
        }
    };
    sums.iter().enumerate().map(item).collect()
}

/// A correlation out of centered sums; none where one of them is nothing.
fn ratio(together: f64, one: f64, other: f64) -> Option<f64> {
    (one > 1e-9 && other > 1e-9).then(|| (together / (one * other).sqrt()).clamp(-1.0, 1.0))
}

/// The means of the questions in the upper and the lower group.
fn groups(marks: &Marks, totals: &[f64], size: usize) -> Option<(Vec<f64>, Vec<f64>)> {
    if size == 0 || 2 * size > totals.len() {
        return None;
    }
    let mut order: Vec<usize> = (0..totals.len()).collect();
    order.sort_by(|a, b| totals[*b].total_cmp(&totals[*a]));
    let rows: Vec<&[f64]> = marks.rows().collect();
    let mean = |group: &[usize]| -> Vec<f64> {
        let mut sums = vec![0.0; marks.questions()];
        for person in group {
            for (sum, mark) in sums.iter_mut().zip(rows[*person]) {
                *sum += mark;
            }
        }
        sums.iter().map(|sum| sum / size as f64).collect()
    };
    Some((mean(&order[..size]), mean(&order[totals.len() - size..])))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ten persons, groups of three, as a published worked example has them.
    #[test]
    fn groups_of_another_size() {
        let text = include_str!("../../../tests/reference/statistics/kr20_ten_by_ten.csv");
        let rows = text.lines().filter(|line| !line.starts_with('#')).skip(1);
        let cells: Vec<f64> = rows
            .flat_map(|row| row.split(','))
            .filter_map(|cell| cell.parse().ok())
            .collect();
        let marks = Marks::new(10, cells).unwrap();
        let found = grouped(&marks, 3);
        let of = |at: usize| found[at].upper_lower.unwrap();
        assert!((of(0) - 2.0 / 3.0).abs() < 1e-9);
        assert!((of(4) - 2.0 / 3.0).abs() < 1e-9);
        assert!(of(8).abs() < 1e-9);
    }
}
