//! The composition of a maker's own fat, as typed from a supplier's sheet, and what is odd about it.
//!
//! One line for all acids, in any order: `C16:0 6.5; oleic 62-86 %; 18:2 18,2`. An acid that has no column of its own
//! (`24:0 0.3`) counts among the rest. Of a range the middle is taken. Nothing is ever guessed: what cannot be read is
//! named and left out.

use super::profile::{Rest, UNKNOWN};
use super::{Disagreement, FattyAcid, Field, Iv, Profile, Sv};
use crate::quantity::{Percent, Quantity, Reading};

/// What is odd about a supplier's values.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SheetFinding {
    /// A part of the composition that names no acid or gives no per cent.
    PartUnread(String),
    /// An acid that stands there twice; the first one counts.
    Twice(String),
    /// A range whose first end is the greater.
    RangeReversed(String),
    /// Acids that have no column; they count as not known any closer.
    CountedAsRest(String),
    /// The per cents are ranges, and their middles were taken.
    MiddlesTaken,
    /// The acids sum to so much less than 100 that nothing is computed.
    SumTooSmall(Percent),
    /// They sum to less than 100: the rest was not named, or these are grams in 100 g of oil. Scaled to 100.
    SumShort(Percent),
    /// They sum to more than 100 can be; nothing is computed.
    SumOver(Percent),
    /// The lowest ends sum to more than 100, or the highest to less.
    RangesCannotSum,
    /// A value of the sheet that cannot be read.
    ValueUnread(Field),
    /// The low end is above the high one.
    EndsReversed(Field),
    /// The high end stands alone, and no low end that goes with it is known.
    LowEndMissing(Field),
    /// No triglyceride has this saponification value.
    SvImpossible(Sv),
    /// The acids give another saponification value than the sheet states.
    SvDisagrees(Disagreement<Sv>),
    /// The acids give another iodine value than the sheet states.
    IvDisagrees(Disagreement<Iv>),
    /// Nobody said that it is no triglyceride, so it is taken as one.
    TakenAsTriglyceride,
}

impl SheetFinding {
    /// True if something is not computed because of it; else it is a remark.
    pub const fn blocks(&self) -> bool {
        matches!(
            self,
            Self::SumTooSmall(_)
                | Self::SumOver(_)
                | Self::RangesCannotSum
                | Self::ValueUnread(_)
                | Self::EndsReversed(_)
                | Self::LowEndMissing(_)
                | Self::SvImpossible(_)
        )
    }

    /// Its name in files. It never changes.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::PartUnread(_) => "part-unread",
            Self::Twice(_) => "twice",
            Self::RangeReversed(_) => "range-reversed",
            Self::CountedAsRest(_) => "counted-as-rest",
            Self::MiddlesTaken => "middles-taken",
            Self::SumTooSmall(_) => "sum-too-small",
            Self::SumShort(_) => "sum-short",
            Self::SumOver(_) => "sum-over",
            Self::RangesCannotSum => "ranges-cannot-sum",
            Self::ValueUnread(_) => "value-unread",
            Self::EndsReversed(_) => "ends-reversed",
            Self::LowEndMissing(_) => "low-end-missing",
            Self::SvImpossible(_) => "saponification-impossible",
            Self::SvDisagrees(_) => "saponification-disagrees",
            Self::IvDisagrees(_) => "iodine-disagrees",
            Self::TakenAsTriglyceride => "taken-as-triglyceride",
        }
    }
}

/// Under this sum too much is missing to say anything. A fat holds 92 to 96 % of fatty acids, so that a sheet in grams
/// per 100 g of oil sums to that; a few unnamed acids may be missing too.
const LEAST_SUM: Percent = Percent::millionths(90_000_000);
/// From here on a sum is 100 but for rounding.
const NEARLY: Percent = Percent::millionths(98_000_000);
const MOST_SUM: Percent = Percent::millionths(102_000_000);

struct Share {
    low: Percent,
    high: Percent,
}

impl Share {
    fn middle(&self) -> i64 {
        (self.low.units() + self.high.units()) / 2
    }
}

