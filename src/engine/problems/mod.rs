//! Lesson and code to a drawn problem with its worked solution. Nothing here
//! reads an answer.

mod arrange;
mod choice;
pub(crate) mod code;
mod deal;
mod dealer;
mod draw;
mod figure;
mod given;
mod guard;
mod help;
mod html;
pub(crate) mod judge;
mod kept;
mod problem;
pub(crate) mod random;
mod rebuild;
mod settings;
mod sheet;
pub(crate) mod solve;
mod survey;
mod tables;
mod typeset;
mod working;
pub(crate) mod written;

pub(crate) use arrange::{letter, right_answer};
pub use code::{Code, CodeFault, DRAWS};
pub(crate) use draw::scatter;
pub use draw::{DrawError, Request, TRIES, again, draw, draw_sealed};
pub use figure::{Figure, FigureMark, Series};
pub use given::first_half;
pub use help::{Help, help, pressed};
pub use html::{HtmlLine, working_html};
pub use kept::{KeptAsks, KeptProblem, KeptValue};
pub use problem::{
    Asks, GivenLine, Line, LiveMistake, Offer, Problem, RuleLine, ShownCard, TRAINING,
};
pub use rebuild::{Differs, KeptFault, Rebuilder, Rebuilt};
pub use settings::{SettingFault, Settings};
pub use survey::{Survey, survey};
pub use tables::{tables_asked, tables_used};
pub use typeset::{SetLine, typeset};
pub(crate) use working::printed_values;
pub use working::{WorkedLine, working};
