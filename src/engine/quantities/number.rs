//! The number at the beginning of what somebody typed: decimal with its groups,
//! power of ten, fraction, mixed number. Units are not known here.

use super::read::{CannotRead, DecimalSign, Form};

/// A character and its place in what was typed, counted from one.
pub(super) type Glyph = (char, usize);

/// Stands for the narrow blanks that group digits.
pub(super) const GROUP: char = '\u{202f}';

/// A number that was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Figure {
    /// Its value.
    pub value: f64,
    /// One in the last place typed; zero for a fraction.
    pub step: f64,
    /// How it was written.
    pub form: Form,
    /// Whether it is nothing but digits.
    pub whole: bool,
    /// Where the rest begins.
    pub end: usize,
}

/// The number without sign that begins at `start`; nothing where none does.
pub(super) fn scan(
    glyphs: &[Glyph],
    start: usize,
    sign: DecimalSign,
) -> Result<Option<Figure>, CannotRead> {
    let end = run_end(glyphs, start);
    let run = glyphs.get(start..end).unwrap_or_default();
    if !run.iter().any(|(c, _)| c.is_ascii_digit()) {
        return Ok(None);
    }
    let whole = run.iter().all(|(c, _)| c.is_ascii_digit());
    if whole && let Some(figure) = fraction(glyphs, start, end)? {
        return Ok(Some(figure));
    }
    let digits = decimal(run, sign)?;
    let place = run.first().map_or(1, |(_, place)| *place);
    let (power, end) = exponent(glyphs, end);
    let decimals = digits
        .split_once('.')
        .map_or(0, |(_, decimals)| decimals.len());
    let value = parsed(&format!("{digits}{power}"));
    let step = parsed(&format!("1e-{decimals}")) * parsed(&format!("1{power}"));
    if !value.is_finite() || !step.is_finite() {
        return Err(CannotRead::at(
            "the number is too large",
            place,
            "write a smaller one",
        ));
    }
    if value == 0.0 && digits.contains(|c: char| ('1'..='9').contains(&c)) {
        return Err(CannotRead::at(
            "the number is too near zero",
            place,
            "write a larger one",
        ));
    }
    let form = if power.is_empty() {
        Form::Decimal
    } else {
        Form::Scientific
    };
    let whole = whole && power.is_empty();
    Ok(Some(Figure {
        value,
        step,
        form,
        whole,
        end,
    }))
}

/// Rust reads every text made of digits, one point and a power; it says infinity
/// where the value is out of range.
fn parsed(text: &str) -> f64 {
    text.parse().unwrap_or(f64::INFINITY)
}

fn is_digit(glyphs: &[Glyph], at: usize) -> bool {
    glyphs.get(at).is_some_and(|(c, _)| c.is_ascii_digit())
}

fn is(glyphs: &[Glyph], at: usize, wanted: char) -> bool {
    glyphs.get(at).is_some_and(|(c, _)| *c == wanted)
}

fn digits_end(glyphs: &[Glyph], start: usize) -> usize {
    let mut at = start;
    while is_digit(glyphs, at) {
        at += 1;
    }
    at
}

/// Digits with the signs that may stand between them. A narrow blank belongs to
/// the number only where exactly three digits follow.
fn run_end(glyphs: &[Glyph], start: usize) -> usize {
    let mut at = start;
    loop {
        match glyphs.get(at) {
            Some(('0'..='9' | '.' | ',', _)) => at += 1,
            Some((GROUP, _)) if at > start && digits_end(glyphs, at + 1) == at + 4 => at += 1,
            _ => return at,
        }
    }
}

/// A run as Rust writes it: digits, at most one point.
fn decimal(run: &[Glyph], sign: DecimalSign) -> Result<String, CannotRead> {
    let (mark, grouping) = match sign {
        DecimalSign::Point => ('.', ','),
        DecimalSign::Comma => (',', '.'),
    };
    let cut = run
        .iter()
        .position(|(c, _)| *c == mark)
        .unwrap_or(run.len());
    let (front, back) = run.split_at(cut);
    let back = back.get(1..).unwrap_or_default();
    if let Some((c, place)) = back.iter().find(|(c, _)| !c.is_ascii_digit()) {
        return Err(if *c == mark {
            CannotRead::at("a second decimal sign", *place, "write one number with one")
        } else {
            CannotRead::at(
                "a group sign after the decimal sign",
                *place,
                "leave it out",
            )
        });
    }
    check_groups(front, grouping, sign)?;
    let digits = |part: &[Glyph]| -> String {
        part.iter()
            .map(|(c, _)| *c)
            .filter(char::is_ascii_digit)
            .collect()
    };
    let (front, back) = (digits(front), digits(back));
    let front = if front.is_empty() { "0" } else { &front };
    Ok(if back.is_empty() {
        front.to_owned()
    } else {
        format!("{front}.{back}")
    })
}

