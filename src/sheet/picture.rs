//! What the pictures of the benches draw: a value on an axis, beside the window in which it is usual or works.
//!
//! The figures are those of the sheet, in units of their quantity. What is not known stays so: no window, no end of one and
//! no value is made up in order to be drawn.

use super::{Agent, Emulsion, Figures};
use crate::facts::{FattyAcid, Hlb, RatioOf};
use crate::quantity::{Percent, Ph, Quantity, mul_div_nearest};

/// An axis with a mark at each step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Axis {
    /// Its lower end.
    pub low: i64,
    /// Its upper end.
    pub high: i64,
    /// From mark to mark.
    pub step: i64,
}

/// Most steps of an axis: on a phone there is room for so many numbers.
const MOST_STEPS: i64 = 6;

impl Axis {
    /// The pH that products for skin and hair have, and some more.
    pub const PH: Self = Self { low: 200, high: 1_000, step: 100 };

    /// From nothing to `most` or a little more, in steps of 1, 2 or 5 times a power of ten.
    pub fn up_to(most: i64) -> Self {
        let mut step = 1;
        for times in [2, 5, 2].into_iter().cycle() {
            if step >= i64::MAX / 100 || most <= step * MOST_STEPS {
                break;
            }
            // 1, 2, 5, 10: the step from 2 to 5 is by two and a half.
            step = if times == 5 { step / 2 * 5 } else { step * times };
        }
        let steps = most.max(1).div_euclid(step) + i64::from(most.max(1) % step != 0);
        Self { low: 0, high: step * steps, step }
    }

    /// Where a value lies on a line of this length; beyond an end at that end.
    pub fn at(&self, value: i64, length: i64) -> i64 {
        let within = value.clamp(self.low, self.high) - self.low;
        mul_div_nearest(within, length, (self.high - self.low).max(1))
    }

    /// The values that have a mark.
    pub fn marks(&self) -> impl Iterator<Item = i64> + use<> {
        let Self { low, high, step } = *self;
        (0..).map(move |n| low + n * step).take_while(move |value| *value <= high)
    }
}

/// The fatty acids of a blend as bars on one axis.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AcidBars {
    /// In percent.
    pub axis: Axis,
    /// The acids that are there; one without a name for those that have no column.
    pub shares: Vec<(Option<FattyAcid>, Percent)>,
    /// The part of the fats of which the acids are not known: the shares are those of the others.
    pub unknown: Option<Percent>,
}

impl AcidBars {
    /// Of these figures.
    pub fn of(figures: &Figures) -> Self {
        let shares = figures.bar();
        let unknown = Some(figures.unknown).filter(|unknown| *unknown > Percent::ZERO);
        let most = shares.iter().map(|(_, share)| *share).chain(unknown).max().unwrap_or_default();
        Self { axis: Axis::up_to(most.units()), shares, unknown }
    }
}

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// A preservative, as counted, of the whole product.
    Dose,
    /// The pH of the product.
    Acidity,
    /// The emulsifiers, of the oils.
    OfOils,
    /// A polymer that emulsifies, of the whole formula.
    OfFormula,
    /// HLB.
    Hlb,
}

/// An end of a window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// Here.
    At(i64),
    /// There is none: it goes on.
    Open,
    /// There may be one, and nobody told where.
    NotKnown,
}

/// From and to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reach {
    /// Lower end.
    pub low: End,
    /// Upper end.
    pub high: End,
}

impl Reach {
    /// An end that is absent is not known. Nothing if neither is.
    fn of(low: Option<i64>, high: Option<i64>) -> Option<Self> {
        let end = |end: Option<i64>| end.map_or(End::NotKnown, End::At);
        (low.is_some() || high.is_some()).then(|| Self { low: end(low), high: end(high) })
    }
}

