//! What an entry says of a substance in a product.

use super::acts::act_of;
use super::condition::{Condition, EntryReading, Letters, Maximum, What, WordingWhen};
use super::figure::is_a_part;
use super::scope::LEAVE_ON;
use super::{AnnexEntry, Applies, Products, Scope};
use crate::quantity::Day;
use crate::quantity::{Percent, Quantity};

/// The share of a substance in the ready for use preparation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JudgedShare {
    /// As the substance itself.
    pub as_is: Percent,
    /// As what the entry reckons it, such as the acid of its salt; none where that is not known.
    pub reckoned: Option<Percent>,
}

impl JudgedShare {
    /// A share of the substance itself, of which it is not known how much it is in other terms.
    pub const fn of(as_is: Percent) -> Self {
        Self { as_is, reckoned: None }
    }
}

/// What a condition comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ruling {
    /// The substance is prohibited in this product.
    Prohibited,
    /// The entry lists the product types that it allows, and this is none of them.
    NotAmong,
    /// Above the maximum.
    Over,
    /// At the maximum.
    At,
    /// Below the maximum.
    Under,
    /// It has to be indicated in the list of ingredients.
    Indicate,
    /// It has to be printed.
    Print,
    /// It cannot be told; the words have to be read.
    Open,
    /// Nothing: the condition is not about this product, or asks nothing at this share.
    Nothing,
}

/// One condition of an entry, as it bears on a product.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Judgement<'a> {
    /// The entry.
    pub entry: &'a AnnexEntry,
    /// The sub-entries that say so.
    pub letters: Letters,
    /// What is asked, as it was read; none where the list of product types itself decides.
    pub what: Option<&'a What>,
    /// Whether it is about this product.
    pub applies: Applies,
    /// What it comes to.
    pub ruling: Ruling,
    /// The share beyond which something follows.
    pub limit: Option<Percent>,
    /// The day from which products have to comply to be placed on the market, where the entry or its act gives one. Until then
    /// the rule before it counts, which is not known here.
    pub placed_from: Option<Day>,
    /// The day from which they have to comply to be made available there, where the entry or its act gives one.
    pub available_from: Option<Day>,
    /// The law's own words.
    pub words: &'a str,
}

/// What all judgements of an entry come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// All that it asks of the share and of the product is kept; what is to be printed or indicated is to be.
    Within,
    /// Something in it cannot be told by program.
    Open,
    /// Against it.
    Against,
}

/// What an entry says of a substance in a product: one judgement for each condition.
///
/// `product` is what the product may be: a set of one for a product of which all is known. A share of nothing asks nothing.
pub fn judge<'a>(reading: &'a EntryReading<'a>, product: Products, share: JudgedShare) -> Vec<Judgement<'a>> {
    if share.as_is.units() <= 0 {
        return Vec::new();
    }
    let (placed_from, available_from) = days(reading);
    let judgement = |letters, what, (applies, ruling, limit), words| Judgement {
        entry: reading.entry,
        letters,
        what,
        applies,
        ruling,
        limit,
        placed_from,
        available_from,
        words,
    };
    let mut found = Vec::new();
    if let Some(of) = reading.uses.first() {
        let (applies, ruling) = among(reading, product);
        // One list has its words in one cell; several have them in the cell of the product types.
        let words = if reading.uses.len() == 1 { of.words.as_str() } else { reading.entry.product.as_str() };
        found.push(judgement(Letters::ALL, None, (applies, ruling, None), words));
    }
    for condition in &reading.conditions {
        let within = scope_of(reading, condition.letters);
        if let Some(came_to) = came_to(condition, within, product, share) {
            found.push(judgement(condition.letters, Some(&condition.what), came_to, condition.words.as_str()));
        }
    }
    found
}

/// What the judgements of an entry come to together.
pub fn verdict(judgements: &[Judgement<'_>]) -> Verdict {
    let of = |judgement: &Judgement<'_>| match judgement.ruling {
        Ruling::Prohibited | Ruling::NotAmong | Ruling::Over => Verdict::Against,
        Ruling::Open => Verdict::Open,
        _ => Verdict::Within,
    };
    judgements.iter().map(of).max().unwrap_or(Verdict::Within)
}

