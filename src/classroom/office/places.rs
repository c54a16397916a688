//! Which folder is meant, and which papers of a class are looked at.

use std::fs;
use std::path::{Path, PathBuf};

use crate::classroom::paper::PaperFolder;

/// The place that a person means, whole, so that it is found again from anywhere.
pub fn at(typed: &str) -> PathBuf {
    let path = Path::new(typed);
    let home = typed.strip_prefix("~/").zip(std::env::home_dir());
    let path = home.map_or_else(|| path.to_owned(), |(rest, home)| home.join(rest));
    std::path::absolute(&path).unwrap_or(path)
}

/// Whether a folder holds the papers of a plan.
pub fn is_papers(path: &Path) -> bool {
    path.join("printed").is_dir() && path.join("plan.toml").is_file()
}

/// The papers of the plan with the latest day in a class's folder; without days, of the
/// last by name.
pub fn latest(class: &Path) -> Option<PaperFolder> {
    let entries = fs::read_dir(class).ok()?;
    let paths = entries.filter_map(|entry| Some(entry.ok()?.path()));
    let day = |path: &PathBuf| {
        let text = fs::read_to_string(path.join("plan.toml")).unwrap_or_default();
        let line = text.lines().find(|line| {
            let key = line.split('=').next().unwrap_or_default();
            key.trim() == "date"
        });
        (line.map(str::to_owned), path.clone())
    };
    let latest = paths.filter(|path| is_papers(path)).max_by_key(day)?;
    Some(PaperFolder::at(latest))
}
