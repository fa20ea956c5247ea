//! The batch: how much, on which scale, the weigh sheet, and the setting of its pH.

mod ph;
mod plan;
mod sheet;

use super::desk::Desk;
use super::dom::{El, el};

/// The place.
pub(super) fn place(desk: Desk) -> El {
    el("div").class("batch").child(plan::card(desk)).child(sheet::sheet(desk)).child(ph::card(desk))
}
