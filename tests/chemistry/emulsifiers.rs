//! The balance of emulsifiers against published blends.

use crate::near;
use hundred_parts::facts::{Hlb, IngredientId};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::sheet::hlb::{Pair, blend, pair};
use hundred_parts::sheet::{Crowding, crowding};
use hundred_parts::shelf::Shelf;

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
