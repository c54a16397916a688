//! What holds of every formula: it survives its canonical print, its value has
//! the dimension that the check foretold, its value does not hang on the units
//! in which things are held, and no text at all breaks anything.

use std::sync::Arc;

use proptest::prelude::*;

use super::ast::{
    Branch, Comparison, Expression, Input, Logic, Node, Search, Sign, Spot, Tree, Which,
};
use super::canonical::canonical;
use super::fixture::Bench;
use super::parse::{LONGEST, parse};
use super::{Formula, NoValue, Type, Value, same};
use crate::quantities::Quantity;

fn node(tree: Tree) -> Node {
    Node { tree, span: 0..0 }
}

fn spot(text: String) -> Spot {
    Spot { text, span: 0..0 }
}

fn path() -> impl Strategy<Value = String> {
    prop::sample::select(vec![
        "a",
        "run",
        "x_2",
        "rule.tank.below",
        "motor.full",
        "iff",
        "first_one",
    ])
    .prop_map(str::to_owned)
}

fn leaf() -> impl Strategy<Value = Node> {
    let units = [
        "in",
        "ft",
        "%",
        "ohm/100ft",
        "ft^2",
        "min",
        "degF",
        "gal*psi/h",
        "is_no_unit",
    ];
    let number = (0_u32..2_000_000, 0_i32..6)
        .prop_map(|(n, places)| format!("{n}e-{places}").parse::<f64>().expect("a number"));
    prop_oneof![
        (
            number,
            prop::option::of(prop::sample::select(units.to_vec()))
        )
            .prop_map(|(value, unit)| {
                node(Tree::Number {
                    value,
                    unit: unit.map(|unit| spot(unit.to_owned())),
                })
            }),
        path().prop_map(|path| node(Tree::Path(path))),
        "[ a-zé#/0-9]{0,6}".prop_map(|word| node(Tree::Word(word))),
    ]
}

fn inner() -> impl Strategy<Value = Node> {
    leaf().prop_recursive(4, 24, 3, |inner| {
        let two = (inner.clone(), inner.clone());
        let sign = prop::sample::select(vec![Sign::Plus, Sign::Minus, Sign::Times, Sign::Over]);
        let comparison = prop::sample::select(vec![
            Comparison::Less,
            Comparison::AtMost,
            Comparison::More,
            Comparison::AtLeast,
            Comparison::Is,
            Comparison::IsNot,
        ]);
        let logic = prop::sample::select(vec![Logic::And, Logic::Or]);
        let power = prop::sample::select(vec![2.0, -1.0, 0.5, -1.852, 0.0]);
        let input = (prop::option::of(Just("x")), inner.clone()).prop_map(|(name, value)| Input {
            name: name.map(|name| spot(name.to_owned())),
            value,
        });
        prop_oneof![
            4 => (sign, two.clone()).prop_map(|(s, (l, r))| Tree::Sum(s, l.into(), r.into())),
            2 => (comparison, two.clone())
                .prop_map(|(c, (l, r))| Tree::Compare(c, l.into(), r.into())),
            2 => (logic, two).prop_map(|(o, (l, r))| Tree::Logic(o, l.into(), r.into())),
            1 => inner.clone().prop_map(|one| Tree::Negate(one.into())),
            1 => inner.clone().prop_map(|one| Tree::Not(one.into())),
            1 => (inner.clone(), power).prop_map(|(base, power)| Tree::Power(base.into(), power)),
            1 => (path(), prop::collection::vec(input, 0..3))
                .prop_map(|(path, inputs)| Tree::Call { path: spot(path), inputs }),
            1 => (inner.clone(), inner.clone(), inner.clone())
                .prop_map(|(test, yes, no)| Tree::Branch(Box::new(Branch { test, yes, no }))),
            1 => inner.prop_map(|test| search(Which::Any, test)),
        ]
        .prop_map(node)
    })
}

fn search(which: Which, test: Node) -> Tree {
    let (row, place) = (spot("r".to_owned()), spot("copper".to_owned()));
    Tree::Search(Box::new(Search {
        which,
        row,
        place,
        test,
    }))
}

