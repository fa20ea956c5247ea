//! What the annexes of the law say of a formula: its substances as they follow from its lines, against the law.
//!
//! Recognising a name takes longer than all else, so this is no part of [`super::Sheet`]: whoever shows it says when.

use super::composition::{FormulaComposition, SubstanceShare};
use crate::compliance::{EntryCheck, LawCheck, LawOutcome, Present, check_read, products_of};
use crate::facts::{Field, fold, material};
use crate::formula::About;
use crate::names::{Meaning, NameReading};
use crate::quantity::Quantity;

/// What the annexes say of a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AnnexCheck {
    substances: Vec<SubstanceShare>,
    law: LawCheck,
}

impl AnnexCheck {
    /// Checks the substances of a formula; `readings` are those of their names, in their order, as far as there are any.
    pub fn of(composition: &FormulaComposition, readings: Vec<NameReading>, about: &About) -> Self {
        let substances = composition.substances.clone();
        let present: Vec<Present<'_>> =
            substances.iter().map(|one| Present { name: &one.name, cas: None, low: one.low, high: one.high }).collect();
        let law = check_read(&present, readings, products_of(about));
        Self { substances, law }
    }

    /// The entries that its substances fall under, the gravest first.
    pub fn entries(&self) -> Vec<&EntryCheck> {
        self.law.gravest_first()
    }

    /// How many entries come to this.
    pub fn count(&self, outcome: LawOutcome) -> usize {
        self.law.entries.iter().filter(|entry| entry.outcome() == outcome).count()
    }

    /// The names of which nothing is certain, each once, with what they may mean, the likeliest first. Nothing was checked for
    /// them.
    pub fn unread(&self) -> Vec<(&str, &[Meaning])> {
        let mut all: Vec<(&str, &[Meaning])> = Vec::new();
        for at in self.law.unread() {
            let (Some(one), Some(reading)) = (self.substances.get(at), self.law.readings.get(at)) else { continue };
            let told_apart = one.high.units() > 0 && !is_one_substance(&one.name, &reading.candidates);
            if told_apart && all.iter().all(|(name, _)| *name != one.name) {
                all.push((&one.name, &reading.candidates));
            }
        }
        all
    }

    /// The substances that fall under an entry.
    pub fn substances(&self, entry: &EntryCheck) -> impl Iterator<Item = &SubstanceShare> {
        entry.of.iter().filter_map(|at| self.substances.get(*at))
    }

    /// Whether something grave may rest on the shares of the substances under an entry: none is from memory or a guess.
    pub fn rests_on_facts(&self, entry: &EntryCheck) -> bool {
        self.substances(entry).all(|one| one.trust.holds())
    }
}

/// Whether a name is an INCI name of everything that it may mean: the law then asks nothing that tells these apart, such as
/// the grades of an oil, or a substance and its solution.
fn is_one_substance(name: &str, candidates: &[Meaning]) -> bool {
    let name = fold(name);
    let has = |id: &str| {
        let inci = material(id).and_then(|material| material.fact(Field::Inci));
        inci.is_some_and(|inci| inci.text.split(';').any(|part| fold(part.trim()) == name))
    };
    let same = |meaning: &Meaning| matches!(meaning, Meaning::Material(id) if has(id));
    !candidates.is_empty() && candidates.iter().all(same)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formula::LineId;
    use crate::quantity::Percent;
    use crate::sheet::Trust;

    fn share(name: &str, percent: &str, trust: Trust) -> SubstanceShare {
        let share = Percent::from_canonical(percent).unwrap();
        let (name, key) = (name.to_owned(), name.to_lowercase());
        SubstanceShare { name, key, low: share, high: share, line: LineId::of(1), trust, inside: false }
    }

    fn checked(substances: Vec<SubstanceShare>) -> AnnexCheck {
        let composition = FormulaComposition { substances, ..FormulaComposition::default() };
        AnnexCheck::of(&composition, Vec::new(), &About::default())
    }

    // Annex V, entry 29: 1.0 % of phenoxyethanol (Regulation (EC) No 1223/2009).
    #[test]
    fn annexes_of_a_formula_come_gravest_first_with_what_is_not_known() {
        let check = checked(vec![
            share("Sodium Benzoate", "0.2", Trust::Plain),
            share("Quorblium Extract", "2", Trust::Plain),
            share("Phenoxyethanol", "1.2", Trust::Plain),
            share("Quorblium Extract", "1", Trust::Plain),
        ]);
        let first = check.entries().remove(0);
        assert_eq!((first.entry.title().as_str(), first.outcome()), ("Annex V, 29", LawOutcome::Above));
        assert_eq!(check.substances(first).map(|one| one.name.as_str()).collect::<Vec<_>>(), ["Phenoxyethanol"]);
        assert_eq!(check.count(LawOutcome::Above), 1);
        let unread: Vec<&str> = check.unread().iter().map(|(name, _)| *name).collect();
        assert_eq!(unread, ["Quorblium Extract"]);
    }

    #[test]
    fn annexes_ask_nothing_about_grades_of_one_substance() {
        let check = checked(vec![
            share("Helianthus Annuus Seed Oil", "4", Trust::Plain),
            share("Panthenol", "1", Trust::Plain),
            share("Quorblium Extract", "1", Trust::Plain),
        ]);
        assert!(check.law.readings.iter().all(|reading| !reading.is_certain()), "two rows share each name");
        assert_eq!(check.unread().iter().map(|(name, _)| *name).collect::<Vec<_>>(), ["Quorblium Extract"]);
    }

    #[test]
    fn annexes_tell_whether_shares_are_from_memory() {
        for (trust, holds) in [(Trust::Plain, true), (Trust::Maker, true), (Trust::Table, false), (Trust::Open, false)]
        {
            let check = checked(vec![share("Phenoxyethanol", "1.2", trust)]);
            assert_eq!(check.rests_on_facts(check.entries().remove(0)), holds, "{trust:?}");
        }
    }
}
