//! The lye of a soap against worked examples.

use crate::{formula_of, line, near};
use hundred_parts::facts::{Alkali, FatKind, Span, Sv, TRIGLYCERIDE_SV};
use hundred_parts::quantity::{Mass, Percent, Quantity, Typed};
use hundred_parts::sheet::{
    Acknowledgement, AlkaliChoice, LyeFat, LyeField, LyeNote, LyePlan, NoLye, SvBasis, WaterBy, from_fats,
};
use proptest::prelude::*;

fn lye_fat(grams: i64, low: i64, typical: i64, high: i64) -> LyeFat {
    let formula = formula_of(&[("olive", "1")]);
    LyeFat {
        line: line(&formula, 0),
        mass: Mass::micrograms(grams * 1_000_000),
        sv: Span { low: Sv::whole(low), high: Sv::whole(high) },
        typical: Sv::whole(typical),
        kind: FatKind::Triglyceride,
        measured: true,
        verified: true,
    }
}

fn typed<T: Quantity>(text: &str) -> Typed<T> {
    let typed = Typed::new(text);
    assert!(typed.value().is_some(), "{text}");
    typed
}

fn plan(discount: &str, purity: &str) -> LyePlan {
    LyePlan {
        discount: typed(discount),
        sodium_purity: typed(purity),
        potassium_purity: typed(purity),
        basis: SvBasis::Typical,
        ..LyePlan::default()
    }
}

const MILLIGRAM: Mass = Mass::micrograms(1_000);

fn grams(mass: Mass) -> f64 {
    mass.units() as f64 / 1e6
}

fn percent(share: Percent) -> f64 {
    share.units() as f64 / 1e6
}

/// Source: worked by hand and by an independent program. 1000 g olive oil of SV 190, discount 5 %, NaOH of 98 %, lye of
/// 33 %: KOH 190, NaOH 135.449 pure, 128.677 discounted, 131.303 g weighed, 266.58 g water. At the Codex ends of olive
/// (184, 196) the true discount is 1.90 and 7.91 %.
#[test]
fn lye_for_olive_oil_soap() {
    let lye = from_fats(vec![lye_fat(1000, 184, 190, 196)], &plan("5", "98"), MILLIGRAM).unwrap();
    near(grams(lye.alkalis[0].pure), 128.677, 0.001, "pure");
    near(grams(lye.alkalis[0].weigh), 131.303, 0.0011, "weighed");
    near(grams(lye.water), 266.58, 0.01, "water");
    near(percent(lye.concentration), 33.0, 0.001, "concentration");
    near(percent(lye.margins.low), 1.90, 0.006, "true discount at 184");
    near(percent(lye.margins.typical), 5.0, 0.001, "true discount at 190");
    near(percent(lye.margins.high), 7.91, 0.006, "true discount at 196");
    assert!(lye.notes.is_empty(), "{:?}", lye.notes);
}

/// Source: as above. 500 g olive (190), 300 g coconut (257), 200 g castor (180), 6 %, NaOH of 99 %, water to lye 2 to 1:
/// KOH 208.1, NaOH 148.352, discounted 139.451, weighed 140.860, water 281.72 g, 33.3 %.
#[test]
fn lye_for_three_oils_by_ratio() {
    let fats = vec![lye_fat(500, 190, 190, 190), lye_fat(300, 257, 257, 257), lye_fat(200, 180, 180, 180)];
    let lye = from_fats(fats, &LyePlan { water_by: WaterBy::Ratio, ratio: typed("2"), ..plan("6", "99") }, MILLIGRAM)
        .unwrap();
    near(grams(lye.alkalis[0].pure), 139.451, 0.001, "pure");
    near(grams(lye.alkalis[0].weigh), 140.860, 0.0011, "weighed");
    near(grams(lye.water), 281.72, 0.005, "water");
    near(percent(lye.concentration), 33.333, 0.001, "concentration");
    assert_eq!(grams(lye.fat_mass), 1000.0);
}

/// Source: as above. Liquid soap of 600 g sunflower (191) and 400 g coconut (257), 2 %, KOH of 90 %, a solution of 40 %
/// pure KOH: KOH 217.4, discounted 213.052, weighed 236.724, water 295.91 g.
#[test]
fn lye_for_liquid_soap() {
    let fats = vec![lye_fat(600, 191, 191, 191), lye_fat(400, 257, 257, 257)];
    let wanted = LyePlan {
        alkali: AlkaliChoice::Potassium,
        water_by: WaterBy::PureConcentration,
        concentration: typed("40"),
        ..plan("2", "90")
    };
    let lye = from_fats(fats, &wanted, MILLIGRAM).unwrap();
    near(grams(lye.alkalis[0].pure), 213.052, 0.001, "pure");
    near(grams(lye.alkalis[0].weigh), 236.724, 0.0011, "weighed");
    near(grams(lye.water), 295.91, 0.01, "water");
}

