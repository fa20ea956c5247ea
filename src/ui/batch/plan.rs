//! How much is to be made, and on which scale.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, each, el};
use crate::ui::field::{FieldReader, Set, folded, note, number_input, pick_field, pick_one, quantity_field, unfolding};
use hundred_parts::desk::Action;
use hundred_parts::formula::LineId;
use hundred_parts::quantity::{Mass, MassUnit, Quantity, Typed};
use hundred_parts::sheet::{BatchBasis, Fill, FillBy, Plan, PlanField, Premixes, STEPS};
use hundred_parts::words::{self, FieldText, ledger, page, plan};
use std::rc::Rc;

const UNITS: &[MassUnit] = &[MassUnit::Gram, MassUnit::Kilogram, MassUnit::Ounce];

/// The sentence, and what is rarely needed below it.
pub(super) fn plan(desk: Desk) -> El {
    let basis = move || desk.with(|open| open.state().plan.basis);
    let pick = |pick: BatchBasis| {
        let radio = el("input")
            .attr("type", "radio")
            .attr("name", "basis")
            .attr("value", pick.key())
            .checked_of(move || basis() == pick)
            .on("change", move |_| {
                desk.act(Action::Basis(pick));
            });
        el("label").child(radio).child(el("span").text(plan::basis(pick)))
    };
    let choices = el("fieldset")
        .class("seg")
        .child(el("legend").class("hidden").text(page::HOW_MUCH))
        .child(BatchBasis::ALL.iter().copied().map(pick).collect::<View>());
    let size = dynamic(basis, move |basis| size(desk, *basis));
    let sentence = el("div")
        .class("sentence")
        .child(el("span").class("size").child(size))
        .child(said(plan::ON_A_SCALE))
        .child(scale_steps(desk))
        .child(said(plan::STEPS));
    let stock = dynamic(basis, move |basis| match basis {
        BatchBasis::InHand => el("div").class("fields").child(in_hand(desk)).into(),
        _ => View::nothing(),
    });
    el("section")
        .class("plan no-print")
        .attr("aria-label", page::HOW_MUCH)
        .child(choices)
        .child(sentence)
        .child(in_all(desk))
        .child(stock)
        .child(unfolding(folded(ledger::MORE), move || rarely(desk)))
}

/// The part of the sentence that says how much.
fn size(desk: Desk, basis: BatchBasis) -> View {
    match basis {
        BatchBasis::Jars => jars(desk),
        BatchBasis::Mass => View::from_iter([
            said(plan::MAKE),
            blank(desk, PlanField::Mass, page::BATCH_MASS, |plan| &plan.mass),
            said(plan::GRAMS_IN_ALL),
        ]),
        BatchBasis::InHand => View::from_iter([said(plan::ALL_THIS_ALLOWS)]),
        BatchBasis::Vessel => View::from_iter([
            said(plan::VESSEL_OF),
            blank(desk, PlanField::Vessel, page::VESSEL, |plan| &plan.vessel),
            said(plan::LEAVING),
            blank(desk, PlanField::HeadRoom, page::HEAD_ROOM, |plan| &plan.head_room),
            said(plan::FREE),
            said(plan::AT),
            density(desk),
            said(plan::GRAMS_PER_ML),
        ]),
    }
}

/// What the batch comes to.
fn in_all(desk: Desk) -> El {
    let mass = move || desk.masses(|masses| desk.with(|open| ledger::batch(masses, open.state(), desk.sign)));
    let asked = move || {
        desk.masses(|masses| {
            let sheet = masses.weigh.as_ref().ok()?;
            let unit = desk.with(|open| open.state().plan.unit);
            let other = sheet.batch.asked != sheet.batch.mass;
            other.then(|| format!(" ({})", words::mass(sheet.batch.asked, unit, desk.sign)))
        })
        .unwrap_or_default()
    };
    el("p")
        .class("batch-mass")
        .attr("role", "status")
        .child(el("span").class("hidden").text(page::BATCH_MASS))
        .child(el("strong").text_of(mass))
        .child(el("small").text_of(asked))
}

fn scale_steps(desk: Desk) -> El {
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
    pick_field("step", page::STEP, steps, step, set_step)
}

/// What is set once, or never.
fn rarely(desk: Desk) -> El {
    let wish = move || desk.with(|open| open.state().plan.premixes);
    let set_wish = move |wish| {
        desk.act(Action::Premixes(wish));
    };
    let unit = move || desk.with(|open| open.state().plan.unit);
    let set_unit = move |unit| {
        desk.act(Action::Unit(unit));
    };
    el("div")
        .class("fields")
        .child(field(desk, PlanField::Repeatability, page::REPEATABILITY, "g", |plan| &plan.repeatability))
        .child(field(desk, PlanField::Tolerance, page::TOLERANCE, "%", |plan| &plan.tolerance))
        .child(pick_one("premixes", page::PREMIXES, Premixes::ALL, page::premixes, wish, set_wish))
        .child(pick_one("unit", page::SHOW_IN, UNITS, words::unit, unit, set_unit))
}

/// A piece of the sentence.
fn said(text: &str) -> El {
    el("span").text(text)
}

/// A blank in the sentence.
fn blank<T: Quantity + 'static>(
    desk: Desk,
    field: PlanField,
    label: &str,
    read: for<'a> fn(&'a Plan) -> &'a Typed<T>,
) -> El {
    let shown = move || desk.with(|open| FieldText::of(read(&open.state().plan), desk.sign));
    blank_of(desk, field, label, shown)
}

fn blank_of(desk: Desk, field: PlanField, label: &str, shown: impl Fn() -> FieldText + 'static) -> El {
    let id = format!("plan-{}", field.key());
    let shown: FieldReader = Rc::new(shown);
    let set: Set = Rc::new(move |text| {
        desk.act(Action::PlanText(field, text));
    });
    let input = number_input(desk, &id, shown.clone(), set.clone()).attr("aria-label", label);
    el("span").class("blank").child(input).child(note(&id, shown, set))
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
    blank(desk, PlanField::Density, page::DENSITY, |plan| &plan.density)
}

fn jars(desk: Desk) -> View {
    let fill_by = move || desk.with(|open| open.state().plan.fill.by());
    let fill = dynamic(fill_by, move |_| {
        let shown = move || {
            desk.with(|open| match &open.state().plan.fill {
                Fill::Mass(mass) => FieldText::of(mass, desk.sign),
                Fill::Volume(volume) => FieldText::of(volume, desk.sign),
            })
        };
        blank_of(desk, PlanField::Fill, page::FILL, shown).into()
    });
    let at = dynamic(fill_by, move |by| match by {
        FillBy::Mass => View::nothing(),
        FillBy::Volume => View::from_iter([said(plan::AT), density(desk), said(plan::GRAMS_PER_ML)]),
    });
    let pick = pick_one("fill-by", page::SHOW_FILL, FillBy::ALL, page::fill_by, fill_by, move |by| {
        desk.act(Action::FillBy(by));
    });
    View::from_iter([
        said(plan::MAKE).into(),
        blank(desk, PlanField::Jars, page::JARS, |plan| &plan.jars).into(),
        said(plan::JARS_OF).into(),
        fill,
        pick.into(),
        at,
        said(plan::WITH).into(),
        View::from(blank(desk, PlanField::Loss, page::LOSS, |plan| &plan.loss)),
        said(plan::FOR_LOSS).into(),
    ])
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
