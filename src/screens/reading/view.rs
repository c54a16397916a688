//! How text that is only read is shown.

use super::Reading;
use crate::keys::{Key, hint};
use crate::page::Page;

/// The page of the text.
pub fn page(reading: &Reading) -> Page {
    Page {
        title: reading.title.clone(),
        place: reading.place.clone(),
        fixed: reading.fixed.clone(),
        flow: reading.lines.clone(),
        next: "Enter: put this away, back to where you were".into(),
        strip: vec![
            hint(Key::Enter, "put away"),
            hint(Key::UpDown, "scroll"),
            hint(Key::Ask, "ask"),
            hint(Key::Escape, "put away"),
        ],
        ..Page::default()
    }
}
