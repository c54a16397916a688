//! A class in a folder of its own: a plan, a list, and the folder that is made of them. No
//! test stands here.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use crate::lessons::Folder;

/// A class in a folder of its own.
pub struct ClassFolder {
    folder: Folder,
}

impl ClassFolder {
    /// Its plan and list; what an earlier run made of them is gone.
    pub fn new(name: &str, plan: &str, list: &str) -> Self {
        let files: [(&str, &[u8]); 2] = [
            ("plan.toml", plan.as_bytes()),
            ("list.csv", list.as_bytes()),
        ];
        let class = Self {
            folder: Folder::with(name, &files),
        };
        let _ = fs::remove_dir_all(class.at("class"));
        class
    }

    /// Its own path.
    pub fn path(&self) -> &str {
        self.folder.path()
    }

    /// The path of a file in it.
    pub fn at(&self, name: &str) -> String {
        format!("{}/{name}", self.path())
    }
}

/// Every file in a folder and below, by its path from there, with its bytes; none where the
/// folder is not there.
pub fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(&next).into_iter().flatten() {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).expect("inside");
                found.insert(name.display().to_string(), fs::read(&path).expect("a file"));
            }
        }
    }
    found
}
