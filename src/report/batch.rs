//! The last batch of a document, where its record came with it and was begun under a code.

use crate::desk::OpenDocument;
use crate::paper::{RecordFacts, RecordMaterial};
use crate::quantity::Quantity;
use crate::words::record_of;
use serde_json::{Value, json};

/// Its record as the sheet has it; nothing where there is none.
pub(super) fn batch(open: &OpenDocument) -> Option<Value> {
    let facts = record_of(open).filter(|facts| !facts.code.is_empty())?;
    let mut value = json!({
        "code": facts.code,
        "began": facts.began.text(),
        "materials": facts.materials.iter().map(material).collect::<Vec<_>>(),
        "deviations": facts.deviations.len(),
        "seals": facts.seals.iter().map(|seal| json!({
            "sha256": seal.digest, "at": seal.at.text(), "holds": seal.state == crate::batch::SealState::Intact,
        })).collect::<Vec<_>>(),
    });
    if let Some(batch) = facts.batch {
        value["batch_g"] = batch.canonical().into();
    }
    if let Some(made) = &facts.decision {
        value["decision"] = made.decision.key().into();
    }
    flows(&facts, &mut value);
    Some(value)
}

fn material(one: &RecordMaterial) -> Value {
    let mut value = json!({"name": one.name, "target_g": one.target.canonical(), "off": one.off});
    if let Some(weighed) = one.weighed {
        value["weighed_g"] = weighed.canonical().into();
    }
    if !one.lot.is_empty() {
        value["lot"] = one.lot.as_str().into();
    }
    value
}

fn flows(facts: &RecordFacts, value: &mut Value) {
    if let Some((flows, found)) = &facts.flows {
        value["theoretical_g"] = found.theoretical.canonical().into();
        value["filled_g"] = flows.filled.canonical().into();
        value["unaccounted_g"] = found.unaccounted.canonical().into();
        if let Some(share) = found.yield_share {
            value["yield_percent"] = share.canonical().into();
        }
    }
    if let Some(judged) = facts.fills.as_ref().and_then(|fills| fills.judged.as_ref()) {
        value["fills"] = json!({
            "average_g": judged.average.canonical(), "below_t1": judged.below.len(), "below_t2": judged.far_below.len(),
        });
    }
}
