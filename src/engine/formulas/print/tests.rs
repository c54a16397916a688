//! What a learner reads, line by line, from made-up problems.

use super::super::fixture::{Bench, unit};
use super::super::{Formula, Value};
use super::*;
use crate::quantities::print::{figures, shortest, with_unit};

/// Figures as a lesson might print them: as short as tells the value.
struct Printed<'a>(&'a Bench);

impl Printed<'_> {
    fn value(&self, leaf: Leaf) -> (Value, Option<Unit>) {
        let value = self.0.values[leaf.slot].clone().expect("a value");
        match (leaf.column, &value) {
            (Some(at), Value::Row(row)) => (
                row.cell(at).expect("a cell").clone(),
                row.table.columns[at].unit.clone(),
            ),
            _ => (value, self.0.names[leaf.slot].unit.clone()),
        }
    }
}

impl Figures for Printed<'_> {
    fn text(&self, leaf: Leaf) -> String {
        let (value, unit) = self.value(leaf);
        super::shape::shown(&value, unit.as_ref())
    }

    fn bare(&self, leaf: Leaf, unit: &Unit) -> String {
        let (value, _) = self.value(leaf);
        shortest(unit.from_si(value.number().expect("a number").si))
    }
}

fn checked(bench: &Bench, source: &str) -> Formula {
    bench
        .check(source)
        .unwrap_or_else(|fault| panic!("{source}: {fault}"))
}

fn numbers(bench: &Bench, source: &str) -> Vec<String> {
    let formula = checked(bench, source);
    with_numbers(
        &formula,
        &bench.names,
        &bench.values,
        bench.basis(),
        &Printed(bench),
    )
}

/// Formula, in words, with numbers.
fn reads(cases: &[(&str, &str, &str)]) {
    let bench = Bench::full();
    for (source, words, figures) in cases {
        assert_eq!(
            in_words(&checked(&bench, source), &bench.names),
            *words,
            "{source}"
        );
        assert_eq!(numbers(&bench, source), [*figures], "{source}");
    }
}

#[test]
fn plain_formulas_keep_their_units() {
    reads(&[
        (
            "motor.full * loop_ohms",
            "amps × ohms in the loop",
            "8 A × 1.267 ohm",
        ),
        ("east - north", "east leg − north leg", "30 ft − 40 ft"),
        (
            "supply / (2 * loop_ohms)",
            "supply ÷ (2 × ohms in the loop)",
            "230 V ÷ (2 × 1.267 ohm)",
        ),
        (
            "needed - (cut_out - 5 psi)",
            "pressure to make − (tank pressure − 5 psi)",
            "90 psi − (50 psi − 5 psi)",
        ),
        (
            "(east + north) * 2",
            "(east leg + north leg) × 2",
            "(30 ft + 40 ft) × 2",
        ),
        (
            "sqrt(east^2 + north^2)",
            "√((east leg)² + (north leg)²)",
            "√((30 ft)² + (40 ft)²)",
        ),
        ("-run^3", "−run³", "−(320 ft)³"),
        (
            "ratio^1.852",
            "(stages before rounding)^1.852",
            "13.48^1.852",
        ),
        ("2 * -ratio", "2 × −stages before rounding", "2 × −13.48"),
        (
            "abs(east - north)",
            "|east leg − north leg|",
            "|30 ft − 40 ft|",
        ),
        (
            "rule.drop.most * supply",
            "drop allowed × supply",
            "5 % × 230 V",
        ),
        ("5 % * supply", "5 % × supply", "5 % × 230 V"),
        (
            "(tank.limit + piping.limit) / 2",
            "(tank rating + piping rating) ÷ 2",
            "(100 psi + 125 psi) ÷ 2",
        ),
        (
            "min(tank.limit, 60 psi)",
            "the smaller of rating and 60 psi",
            "the smaller of 100 psi and 60 psi",
        ),
        (
            "max(1, ratio, 3)",
            "the largest of 1, stages before rounding and 3",
            "the largest of 1, 13.48 and 3",
        ),
    ]);
}

#[test]
fn decisions_say_what_decides() {
    reads(&[
        (
            "up(ratio, 1)",
            "stages before rounding, up to a whole number",
            "13.48, up to a whole number",
        ),
        (
            "down(ratio, 1)",
            "stages before rounding, down to a whole number",
            "13.48, down to a whole number",
        ),
        (
            "near(ratio, 0.1)",
            "stages before rounding, to the nearest 0.1",
            "13.48, to the nearest 0.1",
        ),
        (
            "up(cut_out, 5 psi)",
            "tank pressure, up to the next 5 psi",
            "50 psi, up to the next 5 psi",
        ),
        (
            "2 * up(ratio, 1)",
            "2 × (stages before rounding, up to a whole number)",
            "2 × (13.48, up to a whole number)",
        ),
        (
            "total_head >= 100 ft",
            "total head ≥ 100 ft",
            "300 ft ≥ 100 ft",
        ),
        (
            "place is \"in the well\"",
            "where is \"in the well\"",
            "where is in the well",
        ),
        (
            "if run > 1 ft and holds then 2 * run else east",
            "2 × run if run > 1 ft and does it hold, otherwise east leg",
            "since 320 ft > 1 ft and yes, 2 × 320 ft",
        ),
        (
            "if run < 1 ft then run else east",
            "run if run < 1 ft, otherwise east leg",
            "since 320 ft ≥ 1 ft, 30 ft",
        ),
    ]);
    let bench = Bench::full();
    let formula = checked(&bench, "if run < 1 ft then run else east");
    assert_eq!(
        in_words_taken(&formula, &bench.names, &bench.values, bench.basis()),
        "since run ≥ 1 ft, east leg"
    );
}

