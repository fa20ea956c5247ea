//! Solubility by temperature, what oil takes, and constants: check values of preservatives in water, and where the model says
//! nothing of one.
//!
//! Each figure stands beside its source. "Food Additives" is Smith and Hong-Shum, Food Additives Data Book, 2003. A figure is met
//! within a tenth unless another bound is said.

use crate::{near, row};
use hundred_parts::facts::{WaterSolubility, partition};
use hundred_parts::sheet::Divided;
use hundred_parts::sheet::ph::undissociated;

/// What of the published figures this model does not give, and why.
const GAPS: &[(&str, &str)] = &[
    (
        "sorbic acid at 100 °C, 4.00 %",
        "a fifth less: van 't Hoff's line is no line over 80 K, and no cream stands there",
    ),
    ("sorbic acid in 5, 10, 15 % salt", "salting out is not modelled; a lotion has a tenth of that salt"),
    ("benzoic acid at 0, 75, 100 °C", "as above: 16 % less at 0 °C, a third and more less from 75 °C on"),
    ("methylparaben, ethylparaben, propylparaben at 80 °C", "their slopes are steeper there than where creams stand"),
    (
        "parabens in peanut oil",
        "a second to a sixth of what the same pages have for olive oil: one vegetable oil is all that is modelled",
    ),
    ("ethylparaben 0.17 % at 25 °C", "measured ones have 0.074 to 0.105 %, of which the table takes 0.089"),
    ("propylparaben 0.025 and 0.05 % at 10 and 20 °C", "the table has 0.038 % at 25 °C, measured, which is below both"),
    (
        "chlorhexidine in 1 and 3 % polysorbate 80",
        "it acts as an ion: not computed, and what emulsifiers bind is not either",
    ),
    ("p-hydroxybenzoic acid between micelles and water", "what emulsifiers bind is not modelled; the page says so"),
    ("cetylpyridinium chloride, critical concentration", "it acts as an ion at the surface of microbes: not computed"),
    ("dehydroacetic acid, constant of 5.53 at 20 °C", "0.41 in five degrees would take 138 kJ/mol, which no acid has"),
    (
        "methylparaben and propylparaben free in 5 % polysorbate 80",
        "what emulsifiers bind is not modelled: 22 and 4.5 % would be free",
    ),
    ("sodium dehydroacetate, 33 g in 100 g of water", "the salt's own solubility bounds nothing that a formula has"),
];

/// In g per 100 mL of water that holds the undissociated form and what ionises of it by itself.
fn in_its_own_solution(id: &str, celsius: f64, pka: f64, mass: f64) -> f64 {
    let undissociated = partition(id).unwrap().solubility.at(celsius).unwrap() / mass;
    (undissociated + (10f64.powf(-pka) * undissociated).sqrt()) * mass / 10.0
}

// Source: Food Additives p. 733, 20, 30 and 50 °C.
#[test]
fn sorbic_acid_dissolves_as_printed_from_20_to_50_degrees() {
    for (celsius, printed) in [(20.0, 0.15), (30.0, 0.25), (50.0, 0.55)] {
        let found = in_its_own_solution("sorbic-acid", celsius, 4.76, 112.13);
        near("sorbic", found / printed, 1.0, 0.1);
    }
}

// Source: the encyclopaedia's table of benzoic acid, 18, 25 and 40 °C in g/L.
#[test]
fn benzoic_acid_dissolves_as_printed_from_18_to_40_degrees() {
    for (celsius, printed) in [(18.0, 0.27), (25.0, 0.344), (40.0, 0.551)] {
        let found = in_its_own_solution("benzoic-acid", celsius, 4.203, 122.12);
        near("benzoic", found / printed, 1.0, 0.1);
    }
}

// Source: Food Additives p. 769: 0.20 % at 10 °C, 0.25 % at 25 °C; of the other two, p. 760 and 765, the ratio alone.
#[test]
fn parabens_dissolve_less_in_the_cold_as_printed() {
    let at = |id: &str, celsius: f64| partition(id).unwrap().solubility.at(celsius).unwrap();
    near("10", at("methylparaben", 10.0), 2.0, 0.1);
    near("25", at("methylparaben", 25.0), 2.5, 1e-9);
    near("ethyl", at("ethylparaben", 10.0) / at("ethylparaben", 25.0), 0.07 / 0.17, 0.05);
    near("propyl", at("propylparaben", 20.0) / at("propylparaben", 10.0), 2.0, 0.6);
}

// Where nobody measured a slope, 10 °C keeps 47 to 59 % of what 25 °C hold (25 to 35 kJ/mol by van 't Hoff, the spread of those
// above); nothing is said of what mixes in any amount.
#[test]
fn unmeasured_slopes_lie_in_the_spread_of_measured_ones() {
    let solubility = partition("salicylic-acid").unwrap().solubility;
    let kept = solubility.at(10.0).unwrap() / solubility.at(25.0).unwrap();
    assert!((0.47..=0.59).contains(&kept), "{kept}");
    assert_eq!(WaterSolubility::Miscible.at(10.0), None);
    assert_eq!(WaterSolubility::Unknown.at(10.0), None);
}

