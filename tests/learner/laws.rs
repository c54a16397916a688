//! What holds of any history: merging, forgetting, forecasts, choices.

use proptest::prelude::*;
use pumpwright_engine::learner::{
    Blueprint, Curriculum, Desk, Dice, Evening, Evidence, FamilyFacts, History, Moment, Place,
    Record, Response, Stage, Why, commonest, forecast, standing,
};

use crate::people::{FAMILIES, any_history, any_response, at, blueprint, curriculum, response};

const DAY: i64 = 86_400;

/// A time after every history.
fn later(days: i64) -> Moment {
    at((365 + days) * DAY)
}

fn all_right_every_day(days: i64) -> History {
    let responses = (0..days).flat_map(|day| {
        (0..FAMILIES).map(move |family| {
            let id = (day as u128) * 100 + family as u128;
            response(id, day * DAY + family as i64 * 300, family, 2, true, true)
        })
    });
    responses.collect()
}

proptest! {
    /// Merged in any order, with repeats: the same record, to the last digit.
    #[test]
    fn merging_is_the_union(
        all in proptest::collection::vec(any_response(0..100 * DAY), 0..40),
        cut in any::<prop::sample::Index>(),
        turned in any::<bool>(),
    ) {
        let curriculum = curriculum();
        let union: History = all.iter().cloned().collect();
        let at = if all.is_empty() { 0 } else { cut.index(all.len()) };
        let mut one: Vec<Response> = all[..at].to_vec();
        let mut other: Vec<Response> = all[at / 2..].to_vec();
        if turned {
            one.reverse();
            other.reverse();
        }
        let (one, other): (History, History) = (one.into_iter().collect(), other.into_iter().collect());
        let merged = one.clone().merged(other.clone());
        prop_assert_eq!(&merged, &union);
        prop_assert_eq!(&other.merged(one), &union);
        let (a, b) = (Record::replay(&curriculum, &merged), Record::replay(&curriculum, &union));
        prop_assert_eq!(&a, &b);
        for family in 0..FAMILIES {
            prop_assert_eq!(standing(&a, family, later(0)), standing(&b, family, later(0)));
        }
    }

    /// Never a chance of 0 or 1, never a number that is none, whatever was recorded and
    /// whenever it is asked.
    #[test]
    fn chances_lie_between_nothing_and_all(
        history in any_history(),
        seconds in prop_oneof![0..365 * DAY, Just(i64::MIN), Just(i64::MAX)],
        offset in -4.0..4.0_f64,
    ) {
        let curriculum = curriculum();
        let record = Record::replay(&curriculum, &history);
        let now = at(seconds);
        for family in 0..FAMILIES {
            let chance = record.state.success(family, now);
            prop_assert!(chance > 0.0 && chance < 1.0, "{chance}");
            let step = record.state.predict(family, offset, 0.25, now);
            prop_assert!(step.chance > 0.0 && step.chance < 1.0 && step.variance > 0.0);
            let found = standing(&record, family, now);
            prop_assert!((0.0..=1.0).contains(&found.sure));
            prop_assert!(found.between.0 < found.between.1);
            let met = record.state.families[family].last.is_some();
            prop_assert_eq!(found.stage == Stage::NotMet, !met);
        }
        let said = forecast(&curriculum, &record, &blueprint(&curriculum), now);
        prop_assert!(said.score > 0.0 && said.score < 1.0);
        prop_assert!(said.pass >= 0.0 && said.pass <= 1.0);
        prop_assert!(said.deviation.is_finite() && said.between.0 <= said.between.1);
        prop_assert!(record.probes.iter().all(|(chance, _)| *chance > 0.0 && *chance < 1.0));
        prop_assert!(commonest(&curriculum, &record).iter().all(|one| one.times <= one.of));
    }

    /// While nothing is tried, what stands above the floor only falls, and certainty
    /// only goes back towards what it was at first.
    #[test]
    fn forgetting_goes_one_way(history in any_history(), first in 0_i64..400, more in 1_i64..400) {
        let record = Record::replay(&curriculum(), &history);
        for family in 0..FAMILIES {
            let (sooner, then) = (
                record.state.carried(family, later(first)),
                record.state.carried(family, later(first + more)),
            );
            prop_assert!(then.kept <= sooner.kept);
            let floor = -0.40;
            let (a, b) = (sooner.belief.mean - floor, then.belief.mean - floor);
            prop_assert!(b.abs() <= a.abs() + 1e-12 && a * b >= 0.0);
            let (a, b) = (sooner.belief.variance - 0.49, then.belief.variance - 0.49);
            prop_assert!(b.abs() <= a.abs() + 1e-12);
        }
    }

    /// The due day is the first on which success is down to the mark.
    #[test]
    fn a_refresher_is_due_when_success_is_down_to_it(history in any_history()) {
        let record = Record::replay(&curriculum(), &history);
        for family in 0..FAMILIES {
            let Some(days) = standing(&record, family, later(0)).due_in else { continue };
            prop_assert!(record.state.success(family, later(0).later(days)) <= 0.70);
            if days > 0 {
                prop_assert!(record.state.success(family, later(0).later(days - 1)) > 0.70);
            }
        }
    }

    /// The last family is not chosen again while another is due or new and open.
    #[test]
    fn the_last_family_waits_while_another_is_due(
        history in any_history(),
        seed in any::<u64>(),
        place in prop_oneof![Just(Place::First), Just(Place::Middle), Just(Place::Last)],
    ) {
        let curriculum = curriculum();
        let record = Record::replay(&curriculum, &history);
        let blueprint = blueprint(&curriculum);
        let desk = Desk { curriculum: &curriculum, record: &record, blueprint: &blueprint, now: later(0) };
        let evening = Evening::of(&record, later(0));
        let choice = desk.next(&evening, place, &mut Dice::of(seed)).expect("a problem");
        let due = |family: usize| {
            Some(family) != record.last_family
                && record.state.families[family].last.is_some()
                && record.state.success(family, later(0)) <= 0.70
        };
        if (0..FAMILIES).any(due) {
            prop_assert_ne!(Some(choice.family), record.last_family);
        }
        let facts = &curriculum.families()[choice.family];
        prop_assert!(facts.levels.contains(&choice.level));
        // Of the levels that there are, the one at which success is nearest 0.75.
        if matches!(choice.why, Why::New | Why::Due | Why::Weakest) {
            for level in &facts.levels {
                let offset = curriculum.offset(choice.family, *level);
                let other = record.state.fresh(choice.family, offset, later(0)).chance;
                prop_assert!((choice.expected - 0.75).abs() <= (other - 0.75).abs() + 1e-12);
            }
        }
        if choice.why == Why::Steady {
            prop_assert!(choice.expected >= 0.75);
        }
        if choice.why == Why::Probe {
            prop_assert_eq!(choice.level, facts.home);
            prop_assert!(record.state.families[choice.family].last.is_some());
        }
        let plan = desk.evening(5, &mut Dice::of(seed));
        prop_assert!(plan.windows(2).all(|pair| pair[0].family != pair[1].family));
    }

    /// The same history, clock and seed choose the same.
    #[test]
    fn a_choice_can_be_made_again(history in any_history(), seed in any::<u64>()) {
        let curriculum = curriculum();
        let blueprint = blueprint(&curriculum);
        let of = || {
            let record = Record::replay(&curriculum, &history);
            let desk = Desk { curriculum: &curriculum, record: &record, blueprint: &blueprint, now: later(0) };
            desk.evening(4, &mut Dice::of(seed))
        };
        prop_assert_eq!(of(), of());
    }

    /// With the same score, what is known from many tries has a narrower interval than
    /// what is known from none, and the more tries the narrower.
    #[test]
    fn the_forecast_narrows_with_evidence(right in 0.3..0.85_f64, seed in any::<u64>()) {
        let curriculum = curriculum();
        let blueprint = blueprint(&curriculum);
        let mut record = Record::new(&curriculum);
        let mut dice = Dice::of(seed);
        let unknown = record.state.clone();
        let mut spreads = Vec::new();
        for round in 0..60_u32 {
            for family in 0..FAMILIES {
                let id = u128::from(round) * 100 + family as u128;
                let came = dice.share() < right;
                let one = response(id, i64::from(round) * DAY, family, 2, came, true);
                record.take(&curriculum, &one);
            }
            let now = at(i64::from(round) * DAY);
            let said = forecast(&curriculum, &record, &blueprint, now);
            let mut unsure = record.clone();
            unsure.state.ability.variance = unknown.ability.variance;
            for (own, new) in unsure.state.families.iter_mut().zip(&unknown.families) {
                own.belief.variance = new.belief.variance;
            }
            let wide = forecast(&curriculum, &unsure, &blueprint, now);
            // What the beliefs give, without the draw of the questions and the model's error.
            let other = said.score * (1.0 - said.score) / 50.0 + 0.07 * 0.07;
            let own = |deviation: f64| (deviation * deviation - other).sqrt();
            spreads.push(own(said.deviation) / own(wide.deviation));
        }
        prop_assert!(spreads[0] < 1.0, "{}", spreads[0]);
        prop_assert!(spreads[9] < spreads[0], "{} {}", spreads[0], spreads[9]);
        prop_assert!(spreads[59] < spreads[0], "{} {}", spreads[0], spreads[59]);
    }
}

