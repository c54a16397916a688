//! What tests of several rooms share: a folder that goes away with its test.

use std::fs;
use std::path::{Path, PathBuf};

/// A folder that goes away with the test.
pub struct Folder(PathBuf);

impl Folder {
    /// An empty one; tests that run at once name it differently.
    pub fn new(name: &str) -> Self {
        let id = std::process::id();
        let path = std::env::temp_dir().join(format!("pumpwright-{name}-{id}"));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    /// The place of a file in it.
    pub fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// The folder itself.
    pub fn root(&self) -> &Path {
        &self.0
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}
