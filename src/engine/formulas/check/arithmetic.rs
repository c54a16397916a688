//! Sums, products, powers and the built-in functions: which dimensions go
//! together and what comes out.

use std::ops::Range;

use pumpwright_calc::registry::{self, Kind};

use crate::quantities::print::Direction;
use crate::quantities::{Dimension, System};

use super::super::ast::{Node, Sign, Spot, Tree};
use super::super::fault::Fault;
use super::super::formula::{Extreme, Part, What};
use super::super::kinds::{example_unit, kind};
use super::super::value::Type;
use super::{Checker, made};

/// What to do where no calculation turns one kind into the other.
pub(super) const ONE_KIND: &str = "only what is of one kind can stand together here";

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
        let fault = Fault::new(span, message);
        let adds = matches!(sign, Sign::Plus | Sign::Minus);
        match (&left.holds, &right.holds) {
            // What may be added to a point is an interval.
            (Type::Temperature, Type::Quantity(other)) if adds => self.instead(
                fault,
                &[left, right],
                (
                    &Type::Quantity(Dimension::TEMPERATURE),
                    &Type::Quantity(*other),
                ),
            ),
            (Type::Temperature, _) | (_, Type::Temperature) if !adds => {
                refused(fault.remedy(POINT), right)
            }
            _ => self.alike(fault, left, right),
        }
    }

    /// What to do about two parts that should be of one kind.
    pub(super) fn alike(&self, fault: Fault, left: &Part, right: &Part) -> Fault {
        self.instead(fault, &[left, right], (&left.holds, &right.holds))
    }

    /// What to do about parts where two types meet that do not go together.
    pub(super) fn instead(&self, fault: Fault, parts: &[&Part], types: (&Type, &Type)) -> Fault {
        if let Some(remedy) = parts.iter().find_map(|part| use_instead(part)) {
            return fault.remedy(remedy);
        }
        for part in parts {
            let other = if part.holds == *types.0 {
                types.1
            } else {
                types.0
            };
            let What::Number(number) = &part.what else {
                continue;
            };
            if let (None, Some(unit)) = (&number.unit, self.unit_of(other)) {
                let figure = &number.figure;
                return fault.remedy(format!("give the number a unit, as in \"{figure} {unit}\""));
            }
        }
        match types {
            (Type::Temperature, _) | (_, Type::Temperature) => fault.remedy(POINT),
            (Type::Quantity(one), Type::Quantity(two)) => match turning(*one, *two) {
                Some(name) => fault.remedy(format!(
                    "turn one of them into the other first, with {name}"
                )),
                None => fault.remedy(ONE_KIND),
            },
            _ => fault,
        }
    }

    fn unit_of(&self, holds: &Type) -> Option<&'static str> {
        match (holds, self.scope.system) {
            (Type::Quantity(dimension), system) => example_unit(*dimension, system),
            (Type::Temperature, System::Us) => Some("degF"),
            (Type::Temperature, System::Si) => Some("degC"),
            _ => None,
        }
    }

    pub(super) fn power(
        &self,
        base: Part,
        exponent: f64,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let Type::Quantity(dimension) = base.holds else {
            let message = format!("raises {} to a power", kind(&base.holds));
            return Err(refused(Fault::new(span, message), &base));
        };
        let raised = if dimension == Dimension::NONE {
            dimension
        } else if exponent.fract() != 0.0 {
            let unit = example_unit(dimension, self.scope.system).unwrap_or("ft");
            let message = format!("raises {} to a broken power", kind(&base.holds));
            return Err(Fault::new(span, message).remedy(format!(
                "a broken power needs a plain number, as in \"(a / 1 {unit})^{exponent}\""
            )));
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

    fn round(
        &self,
        way: Direction,
        value: Part,
        grid: Part,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        if !matches!(value.holds, Type::Quantity(_)) {
            return Err(not_a_number(span, "rounds", &value));
        }
        if value.holds != grid.holds {
            let message = format!(
                "rounds {} on a grid that is {}",
                kind(&value.holds),
                kind(&grid.holds)
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

fn way(name: &str) -> Direction {
    match name {
        "up" => Direction::Up,
        "down" => Direction::Down,
        _ => Direction::Nearest,
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
    refused(
        Fault::new(span, format!("{verb} {}", kind(&part.holds))),
        part,
    )
}

/// The fault with what to do about a part that takes no arithmetic.
fn refused(fault: Fault, part: &Part) -> Fault {
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
