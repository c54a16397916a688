//! Drawing a paper: a plan, then numbers for each of its questions, until no two of a
//! family have the same answer and the right offers stand evenly among the places.

use std::rc::Rc;

use sha2::{Digest, Sha256};
use thiserror::Error;

use super::code::PaperCode;
use super::paper::{Paper, Question, answer_only};
use super::plan::{Barred, Slot, plan};
use crate::lessons::{Exam, Library, nearest};
use crate::problems::random::{Key, Stream};
use crate::problems::{
    Asks, CodeFault, DRAWS, DrawError, Request, SettingFault, Settings, draw, scatter,
};
use crate::quantities::System;

/// How many plans are tried.
const PLANS: u64 = 100;

/// How many draws of one question are tried for another answer at the wanted place.
const QUESTIONS: usize = 80;

/// The fewest offers of a figure asked as a choice, where the family can give them.
const OFFERS: usize = 3;

/// What is to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct PaperRequest<'a> {
    /// The exam's id.
    pub exam: &'a str,
    /// The system of units.
    pub system: System,
    /// Which draw, below [`DRAWS`].
    pub draw: u32,
    /// House rules off their default; the form of questions is the blueprint's business.
    pub settings: &'a Settings,
}

/// Why there is no paper.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PaperError {
    /// There is no such exam.
    #[error("there is no exam \"{name}\"; there is {}", .has.join(", "))]
    Exam {
        /// The name given.
        name: String,
        /// The exams that there are, the nearest first.
        has: Vec<String>,
    },
    /// The draw's number is too high.
    #[error("there is no draw {0}; draws go from 0 to {last}", last = DRAWS - 1)]
    Draw(u32),
    /// The text is no code of a paper.
    #[error(transparent)]
    Code(#[from] CodeFault),
    /// A house rule in the code is not to be had.
    #[error(
        "the paper cannot be drawn here: {0}; if a rules file set it, give that file by --rules"
    )]
    Setting(#[from] SettingFault),
    /// The blueprint or a family has changed since the code was made.
    #[error(
        "the exam {exam} has changed since this paper was drawn: the code needs revision {wanted}, here is {here}; use the lessons and the rules file that it was drawn with, or draw a new one"
    )]
    Revision {
        /// The exam.
        exam: String,
        /// The revision in the code.
        wanted: String,
        /// The revision here.
        here: String,
    },
    /// An area has too few families.
    #[error(
        "the area \"{area}\" of the exam {exam} has too few kinds of job for its questions under these house rules"
    )]
    Area {
        /// The exam.
        exam: String,
        /// The area.
        area: String,
    },
    /// No plan became a paper.
    #[error(
        "the exam {exam} gave no paper in {PLANS} tries; run pumpwright check on the lessons, or lower the questions on safety"
    )]
    Tries {
        /// The exam.
        exam: String,
    },
}

/// Draws a paper.
pub fn draw_paper(library: &Library, request: &PaperRequest<'_>) -> Result<Paper, PaperError> {
    if request.draw >= DRAWS {
        return Err(PaperError::Draw(request.draw));
    }
    let exam = exam_of(library, request.exam)?;
    let code = code_of(library, exam, request.system, request.settings);
    let code = PaperCode {
        seed: scatter(request.draw),
        ..code
    };
    drawn(library, exam, request.settings, code)
}

/// Draws the paper of a code again.
pub fn paper_again(library: &Library, code: &PaperCode) -> Result<Paper, PaperError> {
    let exam = exam_of(library, &code.exam)?;
    let mut settings = Settings::default();
    for (name, value) in &code.rules {
        settings.set(library, name, value)?;
    }
    let here = code_of(library, exam, code.system, &settings);
    if here.revision != code.revision {
        return Err(PaperError::Revision {
            exam: exam.id.clone(),
            wanted: code.revision_letters(),
            here: here.revision_letters(),
        });
    }
    drawn(library, exam, &settings, code.clone())
}

fn exam_of<'l>(library: &'l Library, id: &str) -> Result<&'l Exam, PaperError> {
    let found = library.exams().iter().find(|exam| exam.id == id);
    found.ok_or_else(|| {
        let ids = || library.exams().iter().map(|exam| exam.id.as_str());
        let near = nearest(id, ids());
        let has = if near.is_empty() {
            ids().map(str::to_owned).collect()
        } else {
            near
        };
        PaperError::Exam {
            name: id.chars().take(60).collect(),
            has,
        }
    })
}

/// The code of a paper without its seed.
fn code_of(library: &Library, exam: &Exam, system: System, settings: &Settings) -> PaperCode {
    let rules = settings
        .asking_choices(false)
        .all_for_code(library.rules(system));
    PaperCode {
        exam: exam.id.clone(),
        system,
        seed: 0,
        revision: revision(library, exam, system),
        rules,
    }
}

/// A hash of whatever decides which paper a seed draws: the blueprint, and the revision
/// of every family in its areas.
fn revision(library: &Library, exam: &Exam, system: System) -> u32 {
    let mut hash = Sha256::new();
    let mut line = |text: String| {
        hash.update(text.as_bytes());
        hash.update(b"\n");
    };
    line(format!("paper {} {}", exam.id, exam.questions));
    line(format!("{:?} {}", exam.levels, exam.choices));
    let safety = &exam.safety;
    line(format!("{} {}", safety.questions, safety.lessons.join(" ")));
    for area in &exam.areas {
        let lessons = area.lessons.join(" ");
        line(format!("{} {} {lessons}", area.questions, area.numeric));
        let families = library.families();
        for family in families.filter(|family| area.lessons.contains(&family.lesson)) {
            for level in &family.levels {
                if let Some(variant) = library.variant(&family.id, *level, system) {
                    line(format!("{} {level} {}", family.id, variant.revision));
                }
            }
        }
    }
    let first = hash.finalize();
    let word = first.iter().take(4);
    word.fold(0_u32, |sum, byte| (sum << 8) | u32::from(*byte)) >> 7
}

