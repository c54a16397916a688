//! Writing a file of our own: whole or not at all, and never over somebody else's.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::path::Path;
#[cfg(feature = "pdf")]
use std::path::PathBuf;

use crate::failure::Failure;

/// Refuses a name that says another sort of file than the one that is written; before
/// anything is made. `.HTM` is as good as `.html`.
///
/// # Errors
/// [`Failure::Input`] with the name that would do.
pub fn ends(path: &Path, ending: &str) -> Result<(), Failure> {
    let own = path.extension().and_then(|own| own.to_str());
    let own = own.unwrap_or_default().to_ascii_lowercase();
    if own == ending || (own == "htm" && ending == "html") {
        return Ok(());
    }
    Err(Failure::Input(format!(
        "{} does not end with .{ending}; name the file {}",
        path.display(),
        path.with_extension(ending).display()
    )))
}

/// Writes a file. One that is there already is replaced only where it begins as files
/// of this sort do; `what` names the sort.
///
/// # Errors
/// [`Failure::Input`] where another file is in the way, [`Failure::World`] where the
/// file cannot be written; what was there stays as it was.
pub fn write(path: &Path, text: &str, begins: &str, what: &str) -> Result<(), Failure> {
    let shown = path.display();
    let cannot = |error: io::Error| Failure::World(format!("{shown} cannot be written: {error}"));
    match start(path, begins.len()) {
        Ok(start) if start.is_empty() || start == begins.as_bytes() => {}
        Ok(_) => {
            return Err(Failure::Input(format!(
                "{shown} is there and is no {what} of this program; name another file"
            )));
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => {}
        Err(error) => return Err(cannot(error)),
    }
    replace(path, text.as_bytes()).map_err(cannot)
}

/// Writes a PDF. One that is there already is replaced only where it is one that this
/// program wrote.
///
/// # Errors
/// As [`write()`].
#[cfg(feature = "pdf")]
pub fn write_pdf(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    const CREATOR: &[u8] = b"/Creator(pumpwright)";
    let shown = path.display();
    let cannot = |error: io::Error| Failure::World(format!("{shown} cannot be written: {error}"));
    let own = |there: &[u8]| there.windows(CREATOR.len()).any(|bytes| bytes == CREATOR);
    match fs::read(path) {
        Ok(there) if there.is_empty() || own(&there) => {}
        Ok(_) => {
            return Err(Failure::Input(format!(
                "{shown} is there and is no PDF of this program; name another file"
            )));
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => {}
        Err(error) => return Err(cannot(error)),
    }
    replace(path, bytes).map_err(cannot)
}

/// Whether two paths are one file: the same name in the same folder, or a link to it,
/// also to one that is not there yet.
#[cfg(feature = "pdf")]
pub fn one_place(one: &Path, other: &Path) -> bool {
    place(one) == place(other)
}

/// Where a file lies or would lie, links followed.
#[cfg(feature = "pdf")]
fn place(path: &Path) -> PathBuf {
    /// As many links one behind the other: common practice, no source.
    const LINKS: usize = 40;
    let mut path = path.to_owned();
    for _ in 0..LINKS {
        if let Ok(there) = fs::canonicalize(&path) {
            return there;
        }
        match fs::read_link(&path) {
            Ok(to) => path = folder(&path).join(to),
            Err(_) => break,
        }
    }
    match (fs::canonicalize(folder(&path)), path.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => path,
    }
}

/// The folder in which a file lies.
fn folder(path: &Path) -> &Path {
    let folder = path.parent();
    let folder = folder.filter(|folder| !folder.as_os_str().is_empty());
    folder.unwrap_or_else(|| Path::new("."))
}

/// The first bytes of a file.
fn start(path: &Path, count: usize) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?
        .take(count as u64)
        .read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Beside it first, then in its place, and on the disk. A link stays a link.
///
/// # Errors
/// What the system says; what was there stays as it was.
pub fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    beside(path, bytes, true)
}

/// The same without waiting for the disk, for what can be made again.
///
/// # Errors
/// What the system says; what was there stays as it was.
pub fn put(path: &Path, bytes: &[u8]) -> io::Result<()> {
    beside(path, bytes, false)
}

fn beside(path: &Path, bytes: &[u8], wait: bool) -> io::Result<()> {
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let beside = folder(&path).join(format!(".pumpwright.{}.new", std::process::id()));
    let mut file = OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(&beside)?;
    let done = file
        .write_all(bytes)
        .and_then(|()| if wait { file.sync_all() } else { Ok(()) })
        .and_then(|()| fs::rename(&beside, &path));
    if done.is_err() {
        // What is left of it is of no use; that it may stay is no second fault.
        let _ = fs::remove_file(&beside);
    }
    done
}
