//! Substances that law bars, caps or wants named, and those that make others in the jar.

use crate::made::*;
use hundred_parts::facts::{Field, LabelDuty};
use hundred_parts::quantity::Day;
use hundred_parts::rules::Grade;

// Rule 10. Source: Annex V preamble 2 (amendment of 2022) and entry 51; theoretical formaldehyde from molar masses.
#[test]
fn formaldehyde_is_declared() {
    let label = water(&["dmdm-hydantoin 0.20"]).says("formaldehyde-label", Grade::Care);
    assert_eq!(value(&label), "0.0638 %");
    let gb = water(&["dmdm-hydantoin 0.20"]).set("region", "gb").says("formaldehyde-label", Grade::Care);
    assert!(gb.detail.not_law.is_some());
    water(&["bronopol 0.05"]).says("formaldehyde-unknown", Grade::Care);
}

#[test]
fn formaldehyde_edges() {
    // 0.001 % from DMDM hydantoin at 31.9 %: 0.003134 %.
    water(&["dmdm-hydantoin 0.003134"]).silent("formaldehyde-label");
    water(&["dmdm-hydantoin 0.003135"]).silent("formaldehyde-label");
    water(&["dmdm-hydantoin 0.003138"]).says("formaldehyde-label", Grade::Care);
    // Entry 51: from 0.1 % releasable, which is 0.423728 % of it at 23.6 %.
    water(&["sodium-hydroxymethylglycinate 0.4237"]).says("formaldehyde-label", Grade::Care);
    water(&["sodium-hydroxymethylglycinate 0.423729"]).says("formaldehyde-barred", Grade::Stop);
    water(&["sodium-hydroxymethylglycinate 0.43"]).says("formaldehyde-barred", Grade::Stop);
}

// Rule 11. Source: Annexes II and III; Regulation (EU) 2024/996 for vitamin A; CIR 1998 and 2017 for AHA.
#[test]
fn prohibited_and_capped_substances() {
    let retinyl = |share: &str| water(&[&format!("retinyl-palmitate {share}")]);
    let over = retinyl("0.10").says("above-cap", Grade::Stop);
    assert_eq!((value(&over).as_str(), over.limit().as_deref()), ("0.05458 %", Some("0.05 %")));
    let within = retinyl("0.08").findings();
    assert!(
        within.iter().any(|finding| key(finding) == "within-cap" && finding.detail.duty == Some(LabelDuty::VitaminA))
    );
    // The bound of a body lotion is not law in Great Britain, as far as was seen.
    retinyl("0.10").set("region", "gb").says("above-cap", Grade::Care);
    retinyl("0.10").set("area", "face").silent("above-cap");
    water(&["formaldehyde 0.01"]).says("prohibited", Grade::Stop);
    let perfume = water(&["parfum 0.5"]).shelf("parfum", Field::AllergenStatement, "BMHCA 0.1 %\nLinalool 4 %");
    perfume.says("prohibited", Grade::Stop);
    let clean = water(&["parfum 0.5"]).shelf("parfum", Field::AllergenStatement, "BMHCA not present\nLinalool 4 %");
    clean.silent("prohibited");
    assert!(water(&["lactic-acid 5"]).set("target_ph", "3.4").says("aha-too-acid", Grade::Stop).verified());
    water(&["lactic-acid 5"]).says("sunburn", Grade::Care);
    // A cap to come is said with its day and does not stop.
    let salicylate = water(&["parfum 1"]).shelf("parfum", Field::AllergenStatement, "Benzyl salicylate 80 %");
    assert_eq!(salicylate.says_lowered("above-cap").detail.from, Day::from_calendar(2027, 1, 1));
}

#[test]
fn capped_edges() {
    // Triethanolamine left on the skin: 2.5 % (Annex III/62), and close to it from 2.375 % on.
    for (share, said, grade) in [
        ("2.375", "within-cap", Grade::Fine),
        ("2.375001", "near-cap", Grade::Care),
        ("2.5", "near-cap", Grade::Care),
        ("2.500001", "above-cap", Grade::Stop),
    ] {
        water(&[&format!("triethanolamine {share}")]).says(said, grade);
    }
    // Salicylic acid: 0.5 % in a body lotion, 2 % elsewhere (Annex III/98), its salts counted.
    for (share, area, over) in
        [("0.5", "body", false), ("0.500001", "body", true), ("2", "face", false), ("2.000001", "face", true)]
    {
        let made = water(&[&format!("salicylic-acid {share}")]).set("area", area);
        assert_eq!(made.find("above-cap").is_some(), over, "{share} {area}");
    }
    for (share, over) in [("0.8", false), ("0.800001", true)] {
        assert_eq!(water(&[&format!("bht {share}")]).find("above-cap").is_some(), over, "{share}");
    }
    for (ph, said) in [("3.49", true), ("3.5", false), ("3.51", false)] {
        assert_eq!(water(&["lactic-acid 5"]).set("target_ph", ph).find("aha-too-acid").is_some(), said, "{ph}");
    }
}

