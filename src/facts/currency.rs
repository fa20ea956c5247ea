//! Into how many decimal places a currency is divided: `data/currencies.csv`, which has those that are not divided into
//! hundredths.

use std::sync::LazyLock;

use super::{CsvTable, Provenance, RowProblem};

/// Places of every other currency, and of sums beside which none stands.
const USUAL: u32 = 2;

struct Currency {
    code: &'static str,
    /// How it is written, too; empty where that is the sign of other currencies as well.
    sign: &'static str,
    places: u32,
}

/// Decimal places of a currency's smallest coin or unit of account, by its code or its sign.
pub fn minor_places(currency: &str) -> u32 {
    let is = |text: &str| !text.is_empty() && text.eq_ignore_ascii_case(currency);
    CURRENCIES.0.iter().find(|row| is(row.code) || is(row.sign)).map_or(USUAL, |row| row.places)
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/currencies.csv")));
static CURRENCIES: LazyLock<(Vec<Currency>, Vec<RowProblem>)> = LazyLock::new(|| {
    TABLE.parse(|row| {
        Provenance::read(row, "seen")?;
        row.get("source")?;
        let text = row.get("minor_places")?;
        let places = text.parse().ok().filter(|places| *places <= 4 && *places != USUAL);
        let places = places.ok_or_else(|| row.wrong_cell("minor_places", text, "0, 1, 3 or 4"))?;
        Ok(Currency { code: row.get("code")?, sign: row.get("sign")?, places })
    })
});

#[cfg(test)]
mod tests {
    use super::*;

    // Source: list one of ISO 4217 as the package iso4217 1.16 of the Python index carries it.
    #[test]
    fn currencies_are_divided_as_the_standard_says() {
        assert!(CURRENCIES.1.is_empty());
        assert_eq!(CURRENCIES.0.len(), 17 + 7 + 2, "without, in thousandths, in ten thousandths");
        for (currency, places) in [
            ("JPY", 0),
            ("krw", 0),
            ("ISK", 0),
            ("KWD", 3),
            ("TND", 3),
            ("CLF", 4),
            ("EUR", 2),
            ("SEK", 2),
            ("\u{20ac}", 2),
            ("\u{20a9}", 0),
            ("\u{a5}", 2),
            ("", 2),
        ] {
            assert_eq!(minor_places(currency), places, "{currency}");
        }
    }
}
