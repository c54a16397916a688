//! A unit as a lesson or a person wrote it, simple or compound, and what it is
//! worth. The rows it is made of stand in the tables.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, LazyLock};

use pumpwright_calc::dimension::Dimension;

use super::echo::echo;
use super::row::{self, Case, Kind, Row};

/// Characters a unit may have, and units a compound may be made of.
const LONGEST: usize = 60;
const MOST_PARTS: usize = 4;

/// One unit of a compound: `100ft` is a hundred feet, `ft^2` a square foot.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Part {
    row: &'static Row,
    count: u16,
    power: u8,
    divides: bool,
}

/// A unit: `psi`, `ohm/100ft`, `ft/psi`, `%`, `stages`, `degF`. A clone shares it.
#[derive(Debug, Clone, PartialEq)]
pub struct Unit(Arc<Worth>);

/// How a unit is written, and what it is worth.
#[derive(Debug, PartialEq)]
struct Worth {
    written: String,
    symbol: String,
    dimension: Dimension,
    times: f64,
    over: f64,
    parts: Vec<Part>,
}

/// The unit of each row, made once.
static SIMPLE: LazyLock<BTreeMap<&'static str, Unit>> =
    LazyLock::new(|| row::all().map(|row| (row.name, Unit::alone(row))).collect());

/// A name that is no unit, with the nearest that are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownUnit {
    /// The name, fit to be shown.
    pub name: String,
    /// The nearest units; may be empty.
    pub near: Vec<String>,
}

impl fmt::Display for UnknownUnit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "no unit \"{}\"", self.name)?;
        if let Some((last, others)) = self.near.split_last() {
            let others = others.join(", ");
            let gap = if others.is_empty() { "" } else { " or " };
            write!(f, "; nearest: {others}{gap}{last}")?;
        }
        Ok(())
    }
}

impl std::error::Error for UnknownUnit {}

impl Unit {
    /// The unit that a lesson writes so: names in their own case, joined by `/`
    /// and `*`, a power as `^2`, no space.
    ///
    /// # Errors
    /// [`UnknownUnit`] with the name that is none and the nearest that are.
    pub fn parse(text: &str) -> Result<Self, UnknownUnit> {
        if text.contains(char::is_whitespace) {
            return Err(unknown(text));
        }
        Self::of(text, Case::Exact)
    }

    /// The unit that a person writes so, in any of the usual spellings, already
    /// stripped of foreign signs and doubled blanks.
    pub(super) fn spelled(text: &str) -> Result<Self, UnknownUnit> {
        if text.chars().count() > LONGEST {
            return Err(unknown(text));
        }
        if let Some(row) = row::find(text, Case::Any) {
            return Ok(Self::simple(row));
        }
        let joined = text
            .replace(" per ", "/")
            .replace(" times ", "*")
            .replace(" / ", "/")
            .replace("/ ", "/")
            .replace(" /", "/")
            .replace(" * ", "*");
        Self::of(&joined, Case::Any)
    }

    /// The unit that is printed so behind a figure, if it is one.
    pub(crate) fn printed(text: &str) -> Option<Self> {
        Self::spelled(text)
            .ok()
            .filter(|unit| unit.symbol() == text || unit.singular() == text)
    }

    fn of(text: &str, case: Case) -> Result<Self, UnknownUnit> {
        if text.chars().count() > LONGEST {
            return Err(unknown(text));
        }
        if let Some(row) = row::find(text, case) {
            return Ok(Self::simple(row));
        }
        let parts = parts(&pressures(text), case)?;
        Self::compound(parts).ok_or_else(|| unknown(text))
    }

    fn simple(row: &'static Row) -> Self {
        let known = SIMPLE.get(row.name).cloned();
        known.unwrap_or_else(|| Self::alone(row))
    }

    fn alone(row: &'static Row) -> Self {
        Self(Arc::new(Worth {
            written: row.name.to_owned(),
            symbol: row.symbol.to_owned(),
            dimension: row.dimension,
            times: row.times,
            over: row.over,
            parts: vec![Part {
                row,
                count: 1,
                power: 1,
                divides: false,
            }],
        }))
    }

