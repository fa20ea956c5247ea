//! Another plan: conditions, days, limits.

use super::Proof;
use super::typing::{Typing, forget};
use crate::ui::dom::{El, View, el};
use crate::ui::field::{button, folded, unfolding};
use hundred_parts::batch::study::{
    ConditionKind, StudyCondition, StudyEvent, StudyLimits, StudyPlan, Viscosity, points_text, read_points,
    usual_condition,
};
use hundred_parts::facts::Months;
use hundred_parts::quantity::{Celsius, Percent, Ph, Quantity};
use hundred_parts::words::proof as words;

/// The fields of one condition.
#[derive(Clone, Copy)]
struct Row {
    kind: ConditionKind,
    points: Typing,
    celsius: Typing,
}

/// The fields of the plan.
struct Fields {
    months: Typing,
    rows: Vec<Row>,
    ph: [Typing; 2],
    viscosity: [Typing; 2],
    method: Typing,
    loss: Typing,
}

/// The fold.
pub(super) fn change(proof: Proof) -> El {
    let inside = unfolding(folded(words::PLAN), move || match proof.now(|study| study.plan.clone()) {
        Some(plan) => form(proof, &plan),
        None => el("div"),
    });
    el("section").class("card").child(inside)
}

fn canonical<Q: Quantity>(value: Option<Q>) -> String {
    value.map_or_else(String::new, Quantity::canonical)
}

impl Fields {
    fn new(proof: Proof, plan: &StudyPlan) -> Self {
        let field = |name: &str, first: String| Typing::new(proof, "plan", name, &first);
        let row = |kind: &ConditionKind| {
            let (kind, known) = (*kind, plan.condition(*kind));
            // Where the plan does not have it, the usual warmth stands there already.
            let celsius =
                known.map_or_else(|| usual_condition(kind).and_then(|(usual, _)| usual.celsius), |c| c.celsius);
            Row {
                kind,
                points: field(
                    &format!("{}.points", kind.key()),
                    known.map_or_else(String::new, |c| points_text(&c.points)),
                ),
                celsius: field(&format!("{}.celsius", kind.key()), canonical(celsius)),
            }
        };
        let limits = &plan.limits;
        Self {
            months: field("months", plan.months.canonical()),
            rows: ConditionKind::ALL.iter().map(row).collect(),
            ph: [
                field("ph-low", canonical(limits.ph.map(|ph| ph.0))),
                field("ph-high", canonical(limits.ph.map(|ph| ph.1))),
            ],
            viscosity: [
                field("viscosity-low", canonical(limits.viscosity.map(|range| range.0))),
                field("viscosity-high", canonical(limits.viscosity.map(|range| range.1))),
            ],
            method: field("method", limits.viscosity_method.clone()),
            loss: field("loss", canonical(limits.weight_loss)),
        }
    }

    fn plan(&self) -> Result<StudyPlan, ()> {
        let mut conditions = Vec::new();
        for row in &self.rows {
            let points = row.points.now();
            if !points.is_empty() {
                let points = read_points(&points).ok_or(())?;
                conditions.push(StudyCondition { kind: row.kind, celsius: row.celsius.quantity::<Celsius>()?, points });
            }
        }
        Ok(StudyPlan {
            months: self.months.quantity::<Months>()?.ok_or(())?,
            conditions,
            limits: StudyLimits {
                ph: range::<Ph>(self.ph)?,
                viscosity: range::<Viscosity>(self.viscosity)?,
                viscosity_method: self.method.now(),
                weight_loss: self.loss.quantity::<Percent>()?,
            },
        })
    }
}

/// Both ends or neither.
fn range<Q: Quantity + PartialOrd>([low, high]: [Typing; 2]) -> Result<Option<(Q, Q)>, ()> {
    match (low.quantity::<Q>()?, high.quantity::<Q>()?) {
        (None, None) => Ok(None),
        (Some(low), Some(high)) if low <= high => Ok(Some((low, high))),
        _ => Err(()),
    }
}

fn form(proof: Proof, plan: &StudyPlan) -> El {
    let fields = Fields::new(proof, plan);
    let row = |row: &Row| {
        let name = words::condition(row.kind);
        let warmth = format!("{name}, \u{b0}C");
        el("div")
            .class("plan-row")
            .child(row.points.words(&format!("plan-{}", row.kind.key()), name))
            .child(row.celsius.number::<Celsius>(&format!("plan-{}-celsius", row.kind.key()), &warmth, "\u{b0}C"))
    };
    let rows = fields.rows.iter().map(row).collect::<View>();
    let [ph_low, ph_high] = fields.ph;
    let [thin, thick] = fields.viscosity;
    let limits = el("div")
        .class("fields")
        .child(fields.months.number::<Months>("plan-months", words::STUDY_MONTHS, words::IN_MONTHS))
        .child(ph_low.number::<Ph>("plan-ph-low", words::PH_LOW, ""))
        .child(ph_high.number::<Ph>("plan-ph-high", words::PH_HIGH, ""))
        .child(fields.method.words("plan-method", words::VISCOSITY_METHOD))
        .child(thin.number::<Viscosity>("plan-viscosity-low", words::VISCOSITY_LOW, ""))
        .child(thick.number::<Viscosity>("plan-viscosity-high", words::VISCOSITY_HIGH, ""))
        .child(fields.loss.number::<Percent>("plan-loss", words::MOST_LOSS, "%"));
    let keep = move || match fields.plan() {
        Err(()) => proof.desk.say(words::PLAN_UNREAD, None),
        Ok(plan) => {
            if proof.desk.note_study(StudyEvent::Planned(plan)) {
                forget(proof, "plan");
                proof.desk.say(words::PLAN_KEPT, None);
                proof.look_soon();
            }
        }
    };
    el("div")
        .class("plan-form")
        .child(el("p").class("small").text(words::PLAN_HINT))
        .child(rows)
        .child(limits)
        .child(button(words::KEEP_PLAN).class("primary").press(keep))
}
