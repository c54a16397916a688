//! How long a sheet and each of its lines took, as far as somebody sat at it.

/// A pause that is longer counts as this: nobody reads a sheet for so long. In
/// milliseconds; our own choice.
const LONGEST_PAUSE: i64 = 5 * 60 * 1000;

/// Time that was spent, in milliseconds.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Spent {
    whole: i64,
    lines: Vec<i64>,
}

impl Spent {
    /// Time as it was kept: the whole and each line.
    pub const fn kept(whole: i64, lines: Vec<i64>) -> Self {
        Self { whole, lines }
    }

    /// Adds the time since the press before, spent at this line.
    pub fn add(&mut self, passed: i64, line: Option<usize>) {
        let passed = passed.clamp(0, LONGEST_PAUSE);
        self.whole = self.whole.saturating_add(passed);
        let Some(line) = line else { return };
        if self.lines.len() <= line {
            self.lines.resize(line + 1, 0);
        }
        self.lines[line] = self.lines[line].saturating_add(passed);
    }

    /// The whole, in milliseconds.
    pub const fn milliseconds(&self) -> i64 {
        self.whole
    }

    /// Each line, in milliseconds; lines behind the end had nothing.
    pub fn by_line(&self) -> &[i64] {
        &self.lines
    }

    /// The whole, in seconds.
    pub fn seconds(&self) -> u32 {
        seconds(self.whole)
    }

    /// The seconds of each line; none where the pen never was.
    pub fn line_seconds(&self) -> Vec<Option<u32>> {
        let lines = self.lines.iter();
        lines
            .map(|spent| (*spent > 0).then(|| seconds(*spent)))
            .collect()
    }
}

fn seconds(milliseconds: i64) -> u32 {
    u32::try_from(milliseconds / 1000).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_pause_counts_as_a_short_one_and_a_clock_set_back_as_none() {
        let mut spent = Spent::default();
        spent.add(2_500, Some(1));
        spent.add(-1_000, Some(1));
        spent.add(8 * 3_600_000, Some(0));
        assert_eq!(spent.seconds(), 302);
        assert_eq!(spent.line_seconds(), [Some(300), Some(2)]);
    }
}
