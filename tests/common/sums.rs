//! Printed lines of a worked solution, worked once more by a few lines of our
//! own, so that the printer is not its own judge. Where terms carry units, the sum
//! is worked in SI, so a result may be told in another unit; a law's line has bare
//! figures, and so has the sum.

use pumpwright_engine::quantities::{self, DecimalSign};

/// What a printed line says: its sum worked out, and the result as printed.
#[derive(Debug, PartialEq)]
pub struct Printed {
    /// The sum, from the printed figures.
    pub sum: f64,
    /// The result.
    pub result: f64,
    /// Half of one in the result's last place.
    pub half_place: f64,
    /// What the result is taken up or down to, with its word.
    pub taken: Option<(String, f64)>,
}

/// Reads a line such as `8.0 A × 2.55 ohm = 20.4 V`; nothing where it is no plain sum.
pub fn read(line: &str) -> Option<Printed> {
    let (sum, result) = line.split_once(" = ")?;
    let mut reader = Reader {
        rest: sum,
        depth: 0,
        words: false,
        units: false,
    };
    let value = reader.sum()?;
    reader.end()?;
    let mut parts = result.split(", ");
    let first = parts.next()?;
    let figure = figure(first)?;
    let taken = parts.next().and_then(|part| {
        let (word, rest) = part.split_once(' ')?;
        let text = rest.strip_prefix("to ").unwrap_or(rest);
        Some((word.to_owned(), self::figure(text)?.parse().ok()?))
    });
    let places = figure.split_once('.').map_or(0, |(_, places)| places.len());
    let half_place = 0.5 / (0..places).map(|_| 10.0).product::<f64>();
    // What one of the result's unit is, in what the sum was worked in.
    let one = if reader.units {
        in_si(1.0, first.split_once(' ').map_or("", |(_, unit)| unit))?
    } else if first.contains('%') && !sum.contains("100") {
        0.01
    } else {
        1.0
    };
    Some(Printed {
        sum: value / one,
        result: figure.parse().ok()?,
        half_place,
        taken,
    })
}

/// So many of a unit, in SI; nothing for what is no unit.
fn in_si(figure: f64, unit: &str) -> Option<f64> {
    let unit = unit.trim();
    if unit.is_empty() {
        return Some(figure);
    }
    let per = unit.replace(" per ", "/").replace(' ', "");
    [unit, per.as_str()].into_iter().find_map(|unit| {
        let reading = quantities::read(&format!("1 {unit}"), DecimalSign::Point).ok()?;
        Some(figure * reading.unit?.to_si(1.0))
    })
}

/// The figure and the whole number of `13.4 stages, up to a whole number = 14 stages`.
pub fn whole(line: &str) -> Option<(f64, f64)> {
    let (figure, whole) = line.split_once(", up to a whole number = ")?;
    let value = |text: &str| self::figure(text)?.parse().ok();
    Some((value(figure)?, value(whole)?))
}

/// The figure at the head of a text.
fn figure(text: &str) -> Option<String> {
    let first = text.split(' ').next()?;
    let plain = first.replace(',', "").replace('−', "-");
    plain.parse::<f64>().ok()?;
    Some(plain)
}

struct Reader<'t> {
    rest: &'t str,
    depth: u32,
    /// Whether words stood where only a unit may stand.
    words: bool,
    /// Whether any figure carried a unit.
    units: bool,
}

/// Where the unit ends that a text begins with. A raised two behind a letter is the unit's.
fn end_of_unit(text: &str) -> usize {
    let mut before = ' ';
    for (at, sign) in text.char_indices() {
        let is_sign = match sign {
            '+' | '−' | '×' | '÷' | '(' | ')' | '√' => true,
            '²' => !before.is_alphabetic(),
            _ => false,
        };
        if is_sign {
            return at;
        }
        before = sign;
    }
    text.len()
}

impl Reader<'_> {
    fn sum(&mut self) -> Option<f64> {
        let mut value = self.product()?;
        loop {
            if self.take("+") {
                value += self.product()?;
            } else if self.take("−") {
                value -= self.product()?;
            } else {
                return Some(value);
            }
        }
    }

    fn product(&mut self) -> Option<f64> {
        let mut value = self.power()?;
        loop {
            if self.take("×") {
                value *= self.power()?;
            } else if self.take("÷") {
                value /= self.power()?;
            } else {
                return Some(value);
            }
        }
    }

    fn power(&mut self) -> Option<f64> {
        let value = self.atom()?;
        Some(if self.take("²") {
            value * value
        } else {
            value
        })
    }

    fn atom(&mut self) -> Option<f64> {
        self.depth += 1;
        if self.depth > 200 {
            return None;
        }
        if self.take("√") {
            return Some(self.atom()?.sqrt());
        }
        if self.take("(") {
            let value = self.sum()?;
            return if self.take(")") {
                self.in_unit(value)
            } else {
                None
            };
        }
        self.number()
    }

    fn number(&mut self) -> Option<f64> {
        let rest = self.rest.trim_start();
        let digit = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
        let end = rest.find(|c: char| !digit(c)).unwrap_or(rest.len());
        let value: f64 = rest.get(..end)?.replace(',', "").parse().ok()?;
        self.rest = rest.get(end..)?;
        self.in_unit(value)
    }

    /// A figure, or a sum in brackets, with the unit that stands behind it.
    fn in_unit(&mut self, value: f64) -> Option<f64> {
        let (unit, rest) = self.rest.split_at(end_of_unit(self.rest));
        self.rest = rest;
        self.words |= unit.contains(',');
        self.units |= !unit.trim().is_empty();
        in_si(value, unit)
    }

    fn take(&mut self, sign: &str) -> bool {
        let rest = self.rest.trim_start();
        match rest.strip_prefix(sign) {
            Some(after) => {
                self.rest = after;
                true
            }
            None => false,
        }
    }

    fn end(&self) -> Option<()> {
        (self.rest.trim().is_empty() && !self.words).then_some(())
    }
}
