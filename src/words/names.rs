//! What a line is called.

use super::page;
use crate::facts::Shelf;
use crate::formula::{Choice, Line, Share};

/// The name of what a line is made of.
pub fn choice_name(choice: &Choice, shelf: &Shelf) -> String {
    match choice {
        Choice::Named(name) => name.clone(),
        Choice::Known(id) => shelf.entry(id).map_or_else(|| id.as_str().to_owned(), |entry| entry.label().to_owned()),
    }
}

/// Name and share of a line as one text, for previews.
pub fn line_text(line: &Line, shelf: &Shelf) -> String {
    let share = match &line.share {
        Share::FillUp => page::FILLS_UP.to_owned(),
        Share::Typed(typed) => format!("{}\u{202f}%", typed.text()),
    };
    format!("{} {share}", choice_name(&line.choice, shelf))
}
