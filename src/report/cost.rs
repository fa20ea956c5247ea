//! `cost`: what the batch costs, where a price is known.

use super::ingredient;
use crate::formula::Formula;
use crate::quantity::{Money, Quantity};
use crate::sheet::{Cost, CostLine};
use crate::words::cost as words;
use serde_json::{Value, json};

pub(super) fn cost(formula: &Formula, cost: &Cost) -> Value {
    let line = |line: &CostLine| {
        let mut value = json!({"ingredient": ingredient(formula, line.line), "mass_g": line.mass.canonical()});
        match &line.money {
            Ok(money) => value["cost"] = money.canonical().into(),
            Err(why) => value["no_cost"] = words::no_cost(*why).into(),
        }
        if !line.lot.is_empty() {
            value["lot"] = line.lot.as_str().into();
        }
        value
    };
    let mut value = json!({
        "currency": cost.total.currency,
        "complete": cost.is_complete(),
        "total": cost.total.canonical(),
        "lines": cost.lines.iter().map(line).collect::<Vec<_>>(),
    });
    let sums: [(&str, &Option<Money>); 6] = [
        ("packaging", &cost.packaging),
        ("work", &cost.work),
        ("per_jar", &cost.jar),
        ("per_100_g", &cost.per_100g),
        ("price_per_jar", &cost.jar_price),
        ("price_per_100_g", &cost.price_100g),
    ];
    for (key, money) in sums {
        if let Some(money) = money {
            value[key] = money.canonical().into();
        }
    }
    if !cost.not_counted.is_empty() {
        value["not_counted"] = cost.not_counted.iter().map(|field| words::not_counted(*field)).collect();
    }
    value
}