#[test]
fn calculations_show_their_law() {
    reads(&[
        (
            "head.from_pressure(cut_out)",
            "2.31 × tank pressure",
            "2.31 × 50",
        ),
        (
            "head.from_pressure(needed - cut_out)",
            "2.31 × (pressure to make − tank pressure)",
            "2.31 × 40",
        ),
        ("head.from_pressure(50 psi)", "2.31 × 50 psi", "2.31 × 50"),
        (
            "(total_head - head.from_pressure(cut_out)) / (12 ft)",
            "(total head − 2.31 × tank pressure) ÷ 12 ft",
            "(300 ft − (2.31 × 50) ft) ÷ 12 ft",
        ),
        (
            "cable.loop_ohms(wire.pair, run)",
            "ohms per 100 ft × run ÷ 100",
            "0.338 × 320 ÷ 100",
        ),
    ]);
}

#[test]
fn a_law_has_letters_with_a_legend() {
    let bench = Bench::full();
    let formula = checked(&bench, "cable.loop_ohms(wire.pair, run)");
    let (law, legend) = in_letters(&formula, &bench.names).expect("a shown law");
    assert_eq!(law, "r × l ÷ 100");
    let pair = |letter: &str, label: &str| (letter.to_owned(), label.to_owned());
    assert_eq!(legend, [pair("r", "ohms per 100 ft"), pair("l", "run")]);
    assert_eq!(
        in_letters(&checked(&bench, "run + 1 ft"), &bench.names),
        None
    );
    let function = pumpwright_calc::registry::find("head.from_pressure").expect("there");
    assert_eq!(law_words(function, System::Us), "2.31 × pressure");
    assert_eq!(law_words(function, System::Si), "pressure ÷ 9.81");
}

#[test]
fn a_search_tells_its_trials() {
    let bench = Bench::full();
    let source = "first w in copper where w.pair <= allowed and w.ampacity >= need";
    assert_eq!(
        in_words(&checked(&bench, source), &bench.names),
        "the first size with ohms per 100 ft ≤ ohms allowed and ampacity ≥ ampacity needed"
    );
    assert_eq!(
        numbers(&bench, source),
        [
            "AWG 14: 0.544, more than 0.228.",
            "AWG 12: 0.338, more than 0.228.",
            "AWG 10: 0.214, passes; 30 A, passes.",
        ]
    );
    assert_eq!(
        numbers(
            &bench,
            "first w in copper where w.ampacity >= 1.25 * motor.plate and w.pair < 0.3 ohm/100ft"
        ),
        [
            "AWG 14: 15 A, passes; 0.544, not less than 0.3.",
            "AWG 12: 20 A, passes; 0.338, not less than 0.3.",
            "AWG 10: 30 A, passes; 0.214, passes.",
        ]
    );
    assert_eq!(
        numbers(
            &bench,
            "first v in truck where v.setting >= cut_out + 35 psi"
        ),
        [
            "60 psi: less than 85 psi.",
            "80 psi: less than 85 psi.",
            "90 psi: passes."
        ]
    );
    assert_eq!(
        numbers(
            &bench,
            "first b in rule.bands where b.place is place and reading >= b.least"
        ),
        [
            "as good as new: 2 megohm, more than 1.2 megohm.",
            "in good order: 0.5 megohm, passes."
        ]
    );
    assert_eq!(
        numbers(
            &bench,
            "first r in setbacks where r.sheet is field.sheet and r.from is \"septic tank\""
        ),
        ["hill county: septic tank."]
    );
    assert_eq!(
        numbers(&bench, "last w in copper where w.pair > wire.pair"),
        [
            "AWG 8: 0.135, not more than 0.338.",
            "AWG 10: 0.214, not more than 0.338.",
            "AWG 12: 0.338, not more than 0.338.",
            "AWG 14: 0.544, passes.",
        ]
    );
}

#[test]
fn figures_stay_bare() {
    let bench = Bench::full();
    let formula = bench
        .figures("2.31 * needed / rule.stage.pressure")
        .expect("sound");
    let printed = with_numbers(
        &formula,
        &bench.names,
        &bench.values,
        bench.basis(),
        &Printed(&bench),
    );
    assert_eq!(printed, ["2.31 × 90 ÷ 9"]);
    assert_eq!(
        in_words(&formula, &bench.names),
        "2.31 × pressure to make ÷ psi a stage"
    );
}

