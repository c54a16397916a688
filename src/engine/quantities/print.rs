//! Printing figures and units as people read them. The same text on every
//! machine; nothing here decides whether a figure is right.

use super::unit::Unit;

/// Relative noise that arithmetic may leave; nearer figures are the same.
const NOISE: f64 = 1e-9;

/// Whole numbers below this are exact and are written out.
const LARGE: f64 = 1e15;

/// What stands for a value that is no figure.
const NO_FIGURE: &str = "no figure";

/// Which way a figure is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Direction {
    /// Up to the next step.
    Up,
    /// Down, towards minus infinity.
    Down,
    /// To the nearest step; halves away from zero.
    Nearest,
}

/// A value to so many significant figures, trailing zeros kept: 1267 at three is
/// `1270`, 8 is `8.00`. Without a power of ten from 1e-6 to 1e9. A half that
/// binary noise has moved still counts as a half: 1.005 is `1.01`.
pub fn figures(value: f64, significant: usize) -> String {
    let Some(digits) = Digits::of(value, significant.clamp(1, 15)) else {
        return NO_FIGURE.to_owned();
    };
    digits.written()
}

/// A value on its grid, with the decimals of the grid: 8.647 on 0.01 is `8.65`.
pub fn on_grid(value: f64, grid: f64) -> String {
    if !is_grid(grid) || value.abs() >= LARGE || !value.is_finite() {
        return shortest(value);
    }
    let decimals = decimals(grid);
    let rounded = rounded(value, grid, Direction::Nearest);
    plain_zero(format!("{rounded:.decimals$}"))
}

/// A value with as few figures as tell it from its neighbors: 0.396, 320,
/// 0.1 + 0.2 is `0.3`.
pub fn shortest(value: f64) -> String {
    if !value.is_finite() {
        return NO_FIGURE.to_owned();
    }
    if value.fract() == 0.0 && value.abs() < LARGE {
        return plain_zero(format!("{value:.0}"));
    }
    let fewest = (1..=12)
        .filter_map(|significant| Digits::of(value, significant))
        .find(|digits| (digits.value() - value).abs() <= NOISE * value.abs());
    fewest.map_or_else(|| format!("{value}"), |digits| digits.written())
}

/// The decimals that tell a value from its neighbors: 0.25 has two.
pub fn decimals(value: f64) -> usize {
    let text = shortest(value);
    // A figure too small to be written out has a power of ten instead.
    let (figure, power) = text.split_once('e').unwrap_or((text.as_str(), "0"));
    let own = figure
        .split_once('.')
        .map_or(0, |(_, decimals)| decimals.len());
    let own = i32::try_from(own).unwrap_or(0);
    let power: i32 = power.parse().unwrap_or(0);
    usize::try_from(own - power).unwrap_or(0)
}

/// A value with as few figures as tell it from its neighbors, but with so many
/// decimals at least: 21 to one is `21.0`.
pub fn at_least(value: f64, places: usize) -> String {
    let text = shortest(value);
    let has = decimals(value);
    if has >= places || !value.is_finite() {
        return text;
    }
    let point = if has == 0 { "." } else { "" };
    format!(
        "{text}{point}{}",
        "0".repeat(places.min(9) - has.min(places.min(9)))
    )
}

/// A figure with its unit: `1 stage`, `14 stages`, `4.4 %`, `6 ft`.
pub fn with_unit(number: &str, unit: &Unit, value: f64) -> String {
    let one = value.abs() <= 1.0 && value != 0.0 && !number.contains(['.', ',']);
    let word = if one { unit.singular() } else { unit.symbol() };
    format!("{number} {word}")
}

/// A figure with its unit before a noun: `6-inch`, `11-stage`, `150 mm`.
pub fn side(number: &str, unit: &Unit) -> String {
    match unit.before_noun() {
        Some(word) => format!("{}-{word}", number.replace(' ', "-")),
        None => format!("{number} {}", unit.symbol()),
    }
}

/// A value rounded to a multiple of the grid. A quotient within 1e-9 of a whole
/// number counts as whole, so that 190 ft over 19 ft does not round up to 11.
pub fn rounded(value: f64, grid: f64, direction: Direction) -> f64 {
    if !value.is_finite() || !is_grid(grid) {
        return value;
    }
    let quotient = value / grid;
    let nearest = quotient.round();
    let noise = NOISE.max(quotient.abs() * 4.0 * f64::EPSILON);
    let steps = if (quotient - nearest).abs() <= noise {
        nearest
    } else {
        match direction {
            Direction::Up => quotient.ceil(),
            Direction::Down => quotient.floor(),
            Direction::Nearest => (quotient.abs() + 0.5 + noise).floor().copysign(quotient),
        }
    };
    multiple(steps, grid) + 0.0
}

fn is_grid(grid: f64) -> bool {
    grid.is_finite() && grid > 0.0
}

/// `steps` times the grid, by the whole number that the grid divides one into
/// where there is one: three tenths are 0.3, not 3 times 0.1.
fn multiple(steps: f64, grid: f64) -> f64 {
    let share = (1.0 / grid).round();
    if grid < 1.0 && (1.0 / grid - share).abs() <= 4.0 * f64::EPSILON * share {
        steps / share
    } else {
        steps * grid
    }
}