fn tree() -> impl Strategy<Value = Expression> {
    let root = prop_oneof![
        4 => inner(),
        1 => inner().prop_map(|test| node(search(Which::First, test))),
        1 => inner().prop_map(|test| node(search(Which::Last, test))),
    ];
    root.prop_map(|root| Expression {
        source: "".into(),
        root,
    })
}

/// A formula that the check accepts: what is added is made of one kind.
fn well_typed(leaves: &'static [&'static str]) -> impl Strategy<Value = String> {
    let leaf = prop::sample::select(leaves).prop_map(str::to_owned);
    leaf.prop_recursive(4, 12, 2, |inner| {
        (inner.clone(), inner, 0..12).prop_map(|(one, two, way)| match way {
            0 | 1 => format!("({one} * {two})"),
            2 | 3 => format!("{one} / ({two})"),
            4 => format!("({one} + {one} * {two} / ({two}) / 3)"),
            5 => format!("({one} - {one} * 3 * {two} / ({two}))"),
            6 => format!("sqrt(({one})^2)"),
            7 => format!("abs(-({one}))"),
            8 => format!("min({one}, {one} / 2, 3 * {one})"),
            9 => format!("up({one}, abs({one}) / 7.3)"),
            10 => format!("(if {two} > 2 * {two} or not holds then {one} else {one} / 7)"),
            _ => format!("({one})^-1"),
        })
    })
}

const LEAVES: &[&str] = &[
    "run",
    "cut_out",
    "flow",
    "supply",
    "loop_ohms",
    "ratio",
    "rise",
    "need",
    "3.7",
    "wire.pair",
    "2 in",
    "5 %",
    "4 ft/psi",
    "head.from_pressure(cut_out)",
    "(air - water)",
];
/// The same without figures that have units of their own.
const FREE: &[&str] = &[
    "run",
    "cut_out",
    "flow",
    "supply",
    "loop_ohms",
    "ratio",
    "rise",
    "3.7",
];

/// Every quantity of a bench, held in other base units: larger by these powers
/// of four. Powers of four leave no trace in a double, even under a root.
fn rescaled(values: &[Option<Value>], powers: [i32; 5]) -> Vec<Option<Value>> {
    let rescale = |value: &Option<Value>| match value {
        Some(Value::Number(quantity)) => Some(Value::Number(Quantity::new(
            quantity.si * factor(quantity.dimension.0, powers),
            quantity.dimension,
        ))),
        other => other.clone(),
    };
    values.iter().map(rescale).collect()
}

fn factor(exponents: [i8; 5], powers: [i32; 5]) -> f64 {
    let power: i32 = exponents
        .iter()
        .zip(powers)
        .map(|(own, power)| i32::from(*own) * power)
        .sum();
    libm::pow(4.0, f64::from(power))
}

fn checked(bench: &Bench, source: &str) -> Option<Formula> {
    match bench.check(source) {
        Ok(formula) => Some(formula),
        Err(fault) => {
            // Dimensions may grow out of bounds, and texts too long; no more.
            let allowed = [
                "out of bounds",
                "has more than",
                "a formula has at most",
                "deep",
            ];
            assert!(
                allowed.iter().any(|known| fault.message.contains(known)),
                "{source}: {fault}"
            );
            None
        }
    }
}

