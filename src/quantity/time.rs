//! Instants and days of the civil calendar, handed in from outside: nothing here reads a clock or knows a time zone.
//!
//! The calendar is the one of the crate `time` (proleptic Gregorian); ISO 8601 and RFC 3339 are written and read here,
//! since its own formats cost more bytes than all the rest of it.

use time::{Date, Duration, Month};

const DAY_MS: i64 = 86_400_000;
/// The first instant of the year 0000 and the last millisecond of 9999: what four digits of a year can show.
const FIRST_MS: i64 = -62_167_219_200_000;
const LAST_MS: i64 = 253_402_300_799_999;
const EPOCH: Date = match Date::from_calendar_date(1970, Month::January, 1) {
    Ok(day) => day,
    Err(_) => Date::MIN,
};
const MONTHS: [Month; 12] = [
    Month::January,
    Month::February,
    Month::March,
    Month::April,
    Month::May,
    Month::June,
    Month::July,
    Month::August,
    Month::September,
    Month::October,
    Month::November,
    Month::December,
];

/// An instant: milliseconds since 1970-01-01T00:00:00Z, within the years 0000 to 9999.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Timestamp(i64);

impl Timestamp {
    /// From milliseconds since 1970, kept within the years 0000 to 9999 that its text can show.
    pub fn from_millis(millis: i64) -> Self {
        Self(millis.clamp(FIRST_MS, LAST_MS))
    }

    /// As milliseconds since 1970.
    pub const fn millis(self) -> i64 {
        self.0
    }

    /// Whole days of 24 hours from `earlier` to this instant; never negative.
    pub const fn days_since(self, earlier: Self) -> i64 {
        let days = (self.0 - earlier.0) / DAY_MS;
        if days < 0 { 0 } else { days }
    }

    /// Its day in UTC.
    pub fn day(self) -> Day {
        Day::from_number(self.0.div_euclid(DAY_MS))
    }

    /// `2026-11-25T14:02:00Z`: RFC 3339 in UTC, to the second.
    pub fn text(self) -> String {
        let second = self.0.rem_euclid(DAY_MS) / 1000;
        format!("{}T{:02}:{:02}:{:02}Z", self.day().text(), second / 3600, second / 60 % 60, second % 60)
    }

    /// Reads what [`Self::text`] writes; `None` if it is anything else, or no time of a day.
    pub fn read(text: &str) -> Option<Self> {
        let (day, time) = text.split_once('T')?;
        let (hour, minute, second) = match fields(time.strip_suffix('Z')?, ':', [2, 2, 2])? {
            [hour, minute, second] if hour < 24 && minute < 60 && second < 60 => (hour, minute, second),
            _ => return None,
        };
        let seconds = Day::read(day)?.number() * 86_400 + hour * 3600 + minute * 60 + second;
        Some(Self(seconds * 1000))
    }
}

/// A day of the civil calendar, from 0000-01-01 to 9999-12-31, of no time zone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

impl Day {
    /// From the number of days since 1970-01-01, kept within the years 0000 to 9999.
    pub fn from_number(days: i64) -> Self {
        let days = days.clamp(FIRST_MS / DAY_MS, LAST_MS / DAY_MS);
        Self(EPOCH.checked_add(Duration::days(days)).unwrap_or(EPOCH))
    }

    /// Days since 1970-01-01.
    pub const fn number(self) -> i64 {
        self.0.to_julian_day() as i64 - EPOCH.to_julian_day() as i64
    }

    /// A day of the calendar; `None` if there is none, such as 30 February.
    pub const fn from_calendar(year: i32, month: u8, day: u8) -> Option<Self> {
        if year < 0 || year > 9999 || month < 1 || month > 12 {
            return None;
        }
        match Date::from_calendar_date(year, MONTHS[month as usize - 1], day) {
            Ok(day) => Some(Self(day)),
            Err(_) => None,
        }
    }

    /// `2026-05-03`: ISO 8601, the extended form.
    pub fn text(self) -> String {
        format!("{:04}-{:02}-{:02}", self.0.year(), u8::from(self.0.month()), self.0.day())
    }

    /// Reads what [`Self::text`] writes; `None` if it is anything else, or no day of the calendar.
    pub fn read(text: &str) -> Option<Self> {
        let [year, month, day] = fields(text, '-', [4, 2, 2])?;
        Self::from_calendar(i32::try_from(year).ok()?, u8::try_from(month).ok()?, u8::try_from(day).ok()?)
    }

    /// So many days later (earlier, if negative), kept within the years 0000 to 9999.
    #[must_use]
    pub fn plus_days(self, days: i64) -> Self {
        Self::from_number(self.number().saturating_add(days))
    }

