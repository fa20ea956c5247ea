//! The first method of a formula: the steps that its lines and phases call for, from which a maker goes on.
//!
//! The order is common practice, no source: a gum is wetted before it meets water, salts dissolve before the thickener, the
//! emulsifier melts with the oils, powders are worked in or sifted, what heat would spoil comes late, a benzoate or sorbate
//! dissolves before any acid, fragrance comes after the pH is set, no acid meets a soap. Its figures are those of
//! [`crate::facts::craft`].
mod needs;
mod order;
mod soap;
mod steps;
mod vessels;

use crate::formula::{Formula, LineId, PhaseId, StepKind, Use};
use crate::quantity::{Celsius, Minutes, keyed};
use crate::shelf::Shelf;
use needs::{Needs, needs};
use steps::MethodMaker;
use vessels::vessels;

keyed! {
    /// Why a step stands where it does, which is also what it says to do.
    Reason {
        /// Nothing of another product, nor many germs, get in.
        CleanBefore = "clean-before",
        /// What is missing or wrong is found before anything is weighed.
        LayOut = "lay-out",
        /// The same for soap: goggles and gloves are on before the lye is opened.
        LayOutLye = "lay-out-lye",
        /// What a gum is wetted with, and the gum.
        GumAndLiquid = "gum-and-liquid",
        /// A gum strewn into water clumps.
        WetGum = "wet-gum",
        /// What is weighed by itself to be strewn or worked in.
        DryCup = "dry-cup",
        /// A gum that nothing wets is strewn into moving water.
        StrewGum = "strew-gum",
        /// A gum in oil is stirred in right before the oil meets water.
        GumIntoOil = "gum-into-oil",
        /// A gum and what wets it are a phase of their own, which joins the water.
        GumIntoWater = "gum-into-water",
        /// Powder is worked into a little before it meets the rest.
        WorkInPowder = "work-in-powder",
        /// What is dissolved or melted together.
        PhaseTogether = "phase-together",
        /// The same without heat.
        ColdTogether = "cold-together",
        /// The wetted gum joins the water.
        GumJoins = "gum-joins",
        /// Salts dissolve before the thickener is in.
        SaltsFirst = "salts-first",
        /// The emulsifier melts with the oils.
        EmulsifierMelts = "emulsifier-melts",
        /// Lye is weighed alone.
        LyeAlone = "lye-alone",
        /// The same where it is a line of the formula.
        LyeLine = "lye-line",
        /// The water of a soap, into which its lye goes.
        WaterForLye = "water-for-lye",
        /// Lye goes into the water, never water onto lye.
        LyeIntoWater = "lye-into-water",
        /// Water joins water and oil joins oil before the two meet.
        JoinAlike = "join-alike",
        /// Both phases are to meet at one temperature, with everything melted.
        HeatPhases = "heat-phases",
        /// Without water: all of it melts.
        Melt = "melt",
        /// Without oil: all of it dissolves.
        HeatWater = "heat-water",
        /// Everything melts through, and fewer germs are left.
        HoldHot = "hold-hot",
        /// Weighed into cups while the rest cools.
        LateIntoCups = "late-into-cups",
        /// At one temperature, or waxes set.
        JoinPhases = "join-phases",
        /// Without heat.
        JoinCold = "join-cold",
        /// One phase is cold because its temperature says so.
        JoinHotAndCold = "join-hot-and-cold",
        /// Lye and oils.
        JoinLye = "join-lye",
        /// Small drops.
        Blend = "blend",
        /// Until it stays on itself.
        BlendSoap = "blend-soap",
        /// The network builds while it is stirred.
        Cool = "cool",
        /// It sets when it is left.
        CoolMelt = "cool-melt",
        /// Without oil.
        CoolWater = "cool-water",
        /// Powders are sifted, or they clump.
        SiftPowder = "sift-powder",
        /// A benzoate or sorbate falls out where it meets acid undissolved.
        SaltsOfAcids = "salts-of-acids",
        /// Heat would spoil them.
        HeatSensitive = "heat-sensitive",
        /// Stirred in where nothing was heated.
        StirIn = "stir-in",
        /// Stirred into soap before it sets.
        IntoSoap = "into-soap",
        /// Measured, and set in small doses.
        SetPh = "set-ph",
        /// The same with what the formula has for it.
        SetPhWith = "set-ph-with",
        /// Scent comes last: heat drives it off, and its oil coats an electrode.
        FragranceLast = "fragrance-last",
        /// Each pack is weighed and labelled.
        Pack = "pack",
        /// What was melted is poured before it sets.
        PourMelt = "pour-melt",
        /// Soap rests in its mould, and then dries.
        Mould = "mould",
        /// Nothing of this product is left for the next one.
        CleanAfter = "clean-after",
    }
}

/// A step of a first method.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedStep {
    /// What is done.
    pub kind: StepKind,
    /// What it says.
    pub reason: Reason,
    /// Phases that it is about.
    pub phases: Vec<PhaseId>,
    /// Lines that it is about: those that it weighs or adds, or those that ask for it.
    pub lines: Vec<LineId>,
    /// It takes whatever its phase holds beside the lines of other steps, so a line that comes later goes with it.
    pub rest: bool,
    /// To, at or below which temperature.
    pub temperature: Option<Celsius>,
    /// How long.
    pub minutes: Option<Minutes>,
}

/// The steps for a formula; for a `soap` its lye is weighed, too. Lines without a name are left out; a formula without any
/// has no steps.
pub fn first_method(formula: &Formula, shelf: &Shelf, soap: bool) -> Vec<PlannedStep> {
    let soap = soap || formula.about.purpose == Use::Soap;
    let named = formula.lines().filter(|(_, line)| !line.is_blank());
    let lines: Vec<Needs> = named.map(|(phase, line)| needs(phase, line, shelf, soap)).collect();
    if lines.is_empty() {
        return Vec::new();
    }
    let soap = soap || lines.iter().any(|line| line.lye);
    let vessels = vessels(formula, &lines);
    MethodMaker::new(formula, lines, vessels).make(soap)
}

#[cfg(test)]
mod tests;
