//! Plots as SVG inside the page, each with a title and a description. What stands in
//! a plot stands in the table beside it, too.

mod bars;
mod dots;
mod fit;
mod track;

pub use bars::{Bar, bars};
pub use dots::{Dot, dots};
pub use fit::{Fitted, fit};
pub use track::{Track, TrackPoint, track};

use maud::{Markup, html};

/// The width of every plot in its own units; a phone shows one unit as one pixel.
const WIDE: f64 = 330.0;

/// What a plot is, for whoever cannot see it.
pub struct Said<'a> {
    /// Stands before its ids; no other on the page has it.
    pub name: &'a str,
    /// Its title.
    pub title: &'a str,
    /// What it shows, in a sentence or two.
    pub tells: &'a str,
}

/// The frame of a plot.
fn framed(said: &Said<'_>, high: f64, inside: &Markup) -> Markup {
    let (title, desc) = (
        format!("{}-title", said.name),
        format!("{}-desc", said.name),
    );
    html! {
        svg.plot viewBox={ "0 0 " (WIDE) " " (number(high)) } role="img"
            aria-labelledby={ (title) " " (desc) } {
            title id=(title) { (said.title) }
            desc id=(desc) { (said.tells) }
            (inside)
        }
    }
}

/// A number of a plot to a tenth, the same on every machine.
fn number(value: f64) -> String {
    let text = format!("{value:.1}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0" } else { short }.to_owned()
}

fn line(class: &str, from: (f64, f64), to: (f64, f64)) -> Markup {
    html! {
        line class=(class) x1=(number(from.0)) y1=(number(from.1))
            x2=(number(to.0)) y2=(number(to.1)) {}
    }
}

fn path(class: &str, points: &[(f64, f64)]) -> Markup {
    html! { polyline class=(class) points=(corners(points)) {} }
}

fn area(class: &str, points: &[(f64, f64)]) -> Markup {
    html! { polygon class=(class) points=(corners(points)) {} }
}

fn corners(points: &[(f64, f64)]) -> String {
    let corners = points
        .iter()
        .map(|(x, y)| format!("{},{}", number(*x), number(*y)));
    corners.collect::<Vec<_>>().join(" ")
}

fn spot((x, y): (f64, f64)) -> Markup {
    html! { circle.mark cx=(number(x)) cy=(number(y)) r="3.5" {} }
}

fn bar(from: (f64, f64), to: (f64, f64)) -> Markup {
    html! {
        rect.mark x=(number(from.0)) y=(number(from.1))
            width=(number((to.0 - from.0).max(0.0))) height=(number((to.1 - from.1).max(0.0))) {}
    }
}

/// A text; `anchor` is `start`, `middle` or `end`.
fn text(anchor: &str, (x, y): (f64, f64), text: &str) -> Markup {
    html! { text text-anchor=(anchor) x=(number(x)) y=(number(y)) { (text) } }
}

/// The first, the last and at most so many places between them, evenly.
fn some(count: usize, most: usize) -> Vec<usize> {
    let every = count.div_ceil(most.max(1)).max(1);
    (0..count).step_by(every).collect()
}
