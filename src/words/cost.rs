//! What is said of what a batch costs.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{DecimalSign, number};
use crate::facts::minor_places;
use crate::quantity::{Decimal, Money, NoMoney, Percent, Quantity};
use crate::sheet::{Cost, CostField, NoCost, SwapCost};
use crate::shelf::NoPrice;

pub const TITLE: &str = "Cost";
pub const NOTHING: &str = "No price is known yet. Open an ingredient on the shelf, add a lot, and enter what you paid and for how much; or enter the price of 1\u{202f}kg. For water from the tap enter 0.";
pub const MORE: &str = "Packs, time and margin";
pub const PACK_COST: &str = "One empty pack costs";
pub const MINUTES: &str = "Working time, minutes";
pub const RATE: &str = "One hour costs";
pub const MARGIN: &str = "Margin, of the price";
pub const MARGIN_SAYS: &str =
    "The margin is what is left of the selling price once everything here is paid. Taxes and fees are not counted.";
pub const PER_BATCH: &str = "The batch";
pub const PER_JAR: &str = "One jar";
pub const PER_100G: &str = "100\u{202f}g";
pub const JAR_PRICE: &str = "Price of a jar";
pub const PRICE_100G: &str = "Price of 100\u{202f}g";
pub const PARTIAL: &str = "Partial: what follows is without a price, so each sum is at least this much.";
pub const LYE: &str = "The lye: its alkali and water have no price here.";
pub const PACKAGING: &str = "Packs";
pub const WORK: &str = "Time";
pub const FROM_CARD: &str = "price on its card";
pub const PRICE_HINT: &str = "Any currency, such as 12.50 EUR.";

/// A sum with its currency.
pub fn money(money: &Money, sign: DecimalSign) -> String {
    with_currency(&money.shown(minor_places(&money.currency)), money, sign)
}

/// The price of so much with its currency.
pub fn per_unit(money: &Money, sign: DecimalSign) -> String {
    with_currency(&money.shown_per_unit(minor_places(&money.currency)), money, sign)
}

fn with_currency(shown: &str, money: &Money, sign: DecimalSign) -> String {
    let shown = number(shown, sign);
    if money.currency.is_empty() { shown } else { format!("{shown}\u{202f}{}", money.currency) }
}

/// A sum of which not all is known.
pub fn sum(of: &Money, cost: &Cost, sign: DecimalSign) -> String {
    of_cost(money(of, sign), cost)
}

/// The price of so much of which not all is known.
pub fn sum_per_unit(of: &Money, cost: &Cost, sign: DecimalSign) -> String {
    of_cost(per_unit(of, sign), cost)
}

fn of_cost(shown: String, cost: &Cost) -> String {
    if cost.is_complete() { shown } else { format!("at least {shown}") }
}

/// Why a text is no sum of money; nothing where it is one or nothing was typed.
pub fn money_note(text: &str) -> String {
    let why = match Money::read(text) {
        Ok(_) => return String::new(),
        Err(NoMoney::Ambiguous) => "could be one or a thousand. Write 1234 or 1.2340",
        Err(NoMoney::Currency) => "has more than one currency. Write one, such as 12.50 EUR",
        Err(NoMoney::Number(_)) => "is not a price. Write a sum in any currency, such as 12.50 EUR",
    };
    format!("\u{201c}{}\u{201d} {why}.", text.trim().chars().take(40).collect::<String>())
}

/// Why a line has no cost.
pub const fn no_cost(why: NoCost) -> &'static str {
    match why {
        NoCost::NotOnShelf => "not on the shelf",
        NoCost::OtherCurrency => "in another currency",
        NoCost::Price(NoPrice::Missing) => "no price",
        NoCost::Price(NoPrice::Unread) => "its price or the amount that it is for cannot be read",
        NoCost::Price(NoPrice::ForHowMuch) => "a price, but not for how much",
    }
}

