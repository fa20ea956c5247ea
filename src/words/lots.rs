//! What is said of lots, and of what was read from the papers that a supplier sends with them.

use super::safety::ended;
use super::{DecimalSign, number, page};
use crate::quantity::{Percent, Quantity};
use crate::sheet::UsedLot;
use crate::shelf::{Certificate, Composition, Contained, Counted};

/// Which lots count, by the name of their material.
pub fn lots(lots: &[UsedLot]) -> String {
    if lots.is_empty() {
        return "no lot".to_owned();
    }
    lots.iter().map(|used| format!("{}, {}", ended(&used.material), ended(&lot(used)))).collect::<Vec<_>>().join("; ")
}

/// One lot: what it is called, its day, why it is this one.
pub fn lot(used: &UsedLot) -> String {
    let mut text =
        if used.name.is_empty() { "a statement without a lot number".to_owned() } else { format!("lot {}", used.name) };
    if let Some(day) = used.day {
        text += &format!(" of {}", day.text());
    }
    if used.chosen {
        text += ", chosen for this formula";
    } else if used.of > 1 {
        text += &format!(", the newest of {}", used.of);
    }
    if !used.stated {
        text += ", with no statement entered";
    }
    text
}

/// One lot of a material among those to choose from.
pub fn lot_choice(one: &Counted<'_>) -> String {
    let used = UsedLot {
        line: crate::formula::LineId::of(0),
        material: String::new(),
        name: one.lot.to_owned(),
        day: one.day,
        chosen: false,
        of: 1,
        stated: one.statement.is_some(),
    };
    lot(&used)
}

/// The choice to take whichever is the newest; which one that is stands behind it.
pub fn newest_lot(one: &Counted<'_>) -> String {
    format!("the newest: {}", lot_choice(one))
}

/// A lot that the formula names and the shelf does not have.
pub fn missing_lot(name: &str) -> String {
    format!("lot {name}, which is not on the shelf")
}

/// The end of a list of which only the beginning is shown.
pub fn and_more(count: usize) -> String {
    format!("\u{2026} and {count} more")
}

/// What was read from a supplier's statement, in one sentence.
pub fn composition_read(read: &Composition) -> String {
    let known = read.recognised().count();
    let allergens = read.recognised().filter(|item| item.allergen().is_some()).count();
    format!("Substances read: {known}; of these, allergens that labels may have to name: {allergens}.")
}

/// One substance of a statement: its share, and its name on labels if it is an allergen, or that it is none.
pub fn contained(item: &Contained, sign: DecimalSign) -> String {
    let share = |part: crate::quantity::Percent| number(&part.canonical(), sign);
    let range = if item.low == item.high {
        share(item.high)
    } else {
        format!("{}\u{2013}{}", share(item.low), share(item.high))
    };
    let label = match (item.allergen(), item.known()) {
        (Some(row), _) => format!(" \u{2013} {}{}", page::ON_LABELS, row.name),
        (None, Some(_)) => format!(" \u{2013} {}", page::NO_ALLERGEN),
        (None, None) => String::new(),
    };
    format!("{}: {range}\u{202f}%{label}", item.name)
}

/// What was read from a supplier's certificate, in one sentence, and which of it counts for a product of this category.
pub fn certificate_read(read: &Certificate, category: &str, sign: DecimalSign) -> String {
    let what = format!("Limits read: {}.", read.limits.len());
    match read.limit(category) {
        Some(limit) if read.unread.is_empty() => {
            format!("{what} For the open formula (category {category}), {} counts.", percent(limit, sign))
        }
        Some(limit) => format!(
            "{what} For the open formula (category {category}), {} would count, but only once all lines are recognised.",
            percent(limit, sign)
        ),
        None => format!(
            "{what} None of them is for category {category} of the open formula: until one is, nothing on this certificate counts there."
        ),
    }
}

