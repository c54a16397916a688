//! A sitting marked: right or wrong for each question, each area with its interval, and
//! both pass marks.

use super::paper::Paper;
use crate::marking::{Manner, Marked, Marks, Response, Verdict, mark};
use crate::problems::Asks;
use crate::statistics::{EIGHTY, Interval, of_share};

/// A marked question.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkedQuestion {
    /// How its line was marked.
    pub marked: Marked,
    /// What it earns of one: all or nothing, but for an order.
    pub earned: Marks,
}

impl MarkedQuestion {
    /// Whether it earns all.
    pub fn is_right(&self) -> bool {
        self.earned == Marks::whole(1)
    }
}

/// So much right of so many.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// What was earned; halves occur where an order is right in part.
    pub right: Marks,
    /// How many questions.
    pub of: u32,
}

impl Tally {
    fn add(&mut self, earned: Marks) {
        self.right += earned;
        self.of += 1;
    }

    /// The share, 0 to 1; none of none is 0.
    pub fn share(&self) -> f64 {
        if self.of == 0 {
            return 0.0;
        }
        self.right.number() / f64::from(self.of)
    }

    /// Between what another paper of this kind would likely fall: Wilson's interval, 80 %.
    pub fn between(&self) -> Interval {
        of_share(self.share(), f64::from(self.of), EIGHTY)
    }

    /// The least that reaches a pass mark in per cent.
    pub const fn needed(&self, pass: u32) -> Marks {
        Marks::halves((self.of * 2 * pass).div_ceil(100))
    }

    /// Whether a pass mark in per cent is reached.
    pub fn reaches(&self, pass: u32) -> bool {
        self.right >= self.needed(pass)
    }
}

/// What came of an area.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AreaResult {
    /// The area's name.
    pub area: String,
    /// What was right.
    pub tally: Tally,
}

/// A marked paper.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkedPaper {
    /// The questions, in the order of the paper.
    pub questions: Vec<MarkedQuestion>,
    /// The areas, in the order of the blueprint.
    pub areas: Vec<AreaResult>,
    /// The whole paper.
    pub whole: Tally,
    /// The questions on safety, counted alone.
    pub safety: Tally,
    /// Whether both pass marks are reached.
    pub passed: bool,
}

impl MarkedPaper {
    /// The area where most went wrong, of several the first; none where all is right.
    pub fn weakest(&self) -> Option<usize> {
        let lost = |area: &AreaResult| {
            let all = Marks::whole(area.tally.of).in_halves();
            all.saturating_sub(area.tally.right.in_halves())
        };
        let most = self.areas.iter().map(lost).max().filter(|most| *most > 0)?;
        self.areas.iter().position(|area| lost(area) == most)
    }
}

/// Marks a sitting. Responses stand in the order of the questions; what is missing was
/// not written.
pub fn mark_paper(paper: &Paper, responses: &[Response], manner: Manner) -> MarkedPaper {
    let mut areas: Vec<AreaResult> = paper
        .exam
        .areas
        .iter()
        .map(|area| AreaResult {
            area: area.name.clone(),
            tally: Tally::default(),
        })
        .collect();
    let (mut whole, mut safety) = (Tally::default(), Tally::default());
    let nothing = Response::default();
    let mut questions = Vec::new();
    for (at, question) in paper.questions.iter().enumerate() {
        let response = responses.get(at).unwrap_or(&nothing);
        let marked = mark(&question.problem, response, manner);
        let order = question
            .asked()
            .is_some_and(|(_, line)| matches!(line.asks, Asks::Order { .. }));
        let earned = earned(&marked, order);
        whole.add(earned);
        if let Some(area) = areas.get_mut(question.area) {
            area.tally.add(earned);
        }
        if question.safety {
            safety.add(earned);
        }
        questions.push(MarkedQuestion { marked, earned });
    }
    let exam = &paper.exam;
    MarkedPaper {
        passed: whole.reaches(exam.pass) && safety.reaches(exam.safety.pass),
        questions,
        areas,
        whole,
        safety,
    }
}

/// All or nothing; half for an order that is right in half or more.
fn earned(marked: &Marked, order: bool) -> Marks {
    let part = |line: &crate::marking::MarkedLine| line.verdict == Verdict::PartRight;
    if marked.out_of > Marks::default() && marked.score >= marked.out_of {
        return Marks::whole(1);
    }
    let half = marked.score.in_halves() * 2 >= marked.out_of.in_halves();
    if order && marked.lines.iter().any(part) && half {
        return Marks::halves(1);
    }
    Marks::default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tally(halves: u32, of: u32) -> Tally {
        Tally {
            right: Marks::halves(halves),
            of,
        }
    }

    /// The paper of the mock-up: 55 of 75 lies between 66 and 79 %.
    #[test]
    fn the_interval_is_the_one_that_is_promised() {
        let between = tally(110, 75).between();
        assert_eq!(
            format!("{:.0} {:.0}", between.low * 100.0, between.high * 100.0),
            "66 79"
        );
    }

    #[test]
    fn a_pass_mark_is_reached_at_its_last_half() {
        assert_eq!(tally(0, 75).needed(70), Marks::halves(105));
        assert!(tally(105, 75).reaches(70));
        assert!(!tally(104, 75).reaches(70));
        assert_eq!(tally(0, 9).needed(60), Marks::halves(11));
        assert!(tally(0, 0).reaches(60));
    }
}
