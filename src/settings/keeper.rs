//! Keeping what set-up changes: a thread of its own writes the file, whole or not
//! at all, so that no key waits for a disk.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::{self, JoinHandle};

use pumpwright_screens::{Keeper, SetUp};

use super::file::{Settings, text};
use crate::news::News;

/// Keeps what is set in a file. Dropping it waits until all is written.
#[derive(Debug)]
pub struct FileKeeper {
    path: Option<PathBuf>,
    news: News,
    writer: Option<(Sender<SetUp>, JoinHandle<()>)>,
}

impl FileKeeper {
    /// A keeper for this file.
    pub fn new(path: Option<PathBuf>) -> Self {
        Self {
            path,
            news: News::default(),
            writer: None,
        }
    }

    /// What could not be kept, to be asked when the keeper is gone.
    pub fn unsaid(&self) -> News {
        self.news.clone()
    }

    fn start(&self, path: PathBuf) -> io::Result<(Sender<SetUp>, JoinHandle<()>)> {
        let (sender, receiver) = channel();
        let news = self.news.clone();
        let work = move || write_all(&path, &receiver, &news);
        let handle = thread::Builder::new()
            .name("settings".to_owned())
            .spawn(work)?;
        Ok((sender, handle))
    }
}

impl Keeper for FileKeeper {
    fn keep(&mut self, set: &SetUp) {
        let Some(path) = self.path.clone() else {
            let why = "this machine names no folder for settings";
            self.news.say(not_kept(why));
            return;
        };
        if self.writer.is_none() {
            match self.start(path) {
                Ok(writer) => self.writer = Some(writer),
                Err(error) => self.news.say(not_kept(&error.to_string())),
            }
        }
        let sent = self
            .writer
            .as_ref()
            .map(|(sender, _)| sender.send(set.clone()));
        if let Some(Err(_)) = sent {
            self.news.say(not_kept("the writer has stopped"));
        }
    }

    fn news(&mut self) -> Option<String> {
        self.news.next()
    }
}

impl Drop for FileKeeper {
    fn drop(&mut self) {
        if let Some((sender, writer)) = self.writer.take() {
            drop(sender);
            if writer.join().is_err() {
                self.news.say(not_kept("the writer has stopped"));
            }
        }
    }
}

fn not_kept(why: &str) -> String {
    format!("set-up is not kept: {why}. It holds until you stop")
}

/// Writes what comes, the newest only where several wait.
fn write_all(path: &Path, receiver: &Receiver<SetUp>, news: &News) {
    while let Ok(first) = receiver.recv() {
        let newest = receiver.try_iter().last().unwrap_or(first);
        if let Err(why) = write(path, &newest) {
            news.say(not_kept(&why));
        }
    }
}

/// Lays what is set into the file. One that cannot be read is left as it is.
fn write(path: &Path, set: &SetUp) -> Result<(), String> {
    let shown = path.display();
    let unread = |fault: Box<pumpwright_engine::lessons::Fault>| {
        format!(
            "{shown}, line {}, cannot be read and is left as it is",
            fault.line
        )
    };
    let old = text(path).map_err(unread)?;
    let new = Settings::laid_into(&shown.to_string(), old.as_deref(), set).map_err(unread)?;
    if old.as_ref() == Some(&new) {
        return Ok(());
    }
    replace(path, new.as_bytes()).map_err(|error| format!("{shown} cannot be written: {error}"))
}

/// Writes a file whole or not at all: beside it first, then in its place. A link
/// stays a link, and who may read the file stays as it was.
fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let folder = folder.unwrap_or_else(|| Path::new("."));
    fs::create_dir_all(folder)?;
    let beside = folder.join(format!(".settings.{}.new", std::process::id()));
    let done = write_beside(&beside, &path, bytes).and_then(|()| fs::rename(&beside, &path));
    if done.is_err() {
        // What is left of it is of no use; that it may stay is no second fault.
        let _ = fs::remove_file(&beside);
    }
    done
}

fn write_beside(beside: &Path, path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file: File = OpenOptions::new()
        .write(true)
        .create(true)
        .truncate(true)
        .open(beside)?;
    file.write_all(bytes)?;
    if let Ok(about) = fs::metadata(path) {
        file.set_permissions(about.permissions())?;
    }
    file.sync_all()
}

#[cfg(test)]
mod tests {
    use pumpwright_engine::quantities::System;

    use super::*;

    /// A folder that goes away with the test.
    struct Folder(PathBuf);

    impl Folder {
        fn new(name: &str) -> Self {
            let id = std::process::id();
            let path = std::env::temp_dir().join(format!("pumpwright-{name}-{id}"));
            fs::create_dir_all(&path).unwrap();
            Self(path)
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            fs::remove_dir_all(&self.0).unwrap();
        }
    }

    fn si() -> SetUp {
        SetUp {
            units: Some(System::Si),
            ..SetUp::default()
        }
    }

    fn kept(path: &Path, sets: &[SetUp]) -> Option<String> {
        let mut keeper = FileKeeper::new(Some(path.to_owned()));
        for set in sets {
            keeper.keep(set);
        }
        let news = keeper.unsaid();
        drop(keeper);
        news.next()
    }

    #[test]
    fn the_file_and_its_folder_are_made_and_nothing_is_left_beside_it() {
        let folder = Folder::new("made");
        let path = folder.0.join("deep/er/settings.toml");
        assert_eq!(kept(&path, &[SetUp::default(), si()]), None);
        let written = fs::read_to_string(&path).unwrap();
        assert_eq!(Settings::read("f", &written).unwrap().set, si());
        let beside = fs::read_dir(path.parent().unwrap()).unwrap().count();
        assert_eq!(beside, 1);
    }

    #[test]
    fn a_broken_file_is_left_as_it_is() {
        let folder = Folder::new("broken");
        let path = folder.0.join("settings.toml");
        let broken = "format = 1\nunits = \"SI\n";
        fs::write(&path, broken).unwrap();
        let news = kept(&path, &[si()]).unwrap();
        assert!(
            news.contains("line 2, cannot be read and is left as it is"),
            "{news}"
        );
        assert_eq!(fs::read_to_string(&path).unwrap(), broken);
    }

    #[test]
    fn where_nothing_can_be_written_it_is_said() {
        let folder = Folder::new("refused");
        let file = folder.0.join("file");
        fs::write(&file, "x").unwrap();
        let news = kept(&file.join("settings.toml"), &[si()]).unwrap();
        assert!(news.starts_with("set-up is not kept: "), "{news}");
        let news = kept(&folder.0, &[si()]).unwrap();
        assert!(
            news.contains("cannot be read and is left as it is"),
            "{news}"
        );
        let mut nowhere = FileKeeper::new(None);
        nowhere.keep(&si());
        assert!(nowhere.news().unwrap().contains("no folder for settings"));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link_and_the_rights_stay() {
        use std::os::unix::fs::{PermissionsExt as _, symlink};
        let folder = Folder::new("link");
        let (real, link) = (folder.0.join("real.toml"), folder.0.join("settings.toml"));
        fs::write(&real, "format = 1\n").unwrap();
        fs::set_permissions(&real, fs::Permissions::from_mode(0o600)).unwrap();
        symlink(&real, &link).unwrap();
        assert_eq!(kept(&link, &[si()]), None);
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert!(fs::read_to_string(&real).unwrap().contains("SI"));
        let rights = fs::metadata(&real).unwrap().permissions().mode();
        assert_eq!(rights & 0o777, 0o600);
    }
}
