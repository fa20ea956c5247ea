//! Hazards on the safety sheet: of forms, own entries, parts of blends and the lye; the lye on label and bundle.

use crate::workshop::*;
use hundred_parts::desk::{DocId, OpenDocument, read_document};
use hundred_parts::facts::Field;
use hundred_parts::paper::{BundleLye, bundle_facts, label_facts, material_hazards, safety_facts};
use hundred_parts::quantity::Timestamp;
use hundred_parts::shelf::Shelf;
use hundred_parts::words;

fn found(made: &Workshop) -> (Vec<(String, String)>, Vec<String>) {
    let (sheet, _) = made.derive();
    let hazards = material_hazards(&made.open.state().formula, &sheet, &made.shelf);
    let known = hazards.known.into_iter().map(|one| (one.row.id.to_owned(), one.part.unwrap_or_default()));
    (known.collect(), hazards.unknown)
}

// Annex VI, Table 3 of Regulation (EC) No 1272/2008 up to the 23rd adaptation.
#[test]
fn hazards_follow_the_substance_into_own_entries_and_blends() {
    let mut made = complete();
    add_own(&mut made, "The clear one", "2-Phenoxyethanol", "0.5");
    add(&mut made, "phenoxyethanol-ethylhexylglycerin", "0.3");
    add(&mut made, "sodium-dehydroacetate", "0.1");
    add(&mut made, "ipbc", "0.01");
    let (known, unknown) = found(&made);
    for (id, part) in [
        ("phenoxyethanol", ""),
        ("ethylhexylglycerin", "Ethylhexylglycerin"),
        ("dehydroacetic-acid", ""),
        ("ipbc", ""),
        ("ipbc-2027", ""),
    ] {
        assert!(known.iter().any(|(row, of)| row == id && (part.is_empty() || of == part)), "{id}: {known:?}");
    }
    assert!(unknown.iter().any(|name| name.contains("lycerin")) && !unknown.iter().any(|name| name.contains("water")));
    let text = made.safety();
    for expected in [
        "Fatal if inhaled. (H330)",
        "until 2027-01-31",
        "from 2027-02-01",
        "its part Ethylhexylglycerin",
        "That does not mean that there are none",
    ] {
        assert!(text.contains(expected), "{expected}: {text}");
    }
}

const SOAP: &str = r#"{"format":"hundred-parts","version":1,"formula":{"title":"Liquid soap","use":"soap","region":"eu","phases":[
    {"name":"Fats","kind":"oil","lines":[{"ingredient":"olive","percent":"70"},{"ingredient":"coconut","percent":"30"}]}]},
    "batch":{"mass_g":"500","readability_g":"0.1"},"lye":{"alkali":"koh","koh_purity_percent":"90"}}"#;

fn soap(text: &str) -> (Vec<String>, String, Option<BundleLye>, String) {
    let mut shelf = Shelf::default();
    let document = read_document(text, &mut shelf).unwrap_or_else(|problem| panic!("{problem}"));
    let open = OpenDocument::new(DocId::random(0), document, shelf.clone().into(), Timestamp::default());
    let derived = open.derive();
    let formula = &open.state().formula;
    let label = label_facts(formula, &derived.sheet, &derived.findings);
    let bundle = bundle_facts(formula, &derived.sheet, &derived.findings, &shelf);
    let safety = words::safety_paper(&safety_facts(formula, &derived.sheet, &derived.findings, &shelf)).text();
    (label.ingredients, safety, bundle.lye.clone(), words::bundle_paper(&bundle, &[]).text())
}

// H314 of potassium hydroxide is harmonised (Annex VI of Regulation (EC) No 1272/2008), H290 is an addition of suppliers.
#[test]
fn soap_names_its_lye_on_label_safety_sheet_and_bundle() {
    let (ingredients, safety, lye, bundle) = soap(SOAP);
    let place =
        |name: &str| ingredients.iter().position(|one| one == name).unwrap_or_else(|| panic!("{ingredients:?}"));
    assert!(place("Olea Europaea Fruit Oil") < place("Potassium Hydroxide"));
    assert!(place("Aqua") < place("Potassium Hydroxide"), "more water than alkali: {ingredients:?}");
    assert!(safety.contains("(H290, added by suppliers)") && safety.contains("(H314)"), "{safety}");
    // Annex III, entry 15a: potassium or sodium hydroxide.
    assert!(safety.contains("Potassium Hydroxide, for the lye | Potassium Hydroxide | III/15"), "{safety}");
    let lye = lye.unwrap();
    assert!(lye.alkalis[0].1 > hundred_parts::quantity::Mass::ZERO);
    assert!(
        bundle.contains("potassium hydroxide (KOH) for the lye") && bundle.contains("Water for the lye"),
        "{bundle}"
    );
}

// Annex III of Regulation (EC) No 1223/2009 after Regulation (EU) 2023/1545: an oil is named as the whole that it belongs to.
#[test]
fn label_names_an_own_essential_oil_once() {
    for (name, inci) in
        [("Lavender oil", ""), ("My oil", "Lavandula Angustifolia Oil"), ("Rose", "Rosa Damascena Flower Oil")]
    {
        let mut made = complete();
        let own = made.shelf.add_own(name);
        if !inci.is_empty() {
            made.shelf.set(&own, Field::Inci, inci);
        }
        add(&mut made, own.as_str(), "0.4");
        let list = made.label().ingredients;
        eprintln!("{name}: {list:?}");
        let oils = list.iter().filter(|one| one.contains("Lavandula") || one.contains("Rosa") || one.contains("Rose"));
        assert_eq!(oils.count(), 1, "{name}: {list:?}");
    }
}

// Article 19(1)(g) of Regulation (EC) No 1223/2009: colourants may stand last; what protects the skin stands by its weight.
#[test]
fn label_orders_zinc_oxide_of_a_balm_by_its_weight() {
    let mut made = complete();
    add(&mut made, "zinc-oxide", "20");
    add(&mut made, "iron-oxide", "2");
    let list = made.label().ingredients;
    let place = |name: &str| list.iter().position(|one| one == name).unwrap_or_else(|| panic!("{name}: {list:?}"));
    assert!(place("Zinc Oxide (CI 77947)") < place("Glycerin") && place("CI 77491") > place("Glycerin"), "{list:?}");
}
