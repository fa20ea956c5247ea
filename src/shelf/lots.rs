//! Lots of one material: what a supplier states may differ from lot to lot, so a statement belongs to one of them.
//!
//! The card of an ingredient has one statement and one lot of its own ([`Field::AllergenStatement`], [`Field::Lot`]); any
//! number of further lots stand beside it. Which of them counts a formula says line by line; where it says nothing, the
//! newest does.

use crate::facts::{Field, IngredientId, Months};
use crate::quantity::{Day, Mass, Typed};
use crate::shelf::{Ingredient, Shelf};

/// One lot of a material, as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Lot {
    /// What the supplier calls it.
    pub name: String,
    /// The day of its statement, `2026-05-03`; anything else counts as no day.
    pub date: String,
    /// What its supplier states that it holds.
    pub statement: String,
    /// The others, in the order of [`LotField`].
    stock: [String; 9],
}

/// One text of a lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LotField {
    /// [`Lot::name`].
    Name,
    /// [`Lot::date`].
    Date,
    /// [`Lot::statement`].
    Statement,
    /// Who sold it.
    Supplier,
    /// The day on which it came, as the day of its statement.
    Received,
    /// The day on which it was opened.
    Opened,
    /// The day up to which it is good, that day with it.
    Expiry,
    /// The papers that came with it, by name.
    Document,
    /// How much was delivered: a [`Mass`].
    Amount,
    /// What was paid for it: a [`crate::quantity::Money`].
    Price,
    /// For how much that was paid, where it is not the whole lot: a [`Mass`].
    PriceFor,
    /// For how long it is good once it is opened: [`Months`].
    AfterOpening,
}

impl LotField {
    /// All, in the order of a card.
    pub const ALL: [Self; 12] = [
        Self::Name,
        Self::Date,
        Self::Statement,
        Self::Supplier,
        Self::Received,
        Self::Opened,
        Self::Expiry,
        Self::Document,
        Self::Amount,
        Self::Price,
        Self::PriceFor,
        Self::AfterOpening,
    ];

    /// Its place among those that came with the keeping of stock, from [`Self::Supplier`] on.
    const fn in_stock(self) -> Option<usize> {
        (self as usize).checked_sub(Self::Supplier as usize)
    }

    /// Its key in files. Never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Name => "lot",
            Self::Date => "date",
            Self::Statement => "allergen_statement",
            Self::Supplier => "supplier",
            Self::Received => "received",
            Self::Opened => "opened",
            Self::Expiry => "expiry",
            Self::Document => "document",
            Self::Amount => "amount",
            Self::Price => "price",
            Self::PriceFor => "price_for",
            Self::AfterOpening => "after_opening",
        }
    }
}

impl Lot {
    /// A lot of these texts.
    pub fn of(texts: &[(LotField, &str)]) -> Self {
        let mut lot = Self::default();
        for (field, text) in texts {
            lot.set(*field, (*text).to_owned());
        }
        lot
    }

    /// One of its texts.
    pub fn text(&self, field: LotField) -> &str {
        match field {
            LotField::Name => &self.name,
            LotField::Date => &self.date,
            LotField::Statement => &self.statement,
            _ => field.in_stock().and_then(|place| self.stock.get(place)).map_or("", String::as_str),
        }
    }

    /// Keeps one of its texts.
    pub fn set(&mut self, field: LotField, text: String) {
        let at = match field {
            LotField::Name => Some(&mut self.name),
            LotField::Date => Some(&mut self.date),
            LotField::Statement => Some(&mut self.statement),
            _ => field.in_stock().and_then(|place| self.stock.get_mut(place)),
        };
        if let Some(at) = at {
            *at = text;
        }
    }

    /// True if nothing was entered: such a lot counts nowhere.
    pub fn is_blank(&self) -> bool {
        LotField::ALL.iter().all(|field| self.text(*field).trim().is_empty())
    }

    /// True if something was entered that came with the keeping of stock.
    pub fn has_stock(&self) -> bool {
        self.stock.iter().any(|text| !text.is_empty())
    }

    /// The day of its statement, else the one on which it came, if either can be read.
    pub fn day(&self) -> Option<Day> {
        Day::read(self.date.trim()).or_else(|| Day::read(self.text(LotField::Received).trim()))
    }

    /// The day up to which it is good, if it can be read.
    pub fn expires(&self) -> Option<Day> {
        Day::read(self.text(LotField::Expiry).trim())
    }

    /// The day on which it was opened and for how many months it is good from then on, if both can be read.
    pub fn opened(&self) -> Option<(Day, Months)> {
        let months = Typed::<Months>::new(self.text(LotField::AfterOpening)).value()?;
        Some((Day::read(self.text(LotField::Opened).trim())?, months))
    }

