//! The settings of one person: read from a TOML file at the start, kept there
//! when set-up changes them. Options and the environment come before it.

mod file;
mod keeper;
mod reading;

use std::path::{Path, PathBuf};

use pumpwright_engine::lessons::{Fault, Library};
use pumpwright_engine::problems;
use pumpwright_screens::SetUp;

use crate::cli::{Cli, Kept};
use crate::platform;

pub use file::{FORMAT, HouseRule, Settings};
pub use keeper::FileKeeper;

/// The name of the file in a folder beside the program.
const FILE: &str = "settings.toml";

/// The settings in use, and where they stand.
#[derive(Debug, Default)]
pub struct InUse {
    /// Where they stand; none where this machine has no place for them.
    pub path: Option<PathBuf>,
    /// Whether a file stands there.
    pub found: bool,
    /// What holds; nothing where the file cannot be read.
    pub settings: Settings,
    /// Why the file cannot be read.
    pub fault: Option<Fault>,
    text: String,
}

impl InUse {
    /// Reads the file that the command line or the environment names, else the one in a
    /// folder for data beside the program, else in the platform's folder. One that is not there sets nothing.
    pub fn of(cli: &Cli) -> Self {
        let named = cli.global.settings.clone();
        let named = named.filter(|path| !path.as_os_str().is_empty());
        let beside = || Some(platform::folder_beside()?.join(FILE));
        match named.or_else(beside).or_else(platform::settings_file) {
            Some(path) => Self::read(path),
            None => Self::default(),
        }
    }

    fn read(path: PathBuf) -> Self {
        let (text, read) = match file::text(&path) {
            Ok(None) => {
                return Self {
                    path: Some(path),
                    ..Self::default()
                };
            }
            Ok(Some(text)) => {
                let read = Settings::read(&shown(&path), &text);
                (text, read)
            }
            Err(fault) => (String::new(), Err(fault)),
        };
        let (settings, fault) = match read {
            Ok(settings) => (settings, None),
            Err(fault) => (Settings::default(), Some(*fault)),
        };
        Self {
            path: Some(path),
            found: true,
            settings,
            fault,
            text,
        }
    }

    /// What a person set.
    pub const fn set(&self) -> &SetUp {
        &self.settings.set
    }

    /// Checks the house rules against those that the lessons have. One that they do
    /// not have is a fault of the file, and then nothing of it holds.
    pub fn check_rules(&mut self, library: &Library) {
        let path = self.path.as_deref().map(shown).unwrap_or_default();
        let fault = self.settings.rules.iter().find_map(|rule| {
            let mut trial = problems::Settings::default();
            let refused = trial.set(library, &rule.name, &rule.value).err()?;
            Some(rule.fault(&path, &self.text, &refused.to_string()))
        });
        if fault.is_some() {
            self.settings = Settings::default();
            self.fault = fault;
        }
    }

    /// What commands take where no option says otherwise.
    pub fn kept(&self) -> Kept {
        let rule = |rule: &HouseRule| format!("{}={}", rule.name, rule.value);
        Kept {
            units: self.set().units,
            rules: self.settings.rules.iter().map(rule).collect(),
        }
    }
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}
