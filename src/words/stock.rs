//! What is said of stock: of a lot, of what is low or ends soon, of what a batch still needs, of what can be made.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{DecimalSign, grams, with_unit};
use crate::batch::{CanMake, LotStock, Low, MaterialStock, ToBuy, days_left};
use crate::facts::craft;
use crate::quantity::{Day, Mass};
use crate::shelf::LotField;

pub const STOCK: &str = "Stock";
pub const LOW: &str = "Low";
pub const ENDING: &str = "Ends soon";
pub const READING: &str = "Looking through the records of your batches\u{2026}";
pub const EMPTY: &str = "Stock is counted lot by lot. Open an ingredient, add a lot and enter how much was delivered; what batches weigh from that lot is taken off by itself.";
pub const CAN_MAKE: &str = "What you can make";
pub const CAN_MAKE_SAYS: &str = "Per formula, as far as amounts are entered. Lots past their day are left out; so are the lye of a soap and what sets the pH.";
pub const NOT_COUNTED: &str = "Not taken off any lot: what is left over of a premix, what was weighed or dosed without naming a lot, and what was thrown away before it was weighed.";
pub const NO_FORMULA: &str = "No formula is kept here yet.";
pub const SHOPPING: &str = "Shopping list";
pub const SHOPPING_EMPTY: &str =
    "Once amounts in stock are entered on the shelf, what this batch still needs is listed here.";
pub const ALL_THERE: &str = "All that is known of is there for this batch.";
pub const INGREDIENT: &str = "Ingredient";
pub const NEEDED: &str = "Needed";
pub const THERE: &str = "In stock";
pub const TO_BUY: &str = "To buy";
pub const UNKNOWN: &str = "not entered";
pub const TRACE: &str = "Where this lot went";
pub const TYPED_DAY: &str = "This is not a day. Write it as 2026-05-03.";
pub const UNTITLED_LOT: &str = "a lot without a name";

/// What a field of a lot is called.
pub const fn lot_field(field: LotField) -> &'static str {
    match field {
        LotField::Name => super::page::LOT,
        LotField::Date => super::page::LOT_DATE,
        LotField::Statement => super::page::LOT_STATEMENT,
        LotField::Supplier => "Supplier",
        LotField::Received => "Received",
        LotField::Opened => "Opened",
        LotField::Expiry => "Good until",
        LotField::Document => "Documents, by name and date",
        LotField::Amount => "Delivered",
        LotField::Price => "Price paid, with its currency",
        LotField::PriceFor => "Price is for, if not the whole lot",
        LotField::AfterOpening => "Good after opening, in months",
    }
}

/// How a lot stands.
pub fn left(lot: &LotStock, sign: DecimalSign) -> String {
    match (lot.delivered, lot.left()) {
        (Some(delivered), Some(left)) if left < Mass::ZERO => format!(
            "Batches weighed {} from it, {} more than was delivered. Check the lot in their records, or what was delivered.",
            grams(lot.used, sign),
            grams(lot.used.minus(delivered), sign)
        ),
        (Some(delivered), Some(left)) => {
            format!(
                "{} left of {}; batches weighed {}.",
                grams(left, sign),
                grams(delivered, sign),
                grams(lot.used, sign)
            )
        }
        _ if lot.used > Mass::ZERO => {
            format!(
                "Batches weighed {} from it. Enter what was delivered, and the rest is counted.",
                grams(lot.used, sign)
            )
        }
        _ => String::new(),
    }
}

/// What of an ingredient was weighed from no lot that the shelf has.
pub fn from_none(stock: &MaterialStock, sign: DecimalSign) -> Option<String> {
    (stock.from_none > Mass::ZERO).then(|| {
        format!(
            "Batches weighed {} without a lot that stands here; that is taken off none.",
            grams(stock.from_none, sign)
        )
    })
}

/// How an ingredient stands, for a row of the list.
pub fn row(stock: &MaterialStock, on: Option<Day>, sign: DecimalSign) -> Option<String> {
    let there = stock.usable(on)?;
    let left = |lot: &&LotStock| lot.left().is_some_and(|left| left > Mass::ZERO);
    let lots = stock.lots.iter().filter(left).count();
    let first = stock.lots.iter().filter(left).filter_map(|lot| lot.expires).min();
    let several = (lots > 1).then(|| format!("{lots} lots"));
    let ends = first.map(|day| {
        let past = on.is_some_and(|on| days_left(day, on).is_none());
        format!(
            "{} {day}",
            if past {
                "ended"
            } else if lots > 1 {
                "first ends"
            } else {
                "ends"
            }
        )
    });
    Some([Some(grams(there, sign)), several, ends].into_iter().flatten().collect::<Vec<_>>().join(" \u{b7} "))
}

/// Where nothing is low and nothing ends soon.
pub fn nothing_low() -> String {
    format!("Nothing is low, and no lot ends within {} days.", craft().ends_soon)
}

