//! Preservatives, boosters and blends: their limits, and where they work.

mod preservative;
mod read_row;

pub use preservative::{
    Barred, BlendPart, ChildRule, Cover, LabelDuty, Preservative, PreservativeGroup, preservative, preservatives,
};
