//! What is asked where something handed in could not be written down: once more, or go
//! on without. A sheet and a paper ask it alike.

use crate::blank::{Blank, Wrote};
use crate::keys::{Key, Press, hint};
use crate::outcome::{Outcome, Stroke, no_use};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;

/// Something handed in that is on its way to the disk.
pub struct OnItsWay<'a> {
    /// What it is: `sheet` or `paper`.
    pub what: &'a str,
    /// The head of the page: a label, and the text behind it.
    pub head: (&'a str, &'a str),
    /// Its title while nothing stands against it.
    pub title: &'a str,
    /// What comes then.
    pub comes: &'a str,
    /// What is so where it could not be written.
    pub stands: &'a str,
    /// Why it could not be written down, if it could not.
    pub trouble: Option<&'a str>,
    /// The letter of what to do then.
    pub choice: &'a Blank,
}

const AGAIN: &str = "write it down once more";
const WITHOUT: &str = "go on without: nothing is kept from now on, until the next start";

/// The page of it.
pub fn page(shown: &OnItsWay<'_>) -> Page {
    let (label, text) = shown.head;
    let mut flow = vec![
        Entry::of(
            Role::Head,
            vec![Cell::columns(label, 7), Cell::rest(text).hang(7)],
        ),
        Entry::rule(),
    ];
    let Some(trouble) = shown.trouble else {
        let text = format!("Being written down. {}", shown.comes);
        flow.push(Entry::text(Role::Text, text));
        return Page {
            title: shown.title.into(),
            flow,
            next: "a moment: nothing is to be done".into(),
            strip: vec![hint(Key::Ask, "ask")],
            ..Page::default()
        };
    };
    let text = format!("{} What was kept before stays as it is.", shown.stands);
    flow.extend([
        Entry::text(Role::Text, text),
        Entry::gap(),
        Entry::text(Role::Text, trouble),
        Entry::rule(),
    ]);
    for (letter, does) in [("a", AGAIN), ("b", WITHOUT)] {
        let cells = vec![
            Cell::columns("", 4),
            Cell::columns(letter, 4),
            Cell::rest(does).hang(8),
        ];
        flow.push(Entry::of(Role::Text, cells));
    }
    let choice = shown.choice;
    let cells = vec![
        Cell::columns("take", 12),
        Cell::blank(choice.text(), 8, Some(choice.before())),
        Cell::rest("write one letter"),
    ];
    let pen = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
    flow.extend([Entry::gap(), pen.focused(true)]);
    Page {
        title: "NOT WRITTEN DOWN".into(),
        flow,
        next: match letter(choice).as_str() {
            "a" => format!("Enter: write the {} down once more", shown.what),
            "b" => "Enter: go on, and keep nothing".to_owned(),
            _ => "Enter: write a or b first".to_owned(),
        },
        strip: vec![hint(Key::Enter, "take the letter"), hint(Key::Ask, "ask")],
        ..Page::default()
    }
}

/// Takes a press.
pub fn update(what: &str, trouble: bool, choice: &mut Blank, stroke: &Stroke) -> Outcome {
    if !trouble {
        return match stroke.press {
            Press::Ask => Outcome::Ask(None),
            _ => Outcome::Say(format!(
                "the {what} is being written down; its marks come then"
            )),
        };
    }
    match &stroke.press {
        Press::Enter => match letter(choice).as_str() {
            "a" => Outcome::WriteAgain,
            "b" => Outcome::GoOnWithout,
            _ => Outcome::Say("write a or b, then Enter".to_owned()),
        },
        Press::Escape => Outcome::Say(format!("the {what} is still here: write a or b")),
        Press::Ask => Outcome::Ask(None),
        press => {
            if choice.gives_way_to(press) {
                *choice = Blank::default();
            }
            match choice.take(press) {
                Wrote::Changed => Outcome::Stay,
                Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
                Wrote::NotMine => no_use(press),
            }
        }
    }
}

fn letter(choice: &Blank) -> String {
    choice.trimmed().to_ascii_lowercase()
}
