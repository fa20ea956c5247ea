//! What an ingredient costs: the price of the lot that counts, else the one on its card.

use crate::facts::Field;
use crate::quantity::{Mass, Money, Quantity, Typed};
use crate::shelf::{Ingredient, Lot, LotField};

/// A price for so much.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnitPrice {
    /// What is paid.
    pub money: Money,
    /// For how much; more than nothing.
    pub per: Mass,
    /// The lot that it was paid for; empty where it is the price on the card.
    pub lot: String,
}

/// Why there is no price.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoPrice {
    /// None was entered.
    Missing,
    /// What was entered cannot be read.
    Unread,
    /// One was entered, and not for how much.
    ForHowMuch,
}

impl UnitPrice {
    /// What so much costs.
    pub fn of(&self, mass: Mass) -> Option<Money> {
        self.money.of_mass(mass, self.per)
    }
}

impl Lot {
    /// What was paid for how much.
    ///
    /// # Errors
    /// Why that is not known.
    pub fn unit_price(&self) -> Result<UnitPrice, NoPrice> {
        let money = Money::read(self.text(LotField::Price)).map_err(|_| NoPrice::Unread)?.ok_or(NoPrice::Missing)?;
        let stated = self.text(LotField::PriceFor);
        let per = Typed::<Mass>::new(if stated.trim().is_empty() { self.text(LotField::Amount) } else { stated });
        match per.value().filter(|per| per.units() > 0) {
            Some(per) => Ok(UnitPrice { money, per, lot: self.name.trim().to_owned() }),
            None if per.is_unread() => Err(NoPrice::Unread),
            None => Err(NoPrice::ForHowMuch),
        }
    }
}

impl Ingredient {
    /// The price of the lot that counts ([`Ingredient::counted`]), where one was entered for it; else the one on the card, for
    /// a kilogram. A price that was entered and cannot be read gives no other one in its place.
    ///
    /// # Errors
    /// Why there is none.
    pub fn unit_price(&self, wanted: &str) -> Result<UnitPrice, NoPrice> {
        let counted = self.counted(wanted).map(|one| one.lot.to_owned());
        let lot =
            counted.and_then(|name| self.lots().iter().rev().find(|lot| !lot.is_blank() && lot.name.trim() == name));
        match lot.map(Lot::unit_price) {
            None | Some(Err(NoPrice::Missing)) => {}
            Some(found) => return found,
        }
        let text = self.cell(Field::Price).map_or("", |cell| cell.text);
        let money = Money::read(text).map_err(|_| NoPrice::Unread)?.ok_or(NoPrice::Missing)?;
        Ok(UnitPrice { money, per: Mass::KILOGRAM, lot: String::new() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::IngredientId;
    use crate::shelf::Shelf;

    fn glycerin(card: &str, lots: &[(&str, &str, &str, &str, &str)]) -> Ingredient {
        let id = IngredientId::parse("glycerin").unwrap();
        let mut shelf = Shelf::default();
        shelf.set(&id, Field::Price, card);
        let lot = |(name, received, amount, price, price_for): &(&str, &str, &str, &str, &str)| {
            Lot::of(&[
                (LotField::Name, name),
                (LotField::Received, received),
                (LotField::Amount, amount),
                (LotField::Price, price),
                (LotField::PriceFor, price_for),
            ])
        };
        shelf.keep_lots(&id, lots.iter().map(lot).collect());
        shelf.entry(&id).unwrap()
    }

    fn told(entry: &Ingredient, wanted: &str) -> Result<(String, String, String), NoPrice> {
        entry.unit_price(wanted).map(|price| (price.money.canonical(), price.per.canonical(), price.lot))
    }

    #[test]
    fn price_is_that_of_the_lot_that_counts_else_that_of_the_card() {
        let of = |money: &str, per: &str, lot: &str| Ok((money.to_owned(), per.to_owned(), lot.to_owned()));
        let lots = [("A", "2026-01-02", "500 g", "6 \u{20ac}", ""), ("B", "2026-03-04", "2 kg", "9 \u{20ac}", "1 kg")];
        assert_eq!(told(&glycerin("", &lots), ""), of("9", "1000", "B"), "the newest");
        assert_eq!(told(&glycerin("", &lots), "A"), of("6", "500", "A"), "for the whole lot");
        assert_eq!(told(&glycerin("7.2 \u{20ac}", &[]), ""), of("7.2", "1000", ""));
        assert_eq!(
            told(&glycerin("7", &[("C", "2026-05-06", "1 kg", "", "")]), ""),
            of("7", "1000", ""),
            "its lot has none"
        );
        assert_eq!(told(&glycerin("", &[]), ""), Err(NoPrice::Missing));
        assert_eq!(told(&glycerin("7", &[("C", "", "", "8", "")]), ""), Err(NoPrice::ForHowMuch));
        assert_eq!(told(&glycerin("7", &[("C", "", "1 kg", "eight", "")]), ""), Err(NoPrice::Unread));
        assert_eq!(told(&glycerin("cheap", &[]), ""), Err(NoPrice::Unread));
    }
}
