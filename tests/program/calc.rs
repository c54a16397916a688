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
