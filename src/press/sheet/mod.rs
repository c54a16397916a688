//! Sheets to take along: problems with their figures on one page for a phone. Each
//! solution is folded shut, each problem shows its code and how its answers are entered
//! afterwards, and the tables that the lines use are on the page.

mod book;
mod job;

use maud::html;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, TRAINING, first_half};
use pumpwright_engine::quantities::System;

use crate::page::{Kind, page};
use crate::words;

/// A problem of the page.
pub struct Item {
    /// The problem.
    pub problem: Problem,
    /// Why it is there, in words; empty where nothing needs to be said.
    pub why: String,
    /// One like it with other numbers, shown filled in before it; none where nothing is.
    pub first: Option<Problem>,
    /// Whether the first half of its lines is given.
    pub half_given: bool,
}

impl Item {
    /// A problem with nothing given.
    pub const fn bare(problem: Problem, why: String) -> Self {
        Self {
            problem,
            why,
            first: None,
            half_given: false,
        }
    }

    /// The lines that are given, by their places, with what stands there.
    pub(crate) fn given(&self) -> Vec<(usize, String)> {
        if self.half_given {
            first_half(&self.problem)
        } else {
            Vec::new()
        }
    }
}

/// What a page of sheets is made of.
pub struct Sheet<'a> {
    /// Its title.
    pub title: &'a str,
    /// The day on which it is written, from 1 January 1970.
    pub today: i32,
    /// The problems.
    pub items: &'a [Item],
    /// The lessons, for their tables.
    pub library: &'a Library,
    /// The system of units.
    pub system: System,
}

/// The sheets as a page.
pub fn sheet(sheet: &Sheet<'_>) -> String {
    let title = words::typed(sheet.title);
    let minutes: u32 = sheet
        .items
        .iter()
        .filter_map(|item| item.problem.family.minutes)
        .fold(0, u32::saturating_add);
    let count = words::count(sheet.items.len(), "problem", "problems");
    let book = book::Book::of(sheet);
    let body = html! {
        h1 { (title) }
        p.faint {
            (count) @if minutes > 0 { ", about " (minutes) " minutes" }
            ". Written on " (words::day(sheet.today)) "."
        }
        p { "Work with pencil and paper. Each solution is folded shut: tap it when your \
             answers stand. What you answered is entered afterwards; how stands at the foot." }
        p.faint { (TRAINING) }
        @for (at, item) in sheet.items.iter().enumerate() {
            (job::job(at + 1, item, &book))
        }
        (book.printed())
        h2 { "Enter your answers afterwards" }
        p { "On the machine with pumpwright, type for each problem its code and your \
             answers by their numbers, as in:" }
        @if let Some(item) = sheet.items.first() { pre { (job::entered(item)) } }
        p { "The answers are marked, and go into your logbook as done on paper. Put your \
             answer in the place of each … and quotation marks around one with a blank in it, as in "
            code { "2=\"8.7 V\"" } ". A line that you leave out is marked as not written." }
        p { "If you opened a solution before your answers stood, add " code { "--looked" }
            ": then it counts as help. " code { "--minutes 12" } " says how long it took." }
    };
    page(Kind::Sheet, &title, &body)
}
