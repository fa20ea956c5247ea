//! Days as sentences have them.

use crate::quantity::Day;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
/// The days of the week from that of 1970-01-01.
const WEEKDAYS: [&str; 7] = ["Thursday", "Friday", "Saturday", "Sunday", "Monday", "Tuesday", "Wednesday"];

/// Year, month and day of the month, as they are read.
fn parts(day: Day) -> (String, &'static str, String) {
    let text = day.text();
    let mut parts = text.split('-');
    let year = parts.next().unwrap_or_default().to_owned();
    let month = parts.next().and_then(|month| MONTHS.get(month.parse::<usize>().ok()?.checked_sub(1)?));
    let number = parts.next().unwrap_or_default().trim_start_matches('0').to_owned();
    (year, month.copied().unwrap_or_default(), number)
}

/// `4 December 2026`.
pub fn day(day: Day) -> String {
    let (year, month, number) = parts(day);
    format!("{number} {month} {year}")
}

/// `4 Dec`.
pub fn short_day(day: Day) -> String {
    let (_, month, number) = parts(day);
    let month: String = month.chars().take(3).collect();
    format!("{number} {month}")
}

/// `Friday, 4 December 2026`.
pub fn weekday(of: Day) -> String {
    let name = usize::try_from(of.number().rem_euclid(7)).ok().and_then(|place| WEEKDAYS.get(place));
    format!("{}, {}", name.copied().unwrap_or_default(), day(of))
}
