//! What the work order shows.

use pumpwright_engine::classes::make_up::{counted, is_make_up};
use pumpwright_engine::classes::roster::Person;

use super::state::{Asks, Class};
use super::{make_up, person};
use crate::calendar;
use crate::keys::{Key, hint};
use crate::office::ClassNow;
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const BOX: usize = 4;
const STAGE: usize = 15;
const NUMBER: usize = 5;
const PAPER: usize = 5;
const LONGEST: usize = 9;
const NAME: usize = 19;
const WAY: usize = 10;
const CAME: usize = 11;
const DAY: usize = 24;
const LABEL: usize = 12;

/// The page in so many columns.
pub fn page(class: &Class, width: usize) -> Page {
    let mut flow = stages(class);
    flow.push(Entry::rule());
    if let Some(asks) = class.asks {
        flow.extend(asked(class, asks, width));
    } else if let Some(now) = class.now.as_ref().filter(|_| class.has_lines()) {
        flow.extend(people(class, now, width));
    }
    flow.extend(notes(class));
    let (place, fixed) = class.now.as_ref().map_or_else(
        || ("no class is open".to_owned(), Vec::new()),
        |now| {
            let count = words::count(people_of(now), "person", "people");
            (format!("{}, {count}", now.name), head(now, width))
        },
    );
    Page {
        title: "WORK ORDER FOR A CLASS".into(),
        place,
        fixed,
        flow,
        foot: foot(class),
        next: next(class),
        strip: strip(class),
        ..Page::default()
    }
}

fn head(now: &ClassNow, width: usize) -> Vec<Entry> {
    let Some(plan) = &now.plan else {
        return Vec::new();
    };
    let day = plan.date.as_deref().and_then(calendar::read);
    let day = day.map_or_else(String::new, |day| {
        let day = calendar::with_weekday(calendar::count(day));
        format!("Handed out  {day}")
    });
    let cells = vec![
        Cell::columns("Paper", 8),
        Cell::columns(plan.title.as_str(), width.saturating_sub(8 + DAY)).hang(2),
        Cell::rest(day).right(),
    ];
    let head = Entry::of(Role::Head, cells).dropping(Drop::SecondHead);
    vec![head, Entry::rule().dropping(Drop::SecondHead)]
}

fn stages(class: &Class) -> Vec<Entry> {
    let Some(now) = &class.now else {
        let texts = [
            (
                "class list",
                "who is in the class: a file from a spreadsheet",
            ),
            ("plan", "which jobs, how hard, how many marks"),
            ("print", "a paper for each person, and the key"),
            ("mark", "with the pen, or from files of answers"),
            ("report", "what to teach again"),
        ];
        return texts
            .map(|(stage, text)| boxed(Box::Open, stage, text))
            .into();
    };
    let people = people_of(now);
    let list = match people {
        0 => boxed(Box::Open, "class list", "no list yet"),
        _ => {
            let count = words::count(people, "person", "people");
            boxed(Box::Done, "class list", &format!("{count}, ids made"))
        }
    };
    let plan = now.plan.as_ref().map_or_else(
        || boxed(Box::Open, "plan", "no plan yet"),
        |plan| {
            let items = words::count(plan.items, "item", "items");
            let text = format!("{items}, {} marks, about {} min", plan.marks, plan.minutes);
            boxed(Box::Done, "plan", &text)
        },
    );
    let further = now.papers.keys().filter(|own| is_make_up(own)).count();
    let papers = now.papers.len() - further;
    let print = match papers {
        0 => boxed(Box::Open, "print", "no paper yet"),
        _ if papers < people => boxed(Box::Begun, "print", &format!("{papers} of {people} papers")),
        _ => {
            let count = words::count(papers, "paper", "papers");
            let versions = now.plan.as_ref().map_or("", |plan| &*plan.versions);
            let further = match further {
                0 => String::new(),
                count => format!(", {}", words::count(count, "make-up", "make-ups")),
            };
            let text = format!("{count}, versions {versions}, key made{further}");
            boxed(Box::Done, "print", &text)
        }
    };
    let (marked, all) = counted(&now.marks);
    let mark = match marked {
        0 => Box::Open,
        _ if marked < all => Box::Begun,
        _ => Box::Done,
    };
    let mark = match papers {
        0 => boxed(Box::Open, "mark", "when papers are there"),
        _ => boxed(mark, "mark", &format!("{marked} of {all} marked")),
    };
    let report = match marked {
        0 => "when marks are there",
        _ if marked < all => "? and R: of those who are in",
        _ => "? and R: what to teach again",
    };
    let report = boxed(Box::Open, "report", report);
    vec![list, plan, print, mark, report]
}

