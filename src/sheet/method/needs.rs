//! What a line asks of the method.

use crate::facts::{Adjusts, FatClass, FatRow, SubstanceClass, acid, acid_value, fat_row, fold, in_class};
use crate::formula::{Choice, Line, LineId, Phase, PhaseId};
use crate::quantity::{Celsius, Percent, Typed};
use crate::shelf::{Ingredient, Shelf};

/// What a line asks for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Needs {
    pub(super) id: LineId,
    pub(super) phase: PhaseId,
    /// It has to melt.
    pub(super) melts: bool,
    pub(super) gum: bool,
    pub(super) wetting: bool,
    pub(super) salt: bool,
    pub(super) emulsifier: bool,
    pub(super) powder: bool,
    /// A salt of an acid that preserves.
    pub(super) salt_of_acid: bool,
    /// Makes it acidic enough for such a salt to fall out.
    pub(super) acid: bool,
    pub(super) base: bool,
    /// An acid of fats: with a base it makes soap, which is an emulsifier.
    pub(super) fatty_acid: bool,
    pub(super) fragrance: bool,
    pub(super) lye: bool,
    /// Sets the pH, and is dosed by it.
    pub(super) adjuster: bool,
    pub(super) heat_most: Option<Celsius>,
}

/// A choice of this program: a pH is set with less of a lye, even in solution, and soap takes more.
const LYE_FROM: Percent = Percent::millionths(5_000_000);

/// A choice of this program: an acid of as much is there for itself, and goes in whole whatever the pH.
const ACID_WHOLE_FROM: Percent = Percent::millionths(1_000_000);

/// What a line asks for, by what is known of its ingredient. In a `soap` any lye makes it.
pub(super) fn needs(phase: &Phase, line: &Line, shelf: &Shelf, soap: bool) -> Needs {
    let entry = line.choice.id().and_then(|id| shelf.entry(id));
    let entry = entry.as_ref();
    // A maker's own name may be that of a substance.
    let typed = match &line.choice {
        Choice::Named(name) => name.as_str(),
        Choice::Known(_) => "",
    };
    let inci = entry.and_then(Ingredient::inci).map_or(typed, |inci| inci.value);
    let parts: Vec<String> = inci.split(';').map(fold).collect();
    let is = |class| parts.iter().any(|part| in_class(class, part).is_some());
    let does = |function: &str| entry.is_some_and(|entry| entry.has_function(function));
    let at_least = |most| line.share.typed().and_then(Typed::value).is_some_and(|share| share >= most);
    let links = entry.map(Ingredient::links).unwrap_or_default();
    let adjusts = links.acid_base.and_then(acid).and_then(|acid| acid.adjusts);
    let solid = links.fat.and_then(fat_row).is_some_and(is_solid);
    let emulsifier = does("Surfactant - emulsifying") || does("Emulsifying");
    let gum = is(SubstanceClass::Gum);
    let alkali = is(SubstanceClass::Alkali);
    let lye = alkali && (soap || at_least(LYE_FROM));
    let salt_of_acid = is(SubstanceClass::SaltLike) && is(SubstanceClass::AcidPreservative);
    // A blend that brings both has made its peace with itself.
    let acid = !salt_of_acid && (adjusts == Some(Adjusts::Down) || is(SubstanceClass::Acid));
    let lowers = acid && (adjusts.is_some() || entry.is_none());
    let base = adjusts == Some(Adjusts::Up) || alkali;
    let melts = solid || is(SubstanceClass::GelFormer) || (emulsifier && !gum);
    let powder = ["Absorbent", "Abrasive", "Opacifying"].into_iter().any(does)
        || is(SubstanceClass::Dry)
        || is(SubstanceClass::ZincOxide);
    Needs {
        id: line.id,
        phase: phase.id,
        melts,
        gum,
        wetting: is(SubstanceClass::Wetting),
        salt: is(SubstanceClass::SaltLike),
        emulsifier,
        // Fatty alcohols and waxes make it opaque, too, but melt.
        powder: powder && !melts,
        salt_of_acid,
        acid,
        base,
        fatty_acid: inci.split(';').any(|part| acid_value(part.trim()).is_some()),
        // A wax or oil may smell, too, and is no scent.
        fragrance: links.fat.is_none()
            && (does("Fragrance") || does("Perfuming") && entry.is_some_and(|entry| entry.allergen_source().is_some())),
        lye,
        adjuster: !lye && (base || (lowers && !at_least(ACID_WHOLE_FROM))),
        heat_most: entry.and_then(Ingredient::heat_max).map(|heat| heat.value),
    }
}

/// Whether a fat has to be melted to be poured: it melts above room temperature, or, where that is not known, it is sold
/// as a butter or a wax.
fn is_solid(fat: &FatRow) -> bool {
    match fat.melts {
        Some((_, high)) => high > Celsius::ROOM,
        None => matches!(fat.class, FatClass::Butter | FatClass::Wax),
    }
}
