//! Reading what is written where nothing is worked out: an offer, the places of jobs, the
//! meanings of parts. A sheet, an exam and a class's paper read it here alike.

use crate::quantities::echo;

/// The most jobs whose places can be written without blanks between: `42758136`.
const RUN_ON: usize = 9;

/// Reads an offer, by its letter or by its words; `offers` are letters and texts.
///
/// # Errors
/// What can be written.
pub fn read_pick(typed: &str, offers: &[(&str, &str)]) -> Result<usize, String> {
    let letter = typed.trim().trim_end_matches([')', '.']).to_lowercase();
    let by_letter = offers.iter().position(|(mark, _)| *mark == letter);
    if let Some(found) = by_letter.or_else(|| by_words(typed, offers)) {
        return Ok(found);
    }
    let last = offers.last().map_or("a", |(mark, _)| mark);
    Err(format!(
        "cannot read {} as an offer: write one letter, a to {last}, or the words of one",
        echo(typed)
    ))
}

/// The only offer with these words, all of them or those before its first comma or colon.
fn by_words(typed: &str, offers: &[(&str, &str)]) -> Option<usize> {
    let wanted = words(typed);
    if wanted.is_empty() {
        return None;
    }
    let only = |fits: &dyn Fn(&str) -> bool| {
        let mut found = (0..).zip(offers).filter(|(_, (_, text))| fits(text));
        match (found.next(), found.next()) {
            (Some((at, _)), None) => Ok(Some(at)),
            (Some(_), Some(_)) => Err(()),
            _ => Ok(None),
        }
    };
    let whole = only(&|text| words(text) == wanted);
    let begun = |text: &str| {
        let first = text.split([',', ':', ';']).next();
        first.is_some_and(|first| words(first) == wanted)
    };
    whole
        .and_then(|found| found.map_or_else(|| only(&begun), |at| Ok(Some(at))))
        .ok()
        .flatten()
}

