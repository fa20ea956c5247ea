//! Fatty acids as laboratories and suppliers write them, and what must not be guessed.

use crate::{near, own};
use hundred_parts::facts::{FattyAcid, Profile};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::shelf::SheetFinding;

/// The profile of one acid of 12 % beside palmitic acid, written as it would stand on a paper.
fn beside(name: &str) -> Option<Profile> {
    own(&format!("{name} 12; C16:0 88")).profile
}

fn counts_as(name: &str, acid: FattyAcid) {
    let fat = own(&format!("{name} 12; C15:0 88"));
    let profile = fat.profile.unwrap_or_else(|| panic!("{name}: {:?}", fat.findings));
    assert_eq!(profile.percent(acid), Percent::millionths(12_000_000), "{name}: {:?}", fat.findings);
    assert!(profile.tells(), "{name}: {:?}", fat.findings);
}

/// Sources: shorthand and names of AOCS Ce 1h-05 and of the tables of ISO 12966 (from memory), table A of AOAC 2012.13
/// ("C18:1 ω-9 (or n-9) cis", read), EFSA Journal 2020;18(7):6197 table 3 ("Linoleic acid (18:2 n‐6 cis)", read).
#[test]
fn spellings_of_methods_and_published_tables() {
    use FattyAcid::*;
    for (name, acid) in [
        ("C18:1 n-9 cis", Oleic),
        ("C18:1n9c", Oleic),
        ("C18:1n9t", Oleic),
        ("C18:1 cis-9", Oleic),
        ("C18:1 TFA", Oleic),
        ("C18:1 \u{3c9}-9 (or n-9) cis", Oleic),
        ("18:1 cis", Oleic),
        ("Oleic acid (18:1 cis)", Oleic),
        ("Palmitoleic + isomers (16:1 n\u{2010}7 cis)", Palmitoleic),
        ("Linoleic acid (18:2 n\u{2010}6 cis)", Linoleic),
        ("Gondoic acid (cis n\u{2010}9, 20:1)", Gondoic),
        ("Alpha linolenic acid (18:3 n\u{2010}3 cis) (ALA)", AlphaLinolenic),
        ("Erucic acid (C22:1n\u{2010}9)", Erucic),
        ("Arachidic acid (20:0)", Arachidic),
        ("C18:2n6c", Linoleic),
        ("C18:2n6t", Linoleic),
        ("C18:2 n-6", Linoleic),
        ("C18:2n6", Linoleic),
        ("C18:3n3", AlphaLinolenic),
        ("C18:3n6", GammaLinolenic),
        ("C18:3 \u{3c9}-6", GammaLinolenic),
        ("C20:1n9", Gondoic),
        ("C22:1n9", Erucic),
        ("C16:1n7", Palmitoleic),
        ("C16:0 methyl ester", Palmitic),
        ("methyl oleate", Oleic),
        ("Methyl linolenate", AlphaLinolenic),
    ] {
        if acid == Palmitic {
            assert_eq!(own(&format!("{name} 100")).profile.unwrap().percent(acid), Percent::WHOLE, "{name}");
        } else {
            counts_as(name, acid);
        }
    }
}

