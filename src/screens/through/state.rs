//! The questions that one goes through.

use std::rc::Rc;

use pumpwright_engine::papers::MarkedQuestion;
use pumpwright_engine::problems::Problem;

use crate::layout::Scroll;
use crate::sheet::Sheet;
use crate::worked::Worked;

/// A question with its working.
#[derive(Debug, Clone)]
pub struct Question {
    /// Its number on the paper.
    pub number: usize,
    /// How it was marked.
    pub marked: MarkedQuestion,
    /// Its working.
    pub worked: Worked,
}

/// The questions, and which one is open.
#[derive(Debug, Clone)]
pub struct Through {
    /// The questions.
    pub questions: Vec<Question>,
    /// The one that is open.
    pub at: usize,
    /// Of what they are, in words: `of line 5`.
    pub of: String,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Through {
    /// Works questions.
    pub fn new<'s>(
        questions: impl Iterator<Item = (usize, Rc<Problem>, MarkedQuestion, &'s Sheet)>,
        of: String,
    ) -> Self {
        let questions = questions.map(|(number, problem, marked, sheet)| {
            let mut worked = Worked::new(problem, None);
            worked.back = sheet.back.clone();
            worked.written = Some(sheet.response());
            Question {
                number,
                marked,
                worked,
            }
        });
        Self {
            questions: questions.collect(),
            at: 0,
            of,
            scroll: Scroll::default(),
        }
    }

    /// The question that is open.
    pub fn question(&self) -> Option<&Question> {
        self.questions.get(self.at)
    }

    /// Its working.
    pub fn worked(&self) -> Option<&Worked> {
        self.question().map(|question| &question.worked)
    }

    /// Its working, to be written on the back.
    pub fn worked_mut(&mut self) -> Option<&mut Worked> {
        let question = self.questions.get_mut(self.at);
        question.map(|question| &mut question.worked)
    }
}
