//! Exams on the bench: sat, set aside, stopped and gone on with, handed in.

use std::cell::RefCell;
use std::rc::Rc;

use pumpwright_engine::entries::{Entry, Id, Purpose};
use pumpwright_engine::learner::History;
use pumpwright_engine::problems::Asks;

use super::bench::{Bench, library, shipped};
use crate::page::{Entry as PageLine, Role};
use crate::screen::Screen;
use crate::sitting::Sitting;
use crate::terminal::Runs;
use crate::{Clerk, Draft, InMemory, Now, Receipt, SetUp, Start};

const MINUTE: i64 = 60_000;

/// A clerk that several trainers share, one after the other, as a disk would be; its
/// disk can be full.
#[derive(Clone, Default)]
pub struct Shared {
    book: Rc<RefCell<InMemory>>,
    refuses: Rc<RefCell<Option<String>>>,
    refused: Rc<RefCell<Vec<Receipt>>>,
}

impl Shared {
    pub fn at(&self, milliseconds: i64) {
        let now = Now {
            milliseconds,
            zone: -300,
        };
        self.book.borrow_mut().now = Some(now);
    }

    pub fn entries(&self) -> Vec<Entry> {
        self.book.borrow().entries().to_vec()
    }

    pub fn drafts(&self) -> Vec<Draft> {
        self.book.borrow().drafts()
    }
}

/// The history of nobody: no exam asks for it.
fn nobody() -> &'static History {
    static NOBODY: std::sync::OnceLock<History> = std::sync::OnceLock::new();
    NOBODY.get_or_init(History::default)
}

impl Clerk for Shared {
    fn now(&mut self) -> Now {
        self.book.borrow_mut().now()
    }

    fn fresh_id(&mut self) -> Id {
        self.book.borrow_mut().fresh_id()
    }

    fn person(&self) -> &'static str {
        "Ina"
    }

    fn is_for(&mut self, person: &str) {
        self.book.borrow_mut().is_for(person);
    }

    fn program(&self) -> &'static str {
        "bench"
    }

    fn hand_in(&mut self, entry: Entry) {
        match self.refuses.borrow().clone() {
            Some(why) => {
                let receipt = Receipt::NotKept(entry.id, why);
                self.refused.borrow_mut().push(receipt);
            }
            None => self.book.borrow_mut().hand_in(entry),
        }
    }

    fn receipt(&mut self) -> Option<Receipt> {
        let refused = self.refused.borrow_mut().pop();
        refused.or_else(|| self.book.borrow_mut().receipt())
    }

    fn go_on_without(&mut self) {}

    fn keeps(&self) -> bool {
        true
    }

    fn keep(&mut self, draft: Draft) {
        self.book.borrow_mut().keep(draft);
    }

    fn drop_draft(&mut self, id: Id) {
        self.book.borrow_mut().drop_draft(id);
    }

    fn drafts(&self) -> Vec<Draft> {
        self.book.borrow().drafts()
    }

    fn history(&self) -> &History {
        nobody()
    }

    fn news(&mut self) -> Option<String> {
        None
    }
}

fn bench<'a>(
    library: &'a pumpwright_engine::lessons::Library,
    clerk: &Shared,
    start: Start,
) -> Bench<'a> {
    Bench::kept_by(library, start, Box::new(clerk.clone()), SetUp::default())
}

fn sitting<'b>(bench: &'b Bench<'_>) -> &'b Sitting {
    match bench.top() {
        Screen::Sitting(sitting) => sitting,
        other => panic!("no paper is open but {other:?}"),
    }
}

/// The keys that answer the open question rightly, blank by blank.
fn right(sitting: &Sitting) -> Vec<String> {
    let question = sitting.question().expect("a question");
    let (_, line) = question.asked().expect("a line");
    match &line.asks {
        Asks::Pick { offers, key } => vec![offers[*key].mark.clone()],
        Asks::Order { cards } => {
            let number = |place: Option<usize>| {
                place.map_or("-".to_owned(), |place| (place + 1).to_string())
            };
            cards.iter().map(|card| number(card.place)).collect()
        }
        Asks::Match { parts, meanings } => {
            let mark = |key: &usize| meanings[*key].mark.clone();
            parts.iter().map(|(_, key)| mark(key)).collect()
        }
        _ => {
            let worked = pumpwright_engine::problems::working(&question.problem);
            let own = worked.iter().find(|worked| worked.id == line.id);
            vec![own.expect("a working").text.clone()]
        }
    }
}

