//! The batch: how much, on which scale, and the weigh sheet.

mod plan;
mod sheet;

use super::desk::Desk;
use super::dom::{El, el};

/// The place.
pub(super) fn place(desk: Desk) -> El {
    el("div").class("batch").child(plan::card(desk)).child(sheet::sheet(desk))
}