/// How many people there are; whoever has several papers has as many lines.
fn people_of(now: &ClassNow) -> usize {
    let make_up = |own: &&Person| is_make_up(&own.id);
    now.people.len() - now.people.iter().filter(make_up).count()
}

/// How far a stage is.
#[derive(Clone, Copy)]
enum Box {
    Open,
    Begun,
    Done,
}

fn boxed(how: Box, stage: &str, text: &str) -> Entry {
    let sign = match how {
        Box::Open => "[ ]",
        Box::Begun => "[/]",
        Box::Done => "[■]",
    };
    let cells = vec![
        Cell::columns(sign, BOX),
        Cell::columns(stage, STAGE),
        Cell::rest(text),
    ];
    Entry::of(Role::Text, cells)
}

fn asked(class: &Class, asks: Asks, width: usize) -> Vec<Entry> {
    let (label, texts): (&str, &[&str]) = match asks {
        Asks::MakeUp => return make_up::asked(class),
        Asks::Folder => (
            "folder",
            &[
                "The folder of the class, as in evening-class. One that is not there yet is made \
               when its list is taken in. Key and marks lie there: keep it to yourself.",
            ],
        ),
        Asks::List => (
            "class list",
            &[
                "A file that a spreadsheet saved as CSV: a first line with name, or with last \
               name and first name, then a line for each person. Ids are made once and stay.",
            ],
        ),
        Asks::Plan => (
            "plan file",
            &[
                "The plan of the paper. To begin one: pumpwright plan new FILE; every key is \
               explained in it.",
            ],
        ),
        Asks::Answers => (
            "file",
            &[
                "A file of answers, a folder with such files, or a table with paper,1.1,1.2,2.1 \
               as its first line. What is odd gets its own line and stops nothing else.",
            ],
        ),
    };
    let blank = width.saturating_sub(2 + LABEL);
    let cells = vec![
        Cell::columns(label, LABEL),
        Cell::blank(class.words.text(), blank, Some(class.words.before())),
    ];
    let line = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
    let mut entries = vec![line.focused(true), Entry::gap()];
    entries.extend(texts.iter().map(|text| Entry::text(Role::Note, *text)));
    entries
}

fn people(class: &Class, now: &ClassNow, width: usize) -> Vec<Entry> {
    // In a narrow window the day gives way to the marks, which say what waits.
    let came = if width >= 70 { CAME } else { 0 };
    // The number of a make-up paper is longer than an id.
    let longest = now.people.iter().map(|own| own.id.chars().count()).max();
    let paper = (longest.unwrap_or(0) + 1).clamp(PAPER, LONGEST);
    let row = |texts: [&str; 6], pen: bool| {
        let [number, id, name, way, day, marks] = texts;
        let mut cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(id, paper),
            Cell::columns(name, NAME).hang(1),
            Cell::columns(way, WAY),
        ];
        if came > 0 {
            cells.push(Cell::columns(day, came));
        }
        cells.push(Cell::rest(marks).hang(1));
        Entry::of(Role::Line, cells)
            .signed(pen.then_some(Sign::Pen))
            .focused(pen)
    };
    let head = row(["line", "no.", "name", "paper", "came in", "marks"], false);
    let rows = now.people.iter().enumerate().map(|(at, person)| {
        let line = person::line(now, person);
        let number = (at + 1).to_string();
        let texts = [
            &*number,
            &person.id,
            &person.name,
            line.way,
            &line.came,
            &line.marks,
        ];
        row(texts, at == class.picked.pen)
    });
    std::iter::once(head).chain(rows).collect()
}