fn plain_zero(text: String) -> String {
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| matches!(c, '0' | '.')) => rest.to_owned(),
        _ => text,
    }
}

/// Decimal digits of a value: `0.d1 d2 d3 … × 10^point`.
struct Digits {
    negative: bool,
    shown: String,
    /// Places before the decimal point; may be negative.
    point: i32,
}

impl Digits {
    /// The value to so many digits, halves away from zero.
    fn of(value: f64, significant: usize) -> Option<Self> {
        if !value.is_finite() {
            return None;
        }
        // Ten digits first: noise below them can then not hide a half.
        let fine = if significant < 10 { 10 } else { 17 };
        let text = format!("{:.*e}", fine - 1, value.abs());
        let (mantissa, power) = text.split_once('e')?;
        let mut digits: Vec<u8> = mantissa.bytes().filter(u8::is_ascii_digit).collect();
        let mut point = power.parse::<i32>().ok()? + 1;
        let up = digits.get(significant).is_some_and(|digit| *digit >= b'5');
        digits.truncate(significant);
        if up && carry(&mut digits) {
            point += 1;
        }
        Some(Self {
            negative: value < 0.0,
            shown: String::from_utf8(digits).ok()?,
            point: if value == 0.0 { 1 } else { point },
        })
    }

    fn value(&self) -> f64 {
        let sign = if self.negative { "-" } else { "" };
        format!("{sign}0.{}e{}", self.shown, self.point)
            .parse()
            .unwrap_or(f64::NAN)
    }

    fn written(&self) -> String {
        let sign = if self.negative { "-" } else { "" };
        let count = self.shown.len();
        let plain = match self.point {
            -5..=0 => {
                let zeros = "0".repeat(self.point.unsigned_abs() as usize);
                format!("0.{zeros}{}", self.shown)
            }
            1..=9 if self.point as usize >= count => {
                format!("{}{}", self.shown, "0".repeat(self.point as usize - count))
            }
            1..=9 => {
                let (front, back) = self.shown.split_at(self.point as usize);
                format!("{front}.{back}")
            }
            _ => {
                let (front, back) = self.shown.split_at(1);
                let dot = if back.is_empty() { "" } else { "." };
                format!("{front}{dot}{back}e{}", self.point - 1)
            }
        };
        format!("{sign}{plain}")
    }
}

/// Adds one to the last digit; says whether the number grew by a place, in which
/// case the digits are `100…` of the same count.
fn carry(digits: &mut [u8]) -> bool {
    for digit in digits.iter_mut().rev() {
        if *digit < b'9' {
            *digit += 1;
            return false;
        }
        *digit = b'0';
    }
    if let Some(first) = digits.first_mut() {
        *first = b'1';
    }
    true
}

/// The article of a word or figure by how it is spoken: `an` 8, `an` 11-stage,
/// `a` 1 hp, `an` AWG 12.
pub fn article(text: &str) -> &'static str {
    let text = text.trim_start();
    let vowel = if text.starts_with(|c: char| c.is_ascii_digit()) {
        figure_opens_with_vowel(text)
    } else {
        word_opens_with_vowel(text)
    };
    if vowel { "an" } else { "a" }
}

fn figure_opens_with_vowel(text: &str) -> bool {
    let run = text
        .split(|c: char| !c.is_ascii_digit() && c != ',')
        .next()
        .unwrap_or_default();
    let after = text.get(run.len()..).unwrap_or_default();
    if run == "1" && after.starts_with('/') {
        let below = after.get(1..).unwrap_or_default();
        return figure_opens_with_vowel(below);
    }
    let digits: String = run.chars().filter(char::is_ascii_digit).collect();
    let leading = digits
        .get(..(digits.len().max(1) - 1) % 3 + 1)
        .unwrap_or_default();
    leading.starts_with('8') || leading == "11" || leading == "18"
}

/// Letters whose names begin with a vowel sound.
const VOWEL_NAMES: &[char] = &['A', 'E', 'F', 'H', 'I', 'L', 'M', 'N', 'O', 'R', 'S', 'X'];
/// Abbreviations that are spoken as a word.
const SPOKEN_AS_WORDS: &[&str] = &["NEMA", "NIST", "NASA", "NATE"];
/// Openings that are spoken with a `y` or a `w`.
const CONSONANT_OPENINGS: &[&str] = &["uni", "use", "usu", "util", "eu", "one", "once"];
/// Openings with a silent `h`.
const SILENT_H: &[&str] = &["hour", "honest", "heir"];

fn word_opens_with_vowel(text: &str) -> bool {
    let word = text
        .split(|c: char| !c.is_alphanumeric())
        .next()
        .unwrap_or_default();
    let spelled = !word.is_empty()
        && word
            .chars()
            .all(|c| c.is_ascii_uppercase() || c.is_ascii_digit());
    if spelled && !SPOKEN_AS_WORDS.contains(&word) {
        return word.starts_with(VOWEL_NAMES);
    }
    let word = word.to_lowercase();
    let opens = |openings: &[&str]| openings.iter().any(|opening| word.starts_with(opening));
    opens(SILENT_H) || (word.starts_with(['a', 'e', 'i', 'o', 'u']) && !opens(CONSONANT_OPENINGS))
}
