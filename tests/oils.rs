//! Fats, swaps and lye against sources outside the project.

#[path = "vectors/problem.rs"]
mod problem;

use hundred_parts::desk::{
    Action, Bench, Cupboard, DocId, Document, Moment, document_text, read_document, read_export,
};
use hundred_parts::facts::{
    Alkali, Allergens, Cox, Fat, FatKind, FattyAcid, Field, Hlb, IngredientId, Iv, Outlook, SheetFinding, Shelf, Span,
    Sv, fats,
};
use hundred_parts::formula::{Choice, Formula, LineId, PhaseKind, Share, Use};
use hundred_parts::quantity::{Mass, Percent, Quantity, Typed};
use hundred_parts::sheet::{
    AlkaliChoice, Limit, Limits, LyeFat, LyeField, LyeNote, LyePlan, NoLye, NoSwap, Pool, Saponified, SvBasis, WaterBy,
    Weighting, WhyLeftOut, WhyUncounted, from_fats, nearest, nearest_few, new_lines, oil_phase, replace, swap, totals,
};
use hundred_parts::words::sheet_report;
use problem::Oils;
use proptest::prelude::*;
use serde_json::Value;

fn id(text: &str) -> IngredientId {
    IngredientId::parse(text).unwrap()
}

fn fat(text: &str) -> Fat {
    Shelf::default().entry(&id(text)).unwrap().fat().unwrap_or_else(|| panic!("{text} is no fat"))
}

/// A fat of the maker's own with these acids.
fn own(acids: &str) -> Fat {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("Own oil");
    shelf.set(&own, Field::FattyAcids, acids);
    shelf.entry(&own).unwrap().fat().unwrap()
}

fn near(found: f64, expected: f64, within: f64, what: &str) {
    assert!((found - expected).abs() <= within, "{what}: {found}, expected {expected} within {within}");
}

// ---- What is computed from acids -----------------------------------------------------------------------------------

/// Source: the program library molmass 2026.1.8 (isotope tables of its own), asked for the formulas of the acids.
#[test]
fn molar_masses_agree_with_an_independent_library() {
    let expected = [
        (FattyAcid::Caprylic, 144.2118),
        (FattyAcid::Capric, 172.2650),
        (FattyAcid::Lauric, 200.3183),
        (FattyAcid::Myristic, 228.3715),
        (FattyAcid::Palmitic, 256.4248),
        (FattyAcid::Palmitoleic, 254.4089),
        (FattyAcid::Stearic, 284.4780),
        (FattyAcid::Oleic, 282.4621),
        (FattyAcid::Linoleic, 280.4462),
        (FattyAcid::AlphaLinolenic, 278.4304),
        (FattyAcid::Arachidic, 312.5312),
        (FattyAcid::Gondoic, 310.5154),
        (FattyAcid::Behenic, 340.5845),
        (FattyAcid::Erucic, 338.5686),
        (FattyAcid::Ricinoleic, 298.4615),
    ];
    for (acid, mass) in expected {
        // The tables differ in the fifth digit of the atomic weight of carbon and of hydrogen.
        near(acid.molar_mass(), mass, 0.012, acid.key());
    }
    near(Alkali::Sodium.molar_mass() as f64 / 1e4, 39.9971, 0.0005, "NaOH");
    near(Alkali::Potassium.molar_mass() as f64 / 1e4, 56.1056, 0.0005, "KOH");
}

/// Source: factors of AOCS Cd 1c-85 (reapproved 2009; repeated in Pettersson 2002, J Am Oil Chem Soc) for triglycerides:
/// iodine value of 1 % of the acid. Ricinoleic acid is not in it; 0.816 is the same stoichiometry. Saponification values:
/// the same masses by hand, 3 × 56105.6 / M of the triglyceride.
#[test]
fn pure_triglycerides_have_the_values_of_the_method() {
    for (acid, sv, factor) in [
        ("8:0", 357.6, 0.0),
        ("10:0", 303.4, 0.0),
        ("12:0", 263.4, 0.0),
        ("14:0", 232.7, 0.0),
        ("16:0", 208.5, 0.0),
        ("16:1", 210.1, 0.950),
        ("18:0", 188.8, 0.0),
        ("18:1", 190.1, 0.860),
        ("18:2", 191.4, 1.732),
        ("18:3", 192.7, 2.616),
        ("20:0", 172.5, 0.0),
        ("20:1", 173.6, 0.785),
        ("22:0", 158.8, 0.0),
        ("22:1", 159.7, 0.723),
        ("ricinoleic", 180.3, 0.816),
    ] {
        let profile = own(&format!("{acid} 100")).profile.unwrap();
        near(profile.saponification().float(), sv, 0.06, acid);
        near(profile.iodine().float(), factor * 100.0, 0.06, acid);
    }
}

/// Source: hand calculation on the mean of 572 Italian olive oils (Forina et al. 1983), S = 0.358908, D = 0.338192,
/// mean molar mass 278.62, SV 192.60, IV 82.10; and palm and coconut of the Canadian Nutrient File, for which the
/// arithmetic mean of AOCS Cd 3a-94 gives 248.4 for coconut, the exact one 256.7.
#[test]
fn saponification_value_is_the_exact_one() {
    let olive = fat("olive").profile.unwrap();
    near(olive.saponification().float(), 192.60, 0.02, "olive SV");
    near(olive.iodine().float(), 82.10, 0.02, "olive IV");
    near(olive.mean_molar_mass().float(), 278.62, 0.02, "olive mean molar mass");
    near(fat("palm").profile.unwrap().saponification().float(), 199.15, 0.1, "palm SV");
    near(fat("coconut").profile.unwrap().saponification().float(), 256.7, 0.1, "coconut SV");
}

