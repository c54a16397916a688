//! The record: marks come when the sheet is on the disk, what cannot be written down
//! is not lost, what was half-written waits at the next start.

use std::cell::RefCell;
use std::rc::Rc;

use pumpwright_engine::entries::{Entry, Id};
use pumpwright_engine::learner::History;

use super::bench::{Bench, library};
use crate::clerk::{Clerk, Draft, InMemory, Now, Receipt};
use crate::terminal::Runs as _;
use crate::{SetUp, Start};

/// A clerk whose disk a test holds in its hand.
#[derive(Default)]
pub struct Hand {
    /// What is kept.
    pub kept: InMemory,
    /// What is on its way.
    pub on_its_way: Vec<Entry>,
    /// What the next receipts say; none waits.
    pub answers: Vec<Result<(), String>>,
    /// The clock.
    pub milliseconds: i64,
    /// Whether nothing more is kept.
    pub without: bool,
}

pub struct InHand(pub Rc<RefCell<Hand>>, History);

impl InHand {
    pub fn new(hand: &Rc<RefCell<Hand>>) -> Self {
        let history = hand.borrow().kept.history().clone();
        Self(Rc::clone(hand), history)
    }
}

impl Clerk for InHand {
    fn now(&mut self) -> Now {
        let milliseconds = self.0.borrow().milliseconds;
        Now {
            milliseconds,
            zone: 0,
        }
    }
    fn fresh_id(&mut self) -> Id {
        self.0.borrow_mut().kept.fresh_id()
    }
    fn person(&self) -> &'static str {
        "Ina"
    }
    fn is_for(&mut self, _: &str) {}
    fn program(&self) -> &'static str {
        "0"
    }
    fn hand_in(&mut self, entry: Entry) {
        self.0.borrow_mut().on_its_way.push(entry);
    }
    fn receipt(&mut self) -> Option<Receipt> {
        let mut hand = self.0.borrow_mut();
        if hand.answers.is_empty() || hand.on_its_way.is_empty() {
            return None;
        }
        let entry = hand.on_its_way.remove(0);
        let id = entry.id;
        Some(match hand.answers.remove(0) {
            Ok(()) => {
                hand.kept.hand_in(entry);
                Receipt::Kept(id)
            }
            Err(why) => Receipt::NotKept(id, why),
        })
    }
    fn go_on_without(&mut self) {
        self.0.borrow_mut().without = true;
    }
    fn keeps(&self) -> bool {
        !self.0.borrow().without
    }
    fn keep(&mut self, draft: Draft) {
        self.0.borrow_mut().kept.keep(draft);
    }
    fn drop_draft(&mut self, id: Id) {
        self.0.borrow_mut().kept.drop_draft(id);
    }
    fn drafts(&self) -> Vec<Draft> {
        self.0.borrow().kept.drafts()
    }
    fn history(&self) -> &History {
        &self.1
    }
    fn news(&mut self) -> Option<String> {
        None
    }
}

fn bench<'a>(
    library: &'a pumpwright_engine::lessons::Library,
    hand: &Rc<RefCell<Hand>>,
) -> Bench<'a> {
    let start = Start::Family("cable-drop".into());
    Bench::kept_by(
        library,
        start,
        Box::new(InHand::new(hand)),
        SetUp::default(),
    )
}

#[test]
fn marks_come_when_the_sheet_is_on_the_disk() {
    let library = library();
    let hand = Rc::new(RefCell::new(Hand::default()));
    let mut bench = bench(&library, &hand);
    bench.play("1⏎2⏎3⏎");
    hand.borrow_mut().milliseconds = 42_000;
    bench.play("4⏎");
    assert!(
        bench.text().contains("Being written down"),
        "{}",
        bench.text()
    );
    bench.play("x");
    assert!(
        bench.text().contains("its marks come then"),
        "{}",
        bench.text()
    );
    assert!(bench.trainer.waits());
    hand.borrow_mut().answers.push(Ok(()));
    assert!(bench.trainer.news(), "the receipt is news");
    assert!(bench.text().contains("HANDED IN"), "{}", bench.text());
    assert!(bench.text().contains("of 4 marks"), "{}", bench.text());
    let hand = hand.borrow();
    let entry = &hand.kept.entries()[0];
    assert_eq!((entry.seconds, entry.person.as_str()), (42, "Ina"));
    assert_eq!(entry.lines[3].typed, "4");
    assert_eq!(entry.lines[3].seconds, Some(42));
    assert!(hand.kept.drafts().is_empty(), "it is half-written no more");
}

