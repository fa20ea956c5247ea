//! The composition of a maker's own fat, as typed from a supplier's sheet, and what is odd about it.
//!
//! One line for all acids, in any order: `C16:0 6.5; oleic 62-86 %; C18:2 n-6 18,2`. An acid that has no column of its own
//! (`24:0 0.3`) counts among the rest. Of a range the middle is taken. Nothing is ever guessed: what cannot be read is
//! named; its share, where one stands there, counts as not known, and above a criterion nothing is computed from the
//! others.

use super::acid_shares::{ShareRange, part, share, split};
use crate::facts::{FattyAcid, Field, Form, Iv, NamedAcid, OtherAcids, Profile, Sv, UNKNOWN, Word, read_word};
use crate::quantity::{Percent, Quantity};
use crate::shelf::{Disagreement, SvApart};

/// What is odd about a supplier's values.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SheetFinding {
    /// A part of the composition that names no acid or gives no per cent.
    PartUnread(String),
    /// An acid that stands there twice; the first one counts.
    Twice(String),
    /// A range whose first end is the greater.
    RangeReversed(String),
    /// An acid that has no column, or a rest that was not told apart.
    CountedAsRest(String),
    /// A name that is not understood; its share counts as not known.
    NotUnderstood(String),
    /// A sum of several acids; it is not counted beside them.
    SumOfGroup(String),
    /// A figure of the paper that is no share of an acid.
    NoAcid(String),
    /// The total of an acid whose isomers stand there too; only what they leave of it counts.
    TotalOfIsomers(String),
    /// So much was not understood, not told apart or not named that what follows from the acids is not computed.
    AcidsUnknown(Percent),
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
    /// The typed saponification value lies far from what the acids or the table say; the maker's reason, if one stands.
    SvApart(SvApart, Option<String>),
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
                | Self::AcidsUnknown(_)
        )
    }

    /// True if it only says how the sheet was read, which stands on the shelf and not at the formula.
    pub const fn is_remark(&self) -> bool {
        matches!(
            self,
            Self::TakenAsTriglyceride
                | Self::MiddlesTaken
                | Self::CountedAsRest(_)
                | Self::NotUnderstood(_)
                | Self::SumOfGroup(_)
                | Self::NoAcid(_)
                | Self::TotalOfIsomers(_)
        )
    }

    /// Its name in files. It never changes.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::PartUnread(_) => "part-unread",
            Self::Twice(_) => "twice",
            Self::RangeReversed(_) => "range-reversed",
            Self::CountedAsRest(_) => "counted-as-rest",
            Self::NotUnderstood(_) => "not-understood",
            Self::SumOfGroup(_) => "sum-of-group",
            Self::NoAcid(_) => "no-acid",
            Self::TotalOfIsomers(_) => "total-of-isomers",
            Self::AcidsUnknown(_) => "acids-unknown",
            Self::SvApart(_, None) => "saponification-apart",
            Self::SvApart(_, Some(_)) => "saponification-confirmed",
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
/// A total and the sum of its isomers are one figure up to this part of it, or up to this much: two decimals, each rounded
/// by itself.
const SAME_PART: i64 = 100;
const SAME_LEAST: i64 = 300_000;

/// One acid of a paper, with its share.
struct Entry {
    acid: NamedAcid,
    share: ShareRange,
    text: String,
}

/// What was gathered from a paper.
#[derive(Default)]
struct Gathered {
    acids: Vec<Entry>,
    /// Shares that are not known any closer.
    unknown: Vec<ShareRange>,
    findings: Vec<SheetFinding>,
}

/// The profile of a typed composition; nothing if it makes no sense. What is odd is added to `findings`.
pub(super) fn read_fatty_acids(text: &str, findings: &mut Vec<SheetFinding>) -> Option<Profile> {
    let mut gathered = Gathered::default();
    for part in split(text) {
        gathered.take(part);
    }
    gathered.settle_totals();
    findings.append(&mut gathered.findings);
    gathered.profile(findings)
}

impl Gathered {
    fn take(&mut self, text: &str) {
        let unread = || SheetFinding::PartUnread(text.to_owned());
        let Some(part) = part(text) else { return self.findings.push(unread()) };
        let word = read_word(part.name);
        match &word {
            Some(Word::Group) => return self.findings.push(SheetFinding::SumOfGroup(text.to_owned())),
            Some(Word::Figure) => return self.findings.push(SheetFinding::NoAcid(text.to_owned())),
            _ => {}
        }
        let share = match share(&part) {
            Ok(share) => share,
            Err(true) => return self.findings.push(SheetFinding::RangeReversed(text.to_owned())),
            Err(false) => return self.findings.push(unread()),
        };
        match word {
            Some(Word::Acid(acid)) => self.take_acid(Entry { acid, share, text: text.to_owned() }),
            // What stands there as a rest is no slip of the reader, and no acid either.
            Some(_) => {
                self.findings.push(SheetFinding::CountedAsRest(text.to_owned()));
                self.unknown.push(share);
            }
            None => {
                self.findings.push(SheetFinding::NotUnderstood(text.to_owned()));
                self.unknown.push(share);
            }
        }
    }

