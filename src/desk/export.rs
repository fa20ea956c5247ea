//! Whole documents as text, and what comes in as text.

use super::{CarriedPhotograph, Document, ReadProblem, RecordBody, format, read, write};
use crate::sheet::Acknowledgement;
use crate::shelf::Shelf;
use std::sync::LazyLock;

/// One document with the shelf entries that it uses, to be read by people too.
pub fn document_text(document: &Document, shelf: &Shelf) -> String {
    pretty(&write::document_value(&document.for_others(shelf), Some(shelf)))
}

/// Every document, every stability study, and the whole of the maker's shelf.
pub fn collection_text<'a>(
    documents: impl Iterator<Item = &'a Document>,
    studies: &[RecordBody],
    shelf: &Shelf,
) -> String {
    let one = |document: &Document| write::document_value(&document.for_others(shelf), None);
    let formulas: Vec<_> = documents.map(one).collect();
    let mut file = serde_json::json!({
        "format": format::FORMAT,
        "version": format::VERSION,
        "formulas": formulas,
        "shelf": write::shelf_value(shelf, &|_| true),
    });
    if !studies.is_empty() {
        let added = studies.iter().map(RecordBody::additions).max();
        file["additions"] = added.unwrap_or(format::STUDIES).into();
        file["studies"] = studies.iter().map(RecordBody::value).collect();
    }
    pretty(&file)
}

fn pretty(value: &serde_json::Value) -> String {
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}

/// What a file or link brings, before anything of it is kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Incoming {
    /// The documents.
    pub documents: Vec<Document>,
    /// Stability studies.
    pub studies: Vec<RecordBody>,
    /// The photographs that it carries.
    pub photographs: Vec<CarriedPhotograph>,
    /// The shelf that they come with.
    pub shelf: Shelf,
    /// Why further documents of the file could not be read.
    pub refused: Vec<ReadProblem>,
}

/// Reads one document or a collection.
///
/// # Errors
/// The first thing that is wrong with the file, its shelf or its only document, with its path; then nothing is taken. Of a
/// collection whatever can be read is.
pub fn read_export(text: &str) -> Result<Incoming, ReadProblem> {
    let mut shelf = Shelf::default();
    let (mut documents, studies, photographs, refused) = read::read_all(text, &mut shelf)?;
    for document in &mut documents {
        // What somebody else knew about a lye without a margin, this maker may not.
        document.state.lye.no_margin = Acknowledgement::Missing;
    }
    Ok(Incoming { documents, studies, photographs, shelf, refused })
}

/// Whether a title is that of the worked example.
pub fn is_demo(title: &str) -> bool {
    static TITLE: LazyLock<String> = LazyLock::new(|| demo().state.formula.about.title);
    *TITLE == title
}

/// A fresh copy of the worked example. It is an invented formula for learning the page, not advice.
pub fn demo() -> Document {
    read::read_document(include_str!("demo.json"), &mut Shelf::default()).unwrap_or_default()
}
