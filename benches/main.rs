//! How long the program takes: `cargo bench --bench speed`. DEVELOPERS.md has the
//! table of figures. Nothing is checked for being right here; the tests do that.

#![expect(
    clippy::expect_used,
    reason = "a bench without its lessons or its terminal must end loudly"
)]

mod drawing;
mod logbook;
mod marking;
mod screen;
mod shelf;
mod start;

fn main() {
    divan::main();
}