    fn compound(parts: Vec<Part>) -> Option<Self> {
        let mut dimension = Dimension::NONE;
        let (mut times, mut over) = (1.0, 1.0);
        for part in &parts {
            let own = part.row.dimension.raised(i8::try_from(part.power).ok()?)?;
            dimension = if part.divides {
                dimension.over(own)
            } else {
                dimension.times(own)
            }?;
            for _ in 0..part.power {
                let (above, below) = (part.row.times * f64::from(part.count), part.row.over);
                let (above, below) = if part.divides {
                    (below, above)
                } else {
                    (above, below)
                };
                times *= above;
                over *= below;
            }
        }
        if !(times.is_normal() && over.is_normal() && (times / over).is_normal()) {
            return None;
        }
        let scaled = parts.iter().any(|part| part.count > 1);
        Some(Self(Arc::new(Worth {
            written: join(&parts, "/", |part| {
                part.count_then(part.name(), "", &written_power(part.power))
            }),
            symbol: join(&parts, if scaled { " per " } else { "/" }, |part| {
                part.count_then(part.symbol(), " ", &printed_power(part.power))
            }),
            dimension,
            times,
            over,
            parts,
        })))
    }

    /// Its dimension.
    pub fn dimension(&self) -> Dimension {
        self.0.dimension
    }

    /// The SI value of a figure in this unit.
    pub fn to_si(&self, figure: f64) -> f64 {
        (figure + self.offset()) * self.0.times / self.0.over
    }

    /// The figure in this unit of an SI value.
    pub fn from_si(&self, si: f64) -> f64 {
        si * self.0.over / self.0.times - self.offset()
    }

    fn offset(&self) -> f64 {
        self.only().map_or(0.0, |row| row.offset)
    }

    fn only(&self) -> Option<&'static Row> {
        match self.0.parts.as_slice() {
            [
                Part {
                    row,
                    count: 1,
                    power: 1,
                    divides: false,
                },
            ] => Some(row),
            _ => None,
        }
    }

    fn kind(&self) -> Kind {
        self.only().map_or(Kind::Symbol, |row| row.kind)
    }

    /// Whether it is a point on a temperature scale.
    pub fn is_point(&self) -> bool {
        self.kind() == Kind::Point
    }

    /// Whether it is the noun of something counted.
    pub fn is_count(&self) -> bool {
        self.kind() == Kind::Noun && self.0.dimension == Dimension::NONE
    }

    /// Whether it prints as a noun with singular and plural: `stages`, `hours`.
    pub fn is_noun(&self) -> bool {
        self.kind() == Kind::Noun
    }

    /// Whether a figure in one is the same figure in the other: `h` and `hours`.
    pub fn same_size(&self, other: &Self) -> bool {
        let (ours, theirs) = (self.0.times * other.0.over, other.0.times * self.0.over);
        self.0.dimension == other.0.dimension
            && self.offset() == other.offset()
            && (ours - theirs).abs() <= 1e-12 * ours.abs()
    }

    /// As it is printed after a figure other than one: `psi`, `ohm per 100 ft`,
    /// `stages`.
    pub fn symbol(&self) -> &str {
        &self.0.symbol
    }

    /// As a lesson writes it; [`Unit::parse`] reads it back.
    pub fn written(&self) -> &str {
        &self.0.written
    }

    /// One of it, as it is printed after the figure one: `stage`, `psi`.
    pub fn singular(&self) -> &str {
        match self.only() {
            Some(row) if row.kind == Kind::Noun => row.one,
            _ => &self.0.symbol,
        }
    }

    /// The word before a noun, where one is said there: a 6-`inch` pipe.
    pub fn before_noun(&self) -> Option<&'static str> {
        match self.only() {
            Some(row) if matches!(row.kind, Kind::Noun | Kind::Sized) => Some(row.one),
            _ => None,
        }
    }

    /// As it is read aloud: `pounds per square inch`, `per cent`.
    pub fn spoken(&self) -> String {
        join(&self.0.parts, " per ", Part::spoken)
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.symbol())
    }
}

