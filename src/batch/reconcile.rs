//! What became of a batch: how much there should have been, where it went, and what nobody can tell of.
//!
//! Yield and reconciliation are the terms of good manufacturing practice (ISO 22716, from memory: reconciliation compares
//! what went in with what came out). From which difference on a deviation is written down is not decided here.

use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest};

/// Something of a batch that went neither into jars nor to a sample, such as what stayed in the pot or a rejected jar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchLoss {
    /// What, in the maker's words.
    pub what: String,
    /// How much.
    pub mass: Mass,
}

/// What went into a batch and what came out of it, as weighed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct BatchFlows {
    /// Sum of the actual masses of all lines.
    pub weighed: Mass,
    /// What was added beside the lines: water put back, acid or base for the pH.
    pub added: Mass,
    /// What evaporated, if the pot was weighed; nothing otherwise, and then it stays unaccounted for. Water put back in its
    /// place is in `added`, so that both cancel out.
    pub evaporated: Mass,
    /// Sum of what is in all jars.
    pub filled: Mass,
    /// What is kept as a retained sample and is not in `filled`.
    pub retained: Mass,
    /// What was taken away for readings and tests.
    pub sampled: Mass,
    /// What was split off for another product.
    pub split_off: Mass,
    /// Whatever else is known to be gone.
    pub losses: Vec<BatchLoss>,
}

/// What follows. `filled`, `retained`, `sampled`, `split_off`, the losses and `unaccounted` sum to `theoretical` exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reconciliation {
    /// What there is if nothing is lost: weighed + added − evaporated.
    pub theoretical: Mass,
    /// All of which it is known where it went.
    pub accounted: Mass,
    /// What is missing; negative where there is more than there can be, so that something was weighed or noted wrongly.
    pub unaccounted: Mass,
    /// What was filled, of the theoretical mass, to the nearest 0.000001 %, halves up; none of nothing.
    pub yield_share: Option<Percent>,
    /// What is accounted for, of the theoretical mass, likewise.
    pub accounted_share: Option<Percent>,
}

