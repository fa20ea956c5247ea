//! `label`: the list, the allergens, and the lots whose statements count.

use super::ingredient;
use crate::formula::Formula;
use crate::quantity::{Day, Quantity};
use crate::sheet::{Label, UsedLot};
use crate::words;
use serde_json::{Value, json};

/// The lot of each raw material whose allergen statement counts.
pub(super) fn lots(formula: &Formula, used: &[UsedLot]) -> Value {
    let one = |used: &UsedLot| {
        json!({
            "ingredient": ingredient(formula, used.line),
            "lot": used.name,
            "date": used.day.map_or(String::new(), Day::text),
            "chosen": used.chosen,
            "of": used.of,
            "stated": used.stated,
        })
    };
    used.iter().map(one).collect()
}

/// The label's list in order, and every allergen of the product with whether it must be named.
pub(super) fn label(label: &Label) -> Value {
    let allergens: Vec<Value> = label
        .allergens
        .iter()
        .map(|sum| {
            json!({
                "name": sum.allergen.name,
                "percent": sum.share.canonical(),
                "threshold_percent": sum.threshold.canonical(),
                "named": sum.named,
                "source": sum.allergen.basis.source,
            })
        })
        .collect();
    json!({
        "ingredients": label.names(),
        "allergens": allergens,
        "missing": label.open.iter().map(words::label_open).collect::<Vec<_>>(),
    })
}
