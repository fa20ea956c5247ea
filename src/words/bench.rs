//! Words of the chemistry cards: beside the formula, and at the batch.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::chemistry::{Name, gaps, listed, percent, tenths, who, whole};
use super::{DecimalSign, dose, number};
use crate::facts::{Adjusts, IngredientId, PhWindow, RatioOf};
use crate::quantity::{Decimal, Percent, Ph, Quantity};
use crate::rules::is_far;
use crate::sheet::ph::{Bar, Prediction, Window};
use crate::sheet::{Agent, Crowding, Dose, EmulsifierLine, Emulsion, Preservation, ShareAt, Sheet, Works};
use crate::shelf::Shelf;

pub const PH: &str = "pH";
pub const PH_LINE: &str = "pH from 2 to 10";
pub const ALL_SUIT: &str = "Suits all";
pub const NO_ESTIMATE: &str = "No estimate: nothing in the water has known constants. Go by the reading of the batch.";
pub const NO_TARGET: &str = "Enter a target pH under \u{2018}About this formula\u{2019} to see it here.";
pub const LEGEND: &str =
    "Bar: the pH that each ingredient needs. Dashed: still works, with care. Grey band: estimate for the water alone.";
pub const PRESERVATIVES: &str = "Preservatives";
pub const NO_PRESERVATIVE: &str =
    "This formula has no preservative. Anything that contains water needs one, or a reason why not.";
pub const AT_PH: &str = "At pH";
pub const UNDISSOCIATED: &str = "Undissociated";
pub const ACTIVE: &str = "Active";
pub const EMULSIFIER: &str = "Emulsifier";
pub const REQUIRED_HLB: &str = "Required HLB of the oils";
pub const HLB: &str = "HLB of the emulsifiers";
pub const OF_OIL: &str = "Emulsifiers as a share of the oils";
pub const DISPERSED: &str = "Oil as a share of the volume";
pub const MEANS_NOTHING: &str = "does not apply here";
pub const NOT_KNOWN: &str = "not known";
pub const PAIR: &str = "Blend two emulsifiers to reach an HLB";
pub const FIRST: &str = "First emulsifier";
pub const SECOND: &str = "Second emulsifier";
pub const WANTED: &str = "HLB you want";
pub const TOGETHER: &str = "Total of both";
pub const PAIR_EMPTY: &str = "Enter the HLB you want and the total of both.";

pub const PH_OF_BATCH: &str = "pH of this batch";
pub const BEGIN: &str = "Start the pH log";
pub const NEEDS_MASS: &str = "Enter above how much you are making: doses are calculated for that mass.";
pub const NEEDS_TARGET: &str = "Enter the target pH.";
pub const NEXT: &str = "Next step";
pub const READ_WITH: &str = "Read with";
pub const SAMPLE_OF: &str = "Dilution";
pub const READING: &str = "pH reading";
pub const NOTE_READING: &str = "Record this reading";
pub const OTHER_WAY: &str = "Choose an acid or base that moves the pH the other way";
pub const OTHER_WAY_WHY: &str = "The batch is already past the target, and this acid or base would take it further. If its pH is within the window of every ingredient, it may stay as it is.";
pub const TAKEN: &str = "Set aside";
pub const SAMPLE_TAKEN: &str = "Done: sample set aside";
pub const MADE_BEFORE: &str =
    "You have made a solution of this strength before: use what is left of it, if there is enough.";
pub const NOT_BACK: &str = "Do not put the side sample back into the batch.";
pub const DOSE_LOT: &str = "Lot that it was made from";
pub const I_ADDED: &str = "I added";
pub const DONE: &str = "Done: I added this";
pub const SET_WITH: &str = "What you adjust it with";
pub const TITRANT: &str = "Acid or base";
pub const HAVE_AS: &str = "Form you have";
pub const AS_SOLUTION: &str = "as another solution";
pub const STRENGTH: &str = "Strength of the solution";
pub const STRENGTH_MISSING: &str = "Enter how strong the solution is";
pub const STRENGTH_WHY: &str =
    "Every dose depends on it. The strength is on the bottle: grams of the substance in 100 grams of solution.";
