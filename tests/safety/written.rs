//! Names as suppliers print them: every rule hears them, and what nobody knows is said to be unknown.
//!
//! Figures: Regulation (EC) No 1223/2009 Annex II/360 (safrole), 1395 (boric acid), Annex III/98 (salicylic acid), 102 (methyl
//! eugenol), 324 (methyl salicylate), 376 (retinol), Annex V/12 and 29; how suppliers write names is common practice, no source.

use crate::made::*;
use hundred_parts::facts::Field;
use hundred_parts::quantity::Typed;
use hundred_parts::rules::{self, Grade};
use hundred_parts::sheet::{BatchBasis, LyePlan, Plan, Recognition, compute};
use hundred_parts::shelf::Shelf;

/// A lotion, well preserved, with an ingredient of the maker's own whose label name is this.
fn with_own(inci: &str, share: &str) -> Made {
    let mut made = l1();
    let id = made.shelf.add_own("From the new supplier");
    made.shelf.set(&id, Field::Inci, inci);
    made.with(&format!("{id} {share}"))
}

/// Nothing but an ingredient of the maker's own and water or oil to fill up.
fn only(inci: &str, share: &str, fill: &str) -> Made {
    let mut made = Made::of(&[&format!("{fill} fill-up")]);
    let id = made.shelf.add_own("From the new supplier");
    made.shelf.set(&id, Field::Inci, inci);
    made.with(&format!("{id} {share}"))
}

#[test]
fn written_names_meet_the_rules_of_what_they_name() {
    for (inci, share, said, grade) in [
        ("2-Phenoxyethanol", "1.2", "above-maximum", Grade::Stop),
        ("Phenoxy Ethanol (Preservative)", "1.2", "above-maximum", Grade::Stop),
        ("Methyl Paraben", "0.5", "parabens", Grade::Stop),
        ("Retinol (Vitamin A)", "0.4", "above-cap", Grade::Stop),
        ("CAS 69-72-7", "2.5", "above-cap", Grade::Stop),
        ("Boric acid", "0.5", "annex-prohibits", Grade::Stop),
        ("Hydroquinone 99%", "0.5", "prohibited", Grade::Stop),
        ("Wintergreen oil", "0.5", "above-cap", Grade::Care),
        ("Citrus Aurantium Bergamia (Bergamot) Peel Oil", "0.5", "phototoxic", Grade::Stop),
        ("Kojic acid", "2", "annex-bars", Grade::Stop),
    ] {
        with_own(inci, share).says(said, grade);
    }
}

#[test]
fn written_water_is_water() {
    for inci in [
        "Aqua (Water)",
        "Water (Aqua)",
        "Purified Water",
        "Aqua, Glycerin",
        "Aqua; Glycerin",
        "Hamamelis Virginiana (Witch Hazel) Water",
        "Cucumis Sativus Fruit Water",
        "Maris Aqua",
        "Cocos Nucifera Water",
        "Caprae Lac",
        "Aloe Barbadensis Leaf Juice",
        "Betula Alba Sap",
        "Acetum",
        "Lavender hydrosol",
    ] {
        only(inci, "90", "jojoba").says("unpreserved", Grade::Stop);
    }
    for inci in ["Aloe Barbadensis Leaf Juice Powder", "Helianthus Annuus (Sunflower) Seed Oil", "Cera Alba", "Sucrose"]
    {
        only(inci, "90", "jojoba").says("no-water", Grade::Fine);
    }
}

// A liquid soap is made with the water of its lye, a bar loses it.
#[test]
fn written_nowhere_the_water_of_a_lye_counts() {
    let soap = |pack: &str, ph: &str| {
        Made::of(&["olive 60", "coconut fill-up"]).set("use", "soap").set("pack", pack).set("target_ph", ph)
    };
    // Without a batch there is no lye to count.
    assert_eq!(soap("bottle", "9.5").says("water-unknown", Grade::Unknown).detail.subject, "the water of its lye");
    let (formula, _, _) = soap("bottle", "9.5").derive();
    let batch = Plan { basis: BatchBasis::Mass, mass: Typed::new("500"), ..Plan::default() };
    let sheet = compute(&formula, &batch, &LyePlan::default(), &Shelf::default());
    let found = rules::check(&formula, &sheet, &Shelf::default());
    let unpreserved = found.iter().find(|found| key(found) == "unpreserved").unwrap();
    assert_eq!((unpreserved.grade, unpreserved.value().as_deref() > Some("2")), (Grade::Stop, true), "{unpreserved:?}");
    soap("bottle", "10.1").says("kept-otherwise", Grade::Fine);
    soap("bar", "9.5").says("no-water", Grade::Fine);
}

#[test]
fn written_names_that_nobody_knows_leave_open_what_they_are() {
    let made = only("Quorblium Complex", "90", "jojoba");
    assert_eq!(made.says("unrecognised", Grade::Unknown).lines.len(), 1);
    made.says("water-unknown", Grade::Unknown);
    made.silent("no-water");
    only("Quorblium Powder", "90", "jojoba").says("no-water", Grade::Fine);
    let (_, sheet, _) = made.derive();
    let unknown = sheet.composition.unrecognised();
    assert!(unknown.len() == 1 && unknown[0].0.recognition == Recognition::Unknown, "{unknown:?}");
    // Two things go by this name: which it is, decides nothing before the maker says it.
    with_own("BHA", "1").says("only-likely", Grade::Unknown);
    l1().silent("unrecognised");
}

#[test]
fn written_scents_ask_for_their_statement() {
    for inci in ["Parfum", "Fragrance (Parfum)", "Cananga Odorata Flower Oil", "Peppermint essential oil"] {
        with_own(inci, "0.2").says("no-statement", Grade::Stop);
    }
    with_own("Lavandula Angustifolia (Lavender) Flower Water", "5").says("aromatic-water", Grade::Unknown);
    for inci in ["Prunus Amygdalus Dulcis (Sweet Almond) Oil", "Squalane"] {
        let made = with_own(inci, "2");
        assert!(made.findings().iter().all(|found| !found.lines.is_empty() || found.rule != "fragrance"), "{inci}");
    }
}

#[test]
fn written_blends_are_split_into_their_names() {
    let blend = only("Phenoxyethanol (and) Ethylhexylglycerin", "1", "water");
    blend.says("preserved", Grade::Fine);
    let (_, sheet, _) = blend.derive();
    for name in ["Phenoxyethanol", "Ethylhexylglycerin", "Aqua"] {
        assert!(sheet.label.names().contains(&name), "{name}: {:?}", sheet.label.names());
    }
    // Nobody says how much of it is which.
    with_own("Glycerin (and) Methylparaben", "2").says("composition-unknown", Grade::Care);
}
