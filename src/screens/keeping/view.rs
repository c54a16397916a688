//! What is shown while a sheet is being written down, and where it cannot be.

use super::Keeping;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;

/// The page of the sheet on its way.
pub fn page(keeping: &Keeping) -> Page {
    let entry = &keeping.entry;
    let head = format!("{}, level {}", entry.title, entry.level);
    let mut flow = vec![
        Entry::of(
            Role::Head,
            vec![Cell::columns("Job", 7), Cell::rest(head).hang(7)],
        ),
        Entry::rule(),
    ];
    let Some(trouble) = &keeping.trouble else {
        flow.push(Entry::text(
            Role::Text,
            "Being written down. The marks come when the sheet is on the disk.",
        ));
        return Page {
            title: "HANDED IN".into(),
            flow,
            next: "a moment: nothing is to be done".into(),
            strip: vec![hint(Key::Ask, "ask")],
            ..Page::default()
        };
    };
    flow.push(Entry::text(
        Role::Text,
        "This sheet is not in the logbook. What was kept before stays as it is.",
    ));
    flow.push(Entry::gap());
    flow.push(Entry::text(Role::Text, trouble.as_str()));
    flow.push(Entry::rule());
    for (letter, does) in [
        ("a", "write it down once more"),
        (
            "b",
            "go on without: nothing is kept from now on, until the next start",
        ),
    ] {
        let cells = vec![
            Cell::columns("", 4),
            Cell::columns(letter, 4),
            Cell::rest(does).hang(8),
        ];
        flow.push(Entry::of(Role::Text, cells));
    }
    flow.push(Entry::gap());
    let blank = Cell::blank(keeping.choice.text(), 8, Some(keeping.choice.before()));
    let cells = vec![
        Cell::columns("take", 12),
        blank,
        Cell::rest("write one letter"),
    ];
    flow.push(
        Entry::of(Role::Line, cells)
            .signed(Some(Sign::Pen))
            .focused(true),
    );
    Page {
        title: "NOT WRITTEN DOWN".into(),
        flow,
        next: match keeping.choice.trimmed().to_ascii_lowercase().as_str() {
            "a" => "Enter: write the sheet down once more",
            "b" => "Enter: go on, and keep nothing",
            _ => "Enter: write a or b first",
        }
        .into(),
        strip: vec![hint(Key::Enter, "take the letter"), hint(Key::Ask, "ask")],
        ..Page::default()
    }
}
