//! Models of accelerated ageing against worked examples.

use hundred_parts::batch::study::{activation_energy, arrhenius_factor, like_days, q10_factor};
use hundred_parts::quantity::{Celsius, Quantity};

fn celsius(text: &str) -> Celsius {
    Celsius::from_canonical(text).unwrap()
}

fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

// Source: ASTM F1980, section on the accelerated aging factor, AAF = Q10^((TAA - TRT)/10); its usual examples, from memory:
// Q10 2 at 55 °C for 25 °C is 8.0 and for 22 °C 9.85; a year at 22 °C is then 37 days, at 50 °C for 22 °C 52.4 days, and
// at 60 °C for 22 °C 26.2 days.
#[test]
fn factor_is_that_of_the_standard() {
    for (warm, room, factor) in [("55", "25", 8.0), ("55", "22", 9.849), ("50", "22", 6.964), ("60", "22", 13.929)] {
        near(q10_factor(2.0, celsius(warm), celsius(room)), factor, 0.001);
    }
    for (warm, days) in [("55", 37.06), ("50", 52.4), ("60", 26.2)] {
        near(365.0 / q10_factor(2.0, celsius(warm), celsius("22")), days, 0.02);
    }
}

// Worked by hand: from 20 to 40 °C two steps of ten degrees, so 2 x 2, 3 x 3 and 1.5 x 1.5; three months are 91 days.
#[test]
fn three_months_warm_are_taken_for_seven_months_to_two_years() {
    for (tenths, factor, days) in [(20, 4.0, 364), (30, 9.0, 819), (15, 2.25, 204)] {
        near(q10_factor(tenths as f64 / 10.0, celsius("40"), celsius("20")), factor, 1e-9);
        assert_eq!(like_days(91, tenths, celsius("40"), celsius("20")), days, "{tenths}");
    }
    assert_eq!(like_days(28, 20, celsius("22"), celsius("22")), 28, "at room temperature a day is a day");
    assert_eq!(like_days(28, 20, celsius("12"), celsius("22")), 14, "cold storage is less, never more");
}

// Source: the rule of thumb of every textbook of physical chemistry (such as Atkins), from memory: at an activation energy of
// about 53 kJ/mol a reaction goes twice as fast at 308 K as at 298 K. And worked by hand with R = 8.314 J/(mol K):
// exp(80000 / 8.314 x (1/298.15 - 1/313.15)) = 4.69.
#[test]
fn arrhenius_gives_what_textbooks_give() {
    near(arrhenius_factor(52.9, celsius("35"), celsius("25")), 2.0, 0.01);
    near(arrhenius_factor(80.0, celsius("40"), celsius("25")), 4.69, 0.01);
    near(activation_energy(2.0, celsius("35"), celsius("25")).unwrap(), 52.9, 0.1);
    near(activation_energy(4.0, celsius("40"), celsius("20")).unwrap(), 52.9, 0.1);
    assert_eq!(activation_energy(1.5, celsius("22"), celsius("22")), None, "no difference, no energy");
}
