//! Writing documents in the open format, version 1. Decimals are text with a point.

use super::format::{
    BATCH_RECORDS, FORMAT, LOTS_TO_THE_END, METHODS, PREMIXES_AND_REASONS, STOCK, VERSION, VERSION_NAMES,
};
use super::{BatchRef, Document, RecordBody, State, Version};
use crate::facts::{Field, IngredientId};
use crate::formula::{Answer, Choice, Formula, Line, LineId, MethodStep, Phase, Region, Share, StepField, StepKind};
use crate::quantity::{Day, MassUnit, Parsed, Quantity, Typed};
use crate::sheet::{CostField, Fill, LyePlan, Plan, Premixes, Saponified};
use crate::shelf::{Lot, LotField, Shelf};
use serde_json::{Map, Value, json};

type Object = Map<String, Value>;

/// Puts a typed quantity under `key`, and its text under `key_typed` where the canonical text is not what was typed.
fn put<T: Quantity>(object: &mut Object, key: &str, typed: &Typed<T>) {
    let text = typed.text();
    match typed.reading() {
        Parsed::Empty => return,
        Parsed::Value(value) if T::from_canonical(text) == Ok(*value) => {
            object.insert(key.into(), text.into());
            return;
        }
        Parsed::Value(value) => {
            object.insert(key.into(), value.canonical().into());
            if Typed::of(*value).text() == text {
                return;
            }
        }
        Parsed::Ambiguous { .. } | Parsed::Unread(_) => {}
    }
    object.insert(format!("{key}_typed"), text.into());
}

/// [`put`] for a field whose absence means a usual value: that it was emptied is written too.
fn put_or_none<T: Quantity>(object: &mut Object, key: &str, typed: &Typed<T>) {
    if typed.is_empty() {
        object.insert(format!("{key}_typed"), typed.text().into());
    } else {
        put(object, key, typed);
    }
}

fn put_text(object: &mut Object, key: &str, text: &str) {
    if !text.is_empty() {
        object.insert(key.into(), text.into());
    }
}

fn line(line: &Line) -> Value {
    let mut object = Object::new();
    match &line.choice {
        Choice::Known(id) => put_text(&mut object, "ingredient", id.as_str()),
        Choice::Named(name) => put_text(&mut object, "name", name),
    }
    match &line.share {
        Share::FillUp => put_text(&mut object, "percent", "fill-up"),
        Share::Typed(typed) => put(&mut object, "percent", typed),
    }
    put_text(&mut object, "note", &line.note);
    // Older programs read nothing here and count the one statement of the card.
    put_text(&mut object, "lot", &line.lot);
    object.into()
}

fn phase(phase: &Phase) -> Value {
    let mut object = Object::new();
    object.insert("name".into(), phase.name.as_str().into());
    object.insert("kind".into(), phase.kind.key().into());
    put(&mut object, "heat_c", &phase.heat);
    object.insert("lines".into(), phase.lines.iter().map(line).collect());
    object.into()
}

fn answer(answer: &Answer) -> Value {
    let mut object = Object::new();
    object.insert("finding".into(), answer.finding.as_str().into());
    put_text(&mut object, "value", &answer.value);
    put_text(&mut object, "reason", &answer.reason);
    put_text(&mut object, "person", &answer.person);
    put_text(&mut object, "day", &answer.day.map_or_else(String::new, Day::text));
    object.into()
}

pub(super) fn formula(formula: &Formula) -> Value {
    let about = &formula.about;
    let mut object = Object::new();
    object.insert("title".into(), about.title.as_str().into());
    object.insert("use".into(), about.purpose.key().into());
    object.insert("area".into(), about.area.key().into());
    object.insert("audience".into(), about.audience.key().into());
    put(&mut object, "target_ph", &about.target_ph);
    object.insert("pack".into(), about.pack.key().into());
    // What is as it was before there were regions and papers is not written, so older programs still open it.
    if about.region != Region::default() {
        object.insert("region".into(), about.region.key().into());
    }
    put_text(&mut object, "notes", &about.notes);
    let papers = texts(formula.papers.texts().map(|(field, text)| (field.key(), text)));
    if !papers.is_empty() {
        object.insert("papers".into(), papers.into());
    }
    if !formula.papers.answers().is_empty() {
        object.insert("answers".into(), formula.papers.answers().iter().map(answer).collect());
    }
    object.insert("phases".into(), formula.phases().iter().map(phase).collect());
    if !formula.method().is_empty() {
        object.insert("method".into(), formula.method().iter().map(|one| step(one, formula)).collect());
    }
    object.into()
}

fn step(step: &MethodStep, formula: &Formula) -> Value {
    let mut object = Object::new();
    if step.kind != StepKind::default() {
        object.insert("kind".into(), step.kind.key().into());
    }
    for field in StepField::ALL {
        put_text(&mut object, field.key(), step.field(*field));
    }
    let phase = step.phase.and_then(|id| formula.phases().iter().position(|phase| phase.id == id));
    if let Some(phase) = phase {
        object.insert("phase".into(), phase.into());
    }
    // Lines that have gone have no place.
    if step.lines.iter().any(|id| formula.line(*id).is_some()) {
        object.insert("lines".into(), places(&step.lines, formula));
    }
    object.into()
}

