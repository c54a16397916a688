//! Sitting a paper: which one, with which clock, and on which surface.

use std::io::IsTerminal as _;
use std::path::Path;

use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::papers::{Paper, PaperCode, PaperRequest, draw_paper, paper_again};
use pumpwright_engine::problems::Settings;
use pumpwright_engine::quantities::DecimalSign;
use pumpwright_screens::{
    self as screens, ExamAsked, Look, PaperTools, Person, PlainOptions, Start, TrainOptions,
};

use super::{drawing, practice, sit};
use crate::classroom::at;
use crate::cli::Exam;
use crate::console::Console;
use crate::failure::{Failure, shown};

/// What is asked for: the paper, where one is named, and its clock, 0 for none.
struct Asked {
    paper: Option<Paper>,
    minutes: Option<u32>,
    settings: Settings,
}

impl Asked {
    fn of(asked: &Exam, library: &Library) -> Result<Self, Failure> {
        let settings = drawing::settings(&asked.drawn(), library)?;
        let paper = asked.exam.as_deref();
        let paper = paper.map(|what| paper_of(what, asked, &settings, library));
        Ok(Self {
            paper: paper.transpose()?,
            minutes: asked.minutes,
            settings,
        })
    }
}

/// Whether this names a file, there or not, and no exam and no code.
fn is_file(what: &str) -> bool {
    let ends = Path::new(what).extension();
    ends.is_some_and(|ending| ending.eq_ignore_ascii_case("json")) || Path::new(what).is_file()
}

/// A fresh paper of an exam, or the paper of a code again.
fn paper_of(
    what: &str,
    asked: &Exam,
    settings: &Settings,
    library: &Library,
) -> Result<Paper, Failure> {
    if is_file(what) {
        return Err(Failure::Input(format!(
            "{} is a file; a paper from an instructor is answered by: pumpwright sit FILE",
            shown(what)
        )));
    }
    let drawn = if what.contains('.') {
        let code = what.parse::<PaperCode>();
        code.map_err(Into::into)
            .and_then(|code| paper_again(library, &code))
    } else {
        let request = PaperRequest {
            exam: what,
            system: asked.drawn().system(),
            draw: practice::draws(asked.draw)(),
            settings,
        };
        draw_paper(library, &request)
    };
    drawn.map_err(|error| Failure::Input(error.to_string()))
}

/// Has a paper sat in plain lines.
///
/// # Errors
/// When there is no such exam or code, a paper cannot be drawn, or the file of one cannot be
/// read.
pub fn plainly(
    asked: &Exam,
    decimal: DecimalSign,
    library: &Library,
    person: Person<'_>,
    console: &mut Console,
) -> Result<(), Failure> {
    let Asked {
        paper,
        minutes,
        settings,
    } = Asked::of(asked, library)?;
    let mut draws = practice::draws(asked.draw);
    let options = PlainOptions {
        system: asked.drawn().system(),
        settings: &settings,
        manner: Manner { decimal },
        ascii: !console.unicode,
        echo: !std::io::stdin().is_terminal(),
        count: None,
        by_record: false,
        draws: &mut draws,
        person,
    };
    let (mut input, mut output) = (&mut *console.input, &mut *console.out);
    let opens = |file: &str| {
        let opened = sit::opens(&at(file));
        opened.map_err(|failure| failure.sentence().unwrap_or_default())
    };
    let exam = ExamAsked {
        paper,
        minutes,
        opens: &opens,
    };
    let given = screens::exam_plain(library, exam, options, (&mut input, &mut output))?;
    // A paper from an instructor is answered as `sit` does it.
    let tools = PaperTools::new(library, decimal);
    given.map_or(Ok(()), |file| sit::given(&at(&file), tools, console))
}

/// What the trainer's screens are told.
///
/// # Errors
/// When there is no such exam or code, or a paper cannot be drawn.
pub fn for_the_screen<'a>(
    asked: &Exam,
    decimal: DecimalSign,
    library: &Library,
    look: Look,
    person: Person<'a>,
) -> Result<TrainOptions<'a>, Failure> {
    let Asked {
        paper,
        minutes,
        settings,
    } = Asked::of(asked, library)?;
    let start = match paper {
        Some(paper) => {
            let minutes = minutes.unwrap_or(paper.exam.minutes);
            Start::Paper(Box::new(paper), (minutes > 0).then_some(minutes))
        }
        None => Start::Exams,
    };
    Ok(TrainOptions {
        system: asked.drawn().system(),
        settings,
        manner: Manner { decimal },
        look,
        start,
        draws: Box::new(practice::draws(asked.draw)),
        person,
    })
}
