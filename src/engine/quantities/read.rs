//! Reading what people type as a quantity: a number, with or without its unit.
//! Nothing is guessed: what could mean two things is refused with a remedy.

use std::fmt;

use super::echo;
use super::number::{Figure, GROUP, Glyph, scan};
use super::quantity::Quantity;
use super::unit::{Unit, UnknownUnit};
use pumpwright_calc::dimension::Dimension;

/// Characters that are read at most.
pub const LONGEST: usize = 200;

/// Which sign parts the decimals. It is set, never guessed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum DecimalSign {
    /// `1,250.5`
    #[default]
    Point,
    /// `1.250,5`
    Comma,
}

/// How a number was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Form {
    /// `2.5`
    Decimal,
    /// `3/4`
    Fraction,
    /// `1 1/4`
    Mixed,
    /// `6' 4"`
    FeetInches,
    /// `1.2e3`
    Scientific,
}

/// What was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The number, in the unit written.
    pub number: f64,
    /// The unit, where one was written.
    pub unit: Option<Unit>,
    /// One in the last place typed; zero where a fraction makes it exact.
    pub step: f64,
    /// How it was written.
    pub form: Form,
}

impl Reading {
    /// The quantity, a bare number being in the unit asked.
    pub fn quantity(&self, asked: &Unit) -> Quantity {
        let unit = self.unit.as_ref().unwrap_or(asked);
        Quantity::new(unit.to_si(self.number), unit.dimension())
    }
}

/// Why a text is not read: what, where, what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CannotRead {
    /// What stands in the way; empty where there was nothing to read.
    pub what: String,
    /// The character at which it stands, counted from one.
    pub place: Option<usize>,
    /// What to do.
    pub remedy: String,
}

const REMEDY: &str = "write a number, with or without its unit";

impl CannotRead {
    fn plain(what: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            place: None,
            remedy: REMEDY.to_owned(),
        }
    }

    pub(super) fn at(what: impl Into<String>, place: usize, remedy: &str) -> Self {
        Self {
            what: what.into(),
            place: Some(place),
            remedy: remedy.to_owned(),
        }
    }
}

impl fmt::Display for CannotRead {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("cannot read this as a quantity: ")?;
        if !self.what.is_empty() {
            f.write_str(&self.what)?;
            if let Some(place) = self.place {
                write!(f, " (character {place})")?;
            }
            f.write_str("; ")?;
        }
        f.write_str(&self.remedy)
    }
}

impl std::error::Error for CannotRead {}

/// Reads a quantity.
///
/// # Errors
/// [`CannotRead`] says what stands in the way, where, and what to write.
pub fn read(text: &str, decimal: DecimalSign) -> Result<Reading, CannotRead> {
    read_with(text, decimal, None)
}

/// Reads a quantity where a unit is asked for. The unit asked settles what the
/// trade says in one word for two things: pounds are a pressure where a pressure
/// is asked, F and C are degrees where a temperature is. Nothing else changes.
///
/// # Errors
/// As [`read`].
pub fn read_for(text: &str, decimal: DecimalSign, asked: &Unit) -> Result<Reading, CannotRead> {
    read_with(text, decimal, Some(asked))
}

fn read_with(
    text: &str,
    decimal: DecimalSign,
    asked: Option<&Unit>,
) -> Result<Reading, CannotRead> {
    if text.chars().nth(LONGEST).is_some() {
        return Err(CannotRead::plain(format!(
            "the text is longer than {LONGEST} characters"
        )));
    }
    let glyphs = glyphs(text)?;
    let (negative, start) = sign(&glyphs);
    let Some(figure) = scan(&glyphs, start, decimal)? else {
        return Err(no_number(&glyphs));
    };
    let reading = match feet_and_inches(&glyphs, figure, decimal)? {
        Some(reading) => reading,
        None => Reading {
            number: figure.value,
            unit: unit(&glyphs, figure.end, asked)?,
            step: figure.step,
            form: figure.form,
        },
    };
    let number = if negative && reading.number != 0.0 {
        -reading.number
    } else {
        reading.number
    };
    let si = reading
        .unit
        .as_ref()
        .map_or(number, |unit| unit.to_si(number));
    if !si.is_finite() {
        let place = glyphs.get(start).map_or(1, |(_, place)| *place);
        return Err(CannotRead::at(
            "the number is too large",
            place,
            "write a smaller one",
        ));
    }
    Ok(Reading { number, ..reading })
}