const SOUP: &[&str] = &[
    "(",
    ")",
    "-",
    "+",
    "*",
    "/",
    "^",
    "2",
    "0.5",
    "in",
    "ft",
    "%",
    " ",
    " ",
    "if ",
    " then ",
    " else ",
    " and ",
    " or ",
    "not ",
    " is ",
    "any r in copper where (",
    "first ",
    "r.pair",
    "run",
    "cut_out",
    "holds",
    "place",
    "\"",
    "\"in the well\"",
    "<",
    ">=",
    "=",
    ",",
    "up(",
    "min(",
    "1",
    "head.from_pressure(",
    "motor.",
    "full",
    "truck",
    "rule.",
    "water",
    ".",
    "é",
    "\u{0}",
    "×",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn a_tree_survives_its_print(tree in tree()) {
        let text = canonical(&tree);
        prop_assume!(text.chars().count() <= LONGEST);
        let read = parse(&text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        prop_assert_eq!(&read, &tree, "{}", text);
        prop_assert_eq!(canonical(&read), text);
    }

    #[test]
    fn a_value_has_the_dimension_foretold(source in well_typed(LEAVES)) {
        let bench = Bench::full();
        let Some(formula) = checked(&bench, &source) else { return Ok(()) };
        let Type::Quantity(dimension) = *formula.holds() else {
            return Err(TestCaseError::fail(source));
        };
        match bench.run(&formula) {
            Ok(value) => prop_assert_eq!(value.number().map(|q| q.dimension), Some(dimension)),
            Err(reason) => prop_assert_eq!(reason, NoValue::NotFinite),
        }
    }

    #[test]
    fn a_value_does_not_hang_on_the_units_held(
        source in well_typed(FREE),
        powers in prop::array::uniform5(-2_i32..3),
    ) {
        let bench = Bench::full();
        let Some(formula) = checked(&bench, &source) else { return Ok(()) };
        let Type::Quantity(dimension) = *formula.holds() else {
            return Err(TestCaseError::fail(source));
        };
        let here = bench.run(&formula);
        let there = formula.evaluate(&rescaled(&bench.values, powers), bench.basis());
        let (Ok(here), Ok(there)) = (here, there) else { return Ok(()) };
        let (here, there) = (here.number().unwrap().si, there.number().unwrap().si);
        let expected = here * factor(dimension.0, powers);
        prop_assert!(same(expected, there), "{source}: {expected} and {there}");
    }

    #[test]
    fn no_text_breaks_anything(source in any::<String>()) {
        never_breaks(&source)?;
    }

    #[test]
    fn no_heap_of_words_breaks_anything(
        words in prop::collection::vec(prop::sample::select(SOUP), 0..40),
    ) {
        never_breaks(&words.concat())?;
    }

    #[test]
    fn blanks_and_brackets_do_not_matter(source in well_typed(LEAVES)) {
        let bench = Bench::full();
        let Some(formula) = checked(&bench, &source) else { return Ok(()) };
        let wide = format!("  ( {} ) ", source.replace('(', "( ").replace(" + ", "  +\t"));
        prop_assume!(wide.len() <= LONGEST);
        let Some(wide) = checked(&bench, &wide) else { return Ok(()) };
        prop_assert_eq!(formula.canonical(), wide.canonical());
        prop_assert_eq!(formula, wide);
    }
}

fn never_breaks(source: &str) -> Result<(), TestCaseError> {
    let tree = match parse(source) {
        Ok(tree) => tree,
        Err(fault) => {
            prop_assert!(
                source.get(fault.span.clone()).is_some(),
                "{source:?}: {fault:?}"
            );
            return Ok(());
        }
    };
    let text = canonical(&tree);
    prop_assert!(
        text.chars().count() <= source.chars().count(),
        "{source} grew to {text}"
    );
    let again = parse(&text);
    prop_assert_eq!(again.as_ref(), Ok(&tree));
    let bench = Bench::full();
    match bench.check_tree(&tree) {
        Ok(formula) => drop(bench.run(&formula)),
        Err(fault) => prop_assert!(
            source.get(fault.span.clone()).is_some(),
            "{source:?}: {fault:?}"
        ),
    }
    drop(bench.figures(source).map(|formula| bench.run(&formula)));
    Ok(())
}

#[test]
fn the_cost_of_a_search_is_bounded() {
    let mut bench = Bench::full();
    let copper = Arc::clone(&bench.tables["copper"]);
    let mut large = (*copper).clone();
    large.rows = copper.rows.iter().cycle().take(500).cloned().collect();
    bench.tables.insert("copper".into(), Arc::new(large));
    let search = |conditions: usize| {
        let condition = vec!["r is r"; conditions].join(" and ");
        bench.check(&format!("first r in copper where {condition}"))
    };
    assert!(search(25).is_ok(), "99 parts times 500 rows");
    assert_eq!(
        search(26).expect_err("too much work").to_string(),
        "looks at 500 rows with a condition of 103 parts; together at most 50000; \
         remedy: shorten the condition, or split the table"
    );
}
