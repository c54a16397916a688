//! The formulas from the command line.

use pumpwright_calc::registry::{self, Kind};

use crate::schema::{held, schema};
use crate::started::{finish, printed, program, refused};

#[test]
fn the_list_names_every_formula() {
    let list = printed(&["calc"]);
    for function in registry::functions() {
        assert!(
            list.contains(function.name),
            "{} is not in\n{list}",
            function.name
        );
    }
}

#[test]
fn a_formula_without_numbers_is_described() {
    for function in registry::functions() {
        for units in ["us", "si"] {
            let page = printed(&["calc", function.name, "--units", units]);
            for input in function.inputs {
                assert!(
                    page.contains(input.name),
                    "{} is not in\n{page}",
                    input.name
                );
            }
            assert!(
                page.contains("source   ") && page.contains("valid    "),
                "{page}"
            );
        }
    }
}

/// 2.31 ft of head a psi: common practice, no source.
#[test]
fn a_formula_is_worked_with_the_numbers_put_in() {
    let page = printed(&["calc", "head.from_pressure", "pressure=40 psi"]);
    for line in ["given    pressure = 40 psi", "result   head = 92.40 ft"] {
        assert!(
            page.lines().any(|own| own == line),
            "{line} is not in\n{page}"
        );
    }
    assert!(page.contains("2.31 × 40"), "{page}");
    assert_eq!(
        page,
        printed(&["calc", "head.from_pressure", "pressure=40"])
    );
}

#[test]
fn an_input_is_read_in_its_own_unit_and_with_the_decimal_sign_asked_for() {
    let point = printed(&["calc", "head.from_pressure", "pressure=27.5 psi"]);
    let comma = printed(&[
        "--decimal",
        "comma",
        "calc",
        "head.from_pressure",
        "pressure=27,5",
    ]);
    assert_eq!(point, comma);
    let bar = printed(&["calc", "head.from_pressure", "pressure=275.79 kPa"]);
    assert!(bar.contains("head = 92.4"), "{bar}");
}

#[test]
fn what_is_wrong_with_an_input_is_said_in_one_sentence() {
    let of = |input| ["calc", "head.from_pressure", input];
    refused(
        &["calc", "head.from_presure", "pressure=40"],
        2,
        "there is no formula \"head.from_presure\"; near it: head.from_pressure, head.from_pressure_at_density, head.to_pressure",
    );
    refused(&of("40"), 2, "\"40\" has no \"=\"; write it as INPUT=VALUE");
    refused(
        &of("presure=40"),
        2,
        "head.from_pressure has no input \"presure\"; it has: pressure (psi)",
    );
    refused(
        &of("pressure=40 ft"),
        2,
        "pressure is \"40 ft\", a unit of another kind; it must be in psi, or a unit of the same kind",
    );
    refused(
        &of("pressure=forty"),
        2,
        "pressure: cannot read this as a quantity: \"forty\" is no number (character 1); \
         write the number first, then its unit",
    );
    refused(
        &["calc", "head.from_pressure", "pressure=4", "pressure=5"],
        2,
        "the input pressure is given twice; give it once",
    );
}

/// A span is told in the unit asked for and beside the input's own name; a formula that is
/// not there is looked for by a part of its name.
#[test]
fn a_refusal_speaks_of_the_input_in_the_unit_asked_for() {
    let wide = ["length=100", "bore=26.6", "flow=30 L/min", "c=150"];
    let si = ["calc", "friction.hazen_williams", "--units", "si"];
    refused(
        &[&si[..], &wide[..]].concat(),
        2,
        "bore (inside diameter) is 26.6 m; it must be 0.00254 to 2.54 m",
    );
    let level = ["static_level=-600", "flow=10", "specific_capacity=1"];
    refused(
        &[&["calc", "well.pumping_level"], &level[..]].concat(),
        2,
        "static_level (static level) is -600 ft; it must be -500 to 10000 ft",
    );
    refused(
        &["calc", "head.total", "lift=120 ft"],
        2,
        "head.total also needs rise, pressure_head, friction; \
         it has: lift (ft), rise (ft), pressure_head (ft), friction (ft)",
    );
}