/// Source: IUPAC-IUB Commission on Biochemical Nomenclature, the nomenclature of lipids (1976): carbons, double bonds and
/// their places; Δ counts from the acid end, n- from the other; 9Z, 9E or 9c, 9t for their shape (from memory). ω is
/// common practice, no source.
#[test]
fn spellings_with_places_and_shapes_of_double_bonds() {
    use FattyAcid::*;
    for (name, acid) in [
        ("18:1(9)", Oleic),
        ("18:1 (9Z)", Oleic),
        ("C18:1 (9Z)", Oleic),
        ("18:1\u{394}9", Oleic),
        ("18:1\u{394}\u{2079}", Oleic),
        ("18:1 \u{394}9c", Oleic),
        ("9c-18:1", Oleic),
        ("C18:1-cis", Oleic),
        ("18:1c", Oleic),
        ("18:1t", Oleic),
        ("t-18:1", Oleic),
        ("C18:1\u{3c9}9", Oleic),
        ("C18:1 w9", Oleic),
        ("18:1 omega-9", Oleic),
        ("C 18:1", Oleic),
        ("FA 18:1", Oleic),
        ("C\u{2081}\u{2088}:\u{2081}", Oleic),
        ("18:2(9,12)", Linoleic),
        ("18:2 (9Z,12Z)", Linoleic),
        ("18:2 \u{394}9,12", Linoleic),
        ("C18:2 \u{394}9,12", Linoleic),
        ("18:2\u{394}9c,12c", Linoleic),
        ("9c,12c-18:2", Linoleic),
        ("C18:2 cc", Linoleic),
        ("18:3 (9,12,15)", AlphaLinolenic),
        ("18:3(6,9,12)", GammaLinolenic),
        ("18:3 \u{394}6c,9c,12c", GammaLinolenic),
        ("18:3a", AlphaLinolenic),
        ("18:3 alpha", AlphaLinolenic),
        ("\u{3b3}-18:3", GammaLinolenic),
        ("18:1 12-OH", Ricinoleic),
        ("C18 : 1", Oleic),
        ("C18:1,n-9", Oleic),
        ("18:1 cis n-9", Oleic),
        ("C18:1 (sum of isomers)", Oleic),
        ("Omega-9 (oleic)", Oleic),
        ("C18:2 t9,t12", Linoleic),
        ("cis,cis-9,12-octadecadienoic acid", Linoleic),
        ("C18:3 n-3 ALA", AlphaLinolenic),
        ("C18:3 gamma (GLA)", GammaLinolenic),
        ("C18:1-OH", Ricinoleic),
        ("18:1(9Z,12-OH)", Ricinoleic),
    ] {
        counts_as(name, acid);
    }
}

/// Source: IUPAC-IUB 1976, appendix A: trivial and systematic names (from memory); ricinoleic acid, European Pharmacopoeia.
#[test]
fn spellings_by_name() {
    use FattyAcid::*;
    for (name, acid) in [
        ("octanoic acid", Caprylic),
        ("decanoic acid", Capric),
        ("Dodecanoic acid", Lauric),
        ("myristic", Myristic),
        ("hexadec-9-enoic acid", Palmitoleic),
        ("octadecanoic acid", Stearic),
        ("OLEIC ACID", Oleic),
        ("cis-9-octadecenoic acid", Oleic),
        ("(9Z)-octadec-9-enoic acid", Oleic),
        ("elaidic acid", Oleic),
        ("cis-vaccenic acid", Oleic),
        ("petroselinic", Oleic),
        ("Oleic acid (C18:1)", Oleic),
        ("C18:1 Oleic acid", Oleic),
        ("C18:1n9c (oleic acid)", Oleic),
        ("linoleic", Linoleic),
        ("(9Z,12Z)-octadeca-9,12-dienoic acid", Linoleic),
        ("linolenic acid", AlphaLinolenic),
        ("\u{3b1}-linolenic acid", AlphaLinolenic),
        ("alpha-Linolenic acid (ALA)", AlphaLinolenic),
        ("\u{3b3}-linolenic acid", GammaLinolenic),
        ("GLA", GammaLinolenic),
        ("octadeca-6,9,12-trienoic acid", GammaLinolenic),
        ("icosanoic acid", Arachidic),
        ("gadoleic acid", Gondoic),
        ("eicosenoic", Gondoic),
        ("docosanoic acid", Behenic),
        ("erucic acid", Erucic),
        ("12-hydroxyoctadec-9-enoic acid", Ricinoleic),
        ("ricinoleic acid", Ricinoleic),
    ] {
        counts_as(name, acid);
    }
}

