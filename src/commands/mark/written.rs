//! Results that are written into a folder: each is told, and one that cannot be written stops
//! no other.

use std::path::Path;

use crate::console::Console;
use crate::failure::Failure;

/// What could not be written so far.
#[derive(Default)]
pub struct Unwritten {
    /// Files that were not written, as another's was in the way; each is told.
    in_the_way: usize,
    /// A sentence for each that the disk or the system refused.
    refused: Vec<String>,
}

impl Unwritten {
    /// Says that a file is written, or why it is not.
    ///
    /// # Errors
    /// When the output is closed.
    pub fn told(
        &mut self,
        written: Result<(), Failure>,
        path: &Path,
        console: &mut Console,
    ) -> Result<(), Failure> {
        match written {
            Ok(()) => console.line(format_args!("{} is written", path.display()))?,
            Err(Failure::World(why)) => self.refused.push(why),
            Err(failure) => {
                self.in_the_way += 1;
                let why = failure.sentence().unwrap_or_default();
                console.note(format_args!("note: {why}"));
            }
        }
        Ok(())
    }

    /// Whether everything was written that the disk and the system let be written; gives
    /// whether another's file was in the way.
    ///
    /// # Errors
    /// [`Failure::World`] with what they refused, and what to do.
    pub fn end(mut self, folder: &Path) -> Result<bool, Failure> {
        if self.refused.is_empty() {
            return Ok(self.in_the_way > 0);
        }
        self.refused.push(format!(
            "see that {} can be written to and has room, then mark again: what was kept before is unchanged",
            folder.display()
        ));
        Err(Failure::World(self.refused.join("\n  ")))
    }
}
