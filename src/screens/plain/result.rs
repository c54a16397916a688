//! A marked paper in plain lines: the marks, the areas, and the questions worked.

use std::io;

use pumpwright_engine::entries::Place;

use super::lines::Came;
use super::session::Session;
use super::written::Written;
use crate::result::{self, PaperResult};
use crate::sitting::Sitting;
use crate::through;

impl Session<'_> {
    /// Hands a paper in: every question is on the disk before its marks are said.
    pub(super) fn hand_in_paper(&mut self, mut sitting: Sitting) -> io::Result<()> {
        sitting.handed_in = true;
        if let Some(draft) = sitting.draft() {
            self.desk.clerk().keep(draft);
        }
        let id = sitting.id;
        let mut result = PaperResult::new(sitting, self.manner);
        for entry in self.desk.entries_of(&result, Place::Plain) {
            if !self.write_entry(&entry, "This paper is not whole in the logbook.")? {
                return Ok(());
            }
        }
        self.desk.clerk().drop_draft(id);
        result.kept = self.desk.record().keeps();
        self.said_result(&result)?;
        self.go_through(&result)
    }

    fn said_result(&mut self, paper: &PaperResult) -> io::Result<()> {
        let marked = &paper.marked;
        let passed = if marked.passed {
            "PASSED"
        } else {
            "NOT PASSED"
        };
        self.lines.say("result", passed)?;
        for text in result::limits(paper) {
            self.lines.say("marks", &text)?;
        }
        let exam = &paper.sitting.paper.exam;
        for text in result::summary(marked, exam.pass, exam.safety.pass) {
            self.lines.say("marks", &text)?;
        }
        for (number, area) in (1..).zip(&marked.areas) {
            let text = format!("{}: {}", area.area, result::tally_words(area.tally));
            self.lines.say(&format!("line {number}"), &text)?;
        }
        self.lines.say("note", &result::time_words(paper))?;
        self.lines.say("note", &result::begin(marked))
    }

    /// The questions of an area, worked, as often as one is asked for.
    fn go_through(&mut self, paper: &PaperResult) -> io::Result<()> {
        let last = paper.marked.areas.len();
        loop {
            let words = format!(
                "A number from 1 to {last} goes through what went wrong in that line, ?W through all questions. Enter ends."
            );
            self.lines.say("next", &words)?;
            let questions = match self.lines.read()? {
                Came::End | Came::Letter('q' | 'Q') => return Ok(()),
                Came::Text(text) if text.is_empty() => return Ok(()),
                Came::Letter('w' | 'W') => (0..paper.marked.questions.len()).collect(),
                Came::Text(text) => match text.parse::<usize>() {
                    Ok(number) if (1..=last).contains(&number) => paper.to_go_through(number - 1).0,
                    _ => Vec::new(),
                },
                _ => Vec::new(),
            };
            if questions.is_empty() {
                self.lines
                    .say("note", "write a number, or ?W, or Enter alone")?;
            }
            for at in questions {
                self.worked(paper, at)?;
            }
        }
    }

    fn worked(&mut self, paper: &PaperResult, at: usize) -> io::Result<()> {
        let sheet = paper.sitting.sheets.get(at);
        let own = paper.sitting.paper.questions.get(at);
        let marked = paper.marked.questions.get(at);
        let (Some(sheet), Some(own), Some(marked)) = (sheet, own, marked) else {
            return Ok(());
        };
        self.lines.say("question", &(at + 1).to_string())?;
        self.head(&own.problem)?;
        if let Some((_, line)) = own.asked() {
            self.lines.offers(line)?;
        }
        for text in through::verdict(&own.problem, marked) {
            self.lines.say("verdict", &text)?;
        }
        self.working(&Written::of(sheet))
    }
}
