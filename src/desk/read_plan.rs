//! Reading what a document plans: the batch and its lye.

use super::read_cursor::{JsonCursor, ReadResult};
use super::texts::MOST_NAME;
use crate::formula::{Formula, LineId, MOST_LINES};
use crate::quantity::{Count, MassUnit, Typed};
use crate::sheet::{
    Acknowledgement, AlkaliChoice, BatchBasis, CostField, Fill, InHand, LyePlan, Plan, Premixes, Saponified, SvBasis,
    WaterBy,
};

pub(super) fn plan(at: &JsonCursor<'_>, formula: &Formula) -> ReadResult<Plan> {
    let mut plan = Plan { jars: jars(at)?, ..Plan::default() };
    let by_volume =
        at.get("fill_by")?.is_some_and(|by| by.value.as_str() == Some("volume")) || at.get("fill_ml")?.is_some();
    plan.fill =
        if by_volume { Fill::Volume(at.typed("fill_ml", "100")?) } else { Fill::Mass(at.typed("fill_g", "100")?) };
    plan.density = at.typed("density_g_per_ml", "0.98")?;
    plan.loss = at.typed("loss_percent", "3")?;
    plan.mass = at.typed("mass_g", "1000")?;
    plan.vessel = at.typed("vessel_ml", "2000")?;
    plan.head_room = at.typed("head_room_percent", "20")?;
    if at.get("readability_g")?.is_some() || at.get("readability_g_typed")?.is_some() {
        plan.step = at.typed("readability_g", "0.01")?;
    }
    plan.repeatability = at.typed("repeatability_g", "0.02")?;
    if at.get("tolerance_percent")?.is_some() || at.get("tolerance_percent_typed")?.is_some() {
        plan.tolerance = at.typed("tolerance_percent", "2")?;
    }
    plan.premixes = at.pick("premixes", Premixes::KEYS, Premixes::ALL)?;
    for field in CostField::ALL {
        plan.costs.set(*field, at.text_or_empty(field.key(), MOST_NAME)?);
    }
    let units = [MassUnit::Gram, MassUnit::Kilogram, MassUnit::Ounce];
    plan.unit = at.pick("unit", &["g", "kg", "oz"], &units)?;
    for hand in at.get("in_hand")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_LINES))? {
        plan.in_hand.push(InHand { line: line_at(&hand, formula)?, mass: hand.typed("mass_g", "230")? });
    }
    plan.basis = basis(at, &plan)?;
    Ok(plan)
}

/// A line named by the place of its phase and its place in it.
fn line_at(at: &JsonCursor<'_>, formula: &Formula) -> ReadResult<LineId> {
    let (phase, line) =
        (at.need("phase", "the phase's place")?.index()?, at.need("line", "the line's place")?.index()?);
    let found = formula.phases().get(phase).and_then(|phase| phase.lines.get(line));
    found.map_or_else(|| at.wrong("a line of the formula"), |line| Ok(line.id))
}

pub(super) fn lye(at: &JsonCursor<'_>, formula: &Formula) -> ReadResult<LyePlan> {
    let part = match at.get("lines")? {
        None => Saponified::Soap,
        Some(list) => Saponified::Lines(
            list.list(MOST_LINES)?.iter().map(|entry| line_at(entry, formula)).collect::<ReadResult<_>>()?,
        ),
    };
    let no_margin = match at.get("no_margin_acknowledged")? {
        None => Acknowledgement::Missing,
        Some(at) => Acknowledgement::given_if(at.value.as_bool().map_or_else(|| at.wrong("true or false"), Ok)?),
    };
    Ok(LyePlan {
        part,
        alkali: at.pick("alkali", AlkaliChoice::KEYS, AlkaliChoice::ALL)?,
        sodium_share: at.typed("naoh_mole_percent", "60")?,
        sodium_purity: at.typed("naoh_purity_percent", "98")?,
        potassium_purity: at.typed("koh_purity_percent", "90")?,
        discount: at.typed("discount_percent", "5")?,
        no_margin,
        basis: at.pick("basis", SvBasis::KEYS, SvBasis::ALL)?,
        water_by: at.pick("water_by", WaterBy::KEYS, WaterBy::ALL)?,
        concentration: at.typed("concentration_percent", "33")?,
        ratio: at.typed("water_to_lye", "2")?,
    })
}

/// The basis as stated; where it is not, the first one for which something is given.
fn basis(at: &JsonCursor<'_>, plan: &Plan) -> ReadResult<BatchBasis> {
    if at.get("basis")?.is_some() {
        return at.pick("basis", BatchBasis::KEYS, BatchBasis::ALL);
    }
    Ok(if !plan.jars.is_empty() {
        BatchBasis::Jars
    } else if !plan.mass.is_empty() {
        BatchBasis::Mass
    } else if !plan.in_hand.is_empty() {
        BatchBasis::InHand
    } else if !plan.vessel.is_empty() {
        BatchBasis::Vessel
    } else {
        BatchBasis::default()
    })
}

/// A whole number, as a number or as text.
fn jars(at: &JsonCursor<'_>) -> ReadResult<Typed<Count>> {
    match at.get("jars")? {
        Some(jars) if jars.value.is_number() => {
            let count =
                jars.value.as_u64().map(|n| Typed::<Count>::new(n.to_string())).filter(|typed| typed.value().is_some());
            count.map_or_else(|| jars.wrong("a whole number of jars from 1 to 100000"), Ok)
        }
        _ => at.typed("jars", "12"),
    }
}
