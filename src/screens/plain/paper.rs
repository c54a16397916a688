//! The tools beside a class's paper in plain lines: the same words as on an exam, which are
//! never answers. No help and no lesson is among them, as on the screen.

use pumpwright_engine::classes::sit::{SitAsks, SitLine, SitPaper};
use pumpwright_engine::formulas::SideSum;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::read_order;
use pumpwright_engine::problems::Settings;
use pumpwright_engine::quantities::{DecimalSign, Unit};

use super::asked::understood;
use super::lines::Came;
use super::tools::{Told, named, opened, summed};
use crate::keys::Tool;
use crate::sitting::NO_HELP;
use crate::sums::carried;
use crate::tables::{beside, find};

/// What is said where a word needs a line, and none is open.
const TO_A_LINE: &str = "go back to a line first, as in 1.1";

/// The signs that an answer never begins with.
const SIGNS: [char; 4] = ['?', '!', '@', '&'];

/// What each word does.
const KEYS: [(&str, &str); 8] = [
    ("?3.2", "go to line 2 of item 3, or to any other"),
    ("?Z", "what is open; there once more: hand in"),
    ("?P", "this item once more"),
    ("?Q", "stop; the paper is not handed in"),
    (
        "@",
        "the tables that the paper allows; with a number or a word behind it, that one",
    ),
    ("&", "works out the sum behind it; alone, lists the sums"),
    (
        "?O",
        "answers this line with the last sum; ?O s1 with the sum of that name",
    ),
    ("?K", "these words"),
];

/// What somebody wrote at a line of a paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Heard {
    /// An answer, or nothing.
    Answer,
    /// A sum that is carried over, as it answers the line.
    Carried(String),
    /// To stop here.
    Stop,
    /// To what is open, before the paper is handed in.
    Close,
    /// The item once more.
    Again,
    /// To a line: item and line, both from zero.
    To(usize, usize),
    /// A tool: the lines that it says.
    Said(Vec<String>),
}

/// The tools while a paper is answered; the side sums stay in memory.
#[derive(Debug)]
pub struct PaperTools<'a> {
    library: &'a Library,
    decimal: DecimalSign,
    sums: Vec<SideSum>,
}

impl<'a> PaperTools<'a> {
    /// The word that begins a paper.
    pub const WORDS: &'static str = "Write an answer and Enter. Enter alone leaves a line open. \
        ?K lists the words, ?Q stops. @ tables, & works out a sum.";

    /// Tools with the tables of these lessons.
    pub const fn new(library: &'a Library, decimal: DecimalSign) -> Self {
        Self {
            library,
            decimal,
            sums: Vec::new(),
        }
    }

    /// Takes what was typed at a line, item and line from zero; none before the paper is
    /// handed in.
    pub fn hear(&mut self, paper: &SitPaper, place: Option<(usize, usize)>, typed: &str) -> Heard {
        let item = place.map(|(item, _)| item);
        let said = match Came::from_line(typed) {
            Came::End | Came::Letter('q' | 'Q') => return Heard::Stop,
            Came::Letter('z' | 'Z') => return Heard::Close,
            Came::Letter('p' | 'P') if place.is_some() => return Heard::Again,
            Came::Letter('k' | 'K') => {
                let keys = KEYS.iter();
                keys.map(|(key, does)| (format!("key {key}"), (*does).to_owned()))
                    .collect()
            }
            Came::Letter('o' | 'O') => return self.carry_over(paper, place, ""),
            Came::CarryOver(name) => return self.carry_over(paper, place, &name),
            Came::Letter(letter) => note(&no_tool(letter)),
            Came::Ask | Came::Show | Came::Word(_) => note(NO_HELP),
            Came::Tables(asked) => self.tables(paper, item, &asked),
            Came::Sums(sum) => {
                let manner = (paper.head.system(), self.decimal);
                summed(&sum, &mut self.sums, manner)
            }
            Came::Text(text) if text.starts_with(SIGNS) => match goes_to(&text, paper) {
                Some((item, line)) => return Heard::To(item, line),
                None => note(&format!(
                    "this begins with a sign and is no answer; ?K lists the words: {text}"
                )),
            },
            Came::Text(_) => return Heard::Answer,
        };
        said_of(said)
    }

    /// A sum that was worked out, as it answers a line that wants a figure.
    fn carry_over(&self, paper: &SitPaper, place: Option<(usize, usize)>, name: &str) -> Heard {
        let line = place.and_then(|(item, line)| paper.items.get(item)?.lines.get(line));
        let Some(line) = line else {
            return said_of(note(TO_A_LINE));
        };
        if !matches!(line.asks, SitAsks::Figure | SitAsks::Row) {
            return said_of(note("no figure is asked at this line"));
        }
        let unit = line.unit.as_deref().and_then(|unit| Unit::parse(unit).ok());
        match named(&self.sums, name) {
            Ok(sum) => Heard::Carried(carried(sum, unit.as_ref(), self.decimal)),
            Err(words) => said_of(note(&words)),
        }
    }

    fn tables(&self, paper: &SitPaper, item: Option<usize>, asked: &str) -> Vec<Told> {
        let Some(item) = item.and_then(|at| paper.items.get(at)) else {
            return note(TO_A_LINE);
        };
        let settings = Settings::default();
        match beside(self.library, &settings, &paper.head.tables, Some(item)) {
            Ok(book) => {
                let at = find(&book, asked).into_iter().next();
                opened(&book, at, (false, asked))
            }
            Err(sentence) => note(&sentence),
        }
    }

    /// What is told of an answer behind its blank: why it cannot be read, if it cannot, and
    /// else of an order how it was understood. Never whether it is right.
    pub fn told(&self, line: &SitLine, typed: &str) -> Vec<String> {
        if let Some(why) = line.unreadable(typed, self.decimal) {
            return vec![format!("note: kept as you wrote it, but {why}")];
        }
        let SitAsks::Order(jobs) = &line.asks else {
            return Vec::new();
        };
        let Ok(numbers) = read_order(typed, jobs.len()) else {
            return Vec::new();
        };
        let jobs: Vec<&str> = jobs.iter().map(String::as_str).collect();
        let told = understood(&jobs, &numbers).into_iter();
        told.map(|(word, job)| format!("{word}: {job}")).collect()
    }

    /// Whether what is written at a line can be read; nothing can.
    pub fn reads(&self, line: &SitLine, typed: &str) -> bool {
        line.unreadable(typed, self.decimal).is_none()
    }
}

/// `?3.2`: that line, where the paper has it.
fn goes_to(text: &str, paper: &SitPaper) -> Option<(usize, usize)> {
    let (item, line) = text.strip_prefix('?')?.trim().split_once('.')?;
    let number = |text: &str| text.trim().parse::<usize>().ok()?.checked_sub(1);
    let (item, line) = (number(item)?, number(line)?);
    let lines = &paper.items.get(item)?.lines;
    (line < lines.len()).then_some((item, line))
}

fn no_tool(letter: char) -> String {
    match Tool::by_letter(letter) {
        Some(row) => format!("{} {} has no use on a paper", row.letter, row.name),
        None => format!("{letter} is no tool; ?K lists the words"),
    }
}

fn said_of(said: Vec<Told>) -> Heard {
    let line = |(prefix, text): Told| format!("{prefix}: {}", text.replace('\n', " "));
    Heard::Said(said.into_iter().map(line).collect())
}

fn note(text: &str) -> Vec<Told> {
    vec![("note".to_owned(), text.to_owned())]
}
