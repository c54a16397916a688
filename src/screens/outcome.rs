//! What a screen is told and what it answers. A screen changes its own state
//! only; what reaches further is an outcome, and the trainer does it.

use pumpwright_engine::entries::Id;
use pumpwright_engine::marking::Response;

use crate::keys::{Press, Tool};
use crate::layout::{Scroll, Sight};
use crate::office::{Decision, Keyed, Order};
use crate::set_up::Choices;

/// A press, with what was in sight when it came.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stroke {
    /// The press.
    pub press: Press,
    /// What was out of sight.
    pub sight: Sight,
}

/// What a screen answers to a press.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// Nothing more is to be done.
    Stay,
    /// Say this in the lower border.
    Say(String),
    /// Put this screen away.
    Back,
    /// Open the slip, about a line of the sheet if there is one.
    Ask(Option<usize>),
    /// Open the slip with the step of this line shown.
    Show(usize),
    /// So many steps of help were given on this line of the sheet.
    Helped {
        /// The place of the line.
        line: usize,
        /// How many of the four steps.
        steps: usize,
    },
    /// Open the tables.
    Tables,
    /// Turn the sheet over, to its side sums.
    Sums,
    /// Take a tool of the slip.
    Take(Tool),
    /// Mark this.
    HandIn(Response),
    /// Write the sheet down once more that could not be.
    WriteAgain,
    /// Go on without a record.
    GoOnWithout,
    /// Write this line of the sheet once more.
    Mend(usize),
    /// A line of the sheet was written once more.
    Mended {
        /// The place of the line.
        line: usize,
        /// What was written.
        typed: String,
    },
    /// Take this job of the evening.
    TakePlanned(usize),
    /// Draw a sheet of this family whose numbers show a mistake.
    DrawContrast {
        /// The family.
        family: String,
        /// The mistake's name.
        mistake: String,
    },
    /// Show a worked sheet of the first job.
    ShowFirst,
    /// Draw a sheet of this family.
    Draw(String),
    /// Show a worked sheet of this family.
    ShowWorked(String),
    /// Read this lesson.
    Read(String),
    /// Go on with a sheet that waits.
    Resume(usize),
    /// Sit a paper of this exam.
    Sit {
        /// The exam.
        exam: String,
        /// The minutes of the clock; none for no clock.
        minutes: Option<u32>,
    },
    /// Go on with the sitting of this id.
    GoOnSitting(Id),
    /// Show the marks of the paper that was handed in last.
    ShowMarks,
    /// Mark the whole paper.
    HandInPaper,
    /// Hand the paper of a class in that is answered here.
    HandInAnswers,
    /// Show the item of the tried paper with the pen, worked.
    ShowTried,
    /// Have this done in the folder of the class.
    Order(Order),
    /// Mark the paper of this number with the pen, or look at its marks.
    MarkPaper(String),
    /// An item of a paper is keyed.
    Keyed(Keyed),
    /// Show the sample of the plan that is looked at.
    ShowSample,
    /// Put the problem of this code on the board, up to the line where a mistake is made.
    PutOnBoard {
        /// The code.
        code: String,
        /// The mistake's name.
        mistake: String,
    },
    /// This is decided beside the marks.
    Decide(Decision),
    /// Go through the questions of an area of the marked paper, or through all.
    GoThrough(Option<usize>),
    /// A line of the set-up form holds from now on.
    Set {
        /// The line.
        line: crate::set_up::Line,
        /// What holds now.
        choices: Box<Choices>,
        /// Whether it was the last one.
        last: bool,
    },
}

/// What a press that scrolls does to a sheet of text; none for other presses.
pub fn scrolled(scroll: &mut Scroll, stroke: &Stroke) -> Option<Outcome> {
    let Sight {
        above, below, page, ..
    } = stroke.sight;
    let hidden = match stroke.press {
        Press::Up | Press::PageUp => above,
        Press::Down | Press::PageDown => below,
        _ => return None,
    };
    if hidden == 0 {
        let side = if matches!(stroke.press, Press::Up | Press::PageUp) {
            "above"
        } else {
            "below"
        };
        return Some(Outcome::Say(format!("nothing stands {side} this")));
    }
    match stroke.press {
        Press::Up => scroll.up(1),
        Press::Down => scroll.down(1),
        Press::PageUp => scroll.up(page),
        _ => scroll.down(page),
    }
    Some(Outcome::Stay)
}

/// What a press does where the screen has no use of its own for it. The tables
/// and the side sums are one key away everywhere.
pub fn no_use(press: &Press) -> Outcome {
    let words = match press {
        Press::Tables => return Outcome::Tables,
        Press::Sums => return Outcome::Sums,
        Press::Show => "! shows a line of a job sheet; there is none here".to_owned(),
        Press::Type(_) | Press::Paste(_) => {
            "nothing is written here; ? lists what can be done".to_owned()
        }
        _ => "this key has no use here".to_owned(),
    };
    Outcome::Say(words)
}