// Source: Food Additives p. 733: 0.80 % in vegetable oil at 20 °C, 2.00 % at 50 °C; by the density of oil over what water
// holds. Olive oil, p. 769, 760 and 765: 2.9, 3.0 and 5.2 % over 0.25, 0.17 and 0.05 %.
#[test]
fn coefficients_reach_the_ratios_of_printed_solubilities() {
    for (id, percent_in_oil, percent_in_water) in [
        ("sorbic-acid", 0.80, 0.147),
        ("sorbic-acid", 2.00, 0.55),
        ("methylparaben", 2.9, 0.25),
        ("ethylparaben", 3.0, 0.17),
        ("propylparaben", 5.2, 0.05),
    ] {
        let known = partition(id).unwrap().vegetable.unwrap();
        let ratio: f64 = percent_in_oil * 0.92 / percent_in_water;
        assert!((known.value / known.doubt..=known.value * known.doubt).contains(&ratio), "{id}: {ratio}");
    }
}

// Source: Food Additives p. 741: vegetable oil takes 0.01 % of potassium sorbate: the ion stays in the water.
#[test]
fn oil_takes_hardly_any_of_a_salt() {
    let ionised = 1.0 / undissociated(4.76, 8.0, 0.0) - 1.0;
    let coefficient = partition("sorbic-acid").unwrap().vegetable.unwrap().value;
    let divided = Divided { concentration: 1.0, oil_per_water: 1.0, coefficient, ionised };
    assert!(divided.free() * coefficient < 0.01, "{}", divided.free() * coefficient);
}

// Source: J. Soc. Cosmet. Chem. 12 (1961) 8: 20 to 25 mg of methylparaben in 100 g of the water stop mould. Equal volumes of
// soya oil and water leave about that much of 0.1 %, and liquid paraffin eight times as much.
#[test]
fn methylparaben_that_stops_mould_is_what_oil_leaves_of_a_tenth_of_a_percent() {
    let row = partition("methylparaben").unwrap();
    let free = |coefficient| Divided { concentration: 0.1, oil_per_water: 1.0, coefficient, ionised: 0.0 }.free();
    assert!((0.020..=0.025).contains(&free(row.vegetable.unwrap().value)));
    assert!(free(row.paraffin.unwrap().value) > 0.15);
}

// Source: IUPAC digitised set v2.4, no. 4027: dehydroacetic acid 5.12 at 25 °C and an ionic strength of 0.15. By Davies' equation
// (0.509 at 25 °C) that is 0.12 below the constant at none.
#[test]
fn constant_of_dehydroacetic_acid_is_the_measured_one_at_its_ionic_strength() {
    let root = 0.15f64.sqrt();
    let davies = 0.509 * (root / (1.0 + root) - 0.3 * 0.15);
    let constant = row("dehydroacetic-acid").system().unwrap().steps[0].pka;
    near("dehydroacetic", constant - davies, 5.12, 0.05);
}

// Source: J. Solution Chem. 2023, 3, 471, abstract: levulinic acid, log P -0.554 between neat solvents, -0.790 between saturated
// ones. Ours is PHYSPROP's; in oil there is next to nothing of it by any of them.
#[test]
fn levulinic_acid_stays_in_the_water() {
    let ours = partition("levulinic-acid").unwrap().vegetable.unwrap();
    for log_p in [-0.554, -0.790f64] {
        let theirs = hundred_parts::facts::estimated_in_vegetable_oil(log_p);
        assert!((ours.value / ours.doubt..=ours.value * ours.doubt).contains(&theirs));
    }
    assert!(ours.value < 0.1);
}

/// What is not computed says nothing, instead of something wrong.
#[test]
fn gaps_are_told_and_the_model_is_silent_on_them() {
    assert!(GAPS.iter().all(|(figure, why)| !figure.is_empty() && why.len() > 20));
    let water = hundred_parts::sheet::Volumes { oil_per_water: 0.0, paraffin: 0.0 };
    for id in ["chlorhexidine", "benzalkonium"] {
        assert_eq!(hundred_parts::sheet::in_water(id, crate::percent("0.1"), water, 0.0), None, "{id}");
    }
    // These lie outside of the bound of a tenth that all others keep: a model that came to meet them is no gap any more.
    let off = |found: f64, printed: f64| (found / printed - 1.0).abs() > 0.1;
    assert!(off(in_its_own_solution("sorbic-acid", 100.0, 4.76, 112.13), 4.00));
    for (celsius, printed) in [(0.0, 0.17), (75.0, 2.145), (100.0, 5.631)] {
        assert!(off(in_its_own_solution("benzoic-acid", celsius, 4.203, 122.12), printed), "{celsius}");
    }
    for (id, printed) in [("methylparaben", 20.0), ("ethylparaben", 8.6), ("propylparaben", 3.0)] {
        assert!(off(partition(id).unwrap().solubility.at(80.0).unwrap(), printed), "{id}");
    }
}
