//! Numbers and days in words, and texts from outside made fit for a page.

use jiff::Span;
use jiff::civil::Date;

/// A day with its year: `25 Nov 2026`. Days count from 1 January 1970; one that no
/// calendar reaches is told by its number.
pub fn day(day: i32) -> String {
    date(day).map_or_else(
        || format!("day {day}"),
        |date| date.strftime("%-d %b %Y").to_string(),
    )
}

/// A day without its year, for the foot of a plot.
pub fn short_day(day: i32) -> String {
    date(day).map_or_else(String::new, |date| date.strftime("%-d %b").to_string())
}

/// The day of a calendar, where one reaches it.
pub fn date(day: i32) -> Option<Date> {
    let first = Date::new(1970, 1, 1).ok()?;
    first.checked_add(Span::new().try_days(day).ok()?).ok()
}

/// A share in whole per cent.
pub fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// An interval of a share.
pub fn between((low, high): (f64, f64)) -> String {
    format!("{:.0} to {:.0} %", 100.0 * low, 100.0 * high)
}

/// So many of a thing.
pub fn count(number: usize, one: &str, several: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { several })
}

/// Seconds as people tell them.
pub fn time(seconds: u64) -> String {
    let minutes = seconds.saturating_add(30) / 60;
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

/// A text that somebody typed: signs that no page can hold become blanks.
pub fn typed(text: &str) -> String {
    let odd = |sign: char| sign.is_control() || matches!(sign, '\u{fffe}' | '\u{ffff}');
    text.chars()
        .map(|sign| if odd(sign) { ' ' } else { sign })
        .collect()
}

/// A text as a sentence: a capital to begin with and a stop at its end.
pub fn sentence(text: &str) -> String {
    let text = text.trim();
    let mut signs = text.chars();
    let Some(first) = signs.next() else {
        return String::new();
    };
    let stop = if text.ends_with(['.', '!', '?']) {
        ""
    } else {
        "."
    };
    format!("{}{}{stop}", first.to_uppercase(), signs.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_times_and_texts() {
        assert_eq!(day(20_782), "25 Nov 2026");
        assert_eq!(day(i32::MAX), "day 2147483647");
        assert_eq!(short_day(20_782), "25 Nov");
        assert_eq!(time(29), "0 min");
        assert_eq!(time(3_630), "1 h 1 min");
        assert_eq!(time(7_200), "2 h");
        let _ = time(u64::MAX);
        assert_eq!(typed("a\u{0}b\n<"), "a b <");
        assert_eq!(sentence("read off it"), "Read off it.");
        assert_eq!(sentence(" "), "");
    }
}
