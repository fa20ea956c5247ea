//! From moles to grams on the maker's scale: of what the maker has, or of a solution of it that the scale can weigh.

use super::super::Vessel;
use super::bounds::DoseBounds;
use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest};
use crate::sheet::least_weighable;

/// The strengths that a dose is diluted to, in percent: round numbers, each a tenth of the one before.
const STRENGTHS: [Percent; 4] = [
    Percent::millionths(10_000_000),
    Percent::millionths(1_000_000),
    Percent::millionths(100_000),
    Percent::millionths(10_000),
];
/// The weighing error that is accepted on a dose: 5 % of it.
const TOLERANCE: Percent = Percent::millionths(5_000_000);
/// What may be poured into a vessel: more would thin it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Headroom {
    /// Of a solution that is made for the scale's sake.
    fresh: Mass,
    /// Of one that there is.
    made: Mass,
}

impl Headroom {
    /// Of a vessel that holds `into`. A batch is never thinned by more than any dose may ([`DoseBounds`]); a side sample, which
    /// is thrown away, by a twenty-fifth, and by an eighth for the sake of one bottle: that moves its pH by a hundredth or
    /// two.
    pub fn of(vessel: Vessel, into: Mass) -> Self {
        let most = part(into, DoseBounds::of(vessel).parts);
        match vessel {
            Vessel::Batch => Self { fresh: most, made: most },
            Vessel::Side => Self { fresh: part(into, 25), made: most },
        }
    }

    /// The same where no more than `most` in all may go in from now on: a sixth of that for a weak solution, so that
    /// there is always room for a next dose, of a stronger one.
    #[must_use]
    pub fn within(self, most: Mass) -> Self {
        let sixth = part(most, 6);
        Self { fresh: self.fresh.min(sixth), made: self.made.min(sixth) }
    }
}

fn part(of: Mass, parts: i64) -> Mass {
    Mass::from_units(of.units() / parts)
}

/// A solution to be made first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stock {
    /// What of the maker's acid or base to weigh.
    pub active: Mass,
    /// Distilled water to weigh, in whole steps, rounded up: the solution is never stronger than it is said to be.
    pub water: Mass,
}

/// A dose as it is weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Portion {
    /// The share of pure substance in what is weighed.
    pub strength: Percent,
    /// How much of that.
    pub mass: Mass,
    /// The solution to make first, if it is not what the maker has.
    pub stock: Option<Stock>,
}

/// The portion that brings at most `pure` of the substance into a vessel of so much `room`; nothing if it cannot be
/// weighed at all. `strength` is that of what the maker has, `step` the scale's, `made` the strength of a solution that
/// there is: it is kept as long as it can be weighed half as well as a new one, so that one bottle does.
pub fn portion(pure: Mass, strength: Percent, step: Mass, room: Headroom, made: Option<Percent>) -> Option<Portion> {
    if pure.units() <= 0 || strength.units() <= 0 || step.units() <= 0 {
        return None;
    }
    let least = least_weighable(step, Mass::ZERO, TOLERANCE);
    let of = |strength: Percent| mul_div_nearest(pure.units(), Percent::WHOLE.units(), strength.units());
    let mut chosen = strength;
    for weaker in STRENGTHS.into_iter().filter(|weaker| *weaker < strength) {
        if of(chosen) >= least.units() || of(weaker) > room.fresh.units() {
            break;
        }
        chosen = weaker;
    }
    let fits = |made: &Percent| (least.units() / 2..=room.made.units()).contains(&of(*made));
    if let Some(made) = made.filter(|made| *made < strength && made.units() > 0).filter(fits) {
        chosen = made;
    }
    // Down to a whole step: the next reading says whether more is needed.
    let steps = of(chosen) / step.units();
    let mass = Mass::from_units(steps * step.units());
    (steps > 0).then_some(Portion {
        strength: chosen,
        mass,
        stock: (chosen != strength).then(|| stock(mass, chosen, strength, step, least)),
    })
}

/// Twice what is needed now, and no less than the scale weighs well.
fn stock(needed: Mass, weak: Percent, strong: Percent, step: Mass, least: Mass) -> Stock {
    let up = |units: i64| (units + step.units() - 1) / step.units() * step.units();
    let active = up(mul_div_nearest(needed.units() * 2, weak.units(), strong.units())).max(least.units());
    let all = mul_div_nearest(active, strong.units(), weak.units());
    Stock { active: Mass::from_units(active), water: Mass::from_units(up(all - active)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    fn side(into: &str) -> Headroom {
        Headroom::of(Vessel::Side, grams(into))
    }

    fn percent(text: &str) -> Percent {
        Percent::from_canonical(text).unwrap()
    }

    // Worked: 0.529 mmol/kg citric acid into 500 g from a 10 % solution: 0.000529 × 0.5 × 192.123 / 0.10 = 0.508 g.
    #[test]
    fn portion_of_a_solution_is_rounded_down_to_the_scale() {
        let pure = Mass::from_units(50_816);
        let portion = portion(pure, percent("10"), grams("0.01"), side("500"), None).unwrap();
        assert_eq!((portion.mass, portion.stock), (grams("0.5"), None));
    }

    #[test]
    fn portion_too_small_for_the_scale_is_diluted() {
        let portion = portion(grams("0.02"), Percent::WHOLE, grams("0.01"), side("100"), None).unwrap();
        assert_eq!((portion.strength, portion.mass), (percent("10"), grams("0.2")));
        let stock = portion.stock.unwrap();
        assert_eq!((stock.active, stock.water), (grams("0.17"), grams("1.53")));
    }

    // Worked: 1.7 g of an acid of 88 % is 14.96 g of 10 %, which takes 13.26 g of water; a scale of 0.1 g shows 13.3.
    #[test]
    fn portion_of_a_stock_is_weighed_in_whole_steps() {
        let portion = portion(grams("0.08"), percent("88"), grams("0.1"), side("100"), None).unwrap();
        let stock = portion.stock.unwrap();
        assert_eq!((stock.active, stock.water), (grams("1.7"), grams("13.3")));
        let strength = 1.7 * 88.0 / (1.7 + 13.3);
        assert!((9.9..=10.0).contains(&strength), "{strength}");
    }

    #[test]
    fn portion_never_thins_what_it_goes_into() {
        let portion = portion(grams("0.05"), Percent::WHOLE, grams("0.1"), side("50"), None).unwrap();
        assert_eq!((portion.strength, portion.mass), (percent("10"), grams("0.5")));
        assert!(super::portion(Mass::ZERO, Percent::WHOLE, grams("0.1"), side("50"), None).is_none());
    }
}
