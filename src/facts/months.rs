//! How long an unopened material keeps.

use crate::quantity::{Day, Quantity, unitless};

unitless! {
    /// Whole months, 1 to 600.
    Months, Months, 0, 1, 600
}

impl Months {
    /// The day so many months after another one ([`Day::plus_months`]).
    pub fn after(self, day: Day) -> Day {
        day.plus_months(u32::try_from(self.units()).unwrap_or(u32::MAX))
    }
}
