//! A long list worked on as many cores as there are. What comes out is the same, in the same
//! order, however many that is.

use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// Fewer than so many are worked on the spot: a thread costs more than it saves.
const FEWEST: usize = 32;

/// So many parts a core, so that one that is kept busy by others holds up little.
const PARTS: usize = 8;

/// More cores than these bring nothing here.
const MOST_CORES: usize = 8;

/// The list worked part by part; a part gives one value for each of its entries.
pub fn in_parts<T: Sync, R: Send>(list: &[T], work: impl Fn(&[T]) -> Vec<R> + Sync) -> Vec<R> {
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let cores = cores.min(MOST_CORES);
    if cores == 1 || list.len() < FEWEST {
        return work(list);
    }
    let parts: Vec<&[T]> = list.chunks(list.len().div_ceil(cores * PARTS)).collect();
    let next = AtomicUsize::new(0);
    let take = || {
        let mut done = Vec::new();
        while let Some((at, part)) = {
            let at = next.fetch_add(1, Ordering::Relaxed);
            parts.get(at).map(|part| (at, *part))
        } {
            done.push((at, work(part)));
        }
        done
    };
    let mut done: Vec<(usize, Vec<R>)> = thread::scope(|scope| {
        let others: Vec<_> = (1..cores).map(|_| scope.spawn(take)).collect();
        let mut done = take();
        for other in others {
            match other.join() {
                Ok(own) => done.extend(own),
                Err(why) => std::panic::resume_unwind(why),
            }
        }
        done
    });
    done.sort_by_key(|(at, _)| *at);
    done.into_iter().flat_map(|(_, own)| own).collect()
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_entry_is_worked_once_and_in_its_place() {
        for count in [0, 1, 31, 32, 33, 100, 1001] {
            let list: Vec<usize> = (0..count).collect();
            let found = super::in_parts(&list, |part| part.iter().map(|own| own * 2).collect());
            let wanted: Vec<usize> = list.iter().map(|own| own * 2).collect();
            assert_eq!(found, wanted, "{count}");
        }
    }
}
