//! Figures from the command line: in the terminal, as a list, as a file.

use std::fs;
use std::path::PathBuf;

use crate::started::{printed, refused, run};

/// A place for a file that is not there yet.
fn place(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("figures");
    fs::create_dir_all(&folder).expect("a folder");
    let path = folder.join(name);
    let _ = fs::remove_file(&path);
    path
}

#[test]
fn a_figure_keeps_back_what_the_sheet_asks() {
    let open = printed(&["figure", "drawdown", "--draw", "3"]);
    assert!(
        open.contains("Well section") && open.contains("drawdown ?"),
        "{open}"
    );
    let worked = printed(&["figure", "drawdown", "--draw", "3", "--worked"]);
    assert!(!worked.contains('?'), "{worked}");
    let code = open.lines().next().expect("a code");
    assert_eq!(open, printed(&["figure", code]));
}

#[test]
fn it_is_as_wide_as_asked_and_ascii_where_asked() {
    let narrow = printed(&[
        "--ascii", "figure", "drawdown", "--draw", "3", "--width", "34",
    ]);
    assert!(narrow.is_ascii(), "{narrow}");
    let figure = narrow.split("\n\n").skip(1).collect::<Vec<_>>().join("\n");
    assert!(figure.lines().all(|line| line.len() <= 34), "{narrow}");
    let run = run(&["figure", "drawdown", "--width", "12"]);
    assert_eq!(run.code, 2, "{run:?}");
}

#[test]
fn the_list_says_every_number() {
    let list = printed(&["figure", "drawdown", "--draw", "3", "--list"]);
    for line in ["static level: ", "drawdown: asked on the sheet", "scale: "] {
        assert!(list.contains(line), "{list}");
    }
}

#[test]
fn a_file_is_written_whole_and_never_over_somebody_elses() {
    let path = place("drawdown.svg");
    let shown = path.to_str().expect("a path");
    let ask = ["figure", "drawdown", "--draw", "3", "--svg", shown];
    printed(&ask);
    let first = fs::read_to_string(&path).expect("the file");
    assert!(first.starts_with("<svg ") && first.ends_with("</svg>\n"));
    assert!(
        first.contains("CAUTION"),
        "the caution goes with the figure"
    );
    // Its own file is written anew.
    printed(&ask);
    assert_eq!(fs::read_to_string(&path).expect("the file"), first);
    let other = place("letter.svg");
    fs::write(&other, "Dear customer").expect("a file");
    let shown = other.to_str().expect("a path");
    let sentence = format!("{shown} is there and is no figure of this program; name another file");
    refused(&["figure", "drawdown", "--svg", shown], 2, &sentence);
    assert_eq!(
        fs::read_to_string(&other).expect("the file"),
        "Dear customer"
    );
    let nowhere = path.join("under/a/file.svg");
    let run = run(&[
        "figure",
        "drawdown",
        "--svg",
        nowhere.to_str().expect("a path"),
    ]);
    assert_eq!(run.code, 3, "{run:?}");
}

#[test]
fn a_family_without_a_figure_says_so() {
    refused(
        &["figure", "licence-scope"],
        2,
        "the family licence-scope has no figure at level 1; name another",
    );
}
