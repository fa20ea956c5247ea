//! The fragrance allergens of the finished product, summed over all lines, and which of them the label must name.

use super::{FormulaComposition, SubstanceShare, Trust};
use crate::facts::{Allergen, allergens};
use crate::formula::{About, LineId, Region, Use};
use crate::names::allergen_named;
use crate::quantity::{Percent, sort_by};

/// One allergen of the product.
#[derive(Debug, Clone)]
pub struct AllergenSum {
    /// Which.
    pub allergen: &'static Allergen,
    /// Its greatest share.
    pub share: Percent,
    /// The share above which it is to be named.
    pub threshold: Percent,
    /// True if it is above it, and the law of the region asks for it.
    pub named: bool,
    /// The lines that bring it.
    pub lines: Vec<LineId>,
}

impl PartialEq for AllergenSum {
    fn eq(&self, other: &Self) -> bool {
        self.allergen.name == other.allergen.name
            && (self.share, self.threshold, self.named) == (other.share, other.threshold, other.named)
            && self.lines == other.lines
    }
}

impl Eq for AllergenSum {}

/// Whether the law of a region, as far as it is known here, asks for an allergen by name.
///
/// The European Union asks for all of them; Great Britain was not seen to have taken over those of 2023; in the United
/// States a rule is awaited; of other places nothing is known here.
pub fn asked_for(region: Region, allergen: &Allergen) -> bool {
    match region {
        Region::Eu => true,
        Region::Gb => !allergen.is_new(),
        Region::Us | Region::Elsewhere => false,
    }
}

/// All allergens that are in the product, in the order of their names. Shares of what is not stated are not in the sums.
pub fn allergen_sums(about: &About, composition: &FormulaComposition) -> Vec<AllergenSum> {
    let mut sums: Vec<AllergenSum> = Vec::new();
    // What an oil holds as a rule warns of caps; a label is made from statements alone.
    let stated = |substance: &&SubstanceShare| !(substance.inside && substance.trust == Trust::Table);
    for substance in composition.substances.iter().filter(stated) {
        let Some(found) = allergen_named(&substance.name) else { continue };
        let threshold = match about.purpose {
            Use::LeaveOn => found.leave_on,
            Use::RinseOff | Use::Soap => found.rinse_off,
        };
        let place = sums.iter().position(|sum| sum.allergen.name == found.name);
        let sum = match place.and_then(|n| sums.get_mut(n)) {
            Some(sum) => sum,
            None => {
                let new =
                    AllergenSum { allergen: found, share: Percent::ZERO, threshold, named: false, lines: Vec::new() };
                sums.push(new);
                let last = sums.len() - 1;
                &mut sums[last]
            }
        };
        sum.share = sum.share.plus(substance.high);
        if !sum.lines.contains(&substance.line) {
            sum.lines.push(substance.line);
        }
    }
    for sum in &mut sums {
        sum.named = sum.share > sum.threshold && asked_for(about.region, sum.allergen);
    }
    let place = |name: &str| allergens().iter().position(|row| row.name == name);
    sort_by(&mut sums, |a, b| place(a.allergen.name).cmp(&place(b.allergen.name)));
    sums
}
