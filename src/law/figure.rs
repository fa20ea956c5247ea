//! Figures of the law: `0,5 %`, `0.0015%`, `100 mg/kg`, and as what they are reckoned.

use crate::quantity::{Percent, Quantity};

/// A share at the start of a text, and the text behind it.
pub(super) fn share(text: &str) -> Option<(Percent, &str)> {
    let text = text.trim_start().trim_start_matches(['≤', ' ']);
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(text.len());
    let (number, rest) = text.split_at_checked(end)?;
    let number = number.replace(',', ".");
    let rest = rest.trim_start();
    let (unit, rest) = ["%", "mg/kg", "ppm"].iter().find_map(|unit| Some((*unit, rest.strip_prefix(unit)?)))?;
    let rest = rest.strip_prefix('%').unwrap_or(rest);
    let value = Percent::from_canonical(&number).ok()?;
    let value = if unit == "%" { value } else { per_million(value)? };
    Some((value, rest))
}

/// So many parts per million as a share; none if it has more places than a share can hold.
fn per_million(value: Percent) -> Option<Percent> {
    (value.units() % 10_000 == 0).then(|| Percent::from_units(value.units() / 10_000))
}

/// As what a figure is reckoned, at the start of the text behind it: `(as zinc)`, `(acid)`, `of H2O2, present or released`.
pub(super) fn reckoned_as(text: &str) -> Option<(String, &str)> {
    let text = text.trim_start();
    if let Some(inner) = text.strip_prefix('(') {
        let (inner, rest) = inner.split_once(')').unwrap_or((inner, ""));
        return Some((basis(inner)?, rest));
    }
    if let Some(rest) = text.strip_prefix("Retinol Equivalent (RE)").or_else(|| text.strip_prefix("RE")) {
        return Some(("retinol equivalent".to_owned(), rest));
    }
    for open in ["calculated as ", "as ", "of "] {
        if let Some(inner) = text.strip_prefix(open) {
            let end = inner.find(['\n', ';', '(']).unwrap_or(inner.len());
            let end = inner.find(". ").map_or(end, |dot| dot.min(end));
            let (inner, rest) = inner.split_at_checked(end)?;
            return (inner.split(' ').count() <= 5).then(|| (inner.trim().trim_end_matches('.').to_owned(), rest));
        }
    }
    None
}

fn basis(inner: &str) -> Option<String> {
    let inner = inner.trim();
    let open = ["calculated as ", "as a % of ", "as % of ", "as ", "As ", "of "];
    let named = open.iter().find_map(|open| inner.strip_prefix(open));
    let known = ["acid"].contains(&inner).then_some(inner);
    named.or(known).filter(|name| !name.contains("mixture")).map(str::to_owned)
}

/// Whether a share reckoned as that is never more than the share of the substance itself: an acid of its salts and esters,
/// an element or a part of a compound, a base of its salts. Salts reckoned as a salt are not.
pub(super) fn is_a_part(reckoned_as: &str) -> bool {
    const PARTS: [&str; 22] = [
        "acid",
        "thioglycollic acid",
        "etidronic acid",
        "phenol",
        "free SO2",
        "Hg",
        "F",
        "zinc",
        "zirconium",
        "silver",
        "sulphur",
        "strontium",
        "NH3",
        "free base",
        "base",
        "quinine base",
        "chlorhexidine",
        "retinol equivalent",
        "H2O2, present or released",
        "H2O2",
        "AI",
        "Al",
    ];
    PARTS.contains(&reckoned_as)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    // Cells of Annex V/1, III/194, VI/3, III/236, III/12, III/376, III/4, III/26.
    #[test]
    fn figures_of_the_law_are_exact() {
        let read = |text: &str| share(text).map(|(value, rest)| (value.canonical(), rest.to_owned()));
        for (text, value, rest) in [
            ("2.5% (acid)", "2.5", " (acid)"),
            ("100 mg/kg", "0.01", ""),
            ("7,34 %", "7.34", ""),
            ("0.2%%", "0.2", ""),
            ("≤ 0,1 % of H2O2, present or released", "0.1", " of H2O2, present or released"),
            ("0,0015 % Rinse-off products", "0.0015", " Rinse-off products"),
        ] {
            assert_eq!(read(text), Some((value.to_owned(), rest.to_owned())), "{text}");
        }
        for text in ["", "%", "0 15%", "1.2.3%", "3,5 kDa", "acid", "101%", "0.00001 ppm"] {
            assert_eq!(read(text), None, "{text}");
        }
        let of = |text: &str| reckoned_as(text).map(|(basis, rest)| (basis, rest.to_owned()));
        for (text, basis, rest) in [
            (" (acid)", "acid", ""),
            ("(as NH3)", "NH3", ""),
            (" (0,2 as x", "", ""),
            (" of H2O2, present or released", "H2O2, present or released", ""),
            (" RE", "retinol equivalent", ""),
            (" calculated as F. When mixed with", "F", ". When mixed with"),
            ("(of Hg)\nIf mixed", "Hg", "\nIf mixed"),
        ] {
            let expected = (!basis.is_empty()).then(|| (basis.to_owned(), rest.to_owned()));
            assert_eq!(of(text), expected, "{text}");
        }
    }

    proptest! {
        #[test]
        fn figures_of_any_text_never_panic(text in "[0-9,.% mgkp/()asof]{0,30}|.{0,30}") {
            let _ = share(&text).map(|(_, rest)| reckoned_as(rest).is_some());
            let _ = reckoned_as(&text);
        }
    }
}
