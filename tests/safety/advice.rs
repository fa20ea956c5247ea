//! What advises and does not stop: customs of the trade, craft, choices of ours. And what is no alarm at all.

use crate::made::*;
use hundred_parts::facts::Field;
use hundred_parts::rules::Grade;
use hundred_parts::words;

fn stops(made: &Made) -> Vec<&'static str> {
    made.findings().iter().filter(|finding| finding.grade == Grade::Stop).map(key).collect()
}

fn told(made: &Made, said: &str) -> String {
    words::finding(
        &made.find(said).unwrap_or_else(|| panic!("{said}: {:#?}", shown(&made.findings()))),
        &[],
        words::DecimalSign::Point,
    )
}

/// A cream of so much oil phase, preserved.
fn cream(oils: &[&str]) -> Made {
    Made::of(&["water fill-up", "phenoxyethanol 0.9"]).phase("oil", "72", oils)
}

/// Source: the shares are those of the cream of cetomacrogol as pharmacopoeias have it (emulsifying wax 15, liquid paraffin
/// 6), from memory; on gel networks Eccleston 1997, Colloids and Surfaces A 123-124:169, from memory.
#[test]
fn a_cream_that_a_gel_network_holds_is_not_judged_by_hlb() {
    let creams: [&[&str]; 5] = [
        &["emulsifying-wax-nf 15", "mineral-oil 6"],
        &["cetearyl-alcohol 12", "ceteareth-20 3", "mineral-oil 6"],
        &["cetyl-alcohol 5", "polysorbate-60 3", "mineral-oil 12"],
        &["glyceryl-stearate 5", "polysorbate-80 3", "mineral-oil 20"],
        &["glyceryl-stearate 4", "ceteareth-20 1", "castor 15"],
    ];
    for oils in creams {
        let made = cream(oils);
        assert_eq!(stops(&made), Vec::<&str>::new(), "{oils:?}");
        made.silent("lipophilic-only");
        let said = ["hlb-off", "hlb-meets"].into_iter().find(|said| made.find(said).is_some());
        if let Some(said) = said {
            let grade = if said == "hlb-off" { Grade::Unknown } else { Grade::Fine };
            made.says(said, grade);
            assert!(told(&made, said).contains("HLB does not decide here"), "{oils:?}: {}", told(&made, said));
        } else {
            assert!(oils[0].starts_with("emulsifying-wax"), "an HLB means nothing for a wax: {oils:?}");
        }
    }
    // The same from the maker's own wax, by its INCI names and an HLB that was typed.
    let mut own = cream(&["mineral-oil 6"]);
    let id = own.shelf.add_own("Cetomacrogol wax");
    for (field, text) in [
        (Field::Inci, "Cetearyl Alcohol; Ceteareth-20"),
        (Field::Components, "Cetearyl Alcohol 80; Ceteareth-20 20"),
        (Field::Functions, "Surfactant - emulsifying"),
        (Field::EmulsifierHlb, "15.7"),
    ] {
        own.shelf.set(&id, field, text);
    }
    let own = own.with(&format!("{id} 15"));
    assert_eq!(stops(&own), Vec::<&str>::new());
    own.says("hlb-off", Grade::Unknown);
    // Without a partner there is no network, and HLB is worth a look.
    let alone = cream(&["cetyl-alcohol 5", "sorbitan-laurate 3", "castor 12"]);
    assert!(!alone.says("hlb-off", Grade::Care).is_lowered());
}

#[test]
fn an_emulsifier_of_the_wrong_side_is_called_so_and_not_praised() {
    for oils in [
        &["sorbitan-oleate 5", "sunflower-high-oleic 20"][..],
        &["sorbitan-oleate 4", "glyceryl-stearate 1", "rosehip 15"],
        // Nobody knows what HLB these oils ask for: the emulsifier is of the wrong side all the same.
        &["sorbitan-stearate 5", "baobab 15"],
    ] {
        let made = cream(oils);
        made.advises("lipophilic-only");
        let text = told(&made, "lipophilic-only");
        assert!(text.contains("they hold water in oil, not oil in water") && text.contains("separate"), "{text}");
        made.silent("emulsifier-enough");
        made.silent("hlb-off");
    }
    // Water in oil is what it is for.
    let balm =
        Made::of(&["water 30", "phenoxyethanol 0.9"]).phase("oil", "72", &["sorbitan-oleate 5", "jojoba fill-up"]);
    balm.silent("lipophilic-only");
    balm.silent("drops-packed");
}

/// Source: π / (3 √2), how full equal spheres fill a space at their closest (Hales 2005).
#[test]
fn drops_closer_than_spheres_can_be_are_said() {
    let packed = Made::of(&["water 14.1", "phenoxyethanol 0.9"]).phase("oil", "72", &["polysorbate-60 5", "mct 80"]);
    let found = packed.says("drops-packed", Grade::Care);
    assert_eq!(found.limit().as_deref(), Some("74 %"));
    let closest = 100.0 * core::f64::consts::PI / (3.0 * 2f64.sqrt());
    assert!((closest - 74.048).abs() < 0.001);
    cream(&["polysorbate-60 5", "mct 60"]).silent("drops-packed");
}

