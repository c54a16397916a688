//! The glossary beside a sheet and a lesson.

use insta::assert_snapshot;

use super::bench::{Bench, library};
use crate::Start;
use crate::screen::Screen;

fn bench(library: &pumpwright_engine::lessons::Library, size: (u16, u16)) -> Bench<'_> {
    Bench::new(library, Start::Family("cable-drop".into()), size)
}

fn both(tape: &str) -> String {
    let library = library();
    let shown = [(80, 24), (120, 40)].map(|size| {
        let mut bench = bench(&library, size);
        assert!(bench.play(tape), "the tape ends the trainer");
        bench.text()
    });
    shown.join("\n\n")
}

#[test]
fn glossary_with_the_words_of_a_sheet_first() {
    assert_snapshot!(both("?g"));
}

#[test]
fn glossary_with_a_word_of_two_meanings() {
    assert_snapshot!(both("?gdraw"));
}

#[test]
fn glossary_over_a_lesson() {
    assert_snapshot!(both("?l⏎g↓"));
}

#[test]
fn the_glossary_goes_back_to_what_lay_under_it() {
    let library = library();
    let mut bench = bench(&library, (80, 24));
    bench.play("320?g");
    let Screen::Glossary(book) = bench.top() else {
        panic!("the glossary lies on top")
    };
    assert!(book.here() > 0, "words stand in the sheet");
    let first = book.word().expect("a word").clone();
    assert!(book.is_here(&first), "{}", first.term);
    bench.play("torq");
    let Screen::Glossary(book) = bench.top() else {
        panic!("the glossary stays")
    };
    assert_eq!(book.word().expect("a word").term, "torque arrester");
    bench.play("↓↓↓↓↓↓");
    assert!(bench.text().contains("last word here"), "{}", bench.text());
    bench.play("⏎");
    let Screen::Sheet(sheet) = bench.top() else {
        panic!("the sheet lies there again")
    };
    assert_eq!(sheet.slots[0].blank.text(), "320");
}
