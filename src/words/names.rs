//! What a line is called.

use super::page;
use crate::formula::{Line, Share};
use crate::shelf::Shelf;

pub use crate::paper::choice_name;

/// Name and share of a line as one text, for previews.
pub fn line_text(line: &Line, shelf: &Shelf) -> String {
    let share = match &line.share {
        Share::FillUp => page::FILLS_UP.to_owned(),
        Share::Typed(typed) => format!("{}\u{202f}%", typed.text()),
    };
    format!("{} {share}", choice_name(&line.choice, shelf))
}