/// The profile of a typed composition; nothing if it makes no sense. What is odd is added to `findings`.
pub(super) fn read_composition(text: &str, findings: &mut Vec<SheetFinding>) -> Option<Profile> {
    let mut acids: [Option<Share>; FattyAcid::ALL.len()] = Default::default();
    let mut rest: Vec<(Share, Rest)> = Vec::new();
    for part in text.split([';', '\n']).map(str::trim).filter(|part| !part.is_empty()) {
        match read_part(part) {
            Ok((name, share)) => match FattyAcid::from_word(&name) {
                Some(acid) => match acids.get_mut(acid as usize) {
                    Some(slot) if slot.is_none() => *slot = Some(share),
                    _ => findings.push(SheetFinding::Twice(part.to_owned())),
                },
                None => {
                    findings.push(SheetFinding::CountedAsRest(part.to_owned()));
                    rest.push((share, by_shorthand(&name).unwrap_or(UNKNOWN)));
                }
            },
            Err(finding) => findings.push(finding),
        }
    }
    let all = || acids.iter().flatten().chain(rest.iter().map(|(share, _)| share));
    let sum: i64 = all().map(Share::middle).sum();
    if sum == 0 {
        return None;
    }
    if all().any(|share| share.low != share.high) {
        findings.push(SheetFinding::MiddlesTaken);
        let (low, high): (Percent, Percent) = (all().map(|share| share.low).sum(), all().map(|share| share.high).sum());
        if low > MOST_SUM || high < LEAST_SUM {
            findings.push(SheetFinding::RangesCannotSum);
            return None;
        }
    }
    // The middles of ranges need not sum to 100; single values must.
    let sum = Percent::millionths(sum);
    let ranged = all().any(|share| share.low != share.high);
    match sum {
        _ if sum < LEAST_SUM && !ranged => findings.push(SheetFinding::SumTooSmall(sum)),
        _ if sum > MOST_SUM && !ranged => findings.push(SheetFinding::SumOver(sum)),
        _ if sum < NEARLY => findings.push(SheetFinding::SumShort(sum)),
        _ => {}
    }
    if !ranged && (sum < LEAST_SUM || sum > MOST_SUM) {
        return None;
    }
    let percent = |units: i64| units as f64 / sum.units() as f64 * 100.0;
    let mut typical = [0.0; FattyAcid::ALL.len()];
    for (slot, share) in typical.iter_mut().zip(&acids) {
        *slot = share.as_ref().map_or(0.0, |share| percent(share.middle()));
    }
    let rest: Vec<(f64, Rest)> = rest.iter().map(|(share, is)| (percent(share.middle()), *is)).collect();
    Profile::new(typical, rest.iter().map(|(share, _)| share).sum(), Rest::mean(&rest))
}

/// `24:0` says how many carbons and double bonds an acid has, and so what it weighs.
fn by_shorthand(name: &str) -> Option<Rest> {
    let (carbons, bonds) = name.split_once(':')?;
    let (carbons, bonds) = (carbons.parse::<u8>().ok()?, bonds.parse::<u8>().ok()?);
    (bonds < carbons).then(|| Rest { kind: "", ..Rest::plain(carbons, bonds) })
}

