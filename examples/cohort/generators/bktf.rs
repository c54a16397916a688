//! Known or not: a skill is either known or not, is learned by jumps, and may be lost
//! between days, the later the more often it was right after a gap.
//!
//! Source of the form: Corbett and Anderson, User Modeling and User-Adapted
//! Interaction 4 (1995), with forgetting added. The numbers are chosen.

use crate::apprentice::{Apprentice, DAY, Generator, ground, level_offset, log_odds, logistic};
use crate::luck::Luck;
use crate::world::World;

/// The kind.
pub struct KnownOrNot;

struct Person<'w> {
    world: &'w World,
    luck: Luck,
    skills: Vec<Skill>,
}

struct Skill {
    after_lesson: f64,
    learns: f64,
    slip: f64,
    guess: f64,
    known: bool,
    half_life: f64,
    last: Option<f64>,
}

impl Generator for KnownOrNot {
    fn name(&self) -> &'static str {
        "bktf"
    }

    fn about(&self) -> &'static str {
        "known or not, learned by jumps, lost between days; spacing pays"
    }

    fn apprentice<'w>(
        &self,
        world: &'w World,
        cohort: u64,
        mut luck: Luck,
    ) -> Box<dyn Apprentice + 'w> {
        let mut shared = Luck::of(&[cohort, 0xB7]);
        let ability = luck.normal(0.0, 0.55);
        let slip = luck.normal(0.08, 0.025);
        let half_life = 90.0 * libm::exp(luck.normal(0.0, 0.35));
        let skills = (0..world.families()).map(|_| {
            let easy = shared.normal(0.0, 0.5) + luck.normal(0.0, 0.8);
            Skill {
                after_lesson: logistic(log_odds(0.62) + ability + easy),
                learns: logistic(log_odds(0.13) + 0.5 * ability + shared.normal(0.0, 0.3)),
                slip: (slip + shared.normal(0.0, 0.01)).clamp(0.02, 0.2),
                guess: shared.normal(0.25, 0.05).clamp(0.05, 0.4),
                known: false,
                half_life,
                last: None,
            }
        });
        let skills = skills.collect();
        Box::new(Person {
            world,
            luck,
            skills,
        })
    }
}

impl Skill {
    /// The chance that what was known is still known.
    fn kept(&self, at: f64) -> f64 {
        let days = self.last.map_or(0.0, |last| (at - last).max(0.0) / DAY);
        libm::exp2(-days / self.half_life)
    }

    fn known_at(&self, at: f64) -> f64 {
        if self.known { self.kept(at) } else { 0.0 }
    }
}

impl Apprentice for Person<'_> {
    fn lesson(&mut self, family: usize, at: f64) {
        let ground = 0.4 + 0.6 * ground(self, self.world, family, at);
        let skill = &mut self.skills[family];
        skill.known = self.luck.happens(skill.after_lesson * ground);
        skill.last = Some(at);
    }

    fn chance(&self, skill: usize, level: u8, at: f64) -> f64 {
        let skill = &self.skills[skill];
        let known = skill.known_at(at);
        let slip = logistic(log_odds(skill.slip) + level_offset(level));
        let guess = logistic(log_odds(skill.guess) - level_offset(level));
        known * (1.0 - slip) + (1.0 - known) * guess
    }

    fn step(&mut self, skill: usize, _level: u8, right: bool, at: f64) {
        let ground = 0.35 + 0.65 * ground(self, self.world, skill, at);
        let skill = &mut self.skills[skill];
        let kept = skill.kept(at);
        let known = skill.known_at(at);
        // The state is drawn given the answer, so that both agree.
        let (with, without) = if right {
            (known * (1.0 - skill.slip), (1.0 - known) * skill.guess)
        } else {
            (known * skill.slip, (1.0 - known) * (1.0 - skill.guess))
        };
        skill.known = self.luck.happens(with / (with + without));
        let learns = skill.learns * ground * if right { 1.15 } else { 1.0 };
        skill.known |= self.luck.happens(learns);
        let new_day = skill
            .last
            .is_none_or(|last| (at / DAY).floor() > (last / DAY).floor());
        if new_day && right && skill.known {
            skill.half_life = (skill.half_life * (1.0 + 2.0 * (1.0 - kept))).min(300.0);
        }
        skill.last = Some(at);
    }
}
