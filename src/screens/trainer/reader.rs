//! Lessons in the trainer: opened where they were put away, and the sheets that
//! are drawn from there.

use std::rc::Rc;

use super::Trainer;
use crate::jobs::Takes;
use crate::lesson::LessonPages;
use crate::screen::Screen;
use crate::shelf;
use crate::worked::Worked;

impl Trainer<'_> {
    /// The lesson of the job on top, or of the line with the pen on the front page.
    pub(super) fn open_lesson_of_this(&mut self) {
        let family = match self.stack.last() {
            Some(Screen::Tonight(_) | Screen::Standing(_)) => return self.open_jobs(),
            Some(Screen::Jobs(jobs)) => match jobs.job(jobs.pen).map(|job| &job.takes) {
                Some(Takes::Lesson(lesson)) => {
                    let lesson = lesson.clone();
                    return self.open_lesson(&lesson);
                }
                Some(Takes::Family(family)) => Some(family.clone()),
                None => jobs
                    .waiting
                    .get(jobs.pen)
                    .map(|waiting| waiting.family.clone()),
            },
            _ => self.problem().map(|problem| problem.family.id.clone()),
        };
        let lesson = family
            .and_then(|family| self.library.family(&family))
            .map(|family| family.lesson.clone());
        match lesson {
            Some(lesson) => self.open_lesson(&lesson),
            None => self.say("no lesson stands behind this"),
        }
    }

    /// Opens a lesson at the page that was read last.
    pub(super) fn open_lesson(&mut self, id: &str) {
        let Some(lesson) = self.library.lesson(id) else {
            self.say(format!("the lesson {id} is not among the lesson files"));
            return;
        };
        let (page, turn) = self.read.get(id).copied().unwrap_or_default();
        let closed = self.closed_tables();
        let mut pages =
            LessonPages::new(self.library, lesson, (self.system, &self.settings), &closed);
        if let Some(example) = &lesson.example
            && let Ok(problem) = self.draw(&example.family, example.level)
        {
            pages = pages.ending_in(problem);
        }
        pages.family = self.family_in_turn(id, turn);
        pages.open(page);
        self.stack.push(Screen::Lesson(pages));
    }

    fn family_in_turn(&self, lesson: &str, turn: usize) -> Option<String> {
        let families = shelf::of_lesson(self.library, lesson, self.system);
        let at = turn.checked_rem(families.len())?;
        families.get(at).cloned()
    }

    pub(super) fn note_read(&mut self, lesson: &LessonPages) {
        let read = self.read.entry(lesson.id.clone()).or_default();
        // A lesson that was read to its end begins anew.
        read.0 = if lesson.at + 1 < lesson.pages.len() {
            lesson.at
        } else {
            0
        };
    }

    /// The next sheet of the lesson on top is of its next family.
    fn turn_family(&mut self) {
        let Some(Screen::Lesson(lesson)) = self.stack.last() else {
            return;
        };
        let id = lesson.id.clone();
        let read = self.read.entry(id.clone()).or_default();
        read.1 += 1;
        let turn = read.1;
        let family = self.family_in_turn(&id, turn);
        if let Some(Screen::Lesson(lesson)) = self.stack.last_mut() {
            lesson.family = family;
        }
    }

    pub(super) fn draw_from_lesson(&mut self, family: &str) {
        self.turn_family();
        self.draw_sheet(family, None);
    }

    pub(super) fn show_worked(&mut self, family: &str) {
        match self.draw(family, None) {
            Ok(problem) => {
                self.turn_family();
                let worked = Worked::new(Rc::new(problem), None);
                self.stack.push(Screen::Worked(Box::new(worked)));
            }
            Err(error) => self.say(error.to_string()),
        }
    }
}
