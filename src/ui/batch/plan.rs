//! How much is to be made, and on which scale.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, each, el};
use crate::ui::field::{pick_field, pick_one, quantity_field};
use hundred_parts::desk::Action;
use hundred_parts::formula::LineId;
use hundred_parts::quantity::{Mass, MassUnit, Quantity, Typed};
use hundred_parts::sheet::{BatchBasis, Fill, FillBy, Plan, PlanField, Premixes, STEPS};
use hundred_parts::words::{self, FieldText, page};

const UNITS: &[MassUnit] = &[MassUnit::Gram, MassUnit::Kilogram, MassUnit::Ounce];

/// The card.
pub(super) fn card(desk: Desk) -> El {
    let basis = move || desk.with(|open| open.state().plan.basis);
    let pick = |pick: BatchBasis| {
        let radio = el("input").attr("type", "radio").attr("name", "basis").checked_of(move || basis() == pick).on(
            "change",
            move |_| {
                desk.act(Action::Basis(pick));
            },
        );
        el("label").child(radio).text(" ").text(page::basis(pick))
    };
    let choices = el("fieldset")
        .class("choices")
        .child(el("legend").class("hidden").text(page::HOW_MUCH))
        .child(BatchBasis::ALL.into_iter().map(pick).collect::<View>());
    let size = dynamic(basis, move |basis| match basis {
        BatchBasis::Jars => jars(desk),
        BatchBasis::Mass => field(desk, PlanField::Mass, page::BATCH_MASS, "g", |plan| &plan.mass).into(),
        BatchBasis::InHand => in_hand(desk),
        BatchBasis::Vessel => View::from_iter([
            field(desk, PlanField::Vessel, page::VESSEL, "mL", |plan| &plan.vessel),
            field(desk, PlanField::HeadRoom, page::HEAD_ROOM, "%", |plan| &plan.head_room),
            density(desk),
        ]),
    });
    let steps = STEPS.iter().map(|step| words::with_unit(*step, "g", desk.sign));
    let step = move || {
        let step = desk.with(|open| open.state().plan.step_value().unwrap_or(Mass::ZERO));
        // Past the last one nothing is chosen: a step that no scale has is never shown as another.
        STEPS.iter().position(|known| *known == step).unwrap_or(STEPS.len())
    };
    let set_step = move |n: usize| {
        if let Some(step) = STEPS.get(n) {
            desk.act(Action::PlanText(PlanField::Step, Typed::of(*step).text().to_owned()));
        }
    };
    let wish = move || desk.with(|open| open.state().plan.premixes);
    let set_wish = move |wish| {
        desk.act(Action::Premixes(wish));
    };
    let unit = move || desk.with(|open| open.state().plan.unit);
    let set_unit = move |unit| {
        desk.act(Action::Unit(unit));
    };
    el("section")
        .class("card plan no-print")
        .attr("aria-labelledby", "how-much")
        .child(el("h2").id("how-much").text(page::HOW_MUCH))
        .child(choices)
        .child(el("div").class("fields").child(size))
        .child(el("h2").text(page::SCALE))
        .child(
            el("div")
                .class("fields")
                .child(pick_field("step", page::STEP, steps, step, set_step))
                .child(field(desk, PlanField::Repeatability, page::REPEATABILITY, "g", |plan| &plan.repeatability))
                .child(field(desk, PlanField::Tolerance, page::TOLERANCE, "%", |plan| &plan.tolerance))
                .child(pick_one("premixes", page::PREMIXES, Premixes::ALL, page::premixes, wish, set_wish))
                .child(pick_one("unit", page::SHOW_IN, UNITS, words::unit, unit, set_unit)),
        )
}

/// A field of the plan.
fn field<T: Quantity + 'static>(
    desk: Desk,
    field: PlanField,
    label: &str,
    unit: &str,
    read: for<'a> fn(&'a Plan) -> &'a Typed<T>,
) -> El {
    let shown = move || desk.with(|open| FieldText::of(read(&open.state().plan), desk.sign));
    quantity_field(desk, &format!("plan-{}", field.key()), label, unit, shown, move |text| {
        desk.act(Action::PlanText(field, text));
    })
}

fn density(desk: Desk) -> El {
    field(desk, PlanField::Density, page::DENSITY, "g/mL", |plan| &plan.density)
}

fn jars(desk: Desk) -> View {
    let fill_by = move || desk.with(|open| open.state().plan.fill.by());
    let fill = dynamic(fill_by, move |by| {
        let shown = move || {
            desk.with(|open| match &open.state().plan.fill {
                Fill::Mass(mass) => FieldText::of(mass, desk.sign),
                Fill::Volume(volume) => FieldText::of(volume, desk.sign),
            })
        };
        let fill = quantity_field(desk, "plan-fill", page::FILL, page::fill_by(*by), shown, move |text| {
            desk.act(Action::PlanText(PlanField::Fill, text));
        });
        [Some(fill), (*by == FillBy::Volume).then(|| density(desk))].into_iter().flatten().collect()
    });
    let pick = pick_one("fill-by", page::SHOW_FILL, FillBy::ALL, page::fill_by, fill_by, move |by| {
        desk.act(Action::FillBy(by));
    });
    [
        field(desk, PlanField::Jars, page::JARS, "", |plan| &plan.jars).into(),
        fill,
        View::from(pick),
        field(desk, PlanField::Loss, page::LOSS, "%", |plan| &plan.loss).into(),
    ]
    .into_iter()
    .collect()
}

/// What is in hand of each line, and how much could be made of it.
fn in_hand(desk: Desk) -> View {
    let named = move || {
        desk.with(|open| {
            let lines = open.state().formula.lines().filter(|(_, line)| !line.is_blank());
            lines.map(|(_, line)| line.id.number()).collect()
        })
    };
    each(named, move |number| hand(desk, LineId::of(number)))
}

fn hand(desk: Desk, id: LineId) -> El {
    let name = desk.with(|open| {
        open.state().formula.line(id).map(|line| words::choice_name(&line.choice, open.shelf())).unwrap_or_default()
    });
    let shown = move || {
        desk.with(|open| {
            let hand = open.state().plan.in_hand.iter().find(|hand| hand.line == id);
            hand.map(|hand| FieldText::of(&hand.mass, desk.sign)).unwrap_or_default()
        })
    };
    let allows = move || {
        desk.masses(|masses| {
            let hand = &masses.weigh.as_ref().ok()?.batch.hand;
            let (at, line) = hand.iter().enumerate().find(|(_, hand)| hand.line == id)?;
            let allows = words::mass(line.allows, desk.with(|open| open.state().plan.unit), desk.sign);
            let first = if at == 0 { format!(" \u{2013} {}", page::RUNS_OUT) } else { String::new() };
            Some(format!("{}{allows}{first}", page::ALLOWS))
        })
        .unwrap_or_default()
    };
    let set = move |text| {
        desk.act(Action::Hand(id, text));
    };
    el("div")
        .child(quantity_field(desk, &format!("hand-{}", id.number()), &name, "g", shown, set))
        .child(el("span").class("small").text_of(allows))
}