#[test]
fn a_ph_that_the_product_needs_advises_and_says_what_not_to_do() {
    let vanishing = Made::of(&["water fill-up", "glycerin 8", "potassium-hydroxide 0.7", "phenoxyethanol 0.9"])
        .phase("oil", "75", &["stearic-acid 17"])
        .set("target_ph", "7.9");
    vanishing.advises("too-alkaline");
    let text = told(&vanishing, "too-alkaline");
    assert!(text.contains("its soap (Stearic Acid) breaks down in acid, so do not lower the pH"), "{text}");
    assert!(told(&water(&["glyceryl-stearate-se 3"]).set("target_ph", "7.9"), "too-alkaline").contains("do not lower"));
    assert!(told(&water(&["phenoxyethanol 0.9"]).set("target_ph", "7.9"), "too-alkaline").contains("Lower the pH"));
    let peel = water(&["lactic-acid 8", "phenoxyethanol 0.9"]).set("target_ph", "3.7");
    peel.silent("aha-too-acid");
    assert_eq!(stops(&peel), Vec::<&str>::new());
    peel.advises("too-acid");
    assert!(told(&peel, "too-acid").contains("Lactic Acid needs a low pH to exfoliate"));
    // Where its own rule does not accept the pH nothing of that is said.
    let burns = water(&["lactic-acid 8", "phenoxyethanol 0.9"]).set("target_ph", "3.4");
    burns.says("aha-too-acid", Grade::Stop);
    assert!(told(&burns, "too-acid").contains("Raise the pH"));
}

#[test]
fn customs_for_children_and_scent_advise() {
    let wash = water(&["parfum 0.2", "phenoxyethanol 0.9"])
        .shelf("parfum", Field::AllergenStatement, "Linalool 0.1 %")
        .set("use", "rinse-off")
        .set("audience", "under-3");
    assert_eq!(stops(&wash), Vec::<&str>::new());
    wash.advises("scent-under-three");
    let much = water(&["parfum 2.5", "phenoxyethanol 0.9"]).shelf("parfum", Field::AllergenStatement, "Linalool 0.1 %");
    assert_eq!(stops(&much), Vec::<&str>::new());
    much.advises("fragrance-much");
    // What law forbids still stops.
    water(&["salicylic-acid 0.3"]).set("audience", "under-3").says("not-under-three", Grade::Stop);
}

#[test]
fn water_without_a_preservative_still_stops() {
    water(&["glycerin 5"]).says("unpreserved", Grade::Stop);
    water(&["phenoxyethanol 0.05"]).says("too-little", Grade::Stop);
    water(&["sodium-benzoate 0.5"]).set("target_ph", "6.8").says("none-works-at-ph", Grade::Stop);
}

#[test]
fn a_powder_of_a_juice_is_no_water() {
    for (name, inci, wet) in [
        ("Aloe juice powder", "Aloe Barbadensis Leaf Juice", false),
        ("Aloe 200:1", "Aloe Barbadensis Leaf Juice Powder", false),
        ("Freeze-dried aloe", "Aloe Barbadensis Leaf Juice", false),
        ("Raspberry powder", "Rubus Idaeus Fruit Juice", false),
        ("Ferment granules", "Lactobacillus Ferment", false),
        ("Aloe juice", "Aloe Barbadensis Leaf Juice", true),
        ("Rose powder water", "Aqua", true),
    ] {
        let mut made = Made::of(&["jojoba fill-up"]);
        let id = made.shelf.add_own(name);
        made.shelf.set(&id, Field::Inci, inci);
        let made = made.with(&format!("{id} 5"));
        assert_eq!(made.find("unpreserved").is_some(), wet, "{name}");
        assert_eq!(made.find("no-water").is_some(), !wet, "{name}");
    }
}

/// What is custom in emulsions, where waxes stiffen and emulsifiers are dear, says nothing of a balm or a soap.
#[test]
fn the_most_of_emulsions_does_not_hold_for_balms() {
    let balm = |line: &str| Made::of(&["jojoba fill-up", line]);
    for line in
        ["beeswax 25", "candelilla 15", "cetyl-alcohol 10", "lanolin 40", "glyceryl-stearate 12", "polysorbate-80 15"]
    {
        balm(line).silent("above-most");
    }
    balm("stearic-acid 45").set("use", "soap").set("pack", "bar").silent("above-most");
    cream(&["beeswax 12", "polysorbate-60 5", "jojoba 20"]).says("above-most", Grade::Care);
    // An antioxidant has its most for what it does, with water or without; the maker's own figure counts everywhere.
    balm("rosemary-extract 2").says("above-most", Grade::Care);
    balm("beeswax 25").shelf("beeswax", Field::Max, "20").says("above-most", Grade::Stop);
}

#[test]
fn data_texts_read_well_inside_sentences() {
    let baby = water(&["glycerin 5", "phenoxyethanol 0.9"]).set("audience", "under-3");
    let text = told(&baby, "source-under-three");
    assert!(text.contains("What it is made from: may come from palm, soy or coconut."), "{text}");
    let flags = told(&water(&["glycerin 5"]), "source-flags");
    assert!(flags.contains("Glycerin (vegetable) (may come from palm, soy or coconut)"), "{flags}");
}
