//! What stands at the pictures of the benches, and what is said to who cannot see them.

use super::oils::short_acid;
use super::{DecimalSign, fats, number, page, rounded, with_unit};
use crate::facts::{FattyAcid, Hlb};
use crate::quantity::{Percent, Ph, Quantity};
use crate::sheet::{AcidBars, End, Gauge, Measure, Reach};

/// What the signs of a scale mean, for who sees them.
pub const LEGEND: &str = "Diamond: this formula. Band: usual, or where it works. Dashed: with care. Line with a bar: legal limit. Dotted: not known.";
/// Of the preservatives: how well their windows are known.
pub const MEMORY: &str = "Usual amounts and pH ranges of preservatives are (unverified).";
/// Beside the bars.
pub const ACIDS: &str = "Fatty acids, % of all fatty acids";
/// Beside the bars, where the acids of some fats are not known.
pub const KNOWN_ACIDS: &str = "Fatty acids, % of those that are known";
/// The bar of fats of which the acids are not known.
pub const UNKNOWN: &str = "not known";

/// The texts at a scale.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GaugeText {
    /// What is measured, with its unit.
    pub title: &'static str,
    /// The product's own value.
    pub own: String,
    /// The window, what goes with care, and the limit.
    pub against: String,
    /// All of it as one text.
    pub spoken: String,
}

/// A figure of a scale, without its unit.
pub fn mark(of: Measure, units: i64, sign: DecimalSign) -> String {
    match of {
        Measure::Dose | Measure::OfOils | Measure::OfFormula => number(&Percent::from_units(units).canonical(), sign),
        Measure::Acidity => number(&Ph::from_units(units).canonical(), sign),
        Measure::Hlb => number(&Hlb::from_units(units).canonical(), sign),
    }
}

/// The figure of a scale with its unit, no finer than it is known.
fn figure(of: Measure, units: i64, sign: DecimalSign) -> String {
    match of {
        Measure::Dose | Measure::OfFormula => super::chemistry::percent(Percent::from_units(units), sign),
        Measure::OfOils => super::chemistry::whole(Percent::from_units(units), sign),
        Measure::Acidity => mark(of, units, sign),
        Measure::Hlb => rounded(Hlb::from_units(units), 1, sign),
    }
}

/// From and to, as far as they are known.
fn reach(of: Measure, window: Reach, sign: DecimalSign) -> String {
    let shown = |units: i64| figure(of, units, sign);
    match (window.low, window.high) {
        (End::At(low), End::At(high)) => format!("{} to {}", shown(low), shown(high)),
        (End::At(low), _) => format!("from {}", shown(low)),
        (_, End::At(high)) => format!("up to {}", shown(high)),
        _ => UNKNOWN.to_owned(),
    }
}

/// What stands at a scale.
pub fn gauge(gauge: &Gauge, sign: DecimalSign) -> GaugeText {
    let shown = |units: i64| figure(gauge.of, units, sign);
    let title = match gauge.of {
        Measure::Dose => "Amount, % of the product",
        Measure::Acidity => "pH of the product",
        Measure::OfOils => "Emulsifiers, % of the oils",
        Measure::OfFormula => "Polymer, % of the whole formula",
        Measure::Hlb => "HLB of the emulsifiers",
    };
    let own = match (gauge.of, gauge.own) {
        (Measure::Acidity, None) => "no target pH".to_owned(),
        (Measure::Acidity, Some((target, _))) => format!("target {}", shown(target)),
        (_, None) => UNKNOWN.to_owned(),
        (_, Some((low, high))) if shown(low) == shown(high) => shown(low),
        (_, Some((low, high))) => format!("{} to {}", shown(low), shown(high)),
    };
    let mut against = window(gauge, sign);
    if let Some((limit, read)) = gauge.limit {
        against += &format!("; legal limit {}{}", shown(limit), if read { "" } else { page::UNVERIFIED });
    }
    let spoken = format!("{title}: {own}; {against}.");
    GaugeText { title, own, against, spoken }
}

/// The window of a scale, with what goes with care.
fn window(gauge: &Gauge, sign: DecimalSign) -> String {
    let shown = |units: i64| figure(gauge.of, units, sign);
    let Some(window) = gauge.window else {
        return match gauge.of {
            Measure::Acidity => "pH range not known",
            Measure::Hlb => "required HLB not known",
            Measure::Dose | Measure::OfOils | Measure::OfFormula => "usual amount not known",
        }
        .to_owned();
    };
    let all = reach(gauge.of, window, sign);
    match (gauge.of, gauge.with_care) {
        (Measure::Acidity, None) => format!("works at pH {all}"),
        (Measure::Acidity, Some((_, worst))) => format!("works at pH {all}, with care up to {}", shown(worst)),
        (Measure::Hlb, _) => {
            let part = if gauge.of_a_part { " by the oils that have a figure" } else { "" };
            let required = match (window.low, window.high) {
                (End::At(low), End::At(high)) => shown((low + high) / 2),
                _ => UNKNOWN.to_owned(),
            };
            format!("required {required}{part}; test batches from {all}")
        }
        (_, None) => format!("usual {all}"),
        (_, Some((least, _))) => format!("usual {all}, at least {}", shown(least)),
    }
}

