//! The key of a class: made once from the system's own randomness, for its owner alone.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use pumpwright_engine::classes::seal::ClassKey;
use rand::TryRng as _;
use rand::rngs::SysRng;

use crate::failure::Failure;
use crate::platform;

/// The key in a file; made where there is none and none was: not where papers of the class
/// were drawn from it already.
///
/// # Errors
/// When it is there and cannot be read, is lost, or cannot be made.
pub fn key(path: &Path, has_papers: bool) -> Result<ClassKey, Failure> {
    let shown = path.display();
    match fs::read(path) {
        Ok(bytes) => read(&bytes).ok_or_else(|| {
            Failure::Input(format!(
                "{shown} holds no class key; put the one of this class back: papers that are printed stay markable without it"
            ))
        }),
        Err(error) if error.kind() == io::ErrorKind::NotFound && has_papers => {
            Err(Failure::Input(format!(
                "{shown} is not there, and papers of this class were drawn from it; put it back from a copy of the folder: papers that are printed stay markable without it, and new ones can only be made in another folder (--out)"
            )))
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => make(path),
        Err(error) => Err(Failure::World(format!("{shown} cannot be read: {error}"))),
    }
}

/// Whether a file has the key of a class.
pub fn is_there(path: &Path) -> bool {
    fs::read(path).is_ok_and(|bytes| read(&bytes).is_some())
}

fn read(bytes: &[u8]) -> Option<ClassKey> {
    ClassKey::read(std::str::from_utf8(bytes).ok()?)
}

fn make(path: &Path) -> Result<ClassKey, Failure> {
    let cannot =
        |error: io::Error| Failure::World(format!("{} cannot be written: {error}", path.display()));
    let mut bytes = [0; 32];
    SysRng.try_fill_bytes(&mut bytes).map_err(|error| {
        Failure::World(format!("this machine gives no random numbers: {error}"))
    })?;
    let key = ClassKey::of(bytes);
    // Whole beside it first: a key that breaks off would lock the class out.
    let beside = path.with_extension(format!("key.{}.new", std::process::id()));
    platform::create_private(&beside).map_err(cannot)?;
    let written = fs::OpenOptions::new()
        .write(true)
        .truncate(true)
        .open(&beside)
        .and_then(|mut file| {
            file.write_all(key.text().as_bytes())?;
            file.sync_all()
        })
        // A link is not put over a key that somebody else has made meanwhile.
        .and_then(|()| fs::hard_link(&beside, path).or_else(|_| put(&beside, path)));
    let _ = fs::remove_file(&beside);
    match written {
        Ok(()) => Ok(key),
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => self::key(path, false),
        Err(error) => Err(cannot(error)),
    }
}

/// Where a disk knows no links: put in place, if nothing is there.
fn put(beside: &Path, path: &Path) -> io::Result<()> {
    if path.exists() {
        return Err(io::ErrorKind::AlreadyExists.into());
    }
    fs::rename(beside, path)
}
