//! Ranges of which an end may not be known.

use crate::quantity::{Percent, Ph};

/// The usual share; an end that is not known is absent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UseRange {
    /// Its low end.
    pub low: Option<Percent>,
    /// Its high end.
    pub high: Option<Percent>,
}

/// The pH of the product in which an ingredient keeps and works; an end that is not known is absent, not open.
///
/// For a row with a preservative link the preservative table has the window that counts; here often only its low end is
/// known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PhWindow {
    /// Lowest pH.
    pub min: Option<Ph>,
    /// Highest pH.
    pub max: Option<Ph>,
}