/// Source: formulas of the acids (any textbook): iodine value of 12 % of each, 25380.9 \u{d7} d / M per 100 g of acids, in
/// AOCS Cd 1c-85's way for the triglyceride; masses with IUPAC atomic weights.
#[test]
fn acids_without_a_column_have_their_own_mass_and_double_bonds() {
    for (name, mass, bonds) in [
        ("20:4 n-6", 304.47, 4.0),
        ("arachidonic acid", 304.47, 4.0),
        ("EPA", 302.46, 5.0),
        ("C20:5n3", 302.46, 5.0),
        ("22:5 n-3", 330.51, 5.0),
        ("DHA", 328.50, 6.0),
        ("docosahexaenoic acid (C22:6 n-3)", 328.50, 6.0),
        ("punicic acid", 278.44, 3.0),
        ("\u{3b1}-eleostearic acid", 278.44, 3.0),
        ("18:3 (9Z,11E,13Z)", 278.44, 3.0),
        ("CLA", 280.45, 2.0),
        ("C18:2 c9,t11", 280.45, 2.0),
        ("nervonic acid (24:1)", 366.63, 1.0),
        ("lignoceric", 368.65, 0.0),
        ("stearidonic 18:4 n-3", 276.42, 4.0),
        ("12-hydroxystearic acid", 300.48, 0.0),
        ("vernolic acid", 296.45, 1.0),
        ("iso-17:0", 270.46, 0.0),
    ] {
        let profile = beside(name).unwrap_or_else(|| panic!("{name}"));
        assert!(profile.tells(), "{name}");
        let (palmitic, other) = (88.0 / 256.43, 12.0 / mass);
        let acids = palmitic + other;
        let expected = 25_380.9 * other * bonds / (100.0 + 12.683 * acids);
        near(profile.iodine().float(), expected, 0.03, name);
        near(profile.saponification().float(), 56_105.6 * acids / (100.0 + 12.683 * acids), 0.05, name);
    }
}

/// Source: rates 1, 10.3, 21.6 of Fatemi & Hammond 1980 and their step per CH\u{2082} between double bonds, by hand: 21.6 + 11.3
/// (n - 3). Conjugated acids like others of as many double bonds, isolated bonds by what lies between them.
#[test]
fn long_and_conjugated_acids_count_in_the_oxidation_index() {
    for (name, rate) in [
        ("18:2", 10.3),
        ("20:2", 10.3),
        ("18:3", 21.6),
        ("punicic", 21.6),
        ("18:4 n-3", 32.9),
        ("20:4", 32.9),
        ("20:5", 44.2),
        ("22:5", 44.2),
        ("22:6", 55.5),
        ("24:1", 0.0),
        ("18:3 (5,9,12)", 10.3),
    ] {
        near(beside(name).unwrap().oxidizability().float(), rate * 0.12, 0.006, name);
    }
}

#[test]
fn separators_signs_and_ranges_are_read() {
    let expected = Percent::millionths(70_000_000);
    for text in [
        "oleic 70, linoleic 12, palmitic 18",
        "Oleic acid (C18:1) 70, Linoleic acid (C18:2) 12, Palmitic acid (C16:0) 18",
        "C18:1 70%,C18:2 12%,C16:0 18%",
        "18:1 70,18:2 12,16:0 18",
        "oleic 70,0; linoleic 12,00; palmitic 18,0",
        "C18:1: 70.0 %\nC18:2: 12.0 %\nC16:0: 18.0 %",
        "C18:1,70.0\nC18:2,12.0\nC16:0,18.0",
        "Oleic acid (C18:1),70\nLinoleic acid (C18:2),12\nPalmitic acid,18",
        "C18:1\t70\nC18:2\t12\nC16:0\t18",
        "C18:1 | 70\nC18:2 | 12\nC16:0 | 18",
        "C18:1 (%) 70; C18:2 (%) 12; C16:0 (%) 18",
        "70 % oleic, 12 % linoleic, 18 % palmitic",
        "oleic - 70; linoleic - 12; palmitic - 18",
        "oleic \u{2013} 70 %; linoleic \u{2013} 12 %; palmitic \u{2013} 18 %",
        "oleic=70; linoleic=12; palmitic=18",
        "18:2 \u{394}9,12 12, 18:1 70, 16:0 18",
        "C18:1 70 g/100 g; C18:2 12 g/100g; C16:0 18 % w/w",
        "C18:1 69.5-70.5; C18:2 11 - 13; C16:0 17 to 19",
        "C18:1 70 \u{b1} 0.5; C18:2 12 \u{b1} 0.2; C16:0 18 \u{b1} 1",
        "C18:1 70; C18:2 12; C16:0 18; C14:0 ND; C20:0 not detected; C22:0 n.d.",
    ] {
        let fat = own(text);
        let profile = fat.profile.unwrap_or_else(|| panic!("{text}: {:?}", fat.findings));
        assert_eq!(profile.percent(FattyAcid::Oleic), expected, "{text}: {:?}", fat.findings);
        assert_eq!(profile.percent(FattyAcid::Linoleic), Percent::millionths(12_000_000), "{text}");
        assert!(profile.tells(), "{text}");
    }
}

