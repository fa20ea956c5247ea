//! Which law is meant, and up to which day it is known.

use super::safety::plain;
use crate::formula::Region;
use crate::rules::{KNOWN_TO, MessageId};

/// What differs where the product is given away or sold; nothing in the European Union, whose law is the measure.
pub fn differs(region: Region) -> Option<&'static str> {
    match region {
        Region::Eu => None,
        Region::Gb => Some(plain(MessageId::GreatBritain)),
        Region::Us => Some(plain(MessageId::UnitedStates)),
        Region::Elsewhere => Some(plain(MessageId::Elsewhere)),
    }
}

/// Up to which day the law behind the rules is known.
pub fn known_to() -> String {
    format!("Rules as known on {KNOWN_TO}. Laws change: check what has changed since.")
}