pub const GONE: &str = "This acid or base is no longer on the shelf. Choose another.";
pub const NOTE_DOSE: &str = "Record this dose";
pub const DOSE_SCALE: &str = "Scale for doses";
pub const SIDE_FIRST: &str = "Find the dose in a side sample first";
pub const ELSE: &str = "Record something else";
pub const IN_WHAT: &str = "Where";
pub const BAND: &str = "Dots: readings; squares: the side sample. Line: the model; band: its range in nine cases out of ten. Diamond: the next dose and its range. Dashed: the target.";
pub const ADDED: &str = "added, g per kg";

fn names(bars: &[usize], window: &Window, name: Name<'_>) -> String {
    let of = |n: &usize| window.bars.get(*n).map(|bar| who(bar.who, name));
    bars.iter().filter_map(of).collect::<Vec<_>>().join(", ")
}

/// The pH card in one line. That the target lies within every window is no praise of it: whether the formula reaches it is
/// another question.
pub fn ph_summary(sheet: &Sheet, target: Option<Ph>, name: Name<'_>, sign: DecimalSign) -> String {
    let exact = |ph: Ph| number(&ph.canonical(), sign);
    let window = &sheet.window;
    match (&window.meeting, target) {
        (Err((more, less)), _) => {
            format!("No pH suits both {}", names(&[*more, *less], window, name).replace(", ", " and "))
        }
        (Ok(meeting), Some(target)) => {
            let against = window.against(target);
            if against.is_empty() {
                let reached = reached(sheet, sign);
                format!("Target {} lies within all windows{}{reached}", exact(target), range(meeting, sign))
            } else {
                format!("Target {} is outside the window of {}", exact(target), names(&against, window, name))
            }
        }
        (Ok(_), None) => super::chemistry::meeting(window, name, sign).trim_end_matches('.').to_owned(),
    }
}

/// What the estimate says to the target, behind the windows.
fn reached(sheet: &Sheet, sign: DecimalSign) -> String {
    let Some(found) = &sheet.ph else { return "; no estimate, a reading decides".to_owned() };
    let estimate = format!("pH {} to {}", dose::ph(found.low, sign), dose::ph(found.high, sign));
    let Some(missed) = &sheet.ph_missed else { return format!("; estimate {estimate}, a reading decides") };
    let (side, needed) = match (missed.way, missed.less_is_enough) {
        (Adjusts::Up, false) => ("below", "a base is needed"),
        (Adjusts::Up, true) => ("below", "less acid or a base is needed"),
        (Adjusts::Down, false) => ("above", "an acid is needed"),
        (Adjusts::Down, true) => ("above", "less base or an acid is needed"),
    };
    let far = if is_far(missed) { "far " } else { "" };
    format!(", but the estimate, {estimate}, is {far}{side} it: {needed}, by readings")
}

fn range(window: &PhWindow, sign: DecimalSign) -> String {
    let text = window_text(window, sign);
    if text.is_empty() { text } else { format!(" ({text})") }
}

/// A window as text.
fn window_text(window: &PhWindow, sign: DecimalSign) -> String {
    let end = |ph: Ph| dose::ph(ph, sign);
    match (window.min, window.max) {
        (Some(min), Some(max)) => format!("{} to {}", end(min), end(max)),
        (Some(min), None) => format!("{} or more", end(min)),
        (None, Some(max)) => format!("{} or less", end(max)),
        (None, None) => String::new(),
    }
}

/// The bars, for who cannot see them.
pub fn bars(window: &Window, target: Option<Ph>, name: Name<'_>, sign: DecimalSign) -> String {
    let one = |found: &Bar| format!("{}: {}", who(found.who, name), window_text(&found.window, sign));
    let mut all: Vec<String> = window.bars.iter().map(one).collect();
    all.extend(target.map(|target| target_text(target, sign)));
    all.join("; ")
}

