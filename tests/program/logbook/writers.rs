//! Programs that write and are killed, and two that write at once: whatever was
//! acknowledged is there afterwards, and the file is sound.
//!
//! The writer is this test program itself, started again with an environment that
//! tells it to write.

use std::collections::BTreeSet;
use std::fs::File;
use std::io::{Write as _, stdout};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use pumpwright::logbook::examine::examine;
use pumpwright::logbook::{FileClerk, Logbook};
use pumpwright_engine::entries::{Entry, FORMAT, Id, LineEntry, Place, Purpose};
use pumpwright_screens::{Clerk as _, Draft, Receipt};

use super::{add, folder, handed_in, printed, run, text};
use crate::inside::library;
use crate::started::program;

/// Tells the writer where and as whom to write.
const FILE: &str = "PUMPWRIGHT_TEST_WRITER";
const PERSON: &str = "PUMPWRIGHT_TEST_PERSON";

/// How many programs are killed; more where the environment asks for it.
fn kills() -> usize {
    let asked = std::env::var("PUMPWRIGHT_KILLS").ok();
    asked.and_then(|kills| kills.parse().ok()).unwrap_or(10)
}

/// How long two programs write at once.
fn together() -> Duration {
    let asked = std::env::var("PUMPWRIGHT_TOGETHER_SECONDS").ok();
    let seconds = asked.and_then(|seconds| seconds.parse().ok()).unwrap_or(3);
    Duration::from_secs(seconds)
}

fn made_up(id: Id, person: &str, at: i64) -> Entry {
    let line = |skill: &str, right: bool| LineEntry {
        id: skill.to_owned(),
        label: "volts lost".to_owned(),
        typed: "8.7 V".repeat(20),
        expected: "8.7 V".to_owned(),
        verdict: "right".to_owned(),
        right: Some(right),
        marks: 1.0,
        out_of: 1.0,
        helped: 0,
        given: false,
        seconds: None,
        options: None,
        skill: skill.to_owned(),
        mistakes: Vec::new(),
    };
    Entry {
        format: FORMAT,
        id,
        person: person.to_owned(),
        at,
        zone: 0,
        code: format!("cable-drop.{id}"),
        family: "cable-drop".to_owned(),
        lesson: "drop-cable".to_owned(),
        title: "Volts lost on the way down".to_owned(),
        level: 2,
        units: "us".to_owned(),
        purpose: Purpose::Practice,
        sitting: None,
        area: None,
        place: Place::Plain,
        seconds: 5,
        givens: Vec::new(),
        lines: vec![line("cable-drop", true), line("cable-size", false)],
        marks: 2.0,
        out_of: 2.0,
        program: "0.1.0".to_owned(),
    }
}

/// Not a test of its own: the program that the tests below start and kill. It hands
/// in sheet after sheet and prints each that is acknowledged, until its input ends.
#[test]
fn the_writer() {
    let (Ok(file), Ok(person)) = (std::env::var(FILE), std::env::var(PERSON)) else {
        return;
    };
    let stopped = thread::spawn(|| std::io::stdin().read_line(&mut String::new()));
    let mut clerk = FileClerk::open(Some(Path::new(&file)), &person);
    assert!(clerk.keeps(), "{:?}", clerk.news());
    let draft = clerk.fresh_id();
    while !stopped.is_finished() {
        let id = clerk.fresh_id();
        clerk.keep(Draft {
            id: draft,
            kind: "sheet".to_owned(),
            text: format!("{{\"half\": \"{id}\"}}"),
        });
        let at = clerk.now().milliseconds;
        clerk.hand_in(made_up(id, &person, at));
        let receipt = loop {
            match clerk.receipt() {
                Some(receipt) => break receipt,
                None => thread::sleep(Duration::from_micros(200)),
            }
        };
        assert_eq!(receipt, Receipt::Kept(id));
        let mut out = stdout().lock();
        write!(out, "\nkept {id}\n")
            .and_then(|()| out.flush())
            .expect("the output");
    }
}

/// A writer, and the file that its output goes to.
struct Writer {
    child: Child,
    output: PathBuf,
}

impl Writer {
    fn start(file: &Path, person: &str, output: PathBuf) -> Self {
        let out = File::create(&output).expect("a file");
        let child = Command::new(std::env::current_exe().expect("this program"))
            .args(["--exact", "logbook::writers::the_writer", "--nocapture"])
            .env(FILE, file)
            .env(PERSON, person)
            .stdin(Stdio::piped())
            .stdout(out)
            .spawn()
            .expect("the writer starts");
        Self { child, output }
    }

