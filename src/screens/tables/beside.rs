//! The tables that may be open beside an item of a class's paper.

use pumpwright_engine::classes::plan::Allowed;
use pumpwright_engine::classes::sit::SitItem;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Request, Settings, draw};
use pumpwright_engine::quantities::System;

use super::leaf::{Leaf, closed, leaves};

/// Those that the sentence at the head of the paper allows. What a job asks of a table is known
/// by its family; where this program does not have it, the book stays shut.
///
/// # Errors
/// The sentence, where none may be open.
pub fn beside(
    library: &Library,
    settings: &Settings,
    sentence: &str,
    item: Option<&SitItem>,
) -> Result<Vec<Leaf>, String> {
    let problem = item.and_then(|item| {
        let (family, rest) = item.code.split_once('.')?;
        let (level, units) = rest.split_at_checked(1)?;
        let request = Request {
            family,
            level: Some(level.parse().ok()?),
            system: [System::Us, System::Si]
                .into_iter()
                .find(|system| system.letters() == units)?,
            draw: 0,
            settings,
        };
        draw(library, &request).ok()
    });
    let (Some(problem), Some(allowed)) = (problem, Allowed::read(sentence)) else {
        return Err(sentence.to_owned());
    };
    let closed = closed(Some(&problem), None);
    let mut book = leaves(library, problem.variant.system, &closed);
    book.retain(|leaf| allowed.allows(&leaf.name));
    if book.is_empty() {
        return Err(sentence.to_owned());
    }
    Ok(book)
}
