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

/// A family of an author, right as it stands in README.
fn mine() -> String {
    let page = include_str!("../../README.md");
    let block = page
        .split("```toml mine/standing-water/water-in-well.toml\n")
        .nth(1);
    let text = block.and_then(|rest| rest.split("```").next());
    text.expect("README has the family").to_owned()
}

#[test]
fn a_folder_of_ones_own_is_drawn_and_the_rest_is_counted() {
    let mine = mine();
    let files: [(&str, &[u8]); 1] = [("standing-water/water-in-well.toml", mine.as_bytes())];
    let folder = Folder::with("mine", &files);
    let own = run(&["check", folder.path(), "--draws", "5"]);
    assert_eq!((own.code, own.err.as_str()), (0, ""), "{}", own.out);
    let lines: Vec<&str> = own.out.lines().collect();
    let [first, second, rest, sum] = lines.as_slice() else {
        panic!("{}", own.out);
    };
    assert!(
        first.starts_with("water-in-well, level 1, us: 5 drawn; "),
        "{first}"
    );
    assert!(
        second.starts_with("water-in-well, level 1, si: 5 drawn; "),
        "{second}"
    );
    let (carried, _) = pumpwright::lesson_files::count();
    assert_eq!(
        *rest,
        format!("{carried} families of the program are not drawn; --all draws them, too")
    );
    assert!(
        sum.ends_with(&format!(" files, {} families, 0 faults", carried + 1)),
        "{sum}"
    );
    let json = run(&["check", folder.path(), "--draws", "5", "--json"]);
    let value = held(&schema("check"), &json.out);
    let surveys = value["surveys"].as_array().expect("surveys");
    assert!(surveys.len() >= 2);
    assert!(surveys.iter().all(|own| own["family"] == "water-in-well"));
    let all = run(&["check", folder.path(), "--draws", "1", "--all"]);
    assert!(
        all.out.contains("\ncable-drop, level 2, us: 1 drawn; "),
        "{}",
        all.out
    );
    assert!(!all.out.contains("not drawn"), "{}", all.out);
}

#[test]
fn a_table_of_ones_own_says_that_it_may_reach_the_others() {
    let mine = mine();
    let table = include_str!("../../lessons/tables/copper.toml");
    let files: [(&str, &[u8]); 2] = [
        ("standing-water/water-in-well.toml", mine.as_bytes()),
        ("tables/copper.toml", table.as_bytes()),
    ];
    let folder = Folder::with("mine-table", &files);
    let own = run(&["check", folder.path(), "--draws", "1"]);
    assert!(
        own.out.contains(
            " families of the program are not drawn, though this folder has tables or rules \
             that they may use; --all draws them, too\n"
        ),
        "{}",
        own.out
    );
}
