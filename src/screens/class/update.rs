//! What keys do on the work order: Enter takes the first thing that waits, or the line
//! whose number is written.

use super::make_up;
use super::state::{Asks, Class};
use crate::blank::Wrote;
use crate::keys::Press;
use crate::office::Order;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(class: &mut Class, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Escape => escape(class),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut class.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Enter if class.asks == Some(Asks::MakeUp) => make_up::make(class),
        _ if class.asks == Some(Asks::MakeUp) => {
            Outcome::Say("Enter makes the paper, Esc makes none".to_owned())
        }
        press if class.asks.is_some() => in_words(class, press),
        Press::Ask => Outcome::Ask(None),
        _ if class.busy.is_some() => Outcome::Say(format!(
            "{}; Esc goes back meanwhile",
            class.busy.unwrap_or_default()
        )),
        Press::Enter => enter(class),
        Press::Up | Press::Down if !class.has_lines() => {
            scrolled(&mut class.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Up if class.picked.pen == 0 => Outcome::Say("this is the first line".to_owned()),
        Press::Up => go(class, class.picked.pen - 1),
        Press::Down => {
            let count = class.now.as_ref().map_or(0, |now| now.people.len());
            if class.picked.pen + 1 >= count {
                return Outcome::Say("this is the last line".to_owned());
            }
            go(class, class.picked.pen + 1)
        }
        press if class.has_lines() => write(class, press),
        press => no_use(press),
    }
}

fn go(class: &mut Class, line: usize) -> Outcome {
    class.go(line);
    Outcome::Stay
}

/// A blank that is asked for is put away first; what is written in it goes with it.
fn escape(class: &mut Class) -> Outcome {
    if class.asks.is_some() && class.now.is_some() {
        class.asks = None;
        class.scroll.follow();
        return Outcome::Stay;
    }
    Outcome::Back
}

fn in_words(class: &mut Class, press: &Press) -> Outcome {
    if *press == Press::Enter {
        return said_in_words(class);
    }
    if matches!(press, Press::Up | Press::Down) {
        return Outcome::Say("one blank is open here; Enter or Esc ends it".to_owned());
    }
    class.scroll.follow();
    match class.words.take(&press.in_words()) {
        Wrote::Changed => Outcome::Stay,
        Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::NotMine => no_use(press),
    }
}

fn said_in_words(class: &mut Class) -> Outcome {
    let text = class.words.trimmed().to_owned();
    let Some(asks) = class.asks else {
        return Outcome::Stay;
    };
    if text.is_empty() {
        return Outcome::Say(
            match asks {
                Asks::Folder => "write the folder of the class first",
                Asks::List => "write the file of the class list first",
                Asks::Plan => "write the file of the plan first",
                Asks::Answers => "write a file or a folder first",
                // No words are asked there.
                Asks::MakeUp => return Outcome::Stay,
            }
            .to_owned(),
        );
    }
    let (order, busy) = match asks {
        Asks::Folder => {
            class.folder.clone_from(&text);
            (Order::Open(text), "the folder is being read")
        }
        Asks::List => (
            Order::List {
                folder: class.folder.clone(),
                file: text,
            },
            "the list is being taken in",
        ),
        Asks::Plan => (Order::Plan(text), "the plan is being read"),
        Asks::Answers => (Order::Read(text), "what came in is being read"),
        Asks::MakeUp => return Outcome::Stay,
    };
    class.asks = None;
    class.busy = Some(busy);
    Outcome::Order(order)
}

fn enter(class: &mut Class) -> Outcome {
    let Some(now) = &class.now else {
        let folder = class.folder.clone();
        class.ask(Asks::Folder, &folder);
        return Outcome::Stay;
    };
    if now.people.is_empty() {
        class.ask(Asks::List, "");
        return Outcome::Stay;
    }
    if now.plan.is_none() {
        class.ask(Asks::Plan, "");
        return Outcome::Stay;
    }
    if now.papers.is_empty() {
        return print(class);
    }
    let count = now.people.len();
    let Some(line) = class.named() else {
        return Outcome::Say(format!("write a line number, 1 to {count}"));
    };
    let Some(person) = now.people.get(line) else {
        return Outcome::Stay;
    };
    if !now.papers.contains_key(&person.id) {
        return print(class);
    }
    let paper = person.id.clone();
    class.picked.pen = line;
    Outcome::MarkPaper(paper)
}

/// Has the papers made that are missing.
pub fn print(class: &mut Class) -> Outcome {
    class.busy = Some("the papers are being made");
    Outcome::Order(Order::Print)
}

fn write(class: &mut Class, press: &Press) -> Outcome {
    let count = class.now.as_ref().map_or(0, |now| now.people.len());
    match class.picked.take(press, count) {
        Wrote::NotMine => return no_use(press),
        Wrote::Full => return Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::Changed => {}
    }
    class.scroll.follow();
    Outcome::Stay
}
