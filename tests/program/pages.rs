//! Help, manual pages, completion scripts, and the program's own version.

use crate::started::{printed, refused, run};

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
