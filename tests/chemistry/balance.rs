//! The charge balance against two other solvers, handbook buffers and a published titration.

use crate::{mixture, near, row};
use hundred_parts::sheet::ph::{AcidBaseMixture, Dissolved};

// Sources: PHREEQC 3 (USGS) and pHcalc 0.2.0; tests/vectors/ph.py makes the table.
#[test]
fn mixtures_agree_with_two_other_solvers() {
    let table = include_str!("../vectors/ph.csv");
    let mut checked = 0;
    for line in table.lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let [recipe, davies, ideal] = cells[..] else { panic!("{line}") };
        let mut mixture = AcidBaseMixture::water(25.0);
        for part in recipe.split("; ") {
            let (name, amount) = part.split_once(' ').unwrap();
            let amount: f64 = amount.parse().unwrap();
            match name {
                "Na" | "K" => mixture.add_ions(amount),
                "Cl" => mixture.add_ions(-amount),
                id => mixture.add(row(id), amount, 0.0),
            }
        }
        near(recipe, mixture.solve().ph, davies.parse().unwrap(), 0.001);
        mixture.active = false;
        near(recipe, mixture.solve().ph, ideal.parse().unwrap(), 0.0006);
        checked += 1;
    }
    assert_eq!(checked, 30);
}

/// Acids that only the standards need. Constants: Goldberg, Kishore and Lennen 2002, J Phys Chem Ref Data 31, 231.
fn standard(pkas: &[f64], molality: f64, strong: &[f64]) -> AcidBaseMixture {
    let mut mixture = AcidBaseMixture::water(25.0);
    mixture.dissolved.push(Dissolved { molality, pkas: pkas.to_vec(), charge: 0, corrected: true });
    strong.iter().for_each(|charge| mixture.add_ions(*charge));
    mixture
}

const PHTHALIC: [f64; 2] = [2.950, 5.408];

// Sources: pH of the NBS standards: Hamer, Pinching and Acree 1946, J Res NBS 36, 47 (phthalate 4.005); Staples and Bates
// 1969, J Res NBS 73A, 37 (citrate 3.776, carbonate 10.012, borax 9.180); phosphates 6.865 and 7.413 from memory. Buffer
// capacities: Lange's Handbook of Chemistry, 15th ed., p. 8.106.
#[test]
fn standard_buffers_have_their_published_ph_and_capacity() {
    for (name, mixture, published, capacity) in [
        ("phthalate", standard(&PHTHALIC, 0.05, &[0.05]), 4.005, 0.016),
        ("citrate", mixture(&[("citric-acid", 0.05)], &[0.05]), 3.776, 0.034),
        ("phosphate 1:1", mixture(&[("phosphoric-acid", 0.05)], &[0.025, 0.05]), 6.865, 0.029),
        ("phosphate 1:3.5", mixture(&[("phosphoric-acid", 0.039_125)], &[0.008_695, 0.060_86]), 7.413, 0.016),
        ("borax", standard(&[9.237], 0.04, &[0.02]), 9.180, 0.020),
        ("carbonate", mixture(&[("carbonic-acid", 0.05)], &[0.075]), 10.012, 0.029),
    ] {
        let solution = mixture.solve();
        near(name, solution.ph, published, 0.02);
        near(name, solution.buffer, capacity, 0.0035);
    }
}

// Source: NBS phosphate standard 1:1 by temperature, from memory: 6.881 at 20 °C, 6.853 at 30 °C, 6.838 at 40 °C.
#[test]
fn standard_phosphate_follows_temperature() {
    for (celsius, published) in [(20.0, 6.881), (25.0, 6.865), (30.0, 6.853), (40.0, 6.838)] {
        let mut mixture = AcidBaseMixture::water(celsius);
        mixture.add(row("phosphoric-acid"), 0.05, 0.0);
        mixture.add_ions(0.075);
        near("phosphate", mixture.solve().ph, published, 0.02);
    }
}

// Source: Lange's Handbook of Chemistry, 15th ed., table 8.16 (from Bower and Bates 1955): 0.05 M potassium hydrogen
// phthalate with so many mmol/L of hydrochloric acid (negative) or sodium hydroxide.
pub(crate) const LANGE: [(f64, f64); 15] = [
    (2.40, -42.2),
    (2.60, -35.4),
    (2.80, -28.9),
    (3.00, -22.3),
    (3.20, -15.7),
    (3.40, -10.4),
    (3.60, -6.3),
    (3.80, -2.9),
    (4.20, 3.0),
    (4.40, 6.6),
    (4.60, 11.1),
    (4.80, 16.5),
    (5.00, 22.6),
    (5.20, 28.8),
    (5.40, 34.1),
];

#[test]
fn titration_of_phthalate_agrees_with_the_table() {
    for (published, added) in LANGE {
        let solution = standard(&PHTHALIC, 0.05, &[0.05, added / 1000.0]).solve();
        near("phthalate", solution.ph, published, 0.025);
    }
}

// Source: McIlvaine 1921, J Biol Chem 49, 183: 0.1 M citric acid and so many mL of 0.2 M disodium phosphate in 20 mL. The
// ionic strength goes up to 0.58, where the law of Davies is known to read high.
#[test]
fn mixtures_of_citrate_and_phosphate_agree_where_the_law_holds() {
    for (published, volume) in [(2.2, 0.40), (2.6, 2.18), (3.0, 4.11), (3.4, 5.70), (3.8, 7.10)] {
        let (phosphate, citrate) = (0.2 * volume / 20.0, 0.1 * (20.0 - volume) / 20.0);
        let mixture = mixture(&[("phosphoric-acid", phosphate), ("citric-acid", citrate)], &[phosphate, phosphate]);
        near("McIlvaine", mixture.solve().ph, published, 0.10);
    }
    for (published, volume) in [(5.0, 10.30), (6.0, 12.63), (7.0, 16.47)] {
        let (phosphate, citrate) = (0.2 * volume / 20.0, 0.1 * (20.0 - volume) / 20.0);
        let mixture = mixture(&[("phosphoric-acid", phosphate), ("citric-acid", citrate)], &[phosphate, phosphate]);
        let solution = mixture.solve();
        assert!(solution.ph > published && solution.ph < published + 0.2, "{published}: {}", solution.ph);
    }
}

// A textbook's dilution: weakly buffered samples read higher, since fewer salts hold their acids apart. Worked with the
// reference script of the project's models, checked there against PHREEQC: 0.5 % benzoate at pH 5 reads 5.06 at 1 + 9.
#[test]
fn dilution_lifts_a_reading() {
    let benzoate = |sodium: f64| mixture(&[("benzoic-acid", 0.0347 / 0.8)], &[sodium]);
    let (mut low, mut high) = (0.0, 0.05);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if benzoate(middle).solve().ph < 5.0 { low = middle } else { high = middle }
    }
    let neat = benzoate(low);
    let before = neat.solve().ph;
    near("neat", before, 5.0, 1e-6);
    near("1 + 9", neat.diluted(0.8 / 9.8).solve().ph - before, 0.06, 0.015);
}
