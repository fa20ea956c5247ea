//! Days as the annexes write them.

use crate::quantity::Day;

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// Reads `28/08/2026`.
pub(super) fn day_with_slashes(text: &str) -> Option<Day> {
    let mut parts = text.trim().split('/');
    let (day, month, year) = (parts.next()?, parts.next()?, parts.next()?);
    let whole = parts.next().is_none();
    whole.then(|| Day::read(&format!("{year}-{month}-{day}"))).flatten()
}

/// Reads `1 May 2027` at the start of a text, and gives the rest of it.
pub(super) fn day_in_words(text: &str) -> Option<(Day, &str)> {
    let (day, rest) = text.trim_start().split_once(' ')?;
    let (month, rest) = rest.trim_start().split_once(' ')?;
    let rest = rest.trim_start();
    let month = (1..).zip(MONTHS).find(|(_, name)| month.eq_ignore_ascii_case(name))?.0;
    let year = rest.get(..4).filter(|year| year.bytes().all(|b| b.is_ascii_digit()))?;
    Some((Day::from_calendar(year.parse().ok()?, month, day.parse().ok()?)?, rest.get(4..)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn day_is_read_in_each_form_and_nothing_else_is() {
        let day = Day::from_calendar(2027, 5, 1);
        assert_eq!(day_with_slashes("01/05/2027"), day);
        assert_eq!(Day::read("2027-05-01"), day);
        assert_eq!(day_in_words("1 May 2027 cosmetic products"), day.map(|day| (day, " cosmetic products")));
        assert_eq!(day_in_words(" 3 September   2017: 1,5 %").map(|(day, _)| day), Day::from_calendar(2017, 9, 3));
        for text in ["", "1/5/2027", "01/13/2027", "01/05/2027/1", "00/05/2027", "aa/bb/cccc"] {
            assert_eq!(day_with_slashes(text), None, "{text:?}");
        }
        for text in ["", "1", "1 May", "1 Mai 2027", "32 May 2027", "1 May 20", "1 May 20ü7"] {
            assert_eq!(day_in_words(text), None, "{text:?}");
        }
        assert!(Day::from_calendar(2026, 8, 28) < day);
    }
}
