//! Which line of a list is taken: the pen stands at it, and its number stands in the blank
//! at the foot. Moving the pen writes the number; writing a number moves the pen.

use crate::blank::{Blank, Wrote};
use crate::keys::Press;

/// The line that is taken.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Picked {
    /// The line with the pen, from zero.
    pub pen: usize,
    /// Its number, as it is written.
    pub number: Blank,
    /// Whether the number was written by moving the pen.
    by_pen: bool,
}

impl Picked {
    /// Moves the pen to one of so many lines, which writes its number.
    pub fn go(&mut self, line: usize, count: usize) {
        self.pen = line.min(count.saturating_sub(1));
        self.number = Blank::holding(&(self.pen + 1).to_string());
        self.by_pen = true;
    }

    /// The line whose number is written; none where there is no such line.
    pub fn named(&self, count: usize) -> Option<usize> {
        let number: usize = self.number.trimmed().parse().ok()?;
        (1..=count).contains(&number).then(|| number - 1)
    }

    /// Takes a press into the blank. A sign behind a number that moving the pen wrote begins
    /// anew.
    pub fn take(&mut self, press: &Press, count: usize) -> Wrote {
        if self.by_pen && matches!(press, Press::Type(_) | Press::Paste(_)) {
            self.number = Blank::default();
        }
        let wrote = self.number.take(press);
        if wrote != Wrote::NotMine {
            self.by_pen = false;
            self.pen = self.named(count).unwrap_or(self.pen);
        }
        wrote
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_moves_the_pen_and_the_pen_writes_the_number() {
        let mut picked = Picked::default();
        picked.go(9, 4);
        assert_eq!((picked.pen, picked.number.text()), (3, "4"));
        // Behind what the pen wrote a sign begins anew, behind what was typed it goes on.
        assert_eq!(picked.take(&Press::Type('1'), 14), Wrote::Changed);
        assert_eq!((picked.pen, picked.number.text()), (0, "1"));
        assert_eq!(picked.take(&Press::Type('2'), 14), Wrote::Changed);
        assert_eq!((picked.pen, picked.named(14)), (11, Some(11)));
        // What is no line leaves the pen where it is, and names none.
        assert_eq!(picked.take(&Press::Type('3'), 14), Wrote::Changed);
        assert_eq!((picked.pen, picked.named(14)), (11, None));
        assert_eq!(picked.take(&Press::Enter, 14), Wrote::NotMine);
        picked.go(0, 0);
        assert_eq!((picked.pen, picked.named(0)), (0, None));
    }
}
