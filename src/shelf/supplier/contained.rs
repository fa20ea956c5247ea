//! One substance of a supplier's paper, and what it is known as.

use crate::facts::{Allergen, Field, allergen, allergen_of_cas, material};
use crate::names::{Doubt, Meaning, NameReading, as_label, recalled};
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
    /// one number may belong to several oils; of a name that is not known the number of an allergen decides.
    pub fn known(&self) -> Option<String> {
        let reading = recalled(&self.name, self.cas.as_deref());
        let by_number = || self.cas.as_deref().and_then(allergen_of_cas).map(|row| row.name.to_owned());
        match reading.means.as_slice() {
            [one] if reading.is_certain() => Some(label_name(&as_label(one))),
            _ if reading.is_one_substance(&self.name) => Some(self.name.clone()),
            _ if reading.common_name().is_some() => reading.common_name().map(str::to_owned),
            // As labels write it, it needs no recogniser, whose tables may still be on their way.
            _ => by_number()
                .or_else(|| allergen(&self.name).map(|row| row.name.to_owned()))
                .or_else(|| self.named_by_number(&reading)),
        }
    }

    /// What its number stands for, where its name says nothing at all.
    fn named_by_number(&self, reading: &NameReading) -> Option<String> {
        let number = self.cas.as_deref().filter(|_| reading.means.is_empty())?;
        let named = recalled(&self.name, None);
        let by_number = recalled(number, None);
        match by_number.means.as_slice() {
            [one] if by_number.is_certain() && matches!(named.doubt, Some(Doubt::Unknown | Doubt::Part(_))) => {
                Some(label_name(&as_label(one)))
            }
            _ => None,
        }
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

/// The name of one substance on labels.
fn label_name(means: &Meaning) -> String {
    let inci = means.id().and_then(material).and_then(|row| row.fact(Field::Inci));
    inci.map_or(means.text(), |fact| fact.text).to_owned()
}
