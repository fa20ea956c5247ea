//! The problems of `swap.json`, built from the table of fats as `swap.py` builds them.

use hundred_parts::facts::CsvTable;
use hundred_parts::sheet::{Constraint, MixtureProblem};
use serde_json::Value;

/// The columns of the table's acids, and the rest.
const ACIDS: [&str; 17] = [
    "8:0",
    "10:0",
    "12:0",
    "14:0",
    "16:0",
    "16:1",
    "18:0",
    "18:1",
    "18:2",
    "18:3a",
    "18:3g",
    "20:0",
    "20:1",
    "22:0",
    "22:1",
    "ricinoleic",
    "other",
];

/// Every triglyceride of the table.
pub(crate) struct Oils {
    /// Their ids.
    pub(crate) ids: Vec<String>,
    /// Their typical acids.
    pub(crate) columns: Vec<Vec<f64>>,
    /// Their oxidizability.
    pub(crate) cox: Vec<f64>,
}

impl Oils {
    /// Reads the table.
    pub(crate) fn read() -> Self {
        let table = CsvTable::read(include_str!("../../src/facts/data/fats.csv"));
        let mut oils = Self { ids: Vec::new(), columns: Vec::new(), cox: Vec::new() };
        for row in table.rows().filter(|row| row.get("type") == Ok("")) {
            let cell = |acid: &&str| row.get(acid).unwrap_or("").split(' ').next().unwrap_or("").parse().unwrap_or(0.0);
            let column: Vec<f64> = ACIDS.iter().map(cell).collect();
            oils.ids.push(row.get("id").unwrap_or("").to_owned());
            oils.cox.push((column[7] + 10.3 * column[8] + 21.6 * (column[9] + column[10])) / 100.0);
            oils.columns.push(column);
        }
        oils
    }

    /// The number of an oil.
    #[allow(dead_code, reason = "the benchmark needs no names")]
    pub(crate) fn number(&self, id: &str) -> usize {
        self.ids.iter().position(|own| own == id).unwrap_or_else(|| panic!("no {id}"))
    }

    /// A mixture of the columns.
    pub(crate) fn mixture(&self, parts: &[(usize, f64)]) -> Vec<f64> {
        (0..ACIDS.len()).map(|acid| parts.iter().map(|(oil, part)| part * self.columns[*oil][acid]).sum()).collect()
    }

    /// The oils `from`, less a target, within limits.
    pub(crate) fn problem(&self, target: &[f64], from: &[usize], cap: f64, cox: Option<f64>) -> MixtureProblem {
        let away = |oil: &usize| self.columns[*oil].iter().zip(target).map(|(a, b)| a - b).collect();
        let row = |most| Constraint { of: from.iter().map(|oil| self.cox[*oil]).collect(), most };
        MixtureProblem {
            points: from.iter().map(away).collect(),
            caps: vec![cap; from.len()],
            rows: cox.map(row).into_iter().collect(),
        }
    }

    /// A problem of the file; without `from` it is all oils but the target.
    pub(crate) fn of(&self, one: &Value) -> MixtureProblem {
        let numbers = |key: &str| -> Option<Vec<usize>> {
            one[key].as_array().map(|all| all.iter().filter_map(|n| n.as_u64().map(|n| n as usize)).collect())
        };
        let of = numbers("of").unwrap_or_default();
        let parts: Vec<f64> = one["parts"].as_array().into_iter().flatten().filter_map(Value::as_f64).collect();
        let parts: Vec<(usize, f64)> = of.iter().copied().zip(parts).collect();
        let from = numbers("from").unwrap_or_else(|| (0..self.ids.len()).filter(|oil| !of.contains(oil)).collect());
        self.problem(&self.mixture(&parts), &from, one["cap"].as_f64().unwrap_or(1.0), one["cox"].as_f64())
    }
}
