//! Which lines of a problem are filled in for somebody who stands half-way.

use super::problem::{Asks, Problem};
use super::working::working;

/// The first half of the lines that are asked, each by its place with what is written
/// there, a point as the decimal sign: the last steps are the ones to try. A line that is
/// no figure ends it, and the last line is never given.
pub fn first_half(problem: &Problem) -> Vec<(usize, String)> {
    let worked = working(problem);
    let asked = || {
        let lines = problem.lines.iter().enumerate();
        lines.filter(|(_, line)| line.asks != Asks::Nothing)
    };
    let half = asked().count() / 2;
    let given = asked()
        .take(half)
        .take_while(|(_, line)| line.asks == Asks::Figure);
    let given = given.filter_map(|(at, line)| {
        let worked = worked.iter().find(|worked| worked.id == line.id)?;
        Some((at, worked.typed.clone()))
    });
    given.collect()
}
