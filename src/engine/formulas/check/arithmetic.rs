//! Sums, products, powers and the built-in functions: which dimensions go
//! together and what comes out.

use std::ops::Range;

use pumpwright_calc::registry::{self, Kind};

use crate::quantities::Dimension;

use super::super::ast::{Node, Sign, Spot, Tree};
use super::super::fault::Fault;
use super::super::formula::{Extreme, Part, What};
use super::super::kinds::{example_unit, kind};
use super::super::snap::Way;
use super::super::value::Type;
use super::{Checker, made};

const POINT: &str = "a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"";

impl<'a> Checker<'a> {
    pub(super) fn negate(&mut self, inner: &'a Node, span: &Range<usize>) -> Result<Part, Fault> {
        let part = self.part(inner)?;
        match (&part.holds, &part.what) {
            (Type::Quantity(_), _) => {
                let holds = part.holds.clone();
                Ok(made(What::Negate(Box::new(part)), holds, span))
            }
            // Below zero on its scale, a point is still a point.
            (Type::Temperature, What::Number(literal)) => match (&inner.tree, &literal.unit) {
                (Tree::Number { value, .. }, Some(unit)) => {
                    let mut literal = literal.clone();
                    literal.value.si = unit.to_si(-value);
                    literal.figure = format!("-{}", literal.figure);
                    Ok(made(What::Number(literal), Type::Temperature, span))
                }
                _ => Err(not_a_number(span, "turns the sign of", &part)),
            },
            _ => Err(not_a_number(span, "turns the sign of", &part)),
        }
    }

    pub(super) fn sum(
        &self,
        sign: Sign,
        left: Part,
        right: Part,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let holds = match (&left.holds, &right.holds) {
            (Type::Quantity(one), Type::Quantity(two)) => match sign {
                Sign::Plus | Sign::Minus => (one == two).then_some(Type::Quantity(*one)),
                Sign::Times => Some(Type::Quantity(
                    one.times(*two).ok_or_else(|| too_large(span))?,
                )),
                Sign::Over => Some(Type::Quantity(
                    one.over(*two).ok_or_else(|| too_large(span))?,
                )),
            },
            (one, two) => temperatures(sign, one, two),
        };
        match holds {
            Some(holds) => Ok(made(
                What::Sum(sign, Box::new(left), Box::new(right)),
                holds,
                span,
            )),
            None => Err(self.mismatch(sign, &left, &right, span)),
        }
    }

    fn mismatch(&self, sign: Sign, left: &Part, right: &Part, span: &Range<usize>) -> Fault {
        let (one, two) = (kind(&left.holds), kind(&right.holds));
        let message = match sign {
            Sign::Plus => format!("adds {two} to {one}"),
            Sign::Minus => format!("takes {two} from {one}"),
            Sign::Times => format!("multiplies {one} by {two}"),
            Sign::Over => format!("divides {one} by {two}"),
        };
        self.alike(Fault::new(span, message), left, right)
    }

    /// What to do about two parts that should be of one kind.
    pub(super) fn alike(&self, fault: Fault, left: &Part, right: &Part) -> Fault {
        for part in [left, right] {
            if let Some(remedy) = use_instead(part) {
                return fault.remedy(remedy);
            }
        }
        if [left, right]
            .iter()
            .any(|part| part.holds == Type::Temperature)
        {
            return fault.remedy(POINT);
        }
        let (Type::Quantity(one), Type::Quantity(two)) = (&left.holds, &right.holds) else {
            return fault;
        };
        for (part, other) in [(left, *two), (right, *one)] {
            if let (What::Number(number), Some(unit)) =
                (&part.what, example_unit(other, self.scope.system))
                && number.unit.is_none()
            {
                return fault.remedy(format!(
                    "give the number a unit, as in \"{} {unit}\"",
                    number.figure
                ));
            }
        }
        match turning(*one, *two) {
            Some(name) => fault.remedy(format!(
                "turn one of them into the other first, with {name}"
            )),
            None => fault.remedy("only what is of one kind can stand together here"),
        }
    }

    pub(super) fn power(base: Part, exponent: f64, span: &Range<usize>) -> Result<Part, Fault> {
        let Type::Quantity(dimension) = base.holds else {
            return Err(not_a_number(span, "raises to a power", &base));
        };
        let raised = if dimension == Dimension::NONE {
            dimension
        } else if exponent.fract() != 0.0 {
            return Err(Fault::new(span, format!("raises {} to a broken power", kind(&base.holds)))
                .remedy("a broken power needs a plain number: divide by a unit first, as in \"(x / 1 ft)^0.5\""));
        } else {
            // A whole number outside i8 would leave the range of exponents anyway.
            let whole = exponent as i8;
            let fits = f64::from(whole) == exponent;
            fits.then(|| dimension.raised(whole))
                .flatten()
                .ok_or_else(|| too_large(span))?
        };
        Ok(made(
            What::Power(Box::new(base), exponent),
            Type::Quantity(raised),
            span,
        ))
    }

    pub(super) fn built_in(
        &self,
        path: &Spot,
        mut inputs: Vec<Part>,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let name = path.text.as_str();
        let (wanted, example) = match name {
            "abs" => ("one input", "abs(a - b)"),
            "sqrt" => ("one input", "sqrt(a^2 + b^2)"),
            "min" | "max" => ("two inputs or more", "min(a, b)"),
            _ => ("a value and a grid", "up(a, 1)"),
        };
        let enough = match wanted {
            "one input" => inputs.len() == 1,
            "a value and a grid" => inputs.len() == 2,
            _ => inputs.len() >= 2,
        };
        if !enough {
            let message = format!("\"{name}\" takes {wanted}; here are {}", inputs.len());
            let example = example.replace("min", name).replace("up", name);
            return Err(Fault::new(span, message).remedy(format!("write it as in \"{example}\"")));
        }
        match name {
            "min" => self.extreme(Extreme::Least, inputs, span),
            "max" => self.extreme(Extreme::Greatest, inputs, span),
            "abs" | "sqrt" => one_input(name, inputs.remove(0), span),
            _ => {
                let grid = inputs.remove(1);
                self.round(way(name), inputs.remove(0), grid, span)
            }
        }
    }

