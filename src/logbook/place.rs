//! Where the logbook lies, and whose record is meant.

use std::path::{Path, PathBuf};

use super::store::Logbook;
use crate::cli::Global;
use crate::platform;
use crate::settings::InUse;

const FILE: &str = "logbook.db";

/// The file: as the option or the environment names it, else in a folder beside the
/// program, else where the platform keeps data. None where it names no such place.
pub fn file(global: &Global) -> Option<PathBuf> {
    let named = global.logbook.clone();
    named
        .filter(|path| !path.as_os_str().is_empty())
        .or_else(|| Some(platform::folder_beside()?.join(FILE)))
        .or_else(platform::logbook_file)
}

/// By what it is told whose record is meant.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Whose {
    /// As the option names it.
    pub named: Option<String>,
    /// The name in the settings.
    pub set: Option<String>,
    /// The user of this machine.
    pub user: String,
}

impl Whose {
    /// As the command line and the settings say.
    pub fn of(global: &Global, settings: &InUse) -> Self {
        let name = |name: Option<&str>| {
            let name = name.map(str::trim).filter(|name| !name.is_empty());
            name.map(str::to_owned)
        };
        Self {
            named: name(global.person.as_deref()),
            set: name(settings.set().name.as_deref()),
            user: platform::user(),
        }
    }

    /// Somebody who is named.
    pub fn named(person: &str) -> Self {
        Self {
            named: Some(person.to_owned()),
            ..Self::default()
        }
    }

    /// Who is meant among those of whom there are sheets: whom the option names; else
    /// whom the settings name; else the only one there is. So a name that is set later,
    /// or a stick in another machine, parts nobody from the record.
    pub fn among(&self, there: &[String]) -> String {
        if let Some(named) = &self.named {
            return named.clone();
        }
        let set = self.set.clone();
        if let Some(set) = set.as_ref().filter(|set| there.contains(set)) {
            return set.clone();
        }
        match there {
            [only] => only.clone(),
            _ => set.unwrap_or_else(|| self.user.clone()),
        }
    }
}

/// Whose record is meant in this file.
pub fn person(global: &Global, settings: &InUse, file: Option<&Path>) -> String {
    let logbook = file.filter(|file| file.exists());
    let logbook = logbook.and_then(|file| Logbook::reading(file).ok());
    let there = logbook.and_then(|logbook| logbook.names().ok());
    Whose::of(global, settings).among(&there.unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_option_comes_first() {
        let named = Global {
            logbook: Some("mine.db".into()),
            ..Global::default()
        };
        assert_eq!(file(&named), Some("mine.db".into()));
    }

    #[test]
    fn the_option_names_the_person_then_the_settings_then_who_is_there() {
        let mut settings = InUse::default();
        let mut global = Global::default();
        let meant = |global: &Global, settings: &InUse, there: &[&str]| {
            let there: Vec<String> = there.iter().map(|&name| name.to_owned()).collect();
            Whose::of(global, settings).among(&there)
        };
        assert_eq!(meant(&global, &settings, &[]), platform::user());
        assert_eq!(meant(&global, &settings, &["Ina"]), "Ina");
        settings.settings.set.name = Some("Ina".to_owned());
        assert_eq!(meant(&global, &settings, &[]), "Ina");
        // A name that was set after the first sheets parts nobody from them.
        assert_eq!(meant(&global, &settings, &["pump"]), "pump");
        assert_eq!(meant(&global, &settings, &["Ina", "pump"]), "Ina");
        assert_eq!(meant(&global, &settings, &["Tom", "pump"]), "Ina");
        global.person = Some(" Tom ".to_owned());
        assert_eq!(meant(&global, &settings, &["pump"]), "Tom");
    }
}