    /// What was acknowledged so far; a line that is not whole counts as not said.
    fn acknowledged(&self) -> BTreeSet<Id> {
        let text = std::fs::read_to_string(&self.output).expect("its output");
        let whole = text
            .split_inclusive('\n')
            .filter(|line| line.ends_with('\n'));
        whole
            .filter_map(|line| line.trim().strip_prefix("kept "))
            .map(|id| id.parse().expect("an id"))
            .collect()
    }

    fn waits_for(&self, count: usize) {
        let end = Instant::now() + Duration::from_mins(1);
        while self.acknowledged().len() < count {
            assert!(Instant::now() < end, "the writer does not write");
            thread::sleep(Duration::from_millis(2));
        }
    }

    fn killed(mut self) -> BTreeSet<Id> {
        self.child.kill().expect("the kill");
        self.child.wait().expect("its end");
        self.acknowledged()
    }

    fn stopped(mut self) -> BTreeSet<Id> {
        drop(self.child.stdin.take());
        assert!(self.child.wait().expect("its end").success());
        self.acknowledged()
    }
}

fn there(file: &Path) -> BTreeSet<Id> {
    let logbook = Logbook::there(file).expect("a logbook");
    let sheets = logbook.sheets(None).expect("sheets");
    sheets.iter().map(|sheet| sheet.entry.id).collect()
}

fn sound(file: &Path) {
    assert_eq!(examine(file).expect("a logbook").findings, [""; 0]);
}

#[test]
fn whatever_was_acknowledged_is_there_after_each_kill() {
    let folder = folder("kills");
    let file = folder.join("logbook.db");
    let mut acknowledged = BTreeSet::new();
    for kill in 0..kills() {
        let writer = Writer::start(&file, "Ina", folder.join("out"));
        // Some are killed while they open the file, the others while they write.
        if kill % 4 > 0 {
            writer.waits_for(1);
        }
        thread::sleep(Duration::from_micros(rand::random_range(0..60_000)));
        acknowledged.extend(writer.killed());
        if file.exists() {
            sound(&file);
            let there = there(&file);
            let lost: Vec<_> = acknowledged.difference(&there).collect();
            assert!(lost.is_empty(), "after kill {kill}: {lost:?}");
            // At most the sheet that was on its way may be there unacknowledged.
            assert!(there.len() <= acknowledged.len() + kill + 1);
        }
    }
    assert!(acknowledged.len() >= kills() / 2, "{}", acknowledged.len());
    let said = printed(&file, &["logbook", "check"]);
    assert!(said.contains("nothing is wrong."), "{said}");
}

#[test]
fn an_import_that_is_killed_took_in_all_or_nothing() {
    let folder = folder("kill-import");
    let export = folder.join("many.jsonl");
    let file = folder.join("logbook.db");
    let many: Vec<Entry> = (0..3000)
        .map(|number| made_up(Id::new(number, number as u128), "Tom", number))
        .collect();
    let source = folder.join("source.db");
    add(&source, many);
    printed(
        &source,
        &["logbook", "export", "--as", "Tom", "--jsonl", text(&export)],
    );
    let first = handed_in(&library(), "Ina", 3);
    add(&file, first);
    for kill in 0..kills().div_ceil(3) {
        let mut child = program(&["logbook", "import", text(&export)])
            .env("PUMPWRIGHT_LOGBOOK", &file)
            .stdout(Stdio::null())
            .spawn()
            .expect("the program starts");
        thread::sleep(Duration::from_micros(rand::random_range(0..400_000)));
        child.kill().expect("the kill");
        child.wait().expect("its end");
        sound(&file);
        let count = there(&file).len();
        assert!(count == 3 || count == 3003, "after kill {kill}: {count}");
        if count == 3003 {
            let gone = ["logbook", "delete", "--as", "Tom", "--without-asking"];
            assert!(printed(&file, &gone).starts_with("3000 sheets"));
        }
    }
}

#[test]
fn two_programs_that_write_at_once_lose_nothing() {
    let folder = folder("together");
    let file = folder.join("logbook.db");
    let ina = Writer::start(&file, "Ina", folder.join("ina"));
    let tom = Writer::start(&file, "Tom", folder.join("tom"));
    thread::sleep(together());
    for writer in [&ina, &tom] {
        writer.waits_for(5);
    }
    let (ina, tom) = (ina.stopped(), tom.stopped());
    let all: BTreeSet<Id> = ina.union(&tom).copied().collect();
    assert_eq!(there(&file), all);
    sound(&file);
    let shown = run(&file, &["logbook", "show", "--as", "Ina"]).out;
    assert!(
        shown.starts_with(&format!("Ina: {} sheets", ina.len())),
        "{shown}"
    );
}
