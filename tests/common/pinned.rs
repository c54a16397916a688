//! Shipped families with their draws pinned to known values, so that what is
//! right can be worked out by hand.

use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Settings};

use crate::common::{Face, draw_one, still_files};

/// A family with some of its draws exchanged, each written as in a lesson file.
pub struct Pinned<'a> {
    /// The family, as `pressure-tank/tank-precharge`.
    pub family: &'a str,
    /// The names of givens with their draws.
    pub draws: &'a [(&'a str, &'a str)],
    /// House rules off their default.
    pub rules: &'a [(&'a str, &'a str)],
}

impl Pinned<'_> {
    /// The library with the family pinned, and the settings.
    fn read(&self) -> (Library, Settings) {
        let mut files = still_files();
        let path = format!("{}.toml", self.family);
        let file = files.iter_mut().find(|file| file.path == path);
        let file = file.expect("the family's file");
        let mut text: toml::Table = file.text.parse().expect("TOML");
        for (name, draw) in self.draws {
            let draw: toml::Table = format!("draw = {draw}").parse().expect("a draw");
            let givens = text["given"].as_array_mut().expect("givens");
            let given = givens
                .iter_mut()
                .find(|given| given["name"].as_str() == Some(*name))
                .expect("the given");
            given["draw"] = draw["draw"].clone();
        }
        file.text = toml::to_string(&text).expect("TOML");
        let (library, faults) = Library::read(&files);
        let shown: Vec<String> = faults.iter().map(ToString::to_string).collect();
        assert!(faults.is_empty(), "{}", shown.join("\n\n"));
        let mut settings = Settings::default();
        for (name, value) in self.rules {
            settings.set(&library, name, value).expect("a house rule");
        }
        (library, settings)
    }

    /// The problem of a level and system, the first that is as wanted.
    pub fn problem(&self, level: u8, system: &str, wanted: impl Fn(&Problem) -> bool) -> Problem {
        let (library, settings) = self.read();
        let (_, family) = self.family.split_once('/').expect("lesson/family");
        let face: Face = (family.into(), level, system.parse().expect("us or si"));
        (0..500)
            .map(|number| draw_one(&library, &face, number, &settings).expect("a problem"))
            .find(wanted)
            .expect("a draw as wanted")
    }
}
