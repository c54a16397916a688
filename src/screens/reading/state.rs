//! Text to read, and how it is made for the keys and for a screen as a list.

use crate::keys::{KEYS, TOOLS, Tool};
use crate::layout::Scroll;
use crate::page::{Cell, Entry, Role};

/// Text to read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// What it is.
    pub title: String,
    /// Where in it.
    pub place: String,
    /// What is never scrolled away.
    pub fixed: Vec<Entry>,
    /// Its lines.
    pub lines: Vec<Entry>,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Reading {
    /// Text under a title.
    pub fn new(title: &str, place: &str, lines: Vec<Entry>) -> Self {
        Self {
            title: title.into(),
            place: place.into(),
            fixed: Vec::new(),
            lines,
            scroll: Scroll::default(),
        }
    }

    /// A screen as plain lines.
    pub fn list(title: &str, lines: Vec<String>) -> Self {
        let lines = lines
            .into_iter()
            .map(|line| Entry::of(Role::Text, vec![Cell::rest(line).hang(2)]));
        Self::new(&format!("{title}, AS A LIST"), "", lines.collect())
    }

    /// The keys and letters.
    pub fn keys(tools: &[Tool]) -> Self {
        let mut lines = vec![Entry::heading("Everywhere")];
        for row in &KEYS {
            lines.push(key_line(row.label, row.does));
        }
        lines.push(key_line("Ctrl-C", "stop at once"));
        lines.push(key_line("Ctrl-Z", "suspend; fg in the shell comes back"));
        lines.push(key_line("Ctrl-L", "draw the screen again"));
        lines.push(Entry::gap());
        lines.push(Entry::heading(
            "In the slip that ? opens, a letter takes a tool",
        ));
        for row in &TOOLS {
            let here = if tools.contains(&row.tool) {
                ""
            } else {
                "; not at this place"
            };
            let label = format!("{}  {}", row.letter, row.name);
            lines.push(key_line(&label, &format!("{}{here}", row.does)));
        }
        Self::new("KEYS", "the same everywhere", lines)
    }
}

fn key_line(label: &str, does: &str) -> Entry {
    Entry::of(
        Role::Tool,
        vec![
            Cell::columns("", 2),
            Cell::columns(label, 18),
            Cell::rest(does),
        ],
    )
}
