//! One line: an ingredient and its share.

use crate::facts::IngredientId;
use crate::quantity::{Percent, Typed};

/// Names a line within its formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LineId(pub(super) u32);

impl LineId {
    /// The id of a number.
    pub const fn of(number: u32) -> Self {
        Self(number)
    }

    /// A number for keys in views and stored positions.
    pub const fn number(self) -> u32 {
        self.0
    }
}

/// What a line is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Choice {
    /// Something from the shelf.
    Known(IngredientId),
    /// A name as typed that is not (yet) on the shelf; may be empty.
    Named(String),
}

impl Choice {
    /// The id, if it is from the shelf.
    pub fn id(&self) -> Option<&IngredientId> {
        match self {
            Self::Known(id) => Some(id),
            Self::Named(_) => None,
        }
    }
}

/// How much of the formula a line is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Share {
    /// So many percent, as typed.
    Typed(Typed<Percent>),
    /// What is missing to 100 (q.s.).
    FillUp,
}

/// What makers write for "fill up to a hundred", folded to lower case without spaces, points and hyphens.
const FILL_UP_WORDS: [&str; 5] = ["fillup", "qs", "rest", "ad100", "qs100"];

/// True for one of the trade's words for filling up (`q.s.`, `fill up`, `rest`, `ad 100`).
fn fills_up(text: &str) -> bool {
    let word: String = text.chars().filter(|c| !c.is_whitespace() && !matches!(c, '.' | '-' | '%')).collect();
    FILL_UP_WORDS.contains(&word.to_ascii_lowercase().as_str())
}

impl Share {
    /// Reads a share that is typed to its end: a percent, or a word for filling up.
    pub fn read(text: &str) -> Self {
        if fills_up(text) { Self::FillUp } else { Self::typing(text) }
    }

    /// A share as it is being typed. A word for filling up is no share yet: `rest` may go on as `rest 1`.
    pub fn typing(text: &str) -> Self {
        Self::Typed(Typed::new(text))
    }

    /// True for a word for filling up that takes effect once the maker is done with the field.
    pub fn will_fill_up(&self) -> bool {
        self.typed().is_some_and(|typed| fills_up(typed.text()))
    }

    /// True for the line that fills up.
    pub const fn is_fill_up(&self) -> bool {
        matches!(self, Self::FillUp)
    }

    /// The typed text and reading, unless the line fills up.
    pub const fn typed(&self) -> Option<&Typed<Percent>> {
        match self {
            Self::Typed(typed) => Some(typed),
            Self::FillUp => None,
        }
    }
}

/// One line of a phase.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its id, unique in the formula and never used again in it.
    pub id: LineId,
    /// What it is.
    pub choice: Choice,
    /// How much.
    pub share: Share,
    /// A remark for the maker.
    pub note: String,
    /// The lot that goes into this batch, by name; empty for the newest.
    pub lot: String,
}

impl Line {
    pub(super) fn new(id: LineId) -> Self {
        Self {
            id,
            choice: Choice::Named(String::new()),
            share: Share::Typed(Typed::default()),
            note: String::new(),
            lot: String::new(),
        }
    }

    /// Makes it another ingredient; a lot of the one before says nothing of that.
    pub fn choose(&mut self, ingredient: IngredientId) {
        let choice = Choice::Known(ingredient);
        if self.choice != choice {
            self.choice = choice;
            self.lot.clear();
        }
    }

    /// True if nothing at all has been entered: such a line counts nowhere.
    pub fn is_blank(&self) -> bool {
        matches!(&self.choice, Choice::Named(name) if name.trim().is_empty())
            && self.share.typed().is_some_and(Typed::is_empty)
            && self.note.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn share_words_for_filling_up_read_alike() {
        for text in ["q.s.", "qs", " Q.S. ", "fill-up", "Fill up", "rest", "ad 100", "ad 100 %"] {
            let share = Share::typing(text);
            assert!(share.will_fill_up() && !share.is_fill_up() && Share::read(text).is_fill_up(), "{text:?}");
        }
        for text in ["", "100", "r", "fill", "rest 1"] {
            assert!(!Share::typing(text).will_fill_up(), "{text:?}");
        }
    }
}
