//! Lesson files: those that the program carries, and a folder laid over them.
//! Files become text here and nothing more; the engine reads what stands in them.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use pumpwright_engine::lessons::SourceFile;
use sha2::{Digest as _, Sha256};

use crate::failure::Failure;

/// Path inside the lessons folder, and text.
const CARRIED: &[(&str, &str)] = &include!(concat!(env!("OUT_DIR"), "/lessons.rs"));

/// A larger file is no lesson; reading it would only cost memory.
const LARGEST: u64 = 4 * 1024 * 1024;
/// Folders inside folders, at most; a link that leads back up ends here.
const DEEPEST: usize = 16;

/// The folder that the carried files are shown to stand in.
const CARRIED_ROOT: &str = "lessons";

/// The files that the program carries.
pub fn carried() -> Files {
    let source = |(path, text): &(&str, &str)| SourceFile {
        path: format!("{CARRIED_ROOT}/{path}"),
        text: (*text).to_owned(),
    };
    Files {
        root: CARRIED_ROOT.to_owned(),
        files: CARRIED.iter().map(source).collect(),
        ..Files::default()
    }
}

/// The edition of what is carried: the start of the SHA-256 over all paths and texts.
pub fn edition() -> String {
    let mut sum = Sha256::new();
    for (path, text) in CARRIED {
        for part in [path, text] {
            sum.update((part.len() as u64).to_le_bytes());
            sum.update(part.as_bytes());
        }
    }
    let bytes = sum.finalize();
    bytes.iter().take(4).fold(String::new(), |mut all, byte| {
        let _ = write!(all, "{byte:02x}");
        all
    })
}

/// How many kinds of job, and how many lessons, are carried.
pub fn count() -> (usize, usize) {
    let count = |of: fn(&(&str, &str)) -> bool| CARRIED.iter().filter(|file| of(file)).count();
    (
        count(|(_, text)| family_of(text).is_some()),
        count(|(path, _)| path.ends_with("/lesson.toml")),
    )
}

/// Lesson files, and those that could not be read.
#[derive(Debug, Default)]
pub struct Files {
    /// The folder that they stand in, as it is shown.
    pub root: String,
    /// The files.
    pub files: Vec<SourceFile>,
    /// A sentence about each file that could not be read.
    pub unread: Vec<String>,
    /// How many of the files, the last ones, were laid over others; none where no folder was.
    laid: Option<usize>,
}

impl Files {
    /// The path of a file inside its folder.
    fn inside<'a>(&self, file: &'a SourceFile) -> &'a str {
        let path = file
            .path
            .strip_prefix(self.root.as_str())
            .unwrap_or(&file.path);
        path.trim_start_matches('/')
    }

    /// The files that belong to the folder that is named; all where none is.
    pub fn own(&self) -> &[SourceFile] {
        let below = self.laid.map_or(0, |laid| self.files.len() - laid);
        self.files.get(below..).unwrap_or_default()
    }

    /// Whether files are kept out of [`Self::own`]: those below a folder that is named.
    pub fn has_others(&self) -> bool {
        self.own().len() < self.files.len()
    }

    /// These files laid over others: a file at the same place in its folder, or
    /// of the same family, replaces; everything else stays.
    #[must_use]
    pub fn over(self, below: Self) -> Self {
        let replaced = |file: &SourceFile| {
            let family = family_of(&file.text);
            self.files.iter().any(|own| {
                self.inside(own) == below.inside(file)
                    || (family.is_some() && family_of(&own.text) == family)
            })
        };
        let stays = below.files.iter().filter(|file| !replaced(file)).cloned();
        let files = stays.chain(self.files.iter().cloned()).collect();
        let unread = below.unread.into_iter().chain(self.unread).collect();
        Self {
            root: self.root,
            laid: Some(self.files.len()),
            files,
            unread,
        }
    }
}

/// The carried files, with a folder laid over them where one is named.
///
/// # Errors
/// When the folder cannot be read.
pub fn in_use(folder: Option<&Path>) -> Result<Files, Failure> {
    let below = carried();
    match folder {
        Some(folder) => Ok(read_folder(folder)?.over(below)),
        None => Ok(below),
    }
}

/// A class's own rules file, where one is named.
///
/// # Errors
/// When it cannot be read.
pub fn class(path: Option<&Path>) -> Result<Option<SourceFile>, Failure> {
    let Some(path) = path else { return Ok(None) };
    let (_, text) = read_file(Path::new(""), path).map_err(Failure::World)?;
    Ok(Some(SourceFile {
        path: path.display().to_string(),
        text,
    }))
}