/// Source: PMC4384276 (J Anim Sci Biotechnol 2015, 6:10), table 2: compositions in g/100 g that were not rescaled, and
/// the iodine values printed beside them, which are those of AOCS Cd 1c-85, cut to whole numbers.
#[test]
fn iodine_values_of_a_published_table_come_out() {
    for (sample, [c161, c181, c182, c183], printed) in [
        ("corn", [0.10, 27.70, 57.18, 0.79], 125.0),
        ("corn, slowly oxidised", [0.10, 29.84, 52.73, 0.62], 119.0),
        ("corn, rapidly oxidised", [0.12, 29.80, 52.32, 0.63], 118.0),
        ("canola", [0.22, 64.57, 17.90, 7.09], 105.0),
        ("canola, slowly oxidised", [0.23, 65.47, 16.51, 5.73], 100.0),
        ("canola, rapidly oxidised", [0.23, 66.82, 15.93, 5.01], 98.0),
    ] {
        // The acids that were not printed are saturated and complete the 100.
        let rest = 100.0 - c161 - c181 - c182 - c183;
        let fat = own(&format!("16:0 {rest:.2}; 16:1 {c161}; 18:1 {c181}; 18:2 {c182}; 18:3 {c183}"));
        near(fat.computed_iv().unwrap().float(), printed, 0.8, sample);
    }
}

/// Source: Ryan, Dodge & Callahan 1984, J Am Oil Chem Soc 61:1610 (in an open compilation): compositions with measured
/// iodine values. Calculation is for normal refined oils: mean absolute difference under 4... here of six crude and
/// refined ones under 5, and no one by 8.
#[test]
fn measured_iodine_values_are_met_within_the_methods_error() {
    let samples = [
        ("14:0 .8; 16:0 21.8; 18:0 2.6; 18:1 17.7; 18:2 56.2; 18:3 .2; 22:0 .5; 24:0 .2", 109.18),
        ("14:0 .8; 16:0 22.0; 18:0 2.6; 18:1 17.7; 18:2 55.8; 18:3 .2; 22:0 .5; 24:0 .2", 109.0),
        ("14:0 .8; 16:0 21.9; 18:0 2.7; 18:1 18.1; 18:2 55.6; 18:3 .3; 22:0 .3; 24:0 .2", 108.94),
        ("14:0 .5; 16:0 10.3; 18:0 2.6; 18:1 45.9; 18:2 33.5; 18:3 .9; 22:0 4.0; 24:0 2.2", 92.36),
        ("14:0 .3; 16:0 10.2; 18:0 2.7; 18:1 46.1; 18:2 33.5; 18:3 .9; 22:0 4.2; 24:0 2.1", 95.09),
        ("14:0 .3; 16:0 10.6; 18:0 2.6; 18:1 46.1; 18:2 32.6; 18:3 .9; 22:0 4.1; 22:1 .6; 24:0 2.2", 95.32),
    ];
    let mut sum = 0.0;
    for (acids, measured) in samples {
        let off = own(acids).computed_iv().unwrap().float() - measured;
        assert!(off.abs() < 8.0, "{acids}: off by {off}");
        sum += off.abs();
    }
    assert!(sum / 6.0 < 5.0, "mean difference {}", sum / 6.0);
}

/// Source: Bazongo et al. 2014, Molecules 19:2684 (abstract), Lannea microcarpa seed oil: printed SV 194.23 and IV 61.33
/// beside a composition of 97.45 % of the acids.
#[test]
fn incomplete_published_composition_is_near_its_measured_values() {
    let fat = own("16:0 34.45; 18:0 8.35; 18:1 43.45; 18:2 11.20");
    assert!(fat.findings.contains(&SheetFinding::SumShort(Percent::millionths(97_450_000))));
    near(fat.computed_sv().unwrap().float(), 194.23, 194.23 * 0.016 + 1.5, "SV");
    near(fat.computed_iv().unwrap().float(), 61.33, 4.0, "IV");
}

/// Source: Cox after Fatemi & Hammond 1980 as commonly printed, worked by hand from the typical rows (13 oils).
#[test]
fn oxidizability_ranks_oils_as_their_keeping_does() {
    for (oil, iv, cox, outlook) in [
        ("mct", 0.0, 0.0, Outlook::Long),
        ("coconut", 8.5, 0.26, Outlook::Long),
        ("cocoa-butter", 35.3, 0.67, Outlook::Long),
        ("shea", 50.6, 1.195, Outlook::Long),
        ("sunflower-high-oleic", 80.8, 1.27, Outlook::Long),
        ("palm", 50.4, 1.41, Outlook::Long),
        ("olive", 82.1, 1.81, Outlook::Usual),
        ("almond-sweet", 94.5, 2.60, Outlook::Usual),
        ("argan", 100.9, 4.07, Outlook::Short),
        ("sunflower-linoleic", 132.0, 6.80, Outlook::Short),
        ("grapeseed", 141.3, 7.71, Outlook::Short),
        ("evening-primrose", 160.4, 9.84, Outlook::VeryShort),
        ("flaxseed", 189.5, 13.84, Outlook::VeryShort),
    ] {
        let profile = fat(oil).profile.unwrap();
        near(profile.iodine().float(), iv, 0.06, oil);
        near(profile.oxidizability().float(), cox, 0.006, oil);
        assert_eq!(Outlook::of(profile.oxidizability()), outlook, "{oil}");
    }
}

/// Source: Codex Alimentarius CXS 210-1999 (as amended to 2022-24), table 2, and CXS 33-1981 for olive, as far as the
/// ranges were seen. Written down here apart from the table, so that a slip in the table shows.
#[test]
fn codex_ranges_of_named_oils_hold() {
    for (oil, sv, iv) in [
        ("babassu", (245, 256), (10, 18)),
        ("canola", (182, 193), (105, 126)),
        ("coconut", (248, 265), (6, 11)),
        ("corn", (187, 195), (103, 135)),
        ("cottonseed", (189, 198), (100, 123)),
        ("olive", (184, 196), (75, 94)),
        ("palm", (190, 209), (50, 55)),
        ("rice-bran", (180, 199), (90, 115)),
        ("safflower-high-oleic", (186, 194), (80, 100)),
        ("sesame", (186, 195), (104, 120)),
        ("soybean", (189, 195), (124, 139)),
        ("sunflower-high-oleic", (182, 194), (78, 90)),
        ("sunflower-linoleic", (187, 194), (118, 141)),
        ("walnut", (189, 198), (132, 162)),
    ] {
        let fat = fat(oil);
        let within = |value: f64, (low, high): (i32, i32)| f64::from(low) <= value && value <= f64::from(high);
        assert!(within(fat.computed_sv().unwrap().float(), sv), "{oil}: SV {:?}", fat.computed_sv());
        assert!(within(fat.computed_iv().unwrap().float(), iv), "{oil}: IV {:?}", fat.computed_iv());
    }
}