#[test]
fn what_cannot_be_written_down_can_be_once_more_or_not_at_all() {
    let library = library();
    let hand = Rc::new(RefCell::new(Hand::default()));
    let full = || Err("the disk is full: make room on it".to_owned());
    hand.borrow_mut().answers = vec![full(), full(), Ok(())];
    let mut bench = bench(&library, &hand);
    bench.play("1⏎2⏎3⏎4⏎");
    insta::assert_snapshot!(bench.text());
    bench.play("⏎");
    assert!(
        bench.text().contains("write a or b, then Enter"),
        "{}",
        bench.text()
    );
    bench.play("a⏎");
    assert!(
        bench.text().contains("the disk is full"),
        "{}",
        bench.text()
    );
    bench.play("a⏎");
    assert!(bench.text().contains("of 4 marks"), "{}", bench.text());
    assert_eq!(hand.borrow().kept.entries().len(), 1);

    hand.borrow_mut().answers = vec![full()];
    bench.play("?n1⏎2⏎3⏎4⏎b⏎");
    assert!(bench.text().contains("of 4 marks"), "{}", bench.text());
    assert!(
        bench.text().contains("nothing is kept from now on"),
        "{}",
        bench.text()
    );
    assert!(hand.borrow().without);
    assert!(
        bench
            .trainer
            .ending()
            .line
            .contains("Nothing of it is kept")
    );
}

#[test]
fn what_was_half_written_waits_at_the_next_start() {
    let library = library();
    let hand = Rc::new(RefCell::new(Hand::default()));
    let mut first = bench(&library, &hand);
    first.play("320⏎0.6??⎋&80 ft + 240 ft⏎");
    drop(first);
    let start = Start::Jobs;
    let clerk = Box::new(InHand::new(&hand));
    let mut second = Bench::kept_by(&library, start, clerk, SetUp::default());
    assert!(
        second.text().contains("stopped half-way, at line 2 of 4"),
        "{}",
        second.text()
    );
    second.play("1⏎");
    let text = second.text();
    assert!(text.contains("320_") && text.contains("0.6_"), "{text}");
    second.play("&");
    assert!(second.text().contains("320 ft"), "{}", second.text());
    second.play("⎋⏎1⏎1⏎");
    hand.borrow_mut().answers.push(Ok(()));
    second.trainer.news();
    let hand = hand.borrow();
    let entry = &hand.kept.entries()[0];
    assert_eq!(entry.lines[1].helped, 1, "help that was given stays given");
    assert!(hand.kept.drafts().is_empty());
}

/// A trainer over a clerk that outlives it, as a disk would.
fn over<'a>(
    library: &'a pumpwright_engine::lessons::Library,
    clerk: &super::exam::Shared,
    start: Start,
) -> Bench<'a> {
    Bench::kept_by(library, start, Box::new(clerk.clone()), SetUp::default())
}

#[test]
fn a_half_typed_sum_is_there_after_a_stop() {
    let (library, clerk) = (library(), super::exam::Shared::default());
    let mut first = over(&library, &clerk, Start::Family("cable-drop".into()));
    first.play("1&2 ft * 3⏎4 ft + ");
    drop(first);
    let mut again = over(&library, &clerk, Start::Jobs);
    again.play("1⏎");
    assert!(again.text().contains("JOB SHEET"), "{}", again.text());
    again.play("&");
    assert!(again.text().contains("4 ft +"), "{}", again.text());
    assert!(again.text().contains("2 ft * 3"), "{}", again.text());
}

#[test]
fn a_draft_whose_lesson_was_changed_is_told_once_and_kept() {
    let (library, clerk) = (library(), super::exam::Shared::default());
    let mut first = over(&library, &clerk, Start::Family("cable-drop".into()));
    first.play("17");
    drop(first);
    let mut draft = clerk.drafts().remove(0);
    let mut kept: serde_json::Value = serde_json::from_str(&draft.text).expect("JSON");
    let code = kept["code"].as_str().expect("a code").to_owned();
    let (own, _) = code.rsplit_once('.').expect("a revision");
    kept["code"] = format!("{own}.00000").into();
    draft.text = kept.to_string();
    clerk.clone().keep(draft.clone());
    let told = |mut bench: Bench<'_>| bench.text().contains("cannot be laid out again");
    assert!(told(over(&library, &clerk, Start::Jobs)));
    assert!(!told(over(&library, &clerk, Start::Jobs)), "once is enough");
    let (why, written) = crate::left_over(&clerk.drafts()[0], &library).expect("it is left");
    assert!(why.contains("cannot be laid out again"), "{why}");
    assert!(written.expect("what stands on it").ends_with(": 17"));
    // With its old lesson it waits as any other.
    kept["code"] = code.into();
    let draft = crate::Draft {
        text: kept.to_string(),
        ..clerk.drafts().remove(0)
    };
    assert!(crate::left_over(&draft, &library).is_none());
    clerk.clone().keep(draft);
    let mut again = over(&library, &clerk, Start::Jobs);
    assert!(again.text().contains("cable-drop"), "{}", again.text());
    assert!(!told(again));
}