fn drawn(
    library: &Library,
    exam: &Exam,
    settings: &Settings,
    code: PaperCode,
) -> Result<Paper, PaperError> {
    let key = Key::of(&[
        "paper",
        &exam.id,
        code.system.letters(),
        &code.seed.to_string(),
    ]);
    let mut barred = Barred::default();
    for attempt in 0..PLANS {
        let mut stream = key.stream(attempt);
        let slots = plan(library, exam, code.system, &barred, &mut stream).map_err(|area| {
            let area = exam.areas.get(area).map(|area| area.name.clone());
            PaperError::Area {
                exam: exam.id.clone(),
                area: area.unwrap_or_default(),
            }
        })?;
        let safety = slots.iter().filter(|slot| slot.safety).count();
        if safety < exam.safety.questions as usize {
            continue;
        }
        let mut asked = Asked {
            library,
            system: code.system,
            line: settings.asking_choices(false),
            choice: settings.asking_choices(true),
            questions: Vec::new(),
            places: Places::default(),
        };
        let done = slots
            .iter()
            .try_for_each(|slot| asked.ask(slot, &mut stream));
        match done {
            Ok(()) => {
                return Ok(Paper {
                    code,
                    exam: exam.clone(),
                    questions: asked.questions,
                });
            }
            Err(Stuck::Level(family, level)) => {
                barred.levels.insert((family, level));
            }
            Err(Stuck::Answers(family, most)) => {
                barred.most.insert(family, most);
            }
        }
    }
    Err(PaperError::Tries {
        exam: exam.id.clone(),
    })
}

/// What a plan ran into.
enum Stuck {
    /// A family gives no problem at a level.
    Level(String, u8),
    /// A family has no other answer than so many.
    Answers(String, u32),
}

/// The questions drawn so far.
struct Asked<'a> {
    library: &'a Library,
    system: System,
    line: Settings,
    choice: Settings,
    questions: Vec<Question>,
    places: Places,
}

impl Asked<'_> {
    /// Draws one question more.
    fn ask(&mut self, slot: &Slot, stream: &mut Stream) -> Result<(), Stuck> {
        let of_family = |question: &&Question| question.problem.code.family == slot.family;
        let before = self.questions.iter().filter(of_family);
        let answers: Vec<String> = before.map(Question::answer).collect();
        let mut second_best: Option<Question> = None;
        for _ in 0..QUESTIONS {
            let question = self
                .question(slot, stream)
                .map_err(|_| Stuck::Level(slot.family.clone(), slot.level))?;
            if answers.contains(&question.answer()) {
                continue;
            }
            if offers_enough(slot, &question) && self.places.suit(&question) {
                return self.take(question);
            }
            second_best.get_or_insert(question);
        }
        match second_best {
            Some(question) => self.take(question),
            None => {
                let most = u32::try_from(answers.len()).unwrap_or(u32::MAX);
                Err(Stuck::Answers(slot.family.clone(), most))
            }
        }
    }

    fn take(&mut self, question: Question) -> Result<(), Stuck> {
        self.places.note(&question);
        self.questions.push(question);
        Ok(())
    }

    fn question(&self, slot: &Slot, stream: &mut Stream) -> Result<Question, DrawError> {
        let number = u32::try_from(stream.below(DRAWS as usize)).unwrap_or(0);
        let request = |settings| Request {
            family: &slot.family,
            level: Some(slot.level),
            system: self.system,
            draw: number,
            settings,
        };
        let problem = if slot.choice {
            // A family that cannot be made a choice is asked for its last line.
            draw(self.library, &request(&self.choice))
                .or_else(|_| draw(self.library, &request(&self.line)))?
        } else {
            draw(self.library, &request(&self.line))?
        };
        Ok(Question {
            problem: Rc::new(answer_only(problem, slot.numeric)),
            area: slot.area,
            safety: slot.safety,
            numeric: slot.numeric,
        })
    }
}

/// Whether a figure or a row that is asked as a choice has offers enough.
fn offers_enough(slot: &Slot, question: &Question) -> bool {
    let asks = question.asked().map(|(_, line)| &line.asks);
    !slot.choice || !matches!(asks, Some(Asks::Pick { offers, .. }) if offers.len() < OFFERS)
}

/// How often the right offer stood at each place: of two offers, and of more.
#[derive(Default)]
struct Places {
    two: Vec<usize>,
    more: Vec<usize>,
}

impl Places {
    /// Whether the right offer of a question stands where it stood least.
    fn suit(&self, question: &Question) -> bool {
        let Some((_, line)) = question.asked() else {
            return true;
        };
        let Asks::Pick { offers, key } = &line.asks else {
            return true;
        };
        let counts = if offers.len() == 2 {
            &self.two
        } else {
            &self.more
        };
        let count = |place: usize| counts.get(place).copied().unwrap_or(0);
        let least = (0..offers.len()).map(count).min().unwrap_or(0);
        count(*key) == least
    }

    fn note(&mut self, question: &Question) {
        if let Some((_, line)) = question.asked()
            && let Asks::Pick { offers, key } = &line.asks
        {
            let counts = if offers.len() == 2 {
                &mut self.two
            } else {
                &mut self.more
            };
            counts.resize(counts.len().max(key + 1), 0);
            if let Some(count) = counts.get_mut(*key) {
                *count += 1;
            }
        }
    }
}
