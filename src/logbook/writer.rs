//! The thread that writes: it alone waits for the disk.
//!
//! A sheet is written at once, drafts at most about once a second and at the end.
//! What could not be written is tried again with the next sheet and at the end, so a
//! disk that has room again gets all of it.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender};
use std::time::{Duration, Instant};

use pumpwright_engine::entries::{Entry, Id};
use pumpwright_engine::learner::History;
use pumpwright_screens::{Draft, Receipt};

use super::place::Whose;
use super::sheet::Sheet;
use super::store::{DraftChange, Logbook};
use super::trouble::{Result, Trouble};
use crate::platform;

/// Drafts wait so long for more of their kind. With the time that a slow disk takes
/// they are kept within a second.
const DRAFTS_WAIT: Duration = Duration::from_millis(700);

/// What the writer is asked.
#[derive(Debug)]
pub enum Order {
    /// Write this down.
    Enter(Box<Entry>),
    /// Keep this draft, or drop it.
    Change(DraftChange),
    /// Drafts are this person's from now on; say what there is of theirs.
    Person(String),
    /// Nothing that comes after this is written.
    Stop,
}

/// What the writer tells.
#[derive(Debug)]
pub enum Told {
    /// What there is of a person.
    Loaded(Box<Loaded>),
    /// What became of an entry.
    Receipt(Receipt),
    /// Something that has to be said.
    News(String),
    /// Nothing can be written: the sentence says why.
    Unusable(String),
}

/// What there is of a person.
#[derive(Debug, Default)]
pub struct Loaded {
    /// Whose it is.
    pub person: String,
    /// What was handed in.
    pub history: History,
    /// What is half written, the latest first.
    pub drafts: Vec<Draft>,
}

impl Loaded {
    fn of(logbook: &Logbook, person: &str) -> Result<Self> {
        Ok(Self {
            person: person.to_owned(),
            history: logbook.history(person)?,
            drafts: logbook.drafts(person)?,
        })
    }
}

/// Opens the file, tells what there is of the person, and writes until nobody orders
/// any more.
pub fn run(path: &Path, whose: &Whose, orders: &Receiver<Order>, tell: &Sender<Told>) {
    let logbook = match Logbook::open(path) {
        Ok(logbook) => logbook,
        Err(trouble) => {
            // What is there may still be read.
            let read = Logbook::reading(path)
                .and_then(|logbook| Loaded::of(&logbook, &meant(&logbook, whose)?));
            if let Ok(loaded) = read {
                let _ = tell.send(Told::Loaded(Box::new(loaded)));
            }
            let _ = tell.send(Told::Unusable(trouble.to_string()));
            return;
        }
    };
    for notice in logbook.notices() {
        let _ = tell.send(Told::News(notice.clone()));
    }
    let person = match meant(&logbook, whose) {
        Ok(person) => person,
        Err(trouble) => {
            let _ = tell.send(Told::Unusable(trouble.to_string()));
            return;
        }
    };
    let mut writer = Writer {
        logbook,
        person,
        entries: Vec::new(),
        refused: Vec::new(),
        changes: BTreeMap::new(),
        said: false,
        tell,
    };
    if writer.load() {
        writer.work(orders);
    }
}

/// Whose record is meant among those in the file.
fn meant(logbook: &Logbook, whose: &Whose) -> Result<String> {
    Ok(whose.among(&logbook.names()?))
}

struct Writer<'a> {
    logbook: Logbook,
    person: String,
    /// What came and is not written yet.
    entries: Vec<Sheet>,
    /// What could not be written before.
    refused: Vec<Sheet>,
    changes: BTreeMap<Id, DraftChange>,
    /// Whether it was said that drafts are not kept, and that is still so.
    said: bool,
    tell: &'a Sender<Told>,
}

impl Writer<'_> {
    fn tell(&self, told: Told) {
        // Nobody listening is no fault: the program is about to end.
        let _ = self.tell.send(told);
    }

    /// Tells what there is of the person; says whether the file can be used.
    fn load(&self) -> bool {
        match Loaded::of(&self.logbook, &self.person) {
            Ok(loaded) => {
                self.tell(Told::Loaded(Box::new(loaded)));
                true
            }
            Err(trouble) => {
                self.tell(Told::Unusable(trouble.to_string()));
                false
            }
        }
    }

    fn work(&mut self, orders: &Receiver<Order>) {
        let mut due: Option<Instant> = None;
        loop {
            let order = match due {
                None => orders.recv().map_err(|_| RecvTimeoutError::Disconnected),
                Some(due) => orders.recv_timeout(due.saturating_duration_since(Instant::now())),
            };
            match order {
                Ok(first) => {
                    for order in std::iter::once(first).chain(orders.try_iter()) {
                        if !self.take(order) {
                            return;
                        }
                    }
                    if !self.entries.is_empty() {
                        self.write();
                    }
                    due = match (self.changes.is_empty(), due) {
                        (true, _) => None,
                        (false, None) => Some(Instant::now() + DRAFTS_WAIT),
                        (false, due) => due,
                    };
                }
                Err(RecvTimeoutError::Timeout) => {
                    self.write();
                    due = None;
                }
                Err(RecvTimeoutError::Disconnected) => {
                    self.write();
                    return;
                }
            }
        }
    }

    /// Takes an order; says whether there is more to do.
    fn take(&mut self, order: Order) -> bool {
        match order {
            Order::Enter(entry) => {
                let id = entry.id;
                match Sheet::of(*entry) {
                    Ok(sheet) => self.entries.push(sheet),
                    Err(why) => {
                        let sentence = format!("this sheet cannot be written down: {why}");
                        self.tell(Told::Receipt(Receipt::NotKept(id, sentence)));
                    }
                }
            }
            Order::Change(change) => {
                let id = match &change {
                    DraftChange::Keep(draft) => draft.id,
                    DraftChange::Drop(id) => *id,
                };
                self.changes.insert(id, change);
            }
            Order::Person(person) => {
                self.write();
                self.person = person;
                self.load();
            }
            Order::Stop => {
                self.write();
                return false;
            }
        }
        true
    }

    /// Writes what waits, in one commit.
    fn write(&mut self) {
        let entries = std::mem::take(&mut self.entries);
        let changes = std::mem::take(&mut self.changes);
        if entries.is_empty() && changes.is_empty() && self.refused.is_empty() {
            return;
        }
        let all: Vec<Sheet> = self.refused.iter().chain(&entries).cloned().collect();
        let list: Vec<DraftChange> = changes.values().cloned().collect();
        let now = platform::clock().0;
        match self.logbook.write(&all, &self.person, &list, now) {
            Ok(_) => {
                self.refused.clear();
                self.said = false;
                for sheet in all {
                    self.tell(Told::Receipt(Receipt::Kept(sheet.entry.id)));
                }
            }
            Err(trouble) => self.refuse(entries, changes, &trouble),
        }
    }

    fn refuse(
        &mut self,
        entries: Vec<Sheet>,
        changes: BTreeMap<Id, DraftChange>,
        trouble: &Trouble,
    ) {
        if entries.is_empty() && !changes.is_empty() && !self.said {
            self.said = true;
            self.tell(Told::News(format!(
                "what you are writing is not kept: {trouble}"
            )));
        }
        for sheet in &entries {
            let id = sheet.entry.id;
            self.tell(Told::Receipt(Receipt::NotKept(id, trouble.to_string())));
        }
        self.refused.extend(entries);
        // Changes that came later stand over these.
        for (id, change) in changes {
            self.changes.entry(id).or_insert(change);
        }
    }
}
