//! The batch: how much, on which scale, the weigh sheet, the lye of a soap, and the setting of its pH.

mod lye;
mod ph;
mod plan;
mod sheet;

use super::desk::Desk;
use super::dom::{El, el};

/// The place.
pub(super) fn place(desk: Desk) -> El {
    el("div")
        .class("batch")
        .child(plan::card(desk))
        .child(sheet::sheet(desk))
        .child(lye::card(desk))
        .child(ph::card(desk))
}
