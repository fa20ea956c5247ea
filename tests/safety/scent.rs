//! Fragrance and essential oils: allergens on the label, certificates, how much in all.

use crate::made::*;
use hundred_parts::facts::Field;
use hundred_parts::rules::Grade;

const LAVENDER: &str = "Linalool 35 %\nLinalyl acetate 40 %\nCoumarin 0.1 %";

// Rule 12. Source: Annex III, thresholds of 0.001 % left on and 0.01 % washed off.
#[test]
fn allergens_are_named_on_the_label() {
    let lotion = l1().shelf("lavender-essential-oil", Field::AllergenStatement, LAVENDER);
    let (_, sheet, _) = lotion.derive();
    let named: Vec<_> =
        sheet.label.allergens.iter().filter(|sum| sum.named).map(|sum| (sum.allergen.name, sum.share)).collect();
    let names: Vec<&str> = named.iter().map(|(name, _)| *name).collect();
    assert_eq!(names, ["Lavandula Oil/Extract", "Linalool", "Linalyl Acetate"]);
    let shares: Vec<String> =
        named.iter().map(|(_, share)| hundred_parts::quantity::Quantity::canonical(*share)).collect();
    assert_eq!(shares, ["0.3", "0.105", "0.12"]);
    l1().says("no-statement", Grade::Stop);
    lotion.silent("no-statement");
    // Great Britain: the names of 2023 were not seen to be law.
    let (_, sheet, _) = lotion.clone().set("region", "gb").derive();
    let names: Vec<&str> = sheet.label.allergens.iter().filter(|sum| sum.named).map(|sum| sum.allergen.name).collect();
    assert_eq!(names, ["Linalool"]);
    let (_, sheet, _) = lotion.set("region", "us").derive();
    assert!(sheet.label.allergens.iter().all(|sum| !sum.named));
    // Soap with 0.02 % lavender: the oil 0.02 > 0.01, linalool 0.007 is not.
    let soap = water(&["lavender-essential-oil 0.02"]).set("use", "rinse-off").shelf(
        "lavender-essential-oil",
        Field::AllergenStatement,
        LAVENDER,
    );
    let (_, sheet, _) = soap.derive();
    let names: Vec<&str> = sheet.label.allergens.iter().filter(|sum| sum.named).map(|sum| sum.allergen.name).collect();
    assert_eq!(names, ["Lavandula Oil/Extract"]);
}

// Rule 13. Source: the supplier's certificate; SCCS/1681/25; totals are custom.
#[test]
fn fragrance_load_and_certificate() {
    let oils =
        water(&["lavender-essential-oil 0.30", "sweet-orange-essential-oil 0.50", "peppermint-essential-oil 0.20"]);
    assert_eq!(value(&oils.says("fragrance-modest", Grade::Fine)), "1 %");
    oils.clone().set("area", "face").says("fragrance-much", Grade::Care);
    oils.says("no-certificate", Grade::Care);
    let certified = |share: &str| {
        water(&[&format!("parfum {share}")]).shelf("parfum", Field::Certificate, "5A 0.42; 5B 0.2; 9 2.1").shelf(
            "parfum",
            Field::Document,
            "IFRA certificate of 2 May 2026",
        )
    };
    let over = certified("0.43").says("above-certificate", Grade::Stop);
    assert_eq!(over.detail.document.as_deref(), Some("IFRA certificate of 2 May 2026"));
    certified("0.43").set("area", "hand").says("no-certificate", Grade::Care);
    // Not all of a certificate is understood: nothing is within it, and what is above it stays above it.
    let half = |share: &str| {
        water(&[&format!("parfum {share}")]).shelf("parfum", Field::Certificate, "5A 0.42\n5A to 5D see annex 3b")
    };
    half("0.4").says("certificate-unread", Grade::Care);
    half("0.4").silent("within-certificate");
    half("0.43").says("above-certificate", Grade::Stop);
    water(&["tea-tree-essential-oil 0.11"]).set("area", "face").says("tea-tree-face", Grade::Stop);
    water(&["tea-tree-essential-oil 0.11"]).says("tea-tree-not-covered", Grade::Care);
}

#[test]
fn fragrance_edges() {
    let load = |share: &str| water(&[&format!("parfum {share}")]);
    for (share, area, purpose, grade) in [
        ("0.999999", "body", "leave-on", Grade::Fine),
        ("1", "body", "leave-on", Grade::Fine),
        ("1.000001", "body", "leave-on", Grade::Care),
        ("2", "body", "leave-on", Grade::Care),
        ("2.000001", "body", "leave-on", Grade::Care),
        ("0.5", "face", "leave-on", Grade::Fine),
        ("0.500001", "face", "leave-on", Grade::Care),
        ("1", "face", "leave-on", Grade::Care),
        ("1.000001", "face", "leave-on", Grade::Care),
        ("3", "body", "rinse-off", Grade::Fine),
        ("3.000001", "body", "rinse-off", Grade::Care),
    ] {
        let said = if grade == Grade::Fine { "fragrance-modest" } else { "fragrance-much" };
        load(share).set("area", area).set("use", purpose).says(said, grade);
    }
    load("0.500001").set("audience", "pregnant").says("fragrance-much", Grade::Care);
    for (share, grade) in [("0.42", Grade::Fine), ("0.420001", Grade::Stop), ("0.419999", Grade::Fine)] {
        let made = load(share).shelf("parfum", Field::Certificate, "5A 0.42");
        made.says(if grade == Grade::Fine { "within-certificate" } else { "above-certificate" }, grade);
    }
    for (share, said) in
        [("0.099999", "tea-tree-face-within"), ("0.1", "tea-tree-face-within"), ("0.100001", "tea-tree-face")]
    {
        assert!(
            water(&[&format!("tea-tree-essential-oil {share}")]).set("area", "face").find(said).is_some(),
            "{share}"
        );
    }
}
