//! All responses of one person, as a set: merging is union, and neither order nor
//! repetition of what comes in changes anything.

use super::response::Response;

/// All responses of one person, each once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct History {
    /// By their ids, each once.
    responses: Vec<Response>,
}

impl History {
    /// Adds a response. Of two with one id, which only a damaged record has, the
    /// lesser in the order of their fields stays, whichever came first.
    pub fn add(&mut self, response: Response) {
        // Ids are in the order of time, so what comes in mostly goes to the end.
        if self
            .responses
            .last()
            .is_none_or(|last| last.id < response.id)
        {
            return self.responses.push(response);
        }
        let place = |there: &Response| there.id.cmp(&response.id);
        match self.responses.binary_search_by(place) {
            Ok(at) if self.responses[at] <= response => {}
            Ok(at) => self.responses[at] = response,
            Err(at) => self.responses.insert(at, response),
        }
    }

    /// The union with another history.
    #[must_use]
    pub fn merged(mut self, other: Self) -> Self {
        self.responses.extend(other.responses);
        self.settled()
    }

    /// Each once, in the order of their ids.
    fn settled(mut self) -> Self {
        let by_id = |one: &Response, two: &Response| one.id.cmp(&two.id);
        let order = |one: &Response, two: &Response| by_id(one, two).then_with(|| one.cmp(two));
        self.responses.sort_by(order);
        self.responses.dedup_by_key(|response| response.id);
        self
    }

    /// The responses in the order of their time, of two at one time by their ids.
    pub fn in_order(&self) -> Vec<&Response> {
        let mut all: Vec<&Response> = self.responses.iter().collect();
        all.sort_by_key(|response| (response.when, response.id));
        all
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.responses.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.responses.is_empty()
    }
}

impl FromIterator<Response> for History {
    fn from_iter<I: IntoIterator<Item = Response>>(responses: I) -> Self {
        let responses = responses.into_iter().collect();
        Self { responses }.settled()
    }
}
