//! The page on which a paper is handed in: what is still open stands there before it is done,
//! and a place can be written to go back to. Enter alone hands in only where nothing is open,
//! so that nobody runs over it. An exam and a class's paper ask it alike.

use crate::blank::{Blank, Wrote};
use crate::keys::{Key, Press, hint};
use crate::layout::Scroll;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};
use crate::page::{Cell, Entry, Page, Role};
use crate::sitting::NO_HELP;
use crate::theme::Sign;

const LABEL: usize = 15;

/// What is written to hand in, whatever is open.
const HAND_IN: &str = "Z";

/// A paper that is about to be handed in.
pub struct ToHandIn<'a> {
    /// The title of the page, and what stands right of it.
    pub head: (&'a str, String),
    /// How the paper stands: labels, and the texts behind them.
    pub stands: Vec<(&'a str, String)>,
    /// What becomes of what is open.
    pub goes: &'a str,
    /// What one goes back to: `line`, `question`.
    pub what: &'a str,
    /// What stands behind the blank for it, before how the paper is handed in.
    pub form: &'a str,
    /// Whether anything is open.
    pub open: bool,
    /// That blank.
    pub written: &'a Blank,
    /// What it names, in words, or what can be written instead.
    pub back_to: Result<String, String>,
    /// What Enter does where the paper goes.
    pub enter: &'a str,
}

/// The page of it.
pub fn page(shown: &ToHandIn<'_>) -> Page {
    let ToHandIn { written, what, .. } = shown;
    let stands = shown.stands.iter().map(|(label, text)| {
        let cells = vec![Cell::columns(*label, LABEL), Cell::rest(text.as_str())];
        Entry::of(Role::Head, cells)
    });
    let mut flow: Vec<Entry> = stands.collect();
    let cells = vec![
        Cell::columns(format!("To {what}"), LABEL),
        Cell::blank(written.text(), 6, Some(written.before())),
        Cell::rest(format!(
            "{}{}: hand in",
            shown.form,
            if shown.open { HAND_IN } else { "empty" }
        )),
    ];
    let pen = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
    flow.extend([
        Entry::rule(),
        Entry::text(Role::Text, shown.goes),
        Entry::gap(),
        pen.focused(true),
    ]);
    let next = match &shown.back_to {
        _ if hands_in(written) || written.is_empty() && !shown.open => {
            format!("Enter: {}", shown.enter)
        }
        _ if written.is_empty() => format!("Enter: {}", still_open()),
        Ok(place) => format!("Enter: back to {place}"),
        Err(words) => format!("Enter: {words}"),
    };
    let (title, place) = &shown.head;
    Page {
        title: (*title).into(),
        place: place.clone(),
        flow,
        next,
        strip: vec![
            hint(Key::Enter, format!("hand in, or to that {what}")),
            hint(Key::Ask, "ask"),
            hint(Key::Escape, "back to the paper"),
        ],
        ..Page::default()
    }
}

fn hands_in(written: &Blank) -> bool {
    written.trimmed().eq_ignore_ascii_case(HAND_IN)
}

/// What Enter alone says where something is open.
fn still_open() -> String {
    format!("not yet, something is open; {HAND_IN} and Enter hands it in so")
}

/// What comes of a press there.
pub enum Pressed<P> {
    /// The paper is to be handed in.
    HandIn,
    /// Back to this place.
    To(P),
    /// Something else.
    Else(Outcome),
}

/// Takes a press; `named` reads the place that is written, and `open` says whether anything
/// is.
pub fn update<P>(
    (closing, open): (&mut Option<Blank>, bool),
    scroll: &mut Scroll,
    stroke: &Stroke,
    named: impl FnOnce(&Blank) -> Result<P, String>,
) -> Pressed<P> {
    let Some(written) = closing else {
        return Pressed::Else(Outcome::Stay);
    };
    Pressed::Else(match &stroke.press {
        Press::Enter if hands_in(written) => return Pressed::HandIn,
        Press::Enter if written.is_empty() && open => Outcome::Say(still_open()),
        Press::Enter if written.is_empty() => return Pressed::HandIn,
        Press::Enter => match named(written) {
            Ok(place) => {
                *closing = None;
                return Pressed::To(place);
            }
            Err(words) => Outcome::Say(words),
        },
        Press::Escape => {
            *closing = None;
            scroll.follow();
            Outcome::Stay
        }
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say(NO_HELP.to_owned()),
        Press::Up | Press::Down | Press::PageUp | Press::PageDown => {
            scrolled(scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => match written.take(press) {
            Wrote::Changed => Outcome::Stay,
            Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
            Wrote::NotMine => no_use(press),
        },
    })
}
