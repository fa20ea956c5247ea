//! Which products of the law a maker's product may be.
//!
//! The maker says whether it stays on, where it goes, for whom it is and what it is filled into; the annexes tell more kinds
//! apart. So a product is a set of those that it may be, and what holds for some of them only is unknown. Which they are is a
//! reading of ours (`custom`, as in `law/data/kinds.csv`).

use crate::formula::{About, Area, Audience, Pack, Use};
use crate::law::{ProductForm, ProductKind, Products, Youngest};

/// The products of the law that this one may be.
pub fn products_of(about: &About) -> Products {
    let form = if about.pack == Pack::Spray { ProductForm::Pump } else { ProductForm::Still };
    let youngest = match about.audience {
        Audience::UnderThree => Youngest::UnderThree,
        Audience::ChildThreePlus => Youngest::Three,
        Audience::Adult | Audience::Pregnant => Youngest::Ten,
    };
    Products::of_kinds(kinds(about)).and(Products::of_forms(&[form])).and(Products::of_youngest(|of| of == youngest))
}

const fn kinds(about: &About) -> &'static [ProductKind] {
    use ProductKind::{
        BarSoap, BodyLotion, BodyOther, Conditioner, FaceCream, FaceOther, FaceWash, FootCare, HairLotion,
        HairRinseOther, HairStyling, HandCream, HandWash, LipCare, NappyCare, Shampoo, ShowerBath, SkinRinseOther,
    };
    let washes = matches!(about.purpose, Use::RinseOff | Use::Soap);
    let bar = matches!(about.pack, Pack::Bar);
    match (washes, about.area) {
        (false, Area::Body) => &[BodyLotion, BodyOther, FootCare],
        (false, Area::Face) => &[FaceCream, FaceOther],
        (false, Area::Hand) => &[HandCream],
        (false, Area::Lip) => &[LipCare],
        (false, Area::Nappy) => &[NappyCare],
        (false, Area::Hair) => &[HairLotion, HairStyling],
        (true, Area::Hair) => &[Shampoo, Conditioner, HairRinseOther],
        (true, _) if bar => &[BarSoap],
        (true, Area::Hand) => &[HandWash],
        (true, Area::Face) => &[FaceWash, SkinRinseOther],
        (true, Area::Body | Area::Lip | Area::Nappy) => &[ShowerBath, SkinRinseOther],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::{Applies, products};

    #[test]
    fn products_are_all_that_the_maker_may_mean() {
        for (purpose, area, pack, audience, phrase, applies) in [
            (Use::LeaveOn, Area::Body, Pack::Jar, Audience::Adult, "leave-on body", Applies::Yes),
            (Use::LeaveOn, Area::Body, Pack::Jar, Audience::Adult, "body-lotion", Applies::Unknown),
            (Use::LeaveOn, Area::Face, Pack::Pump, Audience::Pregnant, "leave-on face !under-3", Applies::Yes),
            (Use::LeaveOn, Area::Lip, Pack::Tube, Audience::Adult, "lip", Applies::Yes),
            (Use::Soap, Area::Body, Pack::Bar, Audience::Adult, "soap rinse-off", Applies::Yes),
            (Use::RinseOff, Area::Hair, Pack::Bottle, Audience::UnderThree, "hair under-3", Applies::Yes),
            (Use::LeaveOn, Area::Hair, Pack::Spray, Audience::Adult, "pump hair leave-on", Applies::Yes),
            (Use::LeaveOn, Area::Hand, Pack::Tube, Audience::ChildThreePlus, "under-3", Applies::No),
        ] {
            let about = About { purpose, area, pack, audience, ..About::default() };
            assert_eq!(products(phrase).covers(products_of(&about)), applies, "{phrase}");
        }
    }
}
