//! The lessons from the command line, and a folder laid over them.

use std::fs;
use std::path::PathBuf;
use std::process::Stdio;

use crate::inside::{everything, library};
use crate::started::{printed, program, refused, run};

/// A folder that is gone when the test ends.
pub struct Folder(pub PathBuf);

impl Folder {
    /// A folder of this name with these files.
    pub fn with(name: &str, files: &[(&str, &[u8])]) -> Self {
        let root = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
        let _absent = fs::remove_dir_all(&root);
        for (path, text) in files {
            let file = root.join(path);
            fs::create_dir_all(file.parent().expect("a folder")).expect("a new folder");
            fs::write(file, text).expect("a new file");
        }
        Self(root)
    }

    /// The folder as an argument.
    pub fn path(&self) -> &str {
        self.0.to_str().expect("a path in UTF-8")
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _gone = fs::remove_dir_all(&self.0);
    }
}

const OWN_FAMILY: &str = include_str!("../../lessons/pressure-tank/tank-precharge.toml");

#[test]
fn the_list_names_every_lesson_and_family() {
    let list = printed(&["lessons"]);
    for [family, ..] in everything(&library()) {
        assert!(
            list.contains(&format!("  {family}  ")),
            "{family} is not in\n{list}"
        );
    }
    assert!(list.contains("pressure-tank: "), "{list}");
}

#[test]
fn a_lesson_has_its_text_its_cautions_and_its_families() {
    let lesson = printed(&["lessons", "pressure-tank"]);
    for words in [
        "After it you can:",
        "CAUTION: ",
        "Source: ",
        "  tank-precharge  ",
    ] {
        assert!(lesson.contains(words), "{words} is not in\n{lesson}");
    }
    assert_ne!(
        lesson,
        printed(&["lessons", "pressure-tank", "--units", "si"])
    );
}

#[test]
fn a_lesson_that_is_not_there_is_refused() {
    refused(
        &["lessons", "presure-tank"],
        2,
        "there is no lesson \"presure-tank\"; near it: pressure-tank, pressure-and-head, pressure-switch",
    );
    refused(
        &["lessons", "cable-drop"],
        2,
        "\"cable-drop\" is a family, not a lesson; its lesson is drop-cable",
    );
}

#[test]
fn a_closed_pipe_ends_quietly() {
    let mut child = program(&["calc"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    drop(child.stdout.take());
    let done = child.wait_with_output().expect("the program ends");
    assert_eq!(
        (done.status.code(), done.stderr.as_slice()),
        (Some(0), &b""[..])
    );
}

#[test]
fn a_family_in_a_folder_replaces_the_carried_one_and_the_rest_stays() {
    let text = OWN_FAMILY.replace("Air charge for a pressure tank", "Our own tank");
    assert_ne!(text, OWN_FAMILY);
    let folder = Folder::with("replaces", &[("pressure-tank/ours.toml", text.as_bytes())]);
    let list = printed(&["--lessons", folder.path(), "lessons"]);
    assert!(list.contains("  tank-precharge  Our own tank"), "{list}");
    assert!(!list.contains("Air charge for a pressure tank"), "{list}");
    assert!(list.contains("  cable-drop  "), "{list}");
}

#[test]
fn a_new_family_in_a_folder_comes_beside_the_carried_ones() {
    let text = OWN_FAMILY.replace("\"tank-precharge\"", "\"tank-recharge\"");
    let folder = Folder::with(
        "beside",
        &[("pressure-tank/recharge.toml", text.as_bytes())],
    );
    let list = printed(&["--lessons", folder.path(), "lessons"]);
    assert!(
        list.contains("  tank-recharge  ") && list.contains("  tank-precharge  "),
        "{list}"
    );
    printed(&["--lessons", folder.path(), "problem", "tank-recharge"]);
}

#[test]
fn a_broken_file_is_named_and_the_rest_works() {
    let folder = Folder::with(
        "broken",
        &[(
            "pressure-tank/bad.toml",
            b"format = 1\nfamily = \"bad\"\nlesson = 3 3\n",
        )],
    );
    let run = run(&[
        "--lessons",
        folder.path(),
        "problem",
        "cable-drop",
        "--draw",
        "1",
    ]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert_eq!(run.out, printed(&["problem", "cable-drop", "--draw", "1"]));
    let place = format!(
        "  {}/pressure-tank/bad.toml, line 3, column ",
        folder.path()
    );
    assert!(run.err.contains(&place), "{}", run.err);
    let last = format!(
        "note: {}/pressure-tank/bad.toml is left out; everything else works",
        folder.path()
    );
    assert_eq!(run.err.lines().last(), Some(last.as_str()));
}

#[test]
fn that_the_rest_works_is_said_once_behind_all_faults() {
    let bad = OWN_FAMILY
        .replace("finds", "fnids")
        .replace("levels", "lvels");
    let third = b"format = 1\nfamily = \"third\"\nlesson = 3 3\n";
    let folder = Folder::with("broken-one", &[("pressure-tank/bad.toml", bad.as_bytes())]);
    let one = run(&["--lessons", folder.path(), "lessons"]);
    let notes = |err: &str| {
        let notes = err.lines().filter(|line| line.starts_with("note: "));
        notes.map(str::to_owned).collect::<Vec<_>>()
    };
    assert!(one.err.matches("\nerror: ").count() > 0, "{}", one.err);
    let path = folder.path();
    assert_eq!(
        notes(&one.err),
        [format!(
            "note: {path}/pressure-tank/bad.toml is left out; everything else works"
        )]
    );
    assert!(one.err.ends_with("everything else works\n"), "{}", one.err);
    let folder = Folder::with(
        "broken-several",
        &[
            ("pressure-tank/bad.toml", bad.as_bytes()),
            ("pressure-tank/third.toml", third),
        ],
    );
    let several = run(&["--lessons", folder.path(), "lessons"]);
    assert_eq!(
        notes(&several.err),
        ["note: 2 files are left out; everything else works"]
    );
}

#[test]
fn a_file_that_is_no_text_is_left_out_with_a_note() {
    let folder = Folder::with("bytes", &[("pressure-tank/x.toml", b"family = \"\xff\"")]);
    let run = run(&["--lessons", folder.path(), "lessons"]);
    let note = format!(
        "note: {}/pressure-tank/x.toml is not UTF-8 text from byte 10 on; save it as UTF-8; it is left out\n",
        folder.path()
    );
    assert_eq!((run.code, run.err), (0, note));
}

#[test]
fn a_folder_that_cannot_be_read_is_the_world_s_fault() {
    let missing = run(&["--lessons", "no-such-folder", "lessons"]);
    assert_eq!((missing.code, missing.out.as_str()), (3, ""));
    assert!(
        missing
            .err
            .starts_with("error: no-such-folder cannot be read: "),
        "{}",
        missing.err
    );
}

#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_is_the_world_s_fault() {
    let full = fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .expect("a full device");
    let done = program(&["lessons"])
        .stdout(full)
        .stderr(Stdio::piped())
        .output();
    let done = done.expect("the program starts");
    let said = String::from_utf8_lossy(&done.stderr);
    assert_eq!(done.status.code(), Some(3), "{said}");
    assert!(
        said.starts_with("error: the output cannot be written: "),
        "{said}"
    );
}
