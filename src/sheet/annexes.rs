//! What the annexes of the law say of a formula: its substances as they follow from its lines, against the law.

use super::composition::{FormulaComposition, SubstanceShare};
use crate::compliance::{EntryCheck, LawCheck, LawOutcome, Present, check, is_ready, products_of};
use crate::formula::About;

/// What the annexes say of a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AnnexCheck {
    substances: Vec<SubstanceShare>,
    law: LawCheck,
}

impl AnnexCheck {
    /// Checks the substances of a formula; nothing before law and names are here.
    pub fn of(composition: &FormulaComposition, about: &About) -> Option<Self> {
        if !is_ready() {
            return None;
        }
        let substances = composition.substances.clone();
        let present: Vec<Present<'_>> =
            substances.iter().map(|one| Present { name: &one.name, cas: None, low: one.low, high: one.high }).collect();
        let law = check(&present, products_of(about));
        Some(Self { substances, law })
    }

    /// The entries that its substances fall under, the gravest first.
    pub fn entries(&self) -> Vec<&EntryCheck> {
        self.law.gravest_first()
    }

    /// How many entries come to this.
    pub fn count(&self, outcome: LawOutcome) -> usize {
        self.law.entries.iter().filter(|entry| entry.outcome() == outcome).count()
    }

    /// The substances that fall under an entry.
    pub fn substances(&self, entry: &EntryCheck) -> impl Iterator<Item = &SubstanceShare> {
        entry.of.iter().filter_map(|at| self.substances.get(*at))
    }

    /// The entries that one substance falls under, by its place in the composition.
    pub fn entries_of(&self, at: usize) -> impl Iterator<Item = &EntryCheck> {
        self.law.of(at)
    }

    /// Whether something grave may rest on the shares of the substances under an entry: none is from memory or a guess.
    pub fn rests_on_facts(&self, entry: &EntryCheck) -> bool {
        self.substances(entry).all(|one| one.trust.holds())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formula::LineId;
    use crate::quantity::{Percent, Quantity};
    use crate::sheet::{Named, Trust};

    fn share(name: &str, percent: &str, trust: Trust) -> SubstanceShare {
        let share = Percent::from_canonical(percent).unwrap();
        SubstanceShare::new(&Named::listed(name), (share, share), LineId::of(1), trust)
    }

    fn checked(substances: Vec<SubstanceShare>) -> AnnexCheck {
        let composition = FormulaComposition { substances, ..FormulaComposition::default() };
        AnnexCheck::of(&composition, &About::default()).unwrap()
    }

    // Annex V, entry 29: 1.0 % of phenoxyethanol (Regulation (EC) No 1223/2009).
    #[test]
    fn annexes_of_a_formula_come_gravest_first() {
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
