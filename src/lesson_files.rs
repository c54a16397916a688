//! Lesson files: those that the program carries, and a folder laid over them.
//! Files become text here and nothing more; the engine reads what stands in them.

use std::fs;
use std::path::{Path, PathBuf};

use pumpwright_engine::lessons::SourceFile;

use crate::failure::Failure;

/// Path inside the lessons folder, and text.
const CARRIED: &[(&str, &str)] = &include!(concat!(env!("OUT_DIR"), "/lessons.rs"));

/// A larger file is no lesson; reading it would only cost memory.
const LARGEST: u64 = 4 * 1024 * 1024;
/// Folders inside folders, at most; a link that leads back up ends here.
const DEEPEST: usize = 16;

/// The files that the program carries.
pub fn carried() -> Vec<SourceFile> {
    CARRIED
        .iter()
        .map(|(path, text)| SourceFile { path: (*path).to_owned(), text: (*text).to_owned() })
        .collect()
}

/// Lesson files, and those that could not be read.
#[derive(Debug, Default)]
pub struct Files {
    /// The files.
    pub files: Vec<SourceFile>,
    /// A sentence about each file that could not be read.
    pub unread: Vec<String>,
}

/// The carried files, with a folder laid over them where one is named.
///
/// # Errors
/// When the folder cannot be read.
pub fn in_use(folder: Option<&Path>) -> Result<Files, Failure> {
    let below = carried();
    let Some(folder) = folder else {
        return Ok(Files { files: below, unread: Vec::new() });
    };
    let above = read_folder(folder)?;
    Ok(Files { files: laid_over(below, above.files), unread: above.unread })
}

/// Every lesson file of a folder and its folders, in the order of their paths.
///
/// # Errors
/// When the folder cannot be read.
pub fn read_folder(folder: &Path) -> Result<Files, Failure> {
    let mut paths = Vec::new();
    collect(folder, 0, &mut paths)?;
    paths.sort();
    let mut found = Files::default();
    for path in &paths {
        match read_file(folder, path) {
            Ok(file) => found.files.push(file),
            Err(sentence) => found.unread.push(sentence),
        }
    }
    Ok(found)
}

fn collect(folder: &Path, depth: usize, paths: &mut Vec<PathBuf>) -> Result<(), Failure> {
    if depth > DEEPEST {
        return Err(Failure::World(format!(
            "{} lies more than {DEEPEST} folders deep; a lesson lies nearer",
            folder.display()
        )));
    }
    let entries = fs::read_dir(folder).map_err(|error| cannot_read(folder, &error))?;
    for entry in entries {
        let path = entry.map_err(|error| cannot_read(folder, &error))?.path();
        if is_hidden(&path) {
            continue;
        }
        if path.is_dir() {
            collect(&path, depth + 1, paths)?;
        } else if path.extension().is_some_and(|extension| extension == "toml") {
            paths.push(path);
        }
    }
    Ok(())
}

fn is_hidden(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'))
}

fn read_file(folder: &Path, path: &Path) -> Result<SourceFile, String> {
    let name = path.display();
    let unreadable = |error: std::io::Error| format!("{name} cannot be read: {error}");
    if fs::metadata(path).map_err(unreadable)?.len() > LARGEST {
        return Err(format!("{name} is larger than 4 MiB, more than a lesson needs; split it"));
    }
    let text = String::from_utf8(fs::read(path).map_err(unreadable)?).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        format!("{name} is not UTF-8 text from byte {at} on; save it as UTF-8")
    })?;
    let inside = path.strip_prefix(folder).unwrap_or(path);
    let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
    Ok(SourceFile { path: parts.join("/"), text })
}

fn cannot_read(path: &Path, error: &std::io::Error) -> Failure {
    Failure::World(format!("{} cannot be read: {error}", path.display()))
}

/// One set of files laid over another: a file at the same path, or of the same
/// family, replaces; everything else stays.
pub fn laid_over(below: Vec<SourceFile>, above: Vec<SourceFile>) -> Vec<SourceFile> {
    let replaced = |file: &SourceFile| {
        let family = family_of(&file.text);
        above.iter().any(|other| {
            other.path == file.path || (family.is_some() && family_of(&other.text) == family)
        })
    };
    let mut files: Vec<_> = below.into_iter().filter(|file| !replaced(file)).collect();
    files.extend(above);
    files.sort_by(|a, b| a.path.cmp(&b.path));
    files
}

/// The family that a file is about. Read by line, not as TOML, so that a file
/// with a fault further down still takes its place.
pub fn family_of(text: &str) -> Option<&str> {
    text.lines()
        .map(str::trim)
        .take_while(|line| !line.starts_with('['))
        .find_map(|line| line.strip_prefix("family")?.trim_start().strip_prefix('='))
        .and_then(|value| {
            let value = value.trim_start();
            let quote = value.chars().next().filter(|c| matches!(c, '"' | '\''))?;
            value.get(1..)?.split(quote).next()
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, text: &str) -> SourceFile {
        SourceFile { path: path.to_owned(), text: text.to_owned() }
    }

    fn paths(files: &[SourceFile]) -> Vec<&str> {
        files.iter().map(|file| file.path.as_str()).collect()
    }

    #[test]
    fn the_family_stands_above_the_first_block() {
        assert_eq!(family_of("format = 1\nfamily  = \"cable-drop\" # x\n"), Some("cable-drop"));
        assert_eq!(family_of("family = 'setback'"), Some("setback"));
        assert_eq!(family_of("[[step]]\nfamily = \"no\""), None);
        assert_eq!(family_of("family = é"), None);
        assert_eq!(family_of("family ="), None);
    }

    #[test]
    fn a_file_at_the_same_path_or_of_the_same_family_replaces() {
        let below = vec![
            file("a/one.toml", "family = \"one\""),
            file("a/two.toml", "family = \"two\""),
            file("rules.toml", "first"),
        ];
        let above = vec![file("mine/two.toml", "family = \"two\""), file("rules.toml", "second")];
        let files = laid_over(below, above);
        assert_eq!(paths(&files), ["a/one.toml", "mine/two.toml", "rules.toml"]);
        assert_eq!(files.last().map(|file| file.text.as_str()), Some("second"));
    }

    #[test]
    fn a_folder_that_is_not_there_is_named() {
        let failure = read_folder(Path::new("no-such-folder")).unwrap_err();
        assert_eq!(failure.exit_code(), 3);
        let sentence = failure.sentence().unwrap_or_default();
        assert!(sentence.starts_with("no-such-folder cannot be read: "), "{sentence}");
    }
}
