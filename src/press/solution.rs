//! The worked solution of a problem, to be folded shut.

use maud::{Markup, html};
use pumpwright_engine::problems::{Problem, WorkedLine, pressed, working};

/// Each step of the working.
pub fn solution(problem: &Problem) -> Markup {
    html! {
        @for line in working(problem) { (step(&line)) }
        @if let Some(use_) = problem.on_the_job() { p { "On the job: " (use_) } }
    }
}

fn step(line: &WorkedLine) -> Markup {
    if line.id.is_empty() {
        return html! { p { (line.says) } };
    }
    html! {
        p { strong { (line.label) ": " (line.text) } }
        @for lines in [&line.words, &line.numbers] {
            @for (at, text) in lines.iter().enumerate() {
                p.sum { @if at == 0 { "= " } (text) }
            }
        }
        @if let Some(aloud) = &line.aloud { p.faint { "in words: " (aloud) } }
        @for keys in pressed(line) { p.faint { (keys) } }
        @if !line.says.is_empty() { p { (line.says) } }
        @if let Some(why) = &line.why { p { (why) } }
    }
}
