//! The report on the screen, and which turn has the pen.

use pumpwright_engine::classes::report::Report;

use crate::blank::Blank;
use crate::layout::Scroll;

/// The report.
#[derive(Debug, Clone)]
pub struct ReportSheet {
    /// What the marks say.
    pub report: Box<Report>,
    /// The turn with the pen, from zero.
    pub pen: usize,
    /// The number of the line, as it is written.
    pub number: Blank,
    /// Whether the number was written by moving the pen.
    pub by_pen: bool,
    /// Where it stands.
    pub scroll: Scroll,
}

impl ReportSheet {
    /// A report with the pen at the commonest turn.
    pub fn new(report: Box<Report>) -> Self {
        let mut sheet = Self {
            report,
            pen: 0,
            number: Blank::default(),
            by_pen: true,
            scroll: Scroll::default(),
        };
        sheet.go(0);
        sheet
    }

    /// How many turns there are.
    pub fn count(&self) -> usize {
        self.report.teach.len()
    }

    /// Moves the pen to a turn, which writes its number.
    pub fn go(&mut self, line: usize) {
        self.pen = line.min(self.count().saturating_sub(1));
        if self.count() > 0 {
            self.number = Blank::holding(&(self.pen + 1).to_string());
        }
        self.by_pen = true;
        self.scroll.follow();
    }

    /// The turn whose number is written.
    pub fn named(&self) -> Option<usize> {
        let number: usize = self.number.trimmed().parse().ok()?;
        (1..=self.count()).contains(&number).then(|| number - 1)
    }
}
