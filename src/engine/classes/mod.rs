//! An instructor's papers: plan, class list, sealed draws, what was printed, and the
//! marking of what is handed in. Files, clock and the secret's randomness are the
//! program's business.

pub mod answers;
pub mod correct;
mod counts;
pub mod day;
pub mod difficulty;
mod draw;
pub mod make_up;
pub mod marks;
mod paper;
pub mod pen;
pub mod plan;
pub mod printed;
pub mod report;
pub mod roster;
pub mod seal;
pub mod sheet;
pub mod sit;
pub mod strip;
pub mod typed;
pub mod whom;

pub use draw::Drawing;
pub use paper::{Head, Paper, PaperItem};

use serde::Serialize;
use serde::de::DeserializeOwned;

/// A value as the text of a file. What is kept here has texts as keys and no figure
/// that JSON could not hold, so there is nothing to refuse.
pub fn json<T: Serialize>(value: &T) -> String {
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}

/// What every file says of itself.
#[derive(serde::Deserialize)]
struct Kind {
    kind: Option<String>,
    format: Option<u32>,
}

/// Reads the text of a file of ours; the sentence goes behind the name of the file.
fn read_json<T: DeserializeOwned>(text: &str, kind: &str, what: &str) -> Result<T, String> {
    let foreign = || format!("is no {what} of this program; name one that it wrote");
    let format = printed::FORMAT;
    match serde_json::from_str::<Kind>(text) {
        Ok(own) if own.kind.as_deref() != Some(kind) => return Err(foreign()),
        Ok(own) if own.format.is_some_and(|own| own > format) => {
            let own = own.format.unwrap_or_default();
            return Err(format!(
                "is written in format {own}; this program reads format {format}: use a newer program"
            ));
        }
        Err(_) if !text.contains(kind) => return Err(foreign()),
        Ok(_) | Err(_) => {}
    }
    serde_json::from_str(text).map_err(|error| {
        let line = error.line();
        format!("breaks off or is damaged in line {line}; ask for the file once more")
    })
}
