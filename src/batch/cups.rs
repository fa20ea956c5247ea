//! Acids and bases that were weighed into cups as lines of the batch, and then dosed out of them: what goes in counts once.

use super::AtStove;
use super::dose::usual_strength;
use crate::facts::{Field, IngredientId, acid, material};
use crate::formula::StepKind;
use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest};

/// What went into the batch as its pH was set.
#[derive(Debug, Default)]
pub(super) struct Cups<'a> {
    /// How much of each, as strong as it is in its cup.
    dosed: Vec<(&'a IngredientId, Mass)>,
    /// Water of solutions, which is in no cup.
    water: Mass,
}

impl<'a> Cups<'a> {
    /// A dose, of so much of the substance itself in it.
    pub(super) fn dose(&mut self, titrant: &'a IngredientId, mass: Mass, strength: Percent) {
        let part = as_sold(titrant, mass, strength);
        self.water = self.water.plus(mass.minus(part));
        match self.dosed.iter_mut().find(|(known, _)| *known == titrant) {
            Some((_, sum)) => *sum = sum.plus(part),
            None => self.dosed.push((titrant, part)),
        }
    }

    /// What was weighed into cups and has not gone in. A line of which nothing was dosed went in by hand.
    pub(super) fn left(&self, at: &AtStove) -> Mass {
        self.dosed.iter().map(|(titrant, dosed)| in_cup(at, titrant).minus(*dosed).max(Mass::ZERO)).sum()
    }

    /// What went in that was in no cup.
    pub(super) fn beside(&self, at: &AtStove) -> Mass {
        let more: Mass =
            self.dosed.iter().map(|(titrant, dosed)| dosed.minus(in_cup(at, titrant)).max(Mass::ZERO)).sum();
        more.plus(self.water)
    }
}

/// How much of an acid or base as it is sold is in a dose, of so much of the substance itself in it.
pub(super) fn as_sold(titrant: &IngredientId, mass: Mass, strength: Percent) -> Mass {
    let neat = material(titrant.as_str()).and_then(|row| row.links.acid_base.and_then(acid));
    let neat = neat.map_or(Percent::WHOLE, usual_strength);
    Mass::from_units(mul_div_nearest(mass.units(), strength.min(neat).units(), neat.units().max(1)))
}

/// What was weighed of a substance for the setting of the pH. A record has names and no ids: of the maker's own substances nobody
/// can tell, and what is dosed of them counts as more.
fn in_cup(at: &AtStove, titrant: &IngredientId) -> Mass {
    let inci = material(titrant.as_str()).and_then(|row| row.fact(Field::Inci)).map_or("", |inci| inci.text);
    let is_it = |line: &&usize| {
        !inci.is_empty() && at.from.lines.get(**line).is_some_and(|line| line.inci.eq_ignore_ascii_case(inci))
    };
    let sets_ph = at.from.steps.iter().filter(|step| step.kind == StepKind::SetPh);
    let line = sets_ph.flat_map(|step| &step.lines).find(is_it).and_then(|line| at.making.lines.get(*line));
    line.and_then(|line| line.weighed.as_ref()).map_or(Mass::ZERO, |weighed| weighed.mass)
}
