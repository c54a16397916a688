//! Days as people write them: `Wed 25 Nov`. A date carries its weekday. What is typed
//! is year, month, day, as ISO 8601 writes it.

use jiff::Span;
pub use jiff::civil::Date;

use crate::clerk::Now;

/// The day on the person's calendar, counted from 1 January 1970.
pub fn day(now: Now) -> i32 {
    let local = now.milliseconds.div_euclid(1000) + i64::from(now.zone) * 60;
    i32::try_from(local.div_euclid(86_400)).unwrap_or(i32::MAX)
}

/// A day with its weekday; empty where no calendar goes so far.
pub fn with_weekday(day: i32) -> String {
    date(day).map_or_else(String::new, |date| date.strftime("%a %-d %b").to_string())
}

/// A day without its weekday.
pub fn short(day: i32) -> String {
    date(day).map_or_else(String::new, |date| date.strftime("%-d %b").to_string())
}

/// A day as it is typed: `2026-12-12`.
pub fn read(text: &str) -> Option<Date> {
    let mut parts = text.trim().splitn(3, '-');
    let year = parts.next().filter(|year| year.len() == 4)?.parse().ok()?;
    let month = parts.next()?.parse().ok()?;
    let day = parts.next()?.parse().ok()?;
    Date::new(year, month, day).ok()
}

/// The day of a date, counted from 1 January 1970.
pub fn count(date: Date) -> i32 {
    let first = Date::constant(1970, 1, 1);
    first.until(date).map_or(0, |span| span.get_days())
}

fn date(day: i32) -> Option<Date> {
    let first = Date::new(1970, 1, 1).ok()?;
    let span = Span::new().try_days(day).ok()?;
    first.checked_add(span).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_carries_its_weekday() {
        // 25 November 2026 is a Wednesday: 20,782 days after 1 January 1970.
        assert_eq!(with_weekday(20_782), "Wed 25 Nov");
        assert_eq!(short(20_782 + 17), "12 Dec");
        assert_eq!(with_weekday(i32::MAX), "");
        let typed = read(" 2026-12-12").unwrap();
        assert_eq!(count(typed), 20_782 + 17);
        assert_eq!(typed.to_string(), "2026-12-12");
        for wrong in [
            "",
            "12 Dec",
            "2026-02-30",
            "26-12-12",
            "2026-12",
            "2026-12-12-1",
        ] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
        let late = Now {
            milliseconds: 20_782 * 86_400_000 + 23 * 3_600_000,
            zone: 120,
        };
        assert_eq!(day(late), 20_783);
    }
}
