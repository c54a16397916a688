//! Packages for other programs from outside: what is written, where, and what is refused.

use std::fs;
use std::path::PathBuf;

use crate::started::{printed, refused, run};

const CODE: &str = "cable-drop.2us.F91RB4S.F0R7J";

/// A place for a folder that is not there yet.
fn place(name: &str) -> PathBuf {
    let all = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("packages");
    let folder = all.join(format!("{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    folder
}

#[test]
fn a_package_lies_open_and_in_one_archive() {
    let folders = [place("first"), place("second")];
    for folder in &folders {
        let asked = ["export", "drawdown", "--draw", "3", "--count", "2", "--qti"];
        let said = printed(&[&asked[..], &[folder.to_str().expect("a path")]].concat());
        assert!(
            said.contains("2 items") && said.lines().count() == 3,
            "{said}"
        );
        for file in [
            "package/imsmanifest.xml",
            "package/test.xml",
            "package/items/q001-drawdown.xml",
            "package/items/q002-drawdown.xml",
            "package/figures/q002-drawdown.svg",
        ] {
            assert!(folder.join(file).exists(), "{file}");
        }
    }
    let [first, second] = folders.map(|folder| fs::read(folder.join("package.zip")));
    assert_eq!(first.expect("an archive"), second.expect("an archive"));
}

#[test]
fn what_lies_there_stays() {
    let folder = place("taken");
    fs::create_dir_all(&folder).expect("a folder");
    fs::write(folder.join("mine.txt"), "mine").expect("a file");
    let shown = folder.to_str().expect("a path");
    let sentence =
        format!("{shown} is not empty; name another folder, or one that is not there yet");
    refused(&["export", "cable-drop", "--qti", shown], 2, &sentence);
    assert_eq!(fs::read_dir(&folder).expect("a folder").count(), 1);
    let shown = folder.join("mine.txt");
    let done = run(&[
        "export",
        "cable-drop",
        "--qti",
        shown.to_str().expect("a path"),
    ]);
    assert_eq!(done.code, 3, "{done:?}");
}

#[test]
fn a_code_is_one_problem() {
    let folder = place("never");
    let shown = folder.to_str().expect("a path");
    refused(
        &["export", CODE, "--count", "2", "--qti", shown],
        2,
        "a code names one problem; leave --count out, or name a family",
    );
    assert!(!folder.exists());
}
