//! The substances of a product against the annexes.

use super::reckoned::reckoned;
use super::said::{LawOutcome, Said};
use crate::law::{Annex, AnnexEntry, EntryReading, JudgedShare, Maximum, Products, Untold, What, judge, reading_of};
use crate::names::{Meaning, NameReading, entries_of, recalled};
use crate::quantity::{Percent, Quantity};
use std::sync::Arc;

/// A substance that is in a product.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Present<'a> {
    /// What it is called, however it is written.
    pub name: &'a str,
    /// Its number in the chemical registry, where one is stated.
    pub cas: Option<&'a str>,
    /// Its least share of the product.
    pub low: Percent,
    /// Its greatest share of the product.
    pub high: Percent,
}

/// What the annexes say of a product.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LawCheck {
    /// The entries that its substances fall under, in the order of the law.
    pub entries: Vec<EntryCheck>,
    /// What each substance was read as, in the order asked. Of those that are not certain nothing was checked but what
    /// their text or number itself stands in.
    pub readings: Vec<Arc<NameReading>>,
}

/// What one entry says of a product.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EntryCheck {
    /// The entry, with its own words.
    pub entry: &'static AnnexEntry,
    /// The substances that fall under it, by their places in what was asked.
    pub of: Vec<usize>,
    /// Their least share together.
    pub low: Percent,
    /// Their greatest share together.
    pub high: Percent,
    /// The greatest share in the terms of the entry's maximum, such as its acid, where it has such and all factors are known.
    pub reckoned: Option<Percent>,
    /// It lists a name of one of them; otherwise only a number, which never decides alone.
    pub by_name: bool,
    /// What bears on this product, one for each condition.
    pub says: Vec<Said>,
}

impl LawCheck {
    /// The places of the substances of which nothing is certain, so that silence says nothing of them.
    pub fn unread(&self) -> impl Iterator<Item = usize> {
        self.readings.iter().enumerate().filter(|(_, reading)| !reading.is_certain()).map(|(at, _)| at)
    }

    /// The entries, the gravest first; those that are equally grave in the order of the law.
    pub fn gravest_first(&self) -> Vec<&EntryCheck> {
        let mut all: Vec<&EntryCheck> = self.entries.iter().collect();
        all.sort_by_key(|entry| core::cmp::Reverse(entry.outcome()));
        all
    }

    /// The entries that one substance falls under.
    pub fn of(&self, at: usize) -> impl Iterator<Item = &EntryCheck> {
        self.entries.iter().filter(move |entry| entry.of.contains(&at))
    }
}

impl EntryCheck {
    /// The gravest of what it says. An entry without any condition that bears on this product is kept.
    pub fn outcome(&self) -> LawOutcome {
        self.says.iter().map(|said| said.outcome).max().unwrap_or(LawOutcome::Within)
    }
}

