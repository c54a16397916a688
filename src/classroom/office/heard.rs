//! What a command prints while it does an order, taken in as lines for the screen.

use std::io;

use super::worker::Done;
use crate::console::Console;
use crate::failure::Failure;

/// What a command prints, line by line, and how it went.
pub fn heard(run: impl FnOnce(&mut Console<'_>) -> Done) -> (Done, Vec<String>) {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut input = io::empty();
    let mut console = Console {
        out: &mut out,
        err: &mut err,
        input: &mut input,
        unicode: true,
    };
    let done = run(&mut console);
    let mut lines = noted(&out);
    lines.extend(noted(&err));
    (done, lines)
}

/// The lines of an output; what is only a note needs no word for it on a screen.
pub fn noted(bytes: &[u8]) -> Vec<String> {
    let text = String::from_utf8_lossy(bytes);
    let lines = text.lines();
    lines
        .map(|line| line.strip_prefix("note: ").unwrap_or(line).to_owned())
        .collect()
}

/// What a failure says.
pub fn sentence(failure: &Failure) -> String {
    failure.sentence().unwrap_or_else(|| "it failed".to_owned())
}
