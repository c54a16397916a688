//! How long somebody was at sheets, week by week.

use std::collections::BTreeMap;

use super::entry::Entry;
use crate::learner::{MOST_WEEKS, monday};

/// A week's time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WeekTime {
    /// Its Monday, in days since 1970 as the person's calendar has them.
    pub monday: i32,
    /// The sheets handed in.
    pub sheets: usize,
    /// The seconds that they took; a sheet done on paper tells what the person said.
    pub seconds: u64,
}

/// The weeks from the first sheet to the day of now, those without a sheet too; the
/// latest ones where there are many.
pub fn time_by_week<'a>(entries: impl IntoIterator<Item = &'a Entry>, today: i32) -> Vec<WeekTime> {
    let mut sums: BTreeMap<i32, (usize, u64)> = BTreeMap::new();
    let last = monday(today);
    for entry in entries {
        let week = sums.entry(monday(entry.when().day).min(last)).or_default();
        week.0 += 1;
        week.1 += u64::from(entry.seconds);
    }
    let Some((&first, _)) = sums.first_key_value() else {
        return Vec::new();
    };
    let first = first.max(last.saturating_sub(7 * (MOST_WEEKS - 1)));
    (0..MOST_WEEKS)
        .map_while(|week| first.checked_add(7 * week).filter(|monday| *monday <= last))
        .map(|monday| {
            let (sheets, seconds) = sums.get(&monday).copied().unwrap_or_default();
            WeekTime {
                monday,
                sheets,
                seconds,
            }
        })
        .collect()
}
