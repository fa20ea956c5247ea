//! Changes to JSON that leave it JSON: most changed bytes only ever meet the parser of a library, these get past it.

use crate::dice::Dice;
use serde_json::{Map, Value};

/// What a value can be that a reader does not expect.
const TEXTS: [&str; 26] = [
    "",
    "fill-up",
    "4.5",
    "4,5",
    "1.234",
    "-1",
    "1e3",
    "0.0000001",
    "99999999999999999999",
    "glycerin",
    "own-1",
    "no-such-thing",
    "oil",
    "soap",
    "both",
    "meter",
    "batch",
    "jars",
    "volume",
    "2026-11-25T14:02:00Z",
    "2026-02-30T00:00:00Z",
    "\u{202e}<b>",
    "\0",
    "x; y; z 50",
    "18:1 62-86; 16:0 6.5",
    "water 50; glycerin rest",
];

/// A changed text: each line of it is a JSON text. `None` if none of the lines that were picked is JSON.
pub(crate) fn changed(dice: &mut Dice, seeds: &[Vec<u8>]) -> Option<Vec<u8>> {
    let text = std::str::from_utf8(dice.pick(seeds)?).ok()?;
    let other: Option<Value> = dice.pick(seeds).and_then(|seed| serde_json::from_slice(seed).ok());
    let mut lines = Vec::new();
    for line in text.lines() {
        let mut value: Value = serde_json::from_str(line).ok()?;
        for _ in 0..=dice.below(3) {
            change(dice, &mut value, other.as_ref());
        }
        lines.push(value.to_string());
    }
    Some(lines.join("\n").into_bytes())
}

fn change(dice: &mut Dice, root: &mut Value, other: Option<&Value>) {
    let place = dice.below(count(root));
    let donor = match other {
        Some(other) if dice.below(2) == 0 => other.clone(),
        _ => root.clone(),
    };
    let place_there = dice.below(count(&donor));
    let Some(node) = nth(root, &mut { place }) else { return };
    match (dice.below(8), node) {
        (0, Value::Object(fields)) => {
            let key = dice.pick(&fields.keys().cloned().collect::<Vec<_>>()).cloned().unwrap_or_default();
            fields.remove(&key);
        }
        (0 | 1, Value::Array(list)) if !list.is_empty() => {
            list.remove(dice.below(list.len()));
        }
        (2, Value::Array(list)) if !list.is_empty() => {
            let copy = list[dice.below(list.len())].clone();
            let many = 1 + dice.below(12);
            list.extend(std::iter::repeat_n(copy, many));
        }
        (3, Value::Object(fields)) => {
            // A field of another place, under its own name.
            let mut donor = donor;
            if let Some(Value::Object(theirs)) = nth(&mut donor, &mut { place_there })
                && let Some((key, value)) = theirs.iter().nth(dice.below(theirs.len()))
            {
                fields.insert(key.clone(), value.clone());
            }
        }
        (4, node) => {
            let mut donor = donor;
            if let Some(piece) = nth(&mut donor, &mut { place_there }) {
                *node = piece.take();
            }
        }
        (_, node) => *node = leaf(dice),
    }
}

fn leaf(dice: &mut Dice) -> Value {
    match dice.below(8) {
        0 => Value::Null,
        1 => (dice.below(2) == 0).into(),
        2 => (dice.next() >> dice.below(64)).into(),
        3 => (dice.below(200) as f64 / 7.0 - 3.0).into(),
        4 => Value::Array(Vec::new()),
        5 => Value::Object(Map::new()),
        _ => dice.pick(&TEXTS).copied().unwrap_or_default().into(),
    }
}

/// How many values there are, itself included.
fn count(value: &Value) -> usize {
    1 + match value {
        Value::Array(list) => list.iter().map(count).sum(),
        Value::Object(fields) => fields.values().map(count).sum(),
        _ => 0,
    }
}

/// The value at a place in the order of reading.
fn nth<'a>(value: &'a mut Value, place: &mut usize) -> Option<&'a mut Value> {
    if *place == 0 {
        return Some(value);
    }
    *place -= 1;
    match value {
        Value::Array(list) => list.iter_mut().find_map(|value| nth(value, place)),
        Value::Object(fields) => fields.values_mut().find_map(|value| nth(value, place)),
        _ => None,
    }
}