impl Part {
    fn name(&self) -> &'static str {
        if self.is_below() {
            self.row.one
        } else {
            self.row.name
        }
    }

    fn symbol(&self) -> &'static str {
        if self.is_below() {
            self.row.one
        } else {
            self.row.symbol
        }
    }

    /// Whether it is a noun below the line, of which one is meant: psi a stage.
    fn is_below(&self) -> bool {
        self.row.kind == Kind::Noun && self.divides && self.count == 1
    }

    fn count_then(&self, text: &str, gap: &str, power: &str) -> String {
        let count = if self.count > 1 {
            format!("{}{gap}", self.count)
        } else {
            String::new()
        };
        format!("{count}{text}{power}")
    }

    fn spoken(&self) -> String {
        let (one, many) = words(self.row);
        let word = if self.divides && self.count == 1 {
            one
        } else {
            many
        };
        let count = if self.count > 1 {
            format!("{} ", self.count)
        } else {
            String::new()
        };
        match self.power {
            1 => format!("{count}{word}"),
            2 => format!("{count}{word} squared"),
            3 => format!("{count}{word} cubed"),
            power => format!("{count}{word} to the power of {power}"),
        }
    }
}

/// A power as lessons write it.
fn written_power(power: u8) -> String {
    match power {
        1 => String::new(),
        power => format!("^{power}"),
    }
}

/// A power as it is printed.
fn printed_power(power: u8) -> String {
    let raised = RAISED.iter().find(|(_, own)| *own == power);
    raised.map_or_else(|| written_power(power), |(sign, _)| (*sign).to_string())
}

/// The powers that have a sign of their own.
const RAISED: [(char, u8); 2] = [('²', 2), ('³', 3)];

/// The words of a row; a short form of time borrows them from the long one.
fn words(row: &'static Row) -> (&'static str, &'static str) {
    if row.one != row.name {
        return (row.one, row.many);
    }
    row::all()
        .find(|other| {
            other.kind == Kind::Noun
                && row.dimension == Dimension::TIME
                && other.dimension == row.dimension
                && other.times == row.times
        })
        .map_or((row.one, row.many), |other| (other.one, other.many))
}

fn join(parts: &[Part], per: &str, show: impl Fn(&Part) -> String) -> String {
    let mut joined = String::new();
    for (place, part) in parts.iter().enumerate() {
        if place > 0 {
            joined.push_str(match (part.divides, per) {
                (true, per) => per,
                (false, "/") => "*",
                (false, _) => " times ",
            });
        }
        joined.push_str(&show(part));
    }
    joined
}

/// Pounds on an area, inside a compound: always a pressure, never a mass.
const POUNDS_ON_AREA: &[(&str, &str)] = &[
    ("pounds/square inch", "psi"),
    ("pound/square inch", "psi"),
    ("lbs/sq in", "psi"),
    ("lb/sq in", "psi"),
    ("lbs/in2", "psi"),
    ("lb/in2", "psi"),
    ("lbf/in2", "psi"),
    ("pounds/square foot", "psf"),
    ("pound/square foot", "psf"),
    ("lbs/sq ft", "psf"),
    ("lb/sq ft", "psf"),
    ("lbs/ft2", "psf"),
    ("lb/ft2", "psf"),
    ("lbf/ft2", "psf"),
];

fn pressures(text: &str) -> String {
    let mut text = text.to_owned();
    for (pounds, pressure) in POUNDS_ON_AREA {
        for pounds in [(*pounds).to_owned(), pounds.replace('2', "²")] {
            while let Some(start) = text.to_ascii_lowercase().find(&pounds) {
                text.replace_range(start..start + pounds.len(), pressure);
            }
        }
    }
    text
}

fn parts(text: &str, case: Case) -> Result<Vec<Part>, UnknownUnit> {
    let mut parts = Vec::new();
    let mut divides = false;
    for piece in text.split_inclusive(['/', '*']) {
        let name = piece.trim_end_matches(['/', '*']);
        parts.push(
            part(name, divides, case)
                .ok_or_else(|| unknown(if name.is_empty() { text } else { name }))?,
        );
        divides = piece.ends_with('/');
    }
    let compound = parts.len() > 1;
    let misplaced = text.ends_with(['/', '*']) || parts.len() > MOST_PARTS;
    let point = parts
        .iter()
        .find(|part| compound && part.row.kind == Kind::Point);
    match point {
        Some(part) => Err(UnknownUnit {
            name: echo(text),
            near: vec![
                if part.row.name == "degF" {
                    "Fdeg"
                } else {
                    "Cdeg"
                }
                .to_owned(),
            ],
        }),
        None if misplaced || parts.is_empty() => Err(unknown(text)),
        None => Ok(parts),
    }
}