/// The days of the entry: those that it states, or else those of the act that changed it last.
fn days(reading: &EntryReading<'_>) -> (Option<Day>, Option<Day>) {
    let stated = reading.conditions.iter().find_map(|condition| match condition.what {
        What::From { placed, available } => Some((placed, available)),
        _ => None,
    });
    let of_act = || act_of(reading.entry).map(|act| (Some(act.placed), Some(act.available)));
    stated.or_else(of_act).unwrap_or((None, None))
}

/// Whether the product is among those that the entry allows.
fn among(reading: &EntryReading<'_>, product: Products) -> (Applies, Ruling) {
    let open = Scope { sure: Products::NONE, may: Products::ALL };
    let allowed = reading.uses.iter().map(|of| of.scope.unwrap_or(open)).fold(Scope::NONE, Scope::or);
    match allowed.covers(product) {
        Applies::Yes => (Applies::Yes, Ruling::Nothing),
        Applies::No => (Applies::Yes, Ruling::NotAmong),
        Applies::Unknown => (Applies::Unknown, Ruling::Open),
    }
}

/// What some sub-entries cover.
fn scope_of(reading: &EntryReading<'_>, letters: Letters) -> Scope {
    let open = Scope { sure: Products::NONE, may: Products::ALL };
    let lettered = || reading.uses.iter().filter(|of| of.letter.is_some());
    if letters == Letters::ALL || lettered().next().is_none() {
        return Scope::ALL;
    }
    let of_them = lettered().filter(|of| of.letter.is_some_and(|letter| letters.has(letter)));
    of_them.map(|of| of.scope.unwrap_or(open)).fold(Scope::NONE, Scope::or)
}

type CameTo = (Applies, Ruling, Option<Percent>);

fn came_to(condition: &Condition, within: Scope, product: Products, share: JudgedShare) -> Option<CameTo> {
    let when = |scope: Scope, ruling: Ruling| {
        let applies = within.and(scope).covers(product);
        let ruling = match applies {
            Applies::Yes => ruling,
            Applies::No => Ruling::Nothing,
            Applies::Unknown => Ruling::Open,
        };
        (applies, ruling, None)
    };
    Some(match &condition.what {
        What::Prohibited(scope) | What::NotFor(scope) => when(*scope, Ruling::Prohibited),
        What::Maximum(maximum) => compared(maximum, within, product, share),
        What::Declare { leave_on, rinse_off, .. } => indicated(*leave_on, *rinse_off, within, product, share.as_is),
        What::Label { when: said } => match said {
            WordingWhen::Always => when(Scope::ALL, Ruling::Print),
            WordingWhen::In(scope) => when(**scope, Ruling::Print),
            WordingWhen::AsSaid => when(Scope::ALL, Ruling::Open),
            WordingWhen::Above(limit) => {
                let ruling = if share.as_is > *limit { Ruling::Print } else { Ruling::Nothing };
                let (applies, ruling, _) = when(Scope::ALL, ruling);
                (applies, ruling, Some(*limit))
            }
        },
        What::Confirm(_) | What::Unread => when(Scope::ALL, Ruling::Open),
        What::From { .. } | What::Note => return None,
    })
}

/// A share against a maximum.
fn compared(maximum: &Maximum, within: Scope, product: Products, share: JudgedShare) -> CameTo {
    let applies = within.and(maximum.only.unwrap_or(Scope::ALL)).covers(product);
    let limit = Some(maximum.most);
    if applies == Applies::No {
        return (applies, Ruling::Nothing, limit);
    }
    let ruling = match against(maximum, share) {
        // Whether it is about this product or not: it would be kept.
        Ruling::Under => Ruling::Under,
        other if applies == Applies::Yes => other,
        Ruling::At => Ruling::At,
        _ => Ruling::Open,
    };
    (applies, ruling, limit)
}

fn against(maximum: &Maximum, share: JudgedShare) -> Ruling {
    let exact = if maximum.reckoned_as.is_none() { Some(share.as_is) } else { share.reckoned };
    let Some(exact) = exact else {
        // Not known in those terms. A part is never more than the whole.
        let part = maximum.reckoned_as.as_deref().is_some_and(is_a_part);
        return if part && share.as_is < maximum.least { Ruling::Under } else { Ruling::Open };
    };
    if exact < maximum.least {
        Ruling::Under
    } else if exact == maximum.least && maximum.least == maximum.most {
        Ruling::At
    } else if exact > maximum.most && !maximum.after_mixing {
        Ruling::Over
    } else {
        // Between two figures, at the lower one of two, or above what holds once it is mixed.
        Ruling::Open
    }
}

