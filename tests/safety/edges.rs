//! Just under, at and just over every figure that a rule compares with: by hand for the figures of `criteria.csv`, by a walk
//! over the rows for caps, maxima, allergens, releasers and oils that burn in the sun. A rule or figure without an edge fails.

use crate::made::*;
use hundred_parts::facts::{
    Barred, CsvTable, Field, PreservativeGroup, ShareClass, allergens, fold, limits, preservatives, share_in,
};
use hundred_parts::quantity::{Percent, Quantity, mul_div_nearest};
use hundred_parts::rules::RULES;

/// Three values around one figure, and what is said at each: the key of the message with its grade, `lowered` for a Stop that
/// is shown as Care, `-` for silence.
struct Edge {
    rule: &'static str,
    figure: &'static str,
    made: fn(&str) -> Made,
    cases: [(&'static str, &'static str, &'static str); 3],
}

/// What a formula says under a key: grades in order, `-` if nothing.
fn outcome(made: &Made, said: &str) -> String {
    let grade = |finding: &hundred_parts::rules::Finding| {
        if finding.is_lowered() { "lowered".to_owned() } else { finding.grade.key().to_owned() }
    };
    let found: Vec<String> = made.findings().iter().filter(|finding| key(finding) == said).map(grade).collect();
    if found.is_empty() { "-".to_owned() } else { found.join("+") }
}

fn kept(share: &str) -> Made {
    water(&["phenoxyethanol 0.8"]).with(share)
}

fn at_ph(ph: &str, lines: &[&str]) -> Made {
    water(lines).set("target_ph", ph)
}

fn soap(ph: &str) -> Made {
    Made::of(&["coconut 60", "water 25", "sodium-hydroxide 15"])
        .set("pack", "bar")
        .set("use", "rinse-off")
        .set("target_ph", ph)
}

/// A hundred percent of something of this INCI name, `name share`.
fn pure(name: &str, share: &str) -> Made {
    let mut made = water(&["phenoxyethanol 0.8"]);
    let id = made.shelf.add_own(name);
    made.shelf.set(&id, Field::Inci, name);
    made.with(&format!("{id} {share}"))
}

/// A balm with so much of an own entry that has a name and nothing else.
fn nameless(name: &str, share: &str) -> Made {
    let mut made = Made::of(&["jojoba fill-up"]);
    let id = made.shelf.add_own(name);
    made.with(&format!("{id} {share}"))
}

/// Acids of olive oil of which so many percent were not told apart.
fn acids_with_rest(rest: &str) -> String {
    let known = Percent::from_canonical(rest).unwrap();
    format!("16:0 12; 18:2 8; 18:1 {}; other {rest}", Percent::millionths(80_000_000).minus(known).canonical())
}

fn castor(shares: &str) -> Made {
    let (a, b) = shares.split_once(' ').unwrap();
    water(&[]).phase("oil", "72", &["castor 10", &format!("polysorbate-60 {a}"), &format!("sorbitan-stearate {b}")])
}

const POLYMER: &str = "acrylates-c10-30-alkyl-acrylate-crosspolymer";

const fn edge(
    rule: &'static str,
    figure: &'static str,
    made: fn(&str) -> Made,
    cases: [(&'static str, &'static str, &'static str); 3],
) -> Edge {
    Edge { rule, figure, made, cases }
}

/// Sources are those of the figures: the row of `criteria.csv` names each.
#[rustfmt::skip]
const EDGES: &[Edge] = &[
    edge("sum", "sum-pass", |s| Made::of(&[&format!("water {s}")]), [("99.949999", "sum", "care"), ("99.95", "sum", "fine"), ("99.950001", "sum", "fine")]),
    edge("sum", "sum-care", |s| Made::of(&[&format!("water {s}")]), [("99.499999", "sum", "stop"), ("99.5", "sum", "care"), ("99.500001", "sum", "care")]),
    edge("unpreserved", "water-free", |s| Made::of(&[&format!("water {s}"), "jojoba fill-up"]), [("2.999999", "no-water", "fine"), ("3", "no-water", "fine"), ("3.000001", "unpreserved", "stop")]),
    edge("unpreserved", "water-free", |s| nameless("Garden brew", s), [("2.999999", "water-unknown", "-"), ("3", "water-unknown", "-"), ("3.000001", "water-unknown", "unknown")]),
    edge("unpreserved", "ph-exempt-low", |s| at_ph(s, &["glycerin 3"]), [("2.99", "unpreserved", "-"), ("3", "unpreserved", "stop"), ("3.01", "unpreserved", "stop")]),
    edge("unpreserved", "ph-exempt-high", |s| at_ph(s, &["glycerin 3"]), [("9.99", "unpreserved", "stop"), ("10", "unpreserved", "stop"), ("10.01", "unpreserved", "-")]),
    edge("unpreserved", "alcohol-exempt", |s| water(&[&format!("ethanol {s}")]), [("19.999999", "unpreserved", "stop"), ("20", "unpreserved", "stop"), ("20.000001", "unpreserved", "-")]),
    edge("unpreserved", "water-activity", |s| water(&["glycerin 50"]).papers(&format!(r#""water_activity":"{s}""#)), [("0.749999", "unpreserved", "-"), ("0.75", "unpreserved", "stop"), ("0.750001", "unpreserved", "stop")]),
    edge("unpreserved", "low-dose", |s| water(&[&format!("phenoxyethanol {s}")]), [("0.399999", "too-little", "stop"), ("0.4", "too-little", "-"), ("0.400001", "too-little", "-")]),
    // Bronopol, of which no usual dose is known, may be 0.1 %.
    edge("unpreserved", "trace-dose", |s| water(&[&format!("bronopol {s}")]), [("0.009999", "dose-unknown", "-"), ("0.01", "dose-unknown", "care"), ("0.010001", "dose-unknown", "care")]),
    edge("preservative-maximum", "near", |s| water(&[&format!("phenoxyethanol {s}")]), [("0.949999", "near-maximum", "-"), ("0.95", "near-maximum", "-"), ("0.950001", "near-maximum", "care")]),
    edge("capped", "near", |s| kept(&format!("triethanolamine {s}")), [("2.374999", "near-cap", "-"), ("2.375", "near-cap", "-"), ("2.375001", "near-cap", "care")]),
    edge("aha", "active-aha", |s| pure("Glycolic Acid", s), [("0.999999", "sunburn", "-"), ("1", "sunburn", "care"), ("1.000001", "sunburn", "care")]),
    edge("aha", "aha-ph", |s| pure("Glycolic Acid", "5").set("target_ph", s), [("3.49", "aha-too-acid", "stop"), ("3.5", "aha-too-acid", "-"), ("3.51", "aha-too-acid", "-")]),
    // As acid: 0.440626 % of methylparaben are 0.4 %, 0.48123 % of ethylparaben, 0.182648 % of propylparaben 0.14 %.
    edge("parabens", "paraben-short", |s| water(&[&format!("methylparaben {s}")]), [("0.440624", "parabens", "care"), ("0.440626", "parabens", "care"), ("0.440628", "parabens", "stop")]),
    edge("parabens", "paraben-long", |s| water(&[&format!("propylparaben {s}")]), [("0.182645", "parabens", "care"), ("0.182648", "parabens", "care"), ("0.18265", "parabens", "stop")]),
    edge("parabens", "paraben-all", |s| water(&["methylparaben 0.44", "ethylparaben 0.44", &format!("propylparaben {s}")]), [("0.045448", "parabens", "care+care"), ("0.045453", "parabens", "care+care"), ("0.045458", "parabens", "stop+care")]),
    // Without oil, what water holds: 0.38 g/L of propylparaben is 0.038 %.
    edge("undissolved", "", |s| water(&[&format!("propylparaben {s}")]), [("0.037999", "more-than-dissolves", "-"), ("0.038", "more-than-dissolves", "-"), ("0.038001", "more-than-dissolves", "care")]),
    edge("preservative-ph", "", |s| at_ph(s, &["sodium-benzoate 0.5"]), [("4.99", "acid-weak", "-"), ("5", "acid-weak", "-"), ("5.01", "acid-weak", "care")]),
    edge("preservative-ph", "", |s| at_ph(s, &["sodium-benzoate 0.5"]), [("5.49", "none-works-at-ph", "-"), ("5.5", "none-works-at-ph", "-"), ("5.51", "none-works-at-ph", "stop")]),
    edge("preservative-ph", "", |s| at_ph(s, &["sodium-hydroxymethylglycinate 0.4"]), [("7.99", "none-works-below", "lowered"), ("8", "none-works-below", "-"), ("8.01", "none-works-below", "-")]),
    edge("spectrum", "chelator-dose", |s| water(&["potassium-sorbate 0.4", &format!("disodium-edta {s}")]).set("pack", "jar"), [("0.049999", "spectrum-narrow", "lowered"), ("0.05", "spectrum-narrow", "care"), ("0.050001", "spectrum-narrow", "care")]),
    edge("spectrum", "feeder", |s| water(&["phenoxyethanol-ethylhexylglycerin 1", &format!("aloe-juice {s}")]), [("4.999999", "spectrum-narrow", "care"), ("5", "spectrum-narrow", "care"), ("5.000001", "spectrum-narrow", "lowered")]),
    edge("children", "child-alcohol", |s| water(&[&format!("ethanol {s}")]).set("audience", "under-3"), [("0.999999", "alcohol-under-three", "-"), ("1", "alcohol-under-three", "-"), ("1.000001", "alcohol-under-three", "lowered")]),
    edge("children", "active-aha", |s| pure("Glycolic Acid", s).set("audience", "under-3"), [("0.999999", "acid-under-three", "-"), ("1", "acid-under-three", "lowered"), ("1.000001", "acid-under-three", "lowered")]),
    edge("pregnancy", "", |s| kept(&format!("salicylic-acid {s}")).set("audience", "pregnant"), [("0.499999", "salicylic-pregnancy", "-"), ("0.5", "salicylic-pregnancy", "-"), ("0.500001", "salicylic-pregnancy", "lowered")]),
    // 23.6 % of it is releasable: 0.004237 and 0.423729 % give the two figures.
    edge("formaldehyde", "formaldehyde-label", |s| water(&[&format!("sodium-hydroxymethylglycinate {s}")]), [("0.004233", "formaldehyde-label", "-"), ("0.004237", "formaldehyde-label", "-"), ("0.004241", "formaldehyde-label", "care")]),
    edge("formaldehyde", "formaldehyde-stop", |s| water(&[&format!("sodium-hydroxymethylglycinate {s}")]), [("0.423724", "formaldehyde-barred", "-"), ("0.423729", "formaldehyde-barred", "stop"), ("0.423733", "formaldehyde-barred", "stop")]),
    edge("fragrance", "fragrance-pass", |s| kept(&format!("parfum {s}")), [("0.999999", "fragrance-much", "-"), ("1", "fragrance-much", "-"), ("1.000001", "fragrance-much", "care")]),
    edge("fragrance", "fragrance-care", |s| kept(&format!("parfum {s}")), [("1.999999", "fragrance-much", "care"), ("2", "fragrance-much", "care"), ("2.000001", "fragrance-much", "lowered")]),
    edge("fragrance", "fragrance-soap", |s| kept(&format!("parfum {s}")).set("use", "rinse-off"), [("2.999999", "fragrance-much", "-"), ("3", "fragrance-much", "-"), ("3.000001", "fragrance-much", "care")]),
    edge("fragrance", "tea-tree-face", |s| kept(&format!("tea-tree-essential-oil {s}")).set("area", "face"), [("0.099999", "tea-tree-face", "-"), ("0.1", "tea-tree-face", "-"), ("0.100001", "tea-tree-face", "stop")]),
    edge("fragrance", "", |s| kept(&format!("parfum {s}")).shelf("parfum", Field::Certificate, "5A 0.42"), [("0.419999", "above-certificate", "-"), ("0.42", "above-certificate", "-"), ("0.420001", "above-certificate", "stop")]),
    // Bergamot: 0.8 of its 0.4 % is 0.32 %.
    edge("phototoxic", "phototoxic-care", |s| kept(&format!("bergamot-essential-oil {s}")), [("0.319999", "phototoxic", "-"), ("0.32", "phototoxic", "-"), ("0.320001", "phototoxic", "care")]),
    edge("phototoxic", "phototoxic-stop", |s| kept(&format!("bergamot-essential-oil {s}")), [("0.399999", "phototoxic", "care"), ("0.4", "phototoxic", "care"), ("0.400001", "phototoxic", "stop")]),
    edge("product-ph", "skin-ph-low-care", |s| at_ph(s, &["phenoxyethanol 0.8"]), [("3.99", "too-acid", "lowered"), ("4", "too-acid", "care"), ("4.01", "too-acid", "care")]),
    edge("product-ph", "skin-ph-low", |s| at_ph(s, &["phenoxyethanol 0.8"]), [("4.49", "too-acid", "care"), ("4.5", "too-acid", "-"), ("4.51", "too-acid", "-")]),
    edge("product-ph", "skin-ph-high", |s| at_ph(s, &["phenoxyethanol 0.8"]), [("6.49", "too-alkaline", "-"), ("6.5", "too-alkaline", "-"), ("6.51", "too-alkaline", "care")]),
    edge("product-ph", "skin-ph-high-care", |s| at_ph(s, &["phenoxyethanol 0.8"]), [("7.49", "too-alkaline", "care"), ("7.5", "too-alkaline", "care"), ("7.51", "too-alkaline", "lowered")]),
    // Without lye in a line that is read, what keeps a bar of soap is custom.
    edge("unpreserved", "bar-ph-low", soap, [("8.49", "unpreserved", "lowered"), ("8.5", "unpreserved", "lowered"), ("8.51", "unpreserved", "-")]),
    edge("heat", "", |s| Made::of(&["water fill-up"]).phase("cool-down", s, &["sweet-orange-essential-oil 0.2"]), [("47.999", "flash-point", "lowered"), ("48", "flash-point", "stop"), ("48.001", "flash-point", "stop")]),
    edge("product-ph", "bar-ph-low", soap, [("8.49", "soap-too-mild", "care"), ("8.5", "soap-too-mild", "-"), ("8.51", "soap-too-mild", "-")]),
    edge("product-ph", "bar-ph-care", soap, [("10.49", "soap-not-cured", "-"), ("10.5", "soap-not-cured", "-"), ("10.51", "soap-not-cured", "care")]),
    edge("product-ph", "bar-ph-stop", soap, [("10.99", "lye-too-alkaline", "-"), ("11", "lye-too-alkaline", "stop"), ("11.01", "lye-too-alkaline", "stop")]),
    edge("product-ph", "niacinamide-ph-low", |s| at_ph(s, &["niacinamide 4"]), [("4.99", "niacinamide-ph", "care"), ("5", "niacinamide-ph", "-"), ("5.01", "niacinamide-ph", "-")]),
    edge("product-ph", "niacinamide-ph-high", |s| at_ph(s, &["niacinamide 4"]), [("6.99", "niacinamide-ph", "-"), ("7", "niacinamide-ph", "-"), ("7.01", "niacinamide-ph", "care")]),
    edge("product-ph", "ultramarine-ph", |s| at_ph(s, &["ultramarine 0.2"]), [("6.99", "ultramarine-in-acid", "care"), ("7", "ultramarine-in-acid", "-"), ("7.01", "ultramarine-in-acid", "-")]),
    edge("ph-window", "", |s| at_ph(s, &["panthenol-75 1"]), [("3.99", "ph-below", "care"), ("4", "ph-below", "-"), ("4.01", "ph-below", "-")]),
    edge("ph-window", "", |s| at_ph(s, &["panthenol-75 1"]), [("6.99", "ph-above", "-"), ("7", "ph-above", "-"), ("7.01", "ph-above", "care")]),
    // Half a percent of sodium benzoate in water is estimated at pH 8.1 to 8.5.
    edge("ph-reach", "ph-far", |s| at_ph(s, &["sodium-benzoate 0.5"]), [("7.59", "needs-acid", "care"), ("7.6", "needs-acid", "unknown"), ("7.61", "needs-acid", "unknown")]),
    edge("heat", "", |s| Made::of(&["water fill-up"]).phase("oil", s, &["rosehip 5"]).shelf("rosehip", Field::HeatMax, "50"), [("49.999", "too-hot", "-"), ("50", "too-hot", "-"), ("50.001", "too-hot", "care")]),
    edge("heat", "heat-care", |s| Made::of(&["water fill-up"]).phase("oil", s, &["rosehip 5"]).shelf("rosehip", Field::HeatMax, "50"), [("59.999", "too-hot", "care"), ("60", "too-hot", "care"), ("60.001", "too-hot", "lowered")]),
    // Sweet orange oil can be lit from 48 °C.
    edge("heat", "flash-margin", |s| Made::of(&["water fill-up"]).phase("cool-down", s, &["sweet-orange-essential-oil 0.2"]), [("37.999", "flash-point", "-"), ("38", "flash-point", "-"), ("38.001", "flash-point", "lowered")]),
    edge("emulsifier", "emulsifier-pass", |s| water(&[]).phase("oil", "72", &["mct 10", &format!("sorbitan-stearate {s}")]), [("1.999999", "emulsifier-low", "care"), ("2", "emulsifier-low", "-"), ("2.000001", "emulsifier-low", "-")]),
    edge("emulsifier", "emulsifier-care", |s| water(&[]).phase("oil", "72", &["mct 10", &format!("sorbitan-stearate {s}")]), [("1.199999", "emulsifier-low", "lowered"), ("1.2", "emulsifier-low", "care"), ("1.200001", "emulsifier-low", "care")]),
    edge("emulsifier", "", |s| water(&[]).phase("oil", "72", &["mct 10", &format!("{POLYMER} {s}")]), [("0.199999", "polymer-low", "care"), ("0.2", "polymer-enough", "fine"), ("0.200001", "polymer-enough", "fine")]),
    edge("emulsifier", "", |s| water(&[]).phase("oil", "72", &["mct 10", &format!("{POLYMER} {s}")]), [("0.099999", "polymer-low", "lowered"), ("0.1", "polymer-low", "care"), ("0.100001", "polymer-low", "care")]),
    edge("emulsifier", "emulsifier-oil", |s| water(&[]).phase("oil", "72", &[&format!("mct {s}")]), [("4.999999", "no-emulsifier", "-"), ("5", "no-emulsifier", "-"), ("5.000001", "no-emulsifier", "lowered")]),
    // Castor asks for 14. Shares of polysorbate 60 (14.9) and sorbitan stearate (4.7) that give 13.01, 13.00, 12.99; 12.01 …
    edge("emulsifier", "hlb-pass", castor, [("2.444118 0.555882", "hlb-off", "-"), ("2.441176 0.558824", "hlb-off", "-"), ("2.438235 0.561765", "hlb-off", "care")]),
    // Mineral oil of 0.86 g/mL beside water, glycerin out of the way: 71.05 % by mass are 74.05 % by volume.
    edge("emulsifier", "close-packing", |s| Made::of(&["water fill-up"]).phase("oil", "72", &[&format!("mineral-oil {s}"), "polysorbate-60 0.001"]), [("70.9", "drops-packed", "-"), ("71.02", "drops-packed", "-"), ("71.2", "drops-packed", "care")]),
    // Sorbitan stearate (4.7) and polysorbate 60 (14.9).
    edge("emulsifier", "hlb-water-in-oil", |s| { let (a, b) = s.split_once(' ').unwrap(); water(&[]).phase("oil", "72", &["castor 10", &format!("polysorbate-60 {a}"), &format!("sorbitan-stearate {b}")]) }, [("0.382 2.618", "lipophilic-only", "lowered"), ("0.383 2.617", "lipophilic-only", "lowered"), ("0.385 2.615", "lipophilic-only", "-")]),
    // In a gel network HLB does not decide.
    edge("emulsifier", "network-former", |s| castor("2 1").with(&format!("cetyl-alcohol {s}")), [("0.999999", "hlb-off", "care"), ("1", "hlb-off", "unknown"), ("1.000001", "hlb-off", "unknown")]),
    edge("emulsifier", "network-partner", |s| water(&[]).phase("oil", "72", &["castor 10", &format!("ceteareth-20 {s}"), "sorbitan-laurate 2", "cetyl-alcohol 5"]), [("0.499999", "hlb-off", "care"), ("0.5", "hlb-off", "unknown"), ("0.500001", "hlb-off", "unknown")]),
    // Stearoyl lactylate has a charge: a 33rd of the alcohol suffices.
    edge("emulsifier", "network-charged", |s| water(&[&format!("sodium-stearoyl-lactylate {s}")]).phase("oil", "72", &["castor 10", "cetyl-alcohol 5"]), [("0.149999", "emulsifier-low", "lowered"), ("0.15", "emulsifier-enough", "fine"), ("0.150001", "emulsifier-enough", "fine")]),
    // Of 20 % of stearic acid 0.4 % of base make soap.
    edge("emulsifier", "soap-base", |s| water(&[&format!("potassium-hydroxide {s}")]).phase("oil", "72", &["mct 10", "stearic-acid 20"]), [("0.399999", "soap-holds", "-"), ("0.4", "soap-holds", "unknown"), ("0.400001", "soap-holds", "unknown")]),
    edge("clash", "binder", |s| kept(&format!("polysorbate-80 {s}")), [("1.999999", "binds-preservative", "-"), ("2", "binds-preservative", "-"), ("2.000001", "binds-preservative", "care")]),
    edge("clash", "carbomer-salt", |s| water(&["carbomer 0.4", &format!("potassium-sorbate {s}")]), [("0.499999", "salt-thins-carbomer", "-"), ("0.5", "salt-thins-carbomer", "-"), ("0.500001", "salt-thins-carbomer", "care")]),
    edge("emulsifier", "carbomer-salt", |s| water(&[&format!("potassium-sorbate {s}")]).phase("oil", "72", &["mct 10", &format!("{POLYMER} 0.3")]), [("0.499999", "polymer-salted", "-"), ("0.5", "polymer-salted", "-"), ("0.500001", "polymer-salted", "lowered")]),
    edge("clash", "soap-acid-ph", |s| at_ph(s, &["glyceryl-stearate-se 3"]), [("4.99", "soap-in-acid", "lowered"), ("5", "soap-in-acid", "-"), ("5.01", "soap-in-acid", "-")]),
    edge("above-most", "", |s| kept(&format!("glycerin {s}")).shelf("glycerin", Field::Max, "5"), [("4.999999", "above-most", "-"), ("5", "above-most", "-"), ("5.000001", "above-most", "stop")]),
    edge("no-antioxidant", "antioxidant-oil", |s| kept(&format!("rosehip {s}")), [("2.999999", "no-antioxidant", "-"), ("3", "no-antioxidant", "care"), ("3.000001", "no-antioxidant", "care")]),
    edge("supplier-sheet", "unread-acids", |s| kept("olive 2").shelf("olive", Field::FattyAcids, &acids_with_rest(s)), [("4.99", "acids-unknown", "-"), ("5", "acids-unknown", "-"), ("5.01", "acids-unknown", "unknown")]),
    // Olive oil has 184 to 196 in Codex CXS 33; three percent above is 201.88.
    edge("supplier-sheet", "sv-apart", |s| kept("olive 2").shelf("olive", Field::SvLow, s), [("201.87", "saponification-apart", "-"), ("201.88", "saponification-apart", "-"), ("201.89", "saponification-apart", "care")]),
    edge("no-chelator", "chelator-water", |s| Made::of(&[&format!("water {s}"), "glycerin fill-up"]), [("29.999999", "no-chelator", "-"), ("30", "no-chelator", "care"), ("30.000001", "no-chelator", "care")]),
    edge("no-chelator", "chelator-dose", |s| kept(&format!("disodium-edta {s}")), [("0.049999", "no-chelator", "care"), ("0.05", "no-chelator", "-"), ("0.050001", "no-chelator", "-")]),
];

/// Rules that compare with no number: something is there or it is not. Two have their numbers elsewhere: the scale
/// (`tests/scaling.rs`) and the lye (`tests/oils/lye.rs`); that of allergens has the walk below.
const WITHOUT_A_NUMBER: &[&str] = &[
    "unread",
    "no-share",
    "nameless",
    "off-shelf",
    "unrecognised",
    "annexes",
    "composition-unknown",
    "prohibited",
    "barred-use",
    "allergens",
    "nitrosamine",
    "lye",
    "source-allergens",
    "gum-dry",
    "too-small-for-the-scale",
    "identity",
    "region",
];

/// Figures of the papers, tested at their edges in `tests/papers/label.rs`; one only stands in a sentence.
const ON_PAPER: &[&str] = &["content-least", "durability-months", "letter-height", "letter-us", "wheat-kda"];

#[test]
fn every_edge_says_what_it_should() {
    let mut wrong = Vec::new();
    for edge in EDGES {
        let mut seen = Vec::new();
        for (value, said, expected) in edge.cases {
            let found = outcome(&(edge.made)(value), said);
            if found != expected {
                wrong.push(format!("{} {}: {said} at {value} is {found}, not {expected}", edge.rule, edge.figure));
            }
            seen.push((said, expected));
        }
        if seen[0] == seen[2] {
            wrong.push(format!("{} {}: nothing changes at this edge", edge.rule, edge.figure));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Whatever is a custom of the trade or a choice of ours gives no Stop: not at its edge, and not on either side of it.
#[test]
fn no_custom_figure_gives_a_stop() {
    let table = CsvTable::read(include_str!("../../src/facts/data/criteria.csv"));
    let custom = |row: &hundred_parts::facts::CsvRow<'_>| row.get("seen").unwrap() == "custom";
    let keys: Vec<String> = table.rows().filter(custom).map(|row| row.get("key").unwrap().to_owned()).collect();
    assert!(keys.len() > 25, "{keys:?}");
    for key in &keys {
        for edge in EDGES.iter().filter(|edge| edge.figure == key) {
            for (value, said, _) in edge.cases {
                let stops = (edge.made)(value)
                    .findings()
                    .into_iter()
                    .filter(|finding| finding.rule == edge.rule && finding.grade == hundred_parts::rules::Grade::Stop);
                let stops: Vec<_> = stops.map(|finding| finding.detail).collect();
                assert!(stops.is_empty(), "{key}: {said} at {value}: {stops:#?}");
            }
        }
    }
}

#[test]
fn every_rule_and_every_figure_has_its_edges() {
    for rule in RULES {
        let has = EDGES.iter().any(|edge| edge.rule == rule.code);
        assert!(has != WITHOUT_A_NUMBER.contains(&rule.code), "{}: edges {has}", rule.code);
    }
    let table = CsvTable::read(include_str!("../../src/facts/data/criteria.csv"));
    let keys: Vec<&str> = table.rows().map(|row| row.get("key").unwrap()).collect();
    assert!(keys.len() > 50);
    for key in &keys {
        let has = EDGES.iter().any(|edge| edge.figure == *key);
        assert!(has != ON_PAPER.contains(key), "{key}: edges {has}");
    }
    for edge in EDGES {
        assert!(RULES.iter().any(|rule| rule.code == edge.rule), "{}", edge.rule);
        assert!(edge.figure.is_empty() || keys.contains(&edge.figure), "{}", edge.figure);
    }
}

/// The greatest added share of which no more than `most` counts, where so much of it counts (both in millionths).
fn greatest(most: Percent, counted: Percent) -> i64 {
    let counts = |share: i64| mul_div_nearest(share, counted.units(), Percent::WHOLE.units());
    let mut share = mul_div_nearest(most.units(), Percent::WHOLE.units(), counted.units());
    while counts(share + 1) <= most.units() {
        share += 1;
    }
    while counts(share) > most.units() {
        share -= 1;
    }
    share
}

fn shown(units: i64) -> String {
    Percent::from_units(units).canonical()
}

// Source: every row of `limits.csv` names its own: Regulation (EC) 1223/2009 Annex III and its changes.
#[test]
fn every_cap_holds_at_its_edge() {
    let table = CsvTable::read(include_str!("../../src/facts/data/limits.csv"));
    let mut walked = 0;
    for (row, limit) in table.rows().zip(limits()) {
        let Some(most) = limit.most else { continue };
        let first = row.get("names").unwrap().split("; ").next().unwrap();
        let name = first.split('=').next().unwrap();
        let purpose = if limit.purpose.is_empty() { "leave-on" } else { limit.purpose };
        let area = limit.areas.first().copied().unwrap_or("face");
        let at = greatest(most, limit.names[0].1);
        for (share, over) in [(at - 1, false), (at, false), (at + 2, true)] {
            let made = pure(name, &shown(share)).set("use", purpose).set("area", area);
            // Of two caps on one substance the stricter may speak first; this one speaks with its own figure.
            let found = made.findings().into_iter().any(|finding| {
                key(&finding) == "above-cap" && finding.limit() == Some(format!("{} %", most.canonical()))
            });
            assert_eq!(found, over, "{}: {name} at {}", limit.id, shown(share));
        }
        walked += 1;
    }
    assert!(walked >= 29, "{walked}");
}

// Source: Regulation (EC) 1223/2009 Annex V; what counts is the acid of a salt.
#[test]
fn every_preservative_of_the_list_holds_at_its_maximum() {
    let elsewhere = ["methylparaben", "ethylparaben", "propylparaben", "salicylic-acid"];
    let mut walked = 0;
    for row in preservatives().iter().filter(|row| row.group == PreservativeGroup::Listed) {
        if elsewhere.contains(&row.sum_with)
            || hundred_parts::shelf::Shelf::default()
                .entry(&hundred_parts::facts::IngredientId::parse(row.id).unwrap())
                .is_none()
        {
            continue;
        }
        for (purpose, most) in [("leave-on", row.leave_on), ("rinse-off", row.rinse_off)] {
            let Some(most) = most.filter(|most| most.units() > 0) else { continue };
            let at = greatest(most, row.counted);
            for (share, over) in [(at - 1, false), (at, false), (at + 2, true)] {
                let made = water(&[&format!("{} {}", row.id, shown(share))]).set("use", purpose).set("area", "hand");
                let found = made.find("above-maximum");
                // What a material holds may be a usual composition: a solution is less than its line.
                let plain = made.derive().1.composition.substances.iter().any(|substance| {
                    substance.trust == hundred_parts::sheet::Trust::Plain
                        && substance.preservative().is_some_and(|known| known.id == row.id)
                });
                if plain {
                    assert_eq!(found.is_some(), over, "{} {purpose} at {}", row.id, shown(share));
                    walked += 1;
                }
            }
        }
        assert!(!row.barred.contains(&Barred::Oral) || !row.sources.is_empty(), "{}", row.id);
    }
    assert!(walked >= 150, "{walked}");
}

// Source: Regulation (EC) 1223/2009 Annex III, the same two thresholds in every entry: "exceeds", so at it nothing is named.
#[test]
fn every_allergen_is_named_above_its_threshold_only() {
    for row in allergens() {
        for (purpose, threshold) in [("leave-on", row.leave_on), ("rinse-off", row.rinse_off)] {
            for (share, named) in [(-1, false), (0, false), (1, true)] {
                let share = shown(threshold.units() + share);
                let made = kept(&format!("parfum {share}")).set("use", purpose);
                let made = made.shelf("parfum", Field::AllergenStatement, &format!("{} 100 %", row.name));
                let sums = made.derive().1.label.allergens;
                let sum = sums.iter().find(|sum| sum.allergen.name == row.name).unwrap();
                assert_eq!(sum.named, named, "{} {purpose} {share}", row.name);
            }
        }
    }
}

// Source: every row of `shares.csv` names its own.
#[test]
fn every_releaser_and_every_oil_counts_by_its_own_share() {
    let table = CsvTable::read(include_str!("../../src/facts/data/shares.csv"));
    for row in table.rows() {
        let (key, name) = (row.get("class").unwrap(), row.get("name").unwrap());
        let class = ShareClass::ALL.iter().copied().find(|class| class.key() == key).unwrap();
        let (share, basis) = share_in(class, &fold(name)).unwrap();
        let (at, said, over) = match class {
            ShareClass::Releaser => (greatest(Percent::millionths(1_000), share), "formaldehyde-label", "care"),
            // An oil alone at its own bound is just what may be there.
            ShareClass::Furocoumarin => (share.units(), "phototoxic", if basis.holds() { "stop" } else { "lowered" }),
        };
        let calm = if class == ShareClass::Releaser { "-" } else { "care" };
        for (share, expected) in [(at - 4, calm), (at, calm), (at + 4, over)] {
            assert_eq!(outcome(&pure(name, &shown(share)), said), expected, "{name} {}", shown(share));
        }
    }
}
