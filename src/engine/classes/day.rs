//! Days of the calendar out of a clock's milliseconds.

/// The day, as `2026-11-23`, of a moment where the clock was so many minutes ahead of
/// UTC. The rule for the Gregorian calendar counted in whole eras of 400 years: common
/// practice, no source.
pub fn day_of(milliseconds: i64, zone: i32) -> String {
    let seconds = milliseconds
        .div_euclid(1000)
        .saturating_add(i64::from(zone) * 60);
    let days = seconds.div_euclid(86_400) + 719_468;
    let (era, day) = (days.div_euclid(146_097), days.rem_euclid(146_097));
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
}
