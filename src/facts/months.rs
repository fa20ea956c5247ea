//! How long an unopened material keeps.

use crate::quantity::unitless;

unitless! {
    /// Whole months, 1 to 600.
    Months, Months, 0, 1, 600
}
