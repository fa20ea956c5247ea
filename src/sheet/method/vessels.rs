//! What is weighed into vessels at the start, which of it is heated, and how far.

use super::needs::Needs;
use crate::facts::craft;
use crate::formula::{Formula, Phase, PhaseId, PhaseKind};
use crate::quantity::Celsius;

/// The vessels of a batch.
pub(super) struct Vessels {
    /// The phases that are in a vessel before anything is joined, in the order of the formula.
    pub(super) pots: Vec<PhaseId>,
    /// Those of them that are heated.
    pub(super) hot: Vec<PhaseId>,
    /// Phases of a gum and what wets it, which join the water.
    pub(super) slurries: Vec<PhaseId>,
    /// To which temperature they are heated.
    pub(super) heat: Celsius,
    /// Water and oil meet.
    pub(super) joined: bool,
}

/// The vessels that the phases of a formula call for.
pub(super) fn vessels(formula: &Formula, lines: &[Needs]) -> Vessels {
    let holds = |phase: &&Phase| lines.iter().any(|line| line.phase == phase.id);
    let held: Vec<&Phase> = formula.phases().iter().filter(holds).collect();
    let water = |phase: &&&Phase| phase.kind == PhaseKind::Water && !is_slurry(phase, lines);
    let has_water = held.iter().any(|phase| water(&phase));
    let slurry = |phase: &&&Phase| has_water && is_slurry(phase, lines);
    let slurries = held.iter().filter(slurry).map(|phase| phase.id).collect();
    let early = held.iter().filter(|phase| phase.kind != PhaseKind::CoolDown && !slurry(phase));
    let early: Vec<&Phase> = early.copied().collect();
    let hot = hot_phases(&early, lines);
    let kind_is_hot = |kind| early.iter().any(|phase| phase.kind == kind && hot.contains(&phase.id));
    // A phase that is to stay cold goes in late, unless it is all the water or all the oil that there is.
    let in_pot = |phase: &&&Phase| {
        let is_pot = matches!(phase.kind, PhaseKind::Water | PhaseKind::Oil);
        hot.is_empty() || hot.contains(&phase.id) || (is_pot && !kind_is_hot(phase.kind))
    };
    let pots: Vec<&Phase> = early.iter().filter(in_pot).copied().collect();
    let any = |kind| pots.iter().any(|phase| phase.kind == kind);
    let heat = pots.iter().filter(|phase| hot.contains(&phase.id)).filter_map(|phase| phase.heat.value()).max();
    Vessels {
        joined: any(PhaseKind::Water) && any(PhaseKind::Oil),
        pots: pots.iter().map(|phase| phase.id).collect(),
        heat: heat.unwrap_or(craft().heat),
        slurries,
        hot,
    }
}

/// A gum with what wets it, and nothing else.
fn is_slurry(phase: &Phase, lines: &[Needs]) -> bool {
    let here = || lines.iter().filter(|line| line.phase == phase.id);
    matches!(phase.kind, PhaseKind::Water | PhaseKind::Other)
        && here().any(|line| line.gum)
        && here().any(|line| line.wetting)
        && here().all(|line| line.gum || line.wetting)
}

/// The phases that are heated: those with a temperature that says so. Where neither water nor oil has one, both are if
/// something in the oil has to melt; where only one of the two has, so is the other one if it is silent.
fn hot_phases(early: &[&Phase], lines: &[Needs]) -> Vec<PhaseId> {
    let is_pot = |phase: &Phase| matches!(phase.kind, PhaseKind::Water | PhaseKind::Oil);
    let typed = |phase: &Phase| phase.heat.value().is_some_and(|heat| heat > craft().add_below);
    let unread = |phase: &Phase| phase.heat.value().is_none();
    let silent = early.iter().filter(|phase| is_pot(phase)).all(|phase| unread(phase));
    let in_oil = |line: &Needs| early.iter().any(|phase| phase.id == line.phase && phase.kind == PhaseKind::Oil);
    let melts = lines.iter().any(|line| line.melts && in_oil(line));
    let typed_pot = |kind| early.iter().any(|phase| phase.kind == kind && typed(phase));
    let partner = |kind| match kind {
        PhaseKind::Water => typed_pot(PhaseKind::Oil) && !typed_pot(PhaseKind::Water),
        PhaseKind::Oil => typed_pot(PhaseKind::Water) && !typed_pot(PhaseKind::Oil),
        PhaseKind::CoolDown | PhaseKind::Other => false,
    };
    let wanted =
        |phase: &&&Phase| typed(phase) || (silent && melts && is_pot(phase)) || (unread(phase) && partner(phase.kind));
    early.iter().filter(wanted).map(|phase| phase.id).collect()
}
