//! Times of a record as they are read: by the clock where the maker is, since nothing here knows a time zone.

use crate::quantity::Timestamp;

/// How many minutes a clock is ahead of UTC at an instant.
pub type Zone = fn(Timestamp) -> i64;

/// The clock of UTC.
pub const fn utc(_: Timestamp) -> i64 {
    0
}

fn local(at: Timestamp, zone: Zone) -> String {
    Timestamp::from_millis(at.millis().saturating_add(zone(at).saturating_mul(60_000))).text()
}

/// `14:02`.
pub fn time_of_day(at: Timestamp, zone: Zone) -> String {
    local(at, zone).chars().skip(11).take(5).collect()
}

/// `2026-11-28`.
pub fn day(at: Timestamp, zone: Zone) -> String {
    local(at, zone).chars().take(10).collect()
}

/// `2026-11-28 14:02`.
pub fn moment(at: Timestamp, zone: Zone) -> String {
    format!("{} {}", day(at, zone), time_of_day(at, zone))
}

/// `UTC+01:00`, as the clock was at an instant.
pub fn zone_name(at: Timestamp, zone: Zone) -> String {
    let minutes = zone(at);
    let sign = if minutes < 0 { '\u{2212}' } else { '+' };
    match minutes.unsigned_abs() {
        0 => "UTC".to_owned(),
        ahead => format!("UTC{sign}{:02}:{:02}", ahead / 60, ahead % 60),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_those_of_the_clock_on_the_wall() {
        let at = Timestamp::read("2026-11-28T23:32:00Z").unwrap_or_default();
        assert_eq!((moment(at, utc), zone_name(at, utc)), ("2026-11-28 23:32".into(), "UTC".into()));
        let east: Zone = |_| 330;
        assert_eq!((moment(at, east), zone_name(at, east)), ("2026-11-29 05:02".into(), "UTC+05:30".into()));
        let west: Zone = |_| -60;
        assert_eq!((time_of_day(at, west), zone_name(at, west)), ("22:32".into(), "UTC\u{2212}01:00".into()));
    }
}
