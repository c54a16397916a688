//! Typesetting on as many cores as there are: each file is set by one of them, and handed
//! back to be written. The typesetter's own threads do it, so that what one task gives up
//! the next can have, and a class takes less memory.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc;
use std::thread;

use pumpwright_engine::classes::Paper;
pub use pumpwright_press::pdf::forget;
use pumpwright_press::pdf::{Format, Key, PaperPages, PdfFault, Strips, key, strips, warm_up};

use super::pages;
use crate::failure::Failure;

/// More threads than this set no faster: the typesetter shares what it remembers. Our own
/// choice.
const MOST_THREADS: usize = 4;

/// The bytes of a thread's stack: one that waits for a part of its file may begin another
/// file meanwhile. Our own choice; four times the usual.
const STACK: usize = 8 << 20;

/// A file to be made.
pub enum Job<'a> {
    /// Papers that are set, all of them.
    Together(String, &'a PaperPages),
    /// One of them, by its place.
    Alone(String, &'a PaperPages, usize),
    /// The key of papers.
    Key(String, Vec<&'a Paper>),
    /// The strips of papers.
    Strips(String, Vec<&'a Paper>),
}

impl Job<'_> {
    /// The name of the file in the folder.
    pub fn name(&self) -> &str {
        match self {
            Self::Together(name, _)
            | Self::Alone(name, ..)
            | Self::Key(name, _)
            | Self::Strips(name, _) => name,
        }
    }

    fn set(&self, format: Format) -> Result<Vec<u8>, PdfFault> {
        let head = |own: &[&Paper]| pages::head(own.first().copied(), format);
        match self {
            Self::Together(_, pages) => pages.together(),
            Self::Alone(_, pages, at) => pages.alone(*at),
            Self::Key(_, own) => key(&Key {
                head: head(own),
                items: own.iter().flat_map(|own| pages::key_items(own)).collect(),
            }),
            Self::Strips(_, own) => strips(&Strips {
                head: head(own),
                strips: own.iter().map(|own| pages::strip(own)).collect(),
            }),
        }
    }
}

/// Starts the threads, which read the letters while the first papers are drawn.
pub fn get_ready() {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    let threads = rayon::ThreadPoolBuilder::new()
        .num_threads(cores.min(MOST_THREADS))
        .stack_size(STACK);
    // Refused where they run already.
    let _ = threads.build_global();
    rayon::spawn(warm_up);
}

/// Has the typesetter forget what it remembers, while other work goes on.
pub fn forget_meanwhile() {
    rayon::spawn(forget);
}

/// The pages of papers, each on a leaf of its own; none of none.
pub fn set(own: &[&Paper], format: Format) -> Result<Option<PaperPages>, Failure> {
    if own.is_empty() {
        return Ok(None);
    }
    let own: Vec<_> = own.iter().map(|own| pages::paper(own, format)).collect();
    let (pages, ()) = rayon::join(|| PaperPages::set(&own), || ());
    // The pages stay, what led to them does not: half of the memory.
    forget();
    pages
        .map(Some)
        .map_err(|fault| Failure::Input(fault.to_string()))
}

/// Sets each file and hands it over, in whatever order they come, until `take` says that it
/// is enough.
pub fn print(
    jobs: &[&Job<'_>],
    format: Format,
    mut take: impl FnMut(usize, Result<Vec<u8>, PdfFault>) -> bool,
) {
    let enough = AtomicBool::new(false);
    let (to, from) = mpsc::channel();
    rayon::in_place_scope_fifo(|scope| {
        for (at, job) in jobs.iter().enumerate() {
            let (to, enough) = (to.clone(), &enough);
            scope.spawn_fifo(move |_| {
                // Nobody takes it any more where a file could not be written.
                if !enough.load(Ordering::Relaxed) {
                    let _ = to.send((at, job.set(format)));
                }
            });
        }
        drop(to);
        for (at, made) in from {
            if !take(at, made) {
                enough.store(true, Ordering::Relaxed);
                break;
            }
        }
    });
}