/// Compares what went into a batch with what came out of it.
pub fn reconcile(flows: &BatchFlows) -> Reconciliation {
    let theoretical = flows.weighed.plus(flows.added).minus(flows.evaporated);
    let lost = flows.losses.iter().map(|loss| loss.mass).sum::<Mass>();
    let accounted = flows.filled.plus(flows.retained).plus(flows.sampled).plus(flows.split_off).plus(lost);
    let share = |part: Mass| {
        let whole = (theoretical > Mass::ZERO).then_some(theoretical.units())?;
        Some(Percent::millionths(mul_div_nearest(part.units(), Percent::WHOLE.units(), whole)))
    };
    Reconciliation {
        theoretical,
        accounted,
        unaccounted: theoretical.minus(accounted),
        yield_share: share(flows.filled),
        accounted_share: share(accounted),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    fn percent(text: &str) -> Option<Percent> {
        Percent::from_canonical(text).ok()
    }

    fn loss(what: &str, mass: &str) -> BatchLoss {
        BatchLoss { what: what.into(), mass: grams(mass) }
    }

    // Worked by hand: 1000.0 g in; 968.0 g filled, 12.0 g sampled, 15.0 g on tools: 995.0 g are accounted for and 5.0 g are
    // not. Yield 968 ÷ 1000 = 96.8 %, accounted for 995 ÷ 1000 = 99.5 %.
    #[test]
    fn plain_batch_is_reconciled() {
        let flows = BatchFlows {
            weighed: grams("1000"),
            filled: grams("968"),
            sampled: grams("12"),
            losses: vec![loss("On tools", "15")],
            ..BatchFlows::default()
        };
        let expected = Reconciliation {
            theoretical: grams("1000"),
            accounted: grams("995"),
            unaccounted: grams("5"),
            yield_share: percent("96.8"),
            accounted_share: percent("99.5"),
        };
        assert_eq!(reconcile(&flows), expected);
    }

    // Worked by hand: 1236.0 g weighed, 14.2 g evaporated and put back, 0.8 g of acid on top: 1236 + 15.0 − 14.2 = 1236.8 g.
    // 12 jars hold 1194.3 g; 30.0 g retained, 3.0 g for readings, 2 g split off, 6.5 g in the pot and a rejected jar of 1 g are
    // 42.5 g: 1236.8 g, nothing missing. Yield 1194.3 ÷ 1236.8 = 96.563712… %.
    #[test]
    fn batch_with_water_put_back_is_reconciled() {
        let flows = BatchFlows {
            weighed: grams("1236"),
            added: grams("15"),
            evaporated: grams("14.2"),
            filled: grams("1194.3"),
            retained: grams("30"),
            sampled: grams("3"),
            split_off: grams("2"),
            losses: vec![loss("In the pot", "6.5"), loss("Rejected", "1")],
        };
        let expected = Reconciliation {
            theoretical: grams("1236.8"),
            accounted: grams("1236.8"),
            unaccounted: Mass::ZERO,
            yield_share: percent("96.563713"),
            accounted_share: percent("100"),
        };
        assert_eq!(reconcile(&flows), expected);
    }

    // Worked by hand: 102 g out of 100 g are 2 g more than there can be.
    #[test]
    fn more_than_there_can_be_is_negative() {
        let flows = BatchFlows { weighed: grams("100"), filled: grams("102"), ..BatchFlows::default() };
        let found = reconcile(&flows);
        assert_eq!(found.unaccounted, Mass::micrograms(-2_000_000));
        assert_eq!(found.yield_share, Some(Percent::millionths(102_000_000)));
    }

    #[test]
    fn nothing_has_no_yield() {
        let none = reconcile(&BatchFlows::default());
        assert_eq!((none.theoretical, none.yield_share, none.accounted_share), (Mass::ZERO, None, None));
        let dry = BatchFlows { weighed: grams("1"), evaporated: grams("2"), ..BatchFlows::default() };
        assert_eq!(reconcile(&dry).yield_share, None, "less than nothing");
    }

    prop_compose! {
        fn flows()(
            masses in prop::array::uniform7(0..=Mass::MAX), losses in prop::collection::vec(0..=Mass::MAX, 0..6),
        ) -> BatchFlows {
            let [weighed, added, evaporated, filled, retained, sampled, split_off] = masses.map(Mass::micrograms);
            let losses = losses.into_iter().map(|mass| BatchLoss { what: String::new(), mass: Mass::micrograms(mass) });
            BatchFlows {
                weighed, added, evaporated, filled, retained, sampled, split_off, losses: losses.collect(),
            }
        }
    }

    proptest! {
        #[test]
        fn parts_sum_to_the_whole_exactly(flows in flows()) {
            let found = reconcile(&flows);
            let out = [flows.filled, flows.retained, flows.sampled, flows.split_off, found.unaccounted];
            let parts: i128 = out.into_iter().chain(flows.losses.iter().map(|loss| loss.mass)).map(|mass| i128::from(mass.units())).sum();
            prop_assert_eq!(parts, i128::from(found.theoretical.units()));
            let went_in = flows.weighed.units() + flows.added.units() - flows.evaporated.units();
            prop_assert_eq!(found.theoretical.units(), went_in);
            prop_assert_eq!(found.accounted.plus(found.unaccounted), found.theoretical);
        }

        /// The share is the exact quotient, off by half of its smallest unit at the most.
        #[test]
        fn yield_is_the_exact_share(flows in flows()) {
            let found = reconcile(&flows);
            let whole = i128::from(found.theoretical.units());
            prop_assert_eq!(found.yield_share.is_some(), whole > 0);
            if let Some(share) = found.yield_share.filter(|share| share.units() < i64::MAX) {
                let exact = i128::from(flows.filled.units()) * i128::from(Percent::WHOLE.units());
                prop_assert!((i128::from(share.units()) * whole - exact).abs() * 2 <= whole);
            }
        }

        #[test]
        fn any_numbers_are_reconciled(masses in prop::array::uniform7(any::<i64>()), lost in any::<i64>()) {
            let [weighed, added, evaporated, filled, retained, sampled, split_off] = masses.map(Mass::micrograms);
            let losses = vec![BatchLoss { what: String::new(), mass: Mass::micrograms(lost) }];
            reconcile(&BatchFlows { weighed, added, evaporated, filled, retained, sampled, split_off, losses });
        }
    }
}
