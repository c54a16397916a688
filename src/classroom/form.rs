//! The form of the mark sheet as it was asked for last, so that a marking on the screen
//! writes it the same way.

use pumpwright_engine::classes::json;
use serde::{Deserialize, Serialize};

use super::folder::keep;
use super::kept::{Kept, read_as};
use super::paper::PaperFolder;
use crate::failure::Failure;

/// With which signs a mark sheet is written.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Form {
    /// Semicolons between cells.
    pub semicolons: bool,
    /// A comma in marks, whatever sign answers are read by.
    pub decimal_comma: bool,
}

impl PaperFolder {
    /// The form that was asked for last; the usual one before the first marking.
    ///
    /// # Errors
    /// When what is kept cannot be read.
    pub fn form(&self) -> Result<Form, Failure> {
        let kept = read_as::<Kept<Form>>(&self.path().join("form.json"))?;
        Ok(kept.map_or_else(Form::default, |own| own.kept))
    }

    /// Keeps the form that is asked for.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn keep_form(&self, form: Form) -> Result<(), Failure> {
        // A damaged one is put right by the next command.
        if self.form().is_ok_and(|kept| kept == form) {
            return Ok(());
        }
        keep(&self.path().join("form.json"), &json(&Kept::of(form)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::Folder;

    #[test]
    fn the_form_is_kept_and_a_damaged_one_is_told() {
        let folder = Folder::new("form");
        let papers = PaperFolder::at(folder.root().to_owned());
        assert_eq!(papers.form().expect("the usual"), Form::default());
        papers.keep_form(Form::default()).expect("nothing to do");
        let path = folder.path("form.json");
        assert!(!path.exists(), "the usual form needs no file");
        let form = Form {
            semicolons: true,
            decimal_comma: true,
        };
        papers.keep_form(form).expect("kept");
        assert_eq!(papers.form().expect("as kept"), form);
        std::fs::write(&path, "{").expect("a file");
        assert_eq!(
            papers.form().expect_err("damaged").sentence(),
            Some(format!(
                "{} breaks off or is damaged in line 1; put it back as it was",
                path.display()
            ))
        );
        papers.keep_form(form).expect("put right");
        assert_eq!(papers.form().expect("as kept"), form);
    }
}
