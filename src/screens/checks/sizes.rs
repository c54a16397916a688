//! Windows of every size: nothing panics, and in a window that holds a sheet
//! neither the Next row nor the caution is ever out of sight.

use super::bench::{Bench, library, shipped};
use crate::Start;

fn starts() -> Vec<(Start, &'static str)> {
    let family = |id: &str| Start::Family(id.into());
    vec![
        (Start::First, ""),
        (Start::First, "⏎"),
        (Start::Jobs, ""),
        (family("cable-drop"), "320⏎0.6"),
        (family("cable-drop"), "↓???"),
        (family("megohm-verdict"), ""),
        (family("insulation-order"), "1⏎↓↓↓↓"),
        (family("box-parts"), "a⏎"),
        (family("setback"), "1⏎2⏎3⏎a⏎"),
        (family("cable-drop"), "?k"),
        (family("cable-drop"), "?l"),
        (family("cable-drop"), "?u"),
        (Start::Jobs, "tank"),
        (family("cable-drop"), "1⏎2⏎3⏎4⏎"),
        (Start::Exams, ""),
        (Start::Exams, "⏎⏎a⏎"),
        (Start::Exams, "⏎⏎a⏎?z"),
        (Start::Exams, "⏎⏎a⏎?zz⏎⏎"),
    ]
}

#[test]
fn no_size_is_a_fault() {
    let library = library();
    for (start, tape) in starts() {
        let mut bench = Bench::new(&library, start.clone(), (80, 24));
        bench.play(tape);
        for columns in [0, 1, 2, 23, 24, 59, 60, 80, 119, 200] {
            for rows in [0, 1, 2, 4, 12, 19, 20, 24, 60] {
                bench.resize(columns, rows);
                bench.play("↓↑⇟⇞1⌫");
                let text = bench.text();
                if columns >= 60 && rows >= 20 {
                    assert!(
                        text.contains("  Next  "),
                        "{start:?} {columns} by {rows}\n{text}"
                    );
                }
            }
        }
    }
}

#[test]
fn the_caution_stays_in_sight_from_60_by_20() {
    let library = shipped();
    for family in library.families() {
        for size in [(60, 20), (80, 24), (120, 40)] {
            let mut bench = Bench::family(&library, &family.id, size);
            let with_caution = bench.text().contains("CAUTION");
            let page = bench.trainer.page();
            let wanted = page
                .fixed
                .iter()
                .any(|entry| entry.role == crate::page::Role::Caution);
            assert_eq!(with_caution, wanted, "{} at {size:?}", family.id);
            bench.play("⇟⇟↓↓↓");
            assert_eq!(
                bench.text().contains("CAUTION"),
                wanted,
                "{} at {size:?}",
                family.id
            );
        }
    }
}

#[test]
fn half_typed_text_comes_back_with_the_window() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("12");
    bench.resize(30, 8);
    bench.play("99⏎⎋");
    bench.resize(80, 24);
    assert!(bench.text().contains("12___"), "{}", bench.text());
}