/// One part: a name and, behind it, a per cent or a range.
fn read_part(part: &str) -> Result<(String, Share), SheetFinding> {
    let unread = || SheetFinding::PartUnread(part.to_owned());
    let lower = part.to_lowercase();
    let lower = lower.trim_end_matches('%').trim_end();
    // The number is what stands behind the last blank or equals sign that is followed by a digit, ranges with blanks
    // around the dash included.
    let tidy = lower.replace(" - ", "-").replace('\u{2013}', "-").replace(" to ", "-");
    let at = tidy.rfind([' ', '=']).ok_or_else(unread)?;
    let (name, number) = tidy.split_at(at);
    let number = number.trim_start_matches([' ', '=']).trim_end_matches('%');
    let (low, high) = number.split_once('-').unwrap_or((number, number));
    let read = |text: &str| match Percent::read(text) {
        Reading::Value(value) => Ok(value),
        _ => Err(unread()),
    };
    let share = Share { low: read(low)?, high: read(high)? };
    if share.low > share.high {
        return Err(SheetFinding::RangeReversed(part.to_owned()));
    }
    let name = name.trim().trim_end_matches([':', '=']).trim();
    // `c18:1 n-9 cis` and `18:1 (oleic)` begin with the shorthand.
    let word = name.split([' ', '(']).next().unwrap_or(name);
    let short = word.strip_prefix('c').filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit())).unwrap_or(word);
    let name = if short.contains(':') && short.starts_with(|c: char| c.is_ascii_digit()) {
        let gamma = short == "18:3" && (name.contains("n-6") || name.contains("gamma"));
        if gamma { "18:3g".to_owned() } else { short.to_owned() }
    } else {
        name.to_owned()
    };
    if name.is_empty() { Err(unread()) } else { Ok((name, share)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (Option<Profile>, Vec<SheetFinding>) {
        let mut findings = Vec::new();
        let profile = read_composition(text, &mut findings);
        (profile, findings)
    }

    #[test]
    fn composition_is_read_in_any_writing() {
        for text in [
            "16:0 10; 18:1 70; 18:2 20",
            "C16:0: 10 %; C18:1 n-9 cis 70; linoleic acid 20 %",
            "palmitic = 10\noleic 70,0\n18:2 (linoleic) 20%",
        ] {
            let (profile, findings) = read(text);
            let profile = profile.unwrap_or_else(|| panic!("{text}: {findings:?}"));
            assert!(findings.is_empty(), "{text}: {findings:?}");
            assert_eq!(profile.percent(FattyAcid::Oleic), Percent::millionths(70_000_000), "{text}");
        }
    }

    #[test]
    fn composition_of_93_is_scaled_and_said() {
        let (profile, findings) = read("16:0 6; 18:0 2; 18:1 65; 18:2 20");
        assert_eq!(findings, [SheetFinding::SumShort(Percent::millionths(93_000_000))]);
        assert_eq!(profile.unwrap().percent(FattyAcid::Oleic), Percent::millionths(69_890_000));
    }

    #[test]
    fn composition_that_cannot_be_is_not_used() {
        let (profile, findings) = read("16:0 6; 18:1 65");
        assert_eq!((profile, findings), (None, vec![SheetFinding::SumTooSmall(Percent::millionths(71_000_000))]));
        let (profile, findings) = read("16:0 40; 18:1 75");
        assert_eq!((profile, findings), (None, vec![SheetFinding::SumOver(Percent::millionths(115_000_000))]));
        let (profile, findings) = read("16:0 60-70; 18:1 75-80");
        assert_eq!((profile, findings), (None, vec![SheetFinding::MiddlesTaken, SheetFinding::RangesCannotSum]));
    }

    #[test]
    fn composition_names_what_it_cannot_read() {
        let (profile, findings) = read("oleic; 16:0 12; 18:1 80; 16:0 3; 24:0 1; 18:2 9-2; 18:0 7; 20:0 many");
        let part = |text: &str| text.to_owned();
        assert_eq!(
            findings,
            [
                SheetFinding::PartUnread(part("oleic")),
                SheetFinding::Twice(part("16:0 3")),
                SheetFinding::CountedAsRest(part("24:0 1")),
                SheetFinding::RangeReversed(part("18:2 9-2")),
                SheetFinding::PartUnread(part("20:0 many")),
            ]
        );
        assert_eq!(profile.unwrap().rest(), Percent::millionths(1_000_000));
    }

    #[test]
    fn composition_in_ranges_takes_the_middles() {
        let (profile, findings) = read("C16:0 4-9; C18:1 62 - 86; C18:2 20 to 30");
        assert_eq!(findings, [SheetFinding::MiddlesTaken]);
        assert!(profile.is_some());
        // 6.5 + 74 + 25 = 105.5: the middles of wide ranges are scaled, not refused.
    }
}