/// Every lesson file of a folder and its folders, in the order of their paths.
///
/// # Errors
/// When the folder cannot be read.
pub fn read_folder(folder: &Path) -> Result<Files, Failure> {
    let mut paths = Vec::new();
    collect(folder, 0, &mut paths)?;
    paths.sort();
    let root = folder
        .display()
        .to_string()
        .trim_end_matches('/')
        .to_owned();
    let mut found = Files {
        root,
        ..Files::default()
    };
    for path in &paths {
        match read_file(folder, path) {
            Ok((inside, text)) => {
                found.files.push(SourceFile {
                    path: format!("{}/{inside}", found.root),
                    text,
                });
            }
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
        } else if path
            .extension()
            .is_some_and(|extension| extension == "toml")
        {
            paths.push(path);
        }
    }
    Ok(())
}

fn is_hidden(path: &Path) -> bool {
    path.file_name()
        .is_some_and(|name| name.to_string_lossy().starts_with('.'))
}

/// The path of a file inside the folder, and its text.
fn read_file(folder: &Path, path: &Path) -> Result<(String, String), String> {
    let name = path.display();
    let unreadable = |error: std::io::Error| format!("{name} cannot be read: {error}");
    if fs::metadata(path).map_err(unreadable)?.len() > LARGEST {
        return Err(format!(
            "{name} is larger than 4 MiB, more than a lesson needs; split it"
        ));
    }
    let text = String::from_utf8(fs::read(path).map_err(unreadable)?).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        format!("{name} is not UTF-8 text from byte {at} on; save it as UTF-8")
    })?;
    let inside = path.strip_prefix(folder).unwrap_or(path);
    let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
    Ok((parts.join("/"), text))
}

fn cannot_read(path: &Path, error: &std::io::Error) -> Failure {
    Failure::World(format!("{} cannot be read: {error}", path.display()))
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

    fn files(root: &str, files: &[(&str, &str)]) -> Files {
        let source = |(path, text): &(&str, &str)| SourceFile {
            path: format!("{root}/{path}"),
            text: (*text).to_owned(),
        };
        Files {
            root: root.to_owned(),
            files: files.iter().map(source).collect(),
            ..Files::default()
        }
    }

    #[test]
    fn the_family_stands_above_the_first_block() {
        assert_eq!(
            family_of("format = 1\nfamily  = \"cable-drop\" # x\n"),
            Some("cable-drop")
        );
        assert_eq!(family_of("family = 'setback'"), Some("setback"));
        assert_eq!(family_of("[[step]]\nfamily = \"no\""), None);
        assert_eq!(family_of("family = é"), None);
        assert_eq!(family_of("family ="), None);
    }

    #[test]
    fn a_file_at_the_same_path_or_of_the_same_family_replaces() {
        let below = files(
            "lessons",
            &[
                ("a/one.toml", "family = \"one\""),
                ("a/two.toml", "family = \"two\""),
                ("rules.toml", "first"),
            ],
        );
        let above = files(
            "mine",
            &[("b/two.toml", "family = \"two\""), ("rules.toml", "second")],
        );
        let both = above.over(below);
        let paths: Vec<_> = both.files.iter().map(|file| file.path.as_str()).collect();
        assert_eq!(
            paths,
            ["lessons/a/one.toml", "mine/b/two.toml", "mine/rules.toml"]
        );
        let own: Vec<_> = both.own().iter().map(|file| file.path.as_str()).collect();
        assert_eq!(own, ["mine/b/two.toml", "mine/rules.toml"]);
        assert!(both.has_others() && !carried().has_others());
    }

    #[test]
    fn the_carried_lessons_are_there() {
        let paths: Vec<_> = carried().files.into_iter().map(|file| file.path).collect();
        assert!(
            paths.contains(&"lessons/rules.toml".to_owned()),
            "{paths:?}"
        );
        assert!(
            paths.iter().any(|path| path.ends_with("/lesson.toml")),
            "{paths:?}"
        );
    }

    #[test]
    fn a_folder_that_is_not_there_is_named() {
        let failure = read_folder(Path::new("no-such-folder")).unwrap_err();
        assert_eq!(failure.exit_code(), 3);
        let sentence = failure.sentence().unwrap_or_default();
        assert!(
            sentence.starts_with("no-such-folder cannot be read: "),
            "{sentence}"
        );
    }
}
