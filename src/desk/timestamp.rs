//! An instant, handed in from outside: nothing here reads a clock.

/// Milliseconds since 1970-01-01T00:00:00Z.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Timestamp(i64);

const DAY_MS: i64 = 86_400_000;

impl Timestamp {
    /// From milliseconds since 1970, kept within the years 0000 to 9999 that its text can show.
    pub fn from_millis(millis: i64) -> Self {
        Self(millis.clamp(-62_167_219_200_000, 253_402_300_799_999))
    }

    /// As milliseconds since 1970.
    pub const fn millis(self) -> i64 {
        self.0
    }

    /// Whole days from `earlier` to this moment; never negative.
    pub const fn days_since(self, earlier: Self) -> i64 {
        let days = (self.0 - earlier.0) / DAY_MS;
        if days < 0 { 0 } else { days }
    }

    /// The number of its day since 1970, in UTC.
    pub const fn day(self) -> i64 {
        self.0.div_euclid(DAY_MS)
    }

    /// `2026-11-25T14:02:00Z`, RFC 3339, to the second.
    pub fn text(self) -> String {
        let seconds = self.0.div_euclid(1000);
        let (days, rest) = (seconds.div_euclid(86_400), seconds.rem_euclid(86_400));
        let (year, month, day) = civil(days);
        format!("{year:04}-{month:02}-{day:02}T{:02}:{:02}:{:02}Z", rest / 3600, rest / 60 % 60, rest % 60)
    }

    /// Reads what [`Self::text`] writes.
    pub fn read(text: &str) -> Option<Self> {
        let bytes = text.as_bytes();
        let shape = bytes.len() == 20
            && bytes
                .iter()
                .zip(b"0000-00-00T00:00:00Z")
                .all(|(b, form)| if *form == b'0' { b.is_ascii_digit() } else { b == form });
        let part = |from: usize, to: usize| text.get(from..to)?.parse::<i64>().ok();
        if !shape {
            return None;
        }
        let (year, month, day) = (part(0, 4)?, part(5, 7)?, part(8, 10)?);
        let (hour, minute, second) = (part(11, 13)?, part(14, 16)?, part(17, 19)?);
        let days = days_from_civil(year, month, day);
        let valid = civil(days) == (year, month, day) && hour < 24 && minute < 60 && second < 60;
        valid.then(|| Self((days * 86_400 + hour * 3600 + minute * 60 + second) * 1000))
    }
}

/// Year, month and day of a day number. Source: the proleptic Gregorian calendar in eras of 400 years (146 097 days).
fn civil(days: i64) -> (i64, i64, i64) {
    let shifted = days + 719_468;
    let era = shifted.div_euclid(146_097);
    let of_era = shifted.rem_euclid(146_097);
    let year_of_era = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let from_march = (5 * of_year + 2) / 153;
    let day = of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 { from_march + 3 } else { from_march - 9 };
    (year_of_era + era * 400 + i64::from(month <= 2), month, day)
}

fn days_from_civil(year: i64, month: i64, day: i64) -> i64 {
    let year = year - i64::from(month <= 2);
    let era = year.div_euclid(400);
    let year_of_era = year.rem_euclid(400);
    let from_march = if month > 2 { month - 3 } else { month + 9 };
    let of_year = (153 * from_march + 2) / 5 + day - 1;
    era * 146_097 + year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + of_year - 719_468
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: RFC 3339 section 5.8 and the POSIX definition of seconds since the epoch (951 782 400 s is
    // 2000-02-29T00:00:00Z, a leap day of a century year).
    #[test]
    fn moment_text_round_trips() {
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
    }
}
