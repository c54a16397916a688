//! What the first start shows.

use super::First;
use crate::keys::{KEYS, Key, hint};
use crate::page::{Cell, Entry, Page, Role};

const PROMISES: [&str; 3] = [
    "Nothing is asked of you first.",
    "What you write is kept until you stop.",
    "Asking for help costs no marks; the sheet then says \"with help\".",
];
const FIVE: [Key; 5] = [Key::Enter, Key::Escape, Key::UpDown, Key::Ask, Key::Show];

/// The page of the first start.
pub fn page(_first: &First) -> Page {
    let mut flow = vec![
        Entry::gap(),
        Entry::text(
            Role::Text,
            "You get a job sheet and fill in its lines. It is marked line by line, and \
             every sheet can show its working.",
        ),
        Entry::gap(),
        Entry::text(
            Role::Text,
            "First comes a sheet that is filled in already. Then comes the same job with \
             other numbers, for you.",
        ),
        Entry::gap(),
    ];
    flow.extend(
        PROMISES
            .map(|promise| Entry::of(Role::Text, vec![Cell::columns("", 2), Cell::rest(promise)])),
    );
    flow.extend([
        Entry::gap(),
        Entry::rule(),
        Entry::heading("Five keys carry you"),
        Entry::gap(),
    ]);
    flow.extend(
        KEYS.iter()
            .filter(|row| FIVE.contains(&row.key))
            .map(|row| {
                let cells = vec![
                    Cell::columns("", 2),
                    Cell::columns(row.label, 11),
                    Cell::rest(row.does),
                ];
                Entry::of(Role::Tool, cells)
            }),
    );
    Page {
        title: "PUMPWRIGHT".into(),
        place: "practice for the pump trade".into(),
        flow,
        next: "Enter: look at a worked job sheet".into(),
        strip: vec![hint(Key::Enter, "go on"), hint(Key::Ask, "ask")],
        ..Page::default()
    }
}
