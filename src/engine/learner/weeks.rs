//! A history week by week: what the record would have said at the end of each. All of
//! it is worked anew from the history; nothing that was once shown is kept.

use super::blueprint::Blueprint;
use super::curriculum::Curriculum;
use super::forecast::{Evidence, Forecast, forecast};
use super::history::History;
use super::record::Record;
use super::response::Moment;

/// The most weeks that are told, the latest ones: two years. Our own choice.
pub const MOST_WEEKS: i32 = 104;

/// How it stood at the end of a week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Week {
    /// The moment that counts as its end: Sunday, or now in the week that is not over.
    pub end: Moment,
    /// Problems handed in in it.
    pub responses: usize,
    /// Lines tried without help, and how many of them were right.
    pub unaided: usize,
    /// See [`Self::unaided`].
    pub right: usize,
    /// What the forecast rests on.
    pub evidence: Evidence,
    /// The forecast; none where the evidence is not enough.
    pub forecast: Option<Forecast>,
}

/// The Monday of a day's week. Day 0 is 1 January 1970, a Thursday.
pub const fn monday(day: i32) -> i32 {
    let since = (day as i64 + 3).rem_euclid(7);
    day.saturating_sub(since as i32)
}

/// The weeks from the first response to now, each at its end, at most [`MOST_WEEKS`]. A
/// response that claims to come from the future counts in the week of now.
pub fn weeks(
    curriculum: &Curriculum,
    history: &History,
    blueprint: &Blueprint,
    now: Moment,
) -> Vec<Week> {
    let responses = history.in_order();
    let Some(first) = responses.first() else {
        return Vec::new();
    };
    let last = monday(now.day);
    let begin = monday(first.when.day)
        .max(last.saturating_sub(7 * (MOST_WEEKS - 1)))
        .min(last);
    let mut record = Record::new(curriculum);
    let mut coming = responses.into_iter().peekable();
    let mut told = Vec::new();
    let mut start = begin;
    while start <= last {
        let after = start.saturating_add(7);
        let over = start == last;
        let (mut own, mut unaided, mut right) = (0, 0, 0);
        while let Some(response) = coming.next_if(|next| over || next.when.day < after) {
            record.take(curriculum, response);
            if response.when.day >= start {
                own += 1;
                let tried = response.tries.iter().filter(|tried| !tried.helped);
                unaided += tried.clone().count();
                right += tried.filter(|tried| tried.right).count();
            }
        }
        let end = if over {
            now
        } else {
            now.later(after.saturating_sub(1).saturating_sub(now.day))
        };
        let evidence = Evidence::of(&record, blueprint);
        let enough = evidence.is_enough();
        told.push(Week {
            end,
            responses: own,
            unaided,
            right,
            evidence,
            forecast: enough.then(|| forecast(curriculum, &record, blueprint, end)),
        });
        start = match start.checked_add(7) {
            Some(next) => next,
            None => break,
        };
    }
    told
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::learner::{FamilyFacts, Response, Try};

    fn curriculum() -> Curriculum {
        let family = |id: &str| FamilyFacts {
            id: id.to_owned(),
            lesson: "l".to_owned(),
            levels: vec![1],
            home: 1,
            quick: None,
            after: Vec::new(),
            needs: vec![],
            skills: vec![],
        };
        Curriculum::new(vec![family("a"), family("b")])
    }

    fn response(number: u128, day: i32) -> Response {
        let family = if number.is_multiple_of(2) { "a" } else { "b" };
        Response {
            when: Moment {
                seconds: i64::from(day) * 86_400,
                day,
            },
            id: number,
            problem: format!("p{number}").into(),
            family: family.into(),
            level: 1,
            probe: true,
            tries: vec![Try {
                skill: family.into(),
                right: !number.is_multiple_of(3),
                helped: false,
                seconds: None,
                options: None,
                mistake: None,
            }],
        }
    }

    fn at(day: i32) -> Moment {
        Moment {
            seconds: i64::from(day) * 86_400,
            day,
        }
    }

    #[test]
    fn a_week_begins_on_monday() {
        // 25 November 2026, a Wednesday, is day 20,782.
        assert_eq!(monday(20_782), 20_780);
        assert_eq!(monday(20_780), 20_780);
        assert_eq!(monday(20_779), 20_773);
        assert_eq!(monday(-1), -3);
        let _ = (monday(i32::MIN), monday(i32::MAX));
    }

    #[test]
    fn the_last_week_says_what_the_whole_record_says() {
        let curriculum = curriculum();
        let blueprint = Blueprint::even(&curriculum, 75, 0.7);
        let history: History = (0..90).map(|n| response(n, 20_700 + n as i32)).collect();
        let now = at(20_800);
        let told = weeks(&curriculum, &history, &blueprint, now);
        let record = Record::replay(&curriculum, &history);
        let last = told.last().unwrap();
        assert_eq!(last.end, now);
        assert_eq!(
            last.forecast,
            Some(forecast(&curriculum, &record, &blueprint, now))
        );
        assert_eq!(told.iter().map(|week| week.responses).sum::<usize>(), 90);
        assert_eq!(told.iter().map(|week| week.unaided).sum::<usize>(), 90);
        assert_eq!(told.iter().map(|week| week.right).sum::<usize>(), 60);
        assert!(told[0].forecast.is_none());
        for pair in told.windows(2) {
            assert!(pair[0].end < pair[1].end);
            assert!(pair[0].evidence.probe_steps <= pair[1].evidence.probe_steps);
        }
    }

    #[test]
    fn odd_clocks_do_no_harm() {
        let curriculum = curriculum();
        let blueprint = Blueprint::even(&curriculum, 75, 0.7);
        for days in [[i32::MIN, i32::MAX], [0, 90_000], [5, 5], [90_000, 0]] {
            let history: History = (0..).zip(days).map(|(n, day)| response(n, day)).collect();
            for now in [i32::MIN, -1, 0, 20_800, i32::MAX] {
                let told = weeks(&curriculum, &history, &blueprint, at(now));
                assert!(!told.is_empty() && told.len() <= MOST_WEEKS as usize);
            }
        }
        let none = weeks(&curriculum, &History::default(), &blueprint, at(0));
        assert!(none.is_empty());
    }
}
