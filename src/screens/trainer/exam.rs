//! Exams in the trainer: a paper is opened, its clock runs, it is kept at every press,
//! handed in, and shown when all of it is on the disk.

use std::rc::Rc;

use pumpwright_engine::entries::{Entry, Id, Place};
use pumpwright_engine::papers::{Paper, PaperRequest, draw_paper};

use super::Trainer;
use crate::clerk::Receipt;
use crate::exam::{Exams, Stopped};
use crate::keys::Tool;
use crate::result::PaperResult;
use crate::screen::Screen;
use crate::sitting::{Clock, IN_AN_EXAM, Left, Sitting};

impl Trainer<'_> {
    /// The paper that is sat, under whatever lies on it.
    pub(super) fn sitting(&self) -> Option<&Sitting> {
        self.stack.iter().rev().find_map(|screen| match screen {
            Screen::Sitting(sitting) => Some(&**sitting),
            _ => None,
        })
    }

    fn sitting_mut(&mut self) -> Option<&mut Sitting> {
        self.stack.iter_mut().rev().find_map(|screen| match screen {
            Screen::Sitting(sitting) => Some(&mut **sitting),
            _ => None,
        })
    }

    fn result_mut(&mut self) -> Option<&mut PaperResult> {
        self.stack.iter_mut().rev().find_map(|screen| match screen {
            Screen::Result(result) => Some(&mut **result),
            _ => None,
        })
    }

    /// The tools that have a use here: in an exam none that helps.
    pub(super) fn tools_here(&self) -> Vec<Tool> {
        let top = self.stack.last();
        let mut tools = top.map(Screen::tools).unwrap_or_default();
        let open = matches!(top, Some(Screen::Sitting(_) | Screen::Answering(_)));
        if !open && (self.sitting().is_some() || self.answering().is_some()) {
            // Sums are carried over where a line came with them: on a class's paper.
            tools.retain(|tool| *tool == Tool::CarryOver || IN_AN_EXAM.contains(tool));
        }
        tools
    }

    /// The list of papers, behind the sittings that were stopped.
    pub(super) fn open_exams(&mut self) {
        self.front_page();
        let now = self.desk.clerk().now().milliseconds;
        let stopped = self.left().into_iter();
        let stopped: Vec<Stopped> = stopped
            .map(|left| left.stopped(self.library, now))
            .collect();
        let marks = self.marks.as_ref();
        let marks = marks.map(|marks| marks.sitting.paper.exam.title.as_str());
        let exams = Exams::new(self.library, stopped, marks).with_given();
        self.stack.push(Screen::Exams(Box::new(exams)));
    }

    /// The sittings that were stopped; what cannot be read is said.
    fn left(&mut self) -> Vec<Left> {
        let mut found = Vec::new();
        for draft in self.desk.record().drafts() {
            match Left::of_draft(&draft) {
                Some(Ok(left)) => found.push(left),
                Some(Err(words)) => self.say(words),
                None => {}
            }
        }
        found
    }

    /// Opens a fresh paper.
    pub(super) fn sit(&mut self, exam: &str, minutes: Option<u32>) {
        let request = PaperRequest {
            exam,
            system: self.system,
            draw: (self.draws)(),
            settings: &self.settings,
        };
        match draw_paper(self.library, &request) {
            Ok(paper) => self.open_paper(paper, minutes),
            Err(error) => self.say(error.to_string()),
        }
    }

    /// Opens a paper; its clock starts.
    pub(super) fn open_paper(&mut self, paper: Paper, minutes: Option<u32>) {
        self.front_page();
        self.message = None;
        let manner = self.manner;
        let clerk = self.desk.clerk();
        let clock = Clock::starting(clerk.now().milliseconds, minutes);
        let sitting = Sitting::new(Rc::new(paper), manner, clock, || clerk.fresh_id());
        self.stack.push(Screen::Sitting(Box::new(sitting)));
        self.keep_sitting();
    }

    /// Goes on with a sitting that was stopped.
    pub(super) fn go_on_sitting(&mut self, id: Id) {
        let now = self.desk.clerk().now().milliseconds;
        let Some(left) = self.left().into_iter().find(|left| left.id() == id) else {
            return self.say("this sitting is not kept any more");
        };
        let over = left.is_over(now);
        match left.lay_out(self.library, self.manner, now) {
            Ok(sitting) => {
                self.front_page();
                self.say(sitting.came_back());
                self.stack.push(Screen::Sitting(Box::new(sitting)));
                if over {
                    self.hand_in_paper();
                    self.say("Time ran out: the paper is handed in as it stands.");
                }
            }
            Err(words) => self.say(words),
        }
    }

    /// What was stopped is said at the start; what is over is handed in as it stands.
    pub(super) fn look_for_sittings(&mut self) {
        let now = self.desk.clerk().now().milliseconds;
        let left = self.left();
        let over = left.iter().find(|left| left.is_over(now)).map(Left::id);
        match over {
            Some(id) => self.go_on_sitting(id),
            None if !left.is_empty() => {
                self.say("an exam was stopped; its clock runs on: ? then E goes on with it");
            }
            None => {}
        }
    }

    /// The time since the press before is spent at the open question.
    pub(super) fn note_exam_time(&mut self, passed: i64, now: i64) {
        if let Some(sitting) = self.sitting_mut() {
            let _ = sitting.clock.tick(now);
            if let Some(sheet) = sitting.sheet_mut() {
                let line = sheet.line();
                sheet.spent.add(passed, line);
            }
        }
    }

    /// Keeps the paper that is sat as it stands.
    pub(super) fn keep_sitting(&mut self) {
        if let Some(draft) = self.sitting().and_then(Sitting::draft) {
            self.desk.clerk().keep(draft);
        }
    }

    /// Lets the clock run; says whether anything changed to the eye.
    pub(super) fn tick(&mut self) -> bool {
        let now = self.desk.clerk().now().milliseconds;
        let Some(sitting) = self.sitting_mut() else {
            return false;
        };
        let (words, changed) = sitting.clock.tick(now);
        if sitting.clock.is_up() {
            self.hand_in_paper();
            self.say("Time is up: the paper is handed in as it stands.");
            return true;
        }
        let said = words.is_some();
        self.message = words.or_else(|| self.message.take());
        changed || said
    }

    /// Hands the paper in: every question is written down before its marks are shown.
    pub(super) fn hand_in_paper(&mut self) {
        let sat = |screen: &Screen| matches!(screen, Screen::Sitting(_));
        let Some(place) = self.stack.iter().rposition(sat) else {
            return;
        };
        while self.stack.len() > place + 1 {
            self.back();
        }
        let Some(Screen::Sitting(mut sitting)) = self.stack.pop() else {
            return;
        };
        sitting.handed_in = true;
        sitting.closing = None;
        if let Some(draft) = sitting.draft() {
            self.desk.clerk().keep(draft);
        }
        let mut result = PaperResult::new(*sitting, self.manner);
        result.kept = self.desk.record().keeps();
        result.handed_in = self.time_of_day();
        result.on_its_way = self.desk.entries_of(&result, Place::Screen);
        let entries = result.on_its_way.clone();
        self.sheets += entries.len();
        for question in &result.marked.questions {
            self.score += question.earned;
            self.out_of += pumpwright_engine::marking::Marks::whole(1);
        }
        self.stack.push(Screen::Result(Box::new(result)));
        self.hand_over(entries);
    }

    fn hand_over(&mut self, entries: Vec<Entry>) {
        for entry in entries {
            self.desk.clerk().hand_in(entry);
        }
        self.take_receipts();
    }

    fn time_of_day(&mut self) -> String {
        let now = self.desk.clerk().now();
        let minutes = now.milliseconds.div_euclid(60_000) + i64::from(now.zone);
        let of_day = minutes.rem_euclid(24 * 60);
        format!("{}:{:02}", of_day / 60, of_day % 60)
    }

    /// Takes in a receipt for a question; says whether it was for one.
    pub(super) fn exam_receipt(&mut self, receipt: &Receipt) -> bool {
        let Some(result) = self.result_mut() else {
            return false;
        };
        if !result.receipt(receipt) {
            return false;
        }
        let done = result.is_written_down().then_some(result.sitting.id);
        if let Some(result) = self.result_mut().filter(|_| done.is_some()) {
            result.trouble = None;
            let pen = result.picked.pen;
            result.go(pen);
        }
        if let Some(id) = done {
            self.desk.clerk().drop_draft(id);
        }
        true
    }

    /// Whether questions are on their way to the disk.
    pub(super) fn paper_waits_for_the_disk(&self) -> bool {
        self.stack.iter().any(|screen| {
            matches!(screen, Screen::Result(result)
                if !result.is_written_down() && result.trouble.is_none())
        })
    }

    /// Writes down once more what is not on the disk; says whether there is a paper.
    pub(super) fn write_paper_again(&mut self) -> bool {
        let Some(result) = self.result_mut().filter(|result| result.trouble.is_some()) else {
            return false;
        };
        result.trouble = None;
        let entries = result.on_its_way.clone();
        self.hand_over(entries);
        true
    }

    /// Shows the marks without the record.
    pub(super) fn show_paper_without(&mut self) {
        if let Some(result) = self.result_mut() {
            result.on_its_way.clear();
            result.trouble = None;
            result.kept = false;
            let pen = result.picked.pen;
            result.go(pen);
        }
    }

    /// Shows the marks of the paper that was handed in last.
    pub(super) fn show_marks(&mut self) {
        if let Some(marks) = self.marks.take() {
            self.stack.push(Screen::Result(marks));
        }
    }

    /// Goes through questions of the marked paper on top.
    pub(super) fn go_through(&mut self, area: Option<usize>) {
        let Some(Screen::Result(result)) = self.stack.last() else {
            return;
        };
        let (questions, of) = match area {
            Some(area) => (
                result.to_go_through(area).0,
                format!("of line {}", area + 1),
            ),
            None => ((0..result.marked.questions.len()).collect(), String::new()),
        };
        let through = result.through(&questions, of);
        self.stack.push(Screen::Through(Box::new(through)));
    }
}