/// Two families of one skill each, with 3 and 1 parts of the exam, after a few days. The
/// forecast's sum written out once more, term by term, with its own figures.
#[test]
fn a_forecast_is_the_sum_that_is_promised() {
    let family = |at: usize| FamilyFacts {
        id: format!("f{at}"),
        lesson: "l".into(),
        levels: vec![1],
        home: 1,
        quick: None,
        after: Vec::new(),
        needs: Vec::new(),
        skills: vec![at],
    };
    let curriculum = Curriculum::new((0..2).map(family).collect());
    let blueprint =
        Blueprint::new(&curriculum, &[("f0", 3.0), ("f1", 1.0)], 40, 0.7).with_guess(0.2);
    let mut record = Record::new(&curriculum);
    for id in 0..8_i64 {
        let one = response(id as u128, id * DAY, (id % 2) as usize, 1, id != 3, true);
        record.take(&curriculum, &one);
    }
    let then = at(30 * DAY);
    let said = forecast(&curriculum, &record, &blueprint, then);
    let state = &record.state;
    let logistic = |x: f64| 1.0 / (1.0 + libm::exp(-x));
    let (mut score, mut own, mut together, mut paced) = (0.0, 0.0, 0.0, 0.0);
    for (skill, weight) in [(0, 0.75), (1, 0.25)] {
        let carried = state.carried(skill, then);
        let z = state.ability.mean + carried.belief.mean;
        let spread = carried.belief.variance + state.ability.variance;
        let wide = (1.0 + std::f64::consts::PI * spread / 8.0).sqrt();
        let chance = 0.05 + (1.0 - 0.02 - 0.05) * logistic(z / wide);
        score += weight * (chance + (1.0 - chance) * 0.2);
        let slope = (1.0 - 0.02 - 0.05) * logistic(z) * (1.0 - logistic(z));
        let gradient = weight * (1.0 - 0.2) * slope;
        own += gradient * gradient * carried.belief.variance;
        together += gradient;
        paced += gradient * carried.slope;
    }
    let variance = own
        + together * together * state.ability.variance
        + paced * paced * state.pace.variance
        + score * (1.0 - score) / 40.0
        + 0.07 * 0.07;
    let near = |ours: f64, wanted: f64| assert!((ours - wanted).abs() < 1e-9, "{ours} {wanted}");
    near(said.score, score);
    near(said.deviation, variance.sqrt());
    near(
        said.between.0,
        score - 1.281_551_565_544_6 * variance.sqrt(),
    );
    // Twelve deviations to either side by the trapezoid rule: the normal distribution itself.
    let cut = (score - 0.7 + 0.5 / 40.0) / variance.sqrt();
    let (mut below, mut all) = (0.0, 0.0);
    for step in -120_000..=120_000 {
        let x = f64::from(step) / 10_000.0;
        let density = libm::exp(-x * x / 2.0);
        all += density;
        below += if x <= cut { density } else { 0.0 };
    }
    assert!(
        (said.pass - below / all).abs() < 1e-4,
        "{} {}",
        said.pass,
        below / all
    );
}