// Source: Regulation (EC) 1223/2009 Annex III/102 (methyl eugenol: 0.001 % washed off) and 324 (methyl salicylate: 0.06 %, in
// hand washes 0.6 %). Soap is washed off.
#[test]
fn capped_soap_is_washed_off() {
    let soap = |statement: &str| {
        Made::of(&["coconut 60", "water 25", "sodium-hydroxide 14", "parfum 1"])
            .set("use", "soap")
            .set("pack", "bar")
            .shelf("parfum", Field::AllergenStatement, statement)
    };
    for (share, said) in [("0.1 %", "near-cap"), ("0.1001 %", "above-cap")] {
        let found = soap(&format!("Methyl eugenol {share}")).findings();
        let limit = |finding: &hundred_parts::rules::Finding| finding.limit().as_deref() == Some("0.001 %");
        assert!(found.iter().any(|finding| key(finding) == said && limit(finding)), "{share}: {:?}", shown(&found));
    }
    soap("Methyl salicylate 7 %").says("above-cap", Grade::Stop);
    soap("Methyl salicylate 7 %").set("area", "hand").silent("above-cap");
    assert_eq!(soap("Benzyl salicylate 100 %").says("within-cap", Grade::Fine).limit().as_deref(), Some("1.3 %"));
}

// What a statement says is not in it is spoken of by no rule, and by no label.
#[test]
fn not_present_is_not_there() {
    let made = water(&["phenoxyethanol 0.8", "parfum 1"]).set("area", "lip").set("pack", "spray");
    let stated = "Methylisothiazolinone not detected\nBronopol n.d.\nDehydroacetic acid 0 %\nIodopropynyl butylcarbamate nil\nRetinol none\nBMHCA absent\nMethyl salicylate 0";
    let clean = made.clone().shelf("parfum", Field::AllergenStatement, "Linalool 4 %");
    let stated = made.shelf("parfum", Field::AllergenStatement, &format!("Linalool 4 %\n{stated}"));
    for audience in ["adult", "child-3-plus", "under-3", "pregnant"] {
        let told = |made: &Made| shown(&made.clone().set("audience", audience).findings());
        assert_eq!(told(&stated), told(&clean), "{audience}");
    }
    assert_eq!(stated.derive().1.composition.substances.len(), clean.derive().1.composition.substances.len());
}

// Rule 14. Source: CIR 2016 for the principle; Tisserand and Young 2014 for the most of each oil (that of rue is from memory).
#[test]
fn phototoxic_oils_are_summed() {
    let two = water(&["bergamot-essential-oil 0.20", "lemon-essential-oil 1.00"]);
    let care = two.says("phototoxic", Grade::Care);
    assert!(!care.is_lowered());
    assert_eq!((value(&care).as_str(), care.limit().as_deref()), ("1", Some("1")));
    let mut lime = two.clone();
    let id = lime.shelf.add_own("Lime oil, expressed");
    lime.shelf.set(&id, Field::Inci, "Citrus Aurantifolia Peel Oil");
    let over = lime.with(&format!("{id} 0.10")).says("phototoxic", Grade::Stop);
    assert_eq!((value(&over).as_str(), over.verified()), ("1.14", true));
    let mut rue = two.clone();
    let id = rue.shelf.add_own("Rue oil");
    rue.shelf.set(&id, Field::Inci, "Ruta Graveolens Oil");
    rue.with(&format!("{id} 0.05")).says_lowered("phototoxic");
    two.clone().set("use", "rinse-off").silent("phototoxic");
    let free = two.shelf("bergamot-essential-oil", Field::Name, "Bergamot oil FCF");
    free.says("phototoxic-within", Grade::Fine);
}

// Rule 15. Source: Annex III/60-62, Annex V/20-21; Annex II/411.
#[test]
fn amines_and_nitrosating_agents_do_not_meet() {
    let pair = water(&["triethanolamine 0.5", "bronopol 0.05"]);
    assert!(pair.says("nitrosamine-pair", Grade::Stop).verified());
    water(&["triethanolamine 0.5"]).says("amine-purity", Grade::Care);
    water(&["arginine 0.5", "bronopol 0.05"]).silent("nitrosamine-pair");
    let mut dea = water(&[]);
    let id = dea.shelf.add_own("Diethanolamine");
    dea.shelf.set(&id, Field::Inci, "Diethanolamine");
    dea.with(&format!("{id} 0.1")).says("prohibited", Grade::Stop);
}

#[test]
fn amines_edges() {
    water(&["triethanolamine 0", "bronopol 0.05"]).silent("nitrosamine-pair");
    water(&["triethanolamine 0.000001", "bronopol 0.000001"]).says("nitrosamine-pair", Grade::Stop);
    water(&["triethanolamine 0.5", "bronidox 0.01"]).set("use", "rinse-off").says("nitrosamine-pair", Grade::Stop);
    water(&["triethanolamine 0.5", "bronopol 0"]).says("amine-purity", Grade::Care);
}