fn no_number(glyphs: &[Glyph]) -> CannotRead {
    let start: String = glyphs
        .iter()
        .map(|(c, _)| *c)
        .take_while(|c| *c != ' ')
        .collect();
    match glyphs.first() {
        None => CannotRead::plain(""),
        Some((_, place)) => CannotRead::at(
            format!("\"{}\" is no number", echo::echo(&start)),
            *place,
            "write the number first, then its unit",
        ),
    }
}

/// The characters with their places: foreign forms of a sign as the plain one,
/// blanks at both ends gone, nothing that cannot be seen.
fn glyphs(text: &str) -> Result<Vec<Glyph>, CannotRead> {
    let mut glyphs = Vec::new();
    let trimmed = text.trim();
    let before = text.len() - text.trim_start().len();
    let skipped = text
        .get(..before)
        .map_or(0, |blanks| blanks.chars().count());
    for (index, character) in trimmed.chars().enumerate() {
        let place = skipped + index + 1;
        if let Some(fraction) = vulgar(character) {
            glyphs.push((' ', place));
            glyphs.extend(fraction.chars().map(|c| (c, place)));
            continue;
        }
        let plain = match character {
            '\u{2212}' | '\u{2013}' => '-',
            '\u{2018}' | '\u{2019}' | '\u{2032}' => '\'',
            '\u{201c}' | '\u{201d}' | '\u{2033}' => '"',
            '\u{2044}' | '\u{2215}' => '/',
            '\u{a0}' | '\u{2007}' | '\u{2009}' | GROUP => GROUP,
            '\t' => ' ',
            other => other,
        };
        if let Some(name) = echo::name(plain) {
            return Err(CannotRead::at(
                format!("it holds a hidden character, [{name}]"),
                place,
                "type it again by hand",
            ));
        }
        glyphs.push((
            if plain != GROUP && plain.is_whitespace() {
                ' '
            } else {
                plain
            },
            place,
        ));
    }
    if glyphs.first().is_some_and(|(c, _)| *c == ' ') {
        glyphs.remove(0);
    }
    Ok(glyphs)
}

fn vulgar(character: char) -> Option<&'static str> {
    Some(match character {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅒' => "1/10",
        _ => return None,
    })
}

/// Whether a minus stands first, and where the number begins.
fn sign(glyphs: &[Glyph]) -> (bool, usize) {
    match glyphs.first() {
        Some(('-', _)) => (true, skip_blanks(glyphs, 1)),
        Some(('+', _)) => (false, skip_blanks(glyphs, 1)),
        _ => (false, 0),
    }
}

fn skip_blanks(glyphs: &[Glyph], start: usize) -> usize {
    let blanks = glyphs
        .iter()
        .skip(start)
        .take_while(|(c, _)| matches!(*c, ' ' | GROUP));
    start + blanks.count()
}

/// Where a mark that stands at `start` ends, be it a sign or a word.
fn mark_end(glyphs: &[Glyph], start: usize, marks: &[&str]) -> Option<usize> {
    let rest: String = glyphs
        .iter()
        .skip(start)
        .map(|(c, _)| c.to_ascii_lowercase())
        .collect();
    marks.iter().find_map(|mark| {
        let after = rest.strip_prefix(mark)?;
        let word = mark.ends_with(|c: char| c.is_ascii_alphabetic());
        let parted = !word || !after.starts_with(|c: char| c.is_alphabetic());
        parted.then(|| start + mark.chars().count() + usize::from(word && after.starts_with('.')))
    })
}

/// Feet and inches in one: `6' 4"`, `6 ft 4 1/2 in`. Nothing where feet stand
/// alone or not at all.
fn feet_and_inches(
    glyphs: &[Glyph],
    feet: Figure,
    decimal: DecimalSign,
) -> Result<Option<Reading>, CannotRead> {
    let feet_mark = skip_blanks(glyphs, feet.end);
    if mark_end(glyphs, feet_mark, &["''"]).is_some() {
        return Ok(None);
    }
    let Some(after) = mark_end(glyphs, feet_mark, &["feet", "foot", "ft", "'"]) else {
        return Ok(None);
    };
    let mut at = skip_blanks(glyphs, after);
    if matches!(glyphs.get(at), Some((',' | '-', _))) {
        at = skip_blanks(glyphs, at + 1);
    }
    let Some(inches) = scan(glyphs, at, decimal)? else {
        return Ok(None);
    };
    let place = glyphs.get(at).map_or(1, |(_, place)| *place);
    let inch_mark = skip_blanks(glyphs, inches.end);
    let end = mark_end(glyphs, inch_mark, &["''", "\"", "inches", "inch", "in"]);
    if end != Some(glyphs.len()) {
        // `ft3` is a unit; only a number that stands apart is one.
        return if at == after && !glyphs_have(glyphs, feet_mark, '\'') {
            Ok(None)
        } else {
            let remedy = "write it like 6' 4\" or 6 ft 4 in";
            Err(CannotRead::at(
                "a second number without inches",
                place,
                remedy,
            ))
        };
    }
    if !feet.whole || inches.value >= 12.0 || inches.form == Form::Scientific {
        return Err(CannotRead::at(
            "feet and inches do not fit together",
            place,
            "write whole feet and fewer than 12 inches",
        ));
    }
    Ok(Some(Reading {
        number: feet.value + inches.value / 12.0,
        unit: Unit::parse("ft").ok(),
        step: inches.step / 12.0,
        form: Form::FeetInches,
    }))
}

