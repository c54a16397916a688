//! The end of a terminal that is gone: a window closed, a line dropped. Reading
//! from it would never come back, so a thread watches for it.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

use crate::platform;

/// How often the terminal is looked at.
const EVERY: Duration = Duration::from_millis(250);

/// How long the trainer may take to stop by itself.
const GRACE: Duration = Duration::from_secs(1);

/// The exit code when the world failed: here, the terminal.
const WORLD_FAILED: i32 = 3;

/// Watches the terminal from now on. When it is gone, the flag is raised, and
/// where the trainer does not come round to it the program ends. What was handed
/// in is kept before it is acknowledged, so nothing is lost by it.
pub fn watch(stop: &Arc<AtomicBool>) {
    let stop = Arc::clone(stop);
    thread::spawn(move || {
        while !platform::terminal_is_gone() {
            thread::sleep(EVERY);
        }
        stop.store(true, Ordering::Relaxed);
        thread::sleep(GRACE);
        // The trainer holds the output; there is nobody left to write to.
        std::process::exit(WORLD_FAILED);
    });
}
