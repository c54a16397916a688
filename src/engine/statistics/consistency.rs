//! Whether another form of the paper would pass the same people, out of one form.

/// How far another form would decide the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Consistency {
    /// The share of persons for whom two forms decide the same.
    pub agreement: f64,
    /// The same beyond chance: kappa; nothing where chance alone agrees on all.
    pub kappa: f64,
}

/// How far two forms of so many questions decide the same, where `least` right answers
/// pass; none where the mean or the counts cannot be.
///
/// ```text
/// a = M (1/r − 1)      b = k (1/r − 1) − a
/// f(x, y) = C(k,x) C(k,y) B(a + x + y, b + 2k − x − y) / B(a, b)
/// agreement = Σ f over both passing + Σ f over both failing
/// kappa = (agreement − p² − q²) / (1 − p² − q²)
///
/// M  mean sum     r  KR-21     p  share that passes     q = 1 − p
/// ```
/// Persons have chances that follow a beta distribution; the questions of a form are a
/// draw. Source: Huynh, Journal of Educational Measurement 13 (1976), from memory; of
/// the kind that needs one form, as Livingston and Lewis, Journal of Educational
/// Measurement 32 (1995). Where r is not above 0 all persons are taken as equal.
pub fn consistency(questions: usize, least: usize, mean: f64, kr21: f64) -> Option<Consistency> {
    let k = questions as f64;
    if questions == 0 || least > questions || !(mean > 0.0 && mean < k) || kr21.is_nan() {
        return None;
    }
    // At r so small the beta distribution is a point; at 1 it has no middle.
    let r = kr21.clamp(1e-4, 1.0 - 1e-6);
    let scale = 1.0 / r - 1.0;
    let (a, b) = (mean * scale, (k - mean) * scale);
    let base = log_beta(a, b);
    let choose: Vec<f64> = (0..=questions).map(|x| log_choose(questions, x)).collect();
    // B depends on x + y alone.
    let joint: Vec<f64> = (0..=2 * questions)
        .map(|s| log_beta(a + s as f64, b + 2.0 * k - s as f64) - base)
        .collect();
    let (mut agree, mut pass) = (0.0, 0.0);
    for x in 0..=questions {
        for y in 0..=questions {
            let chance = libm::exp(choose[x] + choose[y] + joint[x + y]);
            if (x >= least) == (y >= least) {
                agree += chance;
            }
            if x >= least {
                pass += chance;
            }
        }
    }
    let by_chance = pass * pass + (1.0 - pass) * (1.0 - pass);
    let left = 1.0 - by_chance;
    Some(Consistency {
        agreement: agree.clamp(0.0, 1.0),
        kappa: if left > 1e-9 {
            (agree - by_chance) / left
        } else {
            0.0
        },
    })
}

fn log_beta(a: f64, b: f64) -> f64 {
    libm::lgamma(a) + libm::lgamma(b) - libm::lgamma(a + b)
}

fn log_choose(n: usize, k: usize) -> f64 {
    let gamma = |x: usize| libm::lgamma(x as f64 + 1.0);
    gamma(n) - gamma(k) - gamma(n - k)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The chance to pass of somebody with this chance at each question.
    fn passes(questions: usize, least: usize, chance: f64) -> f64 {
        (least..=questions)
            .map(|x| {
                let ways = libm::exp(log_choose(questions, x));
                let right = libm::pow(chance, x as f64);
                ways * right * libm::pow(1.0 - chance, (questions - x) as f64)
            })
            .sum()
    }

    /// By another way: the same integral over persons, by the midpoint rule.
    #[test]
    fn it_is_the_integral_over_persons() {
        for (questions, least, mean, kr21) in
            [(10, 6, 5.8, 0.6), (50, 35, 33.0, 0.8), (5, 4, 3.8, 0.2)]
        {
            let found = consistency(questions, least, mean, kr21).unwrap();
            let scale = 1.0 / kr21 - 1.0;
            let (a, b) = (mean * scale, (questions as f64 - mean) * scale);
            let (mut sum, mut weight) = (0.0, 0.0);
            for at in 0..20_000 {
                let p = (f64::from(at) + 0.5) / 20_000.0;
                let density = libm::exp((a - 1.0) * libm::log(p) + (b - 1.0) * libm::log1p(-p));
                let pass = passes(questions, least, p);
                sum += density * (pass * pass + (1.0 - pass) * (1.0 - pass));
                weight += density;
            }
            assert!(
                (found.agreement - sum / weight).abs() < 1e-4,
                "{questions}: {found:?}"
            );
        }
    }

    #[test]
    fn a_more_reliable_paper_is_more_consistent() {
        let of = |r| consistency(40, 28, 28.0, r).unwrap();
        assert!(of(0.9).agreement > of(0.6).agreement);
        assert!(of(0.9).kappa > of(0.6).kappa && of(0.6).kappa > of(-0.2).kappa);
        assert!(of(-0.2).kappa.abs() < 0.01);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert_eq!(consistency(0, 0, 0.0, 0.5), None);
        assert_eq!(consistency(10, 11, 5.0, 0.5), None);
        assert_eq!(consistency(10, 7, 10.0, 0.5), None);
        assert_eq!(consistency(10, 7, 5.0, f64::NAN), None);
    }
}