    fn extreme(
        &self,
        extreme: Extreme,
        inputs: Vec<Part>,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let (Some(first), end) = (inputs.first().cloned(), span) else {
            return Err(Fault::new(span, "has nothing to compare"));
        };
        let word = if extreme == Extreme::Least {
            "least"
        } else {
            "greatest"
        };
        for part in &inputs {
            let numeric = matches!(part.holds, Type::Quantity(_) | Type::Temperature);
            if part.holds != first.holds || !numeric {
                let message = format!(
                    "takes the {word} of {} and {}",
                    kind(&first.holds),
                    kind(&part.holds)
                );
                return Err(self.alike(Fault::new(end, message), &first, part));
            }
        }
        Ok(made(What::Extreme(extreme, inputs), first.holds, span))
    }

    fn round(&self, way: Way, value: Part, grid: Part, span: &Range<usize>) -> Result<Part, Fault> {
        if !matches!(value.holds, Type::Quantity(_)) {
            return Err(not_a_number(span, "rounds", &value));
        }
        if value.holds != grid.holds {
            let message = format!(
                "rounds {} on a grid of {}",
                kind(&value.holds),
                bare_kind(&grid.holds)
            );
            return Err(self.alike(Fault::new(&grid.span, message), &value, &grid));
        }
        if matches!(&grid.what, What::Number(number) if number.value.si <= 0.0) {
            return Err(Fault::new(&grid.span, "rounds on a grid of nothing")
                .remedy("write a grid above zero, as in \"up(a, 1)\""));
        }
        let holds = value.holds.clone();
        Ok(made(
            What::Round(way, Box::new(value), Box::new(grid)),
            holds,
            span,
        ))
    }
}

/// Whether the language has a function of this name by itself.
pub(super) const BUILT_IN: [&str; 7] = ["up", "down", "near", "min", "max", "abs", "sqrt"];

fn way(name: &str) -> Way {
    match name {
        "up" => Way::Up,
        "down" => Way::Down,
        _ => Way::Near,
    }
}

fn one_input(name: &str, input: Part, span: &Range<usize>) -> Result<Part, Fault> {
    let Type::Quantity(dimension) = input.holds else {
        let verb = if name == "abs" {
            "takes the size of"
        } else {
            "takes the root of"
        };
        return Err(not_a_number(span, verb, &input));
    };
    if name == "abs" {
        let holds = input.holds.clone();
        return Ok(made(What::Size(Box::new(input)), holds, span));
    }
    match dimension.root() {
        Some(root) => Ok(made(
            What::Root(Box::new(input)),
            Type::Quantity(root),
            span,
        )),
        None => Err(
            Fault::new(span, format!("takes the root of {}", kind(&input.holds)))
                .remedy("a root needs an even power, as in \"sqrt(a^2)\", or a plain number"),
        ),
    }
}

/// What comes of adding or subtracting where one side at least is a point.
fn temperatures(sign: Sign, left: &Type, right: &Type) -> Option<Type> {
    let interval = Type::Quantity(Dimension::TEMPERATURE);
    match (sign, left, right) {
        (Sign::Minus, Type::Temperature, Type::Temperature) => Some(interval),
        (Sign::Plus | Sign::Minus, Type::Temperature, other) if *other == interval => {
            Some(Type::Temperature)
        }
        (Sign::Plus, other, Type::Temperature) if *other == interval => Some(Type::Temperature),
        _ => None,
    }
}

fn not_a_number(span: &Range<usize>, verb: &str, part: &Part) -> Fault {
    let fault = Fault::new(span, format!("{verb} {}", kind(&part.holds)));
    match (use_instead(part), &part.holds) {
        (Some(remedy), _) => fault.remedy(remedy),
        (None, Type::Temperature) => fault.remedy(POINT),
        (None, _) => fault,
    }
}

/// What to write in place of a part that is no number at all.
fn use_instead(part: &Part) -> Option<String> {
    match &part.holds {
        Type::Row(_) => Some("name a column of the row, as in \"motor.full\"".to_owned()),
        Type::Rows(_) => Some("pick a row first, as in 'first r in truck where ...'".to_owned()),
        Type::Word => Some("a word can only be compared, by \"is\" or \"is not\"".to_owned()),
        Type::Truth => {
            Some("to choose between two values write \"if a > b then a else b\"".to_owned())
        }
        Type::Quantity(_) | Type::Temperature => None,
    }
}

fn too_large(span: &Range<usize>) -> Fault {
    Fault::new(span, "gives a power of a unit that is out of bounds")
}

fn bare_kind(holds: &Type) -> String {
    let kind = kind(holds);
    let bare = kind.strip_prefix("a ").or_else(|| kind.strip_prefix("an "));
    bare.unwrap_or(&kind).to_owned()
}

/// The calculation that turns one dimension into the other.
fn turning(one: Dimension, two: Dimension) -> Option<&'static str> {
    let turns = |function: &registry::Function| {
        let [input] = function.inputs else {
            return false;
        };
        let ends = (input.kind, function.gives.kind);
        ends == (Kind::Quantity(one), Kind::Quantity(two))
            || ends == (Kind::Quantity(two), Kind::Quantity(one))
    };
    registry::functions()
        .find(|function| turns(function))
        .map(|function| function.name)
}