    /// The day up to which it is good as it stands there, opened or not: the earlier of its own end and the one that follows
    /// from its opening. `None` if neither is known.
    pub fn keeps_until(&self) -> Option<Day> {
        let opened = self.opened().map(|(day, months)| months.after(day));
        self.expires().into_iter().chain(opened).min()
    }

    /// How much was delivered, if it can be read.
    pub fn delivered(&self) -> Option<Mass> {
        Typed::<Mass>::new(self.text(LotField::Amount)).value()
    }
}

/// The lot that counts, and what its supplier states of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counted<'a> {
    /// What it is called; empty if the statement names no lot.
    pub lot: &'a str,
    /// Its day, if one was entered.
    pub day: Option<Day>,
    /// What is stated; none if nothing was entered for this lot.
    pub statement: Option<&'a str>,
    /// True if the formula names it; else it is the newest.
    pub chosen: bool,
    /// How many lots there are to choose from.
    pub of: usize,
}

impl Ingredient {
    /// Every lot of which something is stated or that the maker entered beside the card's: first the card's, where the
    /// card has a statement, then every further one with a name, a day or a statement. A name alone on the card is none.
    pub fn counted_lots(&self) -> Vec<Counted<'_>> {
        let stated = self.text(Field::AllergenStatement).map(|text| text.value);
        let lot = self.text(Field::Lot).map_or("", |text| text.value);
        let one = |lot, day, statement| Counted { lot, day, statement, chosen: false, of: 0 };
        let card = stated.map(|stated| one(lot, None, Some(stated)));
        let further = self.lots().iter().filter(|lot| !lot.is_blank()).map(|lot| {
            let statement = Some(lot.statement.trim()).filter(|text| !text.is_empty());
            one(lot.name.trim(), lot.day(), statement)
        });
        let mut all: Vec<Counted<'_>> = card.into_iter().chain(further).collect();
        let of = all.len();
        all.iter_mut().for_each(|one| one.of = of);
        all
    }

    /// The lot that counts: the one that is wanted by name, else the one of the latest day; of several of one day or without
    /// a day the one that was entered last. None if nothing was ever entered.
    ///
    /// A newest lot without a statement counts, too, and so does a wanted one that is not there: an older lot says nothing
    /// of it.
    pub fn counted<'a>(&'a self, wanted: &'a str) -> Option<Counted<'a>> {
        let wanted = wanted.trim();
        let all = self.counted_lots();
        let of = all.len();
        let mut found: Option<Counted<'a>> = None;
        for one in all.into_iter().filter(|one| wanted.is_empty() || one.lot == wanted) {
            if found.is_none_or(|known| one.day >= known.day) {
                found = Some(one);
            }
        }
        match found {
            Some(one) => Some(Counted { chosen: !wanted.is_empty(), ..one }),
            None if wanted.is_empty() => None,
            None => Some(Counted { lot: wanted, day: None, statement: None, chosen: true, of }),
        }
    }
}

impl Shelf {
    /// The lots beside the one of the card, in the order in which they were entered.
    pub fn lots_of(&self, id: &IngredientId) -> &[Lot] {
        self.lots.get(id).map_or(&[], Vec::as_slice)
    }

    /// Every ingredient that has such lots, sorted by id.
    pub fn lots(&self) -> impl Iterator<Item = (&IngredientId, &[Lot])> {
        self.lots.iter().map(|(id, lots)| (id, lots.as_slice()))
    }

    /// One more lot, still blank. Gives `false` if the ingredient is not known.
    pub fn add_lot(&mut self, id: &IngredientId) -> bool {
        let known = self.knows(id);
        if known {
            self.lots.entry(id.clone()).or_default().push(Lot::default());
        }
        known
    }

    /// Keeps a text of the `n`th lot, as typed. Gives `false` and does nothing if there is no such lot.
    pub fn set_lot(&mut self, id: &IngredientId, n: usize, field: LotField, text: String) -> bool {
        let lot = self.lots.get_mut(id).and_then(|lots| lots.get_mut(n));
        lot.map(|lot| lot.set(field, text)).is_some()
    }

    /// Away with the `n`th lot. Gives `false` if there is none.
    pub fn remove_lot(&mut self, id: &IngredientId, n: usize) -> bool {
        let Some(lots) = self.lots.get_mut(id).filter(|lots| n < lots.len()) else { return false };
        lots.remove(n);
        if lots.is_empty() {
            self.lots.remove(id);
        }
        true
    }

    /// The same shelf with these lots of an ingredient in the place of those that it has; blank ones are left out.
    pub fn keep_lots(&mut self, id: &IngredientId, lots: Vec<Lot>) {
        self.put_lots(id, lots.into_iter().filter(|lot| !lot.is_blank()).collect());
    }

