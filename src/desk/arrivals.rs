//! What came in by links and files: it waits for the maker's answer, one after the other, in the order in which it came.
//!
//! What is here already may change with every answer, so each is compared with that when its turn comes and not before.

use super::{Document, Incoming};
use crate::shelf::Shelf;

/// A link or a file.
#[derive(Debug, Clone, PartialEq)]
pub enum Arrival {
    /// What it holds.
    Documents(Incoming),
    /// Why it holds nothing that can be read: a sentence.
    Refused(String),
}

/// Those that wait.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Arrivals {
    waiting: Vec<Arrival>,
    /// One is before the maker.
    asked: bool,
}

impl Arrivals {
    /// Another one has come: it waits behind all others.
    pub fn add(&mut self, arrival: Arrival) {
        self.waiting.push(arrival);
    }

    /// Documents of an arrival that was answered and could not be taken: they are asked about first.
    pub fn put_back(&mut self, documents: Vec<Document>) {
        let (studies, photographs) = (Vec::new(), Vec::new());
        let rest = Incoming { documents, studies, photographs, shelf: Shelf::default(), refused: Vec::new() };
        self.waiting.insert(0, Arrival::Documents(rest));
    }

    /// The one whose turn it is; none while another one is before the maker.
    pub fn ask(&mut self) -> Option<Arrival> {
        if self.asked || self.waiting.is_empty() {
            return None;
        }
        self.asked = true;
        Some(self.waiting.remove(0))
    }

    /// The one before the maker was answered.
    pub fn answered(&mut self) {
        self.asked = false;
    }

    /// How many wait behind the one before the maker.
    pub fn waiting(&self) -> usize {
        self.waiting.len()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(why: &str) -> Arrival {
        Arrival::Refused(why.to_owned())
    }

    #[test]
    fn arrivals_are_asked_about_in_their_order_and_one_at_a_time() {
        let mut arrivals = Arrivals::default();
        assert_eq!(arrivals.ask(), None);
        arrivals.add(refused("one"));
        arrivals.add(refused("two"));
        assert_eq!(arrivals.ask(), Some(refused("one")));
        arrivals.add(refused("three"));
        assert_eq!((arrivals.ask(), arrivals.waiting()), (None, 2), "the first is not answered yet");
        arrivals.answered();
        assert_eq!((arrivals.ask(), arrivals.waiting()), (Some(refused("two")), 1));
        arrivals.answered();
        assert_eq!(arrivals.ask(), Some(refused("three")));
        arrivals.answered();
        assert_eq!((arrivals.ask(), arrivals.waiting()), (None, 0));
    }

    #[test]
    fn what_could_not_be_taken_comes_before_what_waits() {
        let mut arrivals = Arrivals::default();
        arrivals.add(refused("first"));
        arrivals.add(refused("second"));
        arrivals.ask();
        arrivals.answered();
        arrivals.put_back(vec![Document::default()]);
        assert!(matches!(arrivals.ask(), Some(Arrival::Documents(rest)) if rest.documents.len() == 1));
        arrivals.answered();
        assert_eq!(arrivals.ask(), Some(refused("second")));
    }
}