fn glyphs_have(glyphs: &[Glyph], at: usize, wanted: char) -> bool {
    glyphs.get(at).is_some_and(|(c, _)| *c == wanted)
}

/// The unit that begins at `start`, or none where nothing stands there. A hyphen
/// may tie it to its number: `6-inch`.
fn unit(glyphs: &[Glyph], start: usize, asked: Option<&Unit>) -> Result<Option<Unit>, CannotRead> {
    let hyphen = glyphs_have(glyphs, start, '-')
        && glyphs
            .get(start + 1)
            .is_some_and(|(c, _)| c.is_alphabetic());
    let start = if hyphen {
        start + 1
    } else {
        skip_blanks(glyphs, start)
    };
    let Some((first, place)) = glyphs.get(start).copied() else {
        return Ok(None);
    };
    if matches!(first, '0'..='9' | '-' | '+' | '.' | ',') {
        let remedy = match first {
            '0'..='9' => "write one number, without a blank inside",
            _ => REMEDY,
        };
        return Err(CannotRead::at("more than one number", place, remedy));
    }
    let text = plain_unit(glyphs.get(start..).unwrap_or_default());
    if let Some(unit) = asked.and_then(|asked| in_its_place(&text, asked)) {
        return Ok(Some(unit));
    }
    Unit::spelled(&text)
        .map(Some)
        .map_err(|unknown| no_unit(&text, place, &unknown))
}

fn no_unit(text: &str, place: usize, unknown: &UnknownUnit) -> CannotRead {
    let mut words = text.split(' ').skip(1);
    if unknown.near.is_empty() && words.any(|word| word.starts_with(|c: char| c.is_ascii_digit())) {
        return CannotRead::at(
            "more than one number",
            place,
            "write one number and its unit",
        );
    }
    let remedy = match unknown.near.as_slice() {
        [] => REMEDY.to_owned(),
        near => format!("write {}", near.join(" or ")),
    };
    CannotRead {
        what: format!("no unit \"{}\"", unknown.name),
        place: Some(place),
        remedy,
    }
}

/// What the unit asked makes of a word with two meanings.
fn in_its_place(text: &str, asked: &Unit) -> Option<Unit> {
    let text = text.to_ascii_lowercase();
    let name = match text.as_str() {
        "lb" | "lbs" | "pound" | "pounds" | "#" if asked.dimension() == Dimension::PRESSURE => {
            "psi"
        }
        "lb" | "lbs" | "pound" | "pounds" | "#" if asked.written() == "lbf" => "lbf",
        "f" | "degf" | "deg f" | "degrees f" | "fahrenheit" if is_interval(asked) => "Fdeg",
        "c" | "degc" | "deg c" | "degrees c" | "celsius" if is_interval(asked) => "Cdeg",
        "f" if asked.is_point() => "degF",
        "c" if asked.is_point() => "degC",
        _ => return None,
    };
    Unit::parse(name).ok()
}

fn is_interval(unit: &Unit) -> bool {
    unit.dimension() == Dimension::TEMPERATURE && !unit.is_point()
}

/// Unit text in the signs of the tables: Greek letters and the degree sign as
/// plain letters, single blanks, no point after a letter.
fn plain_unit(glyphs: &[Glyph]) -> String {
    let mut text = String::new();
    for (character, _) in glyphs {
        match character {
            'Ω' | '\u{2126}' => text.push_str("ohm"),
            'µ' | 'μ' => text.push('u'),
            '°' | 'º' => text.push_str("deg "),
            '·' | '⋅' | '×' => text.push('*'),
            ' ' | &GROUP => {
                if !text.ends_with(' ') {
                    text.push(' ');
                }
            }
            '.' if text.ends_with(|c: char| c.is_ascii_alphabetic()) => {}
            other => text.push(*other),
        }
    }
    text.trim_end().replace("deg  ", "deg ")
}
