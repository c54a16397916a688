//! The clerk of the trainer whose record lies in a file. No call waits for the disk;
//! a thread of its own writes.

use std::collections::{BTreeMap, VecDeque};
use std::path::Path;
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use pumpwright_engine::entries::{Entry, Id};
use pumpwright_engine::learner::History;
use pumpwright_screens::{Clerk, Draft, Now, Receipt};

use super::place::Whose;
use super::store::DraftChange;
use super::writer::{self, Loaded, Order, Told};
use crate::news::News;
use crate::platform;

/// When the person changes, so long is waited for what there is of theirs; a long
/// record takes a fiftieth of a second. What comes later is taken in when it comes.
const CHANGE_OF_PERSON: Duration = Duration::from_millis(100);

/// A logbook that is being opened while the program does something else.
#[derive(Debug)]
pub struct Opening(FileClerk);

impl Opening {
    /// The clerk, as soon as the file is open and what there is of the person is read.
    /// Where that cannot be, its news say why, and it keeps nothing.
    pub fn wait(mut self) -> FileClerk {
        while self.0.waiting {
            match self.0.told.recv() {
                Ok(told) => self.0.hear(told),
                Err(_) => self.0.is_gone(),
            }
        }
        self.0
    }
}

/// Keeps what is handed in, in a file. Dropping it waits until all is written.
#[derive(Debug)]
pub struct FileClerk {
    person: String,
    /// Whether it is known who is meant.
    found: bool,
    history: History,
    drafts: Vec<Draft>,
    receipts: VecDeque<Receipt>,
    /// What was handed in and has no receipt yet.
    open: BTreeMap<Id, String>,
    news: News,
    orders: Option<Sender<Order>>,
    told: Receiver<Told>,
    writer: Option<JoinHandle<()>>,
    /// Whether what there is of the person is still to come.
    waiting: bool,
    /// Why nothing can be written.
    unusable: Option<String>,
    /// Whether the person said to go on without.
    without: bool,
}

impl FileClerk {
    /// Opens the logbook in this file for this person, and makes it where there is
    /// none. There is always a clerk: where the file cannot be used, its news say why,
    /// [`Clerk::keeps`] is false, and practice can go on unsaved.
    pub fn open(path: Option<&Path>, person: &str) -> Self {
        Self::begin(path, Whose::named(person)).wait()
    }

    /// Begins to open it, on a thread of its own.
    pub fn begin(path: Option<&Path>, whose: Whose) -> Opening {
        let (orders, ordered) = channel();
        let (tell, told) = channel();
        let mut clerk = Self {
            person: whose.among(&[]),
            found: false,
            history: History::default(),
            drafts: Vec::new(),
            receipts: VecDeque::new(),
            open: BTreeMap::new(),
            news: News::default(),
            orders: Some(orders),
            told,
            writer: None,
            waiting: true,
            unusable: None,
            without: false,
        };
        let Some(path) = path.map(Path::to_owned) else {
            let why = "this machine names no folder for data; name a file with --logbook";
            clerk.hear(Told::Unusable(why.to_owned()));
            return Opening(clerk);
        };
        let started = thread::Builder::new()
            .name("logbook".to_owned())
            .spawn(move || writer::run(&path, &whose, &ordered, &tell));
        match started {
            Ok(writer) => clerk.writer = Some(writer),
            Err(error) => clerk.hear(Told::Unusable(error.to_string())),
        }
        Opening(clerk)
    }

    /// What could not be kept, to be asked when the clerk is gone.
    pub fn unsaid(&self) -> News {
        self.news.clone()
    }

    /// Takes in what the writer told since.
    fn listen(&mut self) {
        loop {
            match self.told.try_recv() {
                Ok(told) => self.hear(told),
                Err(TryRecvError::Empty) => return,
                Err(TryRecvError::Disconnected) => {
                    // It goes by itself only where nothing is kept, or at the end.
                    if self.keeps() && self.orders.is_some() {
                        self.is_gone();
                    }
                    return;
                }
            }
        }
    }

    fn hear(&mut self, told: Told) {
        match told {
            Told::Loaded(loaded) => self.take_over(*loaded),
            Told::News(sentence) => self.news.say(sentence),
            Told::Receipt(receipt) => self.file(receipt),
            Told::Unusable(why) => {
                self.waiting = false;
                self.news.say(format!("nothing is written down: {why}"));
                for id in std::mem::take(&mut self.open).into_keys() {
                    self.receipts.push_back(Receipt::NotKept(id, why.clone()));
                }
                self.unusable = Some(why);
            }
        }
    }

