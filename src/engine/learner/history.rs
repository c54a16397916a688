//! All responses of one person, as a set: merging is union, and neither order nor
//! repetition of what comes in changes anything.

use std::collections::BTreeMap;

use super::response::Response;

/// All responses of one person, each once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct History {
    by_id: BTreeMap<u128, Response>,
}

impl History {
    /// Adds a response. Of two with one id, which only a damaged record has, the
    /// lesser in the order of their fields stays, whichever came first.
    pub fn add(&mut self, response: Response) {
        match self.by_id.get(&response.id) {
            Some(there) if *there <= response => {}
            _ => {
                self.by_id.insert(response.id, response);
            }
        }
    }

    /// The union with another history.
    #[must_use]
    pub fn merged(mut self, other: Self) -> Self {
        for response in other.by_id.into_values() {
            self.add(response);
        }
        self
    }

    /// The responses in the order of their time, of two at one time by their ids.
    pub fn in_order(&self) -> Vec<&Response> {
        let mut all: Vec<&Response> = self.by_id.values().collect();
        all.sort_by_key(|response| (response.when, response.id));
        all
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.by_id.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.by_id.is_empty()
    }
}

impl FromIterator<Response> for History {
    fn from_iter<I: IntoIterator<Item = Response>>(responses: I) -> Self {
        let mut history = Self::default();
        for response in responses {
            history.add(response);
        }
        history
    }
}