/// The target as text.
pub fn target_text(target: Ph, sign: DecimalSign) -> String {
    format!("target {}", number(&target.canonical(), sign))
}

/// A name that fits over a bar.
pub fn short(name: &str) -> String {
    const MOST: usize = 40;
    if name.chars().count() <= MOST {
        return name.to_owned();
    }
    format!("{}\u{2026}", name.chars().take(MOST - 1).collect::<String>().trim_end())
}

/// How a diluted sample reads; nothing if it makes no difference that a meter would show.
pub fn shift(found: &Prediction, sign: DecimalSign) -> Option<String> {
    let parts = [(5, found.shift_one_in_five), (10, found.shift_one_in_ten)];
    let all: Vec<String> = parts
        .into_iter()
        .filter(|(_, by)| by.abs() >= 5)
        .map(|(parts, by)| {
            let size = number(&Decimal::new(by.abs(), 2).canonical(), sign);
            format!("a sample diluted 1 in {parts} reads about {size} {}", if by > 0 { "higher" } else { "lower" })
        })
        .collect();
    (!all.is_empty()).then(|| format!("By the same estimate, {}.", all.join(", ")))
}

/// The preservatives in one line.
pub fn preservation_summary(found: Option<&Preservation>, target: Option<Ph>, sign: DecimalSign) -> String {
    let Some(found) = found else { return "None in this formula".to_owned() };
    let Some(target) = target else { return "How well they work depends on the target pH".to_owned() };
    let at = number(&target.canonical(), sign);
    let count = |holds: &dyn Fn(&Agent) -> bool| found.agents.iter().filter(|agent| holds(agent)).count();
    let over = count(&|agent| agent.limit.is_some_and(|limit| agent.counted_most > limit));
    let (work, edge) = (count(&|agent| agent.works == Works::Yes), count(&|agent| agent.works == Works::WithCare));
    let mut text = match (over, found.agents.len()) {
        (0, _) => String::new(),
        (_, 1) => "Over its limit. ".to_owned(),
        (over, all) => format!("{over} of {all} over the limit. "),
    };
    text += &match (work, edge, found.agents.len()) {
        (_, _, 0) => "Composition not known".to_owned(),
        (1, _, 1) => format!("It works at pH {at}"),
        (_, 1, 1) => format!("pH {at} is at the edge of its window"),
        (_, _, 1) => format!("It does not count at pH {at}"),
        (_, 0, all) => format!("{work} of {all} work at pH {at}"),
        (_, edge, all) => format!("{work} of {all} work at pH {at}, {edge} at the edge"),
    };
    let weak = found.cover.map(gaps).unwrap_or_default();
    if !weak.is_empty() {
        text += "; weak: ";
        text += &weak.iter().map(|(organism, _)| *organism).collect::<Vec<_>>().join(", ");
    }
    text
}

/// Whether a preservative works, in a word.
pub const fn works(works: Works) -> &'static str {
    match works {
        Works::Yes => "Works",
        Works::WithCare => "At the edge",
        Works::No => "Does not count",
        Works::TooLittle => "Too little",
        Works::Unknown => "Not assessed",
    }
}

/// What was added of a preservative, and what that counts as.
pub fn agent_amount(found: &Agent, name: Name<'_>, sign: DecimalSign) -> String {
    let mut text = format!("{} added", percent(found.added, sign));
    if found.counted != found.added {
        text += &format!(", {} as acid", percent(found.counted, sign));
    }
    if let Some(usual) = found.usual {
        text += &match (usual.low, usual.high) {
            (Some(low), Some(high)) => format!("; usual {} to {}", percent(low, sign), percent(high, sign)),
            (Some(low), None) => format!("; usual from {}", percent(low, sign)),
            (None, Some(high)) => format!("; usual up to {}", percent(high, sign)),
            (None, None) => String::new(),
        };
    }
    if let Some(limit) = found.limit.filter(|limit| *limit > Percent::ZERO) {
        text += &format!("; limit {}", percent(limit, sign));
        text += if found.substance.limit_provenance.is_verified() { "" } else { super::page::UNVERIFIED };
    }
    format!("{text}. From {}.", listed(&found.lines, name))
}

