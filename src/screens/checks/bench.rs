//! A trainer on the bench: lessons from the repository, draws that are counted,
//! keys from a tape, the window read back as text.

use std::cell::RefCell;
use std::path::Path;
use std::rc::Rc;

use pumpwright_engine::lessons::{Fault, Library, SourceFile};
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::Settings;
use pumpwright_engine::quantities::{DecimalSign, System};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::keys::{Press, from_sign};
use crate::screen::Screen;
use crate::terminal::Runs;
use crate::theme::Look;
use crate::{
    Checked, Choices, Clerk, InMemory, Keeper, Person, SetUp, Signs, Start, TrainOptions, Trainer,
};

/// A few lessons as they once were: what screens are drawn from where their words
/// are compared, so that a lesson may change without a screen's check.
pub fn files() -> Vec<SourceFile> {
    files_in("checks/lessons")
}

/// The shipped lessons, every file of them: for checks of what holds of every sheet.
pub fn shipped_files() -> Vec<SourceFile> {
    files_in("../../lessons")
}

fn files_in(folder: &str) -> Vec<SourceFile> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut files = Vec::new();
    let mut open = vec![root.clone()];
    while let Some(folder) = open.pop() {
        for entry in std::fs::read_dir(&folder).expect("the lessons are there") {
            let path = entry.expect("a folder can be read").path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|kind| kind == "toml") {
                let shown = path.strip_prefix(&root).expect("inside").to_string_lossy();
                let text = std::fs::read_to_string(&path).expect("a lesson is text");
                files.push(SourceFile {
                    path: shown.replace('\\', "/"),
                    text,
                });
            }
        }
    }
    files.sort_by(|a, b| a.path.cmp(&b.path));
    files
}

/// The lessons of [`files`], read.
pub fn library() -> Library {
    read(&files())
}

/// The shipped lessons, read.
pub fn shipped() -> Library {
    read(&shipped_files())
}

/// Lesson files, read.
pub fn read(files: &[SourceFile]) -> Library {
    let (library, faults) = Library::read(files);
    assert!(faults.is_empty(), "{}", faults[0]);
    library
}

/// How figures are written on the bench.
pub const MANNER: Manner = Manner {
    decimal: DecimalSign::Point,
};

/// What holds on the bench where nothing is set.
pub const DEFAULT: Choices = Choices {
    name: String::new(),
    units: System::Us,
    decimal: DecimalSign::Point,
    signs: Signs::Ascii,
    checked: Checked::Whole,
    exam: None,
};

/// What was to be kept, one after the other, and what there is to say about it.
#[derive(Default)]
pub struct Kept {
    /// What was to be kept.
    pub all: Vec<SetUp>,
    /// What is said next.
    pub news: Option<String>,
}

struct Book(Rc<RefCell<Kept>>);

impl Keeper for Book {
    fn keep(&mut self, set: &SetUp) {
        self.0.borrow_mut().all.push(set.clone());
    }

    fn news(&mut self) -> Option<String> {
        self.0.borrow_mut().news.take()
    }
}

/// A person who was asked before and set this, and the book of what is kept.
pub fn person(set: SetUp) -> (Person<'static>, Rc<RefCell<Kept>>) {
    let kept = Rc::new(RefCell::new(Kept::default()));
    let person = Person {
        set,
        default: DEFAULT,
        called: None,
        user: String::new(),
        asked: true,
        fault: None,
        keeper: Box::new(Book(Rc::clone(&kept))),
        clerk: Box::new(InMemory::default()),
        office: Box::new(super::office::Demo::at(3)),
    };
    (person, kept)
}

/// A trainer on the bench.
pub struct Bench<'a> {
    /// The trainer.
    pub trainer: Trainer<'a>,
    /// What was to be kept.
    pub kept: Rc<RefCell<Kept>>,
    columns: u16,
    rows: u16,
}

impl<'a> Bench<'a> {
    /// A trainer at this start, with draws 1, 2, 3 and so on, in ASCII.
    pub fn new(library: &'a Library, start: Start, size: (u16, u16)) -> Self {
        Self::with(
            library,
            &[],
            start,
            size,
            Look {
                ascii: true,
                colour: false,
            },
        )
    }