/// What the annexes say of a product with these substances. `product` is what it may be ([`super::products_of`]).
///
/// # Example
/// ```
/// use hundred_parts::compliance::{LawOutcome, Present, check, products_of};
/// use hundred_parts::formula::About;
/// use hundred_parts::quantity::Percent;
/// let one = |share| Present { name: "2-Phenoxyethanol", cas: None, low: share, high: share };
/// let of = |share| check(&[one(share)], products_of(&About::default()));
/// assert_eq!(of(Percent::millionths(1_000_000)).entries[0].outcome(), LawOutcome::Within);
/// assert_eq!(of(Percent::millionths(1_000_001)).entries[0].outcome(), LawOutcome::Above);
/// ```
pub fn check(present: &[Present<'_>], product: Products) -> LawCheck {
    let readings: Vec<_> = present.iter().map(|one| recalled(one.name, one.cas)).collect();
    let mut fallen = gathered(present, &readings);
    fallen.sort_by_key(|one| core::ptr::from_ref(one.entry));
    let mut entries: Vec<EntryCheck> = fallen.iter().filter_map(|one| one.check(product)).collect();
    leave_purpose_open(&mut entries);
    LawCheck { entries, readings }
}

/// What an entry says of purposes other than preserving decides nothing for a substance that Annex V allows as it is: whether
/// it is there to preserve, its maker knows.
fn leave_purpose_open(entries: &mut [EntryCheck]) {
    let is_preservative = |entry: &&EntryCheck| entry.entry.annex == Annex::V && entry.outcome() <= LawOutcome::Unknown;
    let preserving: Vec<usize> = entries.iter().filter(is_preservative).flat_map(|entry| entry.of.clone()).collect();
    let other = |entry: &&mut EntryCheck| {
        entry.entry.annex == Annex::III
            && entry.entry.other.contains("other than inhibiting")
            && entry.of.iter().all(|at| preserving.contains(at))
    };
    for entry in entries.iter_mut().filter(other) {
        for said in &mut entry.says {
            said.outcome = said.outcome.min(LawOutcome::Unknown);
        }
    }
}

/// The entries that substances fall under, each with these.
fn gathered(present: &[Present<'_>], readings: &[Arc<NameReading>]) -> Vec<Fallen> {
    let mut fallen: Vec<Fallen> = Vec::new();
    for (at, (one, reading)) in present.iter().zip(readings).enumerate().filter(|(_, (one, _))| one.high.units() > 0) {
        for (entry, by_name, means) in fallen_under(reading) {
            // The shares of the parts of a blend are not known: each may be all of it, or a trace.
            let low = if reading.means.len() > 1 { Percent::ZERO } else { one.low };
            let member = Member { at, means, low, high: one.high };
            match fallen.iter_mut().find(|known| core::ptr::eq(known.entry, entry)) {
                Some(known) if known.members.iter().any(|other| other.at == at) => known.by_name |= by_name,
                Some(known) => {
                    known.by_name |= by_name;
                    known.members.push(member);
                }
                None => fallen.push(Fallen { entry, by_name, members: vec![member] }),
            }
        }
    }
    fallen
}

/// The entries that a reading falls under, each with whether by name, and as which substance. What is not certain falls
/// under those only in which its own text or number stands.
fn fallen_under(reading: &NameReading) -> Vec<(&'static AnnexEntry, bool, Option<Meaning>)> {
    let mut all: Vec<(&'static AnnexEntry, bool, Option<Meaning>)> = Vec::new();
    for means in reading.means.iter().filter(|_| reading.is_certain()) {
        let listings = entries_of(means);
        let listed = listings.iter().filter(|listing| listing.by_name || may_decide(listing.entry));
        all.extend(listed.map(|listing| (listing.entry, listing.by_name, Some(means.clone()))));
    }
    let by_text = reading.entries.iter().filter(|_| reading.means.is_empty());
    all.extend(by_text.map(|entry| (*entry, false, None)));
    all
}

/// Whether a number alone may lead to an entry: where the entry is about one substance and gives no name of an ingredient.
/// Others list numbers of parts, mixtures and plants that many things have.
fn may_decide(entry: &AnnexEntry) -> bool {
    entry.ingredient_names().next().is_none() && entry.cas_numbers().nth(1).is_none()
}

/// A substance under an entry.
struct Member {
    at: usize,
    means: Option<Meaning>,
    low: Percent,
    high: Percent,
}

/// An entry with what falls under it.
struct Fallen {
    entry: &'static AnnexEntry,
    by_name: bool,
    members: Vec<Member>,
}

impl Fallen {
    /// Whether the entry is about a blend of which only an ingredient is here that many products have: citric acid without
    /// the silver citrate of the preservative that is made of both.
    fn is_half_a_blend(&self) -> bool {
        let parts = self.entry.glossary.to_ascii_lowercase().matches("(and)").count();
        let own = |member: &Member| matches!(member.means, Some(Meaning::Material(_) | Meaning::Allergen(_)));
        parts > 0 && by_substance(&self.members).len() <= parts && self.members.iter().all(own)
    }

    fn check(&self, product: Products) -> Option<EntryCheck> {
        if self.is_half_a_blend() {
            return None;
        }
        let reading = reading_of(self.entry)?;
        let basis = basis(reading);
        let all: Vec<&Member> = self.members.iter().collect();
        let mut says = said(reading, product, &all, basis);
        if !is_one(&self.members) && !sums(reading) {
            self.ease(&mut says, reading, product, basis);
        }
        if !self.by_name {
            // A number never decides alone.
            for said in &mut says {
                said.outcome = if said.outcome > LawOutcome::Unknown { LawOutcome::Unknown } else { said.outcome };
            }
        }
        Some(EntryCheck {
            entry: self.entry,
            of: self.members.iter().map(|member| member.at).collect(),
            low: all.iter().map(|member| member.low).sum(),
            high: all.iter().map(|member| member.high).sum(),
            reckoned: basis.and_then(|basis| sum_reckoned(&all, basis, |member| member.high)),
            by_name: self.by_name,
            says,
        })
    }

    /// Where an entry does not say that its substances count together, only what one of them breaks is broken; what all of
    /// them together do has to be looked at.
    fn ease(&self, says: &mut [Said], reading: &'static EntryReading<'static>, product: Products, basis: Option<&str>) {
        let alone: Vec<Vec<Said>> =
            by_substance(&self.members).iter().map(|members| said(reading, product, members, basis)).collect();
        for said in says.iter_mut().filter(|said| matches!(said.outcome, LawOutcome::Above | LawOutcome::MayBeAbove)) {
            let same = |other: &&Said| other.words == said.words && other.limit == said.limit;
            let gravest = alone.iter().flatten().filter(same).map(|other| other.outcome).max();
            said.outcome = gravest.unwrap_or(LawOutcome::Unknown).max(LawOutcome::Unknown);
        }
    }
}

/// The members by which substance they are.
fn by_substance(members: &[Member]) -> Vec<Vec<&Member>> {
    let mut all: Vec<Vec<&Member>> = Vec::new();
    for member in members {
        match all.iter_mut().find(|same| same.first().is_some_and(|first| first.means == member.means)) {
            Some(same) => same.push(member),
            None => all.push(vec![member]),
        }
    }
    all
}

fn is_one(members: &[Member]) -> bool {
    by_substance(members).len() < 2
}

/// Whether all that falls under an entry counts together: salts and esters of one acid, or what is reckoned as one thing;
/// not where the entry tells single substances from mixtures.
fn sums(reading: &EntryReading<'_>) -> bool {
    let together = reading.conditions.iter().any(|condition| condition.what == What::Confirm(Untold::Together));
    let forms = ["and its", "and their", "salts", "esters"].iter().any(|words| reading.entry.chemical.contains(words));
    !together && (forms || basis(reading).is_some())
}

/// As what the maximum of an entry is reckoned, where it is in one way only.
fn basis<'a>(reading: &'a EntryReading<'_>) -> Option<&'a str> {
    let maximums = reading.conditions.iter().filter_map(|condition| match &condition.what {
        What::Maximum(Maximum { reckoned_as, .. }) => reckoned_as.as_deref(),
        _ => None,
    });
    let mut all: Vec<&str> = maximums.collect();
    all.dedup();
    if let [one] = all.as_slice() { Some(one) } else { None }
}

fn sum_reckoned(members: &[&Member], basis: &str, share: impl Fn(&Member) -> Percent) -> Option<Percent> {
    let shares = members.iter().map(|member| reckoned(member.means.as_ref()?, basis, share(member)));
    shares.collect::<Option<Vec<Percent>>>().map(|all| all.into_iter().sum())
}

/// What an entry says of some substances together, at both ends of their shares.
fn said(
    reading: &'static EntryReading<'static>,
    product: Products,
    members: &[&Member],
    basis: Option<&str>,
) -> Vec<Said> {
    let judged = |share: fn(&Member) -> Percent| {
        let as_is = members.iter().map(|member| share(member)).sum();
        let reckoned = basis.and_then(|basis| sum_reckoned(members, basis, share));
        judge(reading, product, JudgedShare { as_is, reckoned })
    };
    let (high, low) = (judged(|member| member.high), judged(|member| member.low));
    let ends = high.iter().enumerate().map(|(at, high)| (high, low.get(at).map(|low| low.ruling)));
    ends.filter_map(|(high, low)| Said::of(high, low)).collect()
}