/// Source: as above. The oils of the second example, 3 %, six tenths of the moles NaOH: NaOH 86.341 pure, 88.103 at
/// 98 %; KOH 80.743 pure, 89.714 at 90 %.
#[test]
fn lye_of_both_alkalis() {
    let fats = vec![lye_fat(500, 190, 190, 190), lye_fat(300, 257, 257, 257), lye_fat(200, 180, 180, 180)];
    let wanted = LyePlan {
        alkali: AlkaliChoice::Both,
        sodium_share: typed("60"),
        potassium_purity: typed("90"),
        ..plan("3", "98")
    };
    let lye = from_fats(fats, &wanted, MILLIGRAM).unwrap();
    let [sodium, potassium] = lye.alkalis.as_slice() else { panic!("{:?}", lye.alkalis) };
    near(grams(sodium.pure), 86.341, 0.001, "NaOH pure");
    near(grams(sodium.weigh), 88.103, 0.0011, "NaOH");
    near(grams(potassium.pure), 80.743, 0.001, "KOH pure");
    near(grams(potassium.weigh), 89.714, 0.0011, "KOH");
}

/// Source: stoichiometry, 92.094 / (3 × 39.9971) = 0.76751 g of glycerol for 1 g of NaOH, 0.54715 for 1 g of KOH.
#[test]
fn glycerol_forms_in_proportion_to_the_alkali() {
    for (alkali, factor) in [(AlkaliChoice::Sodium, 0.76751), (AlkaliChoice::Potassium, 0.54715)] {
        let lye =
            from_fats(vec![lye_fat(1000, 190, 190, 190)], &LyePlan { alkali, ..plan("5", "100") }, MILLIGRAM).unwrap();
        near(grams(lye.glycerol), factor * grams(lye.alkalis[0].weigh), 0.002, "glycerol");
    }
}

#[test]
fn lye_by_default_is_safe_at_the_low_end() {
    let fats = || vec![lye_fat(1000, 160, 177, 195)];
    let careful = from_fats(fats(), &LyePlan { discount: typed("5"), ..LyePlan::default() }, MILLIGRAM).unwrap();
    near(percent(careful.margins.low), 5.0, 0.001, "low end");
    assert!(careful.notes.contains(&LyeNote::PurityAssumed(Alkali::Sodium)));
    let typical = from_fats(fats(), &plan("5", "98"), MILLIGRAM).unwrap();
    assert!(matches!(typical.notes[0], LyeNote::MarginBelowNothing(margin) if margin < Percent::ZERO));
    assert!(careful.alkalis[0].weigh < typical.alkalis[0].weigh);
}

#[test]
fn lye_guards_hold() {
    let fats = || vec![lye_fat(1000, 190, 190, 190)];
    for discount in ["0", "-3"] {
        let refused = from_fats(fats(), &plan(discount, "98"), MILLIGRAM).unwrap_err();
        assert!(matches!(refused, NoLye::Unacknowledged(_)), "{discount}: {refused:?}");
        let meant = LyePlan { no_margin: Acknowledgement::Given, ..plan(discount, "98") };
        assert_eq!(from_fats(fats(), &meant, MILLIGRAM).unwrap().notes[0], LyeNote::NoDiscount);
    }
    let strong = LyePlan { concentration: typed("51"), ..plan("5", "98") };
    assert!(matches!(from_fats(fats(), &strong, MILLIGRAM), Err(NoLye::TooStrong { .. })));
    let strong = LyePlan { water_by: WaterBy::Ratio, ratio: typed("0.9"), ..plan("5", "98") };
    assert!(matches!(from_fats(fats(), &strong, MILLIGRAM), Err(NoLye::TooStrong { .. })));
    let unread = LyePlan { sodium_purity: Typed::new("98x"), ..plan("5", "98") };
    assert_eq!(from_fats(fats(), &unread, MILLIGRAM), Err(NoLye::Unread(LyeField::SodiumPurity)));
    let unread = LyePlan { discount: Typed::new("5.."), ..plan("5", "98") };
    assert_eq!(from_fats(fats(), &unread, MILLIGRAM), Err(NoLye::Unread(LyeField::Discount)));
    let thin = LyePlan { sodium_purity: typed("10"), ..plan("5", "98") };
    assert_eq!(from_fats(fats(), &thin, MILLIGRAM), Err(NoLye::Unread(LyeField::SodiumPurity)));
    assert_eq!(from_fats(Vec::new(), &plan("5", "98"), MILLIGRAM), Err(NoLye::NoFats));
    let inert = vec![lye_fat(1000, 0, 0, 0)];
    assert_eq!(from_fats(inert, &plan("5", "98"), MILLIGRAM), Err(NoLye::NothingSaponifies));
    let coarse = from_fats(vec![lye_fat(10, 190, 190, 190)], &plan("5", "98"), Mass::micrograms(5_000_000));
    assert_eq!(coarse, Err(NoLye::TooSmall(Mass::micrograms(5_000_000))));
}