    pub(super) fn put_lots(&mut self, id: &IngredientId, lots: Vec<Lot>) {
        if lots.is_empty() {
            self.lots.remove(id);
        } else {
            self.lots.insert(id.clone(), lots);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lot(name: &str, date: &str, statement: &str) -> Lot {
        Lot { name: name.into(), date: date.into(), statement: statement.into(), ..Lot::default() }
    }

    fn lavender(card: &[(Field, &str)], lots: &[Lot]) -> Ingredient {
        let id = IngredientId::parse("lavender-essential-oil").unwrap();
        let mut shelf = Shelf::default();
        for (field, text) in card {
            shelf.set(&id, *field, *text);
        }
        for (n, lot) in lots.iter().enumerate() {
            shelf.add_lot(&id);
            for field in LotField::ALL {
                shelf.set_lot(&id, n, field, lot.text(field).to_owned());
            }
        }
        shelf.entry(&id).unwrap()
    }

    #[test]
    fn lots_days_are_days_of_the_calendar_as_text() {
        for (date, day) in [
            ("2026-05-03", "2026-05-03"),
            (" 2026-12-31 ", "2026-12-31"),
            ("2026-13-01", ""),
            ("2026-00-01", ""),
            ("2026-1-1", ""),
            ("2026-01-32", ""),
            ("2026-02-30", ""),
            ("2026-01-01-", ""),
            ("3 May", ""),
            ("", ""),
        ] {
            assert_eq!(lot("A", date, "").day().map_or(String::new(), Day::text), day, "{date}");
        }
    }

    #[test]
    fn lots_the_newest_counts_unless_one_is_wanted() {
        let card = [(Field::AllergenStatement, "Linalool 30"), (Field::Lot, "L1")];
        let lots = [lot("L3", "2026-05-03", "Linalool 33"), lot("L2", "2025-01-01", "Linalool 32"), Lot::default()];
        let entry = lavender(&card, &lots);
        let of = |wanted| entry.counted(wanted).map(|one| (one.lot, one.statement, one.chosen, one.of)).unwrap();
        assert_eq!(of(""), ("L3", Some("Linalool 33"), false, 3), "a blank lot is none");
        assert_eq!(of(" L2 "), ("L2", Some("Linalool 32"), true, 3));
        assert_eq!(of("L1"), ("L1", Some("Linalool 30"), true, 3));
        assert_eq!(of("L9"), ("L9", None, true, 3), "nothing is known of a lot that is not there");
    }

    #[test]
    fn lots_the_card_alone_counts_as_it_always_did() {
        let entry = lavender(&[(Field::AllergenStatement, "Linalool 30")], &[]);
        let one = entry.counted("").unwrap();
        assert_eq!((one.lot, one.day, one.statement, one.of), ("", None, Some("Linalool 30"), 1));
        assert_eq!(lavender(&[(Field::Lot, "L1")], &[]).counted(""), None);
    }

    #[test]
    fn lots_a_newer_lot_without_a_statement_hides_the_older_one() {
        let entry = lavender(&[(Field::AllergenStatement, "Linalool 30")], &[lot("L2", "2026-05-03", " ")]);
        let one = entry.counted("").unwrap();
        assert_eq!((one.lot, one.statement), ("L2", None));
        let entry = lavender(&[], &[lot("A", "", "Linalool 1"), lot("B", "someday", "Linalool 2")]);
        assert_eq!(entry.counted("").unwrap().lot, "B", "of those without a day the last");
    }

    #[test]
    fn shelf_lots_are_kept_beside_the_card_and_go_with_an_own_entry() {
        let mut shelf = Shelf::default();
        let water = IngredientId::parse("water").unwrap();
        assert!(shelf.add_lot(&water) && shelf.set_lot(&water, 0, LotField::Name, "A".into()));
        assert!(
            !shelf.set_lot(&water, 1, LotField::Name, "B".into())
                && !shelf.add_lot(&IngredientId::parse("no-such-thing").unwrap())
        );
        assert_eq!(shelf.entry(&water).unwrap().lots()[0].name, "A");
        let mut other = shelf.clone();
        other.set_lot(&water, 0, LotField::Statement, "Citral 1".into());
        other.add_lot(&water);
        other.set_lot(&water, 1, LotField::Name, "B".into());
        let joined = shelf.joined(&other);
        let kept: Vec<_> =
            joined.lots_of(&water).iter().map(|lot| (lot.name.as_str(), lot.statement.as_str())).collect();
        assert_eq!(kept, [("A", ""), ("B", "")], "of two lots of one name and day this shelf's stays");
        assert!(shelf.remove_lot(&water, 0) && !shelf.remove_lot(&water, 0));
        assert_eq!(shelf, Shelf::default());
        let own = shelf.add_own("Rose");
        assert!(shelf.add_lot(&own) && shelf.remove_own(&own));
        assert_eq!(shelf, Shelf::default());
    }
}