fn answer_rightly(bench: &mut Bench<'_>) {
    for blank in right(sitting(bench)) {
        bench.play(&blank);
        bench.play("⏎");
    }
}

const ALL: usize = 12;

#[test]
fn a_paper_is_sat_handed_in_and_written_down_question_by_question() {
    let (library, clerk) = (library(), Shared::default());
    clerk.at(1_000);
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e⏎");
    assert!(bench.text().contains("0 for no clock"), "{}", bench.text());
    bench.play("⏎");
    assert_eq!(sitting(&bench).sheets.len(), ALL);
    for at in 0..ALL {
        clerk.at(1_000 + i64::try_from(at).expect("few") * 2 * MINUTE);
        answer_rightly(&mut bench);
    }
    assert!(bench.text().contains("TO BE HANDED IN"), "{}", bench.text());
    assert!(
        bench.text().contains("Answered       12"),
        "{}",
        bench.text()
    );
    assert!(clerk.entries().is_empty());
    bench.play("⏎");
    let text = bench.text();
    assert!(
        text.contains("MARKED") && text.contains(" PASSED"),
        "{text}"
    );
    assert!(text.contains("Right 12 of 12: 100 %"), "{text}");
    assert!(text.contains("Time 22 min of 2 h 30 min."), "{text}");
    assert!(text.contains("In the logbook since 19:22."), "{text}");
    let entries = clerk.entries();
    assert_eq!(entries.len(), ALL);
    assert!(clerk.drafts().is_empty(), "the draft is gone");
    let ids: std::collections::BTreeSet<Id> = entries.iter().map(|entry| entry.id).collect();
    assert_eq!(ids.len(), ALL);
    for entry in &entries {
        assert_eq!(entry.purpose, Purpose::Exam);
        assert_eq!(entry.sitting, entries[0].sitting);
        assert!(entry.sitting.is_some() && entry.area.is_some());
        assert!(entry.lines.iter().all(|line| line.right == Some(true)));
        assert_eq!(entry.lines.len(), 1, "only the answer is asked");
    }
    assert!(
        entries.iter().any(|entry| entry.seconds >= 60),
        "time is noted"
    );
}

#[test]
fn what_is_set_aside_and_open_is_shown_before_the_hand_in() {
    let (library, clerk) = (library(), Shared::default());
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e⏎⏎");
    bench.play("?a");
    assert!(
        bench.text().contains("question 1 is set aside"),
        "{}",
        bench.text()
    );
    assert!(
        bench.text().contains("Question 2 of 12"),
        "{}",
        bench.text()
    );
    answer_rightly(&mut bench);
    bench.play("⏎⏎?z");
    let text = bench.text();
    assert!(text.contains("Set aside      1: no. 1"), "{text}");
    assert!(text.contains("Open           10: no. 3, 4, 5"), "{text}");
    bench.play("⎋");
    assert!(
        bench.text().contains("Question 5 of 12"),
        "{}",
        bench.text()
    );
    // A question is gone back to by its number, and its answer changed.
    bench.play("?z1⏎");
    assert_eq!(sitting(&bench).at, 0);
    answer_rightly(&mut bench);
    assert!(sitting(&bench).aside.is_empty(), "an answer lifts it");
    bench.play("?z99⏎");
    assert!(
        bench.text().contains("the number of a question, 1 to 12"),
        "{}",
        bench.text()
    );
    bench.play("⌫⌫⏎");
    let text = bench.text();
    assert!(
        text.contains("Z and Enter hands it in so") && clerk.entries().is_empty(),
        "Enter alone hands nothing in with questions open: {text}"
    );
    bench.play("z⏎");
    let text = bench.text();
    assert!(
        text.contains("NOT PASSED: 2 of 12, 8.5 were needed"),
        "{text}"
    );
    assert_eq!(
        clerk.entries().len(),
        ALL,
        "open questions are written down too"
    );
}

