//! The names that a formula has looked up, for a page that does so a few at a time.

use super::composition::composition;
use super::parts::makers_names;
use super::totals;
use crate::formula::{Choice, Formula};
use crate::shelf::{Shelf, read_composition};

/// A name to be looked up, with a number of the registry that stands beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AskedName {
    /// As written.
    pub text: String,
    /// Its CAS number, where one is stated.
    pub cas: Option<String>,
}

/// What the maker and suppliers wrote: names of lines and entries, and of the substances in their papers.
pub fn names_written(formula: &Formula, shelf: &Shelf) -> Vec<AskedName> {
    let plain = |text: &str| AskedName { text: text.to_owned(), cas: None };
    let mut all = Vec::new();
    for (_, line) in formula.lines() {
        let entry = match &line.choice {
            Choice::Named(name) => {
                all.push(plain(name));
                continue;
            }
            Choice::Known(id) => shelf.entry(id),
        };
        let Some(entry) = entry else { continue };
        all.extend(makers_names(&entry).map(plain));
        let statement = entry.counted(&line.lot).and_then(|lot| lot.statement);
        for item in statement.map(read_composition).unwrap_or_default().items {
            all.push(AskedName { text: item.name, cas: item.cas });
        }
    }
    all
}

/// What the formula consists of, by name. Looks up what was written first.
pub fn names_in(formula: &Formula, shelf: &Shelf) -> Vec<AskedName> {
    let substances = composition(formula, &totals(formula), shelf).substances;
    substances.into_iter().map(|one| AskedName { text: one.name, cas: None }).collect()
}
