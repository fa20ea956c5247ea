//! One recogniser of names: what a supplier, a shop, a label or a maker writes, and which substances that is.
//!
//! A name is looked for as it stands first, then without what says nothing of the substance (grades, remarks, footnotes),
//! as a plant with its part and product, as a salt or an isomer, and as a blend of such names. Each word must be accounted
//! for: one that is not known, such as `hydrogenated` before an oil, is never passed over. What is misspelt is taken for the
//! one name that it is near to, and only where nothing else is near. Everything else is a question, with candidates.
//!
//! Names are data (`data/`, each row with its source), read once. Nothing here judges a formula.

mod annexes;
mod blends;
mod brackets;
mod compounds;
mod endings;
mod ethers;
mod grades;
mod isomers;
mod key;
mod labels;
mod lexicon;
mod listed;
mod numbers;
mod plain;
mod plants;
mod prepared;
mod reading;
mod recalled;
mod recogniser;
mod registry;
mod remarks;
mod repair;
mod rewrite;
mod scents;
mod shares;
mod spellings;
mod statement_names;
mod titled;
mod tongues;
mod vocabulary;

use crate::facts::{DataFile, data_file};
use crate::law;

pub use labels::{allergen_named, material_label_names};
pub use lexicon::as_label;
pub use listed::{Listing, entries_of};
pub use prepared::prepare;
pub use reading::{Doubt, Meaning, NameReading, Sureness};
pub use recalled::{is_recalled, materials_named, recalled};
pub use recogniser::recognise;
pub use registry::{RegistryNumbers, registry_numbers};
pub use scents::names_scent;

/// The tables of this room: a file that the page fetches.
pub static FILE: DataFile = data_file!(
    "names": "data/synonyms.csv", "data/inci.csv", "data/cas.csv", "data/plants.csv", "data/words.csv", "data/tongues.csv",
    "data/strengths.csv", "data/substance-names.csv",
);

/// Whether names can be told: its tables and the law are here. Before that everything is unknown.
pub fn is_ready() -> bool {
    FILE.is_here() && law::shipped().is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn data_files_bring_every_table_as_it_is() {
        for (file, tables) in [(&law::FILE, 6), (&FILE, 8)] {
            let fetched: &'static DataFile = Box::leak(Box::new(file.unfetched()));
            assert!(!fetched.is_here() && fetched.tables().len() == tables);
            fetched.fill(file.written()).unwrap();
            for table in fetched.tables() {
                let text = fetched.text(table);
                assert!(text == file.text(table) && text.lines().count() > 3, "{table}");
            }
        }
    }

    #[test]
    fn data_files_are_not_taken_for_one_another() {
        let names = FILE.unfetched();
        assert!(names.fill(law::FILE.written()).is_err() && !names.is_here());
    }
}