/// What is odd about the class and belongs to nobody.
fn notes(class: &Class) -> Vec<Entry> {
    let now = class.now.iter();
    let lines: Vec<&String> = now
        .flat_map(|now| now.notes.iter().chain(&now.marks.notes))
        .collect();
    if lines.is_empty() {
        return Vec::new();
    }
    let rows = lines.into_iter();
    let rows = rows.map(|line| Entry::of(Role::Note, vec![Cell::rest(line.as_str()).hang(2)]));
    std::iter::once(Entry::rule()).chain(rows).collect()
}

fn foot(class: &Class) -> Vec<Entry> {
    if class.asks.is_some() || !class.has_lines() {
        return Vec::new();
    }
    let cells = vec![
        Cell::columns("Take line", LABEL),
        Cell::blank(
            class.picked.number.text(),
            6,
            Some(class.picked.number.before()),
        ),
        Cell::rest("  In class-list order. People are not ranked anywhere."),
    ];
    vec![Entry::rule(), Entry::of(Role::Text, cells)]
}

fn next(class: &Class) -> String {
    if let Some(asks) = class.asks {
        return match asks {
            Asks::MakeUp => return make_up::next(class),
            Asks::Folder => "Enter: open this folder",
            Asks::List => "Enter: take this list in, and make the ids",
            Asks::Plan => "Enter: take this plan",
            Asks::Answers => "Enter: take in what came, and mark it",
        }
        .to_owned();
    }
    if let Some(busy) = class.busy {
        return format!("Wait: {busy}");
    }
    let Some(now) = &class.now else {
        return "Enter: name the folder of a class".to_owned();
    };
    if now.people.is_empty() {
        return "Enter: name the class list".to_owned();
    }
    if now.plan.is_none() {
        return "Enter: name the plan of the paper".to_owned();
    }
    let missing = now.people.iter();
    let missing = missing
        .filter(|own| !now.papers.contains_key(&own.id))
        .count();
    let make = || format!("Enter: make {}", words::count(missing, "paper", "papers"));
    if now.papers.is_empty() {
        return make();
    }
    let Some(person) = class.named().and_then(|line| now.people.get(line)) else {
        return format!(
            "Enter: write a line number first, 1 to {}",
            now.people.len()
        );
    };
    if !now.papers.contains_key(&person.id) {
        return format!("{}, that of {} among them", make(), person.name);
    }
    let name = &person.name;
    if now.keyed.contains_key(&person.id) {
        return format!("Enter: go on marking the paper of {name} with the pen");
    }
    if now.hand_ins.contains_key(&person.id) {
        format!("Enter: look at the marks of {name}")
    } else {
        format!("Enter: mark the paper of {name} with the pen")
    }
}

fn strip(class: &Class) -> Vec<crate::keys::Hint> {
    if class.asks == Some(Asks::MakeUp) {
        return vec![
            hint(Key::Enter, "make it"),
            hint(Key::Escape, "back: none is made"),
        ];
    }
    if class.asks.is_some() {
        return vec![
            hint(Key::Enter, "done"),
            hint(Key::Escape, "back: a blank for words, ? ! @ & write"),
        ];
    }
    let ask = if class.has_lines() {
        "ask: B plan, I print, M mark, N make-up, R report"
    } else {
        "ask: B plan, I print, M mark, R report"
    };
    let mut strip = vec![hint(Key::Enter, "take the line")];
    if class.has_lines() {
        strip.push(hint(Key::UpDown, "lines"));
    }
    strip.extend([hint(Key::Ask, ask), hint(Key::Escape, "back")]);
    if class.has_lines() {
        strip.push(hint(Key::Pages, "scroll"));
    }
    strip
}
