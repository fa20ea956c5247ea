//! The fats of a whole formula, and the maker's own oils.

use crate::{fat, formula_of, id, near};
use hundred_parts::facts::{FatKind, FattyAcid, Field, IngredientId, Span, Sv};
use hundred_parts::formula::{Formula, Use};
use hundred_parts::quantity::{Percent, Quantity, Typed};
use hundred_parts::sheet::{BatchBasis, Lye, LyeNote, LyePlan, NoLye, Plan, WhyUncounted, compute, oil_phase, totals};
use hundred_parts::shelf::{SheetFinding, Shelf};

/// Source: mass-weighted means by hand from the rows: SV and IV of a blend are additive by mass of fat; its acids by mass
/// of acid.
#[test]
fn blend_of_a_formula_is_weighted_by_mass() {
    let formula =
        formula_of(&[("olive", "15"), ("coconut", "5"), ("beeswax", "2"), ("squalane", "3"), ("shea", "1,5x")]);
    let found = oil_phase(&formula, &totals(&formula), &Shelf::default());
    let figures = found.figures.unwrap();
    // 15 g of olive carry 14.347 g of acid (73.23 % oleic), 5 g of coconut 4.710 g (5.8 to 6.6 %).
    let olive = fat("olive").profile.unwrap();
    let coconut = fat("coconut").profile.unwrap();
    let carried = |mass: f64, sv: f64| mass * (1.0 - 12.683 * sv / 56_105.6);
    let (a, b) = (carried(15.0, 192.60), carried(5.0, 256.7));
    let oleic = |p: &hundred_parts::facts::Profile| p.percent(FattyAcid::Oleic).units() as f64 / 1e6;
    let expected = (a * oleic(&olive) + b * oleic(&coconut)) / (a + b);
    near(figures.acid(FattyAcid::Oleic).units() as f64 / 1e6, expected, 0.02, "oleic");
    // Typical values: olive 191.2, coconut 254.7, beeswax 95.5, squalane 1.
    let sv = (15.0 * 191.2 + 5.0 * 254.7 + 2.0 * 95.5 + 3.0 * 1.0) / 25.0;
    near(found.values.unwrap().sv.unwrap().float(), sv, 0.1, "SV");
    let why: Vec<_> = found.uncounted.iter().map(|(_, why)| *why).collect();
    assert_eq!(
        why,
        [
            WhyUncounted::NotTriglyceride(FatKind::WaxEster),
            WhyUncounted::NotTriglyceride(FatKind::Hydrocarbon),
            WhyUncounted::ShareUnread
        ]
    );
}

/// Source: OCL 2022, 29, table 4: required HLB of beeswax 12, isopropyl myristate 11.5, glyceryl stearate counted 3.8,
/// stearic acid 15, a seed oil 6.2; the printed results for five compositions.
#[test]
fn required_hlb_of_published_oil_phases_comes_out() {
    for (amounts, printed) in [
        (["1.5", "7.5", "7.5", "12.5", "5"], 10.33),
        (["1.5", "7.5", "7.5", "10.5", "5"], 10.04),
        (["1.5", "7.5", "7.5", "8.5", "5"], 9.71),
        (["1.5", "7.5", "7.5", "6.5", "5"], 9.33),
        (["1.5", "10", "10", "10.5", "5"], 9.72),
    ] {
        let mut shelf = Shelf::default();
        let ids = ["12", "11.5", "3.8", "15", "6.2"].map(|hlb| {
            let own = shelf.add_own("Part");
            shelf.set(&own, Field::RequiredHlb, hlb);
            own
        });
        let lines: Vec<(&str, &str)> = ids.iter().map(IngredientId::as_str).zip(amounts).collect();
        let formula = formula_of(&lines);
        let found = oil_phase(&formula, &totals(&formula), &shelf);
        near(found.required_hlb.unwrap().units() as f64 / 100.0, printed, 0.011, "required HLB");
    }
}

/// A made-up sheet that sums to 93 %: computed, scaled, and said.
#[test]
fn own_oil_from_a_sheet_of_93_percent_is_used_and_questioned() {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("Harbour seed oil");
    shelf.set(&own, Field::FattyAcids, "C16:0 6; C18:0 2; C18:1 65; C18:2 20");
    shelf.set(&own, Field::SvLow, "150");
    shelf.set(&own, Field::SvHigh, "154");
    shelf.set(&own, Field::IvLow, "90");
    shelf.set(&own, Field::IvHigh, "100");
    let fat = shelf.entry(&own).unwrap().fat().unwrap();
    assert!(fat.findings.contains(&SheetFinding::SumShort(Percent::millionths(93_000_000))));
    assert!(fat.findings.contains(&SheetFinding::TakenAsTriglyceride));
    assert!(fat.findings.contains(&SheetFinding::SvImpossible(Sv::whole(150))));
    assert!(fat.findings.iter().any(|odd| matches!(odd, SheetFinding::SvDisagrees(_))));
    assert!(!fat.findings.iter().any(|odd| matches!(odd, SheetFinding::IvDisagrees(_))), "{:?}", fat.findings);
    assert_eq!(fat.allergens, None);
    let sentence = hundred_parts::words::fats::sheet_finding(
        &SheetFinding::SumShort(Percent::millionths(93_000_000)),
        hundred_parts::words::DecimalSign::Point,
    );
    assert!(sentence.contains("93") && sentence.contains("scaled to 100"), "{sentence}");
}