/// Why an ingredient is low.
pub fn low(name: &str, low: Low, there: Mass, sign: DecimalSign) -> String {
    match low {
        Low::Nothing => format!("{name}: nothing left that can be used"),
        Low::UnderPlan(needed) => {
            format!("{name}: {} left; the planned batch needs {}", grams(there, sign), grams(needed, sign))
        }
        Low::Little => format!(
            "{name}: {} left, less than {} of what was delivered",
            grams(there, sign),
            with_unit(craft().low_stock, "%", sign)
        ),
    }
}

/// A lot that ends soon, or has.
pub fn ends(name: &str, lot: &str, expires: Day, on: Day) -> String {
    let lot = if lot.is_empty() { UNTITLED_LOT.to_owned() } else { format!("lot {lot}") };
    let when = match days_left(expires, on) {
        None => format!("ended on {expires}; do not use it without asking its supplier"),
        Some(0) => "ends today".to_owned(),
        Some(1) => "ends tomorrow".to_owned(),
        Some(days) => format!("ends on {expires}, in {days} days"),
    };
    format!("{name}, {lot}: {when}")
}

/// The cells of a row of the shopping list: needed, in stock, to buy.
pub fn to_buy(row: &ToBuy, sign: DecimalSign) -> [String; 3] {
    let there = row.there.map_or_else(|| UNKNOWN.to_owned(), |there| grams(there, sign));
    let missing = match row.missing() {
        None => "?".to_owned(),
        Some(Mass::ZERO) => "\u{2013}".to_owned(),
        Some(missing) => grams(missing, sign),
    };
    [grams(row.need.mass, sign), there, missing]
}

/// What is missing in all, in a sentence.
pub fn missing(list: &[ToBuy]) -> String {
    let short = list.iter().filter(|row| row.missing().is_some_and(|mass| mass > Mass::ZERO)).count();
    let unknown = list.iter().filter(|row| row.there.is_none()).count();
    let known = match short {
        0 => ALL_THERE.to_owned(),
        1 => "1 ingredient runs short.".to_owned(),
        many => format!("{many} ingredients run short."),
    };
    match unknown {
        0 => known,
        1 => format!("{known} Of 1 ingredient it is not entered how much there is."),
        many => format!("{known} Of {many} ingredients it is not entered how much there is."),
    }
}

/// How much of a formula can be made.
pub fn can_make(made: &CanMake, sign: DecimalSign) -> String {
    let unknown = match made.unknown.len() {
        0 => String::new(),
        1 => format!(" Not entered: {}.", made.unknown.join(", ")),
        many if many <= 3 => format!(" Not entered: {}.", made.unknown.join(", ")),
        many => format!(
            " Not entered: {} and {} more.",
            made.unknown.iter().take(2).cloned().collect::<Vec<_>>().join(", "),
            many - 2
        ),
    };
    match made.batch {
        None => "Not known: no amount of its ingredients is entered.".to_owned(),
        Some(Mass::ZERO) => format!("None: {} has run out.{unknown}", made.first_out),
        Some(batch) => format!("Up to {}; {} runs out first.{unknown}", grams(batch, sign), made.first_out),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    fn mass(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    #[test]
    fn lot_is_told_with_what_is_left_or_what_is_odd() {
        let lot = |delivered: Option<&str>, used: &str| LotStock {
            lot: "A".into(),
            delivered: delivered.map(mass),
            used: mass(used),
            expires: None,
        };
        let told = |lot: LotStock| left(&lot, DecimalSign::Point).replace('\u{202f}', " ");
        assert_eq!(told(lot(Some("500"), "120")), "380 g left of 500 g; batches weighed 120 g.");
        assert!(told(lot(Some("500"), "600")).contains("100 g more than was delivered"));
        assert!(told(lot(None, "5")).contains("Enter what was delivered"));
        assert_eq!(told(lot(None, "0")), "");
    }

    #[test]
    fn end_of_a_lot_is_told_in_days() {
        let on = Day::read("2026-11-30").unwrap();
        let told = |day: &str| ends("Shea butter", "S1", Day::read(day).unwrap(), on);
        assert_eq!(told("2026-12-20"), "Shea butter, lot S1: ends on 2026-12-20, in 20 days");
        assert!(told("2026-11-30").ends_with("ends today") && told("2026-12-01").ends_with("ends tomorrow"));
        assert!(told("2026-11-29").contains("ended on 2026-11-29; do not use it without asking"));
    }

    #[test]
    fn what_can_be_made_is_told_with_what_is_not_known() {
        let made = |batch: Option<&str>, unknown: &[&str]| CanMake {
            batch: batch.map(mass),
            first_out: "Glycerin".into(),
            unknown: unknown.iter().map(|name| (*name).to_owned()).collect(),
        };
        let told = |made: &CanMake| can_make(made, DecimalSign::Point).replace('\u{202f}', " ");
        assert_eq!(told(&made(Some("500"), &["Water"])), "Up to 500 g; Glycerin runs out first. Not entered: Water.");
        assert_eq!(told(&made(Some("0"), &[])), "None: Glycerin has run out.");
        assert!(told(&made(Some("1"), &["A", "B", "C", "D"])).ends_with("Not entered: A, B and 2 more."));
        assert!(told(&made(None, &["Water"])).starts_with("Not known"));
    }
}