/// One piece between the signs: a count (below only), a name, a power.
fn part(text: &str, divides: bool, case: Case) -> Option<Part> {
    let name = text.trim_start_matches(|c: char| c.is_ascii_digit());
    let digits = text.get(..text.len() - name.len())?;
    let count: u16 = if digits.is_empty() {
        1
    } else {
        digits.parse().ok()?
    };
    if count == 0 || (!digits.is_empty() && (count == 1 || !divides)) || digits.starts_with('0') {
        return None;
    }
    let name = if case == Case::Any {
        name.trim_start()
    } else {
        name
    };
    let mut raised = RAISED.iter();
    let raised = raised.find_map(|(sign, power)| Some((name.strip_suffix(*sign)?, *power)));
    let (name, power) = match (raised, name.split_once('^')) {
        (Some((name, _)), _)
            if name.ends_with(|c: char| RAISED.iter().any(|(sign, _)| *sign == c)) =>
        {
            return None;
        }
        (Some(raised), _) => raised,
        (None, Some((name, power))) => {
            let power = power.parse().ok().filter(|n| (1..=9).contains(n))?;
            (name, power)
        }
        (None, None) => (name, 1u8),
    };
    let whole = (power > 1)
        .then(|| row::find(&format!("{name}{power}"), case))
        .flatten();
    let (row, power) = match whole {
        Some(row) => (row, 1),
        None => (row::find(name, case)?, power),
    };
    Some(Part {
        row,
        count,
        power,
        divides,
    })
}

/// Nearest units shown, and edits by which they may differ; a short name may
/// differ by one, else every word of four letters would be near some unit.
const MOST_NEAR: usize = 3;
const FARTHEST: usize = 2;
const SHORT: usize = 4;

/// Names that may mean several units, in lower case, and which.
const TWO_MEANINGS: &[(&str, &[&str])] = &[
    ("m", &["m", "megohm"]),
    ("f", &["degF", "uF"]),
    ("c", &["degC"]),
    ("g", &["gal", "g"]),
    ("deg", &["degF", "degC"]),
    ("degrees", &["degF", "degC"]),
    ("degree", &["degF", "degC"]),
    ("mohm", &["megohm", "ohm"]),
    ("ft of water", &["ft", "psi"]),
    ("feet of water", &["ft", "psi"]),
    ("m of water", &["m", "kPa"]),
];

/// The refusal of a name, with the nearest units.
fn unknown(name: &str) -> UnknownUnit {
    let folded = name.to_lowercase();
    let known = TWO_MEANINGS.iter().find(|(own, _)| *own == folded);
    let near = known.map_or_else(|| nearest(name), |(_, near)| near.to_vec());
    UnknownUnit {
        name: echo(name),
        near: near.into_iter().map(str::to_owned).collect(),
    }
}

/// The units that are spelled most nearly so.
fn nearest(name: &str) -> Vec<&'static str> {
    let short: String = name.chars().take(LONGEST).collect();
    let folded = short.to_lowercase();
    let length = folded.chars().count();
    let farthest = if length <= SHORT { 1 } else { FARTHEST };
    let mut near: Vec<(usize, &'static str)> = Vec::new();
    for row in row::all() {
        let distance = row
            .written()
            .filter(|own| own.chars().count().abs_diff(length) <= farthest)
            .map(|own| strsim::damerau_levenshtein(&own.to_lowercase(), &folded))
            .min()
            .unwrap_or(usize::MAX);
        if distance <= farthest && distance < length.max(1) {
            near.push((distance, row.name));
        }
    }
    near.sort_by_key(|(distance, _)| *distance);
    let best = near.first().map_or(0, |(distance, _)| *distance);
    near.into_iter()
        .take_while(|(distance, _)| *distance == best)
        .take(MOST_NEAR)
        .map(|(_, name)| name)
        .collect()
}
