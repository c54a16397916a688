//! Days of the calendar, counted from 1 January 1970 and written as `2026-11-23`.
//!
//! The rule for the Gregorian calendar counted in whole eras of 400 years: common practice,
//! no source.

use crate::entries::moment;

/// The days from 1 March of the year 0 to 1 January 1970.
const BEFORE: i64 = 719_468;
/// The days of 400 years.
const ERA: i64 = 146_097;
/// The milliseconds of a day.
const DAY: i64 = 86_400_000;

/// The day of a clock's milliseconds, where the clock was so many minutes ahead of UTC.
pub fn day_of(milliseconds: i64, zone: i32) -> String {
    let days = i64::from(moment(milliseconds, zone).day) + BEFORE;
    let (era, day) = (days.div_euclid(ERA), days.rem_euclid(ERA));
    let year = (day - day / 1460 + day / 36_524 - day / 146_096) / 365;
    let of_year = day - (365 * year + year / 4 - year / 100);
    let shifted = (5 * of_year + 2) / 153;
    let date = of_year - (153 * shifted + 2) / 5 + 1;
    let month = if shifted < 10 {
        shifted + 3
    } else {
        shifted - 9
    };
    let year = year + era * 400 + i64::from(month <= 2);
    format!("{year:04}-{month:02}-{date:02}")
}

/// The time of that clock on its day, as `09:15:07`.
pub fn time_of(milliseconds: i64, zone: i32) -> String {
    let seconds = milliseconds.div_euclid(1000) + i64::from(zone) * 60;
    let of_day = seconds.rem_euclid(86_400);
    let (hours, minutes) = (of_day / 3600, of_day / 60 % 60);
    format!("{hours:02}:{minutes:02}:{:02}", of_day % 60)
}

/// A day that is written so, counted from 1 January 1970; none where it is no day.
pub fn number_of(day: &str) -> Option<i32> {
    let mut parts = day.splitn(3, '-').map(str::parse::<i64>);
    let (year, month, date) = (
        parts.next()?.ok()?,
        parts.next()?.ok()?,
        parts.next()?.ok()?,
    );
    if !(1..=12).contains(&month) || !(1..=31).contains(&date) || !(0..=9999).contains(&year) {
        return None;
    }
    let written = format!("{year:04}-{month:02}-{date:02}");
    // The year begins in March, so that the day of a leap year comes last.
    let year = year - i64::from(month <= 2);
    let shifted = (month + 9) % 12;
    let (era, of_era) = (year.div_euclid(400), year.rem_euclid(400));
    let of_year = (153 * shifted + 2) / 5 + date - 1;
    let days = era * ERA + of_era * 365 + of_era / 4 - of_era / 100 + of_year - BEFORE;
    // 30 February would be counted as 2 March.
    let is_there = day_of(days * DAY, 0) == written;
    i32::try_from(days).ok().filter(|_| is_there)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked a second way with Python's datetime.
    #[test]
    fn days_are_those_of_the_calendar_there() {
        for (at, zone, day) in [
            (0, 0, "1970-01-01"),
            (-1, 0, "1969-12-31"),
            (951_782_400_000, 0, "2000-02-29"),
            (1_795_478_399_000, 0, "2026-11-23"),
            (1_795_478_399_000, 60, "2026-11-24"),
            (1_795_478_400_000, -300, "2026-11-23"),
        ] {
            assert_eq!(day_of(at, zone), day, "{at}");
        }
    }

    #[test]
    fn a_written_day_is_counted_and_comes_back() {
        for days in (-800_i32..80_000).step_by(7) {
            let written = day_of(i64::from(days) * 86_400_000, 0);
            assert_eq!(number_of(&written), Some(days), "{written}");
        }
        for odd in [
            "",
            "2026",
            "2026-13-01",
            "2026-00-01",
            "2026-1-99",
            "a-b-c",
            "2026-02-30",
            "2026-02-29",
            "2026-04-31",
            "2100-02-29",
        ] {
            assert_eq!(number_of(odd), None, "{odd}");
        }
    }
}
