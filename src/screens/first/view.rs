//! What the first start shows.

use super::First;
use crate::keys::{KEYS, Key, hint};
use crate::page::{Cell, Entry, Page, Role};

const UNASKED: &str = "Nothing is asked of you first.";
const KEPT: &str = "Nothing that you write gets lost.";
const NOT_KEPT: &str = "What you write is kept until you stop.";
const HELP: &str = "Asking for help costs no marks; the record says \"with help\".";
const FIVE: [Key; 5] = [Key::Enter, Key::Escape, Key::UpDown, Key::Ask, Key::Show];

/// The page of the first start.
pub fn page(first: &First) -> Page {
    let kept = if first.keeps { KEPT } else { NOT_KEPT };
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
        [UNASKED, kept, HELP]
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