    fn take_over(&mut self, loaded: Loaded) {
        if !self.found {
            // Who is meant is known when the file is open.
            self.found = true;
            self.person.clone_from(&loaded.person);
        }
        // What is said of a person who was here before comes too late.
        if loaded.person != self.person {
            return;
        }
        self.waiting = false;
        let since = std::mem::take(&mut self.history);
        self.history = loaded.history.merged(since);
        let written = std::mem::take(&mut self.drafts);
        let older = loaded.drafts.into_iter();
        let older = older.filter(|draft| written.iter().all(|own| own.id != draft.id));
        let older: Vec<Draft> = older.collect();
        self.drafts = written;
        self.drafts.extend(older);
    }

    fn file(&mut self, receipt: Receipt) {
        let (Receipt::Kept(id) | Receipt::NotKept(id, _)) = &receipt;
        self.open.remove(id);
        if !self.without {
            self.receipts.push_back(receipt);
        }
    }

    /// The writer went away before it told everything.
    fn is_gone(&mut self) {
        if self.unusable.is_none() {
            self.hear(Told::Unusable("the writer has stopped".to_owned()));
        }
        self.waiting = false;
    }

    fn order(&mut self, order: Order) {
        if !self.keeps() {
            return;
        }
        let sent = self.orders.as_ref().map(|orders| orders.send(order));
        if !matches!(sent, Some(Ok(()))) {
            self.listen();
            self.is_gone();
        }
    }
}

impl Clerk for FileClerk {
    fn now(&mut self) -> Now {
        let (milliseconds, zone) = platform::clock();
        Now { milliseconds, zone }
    }

    fn fresh_id(&mut self) -> Id {
        Id::new(self.now().milliseconds, rand::random())
    }

    fn person(&self) -> &str {
        &self.person
    }

    fn is_for(&mut self, person: &str) {
        if person == self.person {
            return;
        }
        self.found = true;
        person.clone_into(&mut self.person);
        self.history = History::default();
        self.drafts.clear();
        if !self.keeps() {
            return;
        }
        self.waiting = true;
        self.order(Order::Person(person.to_owned()));
        let end = Instant::now() + CHANGE_OF_PERSON;
        while self.waiting {
            let left = end.saturating_duration_since(Instant::now());
            match self.told.recv_timeout(left) {
                Ok(told) => self.hear(told),
                Err(_) => break,
            }
        }
    }

    fn program(&self) -> &'static str {
        env!("CARGO_PKG_VERSION")
    }

    fn hand_in(&mut self, entry: Entry) {
        let id = entry.id;
        self.history.add(entry.response());
        self.drafts.retain(|draft| draft.id != id);
        if self.without {
            return;
        }
        if let Some(why) = &self.unusable {
            self.receipts.push_back(Receipt::NotKept(id, why.clone()));
            return;
        }
        self.open.insert(id, entry.code.clone());
        self.order(Order::Enter(Box::new(entry)));
    }

    fn receipt(&mut self) -> Option<Receipt> {
        self.listen();
        self.receipts.pop_front()
    }

    fn go_on_without(&mut self) {
        self.order(Order::Stop);
        self.without = true;
        self.open.clear();
        self.receipts.clear();
    }

    fn keeps(&self) -> bool {
        !self.without && self.unusable.is_none()
    }

    fn keep(&mut self, draft: Draft) {
        self.drafts.retain(|other| other.id != draft.id);
        self.drafts.insert(0, draft.clone());
        self.order(Order::Change(DraftChange::Keep(draft)));
    }

    fn drop_draft(&mut self, id: Id) {
        self.drafts.retain(|draft| draft.id != id);
        self.order(Order::Change(DraftChange::Drop(id)));
    }

    fn drafts(&self) -> Vec<Draft> {
        self.drafts.clone()
    }

    fn history(&self) -> &History {
        &self.history
    }

    fn news(&mut self) -> Option<String> {
        self.listen();
        self.news.next()
    }
}

impl Drop for FileClerk {
    /// Waits until all is written; what could not be is said.
    fn drop(&mut self) {
        self.orders = None;
        if let Some(writer) = self.writer.take() {
            let stopped = writer.join().is_err();
            self.listen();
            if stopped {
                self.is_gone();
            }
        }
        for code in self.open.values() {
            let why = "the writer has stopped";
            self.news
                .say(format!("the sheet {code} is not kept: {why}"));
        }
        for receipt in std::mem::take(&mut self.receipts) {
            if let Receipt::NotKept(_, why) = receipt {
                self.news.say(format!("a sheet is not kept: {why}"));
            }
        }
    }
}

#[cfg(test)]
#[path = "clerk_tests.rs"]
mod tests;
