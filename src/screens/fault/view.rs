//! What is shown of a lesson file that cannot be read.

use pumpwright_engine::lessons::Fault;

use super::{Faults, Of};
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::words;
use crate::wrap::cells as cells_of;

const LABEL: usize = 14;
/// A line of a file that is no longer than this does not wrap in any window.
const WHOLE: usize = 46;

/// The page of the fault that is shown.
pub fn page(faults: &Faults) -> Page {
    let count = faults.all.len();
    let mut flow = Vec::new();
    if let Some(fault) = faults.all.get(faults.at) {
        flow.push(Entry::text(Role::Text, rest_works(faults)));
        flow.push(Entry::gap());
        flow.extend(place(fault));
        flow.push(Entry::gap());
        flow.extend(said(fault));
    }
    flow.push(Entry::rule());
    flow.push(Entry::text(Role::Note, for_whom(faults.of)));
    let more = faults.at + 1 < count;
    Page {
        title: match faults.of {
            Of::Lessons => "LESSON FILE NOT READ",
            Of::Settings => "SETTINGS FILE NOT READ",
        }
        .into(),
        place: format!("fault {} of {count}", faults.at + 1),
        flow,
        next: match (more, faults.of) {
            (true, _) => "Enter: the next fault",
            (false, Of::Lessons) => "Enter: go on without what is left out",
            (false, Of::Settings) => "Enter: go on with everything at its default",
        }
        .into(),
        strip: vec![
            hint(Key::Enter, "go on"),
            hint(Key::Ask, "ask"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

const fn for_whom(of: Of) -> &'static str {
    match of {
        Of::Lessons => "For the author: pumpwright check",
        Of::Settings => {
            "The file is left as it is, and nothing is written to it until it can be read."
        }
    }
}

fn rest_works(faults: &Faults) -> String {
    let families = faults.families;
    match families {
        _ if faults.of == Of::Settings => {
            "Every lesson and job works as before. Of your settings none holds, because of this:"
                .to_owned()
        }
        0 => "No other lesson file could be read either.".to_owned(),
        1 => "1 other job works as before. This file, or a part of it, is left out:".to_owned(),
        _ => format!("{families} jobs work as before. This file, or a part of it, is left out:"),
    }
}

fn place(fault: &Fault) -> Vec<Entry> {
    let indented = |text: String| {
        Entry::of(
            Role::Text,
            vec![Cell::columns("", 2), Cell::rest(text).hang(2)],
        )
    };
    let at = format!(
        "{}, line {}, column {}",
        fault.file, fault.line, fault.column
    );
    let mut entries = vec![indented(at), Entry::gap()];
    for (number, text) in &fault.excerpt {
        let cells = vec![
            Cell::columns("", 2),
            Cell::columns(number.to_string(), 6).right(),
            Cell::rest(format!(" {text}")),
        ];
        entries.push(Entry::of(Role::Text, cells));
        if *number == fault.line && cells_of(text) <= WHOLE {
            let lead = " ".repeat(fault.column.saturating_sub(1));
            let marks = "^".repeat(fault.width.min(WHOLE));
            let cells = vec![Cell::columns("", 8), Cell::rest(format!(" {lead}{marks}"))];
            entries.push(Entry::of(Role::Gap, cells));
        }
    }
    entries
}

fn said(fault: &Fault) -> Vec<Entry> {
    let said = |label: &str, text: String| {
        let cells = vec![
            Cell::columns("", 2),
            Cell::columns(label, LABEL),
            Cell::rest(text),
        ];
        Entry::of(Role::Text, cells)
    };
    let mut entries = vec![said("What it is", words::sentence(&fault.message))];
    if !fault.has.is_empty() {
        entries.push(said("It has", fault.has.join(", ")));
    }
    if let Some(remedy) = &fault.remedy {
        entries.push(said("Remedy", words::sentence(remedy)));
    }
    entries
}
