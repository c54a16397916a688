//! A terminal that goes away: the program ends by itself and does not spin.

use std::io::Read as _;
use std::thread;
use std::time::{Duration, Instant};

use portable_pty::{CommandBuilder, PtySize, native_pty_system};

/// A busy machine is given this long; nothing waits when it is quick.
const PATIENCE: Duration = Duration::from_secs(20);

#[test]
fn a_window_that_is_closed_ends_the_trainer() {
    let pair = native_pty_system()
        .openpty(PtySize {
            rows: 24,
            cols: 80,
            pixel_width: 0,
            pixel_height: 0,
        })
        .expect("a terminal");
    let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_pumpwright"));
    command.env("TERM", "xterm-256color");
    command.env("PUMPWRIGHT_SETTINGS", crate::started::NO_SETTINGS);
    command.env("PUMPWRIGHT_LOGBOOK", crate::started::fresh_logbook());
    let mut child = pair.slave.spawn_command(command).expect("the program");
    drop(pair.slave);
    let mut reader = pair.master.try_clone_reader().expect("its output");
    let mut seen = Vec::new();
    while !seen.windows(4).any(|word| word == b"Next") {
        let mut bytes = [0; 4096];
        let count = reader.read(&mut bytes).expect("a first frame");
        seen.extend_from_slice(&bytes[..count]);
    }
    drop(reader);
    drop(pair.master);
    let end = Instant::now() + PATIENCE;
    while child.try_wait().expect("the program").is_none() {
        if Instant::now() > end {
            child.kill().expect("an end");
            panic!("the program goes on without its terminal");
        }
        thread::sleep(Duration::from_millis(20));
    }
}