/// A value on an axis. Figures are in units of what is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gauge {
    /// What is measured.
    pub of: Measure,
    /// The axis.
    pub axis: Axis,
    /// The product's own value, least and greatest; nothing where it is not known.
    pub own: Option<(i64, i64)>,
    /// Where it is usual, works, or is called for; nothing where that is not known.
    pub window: Option<Reach>,
    /// Beside the window: where it does with care.
    pub with_care: Option<(i64, i64)>,
    /// What the law allows, and whether that was read in its source.
    pub limit: Option<(i64, bool)>,
    /// The window is that of a part only.
    pub of_a_part: bool,
}

impl Gauge {
    const fn new(of: Measure, axis: Axis) -> Self {
        Self { of, axis, own: None, window: None, with_care: None, limit: None, of_a_part: false }
    }

    /// How much there is of a preservative, against its usual share and its limit.
    pub fn dose(agent: &Agent) -> Self {
        let units = |share: Option<Percent>| share.map(|share| share.units());
        let own = (agent.counted.units(), agent.counted_most.units().max(agent.counted.units()));
        let window = agent.usual.and_then(|usual| Reach::of(units(usual.low), units(usual.high)));
        // Nothing is allowed at all: that is said by a finding, and is no point of a scale.
        let limit = agent.limit.filter(|limit| *limit > Percent::ZERO);
        let usual = agent.usual.and_then(|usual| usual.low.max(usual.high));
        let ends = [Some(own.1), units(usual), units(limit)];
        let most = ends.into_iter().flatten().max().unwrap_or(0);
        let limit = limit.map(|limit| (limit.units(), agent.substance.limit_provenance.is_verified()));
        Self { own: Some(own), window, limit, ..Self::new(Measure::Dose, Axis::up_to(most)) }
    }

    /// The pH of the product against that at which a preservative works.
    pub fn acidity(agent: &Agent, target: Option<Ph>) -> Self {
        let row = agent.substance;
        let units = |ph: Option<Ph>| ph.map(|ph| ph.units());
        let window = row.window.and_then(|window| Reach::of(units(window.min), units(window.max)));
        let max = row.window.and_then(|window| units(window.max));
        let with_care = max.zip(units(row.ph_worst)).filter(|(max, worst)| worst > max);
        Self { own: units(target).map(|ph| (ph, ph)), window, with_care, ..Self::new(Measure::Acidity, Axis::PH) }
    }

    /// How much there is of emulsifiers, against what they take.
    pub fn emulsifiers(found: &Emulsion) -> Self {
        let judged = found.judged();
        let of_formula = found.polymer.is_some() || judged.is_some_and(|(_, usual)| usual.of == RatioOf::Formula);
        let have = judged.map(|(have, _)| have).or(found.of_oils()).map(|share| share.units());
        let usual = judged.map(|(_, usual)| (usual.least.units(), usual.good.units()));
        let most = have.into_iter().chain(usual.map(|(_, good)| good.saturating_mul(2))).max().unwrap_or(0);
        Self {
            own: have.map(|have| (have, have)),
            window: usual.map(|(_, good)| Reach { low: End::At(good), high: End::Open }),
            with_care: usual.filter(|(least, good)| least < good),
            ..Self::new(if of_formula { Measure::OfFormula } else { Measure::OfOils }, Axis::up_to(most))
        }
    }

    /// The HLB of the emulsifiers against that which the oils call for; nothing where an HLB means nothing.
    pub fn hlb(found: &Emulsion) -> Option<Self> {
        if !found.no_hlb.is_empty() || !found.goes_by_hlb() {
            return None;
        }
        let units = |hlb: Option<Hlb>| hlb.map(|hlb| hlb.units());
        let (own, required) = (units(found.hlb), units(found.required));
        let most = [own, required, Some(HLB_AXIS)].into_iter().flatten().max().unwrap_or(HLB_AXIS);
        Some(Self {
            own: own.map(|own| (own, own)),
            window: required.and_then(|hlb| Reach::of(Some(hlb - BATCHES_AROUND), Some(hlb + BATCHES_AROUND))),
            of_a_part: !found.required_unknown.is_empty(),
            ..Self::new(Measure::Hlb, Axis::up_to(most))
        })
    }
}

