//! Which law is meant, and up to which day it is known.

use super::safety::template;
use crate::formula::Region;
use crate::rules::{KNOWN_TO, MessageId};

/// What differs where the product is given away or sold; nothing in the European Union, whose law is the measure.
pub const fn differs(region: Region) -> Option<&'static str> {
    match region {
        Region::Eu => None,
        Region::Gb => Some(template(MessageId::GreatBritain, false)),
        Region::Us => Some(template(MessageId::UnitedStates, false)),
        Region::Elsewhere => Some(template(MessageId::Elsewhere, false)),
    }
}

/// Up to which day the law behind the rules is known.
pub fn known_to() -> String {
    format!("Rules as known on {KNOWN_TO}. Law moves: check what changed since.")
}
