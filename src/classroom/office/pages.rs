//! What the papers of a class take in the printer, counted on a thread of its own: no other
//! order waits for it, and it ends when it is not wanted any more.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;

use pumpwright_engine::classes::plan::Plan;
use pumpwright_engine::lessons::Library;
use pumpwright_screens::{Pages, Told};

use crate::classroom::folder::ClassFolder;

/// Papers that are being counted. Dropping it ends the work before the next paper.
#[derive(Debug, Default)]
pub struct Counting(Arc<AtomicBool>);

impl Drop for Counting {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// What is said of pages as long as nothing is counted.
#[cfg(feature = "pdf")]
pub const fn at_first() -> Pages {
    Pages::Awaited
}

/// A build without the typesetter prints nothing, so it counts nothing.
#[cfg(not(feature = "pdf"))]
pub fn at_first() -> Pages {
    Pages::Unknown("Pages come with papers; this build has no typesetter for them.".to_owned())
}

/// Counts the pages of everybody's paper, and tells them.
#[cfg(feature = "pdf")]
pub fn count(drawn: (Library, Plan), class: ClassFolder, tell: Sender<Told>) -> Counting {
    let counting = Counting::default();
    let stop = Arc::clone(&counting.0);
    let plan = drawn.1.id.clone();
    let refused = tell.clone();
    let work = move || {
        let pages = counted(&drawn, &class, &stop);
        if !stop.load(Ordering::Relaxed) {
            // Nobody listens where the trainer was left.
            let _ = tell.send(Told::Pages(drawn.1.id.clone(), pages));
        }
    };
    if let Err(error) = std::thread::Builder::new()
        .name("pages".to_owned())
        .spawn(work)
    {
        let why = Pages::Unknown(format!("Pages cannot be counted: {error}."));
        let _ = refused.send(Told::Pages(plan, why));
    }
    counting
}

/// Without the typesetter there is nothing to count.
#[cfg(not(feature = "pdf"))]
pub fn count(_: (Library, Plan), _: ClassFolder, _: Sender<Told>) -> Counting {
    Counting::default()
}

/// So many papers are set at most; a larger class is reckoned from them.
#[cfg(feature = "pdf")]
const MOST_SET: usize = 24;

#[cfg(feature = "pdf")]
fn counted((library, plan): &(Library, Plan), class: &ClassFolder, stop: &AtomicBool) -> Pages {
    use std::collections::BTreeMap;

    use pumpwright_engine::classes::Drawing;

    use crate::classroom::page_count::{PageCount, pages_of};

    let unknown = |why: &dyn std::fmt::Display| Pages::Unknown(format!("No pages: {why}."));
    let mut drawing = match Drawing::new(library, plan, &class.key) {
        Ok(drawing) => drawing,
        Err(error) => return unknown(&error),
    };
    let mut count = PageCount::default();
    let people: Vec<_> = class.roster.present().collect();
    let mut versions: BTreeMap<u32, usize> = BTreeMap::new();
    for person in people.iter().take(MOST_SET) {
        if stop.load(Ordering::Relaxed) {
            return Pages::Awaited;
        }
        let paper = match drawing.paper(person) {
            Ok(paper) => paper,
            Err(error) => return unknown(&error),
        };
        let known = paper.version.and_then(|version| versions.get(&version));
        let pages = match known.map_or_else(|| pages_of(&paper), |pages| Ok(*pages)) {
            Ok(pages) => pages,
            Err(why) => return unknown(&why),
        };
        if let Some(version) = paper.version {
            versions.insert(version, pages);
        }
        count.add(pages);
    }
    let Some((least, most)) = count.of_one() else {
        return unknown(&"nobody is on the list");
    };
    let about = people.len() > MOST_SET;
    Pages::Counted {
        least,
        most,
        together: if about {
            count.about(people.len())
        } else {
            count.together()
        },
        about,
    }
}
