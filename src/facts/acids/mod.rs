//! Acids, bases and lyes, and the pH that suits the skin.

mod acid;
mod alkali;
mod skin;

pub use acid::{Acid, Adjusts, DissociationStep, UNCOUNTED, acid, acids};
pub use alkali::{Alkali, AlkaliRow, strongest_lye};
pub use skin::skin_window;
