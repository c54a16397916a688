//! What `--version` tells, and that every number that stands in the sources is in it.

use std::path::Path;

use pumpwright::formats;

use crate::started::printed;

#[test]
fn the_versions_of_program_lessons_and_formats_are_told() {
    let told = printed(&["--version"]);
    assert_eq!(printed(&["-V"]), told);
    let first = format!("pumpwright {}\nlessons    ", env!("CARGO_PKG_VERSION"));
    assert!(told.starts_with(&first), "{told}");
    let lessons = told.lines().nth(1).expect("the lessons");
    let edition = lessons["lessons    ".len()..]
        .split(':')
        .next()
        .expect("an edition");
    assert_eq!(edition.len(), 8, "{lessons}");
    assert!(
        edition.bytes().all(|sign| sign.is_ascii_hexdigit()),
        "{lessons}"
    );
    for (name, number) in formats::numbers() {
        assert!(number > 0, "{name}");
        assert!(told.contains(&format!("  {name:<30} {number}\n")), "{told}");
    }
}

/// A format that gets a number anywhere in the sources is told: the numbers found there
/// and the lines agree in their count, one line more for the steps of the logbook's schema.
#[test]
fn no_format_is_left_out() {
    let mut owners = Vec::new();
    collect(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        &mut owners,
    );
    assert_eq!(owners.len() + 1, formats::numbers().len(), "{owners:#?}");
}

fn collect(folder: &Path, owners: &mut Vec<String>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            collect(&path, owners);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let text = std::fs::read_to_string(&path).expect("a text");
            let lines = text.lines().filter(|line| line.contains("const FORMAT: "));
            owners.extend(lines.map(|line| format!("{}: {line}", path.display())));
        }
    }
}
