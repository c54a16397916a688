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
        return (value as i64).to_string();
    }
    let near = REACH.contains(&value.abs());
    if let Some(digits) = near.then(|| Digits::few(value)).flatten() {
        return digits.written();
    }
    let tried = if near { FEW } else { 0 };
    let fewest = (tried + 1..=12)
        .filter_map(|significant| Digits::of(value, significant))
        .find(|digits| (digits.value() - value).abs() <= NOISE * value.abs());
    fewest.map_or_else(|| format!("{value}"), |digits| digits.written())
}

/// The decimals that tell a value from its neighbors: 0.25 has two.
pub fn decimals(value: f64) -> usize {
    decimals_in(&shortest(value))
}

fn decimals_in(text: &str) -> usize {
    // A figure too small to be written out has a power of ten instead.
    let (figure, power) = text.split_once('e').unwrap_or((text, "0"));
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
    let has = decimals_in(&text);
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

/// So many digits are tried by a product with a power of ten, without printing any.
const FEW: usize = 8;

/// Where that is tried: beyond, the powers of ten are no longer exact.
const REACH: std::ops::Range<f64> = 1e-9..1e9;

/// Powers of ten that are whole numbers without rounding: a whole number below 2^53 times or
/// over one of them is rounded once, as reading its digits would be.
const EXACT_POWERS: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
];

/// A power of ten; none where it is not exact.
fn exact_power(power: i32) -> Option<f64> {
    let power = usize::try_from(power).ok()?;
    EXACT_POWERS.get(power).copied()
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

    /// The fewest digits, up to [`FEW`], that tell a value from its neighbors; nothing where
    /// more are needed. With so few digits the figures lie ten times as far apart as noise
    /// reaches, so the nearest is the only one. The value must lie in [`REACH`].
    fn few(value: f64) -> Option<Self> {
        let size = value.abs();
        // The places before the point.
        let point = (-8..=9).find(|point| match *point {
            above @ 0.. => exact_power(above).is_some_and(|power| size < power),
            below => exact_power(-below).is_some_and(|power| size * power < 1.0),
        })?;
        (1_i32..).take(FEW).find_map(|count| {
            let places = count - point;
            let (whole, again) = if places >= 0 {
                let power = exact_power(places)?;
                let whole = (size * power).round();
                (whole, whole / power)
            } else {
                let power = exact_power(-places)?;
                let whole = (size / power).round();
                (whole, whole * power)
            };
            if whole == 0.0 || (again - size).abs() > NOISE * size {
                return None;
            }
            let shown = (whole as u64).to_string();
            // 9.9999999999 is 10: one place more, and the digits without the last nought.
            let grown = i32::try_from(shown.len()).ok()? - count;
            let kept = shown.get(..count as usize)?;
            Some(Self {
                negative: value < 0.0,
                shown: kept.to_owned(),
                point: point + grown,
            })
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// As `shortest` is said to be: each count of digits printed and read back.
    fn tried_one_by_one(value: f64) -> String {
        let fewest = (1..=12)
            .filter_map(|significant| Digits::of(value, significant))
            .find(|digits| (digits.value() - value).abs() <= NOISE * value.abs());
        fewest.map_or_else(|| format!("{value}"), |digits| digits.written())
    }

    proptest! {
        #[test]
        fn few_digits_are_found_as_they_would_be_one_by_one(
            whole in -100_000_000_i64..100_000_000,
            power in -14_i32..12,
            noise in -3_i32..=3,
            any in any::<f64>(),
        ) {
            let value = whole as f64 * libm::pow(10.0, f64::from(power));
            let noisy = value * (1.0 + f64::from(noise) * 0.4e-9);
            for own in [value, noisy, value / 3.0, any, 1.0 / any] {
                let is_whole = own.fract() == 0.0 && own.abs() < LARGE;
                if own.is_finite() && !is_whole {
                    prop_assert_eq!(shortest(own), tried_one_by_one(own), "{:e}", own);
                }
            }
        }
    }

    #[test]
    fn figures_on_the_edge_of_a_place_are_the_same_too() {
        for power in -25..25 {
            let edge: f64 = format!("1e{power}").parse().unwrap();
            for by in [-2e-9, -1e-9, -9e-10, -1e-16, 0.0, 1e-16, 9e-10, 1e-9, 2e-9] {
                let value = edge * (1.0 + by);
                if value.fract() != 0.0 {
                    assert_eq!(shortest(value), tried_one_by_one(value), "{value:e}");
                }
            }
        }
    }
}
