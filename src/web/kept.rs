//! The last few answers, so that the papers and the ranges are those of the desk, and nothing is computed twice.
//!
//! An answer is found again only by the whole text of boat and list that led to it: a visitor who
//! does not have them does not meet it. The oldest is dropped for a new one.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use super::answer::Sized;
use crate::report::Gathered;
use crate::units::UnitSystem;

/// Answers of a kind that are kept.
const MOST: usize = 6;

/// All that an answer depends on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Key {
    /// Name and text of the boat file.
    pub boat: (String, String),
    /// Name and text of the stock list.
    pub list: Option<(String, String)>,
    /// Units in whole steps of which sizes are looked for.
    pub steps: UnitSystem,
}

/// Answers of one kind, the latest first.
pub(super) struct Few<T>(Mutex<VecDeque<(Key, Arc<T>)>>);

/// All that is kept.
#[derive(Default)]
pub(super) struct Kept {
    /// Boats with the size advised and their shelf.
    pub sized: Few<Sized>,
    /// All that papers tell.
    pub gathered: Few<Gathered>,
}

impl<T> Default for Few<T> {
    fn default() -> Self {
        Self(Mutex::default())
    }
}

impl<T> Few<T> {
    /// The answer to the same, which then counts as the latest.
    pub fn get(&self, key: &Key) -> Option<Arc<T>> {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let found = all.iter().position(|(kept, _)| kept == key)?;
        let pair = all.remove(found)?;
        let answer = pair.1.clone();
        all.push_front(pair);
        Some(answer)
    }

    /// Keeps an answer.
    pub fn put(&self, key: Key, answer: T) -> Arc<T> {
        let answer = Arc::new(answer);
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        all.retain(|(kept, _)| *kept != key);
        all.push_front((key, answer.clone()));
        all.truncate(MOST);
        answer
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(text: &str) -> Key {
        let boat = ("boat.toml".to_owned(), text.to_owned());
        Key { boat, list: None, steps: UnitSystem::Marine }
    }

    #[test]
    fn regression_the_oldest_is_dropped_and_only_the_same_is_found() {
        let few = Few::default();
        for number in 0..MOST {
            few.put(key(&number.to_string()), number);
        }
        assert_eq!(few.get(&key("0")).as_deref(), Some(&0));
        few.put(key("new"), 99);
        assert_eq!(few.get(&key("1")), None);
        assert_eq!(few.get(&key("0")).as_deref(), Some(&0));
        assert_eq!(few.get(&Key { steps: UnitSystem::Imperial, ..key("0") }), None);
    }
}