fn places(lines: &[LineId], formula: &Formula) -> Value {
    let places = lines.iter().filter_map(|id| place(formula, *id));
    places.map(|(phase, line)| json!({"phase": phase, "line": line})).collect()
}

/// Line ids are not stored, so two formulas are the same if they are written alike.
pub(super) fn same_formula(a: &Formula, b: &Formula) -> bool {
    formula(a) == formula(b)
}

fn unit_key(unit: MassUnit) -> &'static str {
    match unit {
        MassUnit::Gram => "g",
        MassUnit::Kilogram => "kg",
        MassUnit::Ounce => "oz",
    }
}

/// Lines have no id in files: the place of their phase and their place in it.
fn place(formula: &Formula, id: LineId) -> Option<(usize, usize)> {
    let (phase, line) = formula.place_of(id)?;
    Some((formula.phases().iter().position(|p| p.id == phase)?, line))
}

fn plan(plan: &Plan, formula: &Formula) -> Value {
    let mut object = Object::new();
    object.insert("basis".into(), plan.basis.key().into());
    match (plan.jars.value(), plan.jars.text()) {
        (Some(jars), text) if text == jars.canonical() => {
            object.insert("jars".into(), jars.units().into());
        }
        _ => put(&mut object, "jars", &plan.jars),
    }
    match &plan.fill {
        Fill::Mass(mass) => put(&mut object, "fill_g", mass),
        Fill::Volume(volume) => {
            object.insert("fill_by".into(), "volume".into());
            put(&mut object, "fill_ml", volume);
        }
    }
    put(&mut object, "density_g_per_ml", &plan.density);
    put(&mut object, "loss_percent", &plan.loss);
    put(&mut object, "mass_g", &plan.mass);
    put(&mut object, "vessel_ml", &plan.vessel);
    put(&mut object, "head_room_percent", &plan.head_room);
    put_or_none(&mut object, "readability_g", &plan.step);
    put(&mut object, "repeatability_g", &plan.repeatability);
    put_or_none(&mut object, "tolerance_percent", &plan.tolerance);
    if plan.premixes != Premixes::default() {
        object.insert("premixes".into(), plan.premixes.key().into());
    }
    for field in CostField::ALL {
        put_text(&mut object, field.key(), plan.costs.text(*field));
    }
    object.insert("unit".into(), unit_key(plan.unit).into());
    let hand: Vec<Value> = plan
        .in_hand
        .iter()
        .filter_map(|hand| {
            let (phase, line) = place(formula, hand.line)?;
            let mut object = Object::new();
            object.insert("phase".into(), phase.into());
            object.insert("line".into(), line.into());
            put(&mut object, "mass_g", &hand.mass);
            Some(object.into())
        })
        .collect();
    if !hand.is_empty() {
        object.insert("in_hand".into(), hand.into());
    }
    object.into()
}

fn lye(lye: &LyePlan, formula: &Formula) -> Value {
    let mut object = Object::new();
    if let Saponified::Lines(lines) = &lye.part {
        object.insert("lines".into(), places(lines, formula));
    }
    object.insert("alkali".into(), lye.alkali.key().into());
    put(&mut object, "naoh_mole_percent", &lye.sodium_share);
    put(&mut object, "naoh_purity_percent", &lye.sodium_purity);
    put(&mut object, "koh_purity_percent", &lye.potassium_purity);
    put(&mut object, "discount_percent", &lye.discount);
    if lye.no_margin.is_given() {
        object.insert("no_margin_acknowledged".into(), true.into());
    }
    object.insert("basis".into(), lye.basis.key().into());
    object.insert("water_by".into(), lye.water_by.key().into());
    put(&mut object, "concentration_percent", &lye.concentration);
    put(&mut object, "water_to_lye", &lye.ratio);
    object.into()
}

/// The head of a document, which says up to which addition to this version something stands in it; 0 for none.
fn meta(added: u64) -> Object {
    let mut object = Object::new();
    object.insert("format".into(), FORMAT.into());
    object.insert("version".into(), VERSION.into());
    if added > 0 {
        object.insert("additions".into(), added.into());
    }
    object
}

/// What a shelf has of the values that were added to this version.
fn additions(shelf: &Shelf) -> u64 {
    let added: fn(Field) -> bool = |field| matches!(field, Field::SvReason | Field::SvConfirmed);
    let any =
        |added: fn(Field) -> bool| shelf.entries().any(|(_, _, texts)| texts.iter().any(|(field, _)| added(*field)));
    if shelf.lots().any(|(_, lots)| lots.iter().any(|lot| !lot.text(LotField::AfterOpening).is_empty())) {
        return LOTS_TO_THE_END;
    }
    if any(|field| field == Field::Price) || shelf.lots().any(|(_, lots)| lots.iter().any(Lot::has_stock)) {
        return STOCK;
    }
    if any(added) { PREMIXES_AND_REASONS } else { 0 }
}

