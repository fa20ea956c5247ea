//! Constants of acids and bases against the handbook.

use crate::{near, row};
use hundred_parts::sheet::ph::{pk_at, pkw};

// Source: CRC Handbook of Chemistry and Physics, dissociation constants of organic and of inorganic acids and bases at
// 25 °C, from memory: citric 3.13, 4.76, 6.40; lactic 3.86; benzoic 4.20; sorbic 4.76; acetic 4.756; malic 3.40, 5.11;
// succinic 4.21, 5.64; tartaric 2.98, 4.34; propionic 4.87; formic 3.75; glycolic 3.83; phosphoric 2.16, 7.21, 12.32;
// carbonic 6.35, 10.33; triethanolamine 7.76; tromethamine 8.07 (8.3 at 20 °C); nicotinamide 3.35.
#[test]
fn constants_agree_with_the_handbook() {
    for (id, constants, tolerance) in [
        ("citric-acid", &[3.13, 4.76, 6.40][..], 0.01),
        ("lactic-acid", &[3.86], 0.01),
        ("benzoic-acid", &[4.20], 0.01),
        ("sorbic-acid", &[4.76], 0.01),
        ("acetic-acid", &[4.756], 0.005),
        ("malic-acid", &[3.40, 5.11], 0.07),
        ("succinic-acid", &[4.21, 5.64], 0.01),
        ("tartaric-acid", &[2.98, 4.34], 0.06),
        ("propionic-acid", &[4.87], 0.01),
        ("formic-acid", &[3.75], 0.01),
        ("glycolic-acid", &[3.83], 0.06),
        ("phosphoric-acid", &[2.16, 7.21, 12.32], 0.04),
        ("carbonic-acid", &[6.35, 10.33], 0.01),
        ("triethanolamine", &[7.76], 0.01),
        ("tromethamine", &[8.07], 0.01),
        ("niacinamide", &[3.35], 0.01),
    ] {
        let steps = &row(id).steps;
        assert_eq!(steps.len(), constants.len(), "{id}");
        for (step, expected) in steps.iter().zip(constants) {
            near(id, step.pka, *expected, tolerance);
        }
    }
}

// Sources: Bates and Allen 1960, J Res NBS 64A, 343 (triethanolamine 7.86 at 20 °C, 7.48 at 40 °C); ionic product of
// water 14.17 at 20 °C and 13.53 at 40 °C, CRC Handbook, from memory.
#[test]
fn constants_move_with_temperature() {
    let step = row("triethanolamine").steps[0];
    let at = |celsius: f64| pk_at(step.pka, step.heat.unwrap(), step.heat_capacity, celsius + 273.15);
    near("triethanolamine 20", at(20.0), 7.86, 0.01);
    near("triethanolamine 40", at(40.0), 7.48, 0.01);
    near("water 20", pkw(293.15), 14.17, 0.02);
    near("water 40", pkw(313.15), 13.53, 0.02);
}