/// Every fat of the table is within the range of its standard or source, or its note says why not.
#[test]
fn every_row_is_in_its_range_or_says_why_not() {
    let mut odd = Vec::new();
    for row in fats().iter().filter(|row| row.kind == FatKind::Triglyceride) {
        let fat = fat(row.id);
        let (sv, iv) = (fat.computed_sv().unwrap(), fat.computed_iv().unwrap());
        assert_eq!(row.sv.clip(sv), sv, "{}: SV {sv:?} of {:?}", row.id, row.sv);
        if row.iv.clip(iv) != iv {
            assert!(row.note.contains("iodine value"), "{}: IV {iv:?} of {:?}, and no word why", row.id, row.iv);
            odd.push(row.id);
        }
    }
    let expected = [
        "almond-sweet",
        "camelina",
        "castor",
        "chicken-fat",
        "murumuru",
        "mutton-tallow",
        "neem",
        "palm-kernel",
        "pistachio",
        "poppyseed",
    ];
    assert_eq!(odd, expected, "a change here must be a decision");
    // Beyond the method's error, so that the page says it.
    let said: Vec<_> = fats().iter().filter(|row| fat(row.id).iv_disagreement().is_some()).map(|row| row.id).collect();
    assert_eq!(said, ["mutton-tallow", "pistachio"]);
}

/// Source: Forina et al. 1983 and Brodnjak-Voncina 2005, class means of open data sets, must fall in the limits of CXS 33
/// and Codex CXS 210 for the main acids.
#[test]
fn class_means_of_open_data_are_in_the_limits_of_the_standards() {
    for (oil, acid, low, high) in [
        ("olive", FattyAcid::Oleic, 55.0, 83.0),
        ("olive", FattyAcid::Palmitic, 7.5, 20.0),
        ("olive", FattyAcid::Linoleic, 3.5, 21.0),
        ("soybean", FattyAcid::Linoleic, 48.0, 59.0),
        ("soybean", FattyAcid::AlphaLinolenic, 4.5, 11.0),
        ("sunflower-linoleic", FattyAcid::Oleic, 14.0, 43.0),
        ("sunflower-linoleic", FattyAcid::Linoleic, 45.4, 74.0),
    ] {
        let percent = fat(oil).profile.unwrap().percent(acid).units() as f64 / 1e6;
        assert!(low <= percent && percent <= high, "{oil} {acid:?}: {percent}");
    }
}

#[test]
fn what_is_no_triglyceride_is_not_computed() {
    for oil in ["jojoba", "beeswax", "lanolin", "squalane", "mineral-oil", "petrolatum", "candelilla"] {
        let fat = fat(oil);
        assert!(fat.computed_sv().is_none() && fat.computed_iv().is_none(), "{oil}");
        assert!(fat.typical_sv().is_some(), "{oil}: measured values are there all the same");
    }
    // Source: Japanese ingredient specification (SV 80 to 110), handbook entry (typical 92.2, IV 81.7).
    let jojoba = fat("jojoba");
    assert_eq!((jojoba.typical_sv(), jojoba.typical_iv()), (Some(Sv::from_units(9_220)), Some(Iv::from_units(8_170))));
    assert_eq!(fat("squalane").kind, FatKind::Hydrocarbon);
    assert!(fat("hydrogenated-castor").computed_sv().is_some(), "a triglyceride in spite of its feel");
}

// ---- Fats of a formula ---------------------------------------------------------------------------------------------

fn formula_of(lines: &[(&str, &str)]) -> Formula {
    let mut formula = Formula::default();
    let phase = formula.add_phase(PhaseKind::Oil, "Oil", 0);
    for (n, (name, share)) in lines.iter().enumerate() {
        let line = formula.add_line(phase, n).unwrap();
        let line = formula.line_mut(line).unwrap();
        line.choice = Choice::Known(id(name));
        line.share = Share::read(share);
    }
    formula
}

fn line(formula: &Formula, n: usize) -> LineId {
    formula.lines().nth(n).unwrap().1.id
}

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
    near(found.values.unwrap().sv.float(), sv, 0.1, "SV");
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
    let sentence = hundred_parts::words::fats::sheet_finding(&SheetFinding::SumShort(Percent::millionths(93_000_000)));
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

// ---- The nearest mixture -------------------------------------------------------------------------------------------

fn vectors() -> Value {
    serde_json::from_str(include_str!("vectors/swap.json")).unwrap()
}