/// A limit is no share of its own: of `< 0.2` the middle of nothing and that is taken, and said.
#[test]
fn limits_are_ranges_from_nothing() {
    let fat = own("18:1 80; 16:0 19.9; 18:3 < 0.2; 22:1 max. 0.2");
    assert!(fat.findings.contains(&SheetFinding::MiddlesTaken), "{:?}", fat.findings);
    near(fat.profile.unwrap().percent(FattyAcid::Erucic).units() as f64 / 1e6, 0.1, 0.011, "22:1");
}

#[test]
fn totals_and_groups_are_not_counted_twice() {
    for text in [
        "C18:1 total 72; C18:1n9 70; C18:1n7 2; C18:2 10; C16:0 18",
        "C18:1 72; C18:1n9c 70; C18:1n7c 2; C18:2 10; C16:0 18",
        "C18:1n9 70; C18:1n7 2; C18:2 10; C16:0 18",
        "C18:1n9 71.5; C18:1t 0.5; C18:2 10; C16:0 18",
        "oleic 72; linoleic 10; palmitic 18; Saturated fat 18; SFA 18; MUFA 72; PUFA 10; total trans 0.1; omega-6 10",
        "C18:1 \u{3a3} 72; C18:2 10; C16:0 18; saturated fatty acids 18; Peroxide value 2; FFA (as oleic acid) 0.1",
    ] {
        let fat = own(text);
        let profile = fat.profile.unwrap_or_else(|| panic!("{text}: {:?}", fat.findings));
        assert_eq!(profile.percent(FattyAcid::Oleic), Percent::millionths(72_000_000), "{text}: {:?}", fat.findings);
        assert!(profile.tells(), "{text}");
    }
}

/// What contradicts itself or is no acid that is known here is said, and never taken for another one.
#[test]
fn what_is_not_understood_is_said_and_not_guessed() {
    for name in [
        "oleico",
        "C18:1 (linoleic acid)",
        "oleic acid (18:2)",
        "18:2 \u{394}9",
        "18:1 n-20",
        "18:0 n-9",
        "18:9",
        "C18",
        "18:1 18:2",
        "oleic n-6",
        "18:1;O",
        "cyclopropenoid",
        "furan fatty acid F1",
        "18:3 n-3 n-6",
        "palmitoelic acid",
        "oleic acid 62-75",
    ] {
        let fat = own(&format!("{name} 12; C16:0 88"));
        let said = fat.findings.iter().any(|odd| matches!(odd, SheetFinding::NotUnderstood(_)));
        assert!(said, "{name}: {:?}", fat.findings);
        assert!(fat.computed_iv().is_none() && fat.untold().is_some(), "{name}");
    }
    for text in ["18:2 omega 6; 16:0 100", "18:2 n-6; 16:0 100", "oleic > 60; 16:0 100", "oleic; 16:0 100"] {
        let fat = own(text);
        let said = fat.findings.iter().any(|odd| matches!(odd, SheetFinding::PartUnread(_)));
        assert!(said, "{text}: {:?}", fat.findings);
    }
}

/// Source: a soybean oil in the middle of the ranges of Codex CXS 210 (from memory), once plain and once as laboratories write
/// it; Codex iodine value 124 to 139.
#[test]
fn soybean_oil_reads_alike_in_every_notation() {
    let plain = own("16:0 10.5; 18:0 4; 18:1 23.5; 18:2 54; 18:3 8").computed_iv().unwrap();
    assert!((124.0..139.0).contains(&plain.float()));
    for text in [
        "C16:0 10.5; C18:0 4; C18:1n9c 23.5; C18:2n6c 54; C18:3n3 8",
        "C16:0 10.5, C18:0 4, C18:1 n-9 23.5, C18:2 n-6 54, C18:3 n-3 8",
        "Palmitic acid (C16:0) 10.5, Stearic acid (C18:0) 4, Oleic acid (C18:1) 23.5, Linoleic acid (C18:2) 54, Linolenic acid (C18:3) 8",
        "16:0 10,5; 18:0 4; 18:1\u{3c9}9 23,5; 18:2\u{3c9}6 54; 18:3\u{3c9}3 8",
    ] {
        let fat = own(text);
        assert_eq!(fat.computed_iv(), Some(plain), "{text}: {:?}", fat.findings);
        near(fat.telling().unwrap().oxidizability().float(), 7.53, 0.01, text);
    }
}