/// Whoever picks from four knew less by being right than whoever wrote the answer.
#[test]
fn a_picked_answer_may_be_guessed() {
    let curriculum = curriculum();
    let after = |options: Option<u8>, right: bool| {
        let mut one = response(1, 0, 1, 2, right, true);
        one.tries[0].options = options;
        let mut record = Record::new(&curriculum);
        record.take(&curriculum, &one);
        (record.state.ability.mean, record.probes[0].0)
    };
    let (written, picked) = (after(None, true), after(Some(4), true));
    assert!(picked.0 < written.0, "{picked:?} {written:?}");
    assert!(after(Some(2), true).0 < picked.0);
    // 0.25 and 0.05 are what is right without the skill, 0.02 what is wrong with it.
    let knows = (written.1 - 0.05) / (1.0 - 0.02 - 0.05);
    assert!((picked.1 - (0.25 + (1.0 - 0.02 - 0.25) * knows)).abs() < 1e-12);
    assert_eq!(after(Some(1), true), written, "one offer is no choice");
}

/// Every fifth problem between the first and the last is a probe, at home level.
#[test]
fn every_fifth_problem_is_a_probe() {
    let curriculum = curriculum();
    let blueprint = blueprint(&curriculum);
    let record = Record::replay(&curriculum, &all_right_every_day(12));
    let desk = Desk {
        curriculum: &curriculum,
        record: &record,
        blueprint: &blueprint,
        now: at(18 * DAY),
    };
    let plan = desk.evening(12, &mut Dice::of(1));
    let probes: Vec<usize> = (0..plan.len())
        .filter(|at| plan[*at].why == Why::Probe)
        .collect();
    assert_eq!(probes, [4, 9]);
}

