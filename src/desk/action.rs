//! Every change that can be made to a document, as one value, and the one function that makes it.

use super::texts::{MOST_NAME, MOST_NOTE, kept};
use super::{MethodChange, State};
use crate::facts::{Field, IngredientId};
use crate::formula::{
    Answer, Area, Audience, Choice, Direction, DropSide, LineId, MOST_PHASES, Pack, PaperField, PhaseId, PhaseKind,
    Region, Share, StepField, StepId, Use,
};
use crate::quantity::{MassUnit, Percent, Typed};
use crate::rules::Remedy;
use crate::sheet::{
    Acknowledgement, AlkaliChoice, BatchBasis, Fill, FillBy, InHand, LyeField, PlanField, Premixes, Saponified,
    SvBasis, Totals, WaterBy, new_lines, replace, totals,
};
use crate::shelf::LotField;

/// A change to the open formula and its plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Action {
    /// Its name.
    Title(String),
    /// Stays on or is washed off.
    Purpose(Use),
    /// Where it goes.
    Area(Area),
    /// For whom.
    Audience(Audience),
    /// What it is filled into.
    Pack(Pack),
    /// Where it is given away or sold.
    Region(Region),
    /// The pH to reach, as typed.
    TargetPh(String),
    /// Notes.
    Notes(String),
    /// A new phase at the end.
    AddPhase(PhaseKind, String),
    /// Away with a phase and its lines.
    RemovePhase(PhaseId),
    /// A phase to another place.
    MovePhase(PhaseId, usize),
    /// A phase's name.
    NamePhase(PhaseId, String),
    /// A phase's kind.
    KindOfPhase(PhaseId, PhaseKind),
    /// A phase's temperature, as typed.
    HeatPhase(PhaseId, String),
    /// A new line in a phase, at a place.
    AddLine(PhaseId, usize),
    /// Away with a line.
    RemoveLine(LineId),
    /// A line to a place in a phase.
    MoveLine(LineId, PhaseId, usize),
    /// A line one place up or down, over the edge into the next phase.
    NudgeLine(LineId, Direction),
    /// A line right before or right after another one.
    DropLine(LineId, LineId, DropSide),
    /// A line's name as typed.
    NameLine(LineId, String),
    /// A line's ingredient, from the shelf.
    ChooseLine(LineId, IngredientId),
    /// A line's share as typed. A word for filling up takes effect with [`apply_fill_up_words`].
    ShareLine(LineId, String),
    /// This line fills up to 100.
    FillUp(LineId),
    /// A line's remark.
    NoteLine(LineId, String),
    /// The lot of a line's ingredient that counts, by name; an empty one for the newest.
    LotOfLine(LineId, String),
    /// What the size of the batch follows from.
    Basis(BatchBasis),
    /// A field of the plan, as typed.
    PlanText(PlanField, String),
    /// Whether jars are filled by mass or by volume; what was typed for the other is gone.
    FillBy(FillBy),
    /// What is in hand of a line, as typed.
    Hand(LineId, String),
    /// Which doses are diluted first.
    Premixes(Premixes),
    /// The unit in which masses are shown.
    Unit(MassUnit),
    /// Other oils in a line's place: what they are, and which share of its place each takes.
    SwapLine(LineId, Vec<(IngredientId, Percent)>),
    /// What is saponified.
    Saponify(Saponified),
    /// Which alkali makes the soap.
    Alkali(AlkaliChoice),
    /// A field of the plan for lye, as typed.
    LyeText(LyeField, String),
    /// How the water for the lye is stated.
    LyeWater(WaterBy),
    /// From which saponification values the lye follows.
    LyeBasis(SvBasis),
    /// The maker knows that a lye discount of nothing or less leaves no margin, or takes that back.
    LyeNoMargin(Acknowledgement),
    /// A text of label and papers, as typed.
    Paper(PaperField, String),
    /// An answer to a finding; one without reason and person takes it back.
    Answer(Answer),
    /// A change of the method.
    Method(MethodChange),
    /// What a finding proposes.
    Remedy(Remedy),
    /// The whole state at once: an older version brought back.
    Restore(Box<State>),
}