/// The bars of fatty acids as one text.
pub fn acids(bars: &AcidBars, sign: DecimalSign) -> String {
    let one = |(acid, share): &(Option<FattyAcid>, Percent)| {
        let name = acid.map_or_else(|| "other acids".to_owned(), fats::acid);
        format!("{name} {}", with_unit(*share, "%", sign))
    };
    let mut all: Vec<String> = bars.shares.iter().map(one).collect();
    all.extend(bars.unknown.map(|unknown| format!("of {} of the fats {UNKNOWN}", with_unit(unknown, "%", sign))));
    format!("{}: {}.", acids_title(bars), all.join(", "))
}

/// What stands over the bars.
pub const fn acids_title(bars: &AcidBars) -> &'static str {
    if bars.unknown.is_some() { KNOWN_ACIDS } else { ACIDS }
}

/// The name beside a bar.
pub fn acid(acid: Option<FattyAcid>) -> String {
    acid.map_or_else(|| short_acid(None).to_owned(), fats::acid)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::Axis;

    fn scale(of: Measure) -> Gauge {
        Gauge { of, axis: Axis::PH, own: None, window: None, with_care: None, limit: None, of_a_part: false }
    }

    fn said(gauge_: Gauge) -> String {
        gauge(&gauge_, DecimalSign::Point).spoken.replace('\u{202f}', " ")
    }

    #[test]
    fn scale_is_told_with_its_unit_its_value_and_its_window() {
        let dose = Gauge {
            own: Some((300_000, 450_000)),
            window: Some(Reach { low: End::At(200_000), high: End::At(500_000) }),
            limit: Some((500_000, false)),
            ..scale(Measure::Dose)
        };
        assert_eq!(
            said(dose),
            "Amount, % of the product: 0.3 % to 0.45 %; usual 0.2 % to 0.5 %; legal limit 0.5 % (unverified)."
        );
        let acidity = Gauge {
            own: Some((520, 520)),
            window: Some(Reach { low: End::NotKnown, high: End::At(500) }),
            with_care: Some((500, 550)),
            ..scale(Measure::Acidity)
        };
        assert_eq!(said(acidity), "pH of the product: target 5.2; works at pH up to 5, with care up to 5.5.");
        let hlb = Gauge {
            own: Some((1_100, 1_100)),
            window: Some(Reach { low: End::At(620), high: End::At(820) }),
            of_a_part: true,
            ..scale(Measure::Hlb)
        };
        let required = "required 7.2 by the oils that have a figure; test batches from 6.2 to 8.2.";
        assert_eq!(said(hlb), format!("HLB of the emulsifiers: 11; {required}"));
        let comma = gauge(&dose, DecimalSign::Comma).own;
        assert!(comma.starts_with("0,3"), "{comma}");
    }

    #[test]
    fn what_is_not_known_of_a_scale_is_told_as_not_known() {
        assert_eq!(said(scale(Measure::Acidity)), "pH of the product: no target pH; pH range not known.");
        for of in [Measure::Dose, Measure::OfOils, Measure::OfFormula, Measure::Hlb] {
            let said = said(scale(of));
            assert_eq!(said.matches("not known").count(), 2, "{said}");
        }
    }

    #[test]
    fn acids_are_told_with_what_is_not_known_of_the_fats() {
        let percent = Percent::from_units;
        let shares = vec![(Some(FattyAcid::Oleic), percent(70_000_000)), (None, percent(30_000_000))];
        let bars = AcidBars { axis: Axis::up_to(70_000_000), shares, unknown: None };
        let told = |bars: &AcidBars| acids(bars, DecimalSign::Point).replace('\u{202f}', " ");
        assert_eq!(told(&bars), "Fatty acids, % of all fatty acids: oleic (18:1) 70 %, other acids 30 %.");
        let partly = AcidBars { unknown: Some(percent(12_000_000)), ..bars };
        let of_known = "Fatty acids, % of those that are known: ";
        assert!(told(&partly).starts_with(of_known) && told(&partly).ends_with("of 12 % of the fats not known."));
    }
}
