//! What a person can do: a history of responses and a clock in; standing, the next
//! problem and the forecast out. Nothing here is kept that the history does not give
//! again, to the last digit.
//!
//! A forgetting Rasch filter with the steps of a problem as observations. One belief
//! about the person's ability, one about how fast the person forgets, one about each
//! family's strength; all three move with each first unaided try. Between tries
//! strength and certainty fade. DEVELOPERS.md tells the whole in one chapter.
//!
//! The files in the order of what they need: [`constants`], then
//! `maths`, `dice`; `curriculum`, `blueprint`; `response`, `history`; `state`,
//! `observe`; `record`; `standing`, `choose`, `forecast`; `weeks`.

mod blueprint;
mod choose;
pub mod constants;
mod curriculum;
mod dice;
mod forecast;
mod from_lessons;
mod history;
pub(crate) mod maths;
mod mistakes;
mod observe;
mod record;
mod response;
mod standing;
mod state;
mod weeks;

pub use blueprint::Blueprint;
pub use choose::{Choice, Desk, Evening, Place, Why};
pub use curriculum::{Curriculum, FamilyFacts};
pub use dice::Dice;
pub use forecast::{Evidence, Forecast, forecast};
pub use history::History;
pub use mistakes::{Repeated, commonest};
pub use observe::Observation;
pub use record::{FamilyRecord, Record};
pub use response::{Moment, Response, Try, outcome};
pub use standing::{Stage, Standing, Support, is_holding, standing};
pub use state::{Belief, Carried, Prediction, State, Strength};
pub use weeks::{MOST_WEEKS, Week, monday, weeks};
