//! What an import would bring, beside what is here already.

use super::{Document, Incoming, write};
use crate::facts::Shelf;
use crate::formula::{Comparison, compare};

/// What is here of a document that came in.
#[derive(Debug, Clone, PartialEq)]
pub enum Known {
    /// Nothing of its title.
    New,
    /// The very same: it need not be added.
    Same,
    /// Another formula of the same title, and line by line how this one differs from it.
    Differs(Vec<Comparison>),
}

/// What came in, compared; nothing of it is kept yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Preview {
    /// What came in.
    pub incoming: Incoming,
    /// For each document, what is here of it.
    pub known: Vec<Known>,
    /// How many shelf entries or values it would add.
    pub shelf_adds: usize,
}

impl Preview {
    /// Compares with the documents that are here (those of other titles are not looked at) and with the shelf.
    pub fn new(incoming: Incoming, mine: &[Document], shelf: &Shelf) -> Self {
        let known = incoming.documents.iter().map(|document| look_up(document, mine)).collect();
        let texts = |shelf: &Shelf| {
            let typed: usize = shelf.entries().map(|(_, own, texts)| usize::from(own) + texts.len()).sum();
            typed + shelf.lots().map(|(_, lots)| lots.len()).sum::<usize>()
        };
        let shelf_adds = texts(&shelf.joined(&incoming.shelf)) - texts(shelf);
        Self { incoming, known, shelf_adds }
    }

    /// What is worth adding: without the documents that are here already.
    pub fn wanted(&self) -> Incoming {
        let new = self.incoming.documents.iter().zip(&self.known).filter(|(_, known)| **known != Known::Same);
        Incoming { documents: new.map(|(document, _)| document.clone()).collect(), shelf: self.incoming.shelf.clone() }
    }
}

fn look_up(document: &Document, mine: &[Document]) -> Known {
    let formula = &document.state.formula;
    let namesakes = || mine.iter().filter(|other| other.state.formula.about.title == formula.about.title);
    if namesakes()
        .any(|other| write::same_formula(&other.state.formula, formula) && other.state.plan == document.state.plan)
    {
        return Known::Same;
    }
    namesakes().next().map_or(Known::New, |other| Known::Differs(compare(&other.state.formula, formula)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::demo;

    #[test]
    fn preview_tells_new_same_and_different_apart() {
        let mut other = demo();
        let line = other.state.formula.lines().nth(1).map(|(_, line)| line.id).unwrap();
        other.state.formula.remove_line(line);
        let mut renamed = demo();
        renamed.state.formula.about.title = "Another".into();
        let incoming = Incoming { documents: vec![demo(), other, renamed], shelf: Shelf::default() };
        let preview = Preview::new(incoming, &[demo()], &Shelf::default());
        assert_eq!(preview.known[0], Known::Same);
        assert!(matches!(&preview.known[1], Known::Differs(rows) if !rows.is_empty()));
        assert_eq!(preview.known[2], Known::New);
        assert_eq!(preview.wanted().documents.len(), 2);
    }
}
