//! A class in a folder of its own: a plan, a list, and the folder that is made of them. No
//! test stands here.

use std::fs;

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
