//! The real program at a real terminal, for tests that look at its screen. No
//! test stands here.

use std::io::{Read as _, Write};
use std::num::NonZeroU16;
use std::process::Command;
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize, native_pty_system};

/// A busy machine is given this long; nothing waits when it is quick.
const PATIENCE: Duration = Duration::from_mins(1);
const PAUSE: Duration = Duration::from_millis(10);
const SETTLED: Duration = Duration::from_millis(20);

/// How the program is started.
pub struct Start<'a> {
    /// What stands behind its name.
    pub arguments: &'a [&'a str],
    /// Columns and rows.
    pub size: (u16, u16),
    /// What the environment holds beside what a terminal needs.
    pub variables: &'a [(&'a str, &'a str)],
    /// A shell line instead of the program, which is `$PROGRAM` in it.
    pub shell: Option<&'a str>,
}

impl Default for Start<'_> {
    fn default() -> Self {
        Self {
            arguments: &[],
            size: (80, 24),
            variables: &[],
            shell: None,
        }
    }
}

/// The program at a terminal.
pub struct Session {
    parser: Arc<Mutex<vt100::Parser>>,
    writer: Box<dyn Write + Send>,
    child: Box<dyn Child + Send + Sync>,
    master: Box<dyn MasterPty + Send>,
    reader: JoinHandle<()>,
}

fn pty_size((columns, rows): (u16, u16)) -> PtySize {
    PtySize {
        rows,
        cols: columns,
        pixel_width: 0,
        pixel_height: 0,
    }
}

fn cells((columns, rows): (u16, u16)) -> (NonZeroU16, NonZeroU16) {
    let cells = |count| NonZeroU16::new(count).expect("cells");
    (cells(rows), cells(columns))
}

impl Session {
    /// The program with these arguments.
    pub fn of(arguments: &[&str]) -> Self {
        Self::start(&Start {
            arguments,
            ..Start::default()
        })
    }

    /// The program as it is to be started.
    pub fn start(start: &Start<'_>) -> Self {
        let pair = native_pty_system()
            .openpty(pty_size(start.size))
            .expect("a terminal");
        let program = env!("CARGO_BIN_EXE_pumpwright");
        let mut command = match start.shell {
            None => CommandBuilder::new(program),
            Some(line) => {
                let mut shell = CommandBuilder::new("/bin/sh");
                shell.args(["-c", line]);
                shell
            }
        };
        command.env_clear();
        command.env("TERM", "xterm-256color");
        command.env("LC_ALL", "C.UTF-8");
        command.env("PATH", "/usr/bin:/bin");
        command.env("PROGRAM", program);
        command.env("PUMPWRIGHT_SETTINGS", super::started::fresh_settings());
        command.env("PUMPWRIGHT_LOGBOOK", super::started::fresh_logbook());
        for (name, value) in start.variables {
            command.env(name, value);
        }
        command.args(start.arguments);
        let child = pair
            .slave
            .spawn_command(command)
            .expect("the program starts");
        drop(pair.slave);
        let mut output = pair.master.try_clone_reader().expect("its output");
        let writer = pair.master.take_writer().expect("its input");
        let (rows, columns) = cells(start.size);
        let parser = Arc::new(Mutex::new(vt100::Parser::new(rows, columns, 0)));
        let seen = Arc::clone(&parser);
        let reader = thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(count @ 1..) = output.read(&mut bytes) {
                seen.lock().expect("the screen").process(&bytes[..count]);
            }
        });
        Self {
            parser,
            writer,
            child,
            master: pair.master,
            reader,
        }
    }

    /// The screen as it is now.
    pub fn screen(&self) -> vt100::Screen {
        self.parser.lock().expect("the screen").screen().clone()
    }

    /// Waits until the screen shows this.
    pub fn shows(&self, words: &str) -> vt100::Screen {
        self.until(words, |screen| screen.contents().contains(words))
    }

    /// Waits until this holds of the screen, and the frame in which it does is whole.
    pub fn until(&self, what: &str, holds: impl Fn(&vt100::Screen) -> bool) -> vt100::Screen {
        let end = Instant::now() + PATIENCE;
        loop {
            let screen = self.screen();
            if holds(&screen) {
                // A frame may come in several reads: what is returned stood still for a while.
                thread::sleep(SETTLED);
                if self.screen().contents() == screen.contents() {
                    return screen;
                }
            }
            assert!(
                Instant::now() < end,
                "{what}: not in\n{}",
                screen.contents()
            );
            thread::sleep(PAUSE);
        }
    }

    /// The screen when it has stood still for a while.
    pub fn settled(&self) -> vt100::Screen {
        let end = Instant::now() + PATIENCE;
        let mut last = self.screen();
        loop {
            thread::sleep(PAUSE * 40);
            let now = self.screen();
            if now.contents_formatted() == last.contents_formatted() || Instant::now() > end {
                return now;
            }
            last = now;
        }
    }

    /// Types these keys.
    pub fn types(&mut self, keys: &str) {
        self.writer
            .write_all(keys.as_bytes())
            .expect("the terminal takes keys");
        self.writer.flush().expect("the terminal takes keys");
    }

    /// Makes the window another size.
    pub fn resize(&self, size: (u16, u16)) {
        let (rows, columns) = cells(size);
        let mut parser = self.parser.lock().expect("the screen");
        parser.screen_mut().set_size(rows, columns);
        drop(parser);
        self.master.resize(pty_size(size)).expect("a size");
    }

    /// Sends the program a signal.
    pub fn signal(&self, name: &str) {
        let process = self.child.process_id().expect("a process");
        signal(&process.to_string(), name);
    }

    /// Waits for a good end, and checks that the terminal is as it was.
    pub fn ends(self) -> vt100::Screen {
        let (status, screen) = self.comes_to_an_end();
        assert!(status.success(), "{status:?}\n{}", screen.contents());
        screen
    }

    /// Ends the program as a power cut would: it can do nothing about it.
    pub fn cuts_off(mut self) {
        self.signal("KILL");
        let _ = self.child.wait().expect("the program");
    }

    /// Waits for the end, whatever it is, and checks that the terminal is as it was.
    pub fn comes_to_an_end(mut self) -> (ExitStatus, vt100::Screen) {
        let end = Instant::now() + PATIENCE;
        let status = loop {
            if let Some(status) = self.child.try_wait().expect("the program") {
                break status;
            }
            if Instant::now() > end {
                self.child.kill().expect("the program is ours");
                panic!("it does not end:\n{}", self.screen().contents());
            }
            thread::sleep(PAUSE);
        };
        // The last output may still be on its way; when the reader ends, all of it is in.
        while !self.reader.is_finished() && Instant::now() < end {
            thread::sleep(PAUSE);
        }
        let screen = self.screen();
        assert!(given_back(&screen), "{}", screen.contents());
        (status, screen)
    }
}

/// Sends a process a signal, by its number.
pub fn signal(process: &str, name: &str) {
    let sent = Command::new("kill").args(["-s", name, process]).status();
    assert!(sent.expect("a signal").success());
}

/// Whether the terminal is as the program found it.
pub fn given_back(screen: &vt100::Screen) -> bool {
    !screen.alternate_screen() && !screen.hide_cursor() && !screen.bracketed_paste()
}
