//! Where the logbook lies, and whose record is meant.

use std::path::{Path, PathBuf};

use crate::cli::Global;
use crate::platform;
use crate::settings::InUse;

/// A folder of this name beside the program holds the record: a stick that carries
/// both goes from machine to machine.
const BESIDE: &str = "pumpwright-data";
const FILE: &str = "logbook.db";

/// The file: as the option or the environment names it, else in a folder beside the
/// program, else where the platform keeps data. None where it names no such place.
pub fn file(global: &Global) -> Option<PathBuf> {
    let named = global.logbook.clone();
    named
        .filter(|path| !path.as_os_str().is_empty())
        .or_else(|| beside(&platform::program_folder()?))
        .or_else(platform::logbook_file)
}

fn beside(program: &Path) -> Option<PathBuf> {
    let folder = program.join(BESIDE);
    folder.is_dir().then(|| folder.join(FILE))
}

/// Whose record it is: as the option names it, else as the settings do, else the user
/// of this machine.
pub fn person(global: &Global, settings: &InUse) -> String {
    let named = global.person.as_deref().map(str::trim);
    let named = named.filter(|name| !name.is_empty());
    let set = settings.set().name.as_deref();
    match named.or(set.filter(|name| !name.is_empty())) {
        Some(name) => name.to_owned(),
        None => platform::user(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::testing::Folder;

    #[test]
    fn the_option_comes_first_then_the_folder_beside_the_program() {
        let named = Global {
            logbook: Some("mine.db".into()),
            ..Global::default()
        };
        assert_eq!(file(&named), Some("mine.db".into()));
        let folder = Folder::new("place");
        assert_eq!(beside(&folder.path("")), None);
        std::fs::create_dir(folder.path(BESIDE)).unwrap();
        assert_eq!(
            beside(&folder.path("")),
            Some(folder.path(BESIDE).join(FILE))
        );
    }

    #[test]
    fn the_option_names_the_person_then_the_settings() {
        let mut settings = InUse::default();
        let mut global = Global::default();
        assert_eq!(person(&global, &settings), platform::user());
        settings.settings.set.name = Some("Ina".to_owned());
        assert_eq!(person(&global, &settings), "Ina");
        global.person = Some(" Tom ".to_owned());
        assert_eq!(person(&global, &settings), "Tom");
    }
}
