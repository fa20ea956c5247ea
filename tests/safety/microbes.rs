//! Microbes: what keeps them out, how much of it law allows, at which pH it works, which kinds it holds.

use crate::made::*;
use hundred_parts::facts::Field;
use hundred_parts::rules::Grade;

// Rule 2. Source: ISO 29621 list, from a laboratory's page.
#[test]
fn water_needs_a_preservative() {
    assert_eq!(value(&l1().says("preserved", Grade::Fine)).split(' ').next(), Some("73.75"), "the water alone");
    let ferment = l1().without("phenoxyethanol-ethylhexylglycerin").with("lactobacillus-ferment 3");
    assert!(ferment.says("only-boosters", Grade::Stop).verified());
    ferment
        .clone()
        .papers(r#""challenge_test":"ISO 11930 A, 3 May 2026, Quay Laboratory""#)
        .says("only-boosters", Grade::Care);
    l1().without("phenoxyethanol-ethylhexylglycerin").says("unpreserved", Grade::Stop);
    let balm = Made::of(&["shea 60", "beeswax 20", "jojoba 20"]);
    balm.says("no-water", Grade::Fine);
    let soap = Made::of(&["coconut 60", "water 25", "sodium-hydroxide 15"]).set("pack", "bar").set("use", "rinse-off");
    soap.set("target_ph", "10.2").says("kept-otherwise", Grade::Fine);
}

#[test]
fn water_edges() {
    // More than 3 % of free water, counted at its greatest.
    for (share, said) in [("2.999999", "no-water"), ("3", "no-water"), ("3.000001", "unpreserved")] {
        let made = Made::of(&[&format!("water {share}"), "jojoba fill-up"]);
        assert!(made.find(said).is_some(), "{share}: {:?}", shown(&made.findings()));
    }
    for (ph, said) in
        [("2.99", "kept-otherwise"), ("3", "unpreserved"), ("10", "unpreserved"), ("10.01", "kept-otherwise")]
    {
        water(&["glycerin 3"])
            .set("target_ph", ph)
            .says(said, if said == "unpreserved" { Grade::Stop } else { Grade::Fine });
    }
    for (share, said) in [("20", "unpreserved"), ("20.000001", "kept-otherwise")] {
        assert!(water(&[&format!("ethanol {share}")]).find(said).is_some(), "{share}");
    }
    for (activity, said) in [("0.749", "kept-otherwise"), ("0.75", "unpreserved"), ("0.751", "unpreserved")] {
        let made = water(&["glycerin 50"]).papers(&format!(r#""water_activity":"{activity}""#));
        assert!(made.find(said).is_some(), "{activity}");
    }
    // Four fifths of the least usual dose (0.5 % phenoxyethanol, from memory).
    water(&["phenoxyethanol 0.399999"]).says("too-little", Grade::Stop);
    water(&["phenoxyethanol 0.4"]).says("preserved", Grade::Fine);
    water(&["phenoxyethanol 0.400001"]).says("preserved", Grade::Fine);
}

/// Water of which nobody can tell how much there is, is not taken for none.
#[test]
fn water_that_is_not_known_is_not_none() {
    // `7O` ends in a letter.
    let typed = Made::of(&["water 7O", "jojoba 25", "glycerin 5"]);
    let found = typed.says("water-unknown", Grade::Unknown);
    assert_eq!((found.detail.subject.as_str(), found.limit().as_deref()), ("Purified water", Some("3 %")));
    typed.silent("no-water");
    let off_shelf = Made::of(&["?Garden-brew 70", "jojoba 30"]);
    assert_eq!(off_shelf.says("water-unknown", Grade::Unknown).detail.subject, "Garden-brew");
    Made::of(&["?Garden-brew 3", "jojoba 97"]).says("no-water", Grade::Fine);
    Made::of(&["?Garden-brew 2", "water 1.1", "jojoba 96.9"]).says("water-unknown", Grade::Unknown);
    // What is no water is none, however much there is of it; what kills microbes by itself is said first.
    for line in ["jojoba 7O", "beeswax 7O", "zinc-oxide 7O"] {
        Made::of(&["shea 60", line]).says("no-water", Grade::Fine);
    }
    Made::of(&["shea 60", "lactic-acid 7O"]).says("water-unknown", Grade::Unknown);
    off_shelf.set("target_ph", "2.9").says("kept-otherwise", Grade::Fine);
    // Beside enough water that is known the rule on preservatives speaks.
    Made::of(&["water 50", "?Garden-brew 2O"]).says("unpreserved", Grade::Stop);
}

// Rule 3. Source: Regulation (EC) 1223/2009 Annex V/1; factor as acid 122.12 ÷ 144.11.
#[test]
fn preservative_above_its_maximum() {
    let benzoate = |share: &str| water(&[&format!("sodium-benzoate {share}")]).set("target_ph", "4.8");
    let over = benzoate("0.60").says("above-maximum", Grade::Stop);
    assert_eq!((value(&over).as_str(), over.limit().as_deref(), over.verified()), ("0.50847 %", Some("0.5 %"), true));
    assert_eq!(value(&benzoate("0.58").says("near-maximum", Grade::Care)), "0.491521 %");
    assert_eq!(value(&benzoate("0.50").says("within-maximum", Grade::Fine)), "0.423725 %");
    benzoate("0.59").says("near-maximum", Grade::Care);
    benzoate("0.591").says("above-maximum", Grade::Stop);
    benzoate("0.60").set("use", "rinse-off").says("within-maximum", Grade::Fine);
}

#[test]
fn preservative_maximum_edges() {
    for (share, said, grade) in [
        ("0.95", "within-maximum", Grade::Fine),
        ("0.950001", "near-maximum", Grade::Care),
        ("0.999999", "near-maximum", Grade::Care),
        ("1", "near-maximum", Grade::Care),
        ("1.000001", "above-maximum", Grade::Stop),
    ] {
        water(&[&format!("phenoxyethanol {share}")]).says(said, grade);
    }
    // In the United States the list is not law.
    let us = water(&["phenoxyethanol 1.2"]).set("region", "us").says("above-maximum", Grade::Care);
    assert!(us.detail.not_law.is_some() && us.is_lowered());
    water(&["phenoxyethanol 1.2"]).set("region", "gb").says("above-maximum", Grade::Stop);
}

// Rule 4. Source: Annex V and Annex III/98 (levels are inclusive). The limit was read; the composition of the blends is from
// memory, so the example's Stop is shown as Care until the supplier's own composition is entered.
#[test]
fn blends_are_split_and_sources_summed() {
    let over = water(&["phenoxyethanol-ethylhexylglycerin 1.20"]).says_lowered("above-maximum");
    assert_eq!(value(&over), "1.08 %");
    water(&["phenoxyethanol-ethylhexylglycerin 1.11"]).says("near-maximum", Grade::Care);
    let own = water(&["phenoxyethanol-ethylhexylglycerin 1.20"])
        .shelf("phenoxyethanol-ethylhexylglycerin", Field::Components, "phenoxyethanol 90; ethylhexylglycerin 10")
        .shelf("phenoxyethanol-ethylhexylglycerin", Field::Document, "Certificate of 4 March 2026");
    let stop = own.says("above-maximum", Grade::Stop);
    assert_eq!(stop.detail.document.as_deref(), Some("Certificate of 4 March 2026"));
    // Benzyl alcohol from the blend, 0.90 × 0.88, and as the fragrance's solvent, 0.30 × 0.80.
    let two = water(&["benzyl-alcohol-dehydroacetic-acid 0.90", "parfum 0.30"]).shelf(
        "parfum",
        Field::AllergenStatement,
        "Benzyl alcohol 80 %",
    );
    let sum = two.says_lowered("above-maximum");
    assert_eq!(value(&sum), "1.032 %");
}

#[test]
fn blends_edges() {
    // 1 % of benzyl alcohol in two plain sources.
    for (share, said, grade) in [
        ("0.449999", "within-maximum", Grade::Fine),
        ("0.499999", "near-maximum", Grade::Care),
        ("0.5", "near-maximum", Grade::Care),
        ("0.500001", "above-maximum", Grade::Stop),
    ] {
        let made = water(&["benzyl-alcohol 0.5", &format!("parfum {share}")]).shelf(
            "parfum",
            Field::AllergenStatement,
            "Benzyl alcohol 100 %",
        );
        made.says(said, grade);
    }
    water(&["dmdm-hydantoin-ipbc 0.3"]).says("composition-unknown", Grade::Care);
    water(&["sodium-phytate 0.3"]).silent("composition-unknown");
    water(&["dmdm-hydantoin-ipbc 0.3"])
        .shelf("dmdm-hydantoin-ipbc", Field::Components, "DMDM Hydantoin 40; Iodopropynyl Butylcarbamate 2; water rest")
        .silent("composition-unknown");
}

// Rule 5. Source: Annex V/12 and 12a; Annex II/1374-1378.
#[test]
fn parabens_each_and_together() {
    let two = water(&["methylparaben 0.30", "propylparaben 0.15"]);
    assert_eq!(value(&two.says("parabens-within", Grade::Fine)), "0.387315 %");
    let three = two.with("butylparaben 0.05");
    let over = three.says("parabens", Grade::Stop);
    assert_eq!((value(&over).as_str(), over.limit().as_deref()), ("0.15053 %", Some("0.14 %")));
    // Old stock with isobutylparaben.
    let old = water(&["phenoxyethanol-parabens 0.8"]).shelf(
        "phenoxyethanol-parabens",
        Field::Components,
        "phenoxyethanol 72; methylparaben 16; isobutylparaben 2; rest rest",
    );
    old.says("prohibited", Grade::Stop);
}

#[test]
fn parabens_edges() {
    // 0.4 % as acid is 0.440626 % methylparaben; 0.38 % is 0.418594 %.
    for (share, grade) in
        [("0.4185", None), ("0.4187", Some(Grade::Care)), ("0.4406", Some(Grade::Care)), ("0.4407", Some(Grade::Stop))]
    {
        let made = water(&[&format!("methylparaben {share}")]);
        match grade {
            Some(grade) => drop(made.says("parabens", grade)),
            None => made.silent("parabens"),
        }
    }
    // All together: 0.4 % + 0.4 % as acid are exactly what is allowed.
    water(&["methylparaben 0.44", "ethylparaben 0.48"]).says("parabens", Grade::Care);
    let over = water(&["methylparaben 0.44", "ethylparaben 0.48", "propylparaben 0.01"]).findings();
    let stop = over.iter().filter(|finding| key(finding) == "parabens" && finding.grade == Grade::Stop).count();
    assert_eq!(stop, 1);
}

// Rule 6. Source: Steinberg 2005, J Cosmet Sci 56(5):361-362; cut-offs are choices of ours.
#[test]
fn acid_preservatives_need_acid() {
    let acids = |ph: &str| water(&["sodium-benzoate 0.5", "potassium-sorbate 0.3"]).set("target_ph", ph);
    let idle = acids("6.2");
    assert!(idle.says("none-works-at-ph", Grade::Stop).verified());
    let actives: Vec<String> = idle.findings().iter().filter(|f| key(f) == "acid-idle").map(value).collect();
    assert_eq!(actives, ["0.004 %", "0.008 %"]);
    let works = acids("5");
    works.silent("none-works-at-ph");
    let actives: Vec<String> = works.findings().iter().filter(|f| key(f) == "acid-works").map(value).collect();
    // 0.424 × 13.8 % with the constant 4.203 of the table of acids (13 % and 0.056 with 4.18), 0.224 × 36.5 %.
    assert_eq!(actives, ["0.058 %", "0.082 %"]);
    acids("").says("no-ph-for-acids", Grade::Stop);
    acids("").with("phenoxyethanol 0.8").says("no-ph-for-acids", Grade::Care);
}

#[test]
fn acid_preservatives_edges() {
    let benzoate = |ph: &str| water(&["sodium-benzoate 0.5"]).set("target_ph", ph);
    for (ph, said) in [
        ("4.99", "acid-works"),
        ("5", "acid-works"),
        ("5.01", "acid-weak"),
        ("5.5", "acid-weak"),
        ("5.51", "acid-idle"),
    ] {
        let grade = if said == "acid-works" { Grade::Fine } else { Grade::Care };
        benzoate(ph).says(said, grade);
    }
    benzoate("5.5").silent("none-works-at-ph");
    benzoate("5.51").says("none-works-at-ph", Grade::Stop);
    // A partner that works at that pH leaves only the idle acid to say.
    benzoate("6.5").with("phenoxyethanol 0.9").silent("none-works-at-ph");
}

// Rule 7. Source: activity notes of Steinberg 2005 (J Cosmet Sci 56(5):361-362); the grades are from memory, so the example's
// Stop (a jar, the smallest) is shown as Care.
#[test]
fn preservatives_hold_every_kind() {
    let sorbate = water(&["potassium-sorbate 0.4"]);
    let narrow = sorbate.says("spectrum-narrow", Grade::Care);
    assert!(!narrow.is_lowered() && value(&narrow).contains("Gram-negative"));
    sorbate.set("pack", "jar").says_lowered("spectrum-narrow");
    l1().says("spectrum-narrow", Grade::Care);
    l1().with("potassium-sorbate 0.2").says("spectrum-broad", Grade::Fine);
    // All are held, and honey water and the like feed them: no list of what is weak, since nothing is.
    let fed = l1().with("potassium-sorbate 0.2").with("rose-hydrosol 10").says("spectrum-fed", Grade::Care);
    let text = hundred_parts::words::finding(&fed, &[], hundred_parts::words::DecimalSign::Point);
    assert!(text.contains("but Rosa Damascena Flower Water feeds them."), "{text}");
}

#[test]
fn spectrum_edges() {
    // A chelator counts from 0.05 %.
    for (share, has_gap) in [("0.049999", true), ("0.05", false), ("0.050001", false)] {
        let made = water(&["potassium-sorbate 0.4", &format!("disodium-edta {share}")]);
        let value = value(&made.says("spectrum-narrow", Grade::Care));
        assert_eq!(value == "Gram-negative bacteria", has_gap, "{share}: {value}");
    }
    // What feeds microbes counts above 5 % in all.
    for (share, lowered) in [("4.999999", false), ("5", false), ("5.000001", true)] {
        let made = water(&["phenoxyethanol-ethylhexylglycerin 1", &format!("aloe-juice {share}")]);
        assert_eq!(made.says("spectrum-narrow", Grade::Care).is_lowered(), lowered, "{share}");
    }
    water(&["potassium-sorbate 0.4"]).set("audience", "under-3").says_lowered("spectrum-narrow");
}

// Rule 8. Source: Annex V/39, 57, 20, 55, 43, 13.
#[test]
fn rinse_off_agents_do_not_stay_on() {
    let cream = water(&["cmit-mit-solution 0.05"]).set("area", "hand");
    cream.says("rinse-off-only", Grade::Stop);
    let soap = cream.set("use", "rinse-off");
    soap.silent("rinse-off-only");
    soap.silent("not-together");
    assert_eq!(value(&soap.says("within-maximum", Grade::Fine)), "0.00075 %");
    let both = water(&["cmit-mit-solution 0.05", "methylisothiazolinone 0.001"]).set("use", "rinse-off");
    both.says("not-together", Grade::Stop);
    let spray = water(&["dehydroacetic-acid 0.2"]).set("pack", "spray");
    assert!(spray.says("not-in-sprays", Grade::Stop).verified());
}

#[test]
fn rinse_off_agents_edges() {
    // 0.0015 % of the mixture is 0.1 % of the usual solution; its composition is from memory.
    let soap = |share: &str| water(&[&format!("cmit-mit-solution {share}")]).set("use", "rinse-off");
    soap("0.099").says("near-maximum", Grade::Care);
    soap("0.1").says("near-maximum", Grade::Care);
    soap("0.101").says_lowered("above-maximum");
    for id in ["methylisothiazolinone", "bronidox", "benzylhemiformal", "phenoxyisopropanol"] {
        water(&[&format!("{id} 0.001")]).says("rinse-off-only", Grade::Stop);
        water(&[&format!("{id} 0.001")]).set("use", "rinse-off").silent("rinse-off-only");
    }
}
