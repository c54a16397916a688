//! An entry as the learner model reads it.

use super::entry::Entry;
use crate::learner::{Moment, Response, Try};

impl Entry {
    /// When it was handed in, by the clock and by the person's calendar.
    pub fn when(&self) -> Moment {
        moment(self.at, self.zone)
    }

    /// What it says about the person: every line that was written without being
    /// given and whose verdict says anything.
    pub fn response(&self) -> Response {
        let says = |line: &&super::LineEntry| !line.given;
        let tries = self.lines.iter().filter(says).filter_map(|line| {
            Some(Try {
                skill: line.skill.as_str().into(),
                right: line.right?,
                helped: line.helped > 0,
                seconds: line.seconds,
                options: line.options,
                mistake: line.mistakes.first().map(|id| id.as_str().into()),
            })
        });
        Response {
            when: self.when(),
            id: self.id.number(),
            problem: self.code.as_str().into(),
            family: self.family.as_str().into(),
            level: self.level,
            probe: self.purpose.is_evidence(),
            tries: tries.collect(),
        }
    }
}

/// A moment from milliseconds since 1970 in UTC and minutes that the local clock is
/// ahead of it.
pub fn moment(milliseconds: i64, zone: i32) -> Moment {
    let seconds = milliseconds.div_euclid(1000);
    let local = seconds.saturating_add(i64::from(zone) * 60);
    let day = local.div_euclid(86_400);
    Moment {
        seconds,
        day: day.clamp(i64::from(i32::MIN), i64::from(i32::MAX)) as i32,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_day_is_the_one_on_the_persons_wall() {
        // 1970-01-02 03:00 UTC is still the first where the clock is five hours behind.
        let three = (24 + 3) * 3_600_000;
        assert_eq!(moment(three, 0).day, 1);
        assert_eq!(moment(three, -300).day, 0);
        assert_eq!(moment(-1, 0).day, -1);
        assert_eq!(moment(i64::MAX, i32::MAX).day, i32::MAX);
    }
}
