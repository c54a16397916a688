//! One further paper for the person of the line that is taken, who missed the day or is to
//! write again: it is asked before it is made.

use pumpwright_engine::classes::make_up::{is_make_up, owner};
use pumpwright_engine::classes::roster::Person;

use super::state::{Asks, Class};
use crate::office::{ClassNow, Order};
use crate::outcome::Outcome;
use crate::page::{Cell, Entry, Role};
use crate::theme::Sign;

const LABEL: usize = 12;

/// Asks whether it is to be made, or says what comes first.
pub fn ask(class: &mut Class) -> Outcome {
    if let Some(busy) = class.busy {
        return Outcome::Say(busy.to_owned());
    }
    let Some(now) = class.now.as_ref().filter(|_| class.has_lines()) else {
        return Outcome::Say("there is no paper yet: the first ones come first".to_owned());
    };
    let line = class.named();
    let Some((line, person)) = line.and_then(|line| Some((line, now.people.get(line)?))) else {
        let count = now.people.len();
        return Outcome::Say(format!("write a line number first, 1 to {count}"));
    };
    if !now.papers.contains_key(owner(&person.id)) {
        return Outcome::Say(format!(
            "{} has no paper yet: Enter makes the first one",
            person.name
        ));
    }
    class.picked.pen = line;
    class.ask(Asks::MakeUp, "");
    Outcome::Stay
}

/// Has it made.
pub fn make(class: &mut Class) -> Outcome {
    let Some((now, person)) = asked_about(class) else {
        return Outcome::Stay;
    };
    let order = Order::MakeUp {
        person: owner(&person.id).to_owned(),
        one_more: !others(now, person).is_empty(),
    };
    class.asks = None;
    class.busy = Some("the make-up paper is being made");
    Outcome::Order(order)
}

/// How it is asked.
pub fn asked(class: &Class) -> Vec<Entry> {
    let Some((now, person)) = asked_about(class) else {
        return Vec::new();
    };
    let whom = format!("{} {}", owner(&person.id), person.name);
    let cells = vec![
        Cell::columns("make-up", LABEL),
        Cell::rest(whom).hang(LABEL),
    ];
    let line = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
    let about = match others(now, person).as_slice() {
        [] => "A further paper, for who missed the day or is to write again.".to_owned(),
        [one] => format!("Paper {one} is there already: this is one more."),
        several => format!(
            "Papers {} are there already: this is one more.",
            several.join(", ")
        ),
    };
    let text = "It has the jobs and levels of the plan with other numbers, is as hard as the \
                others, and asks nothing of this person's earlier papers. Nobody else's paper \
                changes.";
    vec![
        line.focused(true),
        Entry::gap(),
        Entry::text(Role::Note, format!("{about} {text}")),
    ]
}

/// What Enter does then.
pub fn next(class: &Class) -> String {
    asked_about(class).map_or_else(String::new, |(_, person)| {
        format!("Enter: make a make-up paper for {}", person.name)
    })
}

fn asked_about(class: &Class) -> Option<(&ClassNow, &Person)> {
    let now = class.now.as_deref()?;
    Some((now, now.people.get(class.picked.pen)?))
}

/// The numbers of the make-up papers that this person has.
fn others<'a>(now: &'a ClassNow, person: &Person) -> Vec<&'a str> {
    let own = |number: &&str| is_make_up(number) && owner(number) == owner(&person.id);
    now.papers.keys().map(String::as_str).filter(own).collect()
}
