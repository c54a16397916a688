//! The real program at a real terminal: a sheet with a classic mistake, and the
//! terminal given back however the program ends.

use std::io::{Read as _, Write};
use std::num::NonZeroU16;
use std::process::Command;
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

use crate::problem::json;

/// A busy machine is given this long; nothing waits when it is quick.
const PATIENCE: Duration = Duration::from_secs(20);
const ROWS: u16 = 24;
const COLUMNS: u16 = 80;

/// The program at a terminal.
struct Session {
    parser: Arc<Mutex<vt100::Parser>>,
    writer: Box<dyn Write + Send>,
    child: Box<dyn Child + Send + Sync>,
    _master: Box<dyn MasterPty + Send>,
}

impl Session {
    fn of(arguments: &[&str]) -> Self {
        let size = PtySize {
            rows: ROWS,
            cols: COLUMNS,
            pixel_width: 0,
            pixel_height: 0,
        };
        let pair = native_pty_system().openpty(size).expect("a terminal");
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_pumpwright"));
        command.env_clear();
        command.env("TERM", "xterm-256color");
        command.env("LC_ALL", "C.UTF-8");
        command.args(arguments);
        let child = pair
            .slave
            .spawn_command(command)
            .expect("the program starts");
        drop(pair.slave);
        let mut reader = pair.master.try_clone_reader().expect("its output");
        let writer = pair.master.take_writer().expect("its input");
        let [rows, columns] = [ROWS, COLUMNS].map(|cells| NonZeroU16::new(cells).expect("cells"));
        let parser = Arc::new(Mutex::new(vt100::Parser::new(rows, columns, 0)));
        let seen = Arc::clone(&parser);
        thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(count @ 1..) = reader.read(&mut bytes) {
                seen.lock().expect("the screen").process(&bytes[..count]);
            }
        });
        Self {
            parser,
            writer,
            child,
            _master: pair.master,
        }
    }

    fn screen(&self) -> vt100::Screen {
        self.parser.lock().expect("the screen").screen().clone()
    }

    /// Waits until the screen shows this.
    fn shows(&self, words: &str) -> vt100::Screen {
        self.until(words, |screen| screen.contents().contains(words))
    }

    fn until(&self, what: &str, holds: impl Fn(&vt100::Screen) -> bool) -> vt100::Screen {
        let end = Instant::now() + PATIENCE;
        loop {
            let screen = self.screen();
            if holds(&screen) {
                return screen;
            }
            assert!(
                Instant::now() < end,
                "{what}: not in\n{}",
                screen.contents()
            );
            thread::sleep(Duration::from_millis(10));
        }
    }

    fn types(&mut self, keys: &str) {
        self.writer
            .write_all(keys.as_bytes())
            .expect("the terminal takes keys");
        self.writer.flush().expect("the terminal takes keys");
    }

    /// Sends a signal, by the number of the process.
    fn signal(&self, name: &str) {
        let process = self.child.process_id().expect("a process").to_string();
        let sent = Command::new("kill").args(["-s", name, &process]).status();
        assert!(sent.expect("a signal").success());
    }

    /// Waits for the end, and checks that the terminal is as it was.
    fn ends(mut self) -> vt100::Screen {
        let end = Instant::now() + PATIENCE;
        let status = loop {
            if let Some(status) = self.child.try_wait().expect("the program") {
                break status;
            }
            if Instant::now() > end {
                self.child.kill().expect("the program is ours");
                panic!("it does not end:\n{}", self.screen().contents());
            }
            thread::sleep(Duration::from_millis(10));
        };
        assert!(status.success(), "{status:?}\n{}", self.screen().contents());
        let given_back = |screen: &vt100::Screen| {
            !screen.alternate_screen() && !screen.hide_cursor() && !screen.bracketed_paste()
        };
        self.until("the terminal is given back", given_back)
    }
}

const SHEET: [&str; 5] = ["practice", "--family", "cable-drop", "--draw", "7"];

#[test]
fn a_sheet_with_a_classic_mistake_is_marked_and_the_terminal_given_back() {
    let worked = json(&["cable-drop", "--draw", "7", "--worked"]);
    let mistakes = worked["mistakes"].as_array().expect("mistakes");
    let wrong = mistakes
        .iter()
        .find(|mistake| mistake["id"] == "one-way")
        .expect("the mistake");
    let run = worked["steps"].as_array().expect("steps").iter();
    let run = run
        .filter(|step| step["asked"] == true)
        .map(|step| &step["text"])
        .next();
    let mut session = Session::of(&SHEET);
    let screen = session.shows("Volts lost on the way down");
    assert!(screen.alternate_screen());
    let code = worked["code"].as_str().expect("a code");
    assert!(screen.contents().contains(code), "{}", screen.contents());
    session.types(run.and_then(|text| text.as_str()).expect("a text"));
    session.types("\r");
    session.types(wrong["text"].as_str().expect("a text"));
    session.types("\r\r\r");
    session.shows("JOB SHEET, HANDED IN");
    session.shows("I counted one conductor.");
    session.types("?");
    session.types("q");
    let screen = session.ends();
    assert!(
        screen
            .contents()
            .contains("1 sheet handed in, 1 of 4 marks."),
        "{}",
        screen.contents()
    );
}

#[test]
fn each_signal_to_stop_gives_the_terminal_back() {
    for signal in ["TERM", "HUP", "INT"] {
        let session = Session::of(&SHEET);
        session.shows("Volts lost on the way down");
        session.signal(signal);
        session.ends();
    }
}

#[test]
fn the_first_start_says_what_this_is() {
    let mut session = Session::of(&[]);
    let screen = session.shows("Next");
    assert!(
        screen.contents().contains("PUMPWRIGHT"),
        "{}",
        screen.contents()
    );
    session.types("?");
    session.types("q");
    session.ends();
}

#[test]
fn what_chooses_beforehand_gives_plain_lines_at_a_terminal_too() {
    let mut session = Session::of(&["practice", "--lesson", "drop-cable", "--count", "1"]);
    let screen = session.shows("line 1 of 4");
    assert!(!screen.alternate_screen());
    session.types("?Q\r");
    let screen = session.ends();
    assert!(
        screen.contents().contains("end: 0 sheets"),
        "{}",
        screen.contents()
    );
}
