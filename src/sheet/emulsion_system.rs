//! What holds the drops of an emulsion: a network of fatty alcohol, soap, a polymer, layers, a nonionic of some balance.
//!
//! Each is judged in its own way, since the number of hydrophile and lipophile was made for nonionics alone (Griffin 1949, J
//! Soc Cosmet Chem 1:311). A fatty alcohol or glyceryl stearate with a hydrophilic partner builds a gel network that holds a
//! cream whatever the balance (Eccleston 1997, from memory).

use super::{Crowding, Emulsion, FormulaComposition, SubstanceShare};
use crate::facts::{EmulsifierKind, SubstanceClass, criteria, criterion, in_class};
use crate::formula::LineId;
use crate::quantity::Percent;

/// What holds an emulsion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EmulsionSystem {
    /// Fatty alcohol or glyceryl stearate with a hydrophilic partner: their sum and the partner's part of it decide.
    GelNetwork,
    /// A cationic, mostly with a fatty alcohol.
    Cationic,
    /// Soap, as it is sold or made in the cream.
    Soap,
    /// A polymer around the drops.
    Polymeric,
    /// Drops of water in oil.
    WaterInOil,
    /// Layers of what is neither dissolved in water nor in oil.
    Lamellar,
    /// An anionic by itself.
    Anionic,
    /// Nonionics with a balance.
    Nonionic,
    /// Several kinds, or one that nobody knows.
    Unknown,
}

impl EmulsionSystem {
    /// True where all that builds the network counts, and not only what emulsifies.
    pub const fn is_network(self) -> bool {
        matches!(self, Self::GelNetwork | Self::Cationic)
    }

    /// Its key in reports.
    pub const fn key(self) -> &'static str {
        match self {
            Self::GelNetwork => "gel-network",
            Self::Cationic => "cationic",
            Self::Soap => "soap",
            Self::Polymeric => "polymeric",
            Self::WaterInOil => "water-in-oil",
            Self::Lamellar => "lamellar",
            Self::Anionic => "anionic",
            Self::Nonionic => "nonionic",
            Self::Unknown => "unknown",
        }
    }
}

impl Emulsion {
    /// Whether oil stands in drops that are closer than equal spheres can be. What holds water in oil has its drops
    /// elsewhere, and so has beeswax with borax where there is less water than oil (common practice, no source).
    pub fn oil_is_packed(&self) -> bool {
        let in_oil = matches!(self.system, EmulsionSystem::WaterInOil | EmulsionSystem::Soap);
        self.crowding == Some(Crowding::BeyondPacking) && !in_oil
    }

    /// What there is of emulsifier, of the oils: of all that builds the network, where that holds it.
    pub fn of_oils(&self) -> Option<Percent> {
        self.network_of_oil.or(self.share_of_oil)
    }

    /// Whether a share of the oils, or of the formula, says whether there is enough: of soap made in the cream it does not.
    pub fn goes_by_share(&self) -> bool {
        self.system != EmulsionSystem::Soap || self.dose.is_some()
    }

    /// Whether an HLB means something here.
    pub const fn goes_by_hlb(&self) -> bool {
        matches!(self.system, EmulsionSystem::Nonionic | EmulsionSystem::WaterInOil)
    }

    /// Whether one of its emulsifiers was made to hold much water in oil, which those of a low HLB are not.
    pub fn is_made_for_water(&self) -> bool {
        self.emulsifiers.iter().any(|part| part.kind == Some(EmulsifierKind::WaterInOil))
    }
}

