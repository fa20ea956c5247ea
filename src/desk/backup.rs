//! When the maker is reminded to keep a copy outside the browser.
//!
//! After ten saves or seven days without an export: browsers clear storage of sites that were not used for a week, and
//! a tablet can fall into the lotion.

use crate::quantity::Timestamp;

/// After so many saves.
const SAVES: u32 = 10;
/// After so many days.
const DAYS: i64 = 7;

/// What is known of exports: kept as one preference, such as `12 1764000000000 1763990000000`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Backups {
    /// Saves since the last export.
    pub saves: u32,
    /// When the first of them was.
    pub since: Option<Timestamp>,
    /// When the last export was.
    pub last: Option<Timestamp>,
}

impl Backups {
    /// From a preference; what cannot be read counts as nothing known.
    pub fn read(text: &str) -> Self {
        let mut parts = text.split(' ');
        let saves = parts.next().and_then(|part| part.parse().ok()).unwrap_or(0);
        let mut moment = || parts.next()?.parse().ok().map(Timestamp::from_millis);
        Self { saves, since: moment(), last: moment() }
    }

    /// For a preference.
    pub fn write(self) -> String {
        let millis = |moment: Option<Timestamp>| moment.map_or_else(|| "-".to_owned(), |m| m.millis().to_string());
        format!("{} {} {}", self.saves, millis(self.since), millis(self.last))
    }

    /// One more save.
    #[must_use]
    pub fn saved(self, now: Timestamp) -> Self {
        Self { saves: self.saves.saturating_add(1), since: self.since.or(Some(now)), ..self }
    }

    /// Everything was exported.
    #[must_use]
    pub fn exported(now: Timestamp) -> Self {
        Self { saves: 0, since: None, last: Some(now) }
    }

    /// The maker wants to be asked again later: the count begins anew, but the last export stays what it was.
    #[must_use]
    pub fn later(self) -> Self {
        Self { saves: 0, since: None, ..self }
    }

    /// True if it is time. A clock that was set back makes no reminder disappear for longer than the count lasts.
    pub fn due(self, now: Timestamp) -> bool {
        self.saves >= SAVES || (self.saves > 0 && self.since.is_some_and(|since| now.days_since(since) >= DAYS))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DAY: i64 = 86_400_000;

    #[test]
    fn reminder_comes_after_ten_saves_or_seven_days_and_goes_with_an_export() {
        let at = |days: i64| Timestamp::from_millis(1_764_000_000_000 + days * DAY);
        let mut backups = Backups::default();
        assert!(!backups.due(at(100)), "nothing saved, nothing to lose");
        for n in 0..10 {
            assert!(!backups.due(at(0)), "after {n}");
            backups = backups.saved(at(0));
        }
        assert!(backups.due(at(0)));
        assert!(!backups.later().due(at(0)));
        assert_eq!(Backups::exported(at(3)).saved(at(3)).last, Some(at(3)));
        let one = Backups::exported(at(0)).saved(at(1));
        assert!(!one.due(at(7)) && one.due(at(8)));
        assert!(!one.due(at(-30)), "a clock set back");
    }

    #[test]
    fn preference_comes_back() {
        let now = Timestamp::from_millis(5);
        for backups in [Backups::default(), Backups::default().saved(now), Backups::exported(now).saved(now)] {
            assert_eq!(Backups::read(&backups.write()), backups);
        }
        assert_eq!(Backups::read("what is this"), Backups::default());
    }
}