fn all(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

/// Shares that are shares, within every limit.
fn within_limits(problem: &hundred_parts::sheet::Problem, shares: &[f64]) -> bool {
    let sum: f64 = shares.iter().sum();
    (sum - 1.0).abs() < 1e-9
        && shares.iter().zip(&problem.caps).all(|(share, cap)| *share >= 0.0 && *share <= cap + 1e-7)
        && problem.rows.iter().all(|row| row.of.iter().zip(shares).map(|(a, x)| a * x).sum::<f64>() <= row.most + 1e-6)
}

/// Source: scipy (SLSQP, and linprog for the bound on its error), 200 random problems and 9 over the whole table, made
/// by `tests/vectors/swap.py`.
#[test]
fn nearest_mixture_is_no_worse_than_scipys() {
    let (oils, vectors) = (Oils::read(), vectors());
    let ids: Vec<&str> = all(&vectors["ids"]).iter().map(|id| id.as_str().unwrap()).collect();
    assert_eq!(ids, oils.ids, "the vectors are of another table: run tests/vectors/swap.py");
    let problems: Vec<&Value> = all(&vectors["random"]).iter().chain(all(&vectors["whole"])).collect();
    assert_eq!(problems.len(), 209);
    for one in problems {
        let problem = oils.of(one);
        match (nearest(&problem), one["f"].as_f64()) {
            (None, None) => assert!(!problem.has_mixture()),
            (Some(found), Some(expected)) => {
                assert!(found.distance <= expected + 1e-6, "{one}: {found:?}");
                assert!(found.gap <= 1e-8, "{one}: not shown to be optimal, gap {}", found.gap);
                assert!(within_limits(&problem, &found.shares), "{one}: {found:?}");
            }
            (found, expected) => panic!("{one}: found {found:?}, scipy {expected:?}"),
        }
    }
}

/// Source: the same script: every choice of at most three oils, each by scipy.
#[test]
fn nearest_mixture_of_few_oils_is_no_worse_than_trying_all() {
    let (oils, vectors) = (Oils::read(), vectors());
    for one in all(&vectors["few"]) {
        let problem = oils.of(one);
        let most = one["k"].as_u64().unwrap() as usize;
        match (nearest_few(&problem, most), one["f"].as_f64()) {
            (None, None) => {}
            (Some(found), Some(expected)) => {
                assert!(found.distance <= expected + 1e-6, "{one}: {found:?}");
                assert!(found.shares.iter().filter(|share| **share > 0.0).count() <= most, "{one}: {found:?}");
                assert!(within_limits(&problem, &found.shares), "{one}: {found:?}");
            }
            (found, expected) => panic!("{one}: found {found:?}, scipy {expected:?}"),
        }
    }
}

/// Source: answers on which scipy 1.17.1 (SLSQP) and an enumeration of active sets agree, handed down with the facts.
#[test]
fn reference_mixtures_come_out() {
    let oils = Oils::read();
    let target = |id: &str| oils.columns[oils.number(id)].clone();
    let from = |ids: &[&str]| ids.iter().map(|id| oils.number(id)).collect::<Vec<_>>();
    let check = |target: &[f64], ids: &[&str], shares: &[f64], distance: f64| {
        let found = nearest(&oils.problem(target, &from(ids), 1.0, None)).unwrap();
        near(found.distance, distance, 2e-6, ids[0]);
        for (share, expected) in found.shares.iter().zip(shares) {
            near(*share, *expected, 6e-6, ids[0]);
        }
    };
    check(
        &target("almond-sweet"),
        &["sunflower-high-oleic", "grapeseed", "olive", "rice-bran", "macadamia"],
        &[0.60418, 0.16582, 0.23, 0.0, 0.0],
        10.512058,
    );
    let five = ["olive", "sunflower-linoleic", "sesame", "palm", "rice-bran"];
    check(&target("argan"), &five, &[0.1655, 0.0, 0.75291, 0.08159, 0.0], 2.777451);
    check(&target("almond-sweet"), &["almond-sweet", "olive", "grapeseed"], &[1.0, 0.0, 0.0], 0.0);
    let known =
        oils.mixture(&[(oils.number("olive"), 0.55), (oils.number("coconut"), 0.3), (oils.number("castor"), 0.15)]);
    check(&known, &["olive", "coconut", "castor", "palm", "shea"], &[0.55, 0.3, 0.15, 0.0, 0.0], 0.0);
    // Twice the same oil: the shares are not unique, what they come to is.
    let twice =
        nearest(&oils.problem(&target("almond-sweet"), &from(&["olive", "olive", "grapeseed"]), 1.0, None)).unwrap();
    near(twice.distance, 53.325764, 2e-6, "the same oil twice");
    near(twice.shares[0] + twice.shares[1], 0.9176, 5e-5, "the same oil twice");
    // With a limit of 92.0 on the iodine value, as computed to one place.
    let mut limited = oils.problem(&target("argan"), &from(&five), 1.0, None);
    let iv = [82.1, 132.0, 112.0, 50.4, 102.4];
    limited.rows.push(hundred_parts::sheet::Row { of: iv.to_vec(), most: 92.0 });
    let found = nearest(&limited).unwrap();
    near(found.distance, 68.410207, 1e-5, "iodine value at most 92");
    near(found.shares[2], 0.58780, 6e-6, "iodine value at most 92");
}

/// Source: three small mixtures with illustrative numbers, on which three solvers agree (Clarabel, SLSQP, NNLS).
#[test]
fn illustrative_mixtures_come_out() {
    let a = [0.0, 11.0, 4.0, 72.0, 10.0, 1.0];
    let b = [0.0, 7.0, 4.0, 25.0, 62.0, 0.5];
    let c = [65.0, 9.0, 3.0, 6.0, 2.0, 0.0];
    let d = [0.0, 5.0, 42.0, 46.0, 5.0, 0.3];
    let e = [0.0, 6.0, 2.0, 62.0, 20.0, 9.0];
    let check = |oils: &[[f64; 6]], target: [f64; 6], shares: &[f64], distance: f64| {
        let away = |oil: &[f64; 6]| oil.iter().zip(target).map(|(a, b)| a - b).collect();
        let problem = hundred_parts::sheet::Problem {
            points: oils.iter().map(away).collect(),
            caps: vec![1.0; oils.len()],
            rows: Vec::new(),
        };
        let found = nearest(&problem).unwrap();
        near(found.distance, distance, 1e-6, "distance");
        for (share, expected) in found.shares.iter().zip(shares) {
            near(*share, *expected, 1e-6, "share");
        }
    };
    check(&[a, b, c, d], [13.0, 8.8, 10.2, 48.2, 16.4, 1.5], &[0.490036, 0.159705, 0.191579, 0.158680], 1.664491);
    check(
        &[a, b, c, d, e],
        [20.0, 9.0, 10.0, 40.0, 19.0, 2.0],
        &[0.274280, 0.194612, 0.289476, 0.145853, 0.095779],
        5.251610,
    );
    check(&[a, b, c], [0.0, 10.0, 4.0, 60.0, 24.0, 2.0], &[0.737181, 0.262819, 0.0], 1.518132);
}

prop_compose! {
    fn some_oils()(
        mut from in prop::collection::btree_set(0usize..87, 2..14),
        target in 0usize..87,
        cap in 0.2f64..1.0,
        cox in 0.5f64..8.0,
    ) -> (Vec<usize>, usize, f64, f64) {
        from.remove(&target);
        from.insert((target + 1) % 87);
        (from.into_iter().collect(), target, cap, cox)
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn mixture_with_the_target_in_the_set_is_the_target((mut from, target, _, _) in some_oils()) {
        let oils = Oils::read();
        from.push(target);
        let found = nearest(&oils.problem(&oils.columns[target], &from, 1.0, None)).unwrap();
        prop_assert!(found.distance < 1e-12, "{}", found.distance);
    }

    #[test]
    fn mixture_that_is_known_is_found((from, _, _, _) in some_oils(), parts in prop::collection::vec(0.01f64..1.0, 3)) {
        let oils = Oils::read();
        let sum: f64 = parts.iter().take(from.len()).sum();
        let known: Vec<(usize, f64)> = from.iter().copied().zip(parts.iter().map(|part| part / sum)).collect();
        let found = nearest(&oils.problem(&oils.mixture(&known), &from, 1.0, None)).unwrap();
        prop_assert!(found.distance < 1e-9, "{}", found.distance);
    }

    #[test]
    fn mixture_is_never_worse_with_one_oil_more_nor_better_under_a_tighter_limit((from, target, cap, cox) in some_oils()) {
        let oils = Oils::read();
        let target = &oils.columns[target];
        let distance = |from: &[usize], cap: f64, cox: Option<f64>| {
            nearest(&oils.problem(target, from, cap, cox)).map_or(f64::INFINITY, |found| found.distance)
        };
        let free = distance(&from, 1.0, None);
        prop_assert!(free <= distance(&from[1..], 1.0, None) + 1e-8);
        prop_assert!(free <= distance(&from, cap, None) + 1e-8);
        prop_assert!(distance(&from, cap, Some(cox)) <= distance(&from, cap * 0.9, Some(cox * 0.9)) + 1e-8);
    }

    #[test]
    fn mixture_does_not_mind_the_order_nor_the_scale((from, target, cap, cox) in some_oils(), scale in 0.5f64..3.0) {
        let oils = Oils::read();
        let mut turned = from.clone();
        turned.reverse();
        let problem = oils.problem(&oils.columns[target], &from, cap, Some(cox));
        let other = oils.problem(&oils.columns[target], &turned, cap, Some(cox));
        let mut scaled = problem.clone();
        scaled.points.iter_mut().flatten().for_each(|cell| *cell *= scale);
        match (nearest(&problem), nearest(&other), nearest(&scaled)) {
            (None, None, None) => {}
            (Some(a), Some(b), Some(c)) => {
                prop_assert!((a.distance - b.distance).abs() < 1e-7);
                prop_assert!((a.distance * scale * scale - c.distance).abs() < 1e-6);
                // What it comes to is unique even where the shares are not.
                let mix = |shares: &[f64], from: &[usize]| {
                    oils.mixture(&from.iter().copied().zip(shares.iter().copied()).collect::<Vec<_>>())
                };
                let (here, there) = (mix(&a.shares, &from), mix(&b.shares, &turned));
                prop_assert!(here.iter().zip(&there).all(|(a, b)| (a - b).abs() < 1e-3));
            }
            _ => prop_assert!(false, "one order has a mixture, the other not"),
        }
    }

    #[test]
    fn few_oils_are_the_best_of_all_choices((from, target, cap, cox) in some_oils(), most in 1usize..=3, limited in any::<bool>()) {
        let oils = Oils::read();
        let from = &from[..from.len().min(7)];
        let (cap, cox) = if limited { (cap, Some(cox)) } else { (1.0, None) };
        let target = &oils.columns[target];
        // Every subset by the other method, which knows nothing of pairs and triples.
        let subsets = (1u32..1 << from.len()).filter(|set| set.count_ones() as usize <= most);
        let best = subsets
            .filter_map(|set| {
                let chosen: Vec<usize> = from.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1).map(|(_, oil)| *oil).collect();
                nearest(&oils.problem(target, &chosen, cap, cox)).map(|found| found.distance)
            })
            .fold(f64::INFINITY, f64::min);
        let few = nearest_few(&oils.problem(target, from, cap, cox), most).map_or(f64::INFINITY, |few| few.distance);
        prop_assert!(best == few || (best - few).abs() < 1e-6, "all choices {}, few {}", best, few);
    }

    #[test]
    fn few_oils_are_within_the_limits_and_no_better_than_many((from, target, cap, cox) in some_oils(), most in 1usize..=3) {
        let oils = Oils::read();
        let problem = oils.problem(&oils.columns[target], &from, cap, Some(cox));
        if let Some(few) = nearest_few(&problem, most) {
            let whole = nearest(&problem).unwrap();
            prop_assert!(few.distance >= whole.distance - 1e-8);
            prop_assert!(within_limits(&problem, &few.shares), "{few:?}");
            if whole.shares.iter().filter(|share| **share > 1e-7).count() <= most {
                prop_assert!(few.distance <= whole.distance + 1e-6, "{} {}", few.distance, whole.distance);
            }
        }
    }

    #[test]
    fn swapped_line_keeps_the_total_to_the_last_digit(
        share in 0i64..=100_000_000,
        weights in prop::collection::vec(0i64..=100_000_000, 1..6),
        fills in any::<bool>(),
    ) {
        let text = if fills { "qs".to_owned() } else { Percent::from_units(share).canonical() };
        let mut formula = formula_of(&[("olive", &text), ("shea", "12.345678")]);
        let before = totals(&formula);
        let oils = ["canola", "sesame", "marula", "argan", "borage"];
        let parts: Vec<(IngredientId, Percent)> =
            oils.iter().zip(&weights).map(|(oil, weight)| (id(oil), Percent::from_units(*weight))).collect();
        let target = line(&formula, 0);
        if let Ok(lines) = new_lines(&formula, &before, target, &parts) {
            replace(&mut formula, target, lines);
        }
        prop_assert_eq!(totals(&formula).total, before.total);
        prop_assert_eq!(formula.fill_up().is_some(), fills);
    }
}

// ---- Swap ----------------------------------------------------------------------------------------------------------

fn in_hand(ids: &[&str]) -> Shelf {
    let mut shelf = Shelf::default();
    for name in ids {
        shelf.set(&id(name), Field::InHand, "yes");
    }
    shelf
}

#[test]
fn swap_nut_free_on_my_shelf_says_what_changes() {
    let shelf = in_hand(&["sunflower-high-oleic", "grapeseed", "olive", "hazelnut", "sesame"]);
    let limits = Limits { pool: Pool::InHand, avoid: Allergens::NUTS, ..Limits::default() };
    let answer = swap(&shelf, &id("almond-sweet"), &limits, Weighting::Plain).unwrap();
    let blend = answer.blend.unwrap();
    assert_eq!(blend.parts.iter().map(|(_, share)| *share).sum::<Percent>(), Percent::WHOLE);
    assert!(blend.parts.iter().all(|(oil, _)| *oil != id("hazelnut")), "{:?}", blend.parts);
    assert!(blend.lost.meets(Allergens::TREE_NUT));
    assert_eq!(answer.left_out.len(), 1);
    assert_eq!(answer.left_out[0].why, WhyLeftOut::Carries(Allergens::TREE_NUT));
    assert!(blend.misplaced <= answer.singles[0].misplaced.plus(Percent::millionths(50_000)));
    assert!(answer.singles.iter().any(|one| one.gained == Allergens::SESAME));
    assert_eq!(answer.singles.len(), 4);
}

#[test]
fn swap_under_limits_keeps_them_as_shown() {
    let shelf = Shelf::default();
    for target in ["almond-sweet", "argan", "sunflower-linoleic", "shea", "rosehip"] {
        let limits = Limits {
            most_oils: Some(3),
            most_of_one: Some(Percent::millionths(50_000_000)),
            oxidizability: Some(Cox::from_units(250)),
            ..Limits::default()
        };
        let answer = swap(&shelf, &id(target), &limits, Weighting::Keeping).unwrap();
        let blend = answer.blend.unwrap_or_else(|limits| panic!("{target}: {limits:?}"));
        assert!(blend.parts.len() <= 3 && blend.breaks.is_empty(), "{target}: {:?}", blend.parts);
        assert!(blend.parts.iter().all(|(_, share)| *share <= Percent::millionths(50_000_000)), "{target}");
        assert!(blend.figures.oxidizability <= Cox::from_units(250), "{target}: {:?}", blend.figures.oxidizability);
        assert!(
            answer.singles.iter().all(|one| one.breaks.contains(&Limit::MostOfOne(Percent::millionths(50_000_000))))
        );
    }
}

#[test]
fn swap_keeps_the_required_hlb_where_it_is_known() {
    let limits = Limits { hlb_within: Some(Hlb::from_units(50)), ..Limits::default() };
    let answer = swap(&Shelf::default(), &id("olive"), &limits, Weighting::Plain).unwrap();
    let blend = answer.blend.unwrap();
    assert!((blend.required_hlb.unwrap().units() - 700).abs() <= 50);
    assert!(answer.left_out.iter().any(|one| one.why == WhyLeftOut::HlbUnknown));
    let unknown = swap(&Shelf::default(), &id("moringa"), &limits, Weighting::Plain);
    assert_eq!(unknown.unwrap_err(), NoSwap::HlbUnknown);
}

#[test]
fn swap_limits_that_clash_are_named_and_no_other() {
    let shelf = in_hand(&["sunflower-linoleic", "grapeseed", "hazelnut"]);
    let cox = Cox::from_units(200);
    let limits = Limits {
        pool: Pool::InHand,
        avoid: Allergens::NUTS,
        most_oils: Some(3),
        oxidizability: Some(cox),
        ..Limits::default()
    };
    // Hazelnut alone would keep well enough; it is a nut, and everything else in hand oxidises.
    let clash = swap(&shelf, &id("almond-sweet"), &limits, Weighting::Plain).unwrap().blend.unwrap_err();
    assert_eq!(clash, [Limit::InHand, Limit::Avoid(Allergens::NUTS), Limit::Oxidizability(cox)]);
    let sentence = hundred_parts::words::fats::clash(&clash);
    assert!(sentence.starts_with("No blend can satisfy these limits together"), "{sentence}");
    // Two oils of at most 40 % each leave a fifth.
    let limits = Limits { most_oils: Some(2), most_of_one: Some(Percent::millionths(40_000_000)), ..Limits::default() };
    let clash = swap(&Shelf::default(), &id("almond-sweet"), &limits, Weighting::Plain).unwrap().blend.unwrap_err();
    assert_eq!(clash, [Limit::MostOils(2), Limit::MostOfOne(Percent::millionths(40_000_000))]);
    // Nothing in hand at all.
    let limits = Limits { pool: Pool::InHand, ..Limits::default() };
    let clash = swap(&Shelf::default(), &id("almond-sweet"), &limits, Weighting::Plain).unwrap().blend.unwrap_err();
    assert_eq!(clash, [Limit::InHand]);
}

#[test]
fn swap_of_what_is_no_triglyceride_is_refused() {
    let limits = Limits::default();
    let of = |name: &str| swap(&Shelf::default(), &id(name), &limits, Weighting::Plain);
    assert_eq!(of("jojoba").unwrap_err(), NoSwap::NotTriglyceride(FatKind::WaxEster));
    assert_eq!(of("glycerin").unwrap_err(), NoSwap::NotAFat);
    let singles = of("olive").unwrap().singles;
    assert!(singles.iter().all(|one| !["jojoba", "squalane", "beeswax"].contains(&one.parts[0].0.as_str())));
}

#[test]
fn swap_finds_an_own_oil_of_the_same_acids() {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("Twin");
    shelf.set(
        &own,
        Field::FattyAcids,
        "16:0 12.34; 16:1 1.26; 18:0 2.29; 18:1 73.23; 18:2 9.82; 18:3 .32; 20:0 .58; 20:1 .16",
    );
    let answer = swap(&shelf, &id("olive"), &Limits::default(), Weighting::Plain).unwrap();
    assert_eq!(answer.singles[0].parts[0].0, own);
    assert_eq!(answer.blend.unwrap().parts, [(own.clone(), Percent::WHOLE)]);
    // What it carries is not known, so it is not nut-free.
    let limits = Limits { avoid: Allergens::NUTS, ..Limits::default() };
    let answer = swap(&shelf, &id("olive"), &limits, Weighting::Plain).unwrap();
    assert!(answer.left_out.iter().any(|one| one.id == own && one.why == WhyLeftOut::AllergensUnknown));
    shelf.set(&own, Field::AllergenSource, "olive");
    assert!(
        swap(&shelf, &id("olive"), &limits, Weighting::Plain).unwrap().singles.iter().any(|one| one.parts[0].0 == own)
    );
}

fn bench(formula: Formula) -> Bench {
    let mut document = Document::default();
    document.state.formula = formula;
    Bench::new(DocId::random(1), document, Cupboard::default(), Moment::from_millis(0))
}

#[test]
fn swap_is_applied_and_undone_as_one_step() {
    let now = Moment::from_millis(0);
    let mut bench = bench(formula_of(&[("almond-sweet", "10"), ("shea", "5")]));
    let before = bench.state().clone();
    let parts = vec![
        (id("sunflower-high-oleic"), Percent::millionths(60_400_000)),
        (id("olive"), Percent::millionths(23_000_000)),
        (id("grapeseed"), Percent::millionths(16_600_000)),
    ];
    bench.act(Action::SwapLine(line(&before.formula, 0), parts), now);
    let shares: Vec<_> = bench.state().formula.lines().map(|(_, line)| line.share.typed().unwrap().text()).collect();
    assert_eq!(shares, ["6.04", "2.30", "1.66", "5"].map(|text| if text == "2.30" { "2.3" } else { text }));
    assert!(bench.undo(now));
    assert_eq!(bench.state(), &before);
    assert!(!bench.can_undo());
}

#[test]
fn swap_of_an_unread_share_changes_one_for_one_only() {
    let now = Moment::from_millis(0);
    let mut bench = bench(formula_of(&[("almond-sweet", "10.x"), ("shea", "5")]));
    let target = line(&bench.state().formula, 0);
    let half = Percent::millionths(50_000_000);
    bench.act(Action::SwapLine(target, vec![(id("olive"), half), (id("canola"), half)]), now);
    assert!(!bench.can_undo());
    bench.act(Action::SwapLine(target, vec![(id("olive"), Percent::WHOLE)]), now);
    let changed = bench.state().formula.line(target).unwrap();
    assert_eq!((&changed.choice, changed.share.typed().unwrap().text()), (&Choice::Known(id("olive")), "10.x"));
}

// ---- Lye -----------------------------------------------------------------------------------------------------------

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
        let meant = LyePlan { acknowledged: true, ..plan(discount, "98") };
        assert_eq!(from_fats(fats(), &meant, MILLIGRAM).unwrap().notes[0], LyeNote::NoDiscount);
    }
    let strong = LyePlan { concentration: typed("51"), ..plan("5", "98") };
    assert!(matches!(from_fats(fats(), &strong, MILLIGRAM), Err(NoLye::TooStrong(_))));
    let strong = LyePlan { water_by: WaterBy::Ratio, ratio: typed("0.9"), ..plan("5", "98") };
    assert!(matches!(from_fats(fats(), &strong, MILLIGRAM), Err(NoLye::TooStrong(_))));
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
    assert_eq!(coarse, Err(NoLye::TooSmall));
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

