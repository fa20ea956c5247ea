//! Random work on a formula.

use hundred_parts::desk::{Action, DocId, MethodChange, OpenDocument, ShelfDocument, demo};
use hundred_parts::facts::IngredientId;
use hundred_parts::formula::{Direction, DropSide, LineId, NewStep, PhaseId, PhaseKind, StepField, StepKind, Use};
use hundred_parts::quantity::{Percent, Quantity, Timestamp};
use hundred_parts::sheet::{AlkaliChoice, CostField, LyeField, PlanField, Premixes, Saponified};
use proptest::prelude::*;

pub(crate) fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,3}([.,][0-9]{0,4})?",
        Just("q.s.".to_owned()),
        Just("1.234".to_owned()),
        Just("<b>&\u{202e}\"".to_owned()),
        "\\PC{0,12}",
    ]
}

pub(crate) const PLAN_FIELDS: [PlanField; 14] = [
    PlanField::Jars,
    PlanField::Fill,
    PlanField::Density,
    PlanField::Loss,
    PlanField::Mass,
    PlanField::Vessel,
    PlanField::HeadRoom,
    PlanField::Step,
    PlanField::Repeatability,
    PlanField::Tolerance,
    PlanField::Cost(CostField::Pack),
    PlanField::Cost(CostField::Minutes),
    PlanField::Cost(CostField::Rate),
    PlanField::Cost(CostField::Margin),
];

/// An action on whatever line and phase there are; `pick` chooses among them.
pub(crate) fn action() -> impl Strategy<Value = (u8, usize, String)> {
    (0u8..27, any::<usize>(), text())
}

fn make(open: &OpenDocument, (kind, pick, text): (u8, usize, String)) -> Action {
    let formula = &open.state().formula;
    let lines: Vec<LineId> = formula.lines().map(|(_, line)| line.id).collect();
    let phases: Vec<PhaseId> = formula.phases().iter().map(|phase| phase.id).collect();
    let (Some(line), Some(phase)) =
        (lines.get(pick % lines.len().max(1)).copied(), phases.get(pick % phases.len().max(1)).copied())
    else {
        return Action::AddPhase(PhaseKind::Oil, text);
    };
    match kind {
        0 => Action::Title(text),
        1 => Action::AddPhase(PhaseKind::Other, text),
        2 => Action::RemovePhase(phase),
        3 => Action::MovePhase(phase, pick % 5),
        4 => Action::HeatPhase(phase, text),
        5 | 6 => Action::AddLine(phase, pick % 4),
        7 => Action::RemoveLine(line),
        8 => Action::MoveLine(line, phase, pick % 4),
        9 => Action::NudgeLine(line, [Direction::Down, Direction::Up][pick % 2]),
        10 => Action::NameLine(line, text),
        11 => Action::ShareLine(line, text),
        12 => Action::FillUp(line),
        13 => Action::NoteLine(line, text),
        14 => Action::Hand(line, text),
        15 => Action::DropLine(line, lines[(pick / 7) % lines.len()], [DropSide::After, DropSide::Before][pick % 2]),
        16 => {
            let oils = ["olive", "coconut", "castor"].map(|id| IngredientId::parse(id).unwrap());
            let count = pick % 3 + 1;
            let share = |n: usize| Percent::from_units((pick % 97 + n) as i64 * 1_000_003);
            Action::SwapLine(line, oils.into_iter().take(count).enumerate().map(|(n, oil)| (oil, share(n))).collect())
        }
        17 => Action::Saponify(if pick % 3 == 0 { Saponified::Soap } else { Saponified::Lines(vec![line]) }),
        18 => Action::LyeText(LyeField::Discount, text),
        19 => Action::LyeText([LyeField::Ratio, LyeField::SodiumPurity, LyeField::Concentration][pick % 3], text),
        20 => Action::Alkali(AlkaliChoice::ALL[pick % 3]),
        21 => Action::Purpose(Use::ALL[pick % 3]),
        22 => Action::Premixes(Premixes::ALL[pick % 3]),
        23 => {
            let named = NewStep { kind: StepKind::Weigh, text, lines: vec![line], ..NewStep::default() };
            let of_phase = NewStep { kind: StepKind::Weigh, phase: Some(phase), ..NewStep::default() };
            Action::Method(MethodChange::Take(vec![named, of_phase]))
        }
        24 => Action::Method(MethodChange::Add(Box::new(NewStep { text, ..NewStep::default() }), pick % 4)),
        25 => match formula.method().get(pick % formula.method().len().max(1)) {
            None => Action::Method(MethodChange::Take(Vec::new())),
            Some(step) => Action::Method(match pick % 7 {
                0 => MethodChange::Remove(step.id),
                1 => MethodChange::Move(step.id, pick % 4),
                field => MethodChange::Text(step.id, StepField::ALL[field - 2], text),
            }),
        },
        _ => Action::PlanText(PLAN_FIELDS[pick % PLAN_FIELDS.len()], text),
    }
}

pub(crate) fn worked_on(steps: Vec<(u8, usize, String)>) -> OpenDocument {
    let now = Timestamp::from_millis(0);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    for step in steps {
        let action = make(&open, step);
        open.act(action, now);
        open.end_undo_group(now);
    }
    open
}