/// What rests on a skill that does not stand yet is not offered, nor a family twice a day as
/// long as there is another.
#[test]
fn what_rests_on_more_waits_for_it() {
    let curriculum = curriculum();
    let blueprint = blueprint(&curriculum);
    let plan_of = |record: &Record, count: usize, now: Moment| -> Vec<usize> {
        let desk = Desk {
            curriculum: &curriculum,
            record,
            blueprint: &blueprint,
            now,
        };
        let plan = desk.evening(count, &mut Dice::of(3));
        plan.iter().map(|choice| choice.family).collect()
    };
    let all = plan_of(&Record::new(&curriculum), 6, at(0));
    assert_eq!(all[..3], [0, 1, 2]);
    assert!(all.iter().all(|family| *family < 3), "{all:?}");
    // The first stands; what rests on it is open, what rests on the others is not.
    let first = (0..8).map(|day| response(day as u128, day * DAY, 0, 1, true, false));
    let record = Record::replay(&curriculum, &first.collect());
    let mut open = plan_of(&record, 4, at(9 * DAY));
    open.sort_unstable();
    assert_eq!(open, [0, 1, 2, 3]);
    // A lesson behind another waits until that one stands.
    let family = |at: usize, after: Vec<Vec<usize>>| FamilyFacts {
        id: format!("f{at}"),
        lesson: format!("l{at}"),
        levels: vec![1],
        home: 1,
        quick: None,
        after,
        needs: Vec::new(),
        skills: vec![at],
    };
    let two = Curriculum::new(vec![family(0, Vec::new()), family(1, vec![vec![0]])]);
    let even = Blueprint::even(&two, 50, 0.7);
    let stands = (0..8).map(|day| response(day as u128, day * DAY, 0, 1, true, false));
    let stands = Record::replay(&two, &stands.collect());
    for (record, now, open) in [
        (Record::new(&two), at(0), false),
        (stands, at(9 * DAY), true),
    ] {
        let desk = Desk {
            curriculum: &two,
            record: &record,
            blueprint: &even,
            now,
        };
        let plan = desk.evening(2, &mut Dice::of(3));
        assert!(plan.iter().any(|choice| choice.family == 0), "{plan:?}");
        assert_eq!(plan.iter().any(|choice| choice.family == 1), open);
    }
}