/// A row of shares: the pH, the undissociated share with its range, what of the formula is active.
pub fn share_row(at: &ShareAt, sign: DecimalSign) -> [String; 3] {
    let range = format!("{} ({} to {})", whole(at.share, sign), whole(at.range.0, sign), whole(at.range.1, sign));
    [dose::ph(at.ph, sign), range, percent(at.active, sign)]
}

/// What the substance of a preservative is called.
pub fn substance(id: &str, shelf: &Shelf) -> String {
    let entry = IngredientId::parse(id).ok().and_then(|id| shelf.entry(&id));
    entry.map_or_else(|| id.to_owned(), |entry| entry.label().to_owned())
}

/// Which organisms are covered weakly or only fairly.
pub fn coverage(found: &Preservation) -> Option<String> {
    let weak = gaps(found.cover?);
    if weak.is_empty() {
        return Some("The preservatives that count cover bacteria, yeasts and moulds.".to_owned());
    }
    let one = |(organism, grade): &(&str, u8)| format!("{organism} ({})", if *grade == 0 { "weak" } else { "fair" });
    Some(format!("Covered only weakly or fairly: {}.", weak.iter().map(one).collect::<Vec<_>>().join(", ")))
}

/// Blends whose composition nobody told.
pub fn unknown_blends(found: &Preservation, name: Name<'_>) -> Option<String> {
    let lines = &found.unknown_blends;
    (!lines.is_empty()).then(|| format!("Composition not known, so not counted: {}.", listed(lines, name)))
}

/// The emulsifier in one line.
pub fn emulsion_summary(found: Option<&Emulsion>, sign: DecimalSign) -> String {
    let Some(found) = found else { return "This formula does not have both an oil and an emulsifier".to_owned() };
    let mut parts = vec![super::chemistry::system(found.system).to_owned()];
    if let Some(share) = found.of_oils().filter(|_| found.goes_by_share()) {
        let dose = match found.dose {
            Some(Dose::Low) => ": too little",
            Some(Dose::Lean) => ": on the low side",
            Some(Dose::Good) => ": usual",
            None => "",
        };
        parts.push(match &found.polymer {
            Some(part) => format!("polymer {} of the whole formula{dose}", percent(part.share, sign)),
            None => format!("{} of the oils{dose}", whole(share, sign)),
        });
    }
    if let (true, Some(required), Some(hlb)) = (found.goes_by_hlb(), found.required, found.hlb) {
        parts.push(format!("HLB {}, required {}", tenths(hlb, sign), tenths(required, sign)));
    }
    parts.join("; ")
}

/// What the card shows large: what it is, and how much.
pub fn emulsion_numbers(found: &Emulsion, sign: DecimalSign) -> Vec<(&'static str, String)> {
    let not_known = || NOT_KNOWN.to_owned();
    let crowding = match found.crowding {
        None => "",
        Some(Crowding::Loose) => ": plenty of room",
        Some(Crowding::Thick) => ": thick",
        Some(Crowding::Crowded) => ": closely packed",
        Some(Crowding::BeyondPacking) => ": may invert",
    };
    let means_nothing = !found.no_hlb.is_empty() || !found.goes_by_hlb();
    let nothing = if means_nothing { MEANS_NOTHING } else { NOT_KNOWN };
    let hlb = found.hlb.filter(|_| !means_nothing);
    vec![
        (REQUIRED_HLB, found.required.map_or_else(not_known, |hlb| tenths(hlb, sign))),
        (HLB, hlb.map_or_else(|| nothing.to_owned(), |hlb| tenths(hlb, sign))),
        (OF_OIL, found.of_oils().map_or_else(not_known, |share| whole(share, sign))),
        (DISPERSED, found.dispersed.map_or_else(not_known, |share| format!("{}{crowding}", whole(share, sign)))),
    ]
}

