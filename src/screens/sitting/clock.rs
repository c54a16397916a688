//! The clock of a sitting: when it began, how long it may take, what is left. It is the
//! clock on the wall, so it runs on while the program is stopped.

const MINUTE: i64 = 60_000;

/// What is said once when so many minutes are left.
const SAID: [i64; 2] = [30, 10];

/// The clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    /// When the sitting began, in milliseconds since 1970.
    pub started: i64,
    /// How many minutes it may take; none for no clock.
    pub minutes: Option<u32>,
    /// The latest time that was seen. A clock that is set back gives no time.
    pub now: i64,
}

impl Clock {
    /// A clock that starts now.
    pub const fn starting(now: i64, minutes: Option<u32>) -> Self {
        Self {
            started: now,
            minutes,
            now,
        }
    }

    fn whole(&self) -> Option<i64> {
        self.minutes.map(|minutes| i64::from(minutes) * MINUTE)
    }

    /// The milliseconds that are left.
    fn left(&self) -> Option<i64> {
        Some((self.whole()? - (self.now - self.started)).max(0))
    }

    /// The minutes that are left, a begun one counted whole.
    pub fn minutes_left(&self) -> Option<i64> {
        Some((self.left()? + MINUTE - 1).div_euclid(MINUTE))
    }

    /// Whether the time is up.
    pub fn is_up(&self) -> bool {
        self.left() == Some(0)
    }

    /// Takes in what time it is; says what is said once, and whether another minute stands.
    pub fn tick(&mut self, now: i64) -> (Option<String>, bool) {
        let before = self.minutes_left();
        self.now = self.now.max(now);
        let after = self.minutes_left();
        let passed = |mark: &&i64| {
            let at = Some(**mark);
            before > at && after <= at && after > Some(0) && after.is_some()
        };
        let said = SAID.iter().rev().find(passed);
        let words = said.zip(after).map(|(_, left)| match left {
            1 => "1 minute left".to_owned(),
            left => format!("{left} minutes left"),
        });
        (words, before != after)
    }

    /// What stands at the right of the first row.
    pub fn words(&self) -> String {
        match (self.minutes_left(), self.minutes) {
            (Some(left), Some(whole)) => {
                format!("{} left of {}", duration(left), duration(i64::from(whole)))
            }
            _ => "no clock".to_owned(),
        }
    }

    /// What is said after a stop: how much time is left.
    pub fn ran_on(&self) -> String {
        match self.minutes_left() {
            Some(left) => format!("The clock ran on: {} left.", duration(left)),
            None => "There is no clock.".to_owned(),
        }
    }

    /// How long it took until now, in minutes; never longer than it might.
    pub fn taken(&self) -> i64 {
        let taken = (self.now - self.started).max(0);
        let taken = self.whole().map_or(taken, |whole| taken.min(whole));
        taken.div_euclid(MINUTE)
    }
}

/// Minutes in words: `2 h 30`, `1 h 22 min`, `40 min`.
pub fn duration(minutes: i64) -> String {
    match (minutes.div_euclid(60), minutes.rem_euclid(60)) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_begun_minute_counts_whole_and_the_marks_are_said_once() {
        let mut clock = Clock::starting(1_000, Some(40));
        assert_eq!(clock.words(), "40 min left of 40 min");
        assert_eq!(clock.tick(1_500), (None, false));
        assert_eq!(clock.tick(1_000 + 9 * MINUTE), (None, true));
        let (said, _) = clock.tick(1_000 + 10 * MINUTE);
        assert_eq!(said.as_deref(), Some("30 minutes left"));
        assert_eq!(clock.tick(1_001 + 10 * MINUTE), (None, false));
        let (said, _) = clock.tick(1_000 + 33 * MINUTE);
        assert_eq!(said.as_deref(), Some("7 minutes left"));
        let (said, changed) = clock.tick(1_000 + 40 * MINUTE);
        assert!(said.is_none() && changed && clock.is_up());
        assert_eq!(clock.taken(), 40);
    }

    #[test]
    fn a_clock_that_is_set_back_gives_no_time() {
        let mut clock = Clock::starting(0, Some(60));
        clock.tick(20 * MINUTE);
        clock.tick(5 * MINUTE);
        assert_eq!(clock.words(), "40 min left of 1 h");
    }

    #[test]
    fn without_a_clock_nothing_runs_out() {
        let mut clock = Clock::starting(0, None);
        assert_eq!(clock.tick(i64::MAX / 2), (None, false));
        assert!(!clock.is_up());
        assert_eq!(clock.words(), "no clock");
    }
}
