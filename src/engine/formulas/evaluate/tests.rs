//! Every operator on known values. Expected figures are worked by hand beside
//! the case; unit factors are exact by definition.

use std::sync::Arc;

use super::super::fixture::{Bench, unit};
use super::super::{NoValue, Type, Value, same};
use crate::quantities::{Dimension, Quantity, System};

/// Formula, unit ("" for a plain number), figure.
fn gives(cases: &[(&str, &str, f64)]) {
    let bench = Bench::full();
    for (source, text, figure) in cases {
        let value = bench.in_figures(source, text);
        assert!(
            same(value, *figure),
            "{source} gives {value} {text}, not {figure}"
        );
    }
}

fn says(cases: &[(&str, bool)]) {
    let bench = Bench::full();
    for (source, truth) in cases {
        assert_eq!(bench.value(source), Value::Truth(*truth), "{source}");
    }
}

#[test]
fn arithmetic() {
    gives(&[
        ("total_head + run", "ft", 620.0),
        ("total_head - run", "ft", -20.0),
        ("10 - 3 - 2", "", 5.0),
        ("10 - (3 - 2)", "", 9.0),
        ("24 / 4 / 2", "", 3.0),
        ("24 / (4 / 2)", "", 12.0),
        ("2 + 3 * 4", "", 14.0),
        ("(2 + 3) * 4", "", 20.0),
        ("-2^2", "", -4.0),
        ("(-2)^2", "", 4.0),
        ("--2", "", 2.0),
        ("2^-1", "", 0.5),
        ("(run / 1 ft)^0.5", "", 320.0_f64.sqrt()),
        ("2 * -3", "", -6.0),
        ("sqrt(east^2 + north^2)", "ft", 50.0),
        ("abs(east - north)", "ft", 10.0),
        ("supply / (2 * loop_ohms)", "A", 230.0 / 2.534),
        ("needed / rule.stage.pressure", "", 10.0),
        ("rule.drop.most * supply", "V", 11.5),
        ("5 % * supply", "V", 11.5),
        ("allowed * run", "ohm", 0.228 * 3.2),
        ("10 ft/psi * cut_out", "ft", 500.0),
        ("2 in * 6", "ft", 1.0),
        ("10 ft / 2", "ft", 5.0),
        ("12 in / 1 ft", "", 1.0),
        ("2 ft^2 / 1 ft", "ft", 2.0),
        ("2 ft ^2 / 1 ft", "ft", 4.0),
        ("1000000 * 1 ohm", "megohm", 1.0),
    ]);
}

#[test]
fn rounding_and_extremes() {
    gives(&[
        ("up(ratio, 1)", "", 14.0),
        ("down(ratio, 1)", "", 13.0),
        ("near(ratio, 1)", "", 13.0),
        ("near(ratio, 0.1)", "", 13.5),
        ("up(cut_out + 1 psi, 5 psi)", "psi", 55.0),
        ("up(190 ft / 19 ft, 1)", "", 10.0),
        ("down(-2.5, 1)", "", -3.0),
        ("near(2.5, 1)", "", 3.0),
        ("min(tank.limit, piping.limit)", "psi", 100.0),
        ("max(tank.limit, piping.limit, 5 psi)", "psi", 125.0),
    ]);
}

#[test]
fn comparisons_snap() {
    says(&[
        ("0.1 + 0.2 <= 0.3", true),
        ("0.1 + 0.2 > 0.3", false),
        ("0.3 < 0.1 + 0.2", false),
        ("0.1 + 0.2 - 0.3 >= 0", true),
        ("0.1 + 0.2 - 0.3 > 0", false),
        ("12 in >= 1 ft", true),
        ("12 in < 1 ft", false),
        ("1.00001 > 1", true),
        ("place is \"in the well\"", true),
        ("place is not \"in the well\"", false),
        ("holds is holds", true),
        ("motor is motor", true),
        (
            "field.from is \"drainfield\" and not (field.from is \"septic tank\")",
            true,
        ),
        ("any r in motors where (r is motor)", true),
        ("not any r in copper where (r.ampacity > 40 A)", true),
        ("any v in truck where (v.setting > 100 psi)", true),
        ("any v in truck where (v.setting >= v.setting)", true),
        ("run < 1 ft or run > 1 ft", true),
        ("not holds or holds and holds", true),
    ]);
}

#[test]
fn branches_evaluate_only_what_is_taken() {
    gives(&[
        ("if run > 1 ft then 2 else 1 / 0", "", 2.0),
        (
            "if run < 1 ft then 1 / 0 else if holds then 3 else 4",
            "",
            3.0,
        ),
        ("1 + (if holds then 1 else 2)", "", 2.0),
    ]);
    says(&[
        ("holds or 1 / 0 > 1", true),
        ("not holds and 1 / 0 > 1", false),
    ]);
}

#[test]
fn temperatures_are_points() {
    gives(&[
        ("air - water", "Fdeg", 40.0),
        ("water + rise", "degF", 68.0),
        ("rise + water", "degC", 20.0),
        ("water - 9 Fdeg", "degC", 5.0),
        ("max(air, water)", "degF", 90.0),
        ("-40 degF", "degC", -40.0),
        ("2 * (air - water)", "Cdeg", 40.0 / 1.8 * 2.0),
    ]);
    says(&[("water < 20 degC", true), ("water >= 10 degC", true)]);
}

