//! One substance of a supplier's paper, and what it is known as.

use crate::facts::{Allergen, allergen, allergen_of_cas};
use crate::names::{Doubt, allergen_named, recalled};
use crate::quantity::Percent;

/// One substance and its share of the material.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contained {
    /// As the supplier writes it.
    pub name: String,
    /// CAS number, if one stands beside it.
    pub cas: Option<String>,
    /// Least share.
    pub low: Percent,
    /// Greatest share: what a check counts.
    pub high: Percent,
}

impl Contained {
    /// The name under which rules and labels know it; nothing where nobody is certain what it is. Its name counts first, since
    /// one number may belong to several oils; of a name that says nothing the number decides.
    pub fn known(&self) -> Option<String> {
        let reading = recalled(&self.name, self.cas.as_deref());
        let label = |name: &str| allergen_named(name).map_or(name, |row| row.name).to_owned();
        let by_number = || self.cas.as_deref().and_then(allergen_of_cas).map(|row| row.name.to_owned());
        // As labels write it, it needs no recogniser, whose tables may still be on their way.
        let as_written = || allergen(&self.name).map(|row| row.name.to_owned());
        reading.label_name(&self.name).map(label).or_else(by_number).or_else(as_written).or_else(|| self.numbered())
    }

    /// What its number stands for, where its name says nothing at all.
    fn numbered(&self) -> Option<String> {
        let number = self.cas.as_deref()?;
        let silent = matches!(recalled(&self.name, None).doubt, Some(Doubt::Unknown | Doubt::Part(_)));
        recalled(number, None).label_name(number).filter(|_| silent).map(str::to_owned)
    }

    /// The allergen that it is.
    pub fn allergen(&self) -> Option<&'static Allergen> {
        allergen(&self.known()?)
    }

    /// True if some of it is there and nobody here knows what it is: it may be an allergen.
    pub fn is_unrecognised(&self) -> bool {
        self.high > Percent::ZERO && self.known().is_none()
    }
}