/// Source: by hand. 320 g of a fat of 190 with 5 %: KOH 60.8, NaOH 41.18, of 98 % 42.02 g; at steps of 5 g 40 g, and of
/// 1.4 parts of water 56 g, that is 55 g: 40 / 95 = 42.1 %, and not the 41.7 % of 40 / 96. 105 g of it: NaOH 13.79 g, that is
/// 10 g, and of 1.2 parts 12 g of water, that is 10 g: 50 %, the strongest there is; with 1 part 1.05 for 15 g as well.
#[test]
fn concentration_is_that_of_what_is_weighed() {
    let by_ratio = |grams: i64, ratio: &str| {
        let wanted = LyePlan { water_by: WaterBy::Ratio, ratio: typed(ratio), ..plan("5", "98") };
        from_fats(vec![lye_fat(grams, 190, 190, 190)], &wanted, Mass::micrograms(5_000_000))
    };
    let lye = by_ratio(320, "1.4").unwrap();
    assert_eq!((grams(lye.alkalis[0].weigh), grams(lye.water)), (40.0, 55.0));
    near(percent(lye.concentration), 42.105, 0.001, "as weighed");
    let lye = by_ratio(105, "1.2").unwrap();
    assert_eq!((grams(lye.alkalis[0].weigh), grams(lye.water), percent(lye.concentration)), (10.0, 10.0, 50.0));
    // 15 g with 1.1 parts are 16.5 g of water, weighed as 15 g; 5 g with 1.4 are 7 g, weighed as 5 g.
    assert_eq!(percent(by_ratio(40, "1.4").unwrap().concentration), 50.0);
    // 5 g with 0.4 parts would be 2 g of water, which the scale shows as nothing.
    assert!(matches!(by_ratio(40, "0.4"), Err(NoLye::TooStrong { .. })));
}

#[test]
fn refusals_name_the_figures_that_they_rest_on() {
    use hundred_parts::words::lye::{lye_field, no_lye};
    let small = from_fats(vec![lye_fat(1, 190, 190, 190)], &plan("5", "98"), Mass::micrograms(200_000)).unwrap_err();
    assert_eq!(small, NoLye::TooSmall(Mass::micrograms(200_000)));
    assert!(no_lye(&small, "", hundred_parts::words::DecimalSign::Point).contains("steps smaller than 0.2\u{202f}g"));
    let strong = LyePlan { concentration: typed("51"), ..plan("5", "98") };
    let strong = from_fats(vec![lye_fat(1000, 190, 190, 190)], &strong, MILLIGRAM).unwrap_err();
    let most = Alkali::Sodium.row().unwrap().most_concentration;
    assert!(matches!(strong, NoLye::TooStrong { most: found, .. } if found == most));
    let shown = format!("{}\u{202f}%", most.canonical());
    assert!(no_lye(&strong, "", hundred_parts::words::DecimalSign::Point).contains(&format!("Above {shown} ")));
    assert!(lye_field(LyeField::Concentration).contains(&shown));
    let line = line(&formula_of(&[("olive", "1")]), 0);
    let text = no_lye(&NoLye::SvImpossible(line, Sv::whole(20)), "Oil", hundred_parts::words::DecimalSign::Point);
    let ends = TRIGLYCERIDE_SV;
    assert!(text.contains(&format!("{} and {}", ends.low.canonical(), ends.high.canonical())), "{text}");
}

proptest! {
    #[test]
    fn lye_is_never_more_than_asked_for(
        grams in prop::collection::vec(1i64..50_000, 1..8),
        low in 155i64..250,
        spread in 0i64..40,
        discount in 1i64..50,
        purity in 50i64..=100,
        step in prop::sample::select(vec![1_000i64, 10_000, 100_000, 1_000_000]),
    ) {
        let fats: Vec<LyeFat> = grams.iter().map(|grams| lye_fat(*grams, low, low + spread / 2, low + spread)).collect();
        let wanted = LyePlan {
            discount: typed(&discount.to_string()),
            sodium_purity: typed(&purity.to_string()),
            ..LyePlan::default()
        };
        if let Ok(lye) = from_fats(fats, &wanted, Mass::micrograms(step)) {
            // A microgram for each line may be lost in rounding, never a share.
            let least = Percent::from_units(discount * 1_000_000 - 10);
            prop_assert!(lye.margins.low >= least, "{:?}", lye.margins);
            prop_assert!(lye.margins.low <= lye.margins.typical && lye.margins.typical <= lye.margins.high);
            prop_assert!(lye.alkalis.iter().all(|dose| dose.weigh.units() % step == 0));
        }
    }
}
