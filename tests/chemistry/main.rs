//! The chemistry bench against what others measured, published or compute: handbook buffers, two independent solvers,
//! tables of undissociated acid, worked examples of the balance of emulsifiers, and a published titration.

mod balance;
mod bounds;
mod constants;
mod creams;
mod dose;
mod emulsifiers;
mod formula;
mod in_water;
mod meter;
#[path = "../vectors/one_pool.rs"]
mod one_pool;
mod pictures;
mod reach;
mod reference;
mod solubility;
mod undissociated;

use hundred_parts::facts::{Acid, acid};
use hundred_parts::quantity::{Mass, Percent, Ph, Quantity};
use hundred_parts::sheet::ph::AcidBaseMixture;

fn near(name: &str, value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{name}: {value} against {expected} ± {tolerance}");
}

fn row(id: &str) -> &'static Acid {
    acid(id).unwrap_or_else(|| panic!("{id}"))
}

fn percent(text: &str) -> Percent {
    Percent::from_canonical(text).unwrap()
}

fn ph(text: &str) -> Ph {
    Ph::from_canonical(text).unwrap()
}

fn grams(text: &str) -> Mass {
    Mass::from_canonical(text).unwrap()
}

/// A mixture of `(row, mol per kg of water)` with so much charge of strong ions, of which there are so many in all.
fn mixture(parts: &[(&str, f64)], strong: &[f64]) -> AcidBaseMixture {
    let mut mixture = AcidBaseMixture::water(25.0);
    for (id, amount) in parts {
        mixture.add(row(id), *amount, 0.0);
    }
    strong.iter().for_each(|charge| mixture.add_ions(*charge));
    mixture
}
