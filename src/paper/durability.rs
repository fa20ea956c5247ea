//! The date of minimum durability as a label has it: month and year, or day, month and year, in that order (Article 19(1)(c)
//! of Regulation (EC) No 1223/2009).

const MONTHS: [&str; 12] = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// A date that was typed, in that order: one that begins with its year is turned round. `None` if it is no such date.
pub(super) fn durability_date(text: &str) -> Option<String> {
    let parts: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
    match parts.as_slice() {
        [month, year] if month_of(month).is_some() && is_year(year) => Some(text.trim().to_owned()),
        [day, month, year] if is_day(day) && month_of(month).is_some() && is_year(year) => Some(text.trim().to_owned()),
        [year, month] if is_year(year) => Some(format!("{:02}/{year}", month_of(month)?)),
        [year, month, day] if is_year(year) && is_day(day) => Some(format!("{day}/{:02}/{year}", month_of(month)?)),
        _ => None,
    }
}

fn is_year(text: &str) -> bool {
    text.len() == 4 && text.starts_with("20") && text.bytes().all(|byte| byte.is_ascii_digit())
}

fn is_day(text: &str) -> bool {
    text.len() <= 2 && text.parse::<u8>().is_ok_and(|day| (1..=31).contains(&day))
}

/// A month by its number, or by its English name or the beginning of it.
fn month_of(text: &str) -> Option<usize> {
    let lower = text.to_lowercase();
    let named = lower.get(..3).and_then(|start| MONTHS.iter().position(|month| *month == start)).map(|at| at + 1);
    named.or_else(|| text.parse().ok().filter(|month| text.len() <= 2 && (1..=12).contains(month)))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Article 19(1)(c): "either the month and year or the day, month and year, in that order".
    #[test]
    fn durability_is_month_and_year_or_day_month_and_year() {
        for (typed, shown) in [
            ("06/2027", Some("06/2027")),
            ("June 2027", Some("June 2027")),
            ("30.06.2027", Some("30.06.2027")),
            ("2027-06", Some("06/2027")),
            ("2027-06-30", Some("30/06/2027")),
            ("12/25/2027", None),
            ("2027", None),
            ("next summer", None),
            ("06/27", None),
            ("31 é 2027", None),
        ] {
            assert_eq!(durability_date(typed).as_deref(), shown, "{typed}");
        }
    }
}