/// A formula and its plans, for undo and links.
pub(super) fn state_value(state: &State) -> Value {
    let premixes = state.plan.premixes != Plan::default().premixes;
    let added = if premixes { PREMIXES_AND_REASONS } else { 0 };
    let added = if state.formula.method().is_empty() { added } else { METHODS };
    let mut object = meta(if state.plan.costs.is_empty() { added } else { STOCK });
    object.insert("formula".into(), formula(&state.formula));
    object.insert("batch".into(), plan(&state.plan, &state.formula));
    let planned = lye(&state.lye, &state.formula);
    if planned != lye(&LyePlan::default(), &state.formula) {
        object.insert("lye".into(), planned);
    }
    object.into()
}

pub(super) fn state_text(state: &State) -> String {
    state_value(state).to_string()
}

/// A whole document with its versions, and `shelf` entries that it should carry.
pub(super) fn document_value(document: &Document, shelf: Option<&Shelf>) -> Value {
    let mut value = state_value(&document.state);
    if !document.versions.is_empty() {
        value["versions"] = document.versions.iter().map(|kept| version(kept)).collect();
        raise(&mut value, document.versions.iter().map(|kept| version_added(kept)).max().unwrap_or(0));
    }
    if let Some(log) = &document.old_log {
        value["batch"]["ph_log"] = log.clone();
    }
    if !document.batches.is_empty() {
        // The greatest of what stands in it.
        raise(&mut value, document.batches.iter().map(batch_added).max().unwrap_or(0));
        value["records"] = document.batches.iter().map(batch_ref).collect();
    }
    if let Some(shelf) = shelf {
        let used = |id: &str| {
            document.state.formula.lines().any(|(_, line)| line.choice.id().is_some_and(|own| own.as_str() == id))
        };
        value["shelf"] = shelf_value(shelf, &used);
    }
    value
}

/// Raises the number of additions, and never lowers it.
fn raise(value: &mut Value, added: u64) {
    let others = value["additions"].as_u64().unwrap_or(0);
    if added > others {
        value["additions"] = added.into();
    }
}

fn batch_added(batch: &BatchRef) -> u64 {
    match batch {
        BatchRef::Stored { .. } => BATCH_RECORDS,
        BatchRef::Carried(record) => record.additions(),
    }
}

fn is_named(version: &Version) -> bool {
    !version.name.trim().is_empty()
}

fn version_added(version: &Version) -> u64 {
    match (version.formula.method().is_empty(), is_named(version)) {
        (false, _) => METHODS,
        (true, true) => VERSION_NAMES,
        (true, false) => 0,
    }
}

fn version(version: &Version) -> Value {
    let mut value =
        json!({"number": version.number, "saved": version.saved.text(), "formula": formula(&version.formula)});
    if is_named(version) {
        value["name"] = version.name.as_str().into();
    }
    value
}

fn batch_ref(batch: &BatchRef) -> Value {
    match batch {
        BatchRef::Stored { id, begun } => json!({"id": id.as_str(), "begun": begun.text()}),
        BatchRef::Carried(record) => record.value(),
    }
}

/// The record of a batch as it is stored.
pub(super) fn record_text(record: &RecordBody) -> String {
    let mut object = meta(record.additions());
    object.insert("record".into(), record.value());
    Value::from(object).to_string()
}

/// The maker's own entries, overrides and lots among those that `wanted` picks by id.
pub(super) fn shelf_value(shelf: &Shelf, wanted: &dyn Fn(&str) -> bool) -> Value {
    let typed = shelf.entries().filter(|(id, ..)| wanted(id.as_str())).map(|(id, own, values)| {
        let values = texts(values.iter().map(|(field, text)| (field.key(), text.as_str())));
        with_lots(json!({"id": id.as_str(), "own": own, "values": values}), shelf, id)
    });
    let bare = |id: &IngredientId| shelf.entries().all(|(known, ..)| known != id);
    let only_lots = shelf.lots().filter(|(id, _)| wanted(id.as_str()) && bare(id));
    typed.chain(only_lots.map(|(id, _)| with_lots(json!({"id": id.as_str(), "own": false}), shelf, id))).collect()
}

/// One by one: collected at once, a map brings a sort of its own along.
fn texts<'a>(pairs: impl Iterator<Item = (&'static str, &'a str)>) -> Object {
    let mut object = Object::new();
    for (key, text) in pairs {
        object.insert(key.to_owned(), text.into());
    }
    object
}

fn with_lots(mut entry: Value, shelf: &Shelf, id: &IngredientId) -> Value {
    let lots: Vec<Value> = shelf.lots_of(id).iter().filter(|lot| !lot.is_blank()).map(lot).collect();
    if !lots.is_empty() {
        entry["lots"] = lots.into();
    }
    entry
}

fn lot(lot: &Lot) -> Value {
    let mut object = Object::new();
    for field in LotField::ALL {
        put_text(&mut object, field.key(), lot.text(field));
    }
    object.into()
}

/// The maker's shelf as it is stored.
pub(super) fn shelf_text(shelf: &Shelf) -> String {
    let mut object = meta(additions(shelf));
    object.insert("shelf".into(), shelf_value(shelf, &|_| true));
    Value::from(object).to_string()
}
