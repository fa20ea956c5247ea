//! How long a batch keeps.

use super::{NO_DATE, NO_END, OUTLOOK_IS_NO_DATE, count, day, days, months};
use crate::batch::study::{LotEnd, LotEndBasis, ShelfLife, ShelfLimit, StudyLot};
use crate::facts::{Months, OxidationOutlook};
use crate::quantity::Day;
use crate::words::fats;

/// What ends the shelf life, as a label and a date.
pub fn limit(of: &ShelfLimit) -> String {
    match of {
        ShelfLimit::Lot(lot, _) => format!("First lot to end: {}", lot_name(lot)),
        ShelfLimit::Rule(rule) => format!("Your rule: {} after making", months(*rule)),
        ShelfLimit::Sample => "Last room sample before one was outside its limits".to_owned(),
    }
}

/// Where the end of a lot comes from.
pub fn lot_end_basis(basis: LotEndBasis) -> String {
    match basis {
        LotEndBasis::Noted => "as noted for this batch".to_owned(),
        LotEndBasis::Shelf => "as it stands on the shelf".to_owned(),
        LotEndBasis::Opened(on, good) => format!("opened on {}, good for {} from then", day(on), months(good)),
    }
}

/// Where a limit comes from, where that is more than its name says.
pub fn limit_basis(of: &ShelfLimit) -> String {
    match of {
        ShelfLimit::Lot(_, basis) => lot_end_basis(*basis),
        ShelfLimit::Rule(_) | ShelfLimit::Sample => String::new(),
    }
}

/// How long a lot keeps, by all that is known; the first day counts.
pub fn lot_keeps(end: &LotEnd) -> String {
    let one = |(on, basis): &(Day, LotEndBasis)| format!("{}, {}", day(*on), lot_end_basis(*basis));
    match end.ends.as_slice() {
        [] if end.is_unnamed() => "No lot noted.".to_owned(),
        [] => "No end known.".to_owned(),
        [only] => format!("Until {}.", one(only)),
        [first, later @ ..] => {
            let later: Vec<String> = later.iter().map(one).collect();
            format!("Until {}. Later: {}.", one(first), later.join("; "))
        }
    }
}

/// An ingredient with its lot.
pub fn lot_name(lot: &StudyLot) -> String {
    if lot.lot.is_empty() { lot.name.clone() } else { format!("{} {}", lot.name, lot.lot) }
}

/// What binds.
pub fn binding(life: &ShelfLife, today: Day) -> String {
    if life.evidence.outside_after.is_some() {
        return NO_DATE.to_owned();
    }
    let Some((last, binds)) = life.limits.first() else { return NO_END.to_owned() };
    let what = match binds {
        ShelfLimit::Lot(lot, basis) => format!("{} ({})", lot_name(lot), lot_end_basis(*basis)),
        ShelfLimit::Rule(_) => "your rule".to_owned(),
        ShelfLimit::Sample => "the room sample that was outside its limits".to_owned(),
    };
    let verb = if *last < today { "The shortest has passed" } else { "The shortest binds" };
    format!("{verb}: best before end of {}, by {what}.", day(*last))
}

/// What is seen so far, which limits nothing.
pub fn evidence(life: &ShelfLife) -> String {
    match life.evidence.outside_after {
        Some(after) => {
            format!("A room sample was outside its limits on day {after}. Find out why before anything is used.")
        }
        None if life.evidence.days == 0 => "Nothing yet beyond day 0.".to_owned(),
        None => format!("{} at room temperature. This is evidence so far, not a limit.", days(life.evidence.days)),
    }
}

/// How soon the oils go rancid; that is no date.
pub fn outlook(outlook: OxidationOutlook) -> String {
    format!("{} {OUTLOOK_IS_NO_DATE}", fats::outlook(outlook))
}

/// What the label says, where that is another day than the one that follows here.
pub fn label_says(text: &str) -> String {
    format!("The label says {text}.")
}

/// How long it keeps opened.
pub fn after_opening(given: Option<Months>, pack: &str) -> String {
    match given {
        Some(given) => format!("{}, {pack}: as you stated for the label.", months(given)),
        None => format!("Not stated for the label ({pack}). A jar that fingers go into keeps shorter than a pump."),
    }
}

/// Of how many lots the end is not known, and of how many ingredients the lot.
pub fn ends_not_known(life: &ShelfLife) -> Option<String> {
    let number = |number: usize| i64::try_from(number).ok().filter(|number| *number > 0);
    let lots =
        number(life.lots_without_end()).map(|number| format!("{} without an end date", count(number, "lot", "lots")));
    let unnamed = number(life.without_lot())
        .map(|number| format!("{} without a lot", count(number, "ingredient", "ingredients")));
    let both: Vec<String> = lots.into_iter().chain(unnamed).collect();
    (!both.is_empty()).then(|| format!("{}: an earlier end is not ruled out.", both.join(", ")))
}
