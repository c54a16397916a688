//! The report on the screen, and which turn has the pen.

use pumpwright_engine::classes::report::Report;

use crate::layout::Scroll;
use crate::picked::Picked;

/// The report.
#[derive(Debug, Clone)]
pub struct ReportSheet {
    /// What the marks say.
    pub report: Box<Report>,
    /// The line that is taken.
    pub picked: Picked,
    /// Where it stands.
    pub scroll: Scroll,
}

impl ReportSheet {
    /// A report with the pen at the commonest turn.
    pub fn new(report: Box<Report>) -> Self {
        let mut sheet = Self {
            report,
            picked: Picked::default(),
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
        self.picked.go(line, self.count());
        self.scroll.follow();
    }

    /// The turn whose number is written.
    pub fn named(&self) -> Option<usize> {
        self.picked.named(self.count())
    }
}
