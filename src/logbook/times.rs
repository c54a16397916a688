//! Times as people and files read them.

use jiff::Timestamp;
use jiff::tz::Offset;

/// A moment in world time, to the millisecond; beyond the years -9999 to 9999 the bare
/// number of milliseconds since 1970.
pub fn world(at: i64) -> String {
    Timestamp::from_millisecond(at).map_or_else(|_| at.to_string(), |time| time.to_string())
}

/// Reads what [`world`] wrote, or any time that says how it lies to world time.
pub fn read(text: &str) -> Option<i64> {
    let text = text.trim();
    match text.parse::<i64>() {
        Ok(at) => Some(at),
        Err(_) => Some(text.parse::<Timestamp>().ok()?.as_millisecond()),
    }
}

/// Day and minute on the clock of the person's wall.
pub fn wall(at: i64, zone: i32) -> String {
    let shown = || {
        let offset = Offset::from_seconds(zone.checked_mul(60)?).ok()?;
        let time = offset.to_datetime(Timestamp::from_millisecond(at).ok()?);
        Some(time.strftime("%Y-%m-%d %H:%M").to_string())
    };
    shown().unwrap_or_else(|| world(at))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_time_is_told_by_the_world_and_by_the_wall() {
        let at = 1_790_000_000_123;
        assert_eq!(world(at), "2026-09-21T14:13:20.123Z");
        assert_eq!(wall(at, -300), "2026-09-21 09:13");
        assert_eq!(read("2026-09-21T09:13:20.123-05:00"), Some(at));
        assert_eq!(read("yesterday"), None);
        assert_eq!(wall(i64::MAX, 0), i64::MAX.to_string());
    }

    proptest! {
        #[test]
        fn every_time_comes_back(at: i64, zone: i32) {
            prop_assert_eq!(read(&world(at)), Some(at));
            prop_assert!(!wall(at, zone).is_empty());
        }
    }
}
