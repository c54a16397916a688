//! How long the program takes: `cargo bench --bench speed`. DEVELOPERS.md has the
//! table of figures. Nothing is checked for being right here; the tests do that.

mod drawing;
mod marking;
mod screen;
mod shelf;
mod start;

fn main() {
    divan::main();
}
