//! `swap`: what can take the place of an oil, asked for by `"swap": {"ingredient": "argan", …}` beside the document's own keys.

use crate::desk::ReadProblem;
use crate::facts::{Allergens, IngredientId};
use crate::quantity::{Money, Quantity, Typed};
use crate::sheet::{Offer, SwapAnswer, SwapWish, swap, swap_cost};
use crate::shelf::Shelf;
use crate::words::{self, DecimalSign};
use serde_json::{Map, Value, json};

/// The answer to what a document asks; nothing where it asks for none.
///
/// # Errors
/// The first thing that is wrong with the request, with its path.
pub(super) fn answer(document: &Value, shelf: &Shelf) -> Result<Option<Value>, ReadProblem> {
    let Some(asked) = document.get("swap") else { return Ok(None) };
    let asked = asked.as_object().ok_or_else(|| wrong("", asked, "an object"))?;
    let old = asked.get("ingredient").and_then(Value::as_str).and_then(|id| IngredientId::parse(id).ok());
    let old =
        old.ok_or_else(|| wrong("ingredient", asked.get("ingredient").unwrap_or(&Value::Null), "the id of an oil"))?;
    let wish = wish(asked)?;
    let limits = wish.limits().ok_or_else(|| wrong("", &Value::Null, "limits that can be read"))?;
    Ok(Some(match swap(shelf, &old, &limits, wish.weighting()) {
        Ok(found) => told(shelf, &old, &found),
        Err(why) => json!({"ingredient": old.as_str(), "no_swap": words::swap::no_swap(why, DecimalSign::Point)}),
    }))
}

fn wrong(key: &str, found: &Value, expected: &str) -> ReadProblem {
    let path = if key.is_empty() { "swap".to_owned() } else { format!("swap.{key}") };
    ReadProblem { path, found: found.to_string(), expected: expected.to_owned() }
}

fn wish(asked: &Map<String, Value>) -> Result<SwapWish, ReadProblem> {
    let mut wish = SwapWish::default();
    for (key, value) in asked {
        let flag = || value.as_bool().ok_or_else(|| wrong(key, value, "true or false"));
        match key.as_str() {
            "ingredient" => {}
            "in_hand" => wish.in_hand = flag()?,
            "plants_only" => wish.plants_only = flag()?,
            "no_drying" => wish.no_drying = flag()?,
            "keeping" => wish.keeping = flag()?,
            "no_dearer" => wish.no_dearer = flag()?,
            "cost_per_kg_at_most" => {
                let text = value.as_str().filter(|text| Money::read(text).is_ok_and(|read| read.is_some()));
                let expected = "a sum as text, such as \"12.50 EUR\"";
                text.ok_or_else(|| wrong(key, value, expected))?.clone_into(&mut wish.cost);
            }
            "most_oils" => {
                let most = value.as_u64().filter(|most| *most <= 3).and_then(|most| u8::try_from(most).ok());
                wish.most_oils = most.ok_or_else(|| wrong(key, value, "0 (any number) to 3"))?;
            }
            "most_of_one_percent" => wish.most_of_one = decimal(key, value, "60")?,
            "oxidation_index_at_most" => wish.oxidizability = decimal(key, value, "2.5")?,
            "hlb_within" => wish.hlb_within = decimal(key, value, "1")?,
            "avoid" => {
                for one in value.as_array().ok_or_else(|| wrong(key, value, "a list of allergens"))? {
                    let known = one.as_str().and_then(Allergens::from_key);
                    wish.set_avoids(known.ok_or_else(|| wrong(key, one, "the key of an allergen"))?, true);
                }
            }
            _ => return Err(wrong(key, value, "a limit of a swap")),
        }
    }
    Ok(wish)
}

fn decimal<Q: Quantity>(key: &str, value: &Value, example: &str) -> Result<Typed<Q>, ReadProblem> {
    let read = value.as_str().and_then(|text| Q::from_canonical(text).ok());
    read.map(Typed::of).ok_or_else(|| wrong(key, value, &format!("a decimal as text, such as \"{example}\"")))
}

fn told(shelf: &Shelf, old: &IngredientId, found: &SwapAnswer) -> Value {
    let single = |one: &crate::sheet::Single| {
        json!({
            "ingredient": one.id.as_str(), "differing_points": one.misplaced.canonical(),
            "breaks": one.breaks.iter().map(|limit| words::swap::limit(limit, DecimalSign::Point)).collect::<Vec<_>>(),
        })
    };
    let left = |left: &crate::sheet::LeftOut| json!({"ingredient": left.id.as_str(), "why": words::swap::why_left_out(left.why)});
    let mut value = json!({
        "ingredient": old.as_str(),
        "singles": found.singles.iter().map(single).collect::<Vec<_>>(),
        "left_out": found.left_out.iter().map(left).collect::<Vec<_>>(),
    });
    match &found.blend {
        Ok(best) => {
            value["blend"] = offer(best);
            // Only where every price is known.
            if let Some(cost) = swap_cost(shelf, old, &best.parts) {
                let (before, after) = (cost.before.canonical(), cost.after.canonical());
                value["blend"]["cost_per_kg"] =
                    json!({"before": before, "after": after, "currency": cost.after.currency});
            }
        }
        Err(clash) => value["clash"] = words::swap::clash(clash, DecimalSign::Point).into(),
    }
    value
}

