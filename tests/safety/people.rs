//! People who need more care: small children, pregnancy, who is allergic to what an ingredient is made from.

use crate::made::*;
use hundred_parts::facts::Field;
use hundred_parts::rules::{Fact, Grade, Message};

// Rule 9. Source: Annex V/3, 12a, 52, 56; Annex III/324; SCCS/1681/25; Tisserand and Young 2014; the rest is custom.
#[test]
fn children_are_kept_from_harm() {
    let baby = l1().set("audience", "under-3");
    let scent = baby.advises("scent-under-three");
    assert!(scent.source().contains("common practice"));
    l1().silent("scent-under-three");
    let ipbc = l1().with("ipbc 0.005");
    assert!(ipbc.says("not-on-the-body", Grade::Stop).verified());
    ipbc.clone().set("audience", "under-3").says("not-under-three", Grade::Stop);
    ipbc.set("area", "hand").silent("not-on-the-body");
    water(&["salicylic-acid 0.3"]).set("audience", "under-3").says("not-under-three", Grade::Stop);
    water(&["silver-chloride-tio2 0.002"]).set("audience", "under-3").says("not-under-three", Grade::Stop);
    water(&["propylparaben 0.1"])
        .set("audience", "under-3")
        .set("area", "nappy")
        .says("not-on-the-nappy-area", Grade::Stop);
    water(&["propylparaben 0.1"]).set("audience", "under-3").silent("not-on-the-nappy-area");
    water(&["tea-tree-essential-oil 0.05"]).set("audience", "child-3-plus").says("tea-tree-for-children", Grade::Stop);
    water(&["peppermint-essential-oil 0.05"]).set("audience", "under-3").says("camphor-for-children", Grade::Stop);
    let wintergreen = water(&["parfum 0.5"]).shelf("parfum", Field::AllergenStatement, "Methyl salicylate 5 %");
    wintergreen.clone().set("audience", "child-3-plus").says("not-under-six", Grade::Stop);
    wintergreen.silent("not-under-six");
    water(&["dmdm-hydantoin 0.2"]).set("audience", "under-3").advises("avoided-under-three");
    water(&["retinyl-palmitate 0.01"]).set("audience", "under-3").advises("retinoid-under-three");
    water(&["almond-sweet 3"]).set("audience", "under-3").says("source-under-three", Grade::Care);
    water(&["lanolin 3"]).set("audience", "under-3").says("source-under-three", Grade::Care);
}

#[test]
fn children_edges() {
    for (share, said) in [("0.999999", false), ("1", false), ("1.000001", true)] {
        let made = water(&[&format!("ethanol {share}")]).set("audience", "under-3");
        assert_eq!(made.find("alcohol-under-three").is_some(), said, "{share}");
    }
    // Lactic acid as sold is 88 %, and from 1 % on it is more than an adjuster.
    for (share, said) in [("1.13", false), ("1.14", true)] {
        let made = water(&[&format!("lactic-acid {share}")]).set("audience", "under-3");
        assert_eq!(made.find("acid-under-three").is_some(), said, "{share}");
    }
    // The nappy area is for the smallest, whoever is named.
    water(&["lavender-essential-oil 0.000001"]).set("area", "nappy").advises("scent-under-three");
    water(&["lavender-essential-oil 0"]).set("area", "nappy").silent("scent-under-three");
    water(&["sodium-salicylate 0.2"])
        .set("audience", "under-3")
        .set("area", "hair")
        .set("use", "rinse-off")
        .silent("not-under-three");
    water(&["sodium-salicylate 0.2"])
        .set("audience", "under-3")
        .set("use", "rinse-off")
        .says("not-under-three", Grade::Stop);
    water(&["peppermint-essential-oil 0.05"]).set("audience", "child-3-plus").silent("camphor-for-children");
    water(&["peppermint-essential-oil 0.05"])
        .set("audience", "child-3-plus")
        .set("area", "face")
        .says("camphor-for-children", Grade::Stop);
}

// Pregnancy. Source: custom of the trade; SCCS and the proposed class for tea tree oil.
#[test]
fn pregnancy_leaves_things_out() {
    let made = |line: &str| water(&[line]).set("audience", "pregnant");
    made("retinyl-palmitate 0.01").advises("retinoid-pregnancy");
    made("tea-tree-essential-oil 0.05").advises("tea-tree-pregnancy");
    made("lavender-essential-oil 0.1").says("scent-pregnancy", Grade::Care);
    for (share, said) in [("0.499999", false), ("0.5", false), ("0.500001", true)] {
        let made = made(&format!("salicylic-acid {share}"));
        assert_eq!(made.find("salicylic-pregnancy").is_some(), said, "{share}");
    }
    // A salt counts as its acid: 138.12 of 160.10 g/mol, so 0.5 % are 0.5796 % of sodium salicylate.
    for (share, said) in [("0.579575", false), ("0.579577", true)] {
        let made = made(&format!("sodium-salicylate {share}")).set("area", "face");
        assert_eq!(made.find("salicylic-pregnancy").is_some(), said, "{share}");
    }
    let both = made("sodium-salicylate 0.4").with("salicylic-acid 0.2").advises("salicylic-pregnancy");
    assert_eq!(value(&both), "0.54508 %");
    assert_eq!(both.detail.subject, "Salicylic Acid, Sodium Salicylate");
}

// Rule 20. Source: Annex III/306 and 307; flags are custom.
#[test]
fn source_allergens_are_flagged() {
    let flags = l1().with("almond-sweet 1").says("source-flags", Grade::Fine);
    assert!(flags.detail.subject.contains("Sweet almond oil") && flags.detail.subject.contains("Shea"));
    let open = l1().says("origin-open", Grade::Care);
    assert!(
        matches!(&open.fact, Fact::Message(Message::OriginOpen { made_from }) if made_from.contains("soy or sunflower"))
    );
    water(&["peanut 5"]).says("peanut-protein", Grade::Stop);
    water(&["peanut 5"]).shelf("peanut", Field::Document, "Protein certificate").says("peanut-protein", Grade::Care);
    water(&["hydrolyzed-wheat-protein 1"]).says("wheat-protein", Grade::Stop);
    water(&["banned-parabens 0.1"]).says("no-inci", Grade::Care);
    l1().says("no-document", Grade::Unknown);
}

#[test]
fn source_allergens_edges() {
    water(&["peanut 0.000001"]).says("peanut-protein", Grade::Stop);
    water(&["almond-sweet 0"]).silent("source-flags");
    let asked = water(&["tocopherol 0.3"]).shelf("tocopherol", Field::AllergenSource, "Sunflower");
    asked.silent("origin-open");
    water(&["coconut 5"]).silent("source-flags");
}
