//! A lesson laid out in pages: one for each part, what varies on the last.

use std::rc::Rc;
use std::sync::Arc;

use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Lesson, Library, Part, paragraphs};
use pumpwright_engine::problems::{Problem, Settings};
use pumpwright_engine::quantities::System;

use crate::layout::Scroll;
use crate::page::{Cell, Entry, Role};
use crate::tables;
use crate::words;
use crate::worked::Worked;

/// A page of a lesson.
#[derive(Debug, Clone)]
pub struct Leaf {
    /// The heading of its part.
    pub head: String,
    /// What can hurt: never scrolled away from its part.
    pub caution: Option<String>,
    /// Its lines.
    pub lines: Vec<Entry>,
    /// The table under them.
    pub table: Option<tables::Leaf>,
    /// What stands under all of it.
    pub closing: Vec<Entry>,
    /// The worked example that the page shows.
    pub worked: Option<Box<Worked>>,
}

/// A lesson that is read.
#[derive(Debug, Clone)]
pub struct LessonPages {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its pages.
    pub pages: Vec<Leaf>,
    /// The page that is read.
    pub at: usize,
    /// The family of which a sheet is drawn next.
    pub family: Option<String>,
    /// Where it stands.
    pub scroll: Scroll,
}

/// What Enter leads to when all of a page is read.
#[derive(Debug, Clone, Copy)]
pub enum Next<'a> {
    /// The page after it.
    Page(&'a Leaf),
    /// A worked sheet of this family.
    Worked(&'a str),
    /// Nothing: the lesson has no family that works.
    End,
}

impl LessonPages {
    /// A lesson as one system of units reads it, under these house rules.
    /// Tables that an open sheet asks stay closed.
    pub fn new(
        library: &Library,
        lesson: &Lesson,
        (system, settings): (System, &Settings),
        closed: &tables::Closed,
    ) -> Self {
        let book = tables::leaves(library, system, closed);
        let rules = settings.values(library.rules(system));
        let mut pages: Vec<Leaf> = lesson
            .parts(system, &rules)
            .into_iter()
            .map(|part| leaf(part, &book))
            .collect();
        if pages.is_empty() {
            pages.push(Leaf {
                head: String::new(),
                caution: None,
                lines: Vec::new(),
                table: None,
                closing: Vec::new(),
                worked: None,
            });
        }
        if let Some(first) = pages.first_mut() {
            let mut lines = opening(library, lesson);
            lines.append(&mut first.lines);
            first.lines = lines;
        }
        if let Some(last) = pages.last_mut() {
            last.closing = closing(lesson, system, &rules);
        }
        Self {
            id: lesson.id.clone(),
            title: lesson.title.clone(),
            pages,
            at: 0,
            family: None,
            scroll: Scroll::default(),
        }
    }

    /// The same with a worked example on a page of its own, the last.
    #[must_use]
    pub fn ending_in(mut self, problem: Problem) -> Self {
        self.pages.push(Leaf {
            head: "A worked example".into(),
            caution: words::caution(&problem),
            lines: vec![Entry::heading("A worked example")],
            table: None,
            closing: Vec::new(),
            worked: Some(Box::new(Worked::new(Rc::new(problem), None))),
        });
        self
    }

    /// The page that is read.
    pub fn leaf(&self) -> Option<&Leaf> {
        self.pages.get(self.at)
    }

    /// The name of the table on the page that is read.
    pub fn table(&self) -> Option<&Arc<str>> {
        let table = self.leaf()?.table.as_ref()?;
        Some(&table.name)
    }

    /// What comes after the page that is read.
    pub fn next(&self) -> Next<'_> {
        match (self.pages.get(self.at + 1), &self.family) {
            (Some(leaf), _) => Next::Page(leaf),
            (None, Some(family)) => Next::Worked(family),
            (None, None) => Next::End,
        }
    }

    /// Opens another page, at its head.
    pub fn open(&mut self, at: usize) {
        self.at = at.min(self.pages.len().saturating_sub(1));
        self.scroll = Scroll::default();
    }
}

fn text(text: impl Into<String>) -> Entry {
    Entry::text(Role::Text, text)
}

fn indented(text: impl Into<String>) -> Entry {
    Entry::of(
        Role::Text,
        vec![Cell::columns("", 2), Cell::rest(text).hang(2)],
    )
}

/// What one can do after it, and what is read before.
fn opening(library: &Library, lesson: &Lesson) -> Vec<Entry> {
    let mut lines = vec![text("After it you can")];
    lines.extend(lesson.can_do.iter().map(indented));
    if !lesson.before.is_empty() {
        let titles: Vec<&str> = lesson
            .before
            .iter()
            .map(|id| {
                library
                    .lesson(id)
                    .map_or(id.as_str(), |lesson| lesson.title.as_str())
            })
            .collect();
        lines.push(text(format!("Read before it: {}.", titles.join("; "))));
    }
    lines.push(Entry::rule());
    lines
}

fn leaf(part: Part, book: &[tables::Leaf]) -> Leaf {
    let mut lines = vec![Entry::heading(part.head.as_str())];
    for paragraph in &part.text {
        lines.push(Entry::gap());
        lines.push(text(paragraph.as_str()));
    }
    if let Some(law) = &part.law {
        lines.push(Entry::gap());
        lines.push(Entry::of(
            Role::Working,
            vec![Cell::columns("", 5), Cell::rest(law.as_str()).hang(2)],
        ));
    }
    Leaf {
        head: part.head,
        caution: part.caution.map(|text| paragraphs(&text).join(" ")),
        lines,
        table: part
            .table
            .and_then(|name| book.iter().find(|leaf| *leaf.name == *name).cloned()),
        closing: Vec::new(),
        worked: None,
    }
}

/// What varies, and where the contents come from.
fn closing(lesson: &Lesson, system: System, rules: &[Option<Value>]) -> Vec<Entry> {
    let mut lines = Vec::new();
    if let Some(varies) = lesson.varies(system, rules) {
        lines.push(Entry::rule());
        lines.push(Entry::heading("What varies"));
        lines.push(text(varies));
    }
    lines.push(Entry::rule());
    lines.push(Entry::heading("Sources of this lesson"));
    lines.extend(
        lesson
            .sources
            .iter()
            .map(|source| indented(words::sentence(source))),
    );
    lines.extend(
        lesson
            .note
            .as_ref()
            .map(|note| indented(words::sentence(note))),
    );
    lines
}
