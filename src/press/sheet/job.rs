//! One problem of the page: caution, job, figure, lines, and the solution folded shut.

use maud::{Markup, PreEscaped, html};
use pumpwright_engine::figures::{Frame, View, scene, svg_inside};
use pumpwright_engine::problems::{Asks, Figure, Line, Offer, Problem};

use super::{Item, book::Book};
use crate::solution::solution;
use crate::table::table;

/// The frame of a figure: its letters stay readable at the width of a phone.
const FRAME: Frame = Frame {
    columns: 52,
    rows: 18,
};

/// The problem as the page shows it.
pub fn job(number: usize, item: &Item, book: &Book) -> Markup {
    let problem = &item.problem;
    let drawn = scene(problem, &View::before(problem), FRAME);
    let given = item.given();
    let written = |line: &Line| {
        let same = |(at, _): &&(usize, String)| problem.lines[*at].id == line.id;
        given.iter().find(same).map(|(_, typed)| typed.as_str())
    };
    html! {
        article id={ "problem-" (number) } {
            h2 { (number) ". " (problem.family.title) }
            p.faint {
                code { (problem.code) }
                @if !item.why.is_empty() { br; (item.why) }
            }
            @if let Some(caution) = problem.caution() {
                p.caution { strong { "CAUTION: " } (caution) }
            }
            @if let Some(first) = &item.first { (filled_in(first)) }
            @for paragraph in &problem.story { p { (paragraph) } }
            @for rule in &problem.rules { p.faint { "House rule: " (rule.text) } }
            @if let Some(figure) = &problem.figure { (points(figure)) }
            @if let Some(scene) = drawn {
                div.drawn { (PreEscaped(svg_inside(&scene, &format!("p{number}")))) }
            }
            (book.places(problem))
            h3 { "Your answers" }
            ol.lines {
                @for (_, line) in problem.asked() { (asked(line, written(line))) }
            }
            @if let Some(varies) = problem.varies() { p.faint { "What varies: " (varies) } }
            details {
                summary { "Solution of problem " (number) }
                div { (solution(problem)) }
            }
            p.faint { "To enter it: " (command(&entered(item))) }
            @for source in &problem.family.sources { p.faint { "Source: " (source) } }
        }
    }
}

/// The command that takes the answers.
pub fn entered(item: &Item) -> String {
    let problem = &item.problem;
    let given = item.given().len();
    let own = problem.asked().skip(given);
    let answers = own.map(|(number, _)| format!("{number}=… "));
    let given = match given {
        0 => String::new(),
        given => format!("--given {given} "),
    };
    format!(
        "pumpwright answer {} {}{given}--paper",
        problem.code,
        answers.collect::<String>()
    )
}

/// A command as it is typed: no line ends inside an option.
fn command(text: &str) -> Markup {
    let mut words = text.split(" --");
    html! {
        code {
            (words.next().unwrap_or_default())
            @for option in words { " " span.whole { "--" (option) } }
        }
    }
}

/// One like it, filled in: read it first, then do the same with other numbers.
fn filled_in(first: &Problem) -> Markup {
    html! {
        section.given {
            h3 { "First one that is filled in" }
            @for paragraph in &first.story { p { (paragraph) } }
            (solution(first))
        }
        h3 { "Now the same with other numbers" }
    }
}

/// The points of a figure and what is marked on it.
fn points(figure: &Figure) -> Markup {
    let rows = figure.table();
    let Some((heads, rows)) = rows.split_first() else {
        return html! {};
    };
    let heads: Vec<(&str, bool)> = heads.iter().map(|head| (head.as_str(), false)).collect();
    html! {
        (table(&figure.title, &heads, rows))
        @for mark in figure.marked() { p { (mark) } }
    }
}

/// A line with its blank.
fn asked(line: &Line, written: Option<&str>) -> Markup {
    let noun = if line.marks == 1 { "mark" } else { "marks" };
    html! {
        li {
            (line.label) ": "
            @if let Some(written) = written { strong { (written) } } @else { span.blank { "\u{a0}" } }
            @if let Some(unit) = &line.unit { " " (unit) }
            " "
            span.faint {
                @if !line.form.is_empty() { (line.form) ", " }
                @if written.is_some() { "given" } @else { (line.marks) " " (noun) }
            }
            (choices(line))
        }
    }
}

fn choices(line: &Line) -> Markup {
    let list = |offers: &[Offer]| {
        html! { ul { @for offer in offers { li { strong { (offer.mark) } " " (offer.text) } } } }
    };
    match &line.asks {
        Asks::Nothing | Asks::Figure | Asks::Row => html! {},
        Asks::Pick { offers, .. } => list(offers),
        Asks::Order { cards } => html! {
            p.faint { "Write the numbers from top to bottom in the right order, - for one left out." }
            ul { @for (at, card) in cards.iter().enumerate() {
                li { strong { (at + 1) } " " (card.text) }
            } }
        },
        Asks::Match { parts, meanings } => html! {
            p.faint { "Write the letters of the meanings, from top to bottom." }
            ul { @for (at, (part, _)) in parts.iter().enumerate() {
                li { strong { (at + 1) } " " (part) }
            } }
            (list(meanings))
        },
    }
}