#[test]
fn sizes_and_words_are_taken_as_people_write_them() {
    let has = |arguments: &[&str], line: &str| {
        let page = printed(&[&["calc"], arguments].concat());
        assert!(
            page.lines().any(|own| own == line),
            "{line} is not in\n{page}"
        );
    };
    let table = "conductor.table_ohms";
    has(
        &[table, "awg=2/0", "construction=Stranded"],
        "given    awg = 2/0 AWG",
    );
    let smallest = ["cable_size.smallest_for_amps", "amps=140", "column=75degC"];
    has(&smallest, "result   awg = 1/0 AWG");
    let motor = ["motor.single_phase_amps", "power=1.5hp", "volts=230"];
    has(&motor, "given    power = 1-1/2 hp");
    let place = ["insulation.band", "resistance=300 kohm", "place=well"];
    has(&place, "result   condition = insulation damage");
    has(&place, "given    resistance = 300 kohm = 0.3 megohm");
    has(
        &["pump.stages", "head=340", "stage_head=21"],
        "result   stages = 17 stages",
    );
    let dose = [
        "chlorine.powder",
        "volume=300",
        "dose=100 ppm",
        "strength=65",
    ];
    has(&dose, "given    dose = 100 ppm = 100 mg/L");
}

#[test]
fn json_holds_to_its_schema() {
    let (formulas, worked) = (schema("formulas"), schema("worked"));
    for units in ["us", "si"] {
        let list = held(&formulas, &printed(&["calc", "--json", "--units", units]));
        let names = list["formulas"].as_array().expect("a list");
        assert_eq!(names.len(), registry::functions().count());
    }
    let one = held(
        &worked,
        &printed(&["calc", "head.from_pressure", "pressure=40", "--json"]),
    );
    assert_eq!(one["result"]["text"], "92.40 ft");
    assert_eq!(one["numbers"], "2.31 × 40");
}

#[test]
fn a_missing_input_is_named_with_what_the_formula_has() {
    let several = registry::functions()
        .find(|function| function.inputs.len() > 1)
        .expect("a formula of two inputs");
    let [first, second, ..] = several.inputs else {
        panic!("two inputs")
    };
    let value = match first.kind {
        Kind::Word(words) => words[0],
        Kind::Quantity(_) | Kind::Temperature => "1",
    };
    let run = crate::started::run(&["calc", several.name, &format!("{}={value}", first.name)]);
    let sentence = format!(
        "error: {} also needs {}; it has: {}",
        several.name, second.name, first.name
    );
    assert_eq!(run.code, 2);
    assert!(run.err.starts_with(&sentence), "{}", run.err);
}

#[test]
fn signs_are_ascii_where_the_locale_is_or_where_it_is_asked_for() {
    let arguments = ["calc", "head.from_pressure", "pressure=40"];
    let c = finish(program(&arguments).env("LC_ALL", "C"));
    assert!(c.out.is_ascii() && c.out.contains("2.31 * 40"), "{}", c.out);
    let asked = printed(&["--ascii", "calc", "head.from_pressure", "pressure=40"]);
    assert_eq!(asked, c.out);
}

/// The page is kept beside the calculations, for whoever reads the sources.
#[test]
fn the_reference_page_is_the_one_kept() {
    let kept = concat!(env!("CARGO_MANIFEST_DIR"), "/src/calc/REFERENCE.md");
    let kept = std::fs::read_to_string(kept).expect("the reference page");
    let printed = printed(&["calc", "--page"]);
    assert!(kept.lines().eq(printed.lines()));
    let clash = crate::started::run(&["calc", "--page", "head.total"]);
    assert_eq!(clash.code, 2, "{}", clash.err);
}
