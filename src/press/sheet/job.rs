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
            @for paragraph in &problem.story { p { (paragraph) } }
            @for rule in &problem.rules { p.faint { "House rule " (rule.text) } }
            @if let Some(figure) = &problem.figure { (points(figure)) }
            @if let Some(scene) = drawn {
                div.drawn { (PreEscaped(svg_inside(&scene, &format!("p{number}")))) }
            }
            (book.places(problem))
            h3 { "Your answers" }
            ol.lines {
                @for (_, line) in problem.asked() { (asked(line)) }
            }
            @if let Some(varies) = problem.varies() { p.faint { "What varies: " (varies) } }
            details {
                summary { "Solution of problem " (number) }
                div { (solution(problem)) }
            }
            p.faint { "To enter it: " code { (entered(problem)) } }
            @for source in &problem.family.sources { p.faint { "Source: " (source) } }
        }
    }
}

/// The command that takes the answers.
pub fn entered(problem: &Problem) -> String {
    let answers = problem.asked().map(|(number, _)| format!("{number}=… "));
    format!(
        "pumpwright answer {} {}--paper",
        problem.code,
        answers.collect::<String>()
    )
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
fn asked(line: &Line) -> Markup {
    let noun = if line.marks == 1 { "mark" } else { "marks" };
    html! {
        li {
            (line.label) ": " span.blank { "\u{a0}" }
            @if let Some(unit) = &line.unit { " " (unit) }
            " "
            span.faint {
                @if !line.form.is_empty() { (line.form) ", " }
                (line.marks) " " (noun)
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
