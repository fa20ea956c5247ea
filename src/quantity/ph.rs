//! Acidity.

use super::unitless;

unitless! {
    /// A pH in hundredths, 0 to 14. No meter of the trade reads finer.
    Ph, Ph, 2, 0, 1_400
}
