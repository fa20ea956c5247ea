//! The lines and the method that a batch is made by, frozen as its record begins.

use crate::batch::{FrozenLine, FrozenStep};
use crate::desk::{Derived, OpenDocument};
use crate::formula::{Formula, LineId, NewStep, StepKind, before_packing};
use crate::quantity::{Mass, Percent};
use crate::sheet::{AlkaliDose, Lye, WeighLine};
use crate::shelf::may_be_capped;
use crate::words::{self, choice_name};

/// What is to be weighed, and the steps that say when.
pub(super) struct FrozenMethod {
    /// Every line, those of a lye last.
    pub(super) lines: Vec<FrozenLine>,
    /// Every step.
    pub(super) steps: Vec<FrozenStep>,
}

/// The method of a formula with its lines by their places. What no step weighs is weighed before the packs are filled:
/// nothing of a formula is left out because its method is.
pub(super) fn frozen_method(open: &OpenDocument, derived: &Derived) -> FrozenMethod {
    let formula = &open.state().formula;
    let weigh = derived.sheet.weigh.as_ref().map_or(&[][..], |sheet| &sheet.lines);
    let places: Vec<LineId> = weigh.iter().map(|line| line.line).collect();
    let mut lines: Vec<FrozenLine> = weigh.iter().map(|line| frozen_line(line, open, derived)).collect();
    let lye = derived.sheet.lye.as_ref().and_then(|lye| lye.as_ref().ok());
    let first = lines.len();
    lines.extend(lye.map(lye_lines).unwrap_or_default());
    let lye: Vec<usize> = (first..lines.len()).collect();
    let steps =
        with_the_rest(words::method::steps(formula, open.shelf(), derived.sheet.lye.is_some()), formula, &places);
    let weighs_lye = steps.iter().position(weighs_lye);
    let steps = steps.iter().enumerate().map(|(n, step)| {
        let lye = if weighs_lye == Some(n) { &lye[..] } else { &[] };
        frozen_step(step, &places, lye)
    });
    FrozenMethod { steps: steps.collect(), lines }
}

fn frozen_line(line: &WeighLine, open: &OpenDocument, derived: &Derived) -> FrozenLine {
    let formula = &open.state().formula;
    let own = formula.line(line.line);
    let entry = own.and_then(|own| open.shelf().entry(own.choice.id()?));
    let capped = entry.as_ref().is_some_and(|entry| may_be_capped(entry, line.share));
    let counted = derived.sheet.composition.lot(line.line).map(|lot| lot.name.clone());
    FrozenLine {
        name: own.map(|own| choice_name(&own.choice, open.shelf())).unwrap_or_default(),
        share: line.share,
        on_scale: line.on_scale,
        lot: counted.or_else(|| own.map(|own| own.lot.clone())).unwrap_or_default(),
        inci: entry.and_then(|entry| entry.inci().map(|inci| inci.value.to_owned())).unwrap_or_default(),
        phase: formula.phase(line.phase).map(|phase| phase.name.clone()).unwrap_or_default(),
        capped,
    }
}

/// What the lye of a soap adds to the lines: alkali by alkali, and the water for it.
fn lye_lines(lye: &Lye) -> Vec<FrozenLine> {
    // Too much lye burns: no tolerance carries it above what was computed.
    let line = |name: &str, on_scale: Mass, capped: bool| FrozenLine {
        name: name.to_owned(),
        share: Percent::ZERO,
        on_scale,
        lot: String::new(),
        inci: String::new(),
        phase: words::method::LYE.to_owned(),
        capped,
    };
    let alkali = |dose: &AlkaliDose| line(words::lye::alkali(dose.alkali), dose.weigh, true);
    let mut lines = vec![line(words::method::WATER_FOR_LYE, lye.water, false)];
    lines.extend(lye.alkalis.iter().map(alkali));
    lines
}

/// The steps, and one for the lines that none of them weighs.
fn with_the_rest(mut steps: Vec<NewStep>, formula: &Formula, weighed: &[LineId]) -> Vec<NewStep> {
    let weighs = |line: &LineId| steps.iter().any(|step| step.kind == StepKind::Weigh && step.lines.contains(line));
    let rest: Vec<LineId> =
        formula.lines().map(|(_, line)| line.id).filter(|id| weighed.contains(id) && !weighs(id)).collect();
    if !rest.is_empty() {
        steps.insert(before_packing(&steps), words::method::not_planned(rest));
    }
    steps
}

/// The first step that weighs, and has neither lines nor a phase, weighs the lye.
fn weighs_lye(step: &NewStep) -> bool {
    step.kind == StepKind::Weigh && step.lines.is_empty() && step.phase.is_none()
}

fn frozen_step(step: &NewStep, places: &[LineId], lye: &[usize]) -> FrozenStep {
    let named = step.lines.iter().filter_map(|line| places.iter().position(|known| known == line));
    FrozenStep {
        kind: step.kind,
        text: step.text.clone(),
        why: step.why.clone(),
        stirring: step.stirring.clone(),
        lines: named.chain(lye.iter().copied()).collect(),
        temperature: step.celsius(),
        minutes: step.lasts(),
    }
}