const SOAP: &str = r#"{"format":"hundred-parts","version":1,"formula":{"title":"Quay bar","use":"soap","pack":"bar","phases":[
 {"name":"Fats","kind":"oil","lines":[{"ingredient":"olive","percent":"60"},{"ingredient":"coconut","percent":"25"},
 {"ingredient":"shea","percent":"10"},{"ingredient":"jojoba","percent":"5"}]}]},
 "batch":{"mass_g":"1000","readability_g":"0.1"},
 "lye":{"naoh_purity_percent":"98","discount_percent":"5","concentration_percent":"33"}}"#;

fn sheet(document: &str) -> Value {
    serde_json::from_str(&sheet_report(document).unwrap_or_else(|problem| panic!("{problem}"))).unwrap()
}

/// Source: by hand from the low ends of the table (olive 184, coconut 248, shea 160, jojoba 80): 600 × 184 + 250 × 248 +
/// 100 × 160 + 50 × 80 = 192.4 g KOH; × 0.7128896 × 0.95 / 0.98 = 132.96 g NaOH; water × 67 / 33 = 269.9 g.
#[test]
fn sheet_of_a_soap_prints_fats_and_lye() {
    let sheet = sheet(SOAP);
    let lye = &sheet["lye"];
    assert_eq!(lye["alkalis"][0]["weigh_g"], "132.9");
    let water: f64 = lye["water_g"].as_str().unwrap().parse().unwrap();
    near(water, 269.8, 0.2, "water");
    assert_eq!(lye["basis"], "low");
    assert_eq!(lye["cautions"].as_array().unwrap().len(), 13);
    let said =
        |needle: &str| lye["cautions"].as_array().unwrap().iter().any(|one| one.as_str().unwrap().contains(needle));
    for needle in ["goggles", "gloves", "lye to cold water", "Children and pets", "window", "No vinegar", "15 minutes"]
    {
        assert!(said(needle), "{needle}");
    }
    assert!(lye["alkalis"][0]["label"].as_str().unwrap().contains("H314"));
    let fats = &sheet["fats"];
    assert_eq!(fats["uncounted"][0]["ingredient"], "jojoba");
    assert!(fats["profile"]["18:1"].is_string() && fats["oxidation_index"].is_string());
    assert!(fats["methods"]["iodine_value"].as_str().unwrap().contains("AOCS Cd 1c-85"));
}

