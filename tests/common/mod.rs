//! What several tests need: the shipped lesson files, read from the folder.

#![allow(clippy::expect_used)]

use std::path::Path;

use pumpwright_engine::lessons::{Library, SourceFile};

/// The shipped lesson files.
pub fn shipped_files() -> Vec<SourceFile> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = root
        .ancestors()
        .map(|up| up.join("lessons"))
        .find(|at| at.join("rules.toml").exists());
    let folder = folder.expect("the folder lessons");
    let mut files = Vec::new();
    collect(&folder, &folder, &mut files);
    files
}

fn collect(root: &Path, folder: &Path, files: &mut Vec<SourceFile>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            collect(root, &path, files);
        } else if path
            .extension()
            .is_some_and(|extension| extension == "toml")
        {
            let name = path.strip_prefix(root).expect("below the root");
            let name = name.to_string_lossy().replace('\\', "/");
            let text = std::fs::read_to_string(&path).expect("a text");
            files.push(SourceFile { path: name, text });
        }
    }
}

/// The shipped lessons; a fault in one fails the test.
pub fn shipped() -> Library {
    let (library, faults) = Library::read(&shipped_files());
    let shown: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{}", shown.join("\n\n"));
    library
}
