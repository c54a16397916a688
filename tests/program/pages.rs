//! Help, manual pages, completion scripts, and the program's own version.

use crate::started::{finish, printed, program, refused, run};

/// What the environment says is not taken for typed, and the options of every command stand
/// under a heading of their own.
#[test]
fn the_usage_shows_what_a_command_needs_and_nothing_of_the_environment() {
    let mut command = program(&["assign", "plan.toml"]);
    command.env("PUMPWRIGHT_SETTINGS", "here.toml");
    command.env("PUMPWRIGHT_LOGBOOK", "here.db");
    let run = finish(&mut command);
    assert_eq!(run.code, 2);
    assert!(
        run.err
            .contains("\nUsage: pumpwright assign --roster <CSV> --out <FOLDER> <PLAN>\n"),
        "{}",
        run.err
    );
    let help = printed(&["assign", "-h"]);
    let (own, every) = help
        .split_once("\nFor every command:\n")
        .expect("a heading of their own");
    assert!(own.contains("--make-up") && own.contains("--help"), "{own}");
    for option in [
        "lessons", "rules", "ascii", "decimal", "settings", "logbook", "as",
    ] {
        let option = format!("--{option} ");
        assert!(every.contains(&option) && !own.contains(&option), "{help}");
    }
}

#[test]
fn the_help_names_every_exit_code_and_every_command() {
    let help = printed(&["--help"]);
    for words in ["  0  done", "  1  ", "  2  ", "  3  ", "NO_COLOR", "LC_ALL"] {
        assert!(help.contains(words), "{words} is not in\n{help}");
    }
    let commands = [
        "lessons",
        "problem",
        "answer",
        "practice",
        "board",
        "export",
        "exam",
        "check",
        "calc",
        "completions",
        "man",
    ];
    for command in commands {
        assert!(
            help.contains(&format!("\n  {command} ")),
            "{command} is not in\n{help}"
        );
    }
}

#[test]
fn a_manual_page_is_there_for_the_program_and_each_command() {
    let page = printed(&["man"]);
    assert!(
        page.contains(".TH pumpwright 1") && page.contains("Exit codes:"),
        "{page}"
    );
    assert!(printed(&["man", "answer"]).contains("STEP=ANSWER"));
    refused(
        &["man", "anser"],
        2,
        "there is no command \"anser\"; near it: answer",
    );
}

#[test]
fn each_shell_gets_a_script_that_knows_the_commands() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let script = printed(&["completions", shell]);
        assert!(
            script.contains("pumpwright") && script.contains("practice"),
            "{shell}"
        );
    }
    let unknown = run(&["completions", "tcsh9"]);
    assert_eq!(unknown.code, 2);
    assert!(unknown.err.contains("possible values"), "{}", unknown.err);
}

#[test]
fn a_command_that_is_not_there_is_refused_with_the_nearest() {
    let wrong = run(&["lesons"]);
    assert_eq!((wrong.code, wrong.out.as_str()), (2, ""));
    assert!(wrong.err.contains("'lessons'"), "{}", wrong.err);
}
