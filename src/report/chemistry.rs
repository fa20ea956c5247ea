//! `ph`, `preservation` and `emulsion`.

use crate::facts::{EmulsifierKind, RatioOf};
use crate::formula::LineId;
use crate::quantity::{Decimal, Percent, Ph, Quantity};
use crate::sheet::ph::{Bar, Prediction, Who, Window};
use crate::sheet::{Agent, Crowding, Dissolves, Dose, Emulsion, Preservation, ShareAt, Works};
use crate::words::chemistry::gaps;
use serde_json::{Value, json};

type NameOf<'a> = &'a dyn Fn(LineId) -> Value;

fn ids(lines: &[LineId], ingredient: NameOf<'_>) -> Value {
    lines.iter().map(|id| ingredient(*id)).collect()
}

/// `ph`: predicted range, window, bars, what is not counted.
pub(super) fn ph(found: Option<&Prediction>, window: &Window, target: Option<Ph>, ingredient: NameOf<'_>) -> Value {
    let whose = |who: Who| match who {
        Who::Line(id) => ("ingredient", ingredient(id)),
        Who::Preservative(id) => ("preservative", ingredient(id)),
        Who::Emulsifier(id) => ("emulsifier", ingredient(id)),
        Who::Skin => ("skin", Value::Null),
        Who::Audience => ("audience", Value::Null),
    };
    let bar = |bar: &Bar| {
        let (kind, id) = whose(bar.who);
        let verified = bar.basis.provenance.is_settled();
        json!({
            "of": kind, "ingredient": id, "min": bar.window.min.map(Quantity::canonical),
            "max": bar.window.max.map(Quantity::canonical), "verified": verified,
        })
    };
    let mut value = json!({"window": window.bars.iter().map(bar).collect::<Vec<_>>()});
    match &window.meeting {
        Ok(meeting) => {
            value["min"] = meeting.min.map(Quantity::canonical).into();
            value["max"] = meeting.max.map(Quantity::canonical).into();
        }
        Err((more, less)) => value["conflict"] = json!([more, less]),
    }
    if let Some(target) = target {
        value["target"] = target.canonical().into();
        value["target_against"] = json!(window.against(target));
    }
    if let Some(found) = found {
        value["predicted"] = json!({
            "low": found.low.canonical(), "middle": found.middle.canonical(), "high": found.high.canonical(),
            "buffer_umol_per_kg": found.buffer,
            "counted": ids(&found.counted, ingredient), "not_counted": ids(&found.unseen, ingredient),
        });
    }
    value
}

/// `preservation`: each substance as added, as acid, undissociated, active.
pub(super) fn preservation(found: &Preservation, ingredient: NameOf<'_>) -> Value {
    let share = |at: &ShareAt| {
        json!({
            "ph": at.ph.canonical(), "undissociated_percent": rounded(at.share),
            "range_percent": [rounded(at.range.0), rounded(at.range.1)], "active_percent": rounded(at.active),
        })
    };
    let agent = |agent: &Agent| {
        let mut value = json!({
            "substance": agent.substance.id,
            "lines": ids(&agent.lines, ingredient),
            "percent": agent.added.canonical(),
            "percent_as_counted": agent.counted.canonical(),
            "percent_at_most": agent.counted_most.canonical(),
            "limit_percent": agent.limit.map(Quantity::canonical),
            "limit_verified": agent.substance.limit_provenance.is_verified(),
            "works": match agent.works {
                Works::Yes => "yes",
                Works::WithCare => "with-care",
                Works::No => "no",
                Works::TooLittle => "too-little",
                Works::Unknown => "unknown",
            },
        });
        if let Some(usual) = agent.usual {
            value["usual_percent"] = json!([usual.low.map(Quantity::canonical), usual.high.map(Quantity::canonical)]);
        }
        if let Some(free) = &agent.in_water {
            value["in_water"] = json!({
                "free_percent": free.free.map(rounded), "most_percent": free.most.map(rounded),
                "dissolves": match free.dissolves {
                    Dissolves::Yes => "yes",
                    Dissolves::InDoubt => "in-doubt",
                    Dissolves::No => "no",
                },
                "coefficient": if free.estimated { "estimated" } else { "measured" },
            });
        }
        if let Some([at, low, high]) = &agent.shares {
            value["percent_as_acid"] = agent.counted.canonical().into();
            value["undissociated_percent"] = rounded(at.share).into();
            value["active_percent"] = rounded(at.active).into();
            value["at"] = json!([share(at), share(low), share(high)]);
        }
        value
    };
    let mut value = json!({"preservatives": found.agents.iter().map(agent).collect::<Vec<_>>()});
    if let Some(cover) = found.cover {
        value["weak"] =
            gaps(cover).into_iter().map(|(organism, grade)| json!({"organism": organism, "grade": grade})).collect();
    }
    if found.agents.iter().any(|agent| agent.shares.is_some()) {
        value["not_modelled"] = json!(["emulsifiers", "solubilisers", "gums"]);
    }
    if !found.unknown_blends.is_empty() {
        value["unknown_blends"] = ids(&found.unknown_blends, ingredient);
    }
    value
}

/// To 0.0001 %.
fn rounded(share: Percent) -> String {
    Decimal::of(share).rounded(4).canonical()
}

/// `emulsion`: what the oils ask, what the emulsifiers have, their share, the drops.
pub(super) fn emulsion(found: &Emulsion, ingredient: NameOf<'_>) -> Value {
    let emulsifiers: Vec<Value> = found
        .emulsifiers
        .iter()
        .map(|part| {
            json!({
                "ingredient": ingredient(part.line), "percent": part.share.canonical(), "kind": part.kind.map(EmulsifierKind::key),
                "hlb": part.hlb.map(Quantity::canonical),
                "usual": part.usual.map(|usual| json!({
                    "least_percent": usual.least.canonical(), "good_percent": usual.good.canonical(),
                    "of": if usual.of == RatioOf::Oil { "oil" } else { "formula" }, "source": usual.source, "verified": false,
                })),
            })
        })
        .collect();
    let mut value = json!({
        "system": found.system.key(),
        "required_hlb": found.required.map(Quantity::canonical),
        "hlb": found.hlb.map(Quantity::canonical),
        "emulsifier_share": found.share_of_oil.map(rounded),
        "oil_percent": found.oil.canonical(),
        "emulsifiers": emulsifiers,
        "required_hlb_unknown": ids(&found.required_unknown, ingredient),
        "no_hlb": ids(&found.no_hlb, ingredient),
        "dispersed_volume_percent": found.dispersed.map(rounded),
    });
    if let Some(dose) = found.dose {
        value["emulsifier_dose"] = match dose {
            Dose::Low => "low",
            Dose::Lean => "lean",
            Dose::Good => "good",
        }
        .into();
    }
    if let Some(crowding) = found.crowding {
        value["drops"] = match crowding {
            Crowding::Loose => "loose",
            Crowding::Thick => "thick",
            Crowding::Crowded => "crowded",
            Crowding::BeyondPacking => "beyond-packing",
        }
        .into();
    }
    value
}