#[test]
fn long_lines_break_before_a_sign() {
    assert_eq!(
        break_at_signs("aaaa + bbbb × cccc", 80),
        ["aaaa + bbbb × cccc"]
    );
    assert_eq!(
        break_at_signs("aaaa + bbbb × cccc", 12),
        ["aaaa + bbbb", "× cccc"]
    );
    assert_eq!(
        break_at_signs("aaaa + bbbb × cccc", 4),
        ["aaaa", "+ bbbb", "× cccc"]
    );
    assert_eq!(break_at_signs("no sign here", 4), ["no sign here"]);
}

#[test]
fn a_printed_figure_is_one_that_was_asked_for() {
    // The caller's figures stand in the line, not the value behind them.
    struct Rough<'a>(Printed<'a>);
    impl Figures for Rough<'_> {
        fn text(&self, leaf: Leaf) -> String {
            let (value, unit) = self.0.value(leaf);
            let unit = unit.expect("a unit");
            let figure = unit.from_si(value.number().expect("a number").si);
            with_unit(&figures(figure, 2), &unit, figure)
        }
        fn bare(&self, leaf: Leaf, unit: &Unit) -> String {
            figures(
                unit.from_si(self.0.value(leaf).0.number().expect("a number").si),
                2,
            )
        }
    }
    let bench = Bench::full();
    let rough = Rough(Printed(&bench));
    let line = |source: &str| {
        with_numbers(
            &checked(&bench, source),
            &bench.names,
            &bench.values,
            bench.basis(),
            &rough,
        )
    };
    assert_eq!(line("motor.full * loop_ohms"), ["8.0 A × 1.3 ohm"]);
    assert_eq!(
        line("cable.loop_ohms(wire.pair, run)"),
        ["0.34 × 320 ÷ 100"]
    );
    assert_eq!(
        rough.bare(
            Leaf {
                slot: 7,
                column: None
            },
            &unit("in")
        ),
        "3800"
    );
}

/// The pieces of a formula with its numbers, formulas in `$`, and what is read aloud.
fn set(source: &str) -> (String, String) {
    let bench = Bench::full();
    let formula = checked(&bench, source);
    let lines = typeset_numbers(
        &formula,
        &bench.names,
        &bench.values,
        bench.basis(),
        &Printed(&bench),
    );
    let mut shown = String::new();
    let mut said = Vec::new();
    for piece in lines.into_iter().flatten() {
        match piece {
            Piece::Prose(text) => shown.push_str(&text),
            Piece::Formula { typeset, spoken } => {
                shown.extend(["$", &typeset, "$"]);
                said.push(spoken);
            }
        }
    }
    (shown, said.join(" / "))
}

#[test]
fn formulas_are_set_and_read_aloud() {
    for (source, shown, said) in [
        (
            "motor.full * loop_ohms",
            "$\"8 A\" times \"1.267 ohm\"$",
            "eight amperes times one point two six seven ohms",
        ),
        (
            "supply / (2 * loop_ohms)",
            "$frac(\"230 V\", \"2\" times \"1.267 ohm\")$",
            "two hundred thirty volts divided by open bracket two times one point two six \
             seven ohms close bracket",
        ),
        (
            "(supply / 2) / (loop_ohms / 3)",
            "$frac(\"230 V\" div \"2\", \"1.267 ohm\" div \"3\")$",
            "two hundred thirty volts divided by two divided by open bracket one point two \
             six seven ohms divided by three close bracket",
        ),
        (
            "sqrt(east^2 + north^2)",
            "$sqrt((\"30 ft\")^\"2\" + (\"40 ft\")^\"2\")$",
            "the square root of open bracket thirty feet squared plus forty feet squared \
             close bracket",
        ),
        (
            "needed - (cut_out - 5 psi)",
            "$\"90 psi\" - (\"50 psi\" - \"5 psi\")$",
            "ninety pounds per square inch minus open bracket fifty pounds per square inch \
             minus five pounds per square inch close bracket",
        ),
        (
            "2 * up(ratio, 1)",
            "$\"2\" times (\"13.48\"\", up to a whole number\")$",
            "two times open bracket thirteen point four eight, up to a whole number close \
             bracket",
        ),
        (
            "if run < 1 ft then run else east",
            "since $\"320 ft\" >= \"1 ft\"$, 30 ft",
            "three hundred twenty feet is at least one foot",
        ),
        (
            "min(tank.limit, 2 * cut_out)",
            "the smaller of 100 psi and $\"2\" times \"50 psi\"$",
            "two times fifty pounds per square inch",
        ),
        (
            "min(tank.limit, 60 psi)",
            "the smaller of 100 psi and 60 psi",
            "",
        ),
    ] {
        assert_eq!(set(source), (shown.to_owned(), said.to_owned()), "{source}");
    }
}