#[test]
fn sheet_of_a_lotion_has_no_lye_and_without_fats_no_fats() {
    let lotion = SOAP.replace("\"soap\"", "\"leave-on\"");
    let lotion = sheet(&lotion);
    assert!(lotion.get("lye").is_none() && lotion.get("lye_missing").is_none());
    let water = sheet(
        r#"{"format":"hundred-parts","version":1,"formula":{"phases":[{"lines":[{"ingredient":"water","percent":"100"}]}]}}"#,
    );
    assert!(water.get("fats").is_none());
}

#[test]
fn sheet_says_why_there_is_no_lye() {
    let zero = sheet(&SOAP.replace("\"discount_percent\":\"5\"", "\"discount_percent\":\"0\""));
    assert!(zero.get("lye").is_none());
    assert!(zero["lye_missing"].as_str().unwrap().contains("no margin"));
    let findings = zero["findings"].as_array().unwrap();
    assert!(findings.iter().any(|one| one["rule"] == "lye" && one["grade"] == "care"), "{findings:?}");
    let own = SOAP
        .replace("\"lye\":", r#""shelf":[{"id":"odd","values":{"sv_low":"420"}}],"lye":"#)
        .replace("\"shea\"", "\"odd\"");
    assert!(sheet(&own)["lye_missing"].as_str().unwrap().contains("420"));
}

#[test]
fn soap_document_comes_back_as_it_was_and_others_are_as_ever() {
    let text = SOAP.replace("\"lye\":{", r#""lye":{"alkali":"both","naoh_mole_percent":"60","lines":[{"phase":0,"line":1}],"discount_percent_typed":"5 %","#);
    let document = read_document(&text, &mut Shelf::default()).unwrap();
    assert_eq!(document.state.formula.about.purpose, Use::Soap);
    assert_eq!(document.state.lye.part, Saponified::Lines(vec![line(&document.state.formula, 1)]));
    let once = document_text(&document, &Shelf::default());
    let again = read_export(&once).unwrap();
    assert_eq!(again.documents[0].state.lye, document.state.lye);
    assert_eq!(document_text(&again.documents[0], &Shelf::default()), once);
    // A plan that was never touched is not written.
    assert!(!document_text(&Document::default(), &Shelf::default()).contains("\"lye\""));
    for wrong in [r#""alkali":"lime""#, r#""lines":[{"phase":9,"line":0}]"#, r#""no_margin_acknowledged":"yes""#] {
        let text = SOAP.replace("\"lye\":{", &format!("\"lye\":{{{wrong},"));
        let problem = read_document(&text, &mut Shelf::default()).unwrap_err();
        assert!(problem.path.starts_with("lye."), "{problem}");
    }
}

#[test]
fn acknowledgement_does_not_travel_and_ends_when_the_discount_is_typed_anew() {
    let now = Moment::from_millis(0);
    let text = SOAP.replace("\"lye\":{", "\"lye\":{\"no_margin_acknowledged\":true,");
    assert!(!read_export(&text).unwrap().documents[0].state.lye.acknowledged);
    let document = read_document(&text, &mut Shelf::default()).unwrap();
    let mut bench = Bench::new(DocId::random(1), document, Cupboard::default(), now);
    assert!(bench.state().lye.acknowledged);
    bench.act(Action::LyeText(LyeField::Discount, "-1".into()), now);
    assert!(matches!(bench.derive().sheet.lye, Some(Err(NoLye::Unacknowledged(_)))));
    bench.act(Action::LyeAcknowledged(true), now);
    assert!(matches!(bench.derive().sheet.lye, Some(Ok(_))));
    bench.undo(now);
    bench.undo(now);
    assert_eq!(bench.state().lye.discount.text(), "5");
}

#[test]
fn lye_actions_are_undone_one_by_one() {
    let now = Moment::from_millis(0);
    let document = read_document(SOAP, &mut Shelf::default()).unwrap();
    let mut bench = Bench::new(DocId::random(1), document, Cupboard::default(), now);
    let before = bench.state().clone();
    let target = line(&before.formula, 0);
    let actions = [
        Action::Alkali(AlkaliChoice::Both),
        Action::LyeText(LyeField::SodiumShare, "60".into()),
        Action::LyeText(LyeField::PotassiumPurity, "90".into()),
        Action::LyeText(LyeField::SodiumPurity, "97".into()),
        Action::LyeText(LyeField::Concentration, "30".into()),
        Action::LyeWater(WaterBy::Ratio),
        Action::LyeText(LyeField::Ratio, "2.5".into()),
        Action::LyeBasis(SvBasis::Typical),
        Action::Saponify(Saponified::Lines(vec![target])),
    ];
    let count = actions.len();
    for action in actions {
        bench.act(action, now);
    }
    let Some(Ok(lye)) = bench.derive().sheet.lye else { panic!("no lye") };
    assert_eq!((lye.fats.len(), lye.alkalis.len()), (1, 2));
    for _ in 0..count {
        assert!(bench.undo(now));
    }
    assert_eq!(bench.state(), &before);
    assert!(!bench.can_undo());
}