/// One limit of a certificate.
pub fn certificate_limit(category: Option<&str>, limit: Percent, sign: DecimalSign) -> String {
    let at_most = format!("at most {}", percent(limit, sign));
    match category {
        Some(category) => format!("Category {category}: {at_most}"),
        None => format!("All categories not named: {at_most}"),
    }
}

fn percent(share: Percent, sign: DecimalSign) -> String {
    format!("{}\u{202f}%", number(&share.canonical(), sign))
}

/// What to do about lines that were not understood.
pub const MEND_STATEMENT: &str = "Write each as a name and a percentage, such as \u{201c}Linalool 35\u{202f}%\u{201d}, or delete it if it does not name a substance. Lines that stay here are not counted.";
/// What to do about names that were not recognised.
pub const MEND_NAMES: &str = "Each has a percentage, but whether it is an allergen is not known here. Enter the name that labels use, such as \u{201c}Limonene\u{201d}, or a CAS number beside the percentage, such as \u{201c}5989-27-5\u{201d}, or ask the supplier what it is. Until then the label may lack an allergen.";
/// The same for a certificate.
pub const MEND_CERTIFICATE: &str = "Write each as a category and a percentage, such as \u{201c}5A 0.42\u{201d}, or delete it if it gives no limit. As long as one line stays here, no product counts as within the certificate.";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shelf::{read_certificate, read_composition};

    fn used(name: &str, day: &str, chosen: bool, of: usize, stated: bool) -> UsedLot {
        let line = crate::formula::LineId::of(0);
        UsedLot {
            line,
            material: "Lavender".into(),
            name: name.into(),
            day: crate::quantity::Day::read(day),
            chosen,
            of,
            stated,
        }
    }

    #[test]
    fn lot_is_told_by_name_day_and_why_it_counts() {
        for (one, text) in [
            (used("L7", "2026-05-03", false, 1, true), "lot L7 of 2026-05-03"),
            (used("L7", "", false, 3, true), "lot L7, the newest of 3"),
            (used("L5", "2025-01-01", true, 3, true), "lot L5 of 2025-01-01, chosen for this formula"),
            (used("", "", false, 1, true), "a statement without a lot number"),
            (used("L8", "", false, 2, false), "lot L8, the newest of 2, with no statement entered"),
        ] {
            assert_eq!(lot(&one), text);
        }
    }

    #[test]
    fn certificate_is_told_with_the_limit_that_counts() {
        let told = |text: &str| certificate_read(&read_certificate(text), "5A", DecimalSign::Comma);
        assert_eq!(told("5A 0.42\n9 2"), "Limits read: 2. For the open formula (category 5A), 0,42\u{202f}% counts.");
        assert!(told("5A 0.42\nsee annex").contains("would count, but only once"));
        assert!(told("9 2").contains("None of them is for category 5A of the open formula"));
        assert_eq!(
            certificate_limit(None, Percent::millionths(400_000), DecimalSign::Point),
            "All categories not named: at most 0.4\u{202f}%"
        );
    }

    #[test]
    fn composition_is_told_by_substance_share_and_name_on_labels() {
        let read = read_composition("Linalool 35 %\nLinalyl acetate 30-40\nsmells nice\nnerol 0.3\nSecret base 4 %");
        assert!(contained(&read.items[2], DecimalSign::Point).ends_with(page::NO_ALLERGEN));
        assert_eq!(read.unrecognised().map(|item| item.name.as_str()).collect::<Vec<_>>(), ["Secret base"]);
        assert_eq!(contained(&read.items[0], DecimalSign::Point), "Linalool: 35\u{202f}% \u{2013} on labels: Linalool");
        assert!(contained(&read.items[1], DecimalSign::Comma).starts_with("Linalyl acetate: 30\u{2013}40\u{202f}%"));
        assert!(
            composition_read(&read)
                .starts_with("Substances read: 3; of these, allergens that labels may have to name: 2.")
        );
        assert_eq!(read.unread, ["smells nice"]);
    }
}
