//! The office behind the class screen: a thread of its own reads and writes the folder,
//! so that no key waits for the disk. What commands do is done by the commands.
//!
//! Here is the side of the screens: orders go to the thread, and what it tells comes back.
//! `worker` does the orders, `now` says how a class stands, `pages` counts
//! what the printer will need, `places` finds folders, `heard`
//! takes in what commands print.

mod heard;
mod now;
mod pages;
mod places;
mod worker;

#[cfg(test)]
mod tests;

use std::io;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::{self, JoinHandle};

use pumpwright_engine::lessons::{Library, SourceFile};
use pumpwright_engine::marking::Manner;
use pumpwright_screens::{Office, Order, Told};

pub use self::places::at;
use self::worker::Worker;
use crate::news::News;

/// Orders to the thread that does them, and that thread.
type Worked = (Sender<(Order, Manner)>, JoinHandle<()>);

/// What papers are drawn from.
#[derive(Debug, Clone)]
pub struct Stock {
    /// The lessons.
    pub library: Library,
    /// Their files.
    pub files: Vec<SourceFile>,
    /// The class's own rules file.
    pub class: Option<SourceFile>,
}

/// Keeps classes in folders. Dropping it waits until all is written.
pub struct FileOffice<'a> {
    stock: Box<dyn Fn() -> Stock + 'a>,
    worker: Option<Worked>,
    tell: Sender<Told>,
    told: Receiver<Told>,
    news: News,
}

impl<'a> FileOffice<'a> {
    /// An office that draws papers from this stock, which is taken at the first order.
    pub fn new(stock: impl Fn() -> Stock + 'a) -> Self {
        let (tell, told) = channel();
        Self {
            stock: Box::new(stock),
            worker: None,
            tell,
            told,
            news: News::default(),
        }
    }

    /// What could not be kept, to be asked when the office is gone.
    pub fn unsaid(&self) -> News {
        self.news.clone()
    }

    /// What comes of an order, waited for; none where nothing is done.
    pub fn wait(&self) -> Option<Told> {
        self.worker.as_ref()?;
        self.told.recv().ok()
    }

    fn start(&self) -> io::Result<Worked> {
        let (orders, ordered) = channel();
        let (stock, tell, news) = ((self.stock)(), self.tell.clone(), self.news.clone());
        let work = move || {
            let mut worker = Worker {
                stock,
                open: None,
                tell,
                news,
                pages: pages::Counting::default(),
            };
            while let Ok((order, manner)) = ordered.recv() {
                worker.take(order, manner);
            }
        };
        let handle = thread::Builder::new()
            .name("class".to_owned())
            .spawn(work)?;
        Ok((orders, handle))
    }

    fn refuse(&self, order: Order, why: String) {
        let told = match order {
            Order::Key(keyed) => Told::NotKept(keyed, why),
            Order::Answer(answered) => Told::NotAnswered(answered, why),
            _ => Told::Refused(why),
        };
        // The other end is this office itself.
        let _ = self.tell.send(told);
    }
}

impl Office for FileOffice<'_> {
    fn order(&mut self, order: Order, manner: Manner) {
        if self.worker.is_none() {
            match self.start() {
                Ok(worker) => self.worker = Some(worker),
                Err(error) => return self.refuse(order, error.to_string()),
            }
        }
        let sent = (self.worker.as_ref()).map(|(orders, _)| orders.send((order, manner)));
        if let Some(Err(unsent)) = sent {
            self.refuse(unsent.0.0, "the office has stopped".to_owned());
        }
    }

    fn told(&mut self) -> Option<Told> {
        self.told.try_recv().ok()
    }
}

impl Drop for FileOffice<'_> {
    fn drop(&mut self) {
        if let Some((orders, worker)) = self.worker.take() {
            drop(orders);
            if worker.join().is_err() {
                self.news.say("the office has stopped".to_owned());
            }
        }
        for lost in self.told.try_iter().filter_map(not_kept) {
            self.news.say(lost);
        }
    }
}

/// What is to be said where something was not kept and nobody at the screen heard it.
fn not_kept(told: Told) -> Option<String> {
    match told {
        Told::NotKept(keyed, why) => Some(format!("paper {} is not kept: {why}", keyed.paper)),
        Told::NotAnswered(answered, why) => Some(format!(
            "the answers in {} are not kept: {why}",
            answered.out
        )),
        _ => None,
    }
}
