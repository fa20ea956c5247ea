//! The reference rule of the next dose against its own script.

use crate::one_pool::{Step, one_pool, uncertainty};
use crate::{near, row};

/// Titrant, start, totals in mmol/kg with the pH after each, target, half width of a reading, and what the rule says.
type RuleCase = (&'static str, f64, &'static [(f64, f64)], f64, f64, Step, [f64; 5]);

// Vectors of the reference rule by its script (SciPy 1.17, brentq), to 0.5 %: water 0.8 kg/kg, mmol/kg.
#[test]
fn reference_rule_gives_its_vectors() {
    let meter = 0.05;
    let cases: [RuleCase; 8] = [
        ("citric-acid", 6.0, &[(1.0, 5.6)], 5.0, meter, Step::Add, [0.528_759, 1.211_54, 1.528_76, 1.914_48, 7.171_62]),
        (
            "citric-acid",
            6.0,
            &[(1.0, 5.6), (1.8, 5.3)],
            5.0,
            meter,
            Step::Add,
            [0.323_938, 1.989_15, 2.123_94, 2.540_87, 4.064_75],
        ),
        (
            "citric-acid",
            6.0,
            &[(1.0, 5.6), (1.8, 5.3), (2.3, 5.13)],
            5.0,
            meter,
            Step::Add,
            [0.118_659, 2.405_93, 2.331_75, 2.639_03, 2.952_65],
        ),
        ("citric-acid", 6.5, &[(1.0, 5.5)], 4.5, 0.5, Step::Add, [0.267_998, 1.465_3, 1.268, 1.699_48, 15.772_7]),
        ("lactic-acid", 7.0, &[(1.0, 6.2)], 5.0, meter, Step::Add, [0.192_051, 1.065_2, 1.192_05, 1.611_83, 19.621]),
        (
            "sodium-hydroxide",
            4.2,
            &[(2.0, 4.6)],
            5.2,
            meter,
            Step::Add,
            [0.589_839, 2.018_33, 2.589_84, 11.472_5, 11.740_7],
        ),
        (
            "sodium-bicarbonate",
            4.2,
            &[(2.0, 4.6)],
            5.2,
            meter,
            Step::Add,
            [0.742_894, 2.145_74, 2.742_89, 12.190_7, 12.475_6],
        ),
        ("arginine", 4.2, &[(2.0, 4.6)], 5.2, meter, Step::Add, [0.594_748, 2.022_99, 2.594_75, 11.499_7, 11.768_6]),
    ];
    for (id, start, points, target, half_width, step, expected) in cases {
        let points: Vec<_> = points.iter().map(|(x, ph)| (x / 1000.0, *ph)).collect();
        let found = one_pool(row(id), start, &points, target, 0.8, half_width);
        assert_eq!(found.step, step, "{id} {points:?}");
        let values = [found.increment, found.certain, found.low, found.best, found.high];
        for (value, expected) in values.into_iter().zip(expected) {
            near(id, value * 1000.0, expected, 0.005 * expected);
        }
    }
    let citric = |start, points: &[(f64, f64)], half| one_pool(row("citric-acid"), start, points, 5.0, 0.8, half);
    assert_eq!(citric(6.0, &[(1e-3, 5.5)], 0.5).step, Step::Repeat);
    assert_eq!(citric(6.0, &[(1e-3, 6.3)], 0.05).step, Step::Refuse);
    assert_eq!(citric(6.0, &[(1e-3, 5.02)], 0.05).step, Step::Stop);
    near("meter", uncertainty(0.05), 0.0416, 1e-4);
    near("strip", uncertainty(0.5), 0.290, 1e-3);
}
