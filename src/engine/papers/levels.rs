//! Which question is asked at which level: the shares of the blueprint, held against the
//! levels that each family has.

use crate::problems::random::Stream;

/// How many levels there are.
pub const LEVELS: usize = 3;

/// A level for each question from those that it can have, so that as many as can be are
/// within the counts wanted. Questions are tried in their order, levels in a drawn one;
/// one that finds its levels full moves others over (Kuhn's augmenting paths, Naval
/// Research Logistics Quarterly 2, 1955, from memory).
pub fn assign(can: &[Vec<u8>], wanted: [u32; LEVELS], stream: &mut Stream) -> Vec<u8> {
    let mut table = Table {
        can,
        wanted: wanted.map(|count| count as usize),
        given: vec![None; can.len()],
    };
    for at in 0..can.len() {
        let mut order: [usize; LEVELS] = [0, 1, 2];
        stream.shuffle(&mut order);
        table.place(at, order, &mut [false; LEVELS]);
    }
    // What fits nowhere takes the level that is least over its count.
    for at in 0..can.len() {
        if table.given[at].is_none() {
            let own = can[at].iter().map(|level| usize::from(*level) - 1);
            let over = |level: &usize| table.count(*level) as i64 - table.wanted[*level] as i64;
            table.given[at] = own.min_by_key(over);
        }
    }
    let level = |given: &Option<usize>| given.map_or(1, |level| level as u8 + 1);
    table.given.iter().map(level).collect()
}

struct Table<'a> {
    can: &'a [Vec<u8>],
    wanted: [usize; LEVELS],
    given: Vec<Option<usize>>,
}

impl Table<'_> {
    fn count(&self, level: usize) -> usize {
        let has = self.given.iter().filter(|given| **given == Some(level));
        has.count()
    }

    /// Gives a question a level, moving others where it must; says whether it could.
    fn place(&mut self, at: usize, order: [usize; LEVELS], seen: &mut [bool; LEVELS]) -> bool {
        for level in order {
            let can = self.can[at]
                .iter()
                .any(|own| usize::from(*own) == level + 1);
            if !can || seen[level] {
                continue;
            }
            seen[level] = true;
            if self.count(level) < self.wanted[level] {
                self.given[at] = Some(level);
                return true;
            }
            for other in 0..self.given.len() {
                if self.given[other] == Some(level) && self.place(other, order, seen) {
                    self.given[at] = Some(level);
                    return true;
                }
            }
        }
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problems::random::Key;

    fn counts(levels: &[u8]) -> [u32; LEVELS] {
        let of = |level: u8| levels.iter().filter(|own| **own == level).count() as u32;
        [of(1), of(2), of(3)]
    }

    #[test]
    fn the_counts_are_met_wherever_they_can_be() {
        for seed in 0..50 {
            let mut stream = Key::of(&["levels", &seed.to_string()]).stream(0);
            let can = [
                vec![1, 2, 3],
                vec![1],
                vec![2, 3],
                vec![1, 2],
                vec![2],
                vec![3, 1],
            ];
            let levels = assign(&can, [3, 2, 1], &mut stream);
            assert_eq!(counts(&levels), [3, 2, 1], "{levels:?}");
            assert!(
                levels
                    .iter()
                    .zip(&can)
                    .all(|(level, can)| can.contains(level))
            );
        }
    }

    #[test]
    fn what_cannot_be_met_is_come_near_to() {
        let mut stream = Key::of(&["levels"]).stream(0);
        let can = [vec![2], vec![2], vec![2], vec![1, 2]];
        assert_eq!(assign(&can, [2, 1, 1], &mut stream), [2, 2, 2, 1]);
    }
}