/// The rule for an emulsifier of which a share is usual.
pub fn ratio_rule(part: &EmulsifierLine, name: Name<'_>, sign: DecimalSign) -> Option<String> {
    let usual = part.usual?;
    let of = if usual.of == RatioOf::Oil { "the oils" } else { "the whole formula" };
    let (least, good) = (percent(usual.least, sign), percent(usual.good, sign));
    let name = name(part.line);
    Some(format!("{name}: at least {least}, usually {good} of {of}. Source: {} (unverified).", usual.source))
}

/// Which oils have no number.
pub fn without_number(found: &Emulsion, name: Name<'_>) -> Option<String> {
    let lines = &found.required_unknown;
    (!lines.is_empty()).then(|| format!("Oils without a required HLB, left out: {}.", listed(lines, name)))
}

/// A candidate in a list.
pub fn candidate(found: &crate::sheet::PairingCandidate, sign: DecimalSign) -> String {
    format!("{} ({})", found.name, tenths(found.hlb, sign))
}

/// An acid or base in a list.
pub fn adjuster(found: &crate::batch::Adjuster) -> String {
    let way = if found.row.adjusts == Some(Adjusts::Up) { "raises" } else { "lowers" };
    format!("{} ({way})", found.name)
}

/// What there is of an acid or base, as it is usually sold.
pub fn as_sold(strength: Percent, sign: DecimalSign) -> String {
    if strength == Percent::WHOLE {
        "pure, as a solid".to_owned()
    } else {
        format!("as sold, {}", percent(strength, sign))
    }
}

/// What stands over the next step: what is to be reached.
pub fn to_reach(target: Ph, sign: DecimalSign) -> String {
    format!("{NEXT} to pH {}", number(&target.canonical(), sign))
}

/// What the log of a batch is begun with.
pub fn begin_with(batch: &str, target: Ph, sign: DecimalSign) -> String {
    format!("Batch of {batch}, to be adjusted to pH {}.", number(&target.canonical(), sign))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_names_fit_over_a_bar() {
        assert_eq!(short("Skin"), "Skin");
        let long = short("Phenoxyethanol + benzoic acid + dehydroacetic acid");
        assert!(long.chars().count() <= 40 && long.ends_with('\u{2026}'), "{long}");
    }

    #[test]
    fn preservatives_in_one_line_do_not_praise_what_is_over_its_limit() {
        let row = crate::facts::preservative("benzoic-acid").unwrap();
        let agent = |most: i64, works| Agent {
            substance: row,
            lines: Vec::new(),
            added: Percent::from_units(most),
            counted: Percent::from_units(most),
            counted_most: Percent::from_units(most),
            limit: Some(Percent::from_units(500_000)),
            shares: None,
            in_water: None,
            usual: None,
            works,
        };
        let said = |agents: Vec<Agent>| {
            let found = Preservation { agents, cover: None, unknown_blends: Vec::new() };
            preservation_summary(Some(&found), Some(Ph::from_units(520)), DecimalSign::Point)
        };
        assert_eq!(said(vec![agent(400_000, Works::Yes)]), "It works at pH 5.2");
        assert_eq!(said(vec![agent(900_000, Works::WithCare)]), "Over its limit. pH 5.2 is at the edge of its window");
        assert_eq!(
            said(vec![agent(900_000, Works::No), agent(1, Works::WithCare), agent(1, Works::Yes)]),
            "1 of 3 over the limit. 1 of 3 work at pH 5.2, 1 at the edge"
        );
    }
}
