//! Which hand-in of a paper counts, and what is said of the others.
//!
//! What was taken in first counts, whichever way it came. What an instructor types or marks
//! with the pen once more mends what came in that way, and keeps its place.

use super::day::{day_of, time_of};
use super::marks::{HandIn, Way};

/// The hand-ins of a paper that stand for themselves, in the order in which they were taken
/// in: each file of answers, and the latest of what was typed or marked with the pen in the
/// place of the first. The first of them counts.
pub(super) fn standing<'a>(came: &[&'a HandIn]) -> Vec<&'a HandIn> {
    let mut own: Vec<&HandIn> = Vec::new();
    for hand_in in came {
        let mended = own
            .iter_mut()
            .find(|known| known.way == hand_in.way && hand_in.way != Way::Screen);
        match mended {
            Some(mended) => *mended = hand_in,
            None => own.push(hand_in),
        }
    }
    own
}

/// Says what counts and what does not, where there is more than one.
pub(super) fn told(standing: &[&HandIn]) -> Option<String> {
    let days: Vec<String> = standing.iter().filter_map(|own| day(own)).collect();
    let one_day = (1..).zip(&days).any(|(next, day): (usize, _)| {
        let mut later = days.iter().skip(next);
        later.any(|other| other == day)
    });
    let mut names = standing.iter().map(|own| name(own, one_day));
    let first = names.next()?;
    let others: Vec<String> = names.collect();
    let (times, last, before) = match others.as_slice() {
        [] => return None,
        [one] => ("twice".to_owned(), one, String::new()),
        [before @ .., last] => (
            format!("{} times", standing.len()),
            last,
            format!("{} and ", before.join(", ")),
        ),
    };
    let verb = if before.is_empty() { "does" } else { "do" };
    Some(format!(
        "handed in {times}: {first} counts; {before}{last} {verb} not"
    ))
}

fn day(own: &HandIn) -> Option<String> {
    own.at.map(|at| day_of(at, own.zone))
}

/// How a hand-in is called: a file by its day, and by the time where two are of one day.
fn name(own: &HandIn, with_time: bool) -> String {
    match (own.way, own.at) {
        (Way::Typed, _) => "typed in".to_owned(),
        (Way::Pen, _) => "marked with the pen".to_owned(),
        (Way::Screen, None) => "the answers file".to_owned(),
        (Way::Screen, Some(at)) => {
            let day = day_of(at, own.zone);
            let time = if with_time {
                format!(", {}", time_of(at, own.zone))
            } else {
                String::new()
            };
            format!("the answers file of {day}{time}")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn came(way: Way, at: Option<i64>) -> HandIn {
        HandIn {
            paper: "019".into(),
            way,
            at,
            zone: 60,
            items: Vec::new(),
        }
    }

    #[test]
    fn what_counts_and_what_does_not_is_named() {
        let at = 1_795_478_400_000;
        let (typed, pen) = (came(Way::Typed, None), came(Way::Pen, None));
        let (file, later) = (
            came(Way::Screen, Some(at)),
            came(Way::Screen, Some(at + 7_000)),
        );
        let mended = HandIn {
            items: vec![vec!["1".into()]],
            ..typed.clone()
        };
        assert_eq!(told(&standing(&[&typed, &mended])), None);
        assert_eq!(standing(&[&typed, &file, &mended]), [&mended, &file]);
        for (all, said) in [
            (
                vec![&typed, &file, &mended],
                "handed in twice: typed in counts; the answers file of 2026-11-24 does not",
            ),
            (
                vec![&file, &typed],
                "handed in twice: the answers file of 2026-11-24 counts; typed in does not",
            ),
            (
                vec![&later, &file],
                "handed in twice: the answers file of 2026-11-24, 01:00:07 counts; the answers file of 2026-11-24, 01:00:00 does not",
            ),
            (
                vec![&pen, &typed, &file],
                "handed in 3 times: marked with the pen counts; typed in and the answers file of 2026-11-24 do not",
            ),
        ] {
            assert_eq!(told(&standing(&all)).as_deref(), Some(said));
        }
    }
}
