//! Two emulsifiers for a wanted balance: which there are to choose from, and what to begin with.

use super::emulsion::meant_hlb;
use super::hlb::{Pair, pair};
use super::{Emulsion, Totals, required_hlb};
use crate::facts::{Hlb, IngredientId};
use crate::formula::Formula;
use crate::quantity::{Percent, Typed, sort_by};
use crate::shelf::Shelf;

/// An emulsifier with an HLB that means something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PairingCandidate {
    /// Which.
    pub id: IngredientId,
    /// What it is called.
    pub name: String,
    /// Its HLB.
    pub hlb: Hlb,
}

/// All of the shelf, the highest HLB first.
pub fn candidates(shelf: &Shelf) -> Vec<PairingCandidate> {
    let of = |entry: crate::shelf::Ingredient| {
        let hlb = meant_hlb(&entry)?;
        Some(PairingCandidate { id: entry.id().clone(), name: entry.label().to_owned(), hlb })
    };
    let mut all: Vec<PairingCandidate> = shelf.iter().filter_map(of).collect();
    sort_by(&mut all, |a, b| b.hlb.cmp(&a.hlb));
    all
}

/// What is looked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// Places of two candidates, in either order.
    pub pair: (usize, usize),
    /// The HLB that their blend is to have.
    pub wanted: Typed<Hlb>,
    /// How much of both together.
    pub total: Typed<Percent>,
}

impl Wish {
    /// What a formula suggests: its own emulsifiers, what its oils ask for, as much as it has.
    pub fn of(
        formula: &Formula,
        totals: &Totals,
        found: Option<&Emulsion>,
        shelf: &Shelf,
        candidates: &[PairingCandidate],
    ) -> Self {
        let of_line = |line| formula.line(line)?.choice.id();
        let lines = found.map_or(&[][..], |found| &found.emulsifiers);
        let own = lines.iter().filter_map(|part| of_line(part.line));
        let mut places = own.filter_map(|id| candidates.iter().position(|candidate| candidate.id == *id));
        let first = places.next().unwrap_or(0);
        // The other end of the scale, so that every balance between can be reached.
        let far = if first < candidates.len() / 2 { candidates.len().saturating_sub(1) } else { 0 };
        let second = places.next().unwrap_or(far);
        let all: Percent = lines.iter().map(|part| part.share).sum();
        Self {
            pair: (first, second),
            wanted: required_hlb(formula, totals, shelf).0.map(Typed::of).unwrap_or_default(),
            total: if all > Percent::ZERO { Typed::of(all) } else { Typed::default() },
        }
    }

    /// The two candidates, the higher one first, and how they share; nothing while a number is missing.
    pub fn solve<'a>(
        &self,
        candidates: &'a [PairingCandidate],
    ) -> Option<(&'a PairingCandidate, &'a PairingCandidate, Pair)> {
        let (first, second) = (candidates.get(self.pair.0)?, candidates.get(self.pair.1)?);
        let (high, low) = if first.hlb >= second.hlb { (first, second) } else { (second, first) };
        Some((high, low, pair(high.hlb, low.hlb, self.wanted.value()?, self.total.value()?)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formula::{Choice, PhaseKind, Share};
    use crate::quantity::Quantity;
    use crate::sheet::totals;

    #[test]
    fn candidates_are_those_for_which_the_number_means_something() {
        let shelf = Shelf::default();
        let all = candidates(&shelf);
        let has = |id: &str| all.iter().any(|candidate| candidate.id.as_str() == id);
        assert!(has("polysorbate-60") && has("sorbitan-stearate") && !has("emulsifying-wax-nf"));
        assert!(all.is_sorted_by(|a, b| a.hlb >= b.hlb));
    }

    // Source: Griffin's blend algebra: 14.9 x + 4.7 (1 - x) = 10 gives x = 0.5196; of 5 % that is 2.598 % and 2.402 %.
    #[test]
    fn wish_is_solved_whichever_way_round_the_two_are_named() {
        let all = candidates(&Shelf::default());
        let place = |id: &str| all.iter().position(|candidate| candidate.id.as_str() == id).unwrap();
        let (high, low) = (place("polysorbate-60"), place("sorbitan-stearate"));
        assert_eq!((all[high].hlb.units(), all[low].hlb.units()), (1490, 470));
        for pair in [(high, low), (low, high)] {
            let wish = Wish { pair, wanted: Typed::new("10"), total: Typed::new("5") };
            let (first, second, found) = wish.solve(&all).unwrap();
            assert_eq!((first.id.as_str(), second.id.as_str()), ("polysorbate-60", "sorbitan-stearate"));
            let Pair::Shares { high, low } = found else { panic!("{found:?}") };
            assert_eq!((high.units() / 1000, low.units() / 1000), (2598, 2401));
        }
        let unread = Wish { pair: (high, low), wanted: Typed::new("ten"), total: Typed::new("5") };
        assert!(unread.solve(&all).is_none());
    }

    #[test]
    fn wish_begins_with_what_the_oils_ask_for_before_any_emulsifier_is_chosen() {
        let shelf = Shelf::default();
        let mut formula = Formula::default();
        let oil = formula.add_phase(PhaseKind::Oil, "Oil", 0);
        let line = formula.add_line(oil, 0).unwrap();
        let line = formula.line_mut(line).unwrap();
        line.choice = Choice::Known(IngredientId::parse("almond-sweet").unwrap());
        line.share = Share::read("10");
        let asked = shelf.entry(&IngredientId::parse("almond-sweet").unwrap()).unwrap().required_hlb().unwrap().value;
        let wish = Wish::of(&formula, &totals(&formula), None, &shelf, &candidates(&shelf));
        assert_eq!(wish.wanted.value(), Some(asked));
        assert!(wish.total.is_empty() && wish.pair.0 != wish.pair.1);
    }
}
