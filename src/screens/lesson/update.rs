//! What keys do in a lesson. Reading on and back goes from page to page.

use super::state::{LessonPages, Next};
use crate::keys::{Press, Tool};
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(lesson: &mut LessonPages, stroke: &Stroke) -> Outcome {
    let sight = stroke.sight;
    match &stroke.press {
        Press::Enter if sight.below > 0 => {
            lesson.scroll.down(sight.page);
            Outcome::Stay
        }
        Press::Enter => read_on(lesson),
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Down | Press::PageDown if sight.below == 0 && lesson.at + 1 < lesson.pages.len() => {
            lesson.open(lesson.at + 1);
            Outcome::Stay
        }
        Press::Up | Press::PageUp if sight.above == 0 && lesson.at > 0 => {
            lesson.open(lesson.at - 1);
            // The foot of the page before it: the layout stops at its last screenful.
            lesson.scroll.down(usize::MAX);
            Outcome::Stay
        }
        // Nothing is written in a lesson: a word that is met there is one key away.
        Press::Type('g' | 'G') => Outcome::Take(Tool::Glossary),
        press => scrolled(&mut lesson.scroll, stroke).unwrap_or_else(|| no_use(press)),
    }
}

fn read_on(lesson: &mut LessonPages) -> Outcome {
    match lesson.next() {
        Next::Page(_) => {
            lesson.open(lesson.at + 1);
            Outcome::Stay
        }
        Next::Worked(family) => Outcome::ShowWorked(family.to_owned()),
        Next::End => Outcome::Take(Tool::Tonight),
    }
}