    /// The same day so many months later; the last day of that month where it has no such day (31 January and a month:
    /// 28 or 29 February). Kept within the years 0000 to 9999.
    #[must_use]
    pub fn plus_months(self, months: u32) -> Self {
        let month = i64::from(self.0.year()) * 12 + i64::from(u8::from(self.0.month())) - 1 + i64::from(months);
        let (year, month) = (i32::try_from(month / 12).unwrap_or(i32::MAX), month % 12 + 1);
        let found = u8::try_from(month).ok().and_then(|month| {
            (28..=self.0.day()).rev().chain([self.0.day()]).find_map(|day| Self::from_calendar(year, month, day))
        });
        found.unwrap_or_else(|| Self::from_number(i64::MAX))
    }
}

impl core::fmt::Display for Day {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        out.write_str(&self.text())
    }
}

/// Three numbers of so many digits each, with a separator between them and nothing else.
fn fields(text: &str, separator: char, digits: [usize; 3]) -> Option<[i64; 3]> {
    let mut parts = text.split(separator);
    let mut next = |digits: usize| {
        let part = parts.next().filter(|part| part.len() == digits && part.bytes().all(|b| b.is_ascii_digit()));
        part?.parse().ok()
    };
    let read = [next(digits[0])?, next(digits[1])?, next(digits[2])?];
    parts.next().is_none().then_some(read)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    // Source: RFC 3339 section 5.8 and the POSIX definition of seconds since the epoch (951 782 400 s is
    // 2000-02-29T00:00:00Z, a leap day of a century year).
    #[test]
    fn timestamp_text_round_trips() {
        for (millis, text) in
            [(0, "1970-01-01T00:00:00Z"), (951_782_400_000, "2000-02-29T00:00:00Z"), (-1000, "1969-12-31T23:59:59Z")]
        {
            assert_eq!(Timestamp(millis).text(), text);
            assert_eq!(Timestamp::read(text), Some(Timestamp(millis)));
        }
        for text in ["2026-02-30T00:00:00Z", "2026-13-01T00:00:00Z", "2026-01-01 00:00:00Z", "", "2026-01-01T24:00:00Z"]
        {
            assert_eq!(Timestamp::read(text), None, "{text:?}");
        }
        assert_eq!(Timestamp::from_millis(i64::MIN).text(), "0000-01-01T00:00:00Z");
        assert_eq!(Timestamp::from_millis(i64::MAX).text(), "9999-12-31T23:59:59Z");
    }

    // Source: ISO 8601 (the extended calendar date), and the Gregorian rule for leap years: 1900 and 2100 are none.
    #[test]
    fn day_is_one_of_the_calendar() {
        for text in ["2000-02-29", "2024-02-29", "2026-12-31", "0000-01-01", "9999-12-31"] {
            assert_eq!(Day::read(text).map(Day::text).as_deref(), Some(text));
        }
        let none = [
            "1900-02-29",
            "2100-02-29",
            "2026-02-29",
            "2026-04-31",
            "2026-00-10",
            "2026-1-1",
            "26-01-01",
            "+026-01-01",
        ];
        for text in none.into_iter().chain(["2026-01-01 ", "2026-01", "2026-01-01-01", "", "\u{0661}026-01-01"]) {
            assert_eq!(Day::read(text), None, "{text:?}");
        }
    }

    #[test]
    fn months_end_where_a_month_ends() {
        let plus = |text: &str, months| Day::read(text).unwrap().plus_months(months).text();
        assert_eq!(plus("2026-01-31", 1), "2026-02-28");
        assert_eq!(plus("2024-01-31", 1), "2024-02-29");
        assert_eq!(plus("2026-11-30", 3), "2027-02-28");
        assert_eq!(plus("2026-08-31", 6), "2027-02-28");
        assert_eq!(plus("2026-10-31", 1), "2026-11-30");
        assert_eq!(plus("2026-12-15", 12), "2027-12-15");
        assert_eq!(plus("9999-12-01", 1), "9999-12-31");
    }

    proptest! {
        #[test]
        fn days_are_counted_and_written_alike(number in -719_528i64..=2_932_896, more in -4_000_000i64..4_000_000) {
            let day = Day::from_number(number);
            prop_assert_eq!(day.number(), number);
            prop_assert_eq!(Day::read(&day.text()), Some(day));
            prop_assert_eq!(Timestamp::from_millis(number * DAY_MS).day(), day);
            let later = day.plus_days(more);
            prop_assert_eq!(later.number(), (number + more).clamp(-719_528, 2_932_896));
            prop_assert_eq!(day.text() < later.text(), day < later, "the texts stand in the same order");
        }

        #[test]
        fn any_text_is_an_instant_or_none(text in "\\PC{0,24}") {
            if let Some(instant) = Timestamp::read(&text) {
                prop_assert_eq!(instant.text(), text);
            }
        }
    }
}