fn indicated(leave_on: Percent, rinse_off: Percent, within: Scope, product: Products, share: Percent) -> CameTo {
    let applies = within.covers(product);
    let limit = match LEAVE_ON.covers(product) {
        Applies::Yes => Some(leave_on),
        Applies::No => Some(rinse_off),
        Applies::Unknown => None,
    };
    let (least, most) = limit.map_or((leave_on.min(rinse_off), leave_on.max(rinse_off)), |limit| (limit, limit));
    let ruling = match applies {
        Applies::No => Ruling::Nothing,
        _ if share <= least => Ruling::Nothing,
        Applies::Yes if share > most => Ruling::Indicate,
        _ => Ruling::Open,
    };
    (applies, ruling, limit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::{Annex, COMPACT, Law, read};
    use proptest::prelude::*;
    use std::sync::LazyLock;

    static LAW: LazyLock<Law> = LazyLock::new(|| Law::read(COMPACT).unwrap());

    fn percent(text: &str) -> Percent {
        Percent::from_canonical(text).unwrap()
    }

    #[test]
    fn judge_shares_of_salts_by_what_is_known() {
        let sorbate = LAW.find(Annex::V, "4").next().unwrap();
        let reading = read(sorbate);
        let ruling = |as_is: &str, reckoned: Option<&str>| {
            let share = JudgedShare { as_is: percent(as_is), reckoned: reckoned.map(percent) };
            judge(&reading, Products::of_kinds(&[crate::law::ProductKind::BodyLotion]), share)[0].ruling
        };
        // Sorbic acid: 0.6 % as acid. Potassium sorbate is 74.6 % acid (112.13 of 150.22 g/mol).
        assert_eq!(ruling("0.59", None), Ruling::Under);
        assert_eq!(ruling("0.8", None), Ruling::Open);
        assert_eq!(ruling("0.8", Some("0.597150")), Ruling::Under);
        assert_eq!(ruling("0.8", Some("0.6")), Ruling::At);
        assert_eq!(ruling("0.81", Some("0.604612")), Ruling::Over);
    }

    // Annex III/376 states its days; III/75 was changed by Regulation (EU) 2026/909, III/98 has none.
    #[test]
    fn judge_says_from_which_day_it_counts() {
        let day = |reference: &str| {
            let reading = read(LAW.find(Annex::III, reference).next().unwrap());
            judge(&reading, Products::ALL, JudgedShare::of(percent("1")))[0].placed_from
        };
        assert_eq!(day("376"), Day::from_calendar(2025, 11, 1));
        assert_eq!(day("75"), Day::from_calendar(2027, 1, 1));
        assert_eq!(day("98"), None);
    }

    #[test]
    fn judge_without_a_share_asks_nothing() {
        let first = read(&LAW.entries()[0]);
        assert_eq!(judge(&first, Products::ALL, JudgedShare::of(percent("0"))), []);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(20))]

        /// More of a substance is never better; and what is unread or to be confirmed is never within.
        #[test]
        fn judge_more_is_never_better_and_the_unread_never_fine(at in any::<prop::sample::Index>(), low in 1i64..5_000_000, more in 0i64..5_000_000, bits in any::<u64>()) {
            let entry = &LAW.entries()[1758..][at.index(LAW.entries().len() - 1758)];
            let reading = read(entry);
            let kinds: Vec<_> = crate::law::ProductKind::ALL.iter().enumerate().filter(|(n, _)| bits >> n & 1 == 1).map(|(_, kind)| *kind).collect();
            let product = Products::of_kinds(&kinds);
            prop_assume!(!product.is_none());
            let of = |units: i64| verdict(&judge(&reading, product, JudgedShare { as_is: Percent::from_units(units), reckoned: Some(Percent::from_units(units)) }));
            prop_assert!(of(low) <= of(low + more));
            if reading.conditions.iter().any(|condition| condition.what == What::Unread && condition.letters == Letters::ALL) {
                prop_assert!(of(low) >= Verdict::Open);
            }
        }
    }
}
