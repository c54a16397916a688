//! Checking lesson files from the command line.

use crate::lessons::Folder;
use crate::schema::{held, schema};
use crate::started::run;

#[test]
fn the_carried_lessons_have_no_fault() {
    let run = run(&["check", "--draws", "300"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    assert!(run.out.ends_with("0 faults\n"), "{}", run.out);
}

#[test]
fn each_fault_is_reported_with_its_place_and_a_remedy() {
    let text = "format = 1\nfamily = \"bad\"\nlesson = \"pressure-tank\"\ntitle = \"Bad\"\n\
                levels = [1]\nsources = [\"none\"]\nsuorces = []\n";
    let folder = Folder::with("check", &[("pressure-tank/bad.toml", text.as_bytes())]);
    let run = run(&["check", folder.path(), "--draws", "1"]);
    assert_eq!((run.code, run.err.as_str()), (1, ""), "{}", run.out);
    let place = format!(
        "  {}/pressure-tank/bad.toml, line 7, column 1",
        folder.path()
    );
    assert!(run.out.contains(&place), "{}", run.out);
    assert!(
        run.out.contains("  7 | suorces = []") && run.out.contains("remedy: "),
        "{}",
        run.out
    );
    let json = crate::started::run(&["check", folder.path(), "--json", "--draws", "1"]);
    assert_eq!(json.code, 1);
    let value = held(&schema("check"), &json.out);
    assert!(
        value["faults"]
            .as_array()
            .is_some_and(|faults| !faults.is_empty())
    );
}

#[test]
fn what_the_draws_show_is_reported_with_the_family_and_its_file() {
    let text = include_str!("../../lessons/drop-cable/cable-drop.toml");
    let odd = text.replace("[\"0.6 %\", \"12 %\"]", "[\"0.6 %\", \"0.7 %\"]");
    assert_ne!(text, odd);
    let folder = Folder::with("odd", &[("drop-cable/cable-drop.toml", odd.as_bytes())]);
    let run = run(&["check", folder.path(), "--draws", "20"]);
    assert_eq!((run.code, run.err.as_str()), (1, ""), "{}", run.out);
    let place = format!(
        "\n  {}/drop-cable/cable-drop.toml, cable-drop, level 2, us\n",
        folder.path()
    );
    assert!(run.out.contains(&place), "{}", run.out);
    assert!(run.out.contains(", outside its sane span ("), "{}", run.out);
}
