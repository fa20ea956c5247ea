//! Sets of products: what a phrase of the law covers, and what a product may be.

use super::{ProductForm, ProductKind, Youngest};

const CELLS: usize = ProductForm::ALL.len() * Youngest::ALL.len();

/// A set of products: of kinds, each in a form and for users of an age.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Products([u64; CELLS]);

// A bit for each kind.
const _: () = assert!(ProductKind::ALL.len() <= 64);
const EVERY: u64 = if ProductKind::ALL.len() == 64 { u64::MAX } else { (1 << ProductKind::ALL.len()) - 1 };

impl Products {
    /// No product.
    pub const NONE: Self = Self([0; CELLS]);
    /// Every product.
    pub const ALL: Self = Self([EVERY; CELLS]);

    /// All products of some kinds.
    pub fn of_kinds(kinds: &[ProductKind]) -> Self {
        let bits = kinds.iter().fold(0, |bits, kind| bits | 1u64 << (*kind as u64));
        Self([bits; CELLS])
    }

    /// All products of some forms.
    pub fn of_forms(forms: &[ProductForm]) -> Self {
        Self::where_cell(|form, _| forms.contains(&form))
    }

    /// All products for which that holds of the youngest for whom they are meant.
    pub fn of_youngest(holds: impl Fn(Youngest) -> bool) -> Self {
        Self::where_cell(|_, youngest| holds(youngest))
    }

    fn where_cell(holds: impl Fn(ProductForm, Youngest) -> bool) -> Self {
        let mut products = Self::NONE;
        let cells =
            ProductForm::ALL.iter().flat_map(|form| Youngest::ALL.iter().map(move |youngest| (*form, *youngest)));
        for (bits, (form, youngest)) in products.0.iter_mut().zip(cells) {
            if holds(form, youngest) {
                *bits = EVERY;
            }
        }
        products
    }

    fn with(mut self, other: Self, join: impl Fn(u64, u64) -> u64) -> Self {
        for (bits, more) in self.0.iter_mut().zip(other.0) {
            *bits = join(*bits, more);
        }
        self
    }

    /// What is in one of both.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        self.with(other, |a, b| a | b)
    }

    /// What is in both.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        self.with(other, |a, b| a & b)
    }

    /// What is in this one only.
    #[must_use]
    pub fn without(self, other: Self) -> Self {
        self.with(other, |a, b| a & !b)
    }

    /// Whether there is none in it.
    pub fn is_none(self) -> bool {
        self == Self::NONE
    }

    /// Whether every one of them is in the other set.
    pub fn all_in(self, other: Self) -> bool {
        self.without(other).is_none()
    }
}

/// What a phrase of the law covers: what it surely does, and beyond that what it may, since the law leaves it open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scope {
    /// Surely covered.
    pub sure: Products,
    /// Covered, surely or perhaps.
    pub may: Products,
}

/// Whether something holds for a product.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Applies {
    /// It does.
    Yes,
    /// It does not.
    No,
    /// It cannot be told: the law leaves it open, or not enough is known of the product.
    Unknown,
}

impl Scope {
    /// Every product.
    pub const ALL: Self = Self { sure: Products::ALL, may: Products::ALL };
    /// No product.
    pub const NONE: Self = Self { sure: Products::NONE, may: Products::NONE };

    /// Surely those, and no others.
    pub fn exactly(products: Products) -> Self {
        Self { sure: products, may: products }
    }

    /// Either.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self { sure: self.sure.or(other.sure), may: self.may.or(other.may) }
    }

    /// Both.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self { sure: self.sure.and(other.sure), may: self.may.and(other.may) }
    }

    /// This one, not the other.
    #[must_use]
    pub fn without(self, other: Self) -> Self {
        Self { sure: self.sure.without(other.may), may: self.may.without(other.sure) }
    }

    /// Whether it covers a product that may be any of those.
    pub fn covers(self, product: Products) -> Applies {
        if product.and(self.may).is_none() {
            Applies::No
        } else if product.all_in(self.sure) {
            Applies::Yes
        } else {
            Applies::Unknown
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn products() -> impl Strategy<Value = Products> {
        prop::array::uniform16(0..=EVERY).prop_map(Products)
    }

    proptest! {
        #[test]
        fn scope_without_never_covers_what_it_leaves_out(a in products(), b in products()) {
            let left = Scope::exactly(a).without(Scope::exactly(b));
            prop_assert!(left.sure.and(b).is_none() && left.sure.all_in(a) && left.sure.all_in(left.may));
            prop_assert_eq!(left.or(Scope::exactly(a.and(b))), Scope::exactly(a));
        }
    }

    #[test]
    fn scope_covers_what_may_be_several_kinds_only_when_it_covers_all() {
        let one = Products::of_kinds(&[ProductKind::BodyLotion]);
        let both = Products::of_kinds(&[ProductKind::BodyLotion, ProductKind::FaceCream]);
        let scope = Scope::exactly(one);
        assert_eq!((scope.covers(one), scope.covers(both)), (Applies::Yes, Applies::Unknown));
        assert_eq!(scope.covers(both.without(one)), Applies::No);
    }
}
