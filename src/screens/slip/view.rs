//! How the slip is laid over a sheet: head, caution, job and line stay.

use super::Slip;
use super::state::{About, STEPS};
use crate::keys::{Hint, Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;

/// Room for the line that is asked about; the record stands beside it in any window.
const ASKED: usize = 24;

/// The page of the slip over the page under it.
pub fn page(slip: &Slip, under: Page) -> Page {
    let mut foot = Vec::new();
    if let Some(about) = &slip.about {
        foot.push(Entry::rule());
        foot.extend(line_asked_about(&under));
        foot.extend(help(about));
    }
    foot.push(Entry::rule());
    let no_help = slip.no_help.map(crate::words::sentence);
    foot.extend(no_help.map(|text| Entry::text(Role::Note, text)));
    foot.extend(tools(slip));
    Page {
        flow: kept_in_sight(slip, under.flow),
        title: under.title,
        place: under.place,
        fixed: under.fixed,
        foot,
        next: next(slip),
        strip: strip(slip),
        ..Page::default()
    }
}

/// What stays of the screen under the slip: the job, where a line is asked about;
/// else all of it. Nothing is written under a slip, so no cursor stays.
fn kept_in_sight(slip: &Slip, mut flow: Vec<Entry>) -> Vec<Entry> {
    if slip.about.is_some() {
        flow.retain(|entry| entry.role == Role::Text);
    }
    for entry in &mut flow {
        entry.focus = entry.focus && slip.about.is_none();
        for cell in &mut entry.cells {
            cell.cursor = None;
        }
    }
    flow
}

/// The line with the pen; its cursor goes, for nothing is written under a slip.
fn line_asked_about(under: &Page) -> Option<Entry> {
    let mut line = under
        .flow
        .iter()
        .find(|entry| entry.sign == Some(Sign::Pen))?
        .clone();
    for cell in &mut line.cells {
        cell.cursor = None;
    }
    Some(line.focused(false))
}

fn help(about: &About) -> Vec<Entry> {
    let head = vec![
        Cell::columns(format!("ASKED ABOUT LINE {}", about.number), ASKED).bold(),
        Cell::rest(about.record()).right(),
    ];
    let mut entries = vec![Entry::rule(), Entry::of(Role::Head, head)];
    for (index, step) in about.steps.iter().enumerate().take(about.given + 1) {
        let given = index < about.given;
        let text = match (given, index) {
            (true, _) => step.text.join("\n"),
            (false, 0) => "? once more; the sheet then says \"with help\"".to_owned(),
            (false, 3) => "? once more, or !".to_owned(),
            (false, _) => "? once more".to_owned(),
        };
        let cells = vec![
            Cell::columns("", 2),
            Cell::columns((index + 1).to_string(), 2),
            Cell::columns(step.name, 15),
            Cell::rest(text),
        ];
        entries.push(Entry::of(Role::Help, cells).focused(index + 1 == about.given));
    }
    entries
}

fn tools(slip: &Slip) -> Vec<Entry> {
    let names: Vec<String> = slip
        .tools
        .iter()
        .map(|tool| format!("{} {}", tool.row().letter, tool.row().name))
        .collect();
    let rows = names.chunks(3).map(|names| {
        let mut cells = vec![Cell::columns("", 2)];
        cells.extend(names.iter().map(|name| Cell::columns(name.as_str(), 18)));
        Entry::of(Role::Tool, cells)
    });
    rows.collect()
}

fn next(slip: &Slip) -> String {
    slip.about.as_ref().map_or_else(
        || "Enter: put this slip away".to_owned(),
        |about| format!("Enter: put this slip away and write line {}", about.number),
    )
}

fn strip(slip: &Slip) -> Vec<Hint> {
    let mut strip = Vec::new();
    if slip.about.as_ref().is_some_and(|about| about.given < STEPS) {
        strip.push(hint(Key::Ask, "one more"));
        strip.push(hint(Key::Show, "show me"));
    }
    strip.push(hint(Key::Enter, "put away, or a letter takes a tool"));
    strip.push(hint(Key::Escape, "put away"));
    strip.push(hint(Key::Tables, "tables"));
    strip.push(hint(Key::Sums, "sums"));
    strip
}