#[test]
fn there_is_no_help_and_no_way_out_but_handing_in_or_stopping() {
    let (library, clerk) = (library(), Shared::default());
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e⏎⏎!");
    assert!(
        bench.text().contains("no help on this paper"),
        "{}",
        bench.text()
    );
    bench.play("⎋");
    assert!(
        bench.text().contains("the paper stays open"),
        "{}",
        bench.text()
    );
    bench.play("??");
    for words in [
        "no help on this paper: a letter takes a tool",
        "No help on this paper.",
    ] {
        assert!(bench.text().contains(words), "{}", bench.text());
    }
    for letter in "glntshwec".chars() {
        bench.play(&letter.to_string());
        let text = bench.text();
        let refused = text.contains("has no use here") || text.contains("not in this version yet");
        assert!(refused, "{letter}\n{text}");
    }
    bench.play("⎋@?gtle");
    assert!(bench.text().contains("has no use here"), "{}", bench.text());
    bench.play("⎋⎋&1+1⏎?");
    for letter in "gtle".chars() {
        bench.play(&letter.to_string());
        assert!(bench.text().contains("has no use here"), "{letter}");
    }
    bench.play("⎋⎋");
    assert!(
        sitting(&bench).sheets[0].back.done.len() == 1,
        "the sum stays"
    );
    assert!(!bench.play("?q"), "it stops");
    assert_eq!(clerk.drafts().len(), 1, "and is kept");
}

/// The tables open at the first, whichever a question uses: that would be help.
#[test]
fn the_tables_of_a_paper_do_not_tell_which_is_used() {
    let library = library();
    let mut seen = std::collections::BTreeSet::new();
    let clerk = Shared::default();
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e⏎⏎");
    for _ in 0..ALL {
        bench.play("@");
        let text = bench.text();
        seen.insert(text.lines().next().unwrap_or_default().to_owned());
        assert!(!text.contains("uses no table"), "{text}");
        bench.play("⎋⏎");
    }
    assert_eq!(seen.len(), 1, "{seen:?}");
}

#[test]
fn a_stop_keeps_every_answer_and_the_clock_runs_on() {
    let (library, clerk) = (library(), Shared::default());
    clerk.at(0);
    let mut first = bench(&library, &clerk, Start::Jobs);
    first.play("?e⏎⏎");
    answer_rightly(&mut first);
    first.play("?a");
    first.play("&2+2⏎⎋");
    let typed = right(sitting(&first))[0].clone();
    first.play(&typed);
    let (code, before) = {
        let sitting = sitting(&first);
        (sitting.paper.code.to_string(), sitting.responses())
    };
    // The power goes: the trainer is gone, what the clerk was given is there.
    drop(first);
    clerk.at(70 * MINUTE);
    let mut again = bench(&library, &clerk, Start::Jobs);
    assert!(
        again.text().contains("an exam was stopped"),
        "{}",
        again.text()
    );
    again.play("?e");
    let text = again.text();
    assert!(text.contains("go on: Licensing exam"), "{text}");
    assert!(text.contains("question 3, 1 h 20 min left"), "{text}");
    again.play("⏎");
    let text = again.text();
    assert!(
        text.contains("Kept up to question 3. The clock ran on: 1 h 20 min left."),
        "{text}"
    );
    let now = sitting(&again);
    assert_eq!(now.paper.code.to_string(), code);
    assert_eq!(now.responses(), before);
    assert_eq!(now.set_aside(), [2]);
    assert_eq!(now.sheets[2].back.done.len(), 1);
}

#[test]
fn half_an_hour_and_ten_minutes_are_said_once_and_the_end_hands_in() {
    let (library, clerk) = (library(), Shared::default());
    clerk.at(0);
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e⏎40⏎");
    assert!(
        bench.text().contains("40 min left of 40 min"),
        "{}",
        bench.text()
    );
    assert!(!bench.trainer.news(), "nothing moves within a minute");
    clerk.at(10 * MINUTE);
    assert!(bench.trainer.news());
    assert!(bench.text().contains("30 minutes left"), "{}", bench.text());
    bench.play("a");
    clerk.at(11 * MINUTE);
    assert!(bench.trainer.news());
    assert!(!bench.text().contains("minutes left"), "{}", bench.text());
    clerk.at(31 * MINUTE);
    bench.trainer.news();
    assert!(bench.text().contains("9 minutes left"), "{}", bench.text());
    bench.play("?");
    clerk.at(40 * MINUTE);
    assert!(bench.trainer.news());
    let text = bench.text();
    assert!(
        text.contains("Time is up") && text.contains("MARKED"),
        "{text}"
    );
    assert_eq!(clerk.entries().len(), ALL);
}