/// Which it is, and how much there is of what builds a gel network and of its partners.
pub(super) fn system(found: &Emulsion, composition: &FormulaComposition) -> (EmulsionSystem, Percent) {
    let is = |kind| found.emulsifiers.iter().any(|part| part.kind == Some(kind));
    let network = is_network(composition);
    let both = union(composition, SubstanceClass::GelFormer, SubstanceClass::GelPartner);
    let system = if is(EmulsifierKind::Cationic) {
        EmulsionSystem::Cationic
    } else if is(EmulsifierKind::Soap) {
        EmulsionSystem::Soap
    } else if network {
        EmulsionSystem::GelNetwork
    } else if found.polymer.is_some() {
        EmulsionSystem::Polymeric
    } else if holds_water(found) {
        EmulsionSystem::WaterInOil
    } else if is(EmulsifierKind::SelfEmulsifying) {
        EmulsionSystem::GelNetwork
    } else if is(EmulsifierKind::Lamellar) || is(EmulsifierKind::Lecithin) {
        EmulsionSystem::Lamellar
    } else if is(EmulsifierKind::Anionic) {
        EmulsionSystem::Anionic
    } else if found.emulsifiers.iter().all(|part| part.kind == Some(EmulsifierKind::Griffin)) {
        EmulsionSystem::Nonionic
    } else {
        EmulsionSystem::Unknown
    };
    (system, both)
}

/// Whether there is enough of what builds a gel network, and of a partner for it. Less suffices of a partner with a charge,
/// which swells the layers further: hydrophilic ointment of the USP has a 25th.
fn is_network(composition: &FormulaComposition) -> bool {
    let former = sum(composition, SubstanceClass::GelFormer);
    let partners = members(composition, SubstanceClass::GelPartner);
    let charged = |one: &&&SubstanceShare| in_class(SubstanceClass::Anionic, &one.key).is_some();
    let (partner, charge) = (criterion(criteria::NETWORK_PARTNER).value, criterion(criteria::NETWORK_CHARGED).value);
    let all: Percent = partners.iter().map(|one| one.high).sum();
    let anionic: Percent = partners.iter().filter(charged).map(|one| one.high).sum();
    former >= criterion(criteria::NETWORK_FORMER).value
        && (all >= partner.of(former) || anionic > Percent::ZERO && anionic >= charge.of(former))
}

/// Whether all of it, or its balance together, is for water in oil.
fn holds_water(found: &Emulsion) -> bool {
    let bound = criterion(criteria::HLB_WATER_IN_OIL).value;
    let one = |kind| kind == Some(EmulsifierKind::WaterInOil);
    let (some, all) = (
        found.emulsifiers.iter().any(|part| one(part.kind)),
        found.emulsifiers.iter().all(|part| one(part.kind) || part.hlb.is_some_and(|hlb| hlb <= bound)),
    );
    some && all || found.hlb.is_some_and(|hlb| hlb <= bound)
}

/// The acids of which a base makes soap in the making of the cream, each line with its share; nothing where there is hardly
/// any base.
pub(super) fn soaps(composition: &FormulaComposition) -> Vec<(LineId, Percent)> {
    let acids = members(composition, SubstanceClass::SoapAcid);
    let all: Percent = acids.iter().map(|acid| acid.middle()).sum();
    let base = sum(composition, SubstanceClass::SoapBase);
    if acids.is_empty() || base <= Percent::ZERO || base < criterion(criteria::SOAP_BASE).value.of(all) {
        return Vec::new();
    }
    acids.iter().map(|acid| (acid.line, acid.middle())).collect()
}

fn members(composition: &FormulaComposition, class: SubstanceClass) -> Vec<&SubstanceShare> {
    composition.substances.iter().filter(|substance| in_class(class, &substance.key).is_some()).collect()
}

fn sum(composition: &FormulaComposition, class: SubstanceClass) -> Percent {
    members(composition, class).iter().map(|substance| substance.high).sum()
}

/// The share of all that belongs to one class or the other, each counted once.
fn union(composition: &FormulaComposition, one: SubstanceClass, other: SubstanceClass) -> Percent {
    let within = |substance: &&SubstanceShare| {
        in_class(one, &substance.key).is_some() || in_class(other, &substance.key).is_some()
    };
    composition.substances.iter().filter(within).map(SubstanceShare::middle).sum()
}
