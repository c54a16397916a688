//! The record in the trainer: what is handed in is handed over, and shown when it is
//! on the disk; what is half-written is kept beside it.

use std::rc::Rc;

use pumpwright_engine::entries::{Id, Place, Purpose};
use pumpwright_engine::marking::Response;
use pumpwright_engine::problems::Problem;

use super::Trainer;
use crate::clerk::Receipt;
use crate::handed_in::HandedIn;
use crate::keeping::Keeping;
use crate::screen::Screen;
use crate::sheet::Sheet;
use crate::words;

impl Trainer<'_> {
    /// A new sheet, with an id of its own.
    pub(super) fn new_sheet(&mut self, problem: Problem, purpose: Purpose) -> Sheet {
        let line_by_line = self.desk.checked == crate::set_up::Checked::LineByLine;
        let id = self.desk.clerk().fresh_id();
        Sheet::new(Rc::new(problem), self.manner)
            .line_by_line(line_by_line && purpose == Purpose::Practice)
            .with_id(id, purpose)
    }

    /// The time since the press before is spent at the sheet that is open.
    pub(super) fn note_time(&mut self) {
        let now = self.desk.clerk().now().milliseconds;
        let passed = now - self.pressed;
        self.pressed = now;
        self.note_exam_time(passed, now);
        if let Some(Screen::Sheet(sheet)) = self.stack.iter_mut().rev().find(|screen| {
            matches!(
                screen,
                Screen::Sheet(_) | Screen::HandedIn(_) | Screen::Worked(_)
            )
        }) {
            let line = sheet.line();
            sheet.spent.add(passed, line);
        }
    }

    /// What stands on the sheet that is open is kept.
    pub(super) fn keep_draft(&mut self) {
        if let Some(Screen::Sums(sums)) = self.stack.last() {
            let left = sums.left();
            self.keep_sums(&left);
        }
        self.keep_sitting();
        let open = self.stack.iter().rev().find_map(Screen::sheet);
        if let Some(draft) = open.and_then(Sheet::draft) {
            self.desk.clerk().keep(draft);
        }
    }

    /// Sheets that were half-written at the last stop wait again.
    pub(super) fn lay_out_drafts(&mut self) {
        let kept = self.desk.record().drafts();
        let mut said = None;
        for draft in kept {
            match Sheet::of_draft(&draft, self.library, self.manner) {
                Some(Ok(sheet)) => self.waiting.push(Screen::Sheet(Box::new(sheet))),
                Some(Err(sentence)) if !draft.is_told() => {
                    said = Some(sentence);
                    self.desk.clerk().keep(draft.told());
                }
                Some(Err(_)) | None => {}
            }
        }
        if let Some(sentence) = said {
            self.say(sentence);
        }
        self.list_waiting();
    }

    /// Hands the sheet on top in: it is marked when it is on the disk.
    pub(super) fn hand_in(&mut self, response: Response) {
        if let Some(Screen::Sheet(sheet)) = self.stack.pop() {
            let handed_in = HandedIn::new(*sheet, response);
            let entry = self.desk.entry_of(&handed_in, Place::Screen);
            self.desk.clerk().hand_in(entry.clone());
            let keeping = Keeping::new(handed_in, entry);
            self.stack.push(Screen::Keeping(Box::new(keeping)));
            self.take_receipts();
        }
    }

    /// Shows what came to the disk since; says whether anything changed.
    pub(super) fn take_receipts(&mut self) -> bool {
        let mut changed = false;
        while let Some(receipt) = self.desk.clerk().receipt() {
            changed = true;
            if self.exam_receipt(&receipt) {
                continue;
            }
            match receipt {
                Receipt::Kept(id) => {
                    self.desk.clerk().drop_draft(id);
                    if self.is_keeping(id) {
                        self.acknowledge();
                    }
                }
                Receipt::NotKept(id, why) if self.is_keeping(id) => {
                    if let Some(keeping) = self.keeping() {
                        keeping.trouble = Some(why);
                    }
                }
                Receipt::NotKept(_, why) => self.say(why),
            }
        }
        changed
    }

    /// The sheet that is being written down, with a slip over it or not.
    fn keeping(&mut self) -> Option<&mut Keeping> {
        self.stack.iter_mut().rev().find_map(|screen| match screen {
            Screen::Keeping(keeping) => Some(&mut **keeping),
            _ => None,
        })
    }

    fn is_keeping(&mut self, id: Id) -> bool {
        self.keeping().is_some_and(|keeping| keeping.entry.id == id)
    }

    /// Whether a sheet is on its way to the disk.
    pub(super) fn waits_for_the_disk(&self) -> bool {
        let on_its_way = |screen: &Screen| matches!(screen, Screen::Keeping(keeping) if keeping.trouble.is_none());
        self.stack.iter().any(on_its_way)
    }

    /// The sheet that is being written down is shown with its marks.
    fn acknowledge(&mut self) {
        let keeps = |screen: &Screen| matches!(screen, Screen::Keeping(_));
        let Some(place) = self.stack.iter().rposition(keeps) else {
            return;
        };
        if let Screen::Keeping(keeping) = self.stack.remove(place) {
            let handed_in = keeping.sheet;
            self.note_done(&handed_in.problem().family.id.clone());
            self.sheets += 1;
            self.score += handed_in.marked.score;
            self.out_of += handed_in.marked.out_of;
            self.stack
                .insert(place, Screen::HandedIn(Box::new(handed_in)));
        }
    }

    /// Writes the sheet down once more.
    pub(super) fn write_again(&mut self) {
        if self.write_paper_again() {
            return;
        }
        let Some(keeping) = self.keeping() else {
            return;
        };
        keeping.trouble = None;
        keeping.choice = crate::blank::Blank::default();
        let entry = keeping.entry.clone();
        self.desk.clerk().hand_in(entry);
        self.take_receipts();
    }

    /// Goes on without a record.
    pub(super) fn go_on_without(&mut self) {
        self.desk.clerk().go_on_without();
        self.acknowledge();
        self.show_paper_without();
        self.say("nothing is kept from now on, until the next start");
    }

    /// What is said of the sheets at the end.
    pub(super) fn kept_words(&self) -> &'static str {
        if self.desk.record().keeps() {
            words::KEPT
        } else {
            words::NOT_KEPT
        }
    }
}