    fn take_acid(&mut self, entry: Entry) {
        let same = |other: &Entry| {
            let (a, b) = (&other.acid, &entry.acid);
            same_acid(a, b) && a.isomer == b.isomer && a.total == b.total
        };
        if self.acids.iter().any(same) {
            return self.findings.push(SheetFinding::Twice(entry.text));
        }
        if entry.acid.column.is_none() {
            self.findings.push(SheetFinding::CountedAsRest(entry.text.clone()));
        }
        self.acids.push(entry);
    }

    /// A total beside the isomers that it is the sum of must not count again: they stay, and it goes. What says nothing of
    /// an isomer is a total where the isomers come to the same.
    fn settle_totals(&mut self) {
        let mut gone = Vec::new();
        for (n, entry) in self.acids.iter().enumerate() {
            if !entry.acid.total && !entry.acid.isomer.is_empty() {
                continue;
            }
            let isomers = self.acids.iter().enumerate().filter(|(m, other)| {
                let (a, b) = (&other.acid, &entry.acid);
                let shape = a.carbons == b.carbons && a.bonds == b.bonds;
                let alike = a.form == b.form || (entry.acid.total && b.form == Form::Plain);
                *m != n && shape && alike && !a.total && (!a.isomer.is_empty() || entry.acid.total)
            });
            let isomers: Vec<i64> = isomers.map(|(_, other)| other.share.middle()).collect();
            let (sum, total) = (isomers.iter().sum::<i64>(), entry.share.middle());
            let agree = (sum - total).abs() <= (total / SAME_PART).max(SAME_LEAST);
            if !isomers.is_empty() && (agree || entry.acid.total && sum < total) {
                gone.push((n, total - sum));
            }
        }
        for (n, left) in gone.into_iter().rev() {
            let Some(entry) = self.acids.get_mut(n) else { continue };
            self.findings.push(SheetFinding::TotalOfIsomers(entry.text.clone()));
            let left = Percent::millionths(left.max(0));
            // Isomers of which no more is said than that they are there.
            entry.share = ShareRange { low: left, high: left };
            if left == Percent::ZERO {
                self.acids.remove(n);
            }
        }
    }

    fn profile(&self, findings: &mut Vec<SheetFinding>) -> Option<Profile> {
        let shares = || self.acids.iter().map(|entry| entry.share).chain(self.unknown.iter().copied());
        let sum = Percent::millionths(shares().map(ShareRange::middle).sum());
        if sum == Percent::ZERO {
            return None;
        }
        let ranged = shares().any(|share| share.low != share.high);
        let (low, high): (Percent, Percent) =
            (shares().map(|share| share.low).sum(), shares().map(|share| share.high).sum());
        if ranged {
            findings.push(SheetFinding::MiddlesTaken);
            if low > MOST_SUM || high < LEAST_SUM {
                findings.push(SheetFinding::RangesCannotSum);
                return None;
            }
        }
        // The middles of ranges need not sum to 100; single values must.
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
        let mut rest: Vec<(f64, OtherAcids)> = Vec::new();
        for entry in &self.acids {
            let share = percent(entry.share.middle());
            match entry.acid.column.and_then(|column| typical.get_mut(column as usize)) {
                Some(slot) => *slot += share,
                None => rest.push((share, OtherAcids::of(&entry.acid))),
            }
        }
        let unknown: i64 = self.unknown.iter().map(|share| share.middle()).sum();
        rest.extend((unknown > 0).then(|| (percent(unknown), UNKNOWN)));
        let profile = Profile::new(typical, rest.iter().map(|(share, _)| share).sum(), OtherAcids::mean(&rest))?;
        // What is missing to 100 was not named, but for the glycerol where the sheet is in grams of oil; of ranges it is
        // what their high ends leave.
        let whole = profile.acid_share() * Percent::WHOLE.units() as f64;
        let missing = (whole - if ranged { high } else { sum }.units() as f64).max(0.0);
        let dark = (unknown as f64 + missing) / (sum.units() as f64 + missing) * 100.0;
        let profile = profile.with_unknown(dark);
        if !profile.tells() {
            findings.push(SheetFinding::AcidsUnknown(profile.unknown()));
        }
        Some(profile)
    }
}

fn same_acid(a: &NamedAcid, b: &NamedAcid) -> bool {
    (a.column, a.carbons, a.bonds, a.form) == (b.column, b.carbons, b.bonds, b.form)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (Option<Profile>, Vec<SheetFinding>) {
        let mut findings = Vec::new();
        let profile = read_fatty_acids(text, &mut findings);
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

    // Source: three acids of 18 carbons are 95.6 % of their triglyceride (IUPAC atomic weights); below that acids were left
    // out, and from five of a hundred on nothing is computed from the others.
    #[test]
    fn composition_of_which_too_much_was_left_out_tells_nothing() {
        let (profile, findings) = read("16:0 6; 18:0 2; 18:1 62.5; 18:2 20");
        assert!(matches!(findings[1], SheetFinding::AcidsUnknown(_)), "{findings:?}");
        assert!(!profile.unwrap().tells());
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
