//! The trainer without a terminal: its first frame, and a key with the frame
//! that answers it.

use divan::Bencher;
use pumpwright::lesson_files;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::Settings;
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_screens::{Choices, Look, Person, Press, Runs as _, Start, TrainOptions, Trainer};
use ratatui::Terminal;
use ratatui::backend::TestBackend;

use crate::shelf::{self, DRAW};

fn options(start: Start) -> TrainOptions<'static> {
    TrainOptions {
        system: System::Us,
        settings: Settings::default(),
        manner: Manner {
            decimal: DecimalSign::Point,
        },
        look: Look {
            ascii: false,
            colour: true,
        },
        start,
        draws: Box::new(|| DRAW),
        person: Person::unknown(Choices::default()),
    }
}

fn window(columns: u16, rows: u16) -> Terminal<TestBackend> {
    match Terminal::new(TestBackend::new(columns, rows)) {
        Ok(window) => window,
        Err(never) => match never {},
    }
}

fn show(window: &mut Terminal<TestBackend>, trainer: &mut Trainer<'_>) {
    let drawn = window.draw(|frame| {
        if let Some(cursor) = trainer.draw(frame.buffer_mut()) {
            frame.set_cursor_position(cursor);
        }
    });
    assert!(drawn.is_ok());
}

/// From the embedded lesson files to the first screen at 80x24.
#[divan::bench]
fn first_frame(bencher: Bencher) {
    bencher.bench(|| {
        let (library, faults) = Library::read_checked(&lesson_files::carried().files);
        let mut trainer = Trainer::new(&library, &faults, options(Start::First));
        let mut window = window(80, 24);
        show(&mut window, &mut trainer);
        window
    });
}

/// One character typed into a job sheet, and the frame at 120x40. Every second
/// one takes it out again, so that the blank stays as it is.
#[divan::bench]
fn key_to_frame(bencher: Bencher) {
    let library = shelf::library();
    let start = Start::Family("cable-drop".to_owned());
    let mut trainer = Trainer::new(&library, &[], options(start));
    let mut window = window(120, 40);
    show(&mut window, &mut trainer);
    let mut typed = false;
    bencher.bench_local(|| {
        typed = !typed;
        let press = if typed {
            Press::Type('3')
        } else {
            Press::Erase
        };
        assert!(trainer.press(press));
        show(&mut window, &mut trainer);
    });
}

/// A whole sheet handed in, marked, and the frame at 120x40.
#[divan::bench]
fn hand_in_to_frame(bencher: Bencher) {
    let library = shelf::library();
    bencher
        .with_inputs(|| {
            let start = Start::Family("cable-drop".to_owned());
            let mut trainer = Trainer::new(&library, &[], options(start));
            let mut window = window(120, 40);
            show(&mut window, &mut trainer);
            for press in [Press::Type('3'), Press::Enter, Press::Enter, Press::Enter] {
                assert!(trainer.press(press));
                show(&mut window, &mut trainer);
            }
            (trainer, window)
        })
        .bench_local_refs(|(trainer, window)| {
            assert!(trainer.press(Press::Enter));
            show(window, trainer);
        });
}
