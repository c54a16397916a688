//! What several tests need: the shipped lesson files, read from the folder.

// Each test takes what it needs of this.
#![allow(dead_code, clippy::disallowed_methods, clippy::expect_used)]

use std::path::{Path, PathBuf};

use pumpwright_engine::lessons::{Library, SourceFile};
use pumpwright_engine::problems::{DrawError, Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;

/// The folder in which `lessons` and `tests` stand.
pub fn root() -> PathBuf {
    let own = Path::new(env!("CARGO_MANIFEST_DIR"));
    let found = own
        .ancestors()
        .find(|at| at.join("lessons/rules.toml").exists());
    found.expect("the folder lessons").to_owned()
}

/// The files below a folder that end so, with their paths from there, in the
/// order of the paths.
pub fn texts(folder: &Path, ending: &str) -> Vec<SourceFile> {
    let mut files = Vec::new();
    collect(folder, folder, ending, &mut files);
    files.sort_by(|a, b| a.path.cmp(&b.path));
    files
}

fn collect(root: &Path, folder: &Path, ending: &str, files: &mut Vec<SourceFile>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            collect(root, &path, ending, files);
        } else if path
            .extension()
            .is_some_and(|extension| extension == ending)
        {
            let name = path.strip_prefix(root).expect("below the root");
            let name = name.to_string_lossy().replace('\\', "/");
            let text = std::fs::read_to_string(&path).expect("a text");
            files.push(SourceFile { path: name, text });
        }
    }
}

/// The shipped lesson files.
pub fn shipped_files() -> Vec<SourceFile> {
    texts(&root().join("lessons"), "toml")
}

/// A few lessons that stand still, so that a check may name their parts.
pub fn still_files() -> Vec<SourceFile> {
    texts(&root().join("src/screens/checks/lessons"), "toml")
}

/// The shipped lessons; a fault in one fails the test.
pub fn shipped() -> Library {
    let (library, faults) = Library::read(&shipped_files());
    let shown: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{}", shown.join("\n\n"));
    library
}

/// Whether files of expected texts are to be written anew.
pub fn bless() -> bool {
    std::env::var_os("PUMPWRIGHT_BLESS").is_some_and(|value| value == "1")
}

/// A family at one level in one system of units.
pub type Face = (String, u8, System);

/// Every family at every level in both systems.
pub fn faces(library: &Library) -> Vec<Face> {
    let mut found = Vec::new();
    for family in library.families() {
        for &level in &family.levels {
            for system in System::BOTH {
                found.push((family.id.clone(), level, system));
            }
        }
    }
    found
}

/// One draw of a family.
pub fn draw_one(
    library: &Library,
    (family, level, system): &Face,
    number: u32,
    settings: &Settings,
) -> Result<Problem, DrawError> {
    let request = Request {
        family,
        level: Some(*level),
        system: *system,
        draw: number,
        settings,
    };
    draw(library, &request)
}

/// The default rules, then each other value of each house rule.
pub fn every_setting(library: &Library) -> Vec<Settings> {
    let mut found = vec![Settings::default()];
    for rule in library.rules(System::Us) {
        for choice in rule.choices.iter().skip(1) {
            let mut settings = Settings::default();
            let set = settings.set(library, &rule.name, &choice.text);
            set.expect("a value of the rule");
            found.push(settings);
        }
    }
    found
}