#[test]
fn stages_follow_one_another() {
    let curriculum = curriculum();
    let new = Record::new(&curriculum);
    assert_eq!(standing(&new, 1, at(0)).stage, Stage::NotMet);
    assert_eq!(standing(&new, 1, at(0)).success, 0.15);
    // One family goes well, another of the same person does not.
    let days = |count: i64| {
        let of = |day: i64, family: usize| {
            let id = (day * 10) as u128 + family as u128;
            response(
                id,
                day * DAY + family as i64 * 60,
                family,
                2,
                family == 1 || day % 2 == 0,
                false,
            )
        };
        let all = (0..count).flat_map(move |day| [of(day, 1), of(day, 2)]);
        Record::replay(&curriculum, &all.collect())
    };
    assert_eq!(standing(&days(1), 1, at(DAY)).stage, Stage::Building);
    let record = days(20);
    let holds = standing(&record, 1, at(20 * DAY));
    assert_eq!(holds.stage, Stage::Holding, "{holds:?}");
    assert!(holds.due_in.is_some_and(|days| days > 10), "{holds:?}");
    assert_eq!(standing(&record, 2, at(20 * DAY)).stage, Stage::Building);
    let slips = standing(&record, 1, at(2000 * DAY));
    assert_eq!(slips.stage, Stage::Slipping, "{slips:?}");
    assert_eq!(slips.due_in, Some(0));
}

/// One good evening is no holding, however sure it looks; a second day is.
#[test]
fn holding_takes_a_second_day() {
    let curriculum = curriculum();
    let right = |id: i64, seconds: i64| response(id as u128, seconds, 1, 2, true, false);
    let evening = (0..30).map(|id| right(id, id * 120));
    let mut record = Record::replay(&curriculum, &evening.collect());
    let one = standing(&record, 1, at(DAY / 2));
    assert!(one.sure > 0.9, "{one:?}");
    assert_eq!(one.stage, Stage::Building);
    record.take(&curriculum, &right(30, DAY));
    assert_eq!(standing(&record, 1, at(DAY)).stage, Stage::Holding);
}

/// Of skills that stand alike, the one that bears most of the exam comes first; of such that
/// bear alike, the one that was let lie.
#[test]
fn what_bears_more_and_what_was_let_lie_comes_first() {
    let curriculum = curriculum();
    let wrong =
        |id: i64, day: i64, family: usize| response(id as u128, day * DAY, family, 1, false, true);
    let next = |weights: &[(&str, f64)], days: [i64; 3], now: i64| {
        let all = (0..)
            .zip(days)
            .map(|(family, day)| wrong(family, day, family as usize));
        let record = Record::replay(&curriculum, &all.collect());
        let blueprint = Blueprint::new(&curriculum, weights, 50, 0.7);
        let desk = Desk {
            curriculum: &curriculum,
            record: &record,
            blueprint: &blueprint,
            now: at(now * DAY),
        };
        let evening = Evening::of(&record, at(now * DAY));
        let choice = desk.next(&evening, Place::Middle, &mut Dice::of(1));
        choice.expect("a problem").family
    };
    let even = [("f0", 1.0), ("f1", 1.0), ("f2", 1.0)];
    assert_eq!(
        next(&[("f0", 9.0), ("f1", 1.0), ("f2", 1.0)], [1, 1, 2], 4),
        0
    );
    assert_eq!(
        next(&[("f0", 1.0), ("f1", 9.0), ("f2", 1.0)], [1, 1, 2], 4),
        1
    );
    assert_eq!(next(&even, [1, 20, 40], 41), 0);
    assert_eq!(next(&even, [20, 1, 40], 41), 1);
}