#[test]
fn searches_walk_the_table_in_order() {
    let bench = Bench::full();
    let key = |source: &str| bench.value(source).row().and_then(|row| row.key().cloned());
    let word = |text: &str| Some(Value::Word(text.into()));
    let size = "first w in copper where w.pair <= allowed and w.ampacity >= need";
    assert_eq!(key(size), word("AWG 10"));
    assert_eq!(
        key("last w in copper where w.pair > wire.pair"),
        word("AWG 14")
    );
    assert_eq!(
        key("last w in copper where w.pair <= 0.97 * allowed"),
        word("AWG 8")
    );
    let band = "first b in rule.bands where b.place is place and reading >= b.least";
    assert_eq!(key(band), word("in good order"));
    let psi = |figure: f64| unit("psi").to_si(figure);
    let valve = bench.value("first v in truck where v.setting >= cut_out + 35 psi");
    let setting = valve.row().and_then(|row| row.cell(0)?.number());
    assert_eq!(setting, Some(Quantity::new(psi(90.0), Dimension::PRESSURE)));
}

#[test]
fn calls_take_the_basis_of_the_draw() {
    let mut bench = Bench::full();
    assert!(same(
        bench.in_figures("head.from_pressure(cut_out)", "ft"),
        115.5
    ));
    assert!(same(
        bench.in_figures("head.from_pressure(pressure = cut_out) / 2", "ft"),
        57.75
    ));
    bench.system = System::Si;
    assert!(same(
        bench.in_figures("head.from_pressure(98.1 kPa)", "m"),
        10.0
    ));
}

#[test]
fn calls_take_and_give_words() {
    let mut bench = Bench::full();
    let source = "insulation.band(resistance = reading, place = \"in the well with its cable\")";
    assert_eq!(bench.value(source), Value::Word("good condition".into()));
    bench.system = System::Si;
    // Of two lengths, each by its name: 3 and 4 make 5.
    let distance = "siting.distance(north = 4 m, east = 3 m)";
    assert!(same(bench.in_figures(distance, "m"), 5.0));
}

#[test]
fn what_gives_no_value_says_why() {
    let mut bench = Bench::full();
    let reason = |bench: &Bench, source: &str| {
        bench
            .run(&bench.check(source).expect(source))
            .expect_err(source)
    };
    let none = reason(&bench, "first r in copper where r.ampacity > 99 A");
    assert_eq!(none.to_string(), "no row of copper fits");
    for source in [
        "1 / 0",
        "sqrt(-1)",
        "0 / 0",
        "10^300 * 10^300",
        "(-8)^0.5",
        "up(1, 1 - 1)",
    ] {
        assert_eq!(reason(&bench, source), NoValue::NotFinite, "{source}");
    }
    let refused = reason(&bench, "head.from_pressure(1000 * cut_out)");
    let sentence = "pressure is 50000 psi; it must be -14.7 to 10000 psi";
    assert!(
        matches!(
            &refused,
            NoValue::Refused {
                function: "head.from_pressure",
                ..
            }
        ),
        "{refused:?}"
    );
    assert_eq!(refused.to_string(), sentence);
    let word = reason(
        &bench,
        "insulation.band(resistance = reading, place = place)",
    );
    assert_eq!(
        word.to_string(),
        "\"in the well\" is none of: on the bench, in the well with its cable"
    );
    let formula = bench.check("needed + cut_out").expect("sound");
    let slot = *formula.slots().first().expect("a slot");
    bench.values[slot] = None;
    assert_eq!(bench.run(&formula), Err(NoValue::Missing { slot }));
    bench.values[slot] = Some(Value::Truth(true));
    assert_eq!(bench.run(&formula), Err(NoValue::OfAnotherKind));
    bench.values[slot] = Some(Value::Number(Quantity::plain(1.0)));
    assert_eq!(bench.run(&formula), Err(NoValue::OfAnotherKind));
    assert_eq!(
        formula.evaluate(&[], bench.basis()),
        Err(NoValue::Missing { slot })
    );
}

#[test]
fn figures_are_read_as_printed() {
    let bench = Bench::full();
    let gives = |source: &str, figure: f64| {
        let formula = bench.figures(source).expect(source);
        assert_eq!(formula.holds(), &Type::Quantity(Dimension::NONE));
        let value = bench.run(&formula).expect(source).number().expect(source);
        assert!(same(value.si, figure), "{source} gives {}", value.si);
    };
    gives("2.31 * needed / rule.stage.pressure", 23.1);
    gives("cut_out + total_head", 350.0);
    gives("wire.pair * run / 100", 0.338 * 3.2);
    gives("rule.drop.most * supply", 1150.0);
    gives("water + 1", 51.0);
    gives("up(ratio, 1)", 14.0);
}

#[test]
fn a_formula_tells_what_it_uses() {
    let bench = Bench::full();
    let size = bench
        .check("first w in copper where w.pair <= allowed")
        .expect("sound");
    let used: Vec<&str> = size
        .slots()
        .iter()
        .map(|&at| bench.names[at].name.as_str())
        .collect();
    assert_eq!(used, ["allowed"]);
    assert_eq!(size.holds(), &Type::Row("copper".into()));
    assert_eq!(
        size.tables().iter().map(Arc::as_ref).collect::<Vec<_>>(),
        ["copper"]
    );
    assert!(size.decides());
    let call = bench
        .check("total_head - head.from_pressure(cut_out)")
        .expect("sound");
    assert_eq!(
        call.calls()
            .map(|function| function.name)
            .collect::<Vec<_>>(),
        ["head.from_pressure"]
    );
    assert!(!call.decides());
    for source in [
        "up(ratio, 1)",
        "run > 1 ft",
        "if holds then 1 else 2",
        "holds and holds",
    ] {
        assert!(bench.check(source).expect(source).decides(), "{source}");
    }
    assert!(!bench.check("2 * up(ratio, 1)").expect("sound").decides());
}