/// One kind of group sign, one to three digits first and none of them a leading
/// zero, then threes.
fn check_groups(front: &[Glyph], grouping: char, sign: DecimalSign) -> Result<(), CannotRead> {
    let Some((first, place)) = front.iter().find(|(c, _)| !c.is_ascii_digit()).copied() else {
        return Ok(());
    };
    let mut groups = front.split(|(c, _)| !c.is_ascii_digit());
    let head = groups.next().unwrap_or_default();
    let one_kind = front.iter().all(|(c, _)| c.is_ascii_digit() || *c == first);
    let good_head = (1..=3).contains(&head.len()) && !is(head, 0, '0');
    if one_kind && good_head && groups.all(|group| group.len() == 3) {
        return Ok(());
    }
    let what = match (first == grouping, grouping) {
        (true, ',') => "the comma does not part groups of three digits",
        (true, _) => "the point does not part groups of three digits",
        _ => "the blank does not part groups of three digits",
    };
    let remedy = match sign {
        DecimalSign::Point => {
            "write the decimals after a point, or set the decimal sign to a comma"
        }
        DecimalSign::Comma => {
            "write the decimals after a comma, or set the decimal sign to a point"
        }
    };
    Err(CannotRead::at(what, place, remedy))
}

/// A power of ten, as Rust writes it, and where it ends.
fn exponent(glyphs: &[Glyph], start: usize) -> (String, usize) {
    if !is(glyphs, start, 'e') && !is(glyphs, start, 'E') {
        return (String::new(), start);
    }
    let minus = is(glyphs, start + 1, '-');
    let first = if minus || is(glyphs, start + 1, '+') {
        start + 2
    } else {
        start + 1
    };
    let end = digits_end(glyphs, first);
    if end == first {
        return (String::new(), start);
    }
    let digits: String = glyphs
        .get(first..end)
        .unwrap_or_default()
        .iter()
        .map(|(c, _)| *c)
        .collect();
    (format!("e{}{digits}", if minus { "-" } else { "" }), end)
}

/// A fraction or mixed number whose first digits stand from `start` to `end`.
fn fraction(glyphs: &[Glyph], start: usize, end: usize) -> Result<Option<Figure>, CannotRead> {
    if is(glyphs, end, '/') && is_digit(glyphs, end + 1) {
        return quotient(glyphs, start).map(Some);
    }
    let mut top = end;
    while is(glyphs, top, ' ') || is(glyphs, top, GROUP) {
        top += 1;
    }
    if top == end && is(glyphs, end, '-') {
        top += 1;
    }
    let line = digits_end(glyphs, top);
    if top == end || line == top || !is(glyphs, line, '/') || !is_digit(glyphs, line + 1) {
        return Ok(None);
    }
    let part = quotient(glyphs, top)?;
    if part.value >= 1.0 {
        let place = glyphs.get(top).map_or(1, |(_, place)| *place);
        return Err(CannotRead::at(
            "the fraction is not below one",
            place,
            "write it as a whole number and the rest",
        ));
    }
    let value = digits_value(glyphs, start, end) + part.value;
    Ok(Some(Figure {
        value,
        form: Form::Mixed,
        ..part
    }))
}

fn digits_value(glyphs: &[Glyph], start: usize, end: usize) -> f64 {
    let digits: String = glyphs
        .get(start..end)
        .unwrap_or_default()
        .iter()
        .map(|(c, _)| *c)
        .collect();
    parsed(&digits)
}

/// Digits, a line, digits.
fn quotient(glyphs: &[Glyph], start: usize) -> Result<Figure, CannotRead> {
    let line = digits_end(glyphs, start);
    let end = digits_end(glyphs, line + 1);
    let place = glyphs.get(line + 1).map_or(1, |(_, place)| *place);
    let below = digits_value(glyphs, line + 1, end);
    if below == 0.0 {
        return Err(CannotRead::at(
            "nothing can be divided by zero",
            place,
            "write another fraction",
        ));
    }
    let value = digits_value(glyphs, start, line) / below;
    if !value.is_finite() {
        return Err(CannotRead::at(
            "the number is too large",
            place,
            "write a smaller one",
        ));
    }
    Ok(Figure {
        value,
        step: 0.0,
        form: Form::Fraction,
        whole: false,
        end,
    })
}
