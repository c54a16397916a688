//! A class's paper as the press prints it. On the paper stands nothing of an answer: the
//! press's item has no place for one.

use pumpwright_engine::classes::strip::{After, StripItem as Own, StripLine, strip as strip_of};
use pumpwright_engine::classes::{Paper, day};
use pumpwright_press::pdf::{self, Format, Head, Item, KeyItem, Strip, StripItem, StripRow};

/// So many characters stand on a line of a strip in any case.
const WHOLE: usize = 24;

/// What stands over pages that are nobody's own.
pub fn head(paper: Option<&Paper>, format: Format) -> Head {
    let head = paper.map(|paper| &paper.head);
    let date = head.and_then(|head| head.date.as_deref());
    Head {
        title: head.map_or_else(String::new, |head| head.title.clone()),
        day: date.and_then(day::number_of),
        name: String::new(),
        number: String::new(),
        format,
        tables: head.map_or_else(String::new, |head| head.tables.clone()),
    }
}

/// The paper.
pub fn paper(paper: &Paper, format: Format) -> pdf::Paper {
    let number = match paper.version {
        Some(version) => format!("{}, version {version}", paper.person.id),
        None => paper.person.id.clone(),
    };
    let items = paper.items.iter();
    pdf::Paper {
        head: Head {
            name: paper.person.name.clone(),
            number,
            ..head(Some(paper), format)
        },
        items: items
            .map(|item| Item::of(&item.problem, item.number, item.marks))
            .collect(),
    }
}

/// Its problems worked, each named by its place.
pub fn key_items(paper: &Paper) -> Vec<KeyItem> {
    let whose = match paper.version {
        Some(version) => format!("Version {version}"),
        None => format!("Paper {}", paper.person.id),
    };
    let items = paper.items.iter();
    items
        .enumerate()
        .map(|(at, item)| KeyItem {
            opens: at == 0,
            ..KeyItem::of(&item.problem, format!("{whose}, problem {}", item.number))
        })
        .collect()
}

/// Its strip.
pub fn strip(paper: &Paper) -> Strip {
    let item = |item: &pumpwright_engine::classes::PaperItem| {
        let own = strip_of(&item.problem);
        StripItem {
            number: item.number,
            title: own.family.clone(),
            marks: item.marks,
            rows: own.lines.iter().map(row).collect(),
            after: below(&own),
        }
    };
    Strip {
        number: paper.person.id.clone(),
        name: paper.person.name.clone(),
        items: paper.items.iter().map(item).collect(),
    }
}

/// A line: a mistake in an arrangement gives no figure to be found by, so it has no letter.
fn row(line: &StripLine) -> StripRow {
    let turns = line.turns.iter().filter(|turn| !turn.text.is_empty());
    StripRow {
        line: line.number,
        span: line.accept.clone(),
        letters: turns
            .map(|turn| (turn.letter.to_string(), turn.text.clone()))
            .collect(),
    }
}

/// What follows after a letter, and which pairs end an order.
fn below(item: &Own) -> Vec<String> {
    let stops = item.stops.iter().map(|pair| format!("{pair}: stop"));
    item.after.iter().flat_map(after).chain(stops).collect()
}

/// The figures that follow after a letter on one line, and on a line each the letters that
/// earn nothing there: alone each of them is told from the right figure, both together not.
fn after(after: &After) -> Vec<String> {
    // A figure stays with the number of its line and with its unit.
    let follows = after.figures.iter();
    let follows = follows.map(|(line, text)| whole(&format!("{line}: {text}")));
    let follows: Vec<String> = follows.collect();
    let figures = format!(
        "after {}: \u{2002}{}",
        after.letter,
        follows.join(" \u{2002}")
    );
    let hidden = after.cancels.iter();
    let hidden = hidden.map(|(letter, text)| {
        let pair = whole(&format!("{} then {letter},", after.letter));
        format!("{pair} {}: {}", whole(text), whole("no mark"))
    });
    let figures = Some(figures).filter(|_| !follows.is_empty());
    figures.into_iter().chain(hidden).collect()
}

/// A text without a place to break it, where a line of the strip has room for it.
fn whole(text: &str) -> String {
    if text.chars().count() > WHOLE {
        text.to_owned()
    } else {
        text.replace(' ', "\u{a0}")
    }
}