#[test]
fn help_and_haste_and_repeats_count_as_they_should() {
    let curriculum = curriculum();
    let with = |change: &dyn Fn(&mut Response)| {
        let mut one = response(1, 0, 1, 2, true, false);
        change(&mut one);
        let mut record = Record::new(&curriculum);
        record.take(&curriculum, &one);
        record
    };
    let right = with(&|_| {});
    let helped = with(&|one| one.tries[0].helped = true);
    let wrong = with(&|one| one.tries[0].right = false);
    assert_eq!(helped.state, wrong.state);
    assert!(helped.state.ability.mean < 0.0 && right.state.ability.mean > 0.0);
    let hasty = with(&|one| one.tries[0].seconds = Some(3));
    assert_eq!(hasty.state, Record::new(&curriculum).state);
    assert_eq!(hasty.families[1].responses, 1);
    let mut twice = right.clone();
    let mut again = response(2, 10, 1, 2, false, false);
    again.problem = "code-1".into();
    twice.take(&curriculum, &again);
    assert_eq!(twice, right, "a problem counts once");
    let gone = with(&|one| one.family = "no-such".into());
    assert_eq!(gone, Record::new(&curriculum));
}

#[test]
fn a_mistake_made_twice_is_due_for_its_contrast() {
    let curriculum = curriculum();
    let mut record = Record::new(&curriculum);
    for (id, right) in [(1, false), (2, true), (3, false)] {
        record.take(&curriculum, &response(id, id as i64, 1, 2, right, false));
    }
    assert_eq!(record.families[1].contrast_due(), Some("off"));
    let found = commonest(&curriculum, &record);
    assert_eq!((found[0].family, found[0].times, found[0].of), (1, 2, 3));
    for id in 4..9 {
        record.take(&curriculum, &response(id, id as i64, 1, 2, true, false));
    }
    assert_eq!(record.families[1].contrast_due(), None);
}

#[test]
fn evidence_says_what_is_missing() {
    let curriculum = curriculum();
    let blueprint = blueprint(&curriculum);
    let none = Evidence::of(&Record::new(&curriculum), &blueprint);
    assert_eq!(none.steps_missing(), 30);
    assert!((none.blueprint_missing() - 0.6).abs() < 1e-12 && !none.is_enough());
    let all = Evidence::of(
        &Record::replay(&curriculum, &all_right_every_day(5)),
        &blueprint,
    );
    assert!(all.is_enough(), "{all:?}");
    assert!((all.met - 1.0).abs() < 1e-9);
}

#[test]
fn an_evening_begins_and_ends_with_one_that_goes_well() {
    let curriculum = curriculum();
    let blueprint = blueprint(&curriculum);
    let mut record = Record::replay(&curriculum, &all_right_every_day(12));
    for id in 0..4 {
        let seconds = (13 + id) * DAY;
        record.take(
            &curriculum,
            &response(9000 + id as u128, seconds, 2, 2, false, true),
        );
    }
    let desk = Desk {
        curriculum: &curriculum,
        record: &record,
        blueprint: &blueprint,
        now: at(18 * DAY),
    };
    let plan = desk.evening(4, &mut Dice::of(1));
    assert_eq!(plan.len(), 4);
    for end in [plan[0], plan[3]] {
        assert!(end.expected >= 0.75 && end.why == Why::Steady, "{end:?}");
    }
    assert!(plan.iter().any(|choice| choice.family == 2), "{plan:?}");
}
