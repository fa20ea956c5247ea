//! What the pictures of the benches draw of a formula.

use hundred_parts::desk::{DocId, OpenDocument, ShelfDocument, demo};
use hundred_parts::facts::{Hlb, RatioOf};
use hundred_parts::quantity::{Percent, Quantity, Timestamp};
use hundred_parts::sheet::{AcidBars, Emulsion, EmulsionSystem, End, Figures, Gauge, Measure, Reach, Sheet};

fn sheet() -> Sheet {
    let now = Timestamp::from_millis(0);
    OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now).derive().sheet
}

#[test]
fn acids_are_bars_that_sum_to_all_beside_what_is_not_known() {
    let figures = sheet().fats.figures.unwrap();
    let bars = AcidBars::of(&figures);
    assert_eq!(bars.shares.iter().map(|(_, share)| *share).sum::<Percent>(), Percent::WHOLE);
    let most = bars.shares.iter().map(|(_, share)| share.units()).max().unwrap();
    assert!(bars.axis.high >= most && bars.axis.high - bars.axis.step < most);
    assert_eq!(bars.unknown, None);
    let unknown = Percent::from_units(90_000_000);
    let bars = AcidBars::of(&Figures { unknown, ..figures });
    assert_eq!(bars.unknown, Some(unknown));
    assert!(bars.axis.high >= unknown.units(), "it has room on the axis");
}

#[test]
fn emulsifiers_are_drawn_by_what_they_are_judged_by() {
    let found = sheet().emulsion.unwrap();
    let (have, usual) = found.judged().unwrap();
    let gauge = Gauge::emulsifiers(&found);
    assert_eq!(gauge.own, Some((have.units(), have.units())));
    assert_eq!(gauge.window, Some(Reach { low: End::At(usual.good.units()), high: End::Open }));
    assert_eq!(gauge.of, if usual.of == RatioOf::Oil { Measure::OfOils } else { Measure::OfFormula });
    let unjudged = Emulsion { polymer: None, emulsifiers: Vec::new(), ..found };
    let gauge = Gauge::emulsifiers(&unjudged);
    assert_eq!((gauge.window, gauge.with_care), (None, None), "what is usual is not known");
    assert_eq!(gauge.own.map(|(own, _)| own), unjudged.of_oils().map(Percent::units));
}

#[test]
fn hlb_is_drawn_only_where_it_means_something() {
    let found = sheet().emulsion.unwrap();
    let line = found.emulsifiers[0].line;
    let meant = Emulsion {
        no_hlb: Vec::new(),
        hlb: Some(Hlb::from_units(1_100)),
        required: Some(Hlb::from_units(720)),
        required_unknown: vec![line],
        system: EmulsionSystem::Nonionic,
        ..found
    };
    let gauge = Gauge::hlb(&meant).unwrap();
    assert_eq!((gauge.own, gauge.axis.high), (Some((1_100, 1_100)), 2_000));
    assert_eq!(gauge.window, Some(Reach { low: End::At(620), high: End::At(820) }));
    assert!(gauge.of_a_part, "an oil without a number is left out of it");
    assert_eq!(Gauge::hlb(&Emulsion { required: None, ..meant.clone() }).unwrap().window, None);
    let network = Emulsion { system: EmulsionSystem::GelNetwork, ..meant.clone() };
    assert_eq!(Gauge::hlb(&network), None, "a gel network holds whatever the balance");
    assert_eq!(Gauge::hlb(&Emulsion { no_hlb: vec![line], ..meant }), None);
}