#[test]
fn own_values_beat_the_tables_and_an_unread_one_is_not_replaced_by_them() {
    let mut shelf = Shelf::default();
    shelf.set(&id("olive"), Field::SvLow, "188");
    let fat = shelf.entry(&id("olive")).unwrap().fat().unwrap();
    assert_eq!(fat.sv, Some(Span { low: Sv::whole(188), high: Sv::whole(188) }));
    shelf.set(&id("olive"), Field::SvLow, "18x");
    let fat = shelf.entry(&id("olive")).unwrap().fat().unwrap();
    assert_eq!(fat.sv, None);
    assert!(fat.findings.contains(&SheetFinding::ValueUnread(Field::SvLow)));
}

/// Source: Codex Standard 210-1999, olive oil: saponification value 184 to 196 mg KOH/g. A lot may lie at the low end.
#[test]
fn high_end_alone_never_becomes_the_low_one() {
    let mut shelf = Shelf::default();
    let values = |shelf: &Shelf, name: &IngredientId| shelf.entry(name).unwrap().fat().unwrap();
    shelf.set(&id("olive"), Field::SvHigh, "196");
    let fat = values(&shelf, &id("olive"));
    assert_eq!(fat.sv, Some(Span { low: Sv::whole(184), high: Sv::whole(196) }));
    assert!(fat.findings.is_empty(), "{:?}", fat.findings);
    shelf.set(&id("olive"), Field::SvHigh, "186");
    let typical = values(&shelf, &id("olive")).typical_sv().unwrap();
    assert!(typical <= Sv::whole(186), "a typical value lies within the range: {typical:?}");
    let own = shelf.add_own("Harbour oil");
    shelf.set(&own, Field::FattyAcids, "C16:0 10; C18:1 80; C18:2 10");
    for (name, high) in [(&id("olive"), "170"), (&own, "196")] {
        shelf.set(name, Field::SvHigh, high);
        let fat = values(&shelf, name);
        assert_eq!(fat.sv, None, "{name}");
        assert!(fat.findings.contains(&SheetFinding::LowEndMissing(Field::SvLow)), "{name}");
        let formula = formula_of(&[(name.as_str(), "100")]);
        let found = soap(&formula, &shelf);
        assert!(matches!(found, Err(NoLye::SvUnknown(_))), "{found:?}");
    }
    let said = hundred_parts::words::fats::sheet_finding(
        &SheetFinding::LowEndMissing(Field::SvLow),
        hundred_parts::words::DecimalSign::Point,
    );
    assert!(said.contains("saponification value") && said.contains("enter both ends"), "{said}");
}

/// The lye of a bar of a kilogram.
fn soap(formula: &Formula, shelf: &Shelf) -> Result<Lye, NoLye> {
    let mut formula = formula.clone();
    formula.about.purpose = Use::Soap;
    let plan = Plan { basis: BatchBasis::Mass, mass: Typed::new("1000"), ..Plan::default() };
    compute(&formula, &plan, &LyePlan::default(), shelf).lye.unwrap()
}

/// Source: Codex Standard 210-1999, olive oil 184 to 196: lye from 184 for a lot at 184 leaves the whole discount.
#[test]
fn lye_of_a_high_end_alone_keeps_its_margin_at_the_low_end() {
    let formula = formula_of(&[("olive", "100")]);
    let mut shelf = Shelf::default();
    let before = soap(&formula, &shelf).unwrap();
    shelf.set(&id("olive"), Field::SvHigh, "196");
    let after = soap(&formula, &shelf).unwrap();
    assert_eq!((&after.alkalis, after.margins), (&before.alkalis, before.margins));
    assert!(after.margins.low >= Percent::millionths(5_000_000));
}

#[test]
fn value_of_the_makers_own_lot_is_not_asked_for_again() {
    let asked = |shelf: &Shelf| {
        let found = soap(&formula_of(&[("camelina", "100")]), shelf).unwrap();
        (found.notes.iter().any(|note| matches!(note, LyeNote::NotVerified(_))), found.fats[0].verified)
    };
    let mut shelf = Shelf::default();
    assert_eq!(asked(&shelf), (true, false), "the table's is from memory");
    shelf.set(&id("camelina"), Field::SvLow, "182");
    shelf.set(&id("camelina"), Field::SvHigh, "188");
    assert_eq!(asked(&shelf), (false, true));
}
