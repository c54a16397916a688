//! What a class earned: persons by questions, each mark as a share of what the
//! question is worth.

/// Why marks cannot be analyzed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MarksFault {
    /// There is no question.
    #[error("the paper has no question")]
    NoQuestion,
    /// The cells do not fill whole rows.
    #[error("{cells} marks do not fill rows of {questions} questions: one is missing or too many")]
    Ragged {
        /// How many marks.
        cells: usize,
        /// How many questions.
        questions: usize,
    },
    /// A mark lies outside its span.
    #[error("the mark of person {person} at question {question} must be 0 to 1")]
    Outside {
        /// The person, from 1.
        person: usize,
        /// The question, from 1.
        question: usize,
    },
}

/// What a class earned: a row a person, a column a question, shares from 0 to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Marks {
    questions: usize,
    cells: Vec<f64>,
}

impl Marks {
    /// Marks row by row.
    ///
    /// # Errors
    /// [`MarksFault`] where there is no question, a row is not whole, or a mark is not
    /// from 0 to 1.
    pub fn new(questions: usize, cells: Vec<f64>) -> Result<Self, MarksFault> {
        if questions == 0 {
            return Err(MarksFault::NoQuestion);
        }
        if !cells.len().is_multiple_of(questions) {
            return Err(MarksFault::Ragged {
                cells: cells.len(),
                questions,
            });
        }
        if let Some(at) = cells.iter().position(|cell| !(0.0..=1.0).contains(cell)) {
            return Err(MarksFault::Outside {
                person: at / questions + 1,
                question: at % questions + 1,
            });
        }
        Ok(Self { questions, cells })
    }

    /// How many questions.
    pub const fn questions(&self) -> usize {
        self.questions
    }

    /// How many persons.
    pub const fn persons(&self) -> usize {
        self.cells.len() / self.questions
    }

    /// A row a person.
    pub fn rows(&self) -> impl ExactSizeIterator<Item = &[f64]> {
        self.cells.chunks_exact(self.questions)
    }

    /// Each person's sum.
    pub fn totals(&self) -> Vec<f64> {
        self.rows().map(|row| row.iter().sum()).collect()
    }

    /// The mean of each question.
    pub fn means(&self) -> Vec<f64> {
        let mut sums = vec![0.0; self.questions];
        for row in self.rows() {
            for (sum, mark) in sums.iter_mut().zip(row) {
                *sum += mark;
            }
        }
        let persons = self.persons() as f64;
        for sum in &mut sums {
            *sum /= persons;
        }
        sums
    }
}
