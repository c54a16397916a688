//! The table: one row a kind of apprentice, one block a question.

use crate::apprentice::Generator;
use crate::course::{Check, EVENINGS, Outcome};
use crate::measures::{brier, calibration_error, mean, median, quantile, share};
use crate::policies::Policy;

/// The courses of one kind: policy by policy, the same apprentices in each.
pub struct Cell<'g> {
    /// The kind.
    pub generator: &'g dyn Generator,
    /// The outcomes, in the order of [`Policy::ALL`]; cohort by cohort.
    pub outcomes: Vec<Vec<Outcome>>,
    /// Apprentices in a cohort.
    pub apprentices: usize,
}

impl Cell<'_> {
    fn of(&self, policy: Policy) -> &[Outcome] {
        let at = Policy::ALL.iter().position(|other| *other == policy);
        at.map_or(&[], |at| &self.outcomes[at])
    }

    /// The median over cohorts of a cohort's figure, with the least and the greatest.
    fn by_cohort(&self, policy: Policy, figure: impl Fn(&[Outcome]) -> f64) -> [f64; 3] {
        let cohorts = self.of(policy).chunks(self.apprentices);
        let figures: Vec<f64> = cohorts.map(figure).collect();
        [0.5, 0.0, 1.0].map(|at| quantile(figures.iter().copied(), at))
    }

    /// The median gain in score over another policy, apprentice by apprentice.
    fn gain_over(&self, other: Policy) -> f64 {
        let ours = self.of(Policy::Recommended).iter();
        let pairs = ours.zip(self.of(other));
        median(pairs.map(|(ours, theirs)| ours.score - theirs.score))
    }

    fn checks(&self, which: impl Fn(&Outcome) -> &Vec<Check>) -> Vec<Check> {
        let ours = self.of(Policy::Recommended).iter();
        ours.flat_map(|outcome| which(outcome).clone()).collect()
    }
}

