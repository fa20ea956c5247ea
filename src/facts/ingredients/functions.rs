//! The functions of ingredients that are known: `data/functions.csv`.

use std::sync::LazyLock;

use crate::facts::CsvTable;

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/functions.csv")));
static FUNCTIONS: LazyLock<Vec<&'static str>> = LazyLock::new(|| TABLE.parse(|row| row.get("name")).0);

/// Whether a function is one that is known.
pub(crate) fn is_function(name: &str) -> bool {
    FUNCTIONS.iter().any(|function| function.eq_ignore_ascii_case(name))
}

/// The functions that a text names, separated by semicolons or commas.
pub(crate) fn named_functions(text: &str) -> impl Iterator<Item = &str> {
    text.split([';', ',']).map(str::trim).filter(|name| !name.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{Field, materials};

    #[test]
    fn functions_are_sorted_sourced_and_hold_all_of_the_table() {
        let problems = TABLE.parse(|row| Ok((row.get("name")?, row.get("source")?))).1;
        assert!(problems.is_empty() && FUNCTIONS.len() > 80 && FUNCTIONS.is_sorted());
        for material in materials() {
            let text = material.fact(Field::Functions).map_or("", |fact| fact.text);
            let unknown: Vec<_> = named_functions(text).filter(|name| !is_function(name)).collect();
            assert!(unknown.is_empty(), "{}: {unknown:?}", material.id);
        }
    }
}