/// Lines that have no cost: those of one reason together.
pub fn without(lines: &[(String, NoCost)]) -> Vec<String> {
    let mut told: Vec<(NoCost, String)> = Vec::new();
    for (name, why) in lines {
        match told.iter_mut().find(|(known, _)| known == why) {
            Some((_, names)) => *names = format!("{names}, {name}"),
            None => told.push((*why, name.clone())),
        }
    }
    told.into_iter().map(|(why, names)| format!("{names}: {}.", no_cost(why))).collect()
}

/// What it costs beside its materials, within a sentence.
pub(super) const fn field(field: CostField) -> &'static str {
    match field {
        CostField::Pack => "the cost of a pack",
        CostField::Minutes => "the working time",
        CostField::Rate => "the cost of an hour",
        CostField::Margin => "the margin",
    }
}

/// Something that was entered and does not count.
pub fn not_counted(of: CostField) -> String {
    let why = match of {
        CostField::Pack => "it cannot be read, is in another currency, or the batch is not planned by jars",
        CostField::Rate => "it cannot be read, is in another currency, or the working time is missing",
        CostField::Minutes => "it cannot be read, or the cost of an hour is missing",
        CostField::Margin => "it cannot be read, or is all of the price",
    };
    format!("Not counted, {}: {why}.", field(of))
}

/// What of the cost a line is, as a figure beside its bar.
pub fn line(of: &Money, cost: &Cost, sign: DecimalSign) -> String {
    match cost.share(of) {
        Some(share) => format!("{} ({})", money(of, sign), percent(share, sign)),
        None => money(of, sign),
    }
}

/// The picture in words: what costs most, and how much of all that is known.
pub fn picture(rows: &[(String, Money)], cost: &Cost, sign: DecimalSign) -> String {
    let told = |(name, of): &(String, Money)| format!("{name} {}", line(of, cost, sign));
    let most = rows.first().map(|(name, _)| format!("{name} costs most. ")).unwrap_or_default();
    format!("{most}{}.", rows.iter().map(told).collect::<Vec<_>>().join(", "))
}

/// What a swap does to the cost of a kilogram.
pub fn swapped(cost: &SwapCost, sign: DecimalSign) -> String {
    let (before, after) = (per_unit(&cost.before, sign), per_unit(&cost.after, sign));
    let change = cost.after.micros.saturating_sub(cost.before.micros);
    if change == 0 {
        return format!("A kilogram costs {after}, as before.");
    }
    let by = Money { micros: change.saturating_abs(), currency: cost.after.currency.clone() };
    let how = if change > 0 { "more" } else { "less" };
    format!("A kilogram costs {after} instead of {before}: {} {how}.", per_unit(&by, sign))
}

fn percent(share: Percent, sign: DecimalSign) -> String {
    format!("{}\u{202f}%", number(&Decimal::new(share.units(), Percent::PLACES).rounded(1).canonical(), sign))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn euros(text: &str) -> Money {
        Money::read(text).unwrap().unwrap()
    }

    #[test]
    fn lines_of_one_reason_stand_together() {
        let lines = [("Water", NoCost::NotOnShelf), ("Shea", NoCost::OtherCurrency), ("Salt", NoCost::NotOnShelf)];
        let lines = lines.map(|(name, why)| (name.to_owned(), why));
        assert_eq!(without(&lines), ["Water, Salt: not on the shelf.", "Shea: in another currency."]);
    }

    #[test]
    fn cost_of_a_swap_is_told_as_more_less_or_the_same() {
        let told = |before: &str, after: &str| {
            swapped(&SwapCost { before: euros(before), after: euros(after) }, DecimalSign::Comma)
        };
        assert_eq!(
            told("60 EUR", "14 EUR"),
            "A kilogram costs 14,00\u{202f}EUR instead of 60,00\u{202f}EUR: 46,00\u{202f}EUR less."
        );
        assert!(told("14", "14.5").ends_with("0,50 more."));
        assert!(told("14", "14").ends_with("as before."));
    }

    #[test]
    fn price_that_cannot_be_read_is_told_with_what_to_write() {
        assert_eq!(money_note("12.50 EUR"), "");
        assert_eq!(money_note(""), "");
        for bad in ["cheap", "1.234", "EUR 3 kr", "-2"] {
            assert!(money_note(bad).contains("Write"), "{bad}");
        }
    }
}
