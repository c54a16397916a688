//! The real program at a real terminal: from its start to its first frame.

use std::io::Read;
use std::num::NonZeroU16;
use std::path::Path;

use divan::Bencher;
use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

use crate::logbook::LONG;

const ROWS: u16 = 24;
const COLUMNS: u16 = 80;

/// What the last row of the first screen says, so that the frame is whole.
const LAST: &str = "ask";

/// The program while it runs; dropped, it is ended.
struct Started {
    child: Box<dyn Child + Send + Sync>,
    reader: Box<dyn Read + Send>,
    _master: Box<dyn MasterPty + Send>,
}

impl Drop for Started {
    fn drop(&mut self) {
        let _ended = self.child.kill();
        let _status = self.child.wait();
    }
}

fn start(arguments: &[&str]) -> Started {
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
    // The record of whoever runs this stays out of it.
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    command.env("PUMPWRIGHT_SETTINGS", folder.join("none/settings.toml"));
    command.env("PUMPWRIGHT_LOGBOOK", folder.join("bench-start/logbook.db"));
    command.args(arguments);
    let child = pair.slave.spawn_command(command);
    Started {
        child: child.expect("the program starts"),
        reader: pair.master.try_clone_reader().expect("its output"),
        _master: pair.master,
    }
}

/// From the start of the process to the whole first screen.
#[divan::bench(sample_count = 50)]
fn program_to_first_frame(bencher: Bencher) {
    bencher.bench_local(|| to_first_frame(&[]));
}

/// The same for somebody who has handed in ten thousand sheets.
#[divan::bench(sample_count = 50)]
fn program_to_first_frame_with_10_000_sheets(bencher: Bencher) {
    let settings = Path::new(env!("CARGO_TARGET_TMPDIR")).join("bench-settings.toml");
    std::fs::write(&settings, "format = 1\nname = \"Ina\"\n").expect("a file");
    let [settings, logbook] = [&settings, &*LONG].map(|path| path.to_str().expect("UTF-8"));
    let arguments = ["--settings", settings, "--logbook", logbook];
    bencher.bench_local(|| to_first_frame(&arguments));
}

fn to_first_frame(arguments: &[&str]) -> Started {
    let mut started = start(arguments);
    let [rows, columns] = [ROWS, COLUMNS].map(|cells| NonZeroU16::new(cells).expect("cells"));
    let mut screen = vt100::Parser::new(rows, columns, 0);
    let mut bytes = [0; 8192];
    loop {
        let count = started.reader.read(&mut bytes).expect("a frame");
        assert!(count > 0, "no frame came");
        screen.process(&bytes[..count]);
        let shown = screen.screen().contents();
        if shown.lines().last().is_some_and(|row| row.contains(LAST)) {
            return started;
        }
    }
}

/// The floor: a process that prints one line at a terminal and ends.
#[divan::bench(sample_count = 50)]
fn program_to_version(bencher: Bencher) {
    bencher.bench_local(|| {
        let mut started = start(&["--version"]);
        let mut bytes = [0; 256];
        let count = started.reader.read(&mut bytes).expect("a line");
        assert!(count > 0, "no line came");
        started
    });
}