/// The HLB scale of those that are made for one ends here, in hundredths.
const HLB_AXIS: i64 = 2_000;
/// How far around the required HLB five small batches are tried, in hundredths: see `words::chemistry::RULE_OF_THUMB`.
const BATCHES_AROUND: i64 = 100;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{PhWindow, UseRange, preservative};
    use crate::sheet::Works;

    fn axis(most: i64) -> Vec<i64> {
        Axis::up_to(most).marks().collect()
    }

    #[test]
    fn axis_ends_at_or_just_above_what_it_must_show() {
        assert_eq!(axis(1_000_000), [0, 200_000, 400_000, 600_000, 800_000, 1_000_000]);
        assert_eq!(axis(1_050_000).last(), Some(&1_200_000));
        assert_eq!(axis(66_700_000), [0, 20_000_000, 40_000_000, 60_000_000, 80_000_000]);
        assert_eq!(axis(2_000), [0, 500, 1_000, 1_500, 2_000]);
        for most in [0, -5, 1, 7, 59, 60, 61, 1_999, 4_000, 123_456_789, 100_000_000_000] {
            let axis = Axis::up_to(most);
            let steps = axis.marks().count() as i64 - 1;
            assert!((1..=MOST_STEPS).contains(&steps), "{most}: {steps} steps");
            assert!(axis.high >= most && axis.high - axis.step < most.max(1), "{most}: {axis:?}");
            let digit = axis.step.to_string().chars().next();
            assert!(matches!(digit, Some('1' | '2' | '5')), "{most}: {axis:?}");
        }
    }

    #[test]
    fn value_beyond_an_axis_lies_at_its_end() {
        assert_eq!([100, 200, 600, 1_000, 1_400].map(|ph| Axis::PH.at(ph, 320)), [0, 0, 160, 320, 320]);
        assert_eq!(Axis::PH.marks().count(), 9);
    }

    fn agent() -> Agent {
        Agent {
            substance: preservative("benzoic-acid").unwrap(),
            lines: Vec::new(),
            added: Percent::from_units(300_000),
            counted: Percent::from_units(300_000),
            counted_most: Percent::from_units(450_000),
            limit: Some(Percent::from_units(500_000)),
            shares: None,
            in_water: None,
            usual: Some(UseRange { low: Some(Percent::from_units(200_000)), high: None }),
            works: Works::Yes,
        }
    }

    #[test]
    fn dose_shows_what_a_check_of_the_limit_counts_and_no_end_that_is_not_known() {
        let gauge = Gauge::dose(&agent());
        assert_eq!(gauge.own, Some((300_000, 450_000)));
        assert_eq!(gauge.window, Some(Reach { low: End::At(200_000), high: End::NotKnown }));
        assert_eq!(gauge.limit, Some((500_000, agent().substance.limit_provenance.is_verified())));
        assert_eq!(gauge.axis.high, 500_000);
        let bare = Gauge::dose(&Agent { usual: None, limit: Some(Percent::ZERO), ..agent() });
        assert_eq!((bare.window, bare.limit), (None, None));
        assert!(bare.axis.high >= 450_000);
    }

    #[test]
    fn acidity_without_a_target_has_no_value_and_without_a_window_none() {
        let target = Ph::from_units(520);
        let gauge = Gauge::acidity(&agent(), Some(target));
        let row = agent().substance;
        let PhWindow { min, max } = row.window.unwrap();
        assert_eq!(gauge.own, Some((520, 520)));
        assert_eq!(gauge.window, Reach::of(min.map(Ph::units), max.map(Ph::units)));
        assert_eq!(gauge.with_care.map(|(from, _)| from), max.map(Ph::units).filter(|_| row.ph_worst.is_some()));
        assert_eq!(Gauge::acidity(&agent(), None).own, None);
        let no_window = crate::facts::preservatives().iter().find(|row| row.window.is_none()).unwrap();
        let gauge = Gauge::acidity(&Agent { substance: no_window, ..agent() }, Some(target));
        assert_eq!((gauge.window, gauge.with_care), (None, None));
    }
}