#[test]
fn a_paper_whose_time_ran_out_while_it_lay_is_handed_in_at_the_next_start() {
    let (library, clerk) = (library(), Shared::default());
    clerk.at(0);
    let mut first = bench(&library, &clerk, Start::Jobs);
    first.play("?e⏎⏎");
    answer_rightly(&mut first);
    drop(first);
    clerk.at(24 * 60 * MINUTE);
    let mut again = bench(&library, &clerk, Start::Jobs);
    let text = again.text();
    assert!(
        text.contains("Time ran out") && text.contains("MARKED"),
        "{text}"
    );
    assert!(text.contains("Time 2 h 30 min of 2 h 30 min."), "{text}");
    assert_eq!(clerk.entries().len(), ALL);
    assert!(clerk.drafts().is_empty());
}

#[test]
fn without_a_clock_nothing_runs_out() {
    let (library, clerk) = (library(), Shared::default());
    clerk.at(0);
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e⏎0⏎");
    assert!(bench.text().contains("no clock"), "{}", bench.text());
    clerk.at(100 * 60 * MINUTE);
    assert!(!bench.trainer.news());
    assert_eq!(sitting(&bench).answered(), 0);
}

#[test]
fn a_full_disk_shows_no_mark_and_loses_nothing() {
    let (library, clerk) = (library(), Shared::default());
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e⏎⏎");
    answer_rightly(&mut bench);
    *clerk.refuses.borrow_mut() = Some("the disk is full: make room".to_owned());
    bench.play("?zz⏎");
    let text = bench.text();
    assert!(text.contains("NOT WRITTEN DOWN"), "{text}");
    assert!(
        text.contains("the disk is full") && !text.contains("MARKED"),
        "{text}"
    );
    assert_eq!(clerk.drafts().len(), 1, "the draft stays");
    bench.play("⎋x⏎");
    assert!(bench.text().contains("write a or b"), "{}", bench.text());
    // Stopped there and started again, it is handed in under the same ids.
    let ids: Vec<Id> = match bench.top() {
        Screen::Result(result) => result.on_its_way.iter().map(|entry| entry.id).collect(),
        other => panic!("{other:?}"),
    };
    drop(bench);
    *clerk.refuses.borrow_mut() = None;
    clerk.refused.borrow_mut().clear();
    let mut again = super::exam::bench(&library, &clerk, Start::Jobs);
    assert!(again.text().contains("MARKED"), "{}", again.text());
    let kept: Vec<Id> = clerk.entries().iter().map(|entry| entry.id).collect();
    assert_eq!(kept, ids);
}

#[test]
fn what_went_wrong_is_gone_through_with_its_working() {
    let (library, clerk) = (library(), Shared::default());
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e⏎⏎?zz⏎");
    let text = bench.text();
    assert!(
        text.contains("Start with line 4: 5 of its 5 went wrong"),
        "{text}"
    );
    bench.play("⏎");
    let text = bench.text();
    assert!(
        text.contains("EXAM PAPER, WORKED") && text.contains("1 of 5 of line 4"),
        "{text}"
    );
    for _ in 0..60 {
        if matches!(bench.top(), Screen::Result(_)) {
            break;
        }
        bench.play("⏎");
    }
    assert!(matches!(bench.top(), Screen::Result(_)), "{}", bench.text());
    bench.play("?w");
    assert!(bench.text().contains("1 of 12"), "{}", bench.text());
    // The marks are put away, and taken out again.
    bench.play("?n");
    assert!(bench.text().contains("JOB SHEET"), "{}", bench.text());
    bench.play("?e3");
    let text = bench.text();
    assert!(text.contains("marks: Licensing exam"), "{text}");
    bench.play("⏎");
    assert!(
        bench.text().contains("EXAM PAPER, MARKED"),
        "{}",
        bench.text()
    );
}

