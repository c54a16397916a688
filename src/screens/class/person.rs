//! One person's line on the work order: how and when the paper came in, what it earned,
//! and what is odd about it.

use pumpwright_engine::classes::marks::{MarkedItem, State, Way};
use pumpwright_engine::classes::roster::Person;

use crate::calendar;
use crate::clerk::Now;
use crate::office::ClassNow;
use crate::words;

/// What stands on the line behind the name.
pub struct Line {
    /// The way in which the paper came.
    pub way: &'static str,
    /// When.
    pub came: String,
    /// What it earned, and what is odd.
    pub marks: String,
}

/// The line of a person.
pub fn line(now: &ClassNow, person: &Person) -> Line {
    let plain = |way, marks: String| Line {
        way,
        came: String::new(),
        marks,
    };
    let Some(ready) = now.papers.get(&person.id) else {
        return plain("-", "no paper yet".to_owned());
    };
    if let Some(keyed) = now.keyed.get(&person.id) {
        let done = keyed.items.iter().flatten().count();
        let of = words::count(ready.printed.items.len(), "item", "items");
        return plain("on paper", format!("half marked, {done} of {of}"));
    }
    let own = now
        .marks
        .people
        .iter()
        .find(|own| own.person.id == person.id);
    let Some((own, State::Marked(items))) = own.map(|own| (own, &own.state)) else {
        // Of somebody with several papers it is said which of them stand.
        let notes = own.into_iter().flat_map(|own| own.notes.iter().cloned());
        let told: Vec<String> = std::iter::once("not in".to_owned()).chain(notes).collect();
        return plain("-", told.join("; "));
    };
    let (way, came) = own.came.map_or(("-", String::new()), |(way, at, zone)| {
        let day = at
            .map(|milliseconds| calendar::with_weekday(calendar::day(Now { milliseconds, zone })));
        (named(way), day.unwrap_or_else(|| "in".to_owned()))
    });
    let mut marks = own
        .total()
        .map_or_else(String::new, |(score, of)| format!("{score} of {of}"));
    let open = items.iter().filter(|item| item.is_open());
    for item in open.map(|item| item.item) {
        marks += "; look: item ";
        marks += &item.to_string();
        marks += " cannot be marked";
    }
    for note in own.notes.iter().chain(odd(items)) {
        marks += "; ";
        marks += note;
    }
    Line { way, came, marks }
}

/// What is odd about items of one paper alone; what was dropped is the same for all.
fn odd(items: &[MarkedItem]) -> impl Iterator<Item = &String> {
    let notes = items.iter().flat_map(|item| &item.notes);
    notes.filter(|note| note.starts_with("judged"))
}

/// The way in words.
pub const fn named(way: Way) -> &'static str {
    match way {
        Way::Screen => "on screen",
        Way::Typed => "typed in",
        Way::Pen => "on paper",
    }
}
