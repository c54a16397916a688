//! Who keeps the record: hands sheets over to be written down, gives back what was
//! kept. Nothing is written to disk here, and no call waits for the disk.

use pumpwright_engine::entries::{Entry, Id};
use pumpwright_engine::learner::History;

/// The clock on the wall: the world's time and the person's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Now {
    /// Milliseconds since 1970, UTC.
    pub milliseconds: i64,
    /// How far the person's clock is ahead of UTC, in minutes.
    pub zone: i32,
}

/// How the handing over of an entry went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Receipt {
    /// It is on the disk.
    Kept(Id),
    /// It is not; the sentence says why and what to do. Nothing kept before is lost.
    NotKept(Id, String),
}

/// Something half written, under an id that stays the same while it is written on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// Its id.
    pub id: Id,
    /// What it is, for whoever made it.
    pub kind: String,
    /// What is written so far, as JSON of whoever made it.
    pub text: String,
}

/// Behind the kind of a draft of which it was said that it cannot be laid out again.
const TOLD: &str = ", told";

impl Draft {
    /// Whether it is of this kind.
    pub(crate) fn is_a(&self, kind: &str) -> bool {
        self.kind.strip_suffix(TOLD).unwrap_or(&self.kind) == kind
    }

    /// Whether it was said already that it cannot be laid out again.
    pub(crate) fn is_told(&self) -> bool {
        self.kind.ends_with(TOLD)
    }

    /// The same when that was said. It stays: with its old lesson it can be laid out.
    pub(crate) fn told(self) -> Self {
        if self.is_told() {
            return self;
        }
        Self {
            kind: self.kind + TOLD,
            ..self
        }
    }
}

/// Who keeps the record of the person at the screen. Every call comes back at once.
pub trait Clerk {
    /// The clock.
    fn now(&mut self) -> Now;
    /// An id, unlike any other.
    fn fresh_id(&mut self) -> Id;
    /// Whose record it is.
    fn person(&self) -> &str;
    /// Everything is kept under this name from now on.
    fn is_for(&mut self, person: &str);
    /// The version of the program, for what is written down.
    fn program(&self) -> &str;
    /// Takes an entry, to be written down; a receipt comes when it is on the disk.
    fn hand_in(&mut self, entry: Entry);
    /// The next receipt, if one came.
    fn receipt(&mut self) -> Option<Receipt>;
    /// From now on nothing is written down: the person said so.
    fn go_on_without(&mut self);
    /// Whether what is handed in is written down.
    fn keeps(&self) -> bool;
    /// Keeps this in place of what was kept under its id, within a second.
    fn keep(&mut self, draft: Draft);
    /// Keeps this no more.
    fn drop_draft(&mut self, id: Id);
    /// What is half written, the latest first.
    fn drafts(&self) -> Vec<Draft>;
    /// Everything that the person handed in, with what is being written down.
    fn history(&self) -> &History;
    /// What has to be said since, if anything.
    fn news(&mut self) -> Option<String>;
}

/// Keeps everything until the stop, and nothing after it.
#[derive(Debug, Clone, Default)]
pub struct InMemory {
    /// The clock as it was set; it stands still.
    pub now: Option<Now>,
    person: String,
    history: History,
    entries: Vec<Entry>,
    receipts: Vec<Receipt>,
    drafts: Vec<Draft>,
    ids: u128,
}

impl InMemory {
    /// What was handed in, in that order.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }
}

impl Clerk for InMemory {
    fn now(&mut self) -> Now {
        self.now.unwrap_or(Now {
            milliseconds: 0,
            zone: 0,
        })
    }

    fn fresh_id(&mut self) -> Id {
        self.ids += 1;
        Id::new(self.now().milliseconds, self.ids)
    }

    fn person(&self) -> &str {
        &self.person
    }

    fn is_for(&mut self, person: &str) {
        person.clone_into(&mut self.person);
    }

    fn program(&self) -> &'static str {
        ""
    }

    fn hand_in(&mut self, entry: Entry) {
        self.receipts.push(Receipt::Kept(entry.id));
        self.history.add(entry.response());
        self.entries.push(entry);
    }

    fn receipt(&mut self) -> Option<Receipt> {
        let any = !self.receipts.is_empty();
        any.then(|| self.receipts.remove(0))
    }

    fn go_on_without(&mut self) {}

    fn keeps(&self) -> bool {
        false
    }

    fn keep(&mut self, draft: Draft) {
        self.drop_draft(draft.id);
        self.drafts.insert(0, draft);
    }

    fn drop_draft(&mut self, id: Id) {
        self.drafts.retain(|draft| draft.id != id);
    }

    fn drafts(&self) -> Vec<Draft> {
        self.drafts.clone()
    }

    fn history(&self) -> &History {
        &self.history
    }

    fn news(&mut self) -> Option<String> {
        None
    }
}