/// Words in small letters with one blank between, without the stop at their end.
fn words(text: &str) -> String {
    let text = text.trim().trim_end_matches('.').to_lowercase();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The marks of an arrangement, parted by blanks or commas.
fn marks(typed: &str) -> Vec<&str> {
    typed
        .split([' ', ',', '\t', ';'])
        .filter(|mark| !mark.is_empty())
        .collect()
}

/// The marks of something written without blanks, sign by sign.
fn signs(typed: &str) -> Vec<&str> {
    let signs = typed.char_indices();
    signs
        .filter_map(|(at, sign)| typed.get(at..at + sign.len_utf8()))
        .collect()
}

fn left_out(mark: &str) -> bool {
    matches!(mark, "-" | "_" | "–" | "−")
}

/// Reads an order: for each job shown its number, none for one left out.
///
/// # Errors
/// What can be written.
pub fn read_order(typed: &str, count: usize) -> Result<Vec<Option<usize>>, String> {
    let mut marks = marks(typed);
    if let ([run_on], 2..=RUN_ON) = (marks.as_slice(), count) {
        let alone = |sign: char| sign.is_ascii_digit() || left_out(sign.encode_utf8(&mut [0; 4]));
        if run_on.chars().all(alone) {
            marks = signs(run_on);
        }
    }
    if marks.len() != count {
        return Err(format!(
            "cannot read this as an order: write {count} numbers from top to bottom, - for a job that does not belong; there are {}",
            marks.len()
        ));
    }
    let mut numbers: Vec<Option<usize>> = Vec::new();
    for mark in marks {
        if left_out(mark) {
            numbers.push(None);
            continue;
        }
        let number = mark
            .parse::<usize>()
            .ok()
            .filter(|number| (1..=count).contains(number));
        let Some(number) = number else {
            return Err(format!(
                "cannot read {} as a place: write 1 to {count}, or - for a job that does not belong",
                echo(mark)
            ));
        };
        if numbers.contains(&Some(number)) {
            return Err(format!(
                "{number} is written twice: give each job its own number"
            ));
        }
        numbers.push(Some(number));
    }
    Ok(numbers)
}

/// The jobs of an order by their places: those that are done, first to last, then those
/// that are left out.
pub fn in_order(numbers: &[Option<usize>]) -> (Vec<usize>, Vec<usize>) {
    let (mut done, mut out) = (Vec::new(), Vec::new());
    for (at, number) in numbers.iter().enumerate() {
        match number {
            Some(number) => done.push((*number, at)),
            None => out.push(at),
        }
    }
    done.sort_unstable();
    (done.into_iter().map(|(_, at)| at).collect(), out)
}

/// Reads a match: for each part the place of its meaning, none for one left open; `known`
/// are the letters of the meanings.
///
/// # Errors
/// What can be written.
pub fn read_match(typed: &str, count: usize, known: &[&str]) -> Result<Vec<Option<usize>>, String> {
    let marks = match marks(typed).as_slice() {
        [run_on] if count > 1 => signs(run_on),
        several => several.to_vec(),
    };
    if marks.len() != count {
        return Err(format!(
            "cannot read this as a match: write {count} letters from top to bottom, - for one left open; there are {}",
            marks.len()
        ));
    }
    let mut places = Vec::new();
    for mark in marks {
        if left_out(mark) {
            places.push(None);
            continue;
        }
        let found = known
            .iter()
            .position(|letter| *letter == mark.to_lowercase());
        let Some(place) = found else {
            let last = known.last().copied().unwrap_or("a");
            return Err(format!(
                "cannot read {} as a letter: write a to {last}",
                echo(mark)
            ));
        };
        places.push(Some(place));
    }
    Ok(places)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_order_is_one_number_for_each_job() {
        let order = Ok(vec![Some(2), None, Some(1)]);
        assert_eq!(read_order("2 - 1", 3), order);
        assert_eq!(read_order("2-1", 3), order);
        assert_eq!(
            read_order("42758136", 8).map(|numbers| in_order(&numbers).0),
            Ok(vec![5, 1, 6, 0, 3, 7, 2, 4])
        );
        for (typed, phrase) in [
            ("1 2", "write 3 numbers"),
            ("1 1 2", "1 is written twice"),
            ("112", "1 is written twice"),
            ("1234", "there are 4"),
            ("1 2 9", "write 1 to 3"),
            ("1 2 x", "cannot read"),
        ] {
            let refused = read_order(typed, 3).unwrap_err();
            assert!(refused.contains(phrase), "{typed}: {refused}");
        }
        // From ten jobs on 11 may be one number.
        assert!(read_order("1234567891", 10).is_err());
        assert_eq!(
            in_order(&[Some(3), None, Some(1)]),
            (vec![2, 0], vec![1]),
            "a gap in the numbers is no fault"
        );
    }

    #[test]
    fn a_match_is_one_letter_for_each_part() {
        let known = ["a", "b", "c"];
        assert_eq!(read_match("B -", 2, &known), Ok(vec![Some(1), None]));
        assert_eq!(read_match("ca", 2, &known), Ok(vec![Some(2), Some(0)]));
        assert!(
            read_match("a d", 2, &known)
                .unwrap_err()
                .contains("write a to c")
        );
    }

    #[test]
    fn an_offer_is_known_by_its_letter_or_its_words() {
        let offers = [
            ("a", "Yes, it may run"),
            ("b", "No, the wire is too thin."),
            ("c", "No, the fuse is too large"),
            ("d", "yes"),
        ];
        for (typed, place) in [
            ("B", Some(1)),
            ("b)", Some(1)),
            ("yes", Some(3)),
            ("YES.", Some(3)),
            ("yes, it  may run.", Some(0)),
            ("No, the wire is too thin", Some(1)),
            ("no", None),
            ("maybe", None),
            ("", None),
        ] {
            assert_eq!(read_pick(typed, &offers).ok(), place, "{typed}");
        }
        assert_eq!(read_pick("no", &offers[..2]), Ok(1));
        assert_eq!(
            read_pick("80", &offers).unwrap_err(),
            "cannot read 80 as an offer: write one letter, a to d, or the words of one"
        );
    }
}