/// Groups typing for undo: consecutive changes of one group are one step of undo.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UndoGroup {
    /// Title, notes, target pH.
    About(&'static str),
    /// Name or temperature of a phase.
    Phase(PhaseId, &'static str),
    /// Name, share or note of a line.
    Line(LineId, &'static str),
    /// A field of the plan.
    Plan(PlanField),
    /// What is in hand of a line.
    Hand(LineId),
    /// A field of the plan for lye.
    Lye(LyeField),
    /// A text of a step of the method.
    Step(StepId, StepField),
    /// A text of the papers.
    Paper(PaperField),
    /// The answer to a finding.
    Answer(String),
    /// A value on the shelf.
    Shelf(IngredientId, Field),
    /// A text of a lot on the shelf.
    Lot(IngredientId, usize, LotField),
}

impl Action {
    /// The same with texts as they are kept.
    #[must_use]
    pub(super) fn kept(mut self) -> Self {
        match &mut self {
            Self::Title(text)
            | Self::TargetPh(text)
            | Self::AddPhase(_, text)
            | Self::NamePhase(_, text)
            | Self::HeatPhase(_, text)
            | Self::NameLine(_, text)
            | Self::ShareLine(_, text)
            | Self::LotOfLine(_, text)
            | Self::PlanText(_, text)
            | Self::Hand(_, text)
            | Self::LyeText(_, text) => keep_text(text, MOST_NAME),
            Self::Notes(text) | Self::NoteLine(_, text) | Self::Paper(_, text) => keep_text(text, MOST_NOTE),
            Self::Method(MethodChange::Text(_, field, text)) => keep_text(text, field.most()),
            Self::Answer(answer) => {
                keep_text(&mut answer.reason, MOST_NOTE);
                for text in [&mut answer.value, &mut answer.person] {
                    keep_text(text, MOST_NAME);
                }
            }
            _ => {}
        }
        self
    }

    /// The undo group that this action types into, if it is typing.
    pub fn undo_group(&self) -> Option<UndoGroup> {
        Some(match self {
            Self::Title(_) => UndoGroup::About("title"),
            Self::TargetPh(_) => UndoGroup::About("ph"),
            Self::Notes(_) => UndoGroup::About("notes"),
            Self::NamePhase(id, _) => UndoGroup::Phase(*id, "name"),
            Self::HeatPhase(id, _) => UndoGroup::Phase(*id, "heat"),
            Self::NameLine(id, _) => UndoGroup::Line(*id, "name"),
            Self::ShareLine(id, _) => UndoGroup::Line(*id, "share"),
            Self::NoteLine(id, _) => UndoGroup::Line(*id, "note"),
            Self::PlanText(field, _) => UndoGroup::Plan(*field),
            Self::Hand(id, _) => UndoGroup::Hand(*id),
            Self::LyeText(field, _) => UndoGroup::Lye(*field),
            Self::Paper(field, _) => UndoGroup::Paper(*field),
            Self::Method(MethodChange::Text(step, field, _)) => UndoGroup::Step(*step, *field),
            Self::Answer(answer) => UndoGroup::Answer(answer.finding.clone()),
            _ => return None,
        })
    }
}

fn keep_text(text: &mut String, most: usize) {
    *text = kept(core::mem::take(text), most);
}

/// What an action made that the page may want to put the focus on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Made {
    /// Nothing new.
    Nothing,
    /// A line.
    Line(LineId),
    /// A phase.
    Phase(PhaseId),
}

/// Makes one change. An action on something that is gone changes nothing.
pub fn apply(state: &mut State, action: Action) -> Made {
    let State { formula, plan, lye } = state;
    let about = &mut formula.about;
    match action {
        Action::Title(text) => about.title = text,
        Action::Purpose(purpose) => about.purpose = purpose,
        Action::Area(area) => about.area = area,
        Action::Audience(audience) => about.audience = audience,
        Action::Pack(pack) => about.pack = pack,
        Action::Region(region) => about.region = region,
        Action::TargetPh(text) => about.target_ph = Typed::new(text),
        Action::Notes(text) => about.notes = text,
        Action::AddPhase(kind, name) if formula.phases().len() < MOST_PHASES => {
            return Made::Phase(formula.add_phase(kind, name, usize::MAX));
        }
        Action::AddPhase(..) => {}
        Action::RemovePhase(id) => formula.remove_phase(id),
        Action::MovePhase(id, to) => formula.move_phase(id, to),
        Action::AddLine(phase, at) => return formula.add_line(phase, at).map_or(Made::Nothing, Made::Line),
        Action::RemoveLine(id) => formula.remove_line(id),
        Action::MoveLine(id, phase, at) => formula.move_line(id, phase, at),
        Action::DropLine(id, at, side) => formula.drop_line(id, at, side),
        Action::NudgeLine(id, direction) => formula.nudge_line(id, direction),
        Action::FillUp(id) => fill_up_now(state, id),
        Action::ShareLine(id, text) => on_line(state, id, |line| line.share = Share::typing(&text)),
        Action::NamePhase(id, name) => on_phase(state, id, |phase| phase.name = name),
        Action::KindOfPhase(id, kind) => on_phase(state, id, |phase| phase.kind = kind),
        Action::HeatPhase(id, text) => on_phase(state, id, |phase| phase.heat = Typed::new(text)),
        Action::NameLine(id, name) => on_line(state, id, |line| line.choice = Choice::Named(name)),
        Action::ChooseLine(id, ingredient) => on_line(state, id, |line| line.choose(ingredient)),
        Action::NoteLine(id, note) => on_line(state, id, |line| line.note = note),
        Action::LotOfLine(id, lot) => on_line(state, id, |line| line.lot = lot),
        Action::Basis(basis) => plan.basis = basis,
        Action::PlanText(field, text) => plan_text(state, field, text),
        Action::FillBy(by) => plan.fill = by.empty(),
        Action::Hand(line, text) => {
            plan.in_hand.retain(|hand| hand.line != line);
            if !text.trim().is_empty() {
                plan.in_hand.push(InHand { line, mass: Typed::new(text) });
            }
        }
        Action::Premixes(wish) => plan.premixes = wish,
        Action::Unit(unit) => plan.unit = unit,
        Action::SwapLine(id, parts) => swap_line(state, id, &parts),
        Action::Saponify(part) => lye.part = part,
        Action::Alkali(alkali) => lye.alkali = alkali,
        Action::LyeText(field, text) => lye_text(state, field, text),
        Action::LyeWater(by) => lye.water_by = by,
        Action::LyeBasis(basis) => lye.basis = basis,
        Action::LyeNoMargin(known) => lye.no_margin = known,
        Action::Paper(field, text) => formula.papers.set(field, text),
        Action::Answer(answer) => formula.papers.set_answer(answer),
        Action::Method(change) => change.apply(formula),
        Action::Remedy(remedy) => return apply_remedy(state, remedy),
        Action::Restore(older) => *state = *older,
    }
    Made::Nothing
}

fn on_line(state: &mut State, id: LineId, change: impl FnOnce(&mut crate::formula::Line)) {
    if let Some(line) = state.formula.line_mut(id) {
        change(line);
    }
}

fn on_phase(state: &mut State, id: PhaseId, change: impl FnOnce(&mut crate::formula::Phase)) {
    if let Some(phase) = state.formula.phase_mut(id) {
        change(phase);
    }
}

/// Lets words for filling up take effect, once the maker has left the field that they were typed into. Until then the word
/// is a text like any other: no other line may change while it is typed. `before` is the formula before the typing: the line
/// that filled up keeps the share that it had there, since the word has stood in the place of a number since.
pub(super) fn apply_fill_up_words(state: &mut State, before: Option<&State>) {
    let words = state.formula.lines().filter(|(_, line)| line.share.will_fill_up());
    for id in words.map(|(_, line)| line.id).collect::<Vec<_>>() {
        let had = before.filter(|before| before.formula.fill_up() == state.formula.fill_up());
        let had = totals(&had.unwrap_or(state).formula);
        fill_up(state, id, &had);
    }
}

/// Makes `id` the fill-up line; the one before keeps, as typed text, the share that it `had`.
fn fill_up(state: &mut State, id: LineId, had: &Totals) {
    let before = state.formula.fill_up();
    if before == Some(id) || state.formula.line(id).is_none() {
        return;
    }
    if let Some(before) = before {
        let share = had.share_of(before).map(Typed::of).unwrap_or_default();
        on_line(state, before, |line| line.share = Share::Typed(share));
    }
    on_line(state, id, |line| line.share = Share::FillUp);
}

fn fill_up_now(state: &mut State, id: LineId) {
    let had = totals(&state.formula);
    fill_up(state, id, &had);
}

/// What was in hand of the old oil says nothing of the new ones. They are saponified where it was.
fn swap_line(state: &mut State, id: LineId, parts: &[(IngredientId, Percent)]) {
    let Ok(lines) = new_lines(&state.formula, &totals(&state.formula), id, parts) else { return };
    state.plan.in_hand.retain(|hand| hand.line != id);
    let new = replace(&mut state.formula, id, lines);
    state.formula.take_along_in_method(id, &new);
    if let Saponified::Lines(saponified) = &mut state.lye.part
        && saponified.contains(&id)
    {
        saponified.extend(new.into_iter().filter(|line| *line != id));
    }
}

/// A discount that is typed anew has to be acknowledged anew.
fn lye_text(state: &mut State, field: LyeField, text: String) {
    let lye = &mut state.lye;
    match field {
        LyeField::SodiumShare => lye.sodium_share = Typed::new(text),
        LyeField::SodiumPurity => lye.sodium_purity = Typed::new(text),
        LyeField::PotassiumPurity => lye.potassium_purity = Typed::new(text),
        LyeField::Discount => {
            lye.discount = Typed::new(text);
            lye.no_margin = Acknowledgement::Missing;
        }
        LyeField::Concentration => lye.concentration = Typed::new(text),
        LyeField::Ratio => lye.ratio = Typed::new(text),
    }
}

fn plan_text(state: &mut State, field: PlanField, text: String) {
    let plan = &mut state.plan;
    match field {
        PlanField::Jars => plan.jars = Typed::new(text),
        PlanField::Fill => match &mut plan.fill {
            Fill::Mass(mass) => *mass = Typed::new(text),
            Fill::Volume(volume) => *volume = Typed::new(text),
        },
        PlanField::Density => plan.density = Typed::new(text),
        PlanField::Loss => plan.loss = Typed::new(text),
        PlanField::Mass => plan.mass = Typed::new(text),
        PlanField::Vessel => plan.vessel = Typed::new(text),
        PlanField::HeadRoom => plan.head_room = Typed::new(text),
        PlanField::Step => plan.step = Typed::new(text),
        PlanField::Repeatability => plan.repeatability = Typed::new(text),
        PlanField::Tolerance => plan.tolerance = Typed::new(text),
        PlanField::Cost(field) => plan.costs.set(field, text),
        // What is in hand is set line by line.
        PlanField::InHand => {}
    }
}

/// Makes the change that a finding proposes.
fn apply_remedy(state: &mut State, remedy: Remedy) -> Made {
    match remedy {
        Remedy::Share(id, share) => on_line(state, id, |line| line.share = Share::Typed(Typed::of(share))),
        Remedy::Remove(id) => state.formula.remove_line(id),
        Remedy::ToCoolDown(id) => {
            let phases = state.formula.phases();
            let cool = phases.iter().find(|phase| phase.kind == PhaseKind::CoolDown).map(|phase| phase.id);
            let name = || crate::rules::COOL_DOWN.to_owned();
            let cool = cool.unwrap_or_else(|| state.formula.add_phase(PhaseKind::CoolDown, name(), usize::MAX));
            state.formula.move_line(id, cool, usize::MAX);
        }
        Remedy::Add(ingredient, share, kind) => {
            let phases = state.formula.phases();
            let Some(phase) = phases.iter().find(|phase| phase.kind == kind).or(phases.last()).map(|phase| phase.id)
            else {
                return Made::Nothing;
            };
            if let Some(id) = state.formula.add_line(phase, usize::MAX) {
                on_line(state, id, |line| {
                    line.choice = Choice::Known(ingredient);
                    line.share = Share::Typed(Typed::of(share));
                });
                return Made::Line(id);
            }
        }
        Remedy::TargetPh(ph) => state.formula.about.target_ph = Typed::of(ph),
        Remedy::FillUp(id) => fill_up_now(state, id),
        Remedy::Pack(pack) => state.formula.about.pack = pack,
    }
    Made::Nothing
}
