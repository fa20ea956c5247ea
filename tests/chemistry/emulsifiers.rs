//! The balance of emulsifiers against published blends.

use crate::near;
use hundred_parts::facts::{Hlb, IngredientId, Shelf};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::sheet::hlb::{Pair, blend, griffin_ester, griffin_mass, least_change, pair};
use hundred_parts::sheet::{Crowding, crowding};

pub(crate) fn hlb(value: f64) -> Hlb {
    Hlb::from_units((value * 100.0).round() as i64)
}

fn share(value: f64) -> Percent {
    Percent::from_units((value * 1e6).round() as i64)
}

// Source: OCL 2022, 29, art. ocl210096, tables 4 and 5: five creams with beeswax 12, isopropyl myristate 11.5, glyceryl
// stearate 3.8, stearic acid 15 and a seed oil 6.2; 3 % of emulsifiers of 15.0 and 4.7.
#[test]
fn five_published_creams_ask_for_their_hlb_and_get_their_pair() {
    let asks = [12.0, 11.5, 3.8, 15.0, 6.2].map(hlb);
    for (oils, required, high, low) in [
        ([1.5, 7.5, 7.5, 12.5, 5.0], 10.33, 1.64, 1.36),
        ([1.5, 7.5, 7.5, 10.5, 5.0], 10.04, 1.56, 1.44),
        ([1.5, 7.5, 7.5, 8.5, 5.0], 9.71, 1.46, 1.54),
        ([1.5, 7.5, 7.5, 6.5, 5.0], 9.33, 1.35, 1.65),
        ([1.5, 10.0, 10.0, 10.5, 5.0], 9.72, 1.46, 1.54),
    ] {
        let parts: Vec<_> = oils.into_iter().map(share).zip(asks).collect();
        let found = blend(&parts).unwrap();
        assert_eq!(found, hlb(required));
        let Pair::Shares { high: of_high, low: of_low } = pair(hlb(15.0), hlb(4.7), found, share(3.0)) else {
            panic!("{required}")
        };
        near("high", of_high.units() as f64 / 1e6, high, 0.0101);
        near("low", of_low.units() as f64 / 1e6, low, 0.0101);
        assert_eq!(of_high.plus(of_low), share(3.0));
    }
}

// Source: lecture notes in pharmacy on Griffin's method: mineral oil 30 g at 12, wool fat 1.5 g at 10, cetyl alcohol 1 g
// at 15 ask for 12.0; 5 g of emulsifiers of 14.9 and 4.7 are 3.6 and 1.4 g; 10 g of 4.7 with 20 g of 14.9 have 11.5.
#[test]
fn lecture_example_of_a_blend_comes_out() {
    let parts = [(share(30.0), hlb(12.0)), (share(1.5), hlb(10.0)), (share(1.0), hlb(15.0))];
    assert_eq!(blend(&parts), Some(hlb(12.0)));
    let Pair::Shares { high, low } = pair(hlb(14.9), hlb(4.7), hlb(12.0), share(5.0)) else { panic!("no pair") };
    near("high", high.units() as f64 / 1e6, 3.6, 0.03);
    near("low", low.units() as f64 / 1e6, 1.4, 0.03);
    assert_eq!(blend(&[(share(10.0), hlb(4.7)), (share(20.0), hlb(14.9))]), Some(hlb(11.5)));
    assert_eq!(pair(hlb(14.9), hlb(4.7), hlb(16.0), share(5.0)), Pair::TooLow);
    assert_eq!(pair(hlb(14.9), hlb(4.7), hlb(3.0), share(5.0)), Pair::TooHigh);
    assert_eq!(blend(&[]), None);
}

// Source: Griffin 1954 by formula against values of the trade, from memory: laureth-4 9.7, laureth-23 16.9, ceteth-20
// 15.7, steareth-2 4.9, steareth-20 15.3, oleth-10 12.4; glyceryl stearate 3.8, polysorbate 20 16.7. Ethylene oxide 44.053
// g/mol.
#[test]
fn griffins_formulas_give_the_values_of_the_trade() {
    for (name, alcohol, units, published) in [
        ("laureth-4", 186.34, 4.0, 9.7),
        ("laureth-23", 186.34, 23.0, 16.9),
        ("ceteth-20", 242.45, 20.0, 15.7),
        ("steareth-2", 270.50, 2.0, 4.9),
        ("steareth-20", 270.50, 20.0, 15.3),
        ("oleth-10", 268.49, 10.0, 12.4),
    ] {
        let oxide = units * 44.053;
        near(name, griffin_mass(oxide, alcohol + oxide), published, 0.05);
    }
    near("glyceryl stearate", griffin_ester(161.0, 198.0), 3.8, 0.1);
    near("polysorbate 20", griffin_ester(45.5, 276.0), 16.7, 0.05);
}

// Source: the same quadratic programme solved by SLSQP of SciPy 1.17.
#[test]
fn least_change_of_several_emulsifiers_agrees_with_another_solver() {
    for (balances, preferred, wanted, shares) in [
        (&[4.7, 9.7, 15.0][..], &[0.4, 0.2, 0.4][..], 10.0, &[0.382_699, 0.199_661, 0.417_640][..]),
        (&[3.8, 4.3, 16.7], &[0.3, 0.3, 0.4], 8.0, &[0.346_420, 0.341_224, 0.312_356]),
        (&[1.8, 4.7, 14.9, 15.3], &[0.25; 4], 12.0, &[0.106_024, 0.162_638, 0.361_764, 0.369_573]),
    ] {
        let found = least_change(balances, preferred, wanted).unwrap();
        for (found, expected) in found.iter().zip(shares) {
            near("share", *found, *expected, 1e-5);
        }
    }
    assert_eq!(least_change(&[4.7, 9.7], &[0.5, 0.5], 12.0), None);
}

// Source: AOCS Inform 2014 on emulsions (vegetable oils as a class 7 to 8) and OCL 2022, 29, art. ocl210096, table 4.
#[test]
fn required_hlb_of_the_shelf_is_the_published_one() {
    for (id, value) in [("beeswax", 12.0), ("isopropyl-myristate", 11.5), ("stearic-acid", 15.0), ("almond-sweet", 7.0)]
    {
        let entry = Shelf::default().entry(&IngredientId::parse(id).unwrap()).unwrap();
        assert_eq!(entry.required_hlb().unwrap().value, hlb(value), "{id}");
    }
}

// Equal spheres: random close packing 0.64; closest π / (3 √2) = 0.74048 (Kepler, Hales 2005).
#[test]
fn drops_are_as_crowded_as_spheres() {
    let closest = core::f64::consts::PI / (3.0 * 2f64.sqrt());
    assert_eq!(crowding(share(closest * 100.0 + 0.001)), Crowding::BeyondPacking);
    assert_eq!(crowding(share(closest * 100.0 - 0.001)), Crowding::Crowded);
    assert_eq!(crowding(share(64.0)), Crowding::Thick);
    assert_eq!(crowding(share(27.0)), Crowding::Loose);
}
