//! What is half marked with the pen, kept beside the papers until the whole paper is
//! filed as a hand-in.

use std::collections::BTreeMap;
use std::fs;

use pumpwright_engine::classes::json;
use pumpwright_engine::classes::marks::{HandIn, Way};
use pumpwright_screens::Keyed;
use serde::{Deserialize, Serialize};

use super::folder::{cannot_write, keep};
use super::kept::{Kept, names, read_as};
use super::paper::{PaperFolder, Taken};
use crate::failure::Failure;

/// A paper half marked.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Half {
    paper: String,
    items: Vec<Option<String>>,
    at: usize,
}

impl PaperFolder {
    /// Keeps what was keyed; a whole paper is filed. It is on the disk before this returns.
    ///
    /// # Errors
    /// When it cannot be written; what was kept before stays.
    pub fn keep_keyed(&self, keyed: &Keyed) -> Result<(), Failure> {
        let room = self.path().join("pen");
        fs::create_dir_all(&room).map_err(|error| cannot_write(&room, &error))?;
        let path = room.join(format!("{}.json", keyed.paper));
        let half = Half {
            paper: keyed.paper.clone(),
            items: keyed.items.clone(),
            at: keyed.at,
        };
        keep(&path, &json(&Kept::of(half)))?;
        if !keyed.whole {
            return Ok(());
        }
        let hand_in = HandIn {
            paper: keyed.paper.clone(),
            way: Way::Pen,
            at: None,
            zone: 0,
            items: (keyed.items.iter())
                .map(|item| vec![item.clone().unwrap_or_default()])
                .collect(),
        };
        if let Taken::Out(why) = self.take(&hand_in)? {
            return Err(Failure::Input(why));
        }
        // It is filed; that its half may stay would only open it again.
        fs::remove_file(&path).map_err(|error| cannot_write(&path, &error))
    }

    /// What is half marked, with a line for each file that cannot be read.
    pub fn keyed(&self) -> (BTreeMap<String, Keyed>, Vec<String>) {
        let room = self.path().join("pen");
        let mut found = BTreeMap::new();
        let mut notes = Vec::new();
        // Before the first paper is marked there is no such folder.
        for name in names(&room).unwrap_or_default() {
            match read_as::<Kept<Half>>(&room.join(format!("{name}.json"))) {
                Ok(Some(half)) => {
                    let Half { paper, items, at } = half.kept;
                    let keyed = Keyed {
                        paper: paper.clone(),
                        items,
                        at,
                        whole: false,
                    };
                    found.insert(paper, keyed);
                }
                Ok(None) => {}
                Err(failure) => notes.extend(failure.sentence()),
            }
        }
        (found, notes)
    }
}
