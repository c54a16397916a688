//! Which of a formula's words was meant: people write "230V", "1.5 hp" or "well" for "230 V",
//! "1-1/2 hp" and "in the well with its cable". Where more than one fits, none is taken.

use pumpwright_engine::formulas::same;
use pumpwright_engine::quantities::{DecimalSign, read, read_for};

/// The word that a typed text names, where it names one and no other.
pub(super) fn meant(
    typed: &str,
    words: &[&'static str],
    decimal: DecimalSign,
) -> Option<&'static str> {
    only(words, |word| word.eq_ignore_ascii_case(typed.trim()))
        .or_else(|| only(words, |word| plain(word) == plain(typed)))
        .or_else(|| only(words, |word| is_the_figure(typed, word, decimal)))
        .or_else(|| only(words, |word| is_part(typed, word)))
}

fn only(words: &[&'static str], fits: impl Fn(&str) -> bool) -> Option<&'static str> {
    let mut found = words.iter().copied().filter(|word| fits(word));
    let first = found.next();
    first.filter(|_| found.next().is_none())
}

/// Without blanks, in small letters.
fn plain(text: &str) -> String {
    let letters = text.chars().filter(|c| !c.is_whitespace());
    letters.flat_map(char::to_lowercase).collect()
}

/// Whether both are figures of one size: "1.5 hp" is "1-1/2 hp", and so is "1.5".
fn is_the_figure(typed: &str, word: &str, decimal: DecimalSign) -> bool {
    let Ok(own) = read(word, DecimalSign::Point) else {
        return false;
    };
    let Some(unit) = &own.unit else {
        return false;
    };
    read_for(typed, decimal, unit).is_ok_and(|reading| {
        let (typed, own) = (reading.quantity(unit), own.quantity(unit));
        typed.dimension == own.dimension && same(typed.si, own.si)
    })
}

/// Whether every typed word is one of the word's own: "well" of "in the well with its cable".
fn is_part(typed: &str, word: &str) -> bool {
    let own: Vec<String> = word.split_whitespace().map(plain).collect();
    let mut parts = typed.split_whitespace().map(plain).peekable();
    parts.peek().is_some() && parts.all(|part| own.contains(&part))
}

#[cfg(test)]
mod tests {
    use super::*;

    const POWERS: &[&str] = &["1/3 hp", "1/2 hp", "1 hp", "1-1/2 hp"];
    const PLACES: &[&str] = &["on the bench", "in the well with its cable"];
    const COLUMNS: &[&str] = &["60 degC", "75 degC"];
    const SOILS: &[&str] = &["type A", "type B", "type C"];

    #[test]
    fn what_people_write_is_understood() {
        for (typed, words, meaning) in [
            ("1-1/2 hp", POWERS, "1-1/2 hp"),
            ("1.5 HP", POWERS, "1-1/2 hp"),
            ("1.5", POWERS, "1-1/2 hp"),
            ("0.5hp", POWERS, "1/2 hp"),
            ("1/2", POWERS, "1/2 hp"),
            ("well", PLACES, "in the well with its cable"),
            ("On The Bench", PLACES, "on the bench"),
            ("60", COLUMNS, "60 degC"),
            ("75degc", COLUMNS, "75 degC"),
            ("c", SOILS, "type C"),
        ] {
            assert_eq!(
                meant(typed, words, DecimalSign::Point),
                Some(meaning),
                "{typed}"
            );
        }
    }

    #[test]
    fn what_fits_none_or_several_is_not_guessed() {
        for (typed, words) in [
            ("hp", POWERS),
            ("2 hp", POWERS),
            ("1/2 psi", POWERS),
            ("the", PLACES),
            ("", SOILS),
            (" ", SOILS),
            ("type", SOILS),
            ("70", COLUMNS),
        ] {
            assert_eq!(meant(typed, words, DecimalSign::Point), None, "{typed}");
        }
    }
}