    /// The same with lesson files that cannot be read, and another look.
    pub fn with(
        library: &'a Library,
        faults: &[Fault],
        start: Start,
        size: (u16, u16),
        look: Look,
    ) -> Self {
        Self::of(library, faults, start, size, look, person(SetUp::default()))
    }

    /// The same for this person.
    pub fn of(
        library: &'a Library,
        faults: &[Fault],
        start: Start,
        size: (u16, u16),
        look: Look,
        (person, kept): (Person<'a>, Rc<RefCell<Kept>>),
    ) -> Self {
        Self::drawing(library, faults, start, (size, look, 1), (person, kept))
    }

    /// The same with the draws from this number on.
    pub fn drawing(
        library: &'a Library,
        faults: &[Fault],
        start: Start,
        (size, look, first): ((u16, u16), Look, u32),
        (person, kept): (Person<'a>, Rc<RefCell<Kept>>),
    ) -> Self {
        let mut draw = first.saturating_sub(1);
        let options = TrainOptions {
            system: System::Us,
            settings: Settings::default(),
            manner: MANNER,
            look,
            start,
            draws: Box::new(move || {
                draw += 1;
                draw
            }),
            person,
        };
        let trainer = Trainer::new(library, faults, options);
        let mut bench = Self {
            trainer,
            kept,
            columns: size.0,
            rows: size.1,
        };
        bench.draw();
        bench
    }

    /// A trainer in ASCII at 80x24 whose record this clerk keeps.
    pub fn kept_by(
        library: &'a Library,
        start: Start,
        clerk: Box<dyn Clerk + 'a>,
        set: SetUp,
    ) -> Self {
        let look = Look {
            ascii: true,
            colour: false,
        };
        let (mut person, kept) = person(set);
        person.clerk = clerk;
        Self::of(library, &[], start, (80, 24), look, (person, kept))
    }

    /// A sheet of this family.
    pub fn family(library: &'a Library, family: &str, size: (u16, u16)) -> Self {
        Self::new(library, Start::Family(family.into()), size)
    }

    /// Draws the window; says where the cursor is.
    pub fn draw(&mut self) -> (Buffer, Option<Position>) {
        let mut buffer = Buffer::empty(Rect::new(0, 0, self.columns, self.rows));
        let cursor = self.trainer.draw(&mut buffer);
        (buffer, cursor)
    }

    /// The window as text.
    pub fn text(&mut self) -> String {
        let (buffer, _) = self.draw();
        text_of(&buffer)
    }

    /// Makes the window another size.
    pub fn resize(&mut self, columns: u16, rows: u16) {
        (self.columns, self.rows) = (columns, rows);
        self.draw();
    }

    /// Plays a tape: characters as typed, `⏎` Enter, `⎋` Esc, `↑` `↓` Up and Down,
    /// `⌫` Backspace, `⇞` `⇟` PgUp and PgDn. Says whether the trainer still runs.
    pub fn play(&mut self, tape: &str) -> bool {
        let goes_on = tape.chars().all(|sign| self.trainer.take(press_of(sign)));
        self.draw();
        goes_on
    }

    /// One press.
    pub fn press(&mut self, press: Press) -> bool {
        let goes_on = self.trainer.take(press);
        self.draw();
        goes_on
    }

    /// The screen on top.
    pub fn top(&self) -> &Screen {
        self.trainer.stack().last().expect("a screen is there")
    }
}

/// A window as text, without the room at the right of its rows.
pub fn text_of(buffer: &Buffer) -> String {
    let width = usize::from(buffer.area.width).max(1);
    let rows = buffer.content().chunks(width).map(|row| {
        let text: String = row.iter().map(ratatui::buffer::Cell::symbol).collect();
        text.trim_end().to_owned()
    });
    rows.collect::<Vec<_>>().join("\n")
}

fn press_of(sign: char) -> Press {
    match sign {
        '⏎' => Press::Enter,
        '⎋' => Press::Escape,
        '↑' => Press::Up,
        '↓' => Press::Down,
        '⌫' => Press::Erase,
        '⇞' => Press::PageUp,
        '⇟' => Press::PageDown,
        _ => from_sign(sign),
    }
}
