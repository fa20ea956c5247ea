//! Fragrance and essential oils: allergens on the label, certificates, how much in all.

use crate::made::*;
use hundred_parts::facts::Field;
use hundred_parts::rules::{Fact, Grade, Message};

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

/// A name that nobody here knows never vanishes: it is withheld from what was understood, found, and open on the label.
#[test]
fn names_of_a_statement_that_are_not_recognised_are_said_everywhere() {
    use hundred_parts::paper::{LABEL_FORMATS, label_facts};
    use hundred_parts::shelf::read_composition;
    use hundred_parts::words;
    let statement = "d-Limonene 40 %\nNerol 2 %\nSecret base 4 %\nLilac accord\t0.5\nMoss note not detected";
    let read = read_composition(statement);
    let told = words::composition_read(&read);
    assert_eq!(told, "Substances read: 3; of these, allergens that labels may have to name: 1.");
    let made = water(&["parfum 0.5", "phenoxyethanol 0.9"]).shelf("parfum", Field::AllergenStatement, statement);
    let found = made.says("names-unrecognised", Grade::Unknown);
    let names = vec!["Secret base".to_owned(), "Lilac accord".to_owned()];
    assert_eq!(found.fact, Fact::Message(Message::NamesUnrecognised { names }));
    assert_eq!(found.detail.lots.len(), 1, "the lot is named");
    made.silent("statement-unread");
    let (formula, sheet, findings) = made.derive();
    assert!(sheet.label.names().contains(&"Limonene"), "{:?}", sheet.label.names());
    let facts = label_facts(&formula, &sheet, &findings);
    let open: Vec<String> = facts.gaps.iter().filter(|gap| gap.is_open()).map(words::gap).collect();
    assert!(open.iter().any(|text| text.contains("Secret base, Lilac accord")), "{open:?}");
    let paper = words::label_paper(&facts, LABEL_FORMATS[0]).text();
    let (missing, unknown) = paper.split_once("Not known yet").expect("a heading of its own");
    assert!(!missing.contains("Secret base") && unknown.contains("Secret base"), "{paper}");
    // What is no scent by its functions may come with a statement, too.
    let extract = water(&["panthenol-75 1", "phenoxyethanol 0.9"]);
    extract
        .shelf("panthenol-75", Field::AllergenStatement, "Secret base 4 %")
        .says("names-unrecognised", Grade::Unknown);
    let known = water(&["parfum 0.5"]).shelf("parfum", Field::AllergenStatement, "d-Limonene 40 %\nNerol 2 %");
    known.silent("names-unrecognised");
}

/// However a supplier writes it, the label has it.
#[test]
fn allergens_are_named_whatever_their_supplier_calls_them() {
    for (name, label) in [
        ("d-Limonene", "Limonene"),
        ("alpha-Pinene", "Pinene"),
        ("L-Menthol", "Menthol"),
        ("trans-Anethole", "Anethole"),
        ("L-Carvone", "Carvone"),
        ("D-Camphor", "Camphor"),
        ("alpha-Terpineol", "Terpineol"),
        ("Caryophyllene", "Beta-Caryophyllene"),
        ("Linalol", "Linalool"),
        ("Oakmoss extract", "Evernia Prunastri Extract"),
        ("Something (CAS 5989-27-5)", "Limonene"),
    ] {
        let made = water(&["parfum 1"]).shelf("parfum", Field::AllergenStatement, &format!("{name} 10 %"));
        let (_, sheet, _) = made.derive();
        assert!(sheet.label.names().contains(&label), "{name}: {:?}", sheet.label.names());
        made.silent("names-unrecognised");
    }
    // Methyl eugenol is no allergen of the label, and capped at 0.0002 %.
    let capped = water(&["parfum 1"]).shelf("parfum", Field::AllergenStatement, "Methyleugenol 1 %");
    capped.says("above-cap", Grade::Stop);
    capped.silent("names-unrecognised");
    // Lavender oil that its own statement names is not counted twice.
    let lavender = water(&["lavender-essential-oil 0.3"]);
    let lavender =
        lavender.shelf("lavender-essential-oil", Field::AllergenStatement, "Lavender oil 100 %\nLinalool 30");
    let (_, sheet, _) = lavender.derive();
    let oil = sheet.label.allergens.iter().find(|sum| sum.allergen.name.starts_with("Lavandula")).unwrap();
    assert_eq!(hundred_parts::quantity::Quantity::canonical(oil.share), "0.3");
}
