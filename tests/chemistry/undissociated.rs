//! The undissociated share of acids against published tables.

use crate::{near, row};
use hundred_parts::sheet::ph::undissociated;

// Source: Steinberg 2005, J Cosmet Sci 56(5):361-362, table of undissociated acid in percent; its constants.
#[test]
fn undissociated_shares_agree_with_the_published_table() {
    for (name, pka, shares) in [
        ("benzoic", 4.18, [94.0, 60.0, 32.0, 13.0, 4.6, 1.5, 0.5, 0.15]),
        ("sorbic", 4.76, [98.0, 85.0, 65.0, 37.0, 15.0, 5.4, 1.8, 0.6]),
        ("salicylic", 2.97, [48.0, 8.5, 2.9, 0.9, 0.3, 0.1, 0.03, 0.01]),
    ] {
        for (at, share) in [3.0, 4.0, 4.5, 5.0, 5.5, 6.0, 6.5, 7.0].into_iter().zip(shares) {
            let found = 100.0 * undissociated(pka, at, 0.0);
            near(name, found, share, (share * 0.05).max(0.06));
        }
    }
}

// Source: Food Additives Data Book (Smith and Hong-Shum 2003), benzoic acid: 93.5, 59.3, 12.8, 1.44, 0.144 % at pH 3 to
// 7. Its rows imply a constant of 4.158 to 4.167, not the 4.19 that it states.
#[test]
fn undissociated_benzoic_acid_agrees_with_a_second_table() {
    for (at, share) in [(3.0, 93.5), (4.0, 59.3), (5.0, 12.8), (6.0, 1.44), (7.0, 0.144)] {
        near("benzoic", 100.0 * undissociated(4.165, at, 0.0), share, 0.012 * share + 0.1);
    }
}

// Henderson and Hasselbalch by hand: the pH above which less than a tenth is undissociated is pKa + log10 9.
#[test]
fn undissociated_tenth_lies_at_the_constant_plus_log_nine() {
    for (id, at) in [("benzoic-acid", 5.16), ("sorbic-acid", 5.71), ("dehydroacetic-acid", 6.22)] {
        near(id, undissociated(row(id).steps[0].pka, at, 0.0), 0.1, 0.001);
    }
}