fn offer(best: &Offer) -> Value {
    let part = |(id, share): &(IngredientId, crate::quantity::Percent)| json!({"ingredient": id.as_str(), "percent": share.canonical()});
    json!({
        "parts": best.parts.iter().map(part).collect::<Vec<_>>(),
        "differing_points": best.misplaced.canonical(),
        "is_match": best.is_match(),
        "allergens_gained": best.gained.keys().collect::<Vec<_>>(),
        "allergens_lost": best.lost.keys().collect::<Vec<_>>(),
        "required_hlb": best.required_hlb.map(Quantity::canonical),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::Field;

    fn asked(request: Value) -> Result<Option<Value>, String> {
        answer(&json!({"swap": request}), &Shelf::default()).map_err(|problem| problem.to_string())
    }

    #[test]
    fn swap_is_answered_with_what_it_may_be() {
        let found = asked(json!({"ingredient": "argan", "plants_only": true, "avoid": ["tree-nut", "peanut"]}))
            .unwrap()
            .unwrap();
        let parts = found["blend"]["parts"].as_array().unwrap();
        assert!((1..=3).contains(&parts.len()), "{found:#}");
        assert!(parts.iter().all(|part| part["ingredient"] != "argan" && part["ingredient"] != "almond-sweet"));
        let left = found["left_out"].as_array().unwrap();
        assert!(left.iter().any(|left| left["ingredient"] == "lard" && left["why"] == "it is of animals"));
        assert_eq!(answer(&json!({}), &Shelf::default()), Ok(None));
    }

    #[test]
    fn swap_tells_what_a_kilogram_costs_where_every_price_is_known() {
        let mut shelf = Shelf::default();
        for entry in crate::facts::materials().filter(|row| row.links.fat.is_some()) {
            shelf.set(&entry.id, crate::facts::Field::Price, "10 EUR");
        }
        let argan = IngredientId::parse("argan").unwrap();
        shelf.set(&argan, crate::facts::Field::Price, "60 EUR");
        let request = json!({"swap": {"ingredient": "argan"}});
        let found = answer(&request, &shelf).unwrap().unwrap();
        // Parts of 100 % at 10 for a kilogram are 10.
        assert_eq!(found["blend"]["cost_per_kg"], json!({"before": "60", "after": "10", "currency": "EUR"}));
        shelf.set(&argan, crate::facts::Field::Price, "");
        let found = answer(&request, &shelf).unwrap().unwrap();
        assert!(found["blend"].get("cost_per_kg").is_none() && found["blend"]["parts"].is_array());
    }

    #[test]
    fn swap_keeps_a_cost_that_is_asked_for() {
        let mut shelf = Shelf::default();
        for (oil, price) in [("argan", "40 EUR"), ("olive", "12 EUR"), ("sesame", "15 EUR")] {
            shelf.set(&IngredientId::parse(oil).unwrap(), Field::Price, price);
        }
        let request = json!({"swap": {"ingredient": "argan", "cost_per_kg_at_most": "12.75 EUR", "no_dearer": true}});
        let told = answer(&request, &shelf).unwrap().unwrap();
        let after: f64 = told["blend"]["cost_per_kg"]["after"].as_str().unwrap().parse().unwrap();
        assert!(after <= 12.75 && told["left_out"].as_array().unwrap().len() > 50, "{told}");
    }

    #[test]
    fn swap_asked_for_wrongly_is_told_where() {
        for (request, told) in [
            (json!(3), "swap: found 3, expected an object"),
            (json!({}), "swap.ingredient: found null, expected the id of an oil"),
            (json!({"ingredient": "argan", "most_oils": 9}), "swap.most_oils: found 9, expected 0 (any number) to 3"),
            (
                json!({"ingredient": "argan", "avoid": ["stones"]}),
                "swap.avoid: found \"stones\", expected the key of an allergen",
            ),
            (json!({"ingredient": "argan", "cheap": true}), "swap.cheap: found true, expected a limit of a swap"),
            (
                json!({"ingredient": "argan", "hlb_within": 1}),
                "swap.hlb_within: found 1, expected a decimal as text, such as \"1\"",
            ),
        ] {
            assert_eq!(asked(request), Err(told.to_owned()));
        }
        assert!(asked(json!({"ingredient": "beeswax"})).unwrap().unwrap()["no_swap"].is_string());
    }
}
