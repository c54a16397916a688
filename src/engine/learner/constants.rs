//! Every constant of the model, each with where it comes from.
//!
//! "Simulation" means fitted on two generators of simulated apprentices; no published
//! value exists for this state. "Our own choice" has no source. Works are cited from
//! their abstract or text where that was read, else "from memory".

/// First strength of a family just taught, log-odds: 65 % right after instruction.
///
/// Source: Koedinger, Carvalho, Liu and McLaughlin, "An astonishing regularity in
/// student learning rate", PNAS 120 (2023).
pub const FIRST_STRENGTH: f64 = 0.62;

/// Variance of ability at the start, log-odds squared: the upper half of students
/// begins at 75 % and the lower at 55 %; a normal of that spread.
///
/// Source: Koedinger and others 2023, as above.
pub const ABILITY_VARIANCE: f64 = 0.56 * 0.56;

/// Variance of a family's strength at the start, log-odds squared. Our own choice.
pub const STRENGTH_VARIANCE: f64 = 0.70 * 0.70;

/// Growth of strength at each try at 65 % success, log-odds.
///
/// Source: simulation. Koedinger and others 2023 give 0.1, an average that includes
/// the flat end of the curve.
pub const GROWTH: f64 = 0.20;

/// The chance of an error at which growth is [`GROWTH`]: 1 less 65 %.
pub const GROWTH_ERROR: f64 = 0.35;

/// Half-life of strength before the first gap, days. Source: simulation.
pub const FIRST_HALF_LIFE: f64 = 25.0;

/// How much a right try after a gap lengthens the half-life. Source: simulation.
pub const HALF_LIFE_GROWTH: f64 = 4.0;

/// Longest half-life, days: half of the gain in accuracy is gone after some 6.5 months.
///
/// Source: Tatel and Ackerman, Psychological Bulletin (2025), a review of skill decay.
pub const LONGEST_HALF_LIFE: f64 = 200.0;

/// What strength fades to, log-odds. Source: simulation.
pub const FLOOR_STRENGTH: f64 = -0.40;

/// Variance added to a strength by each try: what one can do changes. Source: simulation.
pub const DRIFT: f64 = 0.04;

/// Least variance of a strength before [`DRIFT`] is added. Source: simulation.
pub const LEAST_VARIANCE: f64 = 0.05;

/// Greatest variance of a strength, as a multiple of [`STRENGTH_VARIANCE`]. Our own choice.
pub const VARIANCE_CAP: f64 = 1.5;

/// Variance of the forgetting pace (log of a multiplier) at the start. Source: simulation.
pub const PACE_VARIANCE: f64 = 0.40;

/// How far the forgetting pace may go either way. Our own choice.
pub const PACE_LIMIT: f64 = 1.5;

/// Chance of a right answer without the skill, where there is nothing to choose from.
/// Our own choice; a choice among n has 1/n.
pub const GUESS: f64 = 0.05;

/// Chance of a wrong answer with the skill. Source: simulation.
pub const SLIP: f64 = 0.02;

/// Difficulty of one level above the home level, log-odds. Our own choice.
pub const LEVEL_STEP: f64 = 0.8;

/// Chance of a right step in a family that was not met yet. Our own choice.
pub const NOT_TAUGHT: f64 = 0.15;

/// Success that every prerequisite must be predicted at before a family is picked.
/// Our own choice.
pub const GATE: f64 = 0.60;

/// Most problems of one family in a day, probes aside. Source: simulation; two came out
/// lower wherever practice after a gap does more.
pub const A_DAY: u32 = 1;

/// What a skill bears of the exam beside its weight, as a part of an even share, so that
/// nothing met is let go for good. Our own choice.
pub const LEAST_BEARING: f64 = 0.1;

/// Predicted success that a level is chosen for, and that the first and the last
/// problem of an evening reach.
///
/// Our own choice; the literature supports no more than "0.7 to 0.85" (Wilson,
/// Shenhav, Straccia and Cohen, Nature Communications 10 (2019), derives 0.84 for
/// learners of one kind on tasks with two answers).
pub const AIM: f64 = 0.75;

/// One problem in so many is a probe. Our own choice.
pub const PROBE_EVERY: u32 = 5;

/// Predicted success at which a refresher is due. Our own choice.
pub const DUE: f64 = 0.70;

/// Success that holding speaks of. Our own choice.
pub const HOLDING_SUCCESS: f64 = 0.80;

/// How sure holding must be. Source: simulation; at 0.80 one in eight was declared
/// wrongly where part of what is learned goes within days, at 0.85 one in thirteen.
///
/// Corbett and Anderson, User Modeling and User-Adapted Interaction 4 (1995), use a
/// chance of 0.95 that a skill is known, which is another quantity.
pub const HOLDING_CHANCE: f64 = 0.85;

/// Days on which it must have been right. Our own choice.
pub const HOLDING_DAYS: u32 = 2;

/// Below this success a worked example comes first. Our own choice.
pub const WORKED_BELOW: f64 = 0.50;

/// Below this success the first half is given. Our own choice.
pub const PART_BELOW: f64 = 0.75;

/// Standard deviation that the forecast adds for the model being wrong, as a share of
/// the marks. Source: simulation.
pub const MODEL_ERROR: f64 = 0.07;

/// Probe steps below which there is no forecast. Our own choice.
pub const PROBE_STEPS_NEEDED: u32 = 30;

/// Share of the blueprint to be met below which there is no forecast. Our own choice.
pub const BLUEPRINT_NEEDED: f64 = 0.60;

/// Of how many last tries a mistake is counted, and how often makes it a habit. Our
/// own choice.
pub const MISTAKE_WINDOW: usize = 5;

/// See [`MISTAKE_WINDOW`].
pub const MISTAKE_TWICE: usize = 2;

/// Seconds in a day.
pub const DAY: f64 = 86_400.0;
