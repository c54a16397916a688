//! Sentences that a thread in the background has to say, until somebody asks.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Sentences about what could not be kept, the oldest first.
#[derive(Debug, Clone, Default)]
pub struct News(Arc<Mutex<VecDeque<String>>>);

impl News {
    /// Says a sentence.
    pub fn say(&self, sentence: String) {
        self.lock().push_back(sentence);
    }

    /// The next sentence.
    pub fn next(&self) -> Option<String> {
        self.lock().pop_front()
    }

    fn lock(&self) -> MutexGuard<'_, VecDeque<String>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