/// The whole table as text.
pub fn print(cells: &[Cell<'_>]) -> String {
    let blocks = [
        scores(cells),
        reached(cells),
        met(cells),
        readiness(cells),
        mastery(cells),
        targets(cells),
    ];
    blocks.join("\n")
}

fn scores(cells: &[Cell<'_>]) -> String {
    let mut out = format!(
        "Simulated: true expected exam score 30 days after {EVENINGS} evenings, median [cohorts]\n{:<12}",
        ""
    );
    for policy in Policy::ALL {
        out += &format!("{:>20}", policy.name());
    }
    out += "\n";
    for cell in cells {
        out += &format!("{:<12}", cell.generator.name());
        for policy in Policy::ALL {
            let middle = |cohort: &[Outcome]| median(cohort.iter().map(|one| one.score));
            let [middle, least, most] = cell.by_cohort(policy, middle);
            out += &format!("{:>20}", format!("{middle:.3} [{least:.3}-{most:.3}]"));
        }
        out += "\n";
    }
    out += &format!(
        "\nSimulated: median gain of the recommended choice, apprentice by apprentice\n{:<12}",
        ""
    );
    let others = &Policy::ALL[..5];
    for policy in others {
        out += &format!("{:>17}", format!("over {}", policy.name()));
    }
    out += "   quartiles of its score\n";
    for cell in cells {
        out += &format!("{:<12}", cell.generator.name());
        for policy in others {
            out += &format!("{:>+17.3}", cell.gain_over(*policy));
        }
        let score = |at| quantile(cell.of(Policy::Recommended).iter().map(|one| one.score), at);
        out += &format!("   {:.3} to {:.3}\n", score(0.25), score(0.75));
    }
    out
}

fn reached(cells: &[Cell<'_>]) -> String {
    let mut out = format!(
        "Simulated: problems until the mean step success is 80 % (share that gets there)\n{:<12}",
        ""
    );
    for policy in Policy::ALL {
        out += &format!("{:>18}", policy.name());
    }
    out += "\n";
    for cell in cells {
        out += &format!("{:<12}", cell.generator.name());
        for policy in Policy::ALL {
            let ours = cell.of(policy);
            let there = share(ours.iter().map(|one| one.reached.is_some()));
            let after = median(
                ours.iter()
                    .map(|one| one.reached.map_or(f64::INFINITY, f64::from)),
            );
            let after = if after.is_finite() {
                format!("{after:.0}")
            } else {
                "never".into()
            };
            out += &format!("{:>18}", format!("{after} ({:.0} %)", 100.0 * there));
        }
        out += "\n";
    }
    out
}

/// How much of the curriculum is ever shown: nobody is to be locked out of it.
fn met(cells: &[Cell<'_>]) -> String {
    let mut out = format!(
        "Simulated: share of the families met, recommended choice, and by it: the score\n\
         {:<12}{:>8}{:>16}{:>8}{:>18}{:>18}\n",
        "", "median", "lowest tenth", "least", "score, weakest", "and by the spiral"
    );
    for cell in cells {
        let ours = cell.of(Policy::Recommended);
        let met = |at| quantile(ours.iter().map(|one| one.met), at);
        // Who is weak is told by the score that a plain round gives.
        let round = cell.of(Policy::Spiral);
        let mark = quantile(round.iter().map(|one| one.score), 0.1);
        let weak = || {
            ours.iter()
                .zip(round)
                .filter(|(_, round)| round.score <= mark)
        };
        out += &format!(
            "{:<12}{:>8.2}{:>16.2}{:>8.2}{:>18.3}{:>18.3}\n",
            cell.generator.name(),
            met(0.5),
            met(0.1),
            met(0.0),
            mean(weak().map(|(ours, _)| ours.score)),
            mean(weak().map(|(_, round)| round.score)),
        );
    }
    out
}

fn readiness(cells: &[Cell<'_>]) -> String {
    let mut out = String::new();
    for (title, projected) in [("today", false), ("30 days on, a projection", true)] {
        out += &format!(
            "Simulated: forecast of a pass, {title}\n{:<12}{:>8}{:>12}{:>14}{:>8}{:>12}{:>8}{:>8}\n",
            "", "Brier", "base rate*", "last 50", "ECE", "80 % cover", "bias", "passes"
        );
        for cell in cells {
            let checks = cell.checks(|one| {
                if projected {
                    &one.projected
                } else {
                    &one.today
                }
            });
            let ours: Vec<_> = checks.iter().map(|one| (one.pass, one.passed)).collect();
            let by_share: Vec<_> = checks
                .iter()
                .map(|one| (one.by_share, one.passed))
                .collect();
            out += &format!(
                "{:<12}{:>8.3}{:>12.3}{:>14.3}{:>8.3}{:>12.2}{:>+8.3}{:>8.2}\n",
                cell.generator.name(),
                brier(&ours),
                brier(&base_rate(&checks)),
                brier(&by_share),
                calibration_error(&ours),
                share(checks.iter().map(|one| one.covered)),
                mean(checks.iter().map(|one| one.off)),
                share(checks.iter().map(|one| one.passed)),
            );
        }
        out += "\n";
    }
    out + "* an oracle: the share that passes at each check-point; last 50: by the share of \
           the last 50 problems that were right\n"
}

/// The forecast of somebody who knows the share that passes at each check-point.
fn base_rate(checks: &[Check]) -> Vec<(f64, bool)> {
    let rate = |at: usize| {
        share(
            checks
                .iter()
                .filter(|one| one.at == at)
                .map(|one| one.passed),
        )
    };
    let mut rates = std::collections::BTreeMap::new();
    for check in checks {
        rates.entry(check.at).or_insert_with(|| rate(check.at));
    }
    checks
        .iter()
        .map(|one| (rates[&one.at], one.passed))
        .collect()
}

fn mastery(cells: &[Cell<'_>]) -> String {
    let mut out = format!(
        "Simulated: declared wrongly (true success next day < .75) and after how many problems, \
         spiral practice\n{:<12}{:>14}{:>10}{:>10}{:>16}{:>10}\n",
        "", "holding", "after", "declared", "3 in a row", "after"
    );
    for cell in cells {
        let ours = cell.of(Policy::Spiral);
        let wrong = |all: &[(f64, u32)]| share(all.iter().map(|(truth, _)| *truth < 0.75));
        let after = |all: &[(f64, u32)]| median(all.iter().map(|(_, count)| f64::from(*count)));
        let holding: Vec<_> = ours.iter().flat_map(|one| one.declared.clone()).collect();
        let three: Vec<_> = ours.iter().flat_map(|one| one.three.clone()).collect();
        let each = holding.len() as f64 / ours.len().max(1) as f64;
        out += &format!(
            "{:<12}{:>14.3}{:>10.0}{:>10.1}{:>16.3}{:>10.0}\n",
            cell.generator.name(),
            wrong(&holding),
            after(&holding),
            each,
            wrong(&three),
            after(&three),
        );
    }
    out
}

/// The targets, met or not.
fn targets(cells: &[Cell<'_>]) -> String {
    let count = cells.len();
    let today = |cell: &Cell<'_>| -> Vec<(f64, bool)> {
        let checks = cell.checks(|one| &one.today).into_iter();
        checks.map(|one| (one.pass, one.passed)).collect()
    };
    let number = |so: &dyn Fn(&Cell<'_>) -> bool| cells.iter().filter(|cell| so(cell)).count();
    let fitted = |cell: &Cell<'_>| ["actr", "bktf"].contains(&cell.generator.name());
    let wrong = |cell: &Cell<'_>| {
        let declared = cell
            .of(Policy::Spiral)
            .iter()
            .flat_map(|one| one.declared.clone());
        share(declared.map(|(truth, _)| truth < 0.75))
    };
    let lines = [
        (
            "gain over massed at least .17 on actr and bktf, above 0 on all",
            number(&|cell| {
                let least = if fitted(cell) { 0.17 } else { 0.0 };
                cell.gain_over(Policy::Massed) >= least
            }),
            count,
        ),
        (
            "gain over the spiral at least -.02 on all",
            number(&|cell| cell.gain_over(Policy::Spiral) >= -0.02),
            count,
        ),
        (
            "today's Brier at most .15 on most",
            number(&|cell| brier(&today(cell)) <= 0.15),
            count / 2 + 1,
        ),
        (
            "today's ECE at most .10 on half",
            number(&|cell| calibration_error(&today(cell)) <= 0.10),
            count.div_ceil(2),
        ),
        (
            "wrongly declared holding at most .10 on all",
            number(&|cell| wrong(cell) <= 0.10 || wrong(cell).is_nan()),
            count,
        ),
    ];
    let mut out = String::from("Simulated: the targets\n");
    for (name, met, needed) in lines {
        let word = if met >= needed { "met" } else { "NOT MET" };
        out += &format!("{name:<66}{met} of {count}: {word}\n");
    }
    out
}
