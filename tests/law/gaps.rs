//! Figures that tables of a cosmetic maker often have wrong, as the annexes have them: just at, and one millionth over.
//!
//! Sources: Annexes III and V of Regulation (EC) No 1223/2009 in the Commission's files of 28 August 2026 (`src/law/annexes/`),
//! the entry beside each; for Great Britain SI 2025/413, from memory.

use hundred_parts::law::{
    Annex, COMPACT, JudgedShare, Law, RegionStanding, Ruling, judge, products, read, regional_law,
};
use hundred_parts::quantity::{Percent, Quantity};

fn percent(text: &str) -> Percent {
    Percent::from_canonical(text).unwrap_or_else(|problem| panic!("{text}: {problem:?}"))
}

/// The rulings of an entry on a product with that share, of which all counts.
fn rulings(law: &Law, annex: Annex, reference: &str, product: &str, share: Percent) -> Vec<(Ruling, Option<Percent>)> {
    let entry = law.find(annex, reference).next().unwrap();
    let reading = read(entry);
    let share = JudgedShare { as_is: share, reckoned: Some(share) };
    judge(&reading, products(product).sure, share).iter().map(|said| (said.ruling, said.limit)).collect()
}

#[test]
fn law_has_the_figures_that_tables_often_have_wrong() {
    let law = Law::read(COMPACT).unwrap();
    for (annex, reference, product, limit) in [
        // Salicylic acid: (c) lipstick, (a) rinse-off hair products.
        (Annex::III, "98", "lipstick still 10", "0.5"),
        (Annex::III, "98", "shampoo still 10", "3"),
        (Annex::III, "98", "conditioner still 10", "3"),
        // Methyl salicylate: (f) body lotion as spray, (d) leave-on hair products as spray.
        (Annex::III, "324", "body-lotion pump 10", "0.04"),
        (Annex::III, "324", "hair-lotion pump 10", "0.009"),
        // Hexyl salicylate, products for children under 3: (f).
        (Annex::III, "380", "body-lotion still under-3", "0.1"),
        (Annex::III, "380", "shampoo still under-3", "0.1"),
        // Hydrogen peroxide as H2O2: (a) hair products, (b) skin products.
        (Annex::III, "12", "shampoo still 10", "12"),
        (Annex::III, "12", "body-lotion still 10", "4"),
        // Benzoic acid as acid: what is rinsed off, what stays on.
        (Annex::V, "1", "shower-bath still 10", "2.5"),
        (Annex::V, "1", "body-lotion still 10", "0.5"),
    ] {
        let limit = percent(limit);
        let over = Percent::from_units(limit.units() + 1);
        let what = format!("{annex}/{reference}, {product}");
        let of = |share| rulings(&law, annex, reference, product, share);
        assert!(of(limit).contains(&(Ruling::At, Some(limit))), "{what}: {:?}", of(limit));
        assert!(!of(limit).iter().any(|(ruling, _)| *ruling == Ruling::Over), "{what}");
        assert!(of(over).contains(&(Ruling::Over, Some(limit))), "{what}: {:?}", of(over));
    }
}

// The European Union: not under 6 years (III/324); Great Britain: 0.02 % from half a year to 1 year (SI 2025/413, Schedule).
#[test]
fn law_of_methyl_salicylate_differs_for_children_in_great_britain() {
    let law = Law::read(COMPACT).unwrap();
    let of = |product| rulings(&law, Annex::III, "324", product, percent("0.01"));
    assert!(of("body-lotion still 3").iter().any(|(ruling, _)| *ruling == Ruling::Prohibited));
    assert!(!of("body-lotion still 6").iter().any(|(ruling, _)| *ruling == Ruling::Prohibited));
    let entry = law.find(Annex::III, "324").next().unwrap();
    let differs: Vec<_> = regional_law("gb", entry).filter(|row| row.standing == RegionStanding::Differs).collect();
    assert!(matches!(differs.as_slice(), [one] if one.difference.contains("half a year to 1 year")), "{differs:?}");
}
