//! A class's own rules file from the command line: `--rules FILE`.

use crate::lessons::Folder;
use crate::started::{printed, run};

const RULES: &str = r#"format = 1

[[rule]]
rule  = "tank.precharge_below"
value = "2.5 | 17"

[[sheet]]
sheet  = "Larch County"
place  = "Larch County, made up"
law    = "us"
as_of  = "2026-09-01"
source = "made for this program"
rows   = [["drainfield", "80 | 24.4", "first"], ["septic tank", "60 | 18.3", "second"]]
"#;

/// What is said by a run that is refused with this code.
fn refused(arguments: &[&str], code: i32) -> String {
    let run = run(arguments);
    assert_eq!((run.code, run.out.as_str()), (code, ""), "{arguments:?}");
    run.err
}

/// The code in what `problem` prints.
fn code(printed: &str) -> String {
    let line = printed
        .lines()
        .find(|line| line.contains("tank-precharge."));
    let line = line.unwrap_or_else(|| panic!("no code in\n{printed}"));
    let word = line
        .split_whitespace()
        .find(|word| word.starts_with("tank-precharge."));
    word.expect("a code").to_owned()
}

#[test]
fn a_problem_prints_the_rule_of_the_class_and_its_code_needs_the_file() {
    let folder = Folder::with("class-rules", &[("class.toml", RULES.as_bytes())]);
    let file = format!("{}/class.toml", folder.path());
    let sheet = printed(&["problem", "tank-precharge", "--draw", "7", "--rules", &file]);
    assert!(sheet.contains("margin under cut-in: 2.5 psi"), "{sheet}");
    let code = code(&sheet);
    let marked = printed(&["answer", &code, "charge=20", "--rules", &file]);
    assert!(marked.contains("air charge"), "{marked}");
    let said = refused(&["answer", &code, "charge=20"], 2);
    assert!(said.contains("--rules"), "{said}");
    let heard = printed(&[
        "practice",
        "--plain",
        "--count",
        "1",
        "--family",
        "tank-precharge",
        "--draw",
        "7",
        "--rules",
        &file,
    ]);
    assert!(heard.contains("2.5 psi"), "{heard}");
}

#[test]
fn a_rule_on_the_command_line_comes_before_the_file() {
    let folder = Folder::with("class-and-rule", &[("class.toml", RULES.as_bytes())]);
    let file = format!("{}/class.toml", folder.path());
    let rule = "tank.precharge_below=3 psi";
    let sheet = printed(&[
        "problem",
        "tank-precharge",
        "--rules",
        &file,
        "--rule",
        rule,
    ]);
    assert!(sheet.contains("margin under cut-in: 3 psi"), "{sheet}");
}

#[test]
fn a_wrong_file_is_told_with_its_line_and_nothing_is_drawn() {
    let wrong = RULES.replace("tank.precharge_below", "tank.precharge_bellow");
    let folder = Folder::with("class-wrong", &[("class.toml", wrong.as_bytes())]);
    let file = format!("{}/class.toml", folder.path());
    let said = refused(&["problem", "tank-precharge", "--rules", &file], 2);
    assert!(said.contains("class.toml, line 4, column 9"), "{said}");
    assert!(
        said.contains("remedy: write \"tank.precharge_below\""),
        "{said}"
    );
    let said = refused(&["problem", "tank-precharge", "--rules", "no-such.toml"], 3);
    assert!(said.contains("no-such.toml cannot be read"), "{said}");
}

#[test]
fn the_check_reads_the_file_and_draws_under_it() {
    let wrong = RULES.replace("[[sheet]]", "[[sheets]]");
    let folder = Folder::with("class-checked", &[("class.toml", wrong.as_bytes())]);
    let file = format!("{}/class.toml", folder.path());
    let run = run(&["check", "--draws", "1", "--rules", &file]);
    assert_eq!(run.code, 1);
    assert!(run.out.contains("has no key \"sheets\""), "{}", run.out);
}
