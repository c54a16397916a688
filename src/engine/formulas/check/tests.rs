//! Every refusal, whole, and the bytes that it points at.

use super::super::fixture::Bench;

/// Of each formula: what its refusal points at, and all that it says.
fn refuses(cases: &[(&str, &str, &str)]) {
    for (source, at, says) in cases {
        let fault = Bench::full().check(source).expect_err(source);
        let pointed = source.get(fault.span.clone()).unwrap_or("no part of it");
        assert_eq!(
            (pointed, fault.to_string().as_str()),
            (*at, *says),
            "{source}"
        );
    }
}

#[test]
fn names_that_are_not_there() {
    refuses(&[
        (
            "flwo * 2",
            "flwo",
            "uses \"flwo\", which this problem does not have; it has: needed, cut_out, total_head, run, east, north, flow, supply, loop_ohms, allowed, \
         need, ratio, reading, water, air, rise, place, motor, wire, tank, piping, field, truck, holds; remedy: write \"flow\"",
        ),
        (
            "rule.stage.presure",
            "rule.stage.presure",
            "uses \"rule.stage.presure\", which this problem does not have; it has: rule.stage.pressure, rule.drop.most, rule.sheet, rule.bands; remedy: write \"rule.stage.pressure\"",
        ),
        (
            "motr.full",
            "motr.full",
            "uses \"motr.full\", which this problem does not have; it has: needed, cut_out, total_head, run, east, north, flow, supply, loop_ohms, allowed, \
         need, ratio, reading, water, air, rise, place, motor, wire, tank, piping, field, truck, holds; remedy: write \"motor.full\"",
        ),
        (
            "motor.ful",
            "motor.ful",
            "asks for \"ful\" of \"motor\", which is a row of motors; it has: motor.name, motor.plate, motor.full; remedy: write \"motor.full\"",
        ),
        (
            "motor + 1 A",
            "motor + 1 A",
            "adds an electric current to a row of motors; remedy: name a column of the row, as in \"motor.full\"",
        ),
        (
            "run.full",
            "run.full",
            "asks for \"full\" of \"run\", which is a length; remedy: write \"run\"",
        ),
        (
            "last_step + run",
            "last_step",
            "uses \"last_step\", which stands later; remedy: use what stands above, or move this below \"last_step\"",
        ),
        (
            "last_step.x",
            "last_step.x",
            "uses \"last_step\", which stands later; remedy: use what stands above, or move this below \"last_step\"",
        ),
        (
            "copper",
            "copper",
            "uses the table \"copper\" as a value; remedy: pick a row of it, as in 'first r in copper where ...'",
        ),
        (
            "copper.pair",
            "copper.pair",
            "uses the table \"copper\" as a value; remedy: pick a row of it, as in 'first r in copper where ...'",
        ),
        (
            "truck.setting",
            "truck.setting",
            "asks for \"setting\" of \"truck\", which is a set of rows of valves; remedy: pick a row first, as in 'first r in truck where ...'",
        ),
    ]);
}
#[test]
fn searches_that_find_no_place() {
    refuses(&[
        (
            "first r in coper where r.pair < 1 ohm/100ft",
            "coper",
            "searches \"coper\", which is neither a table nor a set of rows; it has: rule.bands, truck, bands, copper, motors, ratings, setbacks, valves; remedy: write \"copper\"",
        ),
        (
            "first r in motor where r.full > 1 A",
            "motor",
            "searches \"motor\", which is a row of motors; remedy: search a table or a set of rows",
        ),
        (
            "first run in copper where run.pair > 1 ohm/100ft",
            "run",
            "calls the row \"run\", which is a name already; remedy: take another name for the row",
        ),
        (
            "first r in copper where r.par > 1 ohm/100ft",
            "r.par",
            "asks for \"par\" of \"r\", which is a row of copper; it has: r.name, r.pair, r.ampacity; remedy: write \"r.pair\"",
        ),
        (
            "first r in copper where r.pair",
            "r.pair",
            "has a resistance for a length where \"where\" needs a yes or no; remedy: compare it, as in \"a > b\"",
        ),
        (
            "first r in copper where any q in motors where (q.full > 3 A)",
            "any q in motors where (q.full > 3 A)",
            "searches inside a search; remedy: let the inner search be a step of its own",
        ),
        (
            "any r in copper where (r.ampacity)",
            "r.ampacity",
            "has an electric current where \"where\" needs a yes or no; remedy: compare it, as in \"a > b\"",
        ),
    ]);
}
#[test]
fn words_that_no_row_has() {
    refuses(&[
        (
            "first r in copper where r.name is \"AWG 13\"",
            "\"AWG 13\"",
            "has \"AWG 13\", which no row of copper has as \"name\"; it has: AWG 14, AWG 12, AWG 10, AWG 8; remedy: write \"AWG 10\"",
        ),
        (
            "field.from is \"drain field\"",
            "\"drain field\"",
            "has \"drain field\", which no row of setbacks has as \"from\"; it has: drainfield, septic tank; remedy: write \"drainfield\"",
        ),
        (
            "field.sheet is \"nowhere\"",
            "\"nowhere\"",
            "has \"nowhere\", which no row of setbacks has as \"sheet\"; it has: hill county, lake county",
        ),
    ]);
}
#[test]
fn sums_of_unlike_things() {
    refuses(&[
        (
            "run + cut_out",
            "run + cut_out",
            "adds a pressure to a length; remedy: turn one of them into the other first, with head.from_pressure",
        ),
        (
            "run - cut_out",
            "run - cut_out",
            "takes a pressure from a length; remedy: turn one of them into the other first, with head.from_pressure",
        ),
        (
            "run + 3",
            "run + 3",
            "adds a plain number to a length; remedy: give the number a unit, as in \"3 ft\"",
        ),
        (
            "3 + run",
            "3 + run",
            "adds a length to a plain number; remedy: give the number a unit, as in \"3 ft\"",
        ),
        (
            "needed - loop_ohms",
            "needed - loop_ohms",
            "takes a resistance from a pressure; remedy: only what is of one kind can stand together here",
        ),
        (
            "run + motor",
            "run + motor",
            "adds a row of motors to a length; remedy: name a column of the row, as in \"motor.full\"",
        ),
        (
            "run + place",
            "run + place",
            "adds a word to a length; remedy: a word can only be compared, by \"is\" or \"is not\"",
        ),
        (
            "run + holds",
            "run + holds",
            "adds a yes or no to a length; remedy: to choose between two values write \"if a > b then a else b\"",
        ),
        (
            "run * holds",
            "run * holds",
            "multiplies a length by a yes or no; remedy: to choose between two values write \"if a > b then a else b\"",
        ),
        (
            "run * place",
            "run * place",
            "multiplies a length by a word; remedy: a word can only be compared, by \"is\" or \"is not\"",
        ),
        (
            "run / truck",
            "run / truck",
            "divides a length by a set of rows of valves; remedy: pick a row first, as in 'first r in truck where ...'",
        ),
    ]);
}
#[test]
fn points_on_a_scale() {
    refuses(&[
        (
            "water + air",
            "water + air",
            "adds a temperature to a temperature; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
        (
            "water + 3",
            "water + 3",
            "adds a plain number to a temperature; remedy: give the number a unit, as in \"3 Fdeg\"",
        ),
        (
            "3 - water",
            "3 - water",
            "takes a temperature from a plain number; remedy: give the number a unit, as in \"3 degF\"",
        ),
        (
            "2 / water",
            "2 / water",
            "divides a plain number by a temperature; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
        (
            "water * 2",
            "water * 2",
            "multiplies a temperature by a plain number; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
        (
            "-water",
            "-water",
            "turns the sign of a temperature; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
        (
            "water + run",
            "water + run",
            "adds a length to a temperature; remedy: only what is of one kind can stand together here",
        ),
        (
            "rise - water",
            "rise - water",
            "takes a temperature from a temperature interval; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
        (
            "abs(water)",
            "abs(water)",
            "takes the size of a temperature; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
        (
            "up(water, 1 degF)",
            "up(water, 1 degF)",
            "rounds a temperature; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
        (
            "min(water, rise)",
            "min(water, rise)",
            "takes the least of a temperature and a temperature interval; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
    ]);
}
#[test]
fn powers_roots_and_grids() {
    refuses(&[
        (
            "run^0.5",
            "run^0.5",
            "raises a length to a broken power; remedy: a broken power needs a plain number, as in \"(a / 1 ft)^0.5\"",
        ),
        (
            "motor^2",
            "motor^2",
            "raises a row of motors to a power; remedy: name a column of the row, as in \"motor.full\"",
        ),
        (
            "sqrt(run)",
            "sqrt(run)",
            "takes the root of a length; remedy: a root needs an even power, as in \"sqrt(a^2)\", or a plain number",
        ),
        (
            "sqrt(flow)",
            "sqrt(flow)",
            "takes the root of a flow; remedy: a root needs an even power, as in \"sqrt(a^2)\", or a plain number",
        ),
        (
            "sqrt(place)",
            "sqrt(place)",
            "takes the root of a word; remedy: a word can only be compared, by \"is\" or \"is not\"",
        ),
        (
            "abs(place)",
            "abs(place)",
            "takes the size of a word; remedy: a word can only be compared, by \"is\" or \"is not\"",
        ),
        (
            "run^127 * run^2",
            "run^127 * run^2",
            "gives a power of a unit that is out of bounds",
        ),
        (
            "up(run, 1)",
            "1",
            "rounds a length on a grid that is a plain number; remedy: give the number a unit, as in \"1 ft\"",
        ),
        (
            "up(run)",
            "up(run)",
            "\"up\" takes a value and a grid; here are 1; remedy: write it as in \"up(a, 1)\"",
        ),
        (
            "up(1, 0)",
            "0",
            "rounds on a grid of nothing; remedy: write a grid above zero, as in \"up(a, 1)\"",
        ),
        (
            "abs(1, 2)",
            "abs(1, 2)",
            "\"abs\" takes one input; here are 2; remedy: write it as in \"abs(a - b)\"",
        ),
        (
            "min(run)",
            "min(run)",
            "\"min\" takes two inputs or more; here are 1; remedy: write it as in \"min(a, b)\"",
        ),
        (
            "min(run, cut_out)",
            "min(run, cut_out)",
            "takes the least of a length and a pressure; remedy: turn one of them into the other first, with head.from_pressure",
        ),
        (
            "max(motor, motor)",
            "max(motor, motor)",
            "takes the greatest of a row of motors and a row of motors; remedy: name a column of the row, as in \"motor.full\"",
        ),
        (
            "near(place, 1)",
            "near(place, 1)",
            "rounds a word; remedy: a word can only be compared, by \"is\" or \"is not\"",
        ),
        (
            "up(x = run, 1 ft)",
            "x",
            "names the input \"x\" of \"up\"; remedy: leave the name out",
        ),
    ]);
}
#[test]
fn comparisons_of_unlike_things() {
    refuses(&[
        (
            "run is total_head",
            "run is total_head",
            "compares a length by \"is\"; remedy: compare figures by \"<\", \"<=\", \">\" or \">=\"",
        ),
        (
            "run is not 3 ft",
            "run is not 3 ft",
            "compares a length by \"is not\"; remedy: compare figures by \"<\", \"<=\", \">\" or \">=\"",
        ),
        (
            "place < \"b\"",
            "place < \"b\"",
            "compares a word by \"<\"; remedy: write \"is\" or \"is not\"",
        ),
        (
            "holds > holds",
            "holds > holds",
            "compares a yes or no by \">\"; remedy: write \"is\" or \"is not\"",
        ),
        (
            "motor is wire",
            "motor is wire",
            "compares a row of motors with a row of copper; remedy: rows can be one only if they are of one table",
        ),
        (
            "motor is place",
            "motor is place",
            "compares a row of motors with a word; remedy: name a column of the row, as in \"motor.full\"",
        ),
        (
            "motor is \"1 hp\"",
            "motor is \"1 hp\"",
            "compares a row of motors with a word; remedy: name a column of the row, as in \"motor.full\"",
        ),
        (
            "truck is truck",
            "truck is truck",
            "compares a set of rows of valves; remedy: compare rows one by one, as in 'any r in truck where (r is valve)'",
        ),
        (
            "run < cut_out",
            "run < cut_out",
            "compares a length with a pressure; remedy: turn one of them into the other first, with head.from_pressure",
        ),
        (
            "run < 3",
            "run < 3",
            "compares a length with a plain number; remedy: give the number a unit, as in \"3 ft\"",
        ),
        (
            "place is holds",
            "place is holds",
            "compares a word with a yes or no",
        ),
        (
            "water < 30",
            "water < 30",
            "compares a temperature with a plain number; remedy: give the number a unit, as in \"30 degF\"",
        ),
        (
            "water < run",
            "water < run",
            "compares a temperature with a length; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
    ]);
}
#[test]
fn yes_and_no() {
    refuses(&[
        (
            "not run",
            "run",
            "has a length where \"not\" needs a yes or no; remedy: compare it, as in \"a > b\"",
        ),
        (
            "not motor",
            "motor",
            "has a row of motors where \"not\" needs a yes or no; remedy: compare it, as in 'sheet is \"any\"'",
        ),
        (
            "run and holds",
            "run",
            "has a length where \"and\" needs a yes or no; remedy: compare it, as in \"a > b\"",
        ),
        (
            "holds or place",
            "place",
            "has a word where \"or\" needs a yes or no; remedy: compare it, as in 'sheet is \"any\"'",
        ),
        (
            "if run then 1 else 2",
            "run",
            "has a length where \"if\" needs a yes or no; remedy: compare it, as in \"a > b\"",
        ),
        (
            "if holds then 1 else run",
            "run",
            "gives a plain number after \"then\" and a length after \"else\"; remedy: give the number a unit, as in \"1 ft\"",
        ),
        (
            "if holds then run else 1",
            "1",
            "gives a length after \"then\" and a plain number after \"else\"; remedy: give the number a unit, as in \"1 ft\"",
        ),
        (
            "if holds then motor else wire",
            "wire",
            "gives a row of motors after \"then\" and a row of copper after \"else\"; remedy: name a column of the row, as in \"motor.full\"",
        ),
        (
            "if holds then water else rise",
            "rise",
            "gives a temperature after \"then\" and a temperature interval after \"else\"; remedy: a temperature is a point on a scale: subtract two of them, or add an interval, as in \"5 Cdeg\"",
        ),
    ]);
}
#[test]
fn units_that_are_none() {
    refuses(&[
        (
            "2 pis",
            "pis",
            "has \"pis\", which is no unit; remedy: write \"2 pt\" or \"2 psi\"",
        ),
        (
            "2 flow",
            "flow",
            "has \"flow\", which is no unit; remedy: to multiply write \"2 * flow\"",
        ),
        (
            "10 ft/ratio",
            "ft/ratio",
            "has \"ft/ratio\", which is no unit; remedy: write \"10 ft / ratio\", with blanks",
        ),
        ("3 xyzzy", "xyzzy", "has \"xyzzy\", which is no unit"),
        (
            "3 degF/min",
            "degF/min",
            "has \"degF/min\", which is no unit; remedy: write \"Fdeg\" in it",
        ),
    ]);
}
#[test]
fn calls_with_wrong_inputs() {
    refuses(&[
        (
            "head.from_presure(cut_out)",
            "head.from_presure",
            "calls \"head.from_presure\", which the program does not have; it has: head.from_pressure; remedy: write \"head.from_pressure\"",
        ),
        (
            "hed.from_pressure(cut_out)",
            "hed.from_pressure",
            "calls \"hed.from_pressure\", which the program does not have; it has: up, down, near, min, max, abs, sqrt; remedy: write \"head.from_pressure\"",
        ),
        (
            "zzz(1)",
            "zzz",
            "calls \"zzz\", which the program does not have; it has: up, down, near, min, max, abs, sqrt",
        ),
        (
            "ups(1, 2)",
            "ups",
            "calls \"ups\", which the program does not have; it has: up, down, near, min, max, abs, sqrt; remedy: write \"up\"",
        ),
        (
            "head.from_pressure()",
            "head.from_pressure()",
            "\"head.from_pressure\" needs \"pressure\" too; it has: pressure; remedy: add \"pressure = ...\", pressure",
        ),
        (
            "head.from_pressure(cut_out, run)",
            "head.from_pressure(cut_out, run)",
            "\"head.from_pressure\" takes 1 input; here are 2; it has: pressure",
        ),
        (
            "head.from_pressure(run)",
            "run",
            "\"pressure\" of \"head.from_pressure\" is a pressure; here is a length",
        ),
        (
            "head.from_pressure(pressur = cut_out)",
            "pressur",
            "\"head.from_pressure\" has no input \"pressur\"; it has: pressure; remedy: write \"pressure\"",
        ),
        (
            "head.from_pressure(motor)",
            "motor",
            "\"pressure\" of \"head.from_pressure\" is a pressure; here is a row of motors; remedy: name a column of the row, as in \"motor.full\"",
        ),
        (
            "head.from_pressure(pressure = cut_out, pressure = cut_out)",
            "head.from_pressure(pressure = cut_out, pressure = cut_out)",
            "\"head.from_pressure\" takes 1 input; here are 2; it has: pressure",
        ),
        (
            "rule.bands.verdict",
            "rule.bands.verdict",
            "asks for \"verdict\" of \"rule.bands\", which is a set of rows of bands; remedy: pick a row first, as in 'first r in rule.bands where ...'",
        ),
        (
            "needed.x.y",
            "needed.x.y",
            "has a dot too many in \"needed.x.y\"; remedy: write \"needed\", or one column of it",
        ),
        (
            "head.from_pressure(50)",
            "50",
            "\"pressure\" of \"head.from_pressure\" is a pressure; here is a plain number; remedy: give the number a unit, as in \"50 psi\"",
        ),
    ]);
}
