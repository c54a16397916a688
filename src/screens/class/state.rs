//! How a class stands on the screen, and what is written there.

use pumpwright_engine::classes::marks::State;

use crate::blank::Blank;
use crate::layout::Scroll;
use crate::office::ClassNow;
use crate::picked::Picked;

/// What is asked before anything is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asks {
    /// The folder of the class.
    Folder,
    /// The file of the class list.
    List,
    /// The file of the plan.
    Plan,
    /// Files of answers, or a folder of them.
    Answers,
    /// Whether the person of the line that is taken is to get a further paper: no words.
    MakeUp,
}

/// The work order.
#[derive(Debug, Clone, Default)]
pub struct Class {
    /// The folder that was named.
    pub folder: String,
    /// How the class stands, once its folder was read.
    pub now: Option<Box<ClassNow>>,
    /// What is asked, most of it in the blank for words.
    pub asks: Option<Asks>,
    /// That blank.
    pub words: Blank,
    /// What is being done, in words.
    pub busy: Option<&'static str>,
    /// The line that is taken.
    pub picked: Picked,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Class {
    /// A work order before its folder is read.
    pub fn of(folder: &str) -> Self {
        let mut class = Self {
            folder: folder.to_owned(),
            ..Self::default()
        };
        class.ask(Asks::Folder, folder);
        class
    }

    /// Asks for words.
    pub fn ask(&mut self, asks: Asks, text: &str) {
        self.asks = Some(asks);
        self.words = Blank::long(text);
        self.scroll.follow();
    }

    /// Takes in how the class stands; the pen stays with its person, or goes to the first
    /// who waits.
    pub fn take_in(&mut self, now: Box<ClassNow>) {
        let other = self.now.as_ref().is_none_or(|before| {
            before.folder != now.folder || before.papers.len() != now.papers.len()
        });
        self.folder.clone_from(&now.folder);
        let first = now
            .people
            .iter()
            .position(|person| waits(&now, &person.id))
            .unwrap_or(0);
        self.now = Some(now);
        if other {
            self.go(first);
        }
    }

    /// Moves the pen to a line, which writes its number.
    pub fn go(&mut self, line: usize) {
        let count = self.now.as_ref().map_or(0, |now| now.people.len());
        self.picked.go(line, count);
        self.scroll.follow();
    }

    /// The line whose number is written.
    pub fn named(&self) -> Option<usize> {
        let count = self.now.as_ref()?.people.len();
        self.picked.named(count)
    }

    /// Whether people are listed with lines to be taken.
    pub fn has_lines(&self) -> bool {
        let now = self.now.as_ref();
        now.is_some_and(|now| !now.papers.is_empty())
    }
}

/// Whether a paper waits to be made or marked.
pub fn waits(now: &ClassNow, paper: &str) -> bool {
    if !now.papers.contains_key(paper) || now.keyed.contains_key(paper) {
        return true;
    }
    let own = now.marks.people.iter().find(|own| own.person.id == paper);
    own.is_none_or(|own| own.state == State::NotIn)
}