/// A paper that asks for the figures themselves takes a figure with its unit.
#[test]
fn figures_are_asked_where_the_blueprint_says_so() {
    let (library, clerk) = (library(), Shared::default());
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e2⏎⏎");
    bench.play("about 3⏎");
    assert!(bench.text().contains("cannot read"), "{}", bench.text());
    assert_eq!(sitting(&bench).at, 0);
    bench.play("↓");
    assert!(
        bench.text().contains("question 1: cannot read"),
        "{}",
        bench.text()
    );
    bench.play("?z");
    assert!(
        bench.text().contains("Cannot be read 1: no. 1"),
        "{}",
        bench.text()
    );
    bench.play("1⏎⌫⌫⌫⌫⌫⌫⌫");
    for _ in 0..4 {
        answer_rightly(&mut bench);
    }
    bench.play("⏎");
    assert!(bench.text().contains("Right 4 of 4"), "{}", bench.text());
}

/// The refresher gives every area a figure with its interval.
#[test]
fn the_refresher_of_the_shipped_lessons_has_a_figure_for_every_area() {
    let (library, clerk) = (shipped(), Shared::default());
    let mut bench = bench(&library, &clerk, Start::Jobs);
    bench.play("?e3⏎⏎");
    assert_eq!(sitting(&bench).sheets.len(), 25);
    for _ in 0..25 {
        answer_rightly(&mut bench);
    }
    bench.play("⏎");
    let Screen::Result(result) = bench.top() else {
        panic!("{}", bench.text());
    };
    assert!(result.marked.passed);
    for area in &result.marked.areas {
        let between = area.tally.between();
        assert!(area.tally.of > 0 && between.low < between.high, "{area:?}");
    }
    let purposes = clerk
        .entries()
        .iter()
        .all(|entry| entry.purpose == Purpose::Refresher);
    assert!(purposes);
}

#[test]
fn a_line_goes_by_the_number_of_its_question_once() {
    let library = library();
    for size in [(120, 40), (80, 24), (60, 20)] {
        let clerk = Shared::default();
        let mut bench = bench(&library, &clerk, Start::Exams);
        bench.resize(size.0, size.1);
        bench.play("⏎⏎");
        for at in 0..sitting(&bench).paper.questions.len() {
            let open = sitting(&bench);
            assert_eq!(open.at, at);
            let (_, line) = open
                .question()
                .and_then(|question| question.asked())
                .expect("a line");
            if matches!(line.asks, Asks::Figure | Asks::Row | Asks::Pick { .. }) {
                let page = bench.trainer.page();
                let number = (at + 1).to_string();
                let goes_by = |entry: &&PageLine| {
                    entry.role == Role::Line
                        && entry.cells.first().is_some_and(|cell| cell.text == number)
                };
                let found = page.entries().filter(goes_by).count();
                assert_eq!(found, 1, "question {number} at {size:?}");
            }
            while sitting(&bench).at == at && at + 1 < sitting(&bench).paper.questions.len() {
                bench.play("⏎");
            }
        }
    }
}

#[test]
fn a_closed_book_paper_takes_its_tables_away() {
    for closed in [false, true] {
        let mut files = super::bench::shipped_files();
        let exams = files.iter_mut().find(|file| file.path == "exams.toml");
        let exams = &mut exams.expect("the exams").text;
        *exams = exams.replacen(
            "closed    = [",
            &format!("closed_book = {closed}\nclosed    = ["),
            1,
        );
        let library = super::bench::read(&files);
        let clerk = Shared::default();
        let mut bench = bench(&library, &clerk, Start::Exams);
        bench.play("⏎⏎");
        let book = if closed {
            "Closed book: "
        } else {
            "Open book: "
        };
        assert!(bench.text().contains(book), "{}", bench.text());
        bench.play("@copper");
        let refused = bench.text().contains("it is a closed-book paper");
        assert_eq!(refused, closed, "{}", bench.text());
    }
}
