//! Words of the card of the annexes: what the law says of the substances of a formula, in its own words.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{DecimalSign, bench, with_unit};
use crate::compliance::{EntryCheck, LawOutcome, Said};
use crate::formula::Region;
use crate::law::{Law, Letters, RegionStanding, base_law, regional_law};
use crate::names::Meaning;
use crate::quantity::Percent;
use crate::sheet::AnnexCheck;
use crate::shelf::Shelf;

pub const TITLE: &str = "The annexes";
pub const COMING: &str = "Nothing is checked yet: the law is loading \u{2026}";
pub const MISSING: &str = "Nothing is checked: the law could not be loaded. Check the connection and try again.";
pub const CHECKING: &str = "Being looked up \u{2026}";
pub const NOTHING: &str = "There is no substance to look up yet.";
pub const UNREAD: &str = "Not recognised: nothing is checked for these";
pub const ASKED: &str = "Only likely: nothing is checked for these until you write which it is";
pub const NO_ENTRY: &str =
    "None of the names that were recognised was found in the annexes. That says nothing about harm.";
pub const BY_NUMBER: &str = "Found by a number only, which does not decide: check whether this entry is meant.";
pub const NO_CONDITION: &str = "None of its conditions that were read applies to this product. See the entry itself.";
pub const USUAL_SHARES: &str = "The percentage rests on a usual composition, not on a supplier\u{2019}s document.";
pub const PROVISO: &str = "A program reads this, and it can be wrong. The text of the law counts, and a safety assessor decides. What is in no annex can still do harm. Lines without a name or a percentage are not included.";

/// The card in one line: what is grave first. `unrecognised` is how many names nobody is certain of.
pub fn summary(check: &AnnexCheck, unrecognised: usize) -> String {
    let of = |outcomes: &[LawOutcome]| outcomes.iter().map(|outcome| check.count(*outcome)).sum::<usize>();
    let parts = [
        (of(&[LawOutcome::Prohibited]), "prohibited"),
        (of(&[LawOutcome::Above]), "above a limit"),
        (of(&[LawOutcome::MayBeAbove]), "perhaps above a limit"),
        (unrecognised, "not recognised"),
        (of(&[LawOutcome::Unknown]), "not judged by this program"),
        (of(&[LawOutcome::Print, LawOutcome::Indicate]), "to be put on the label"),
        (of(&[LawOutcome::Within]), "within what was read"),
    ];
    let told: Vec<String> =
        parts.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}")).collect();
    if told.is_empty() { NOTHING.to_owned() } else { told.join(", ") }
}

/// A question for a name that is only likely.
pub fn question(name: &str, candidates: &[Meaning], shelf: &Shelf) -> String {
    /// More are no question any more.
    const MOST: usize = 3;
    let called = |means: &Meaning| means.id().map_or_else(|| means.text().to_owned(), |id| bench::substance(id, shelf));
    let few: Vec<String> = candidates.iter().take(MOST).map(called).collect();
    let more = if candidates.len() > MOST { ", or another" } else { "" };
    format!("\u{201c}{name}\u{201d}: is it {}{more}?", few.join(", or "))
}

/// Its annex and number.
pub fn entry_title(entry: &EntryCheck) -> String {
    format!("Annex {}", entry.entry.short_title())
}

/// What it is about, as the law calls it.
pub fn entry_about(entry: &EntryCheck) -> String {
    entry.entry.chemical.replace('\n', " ")
}

/// Which substances fall under an entry, each once, and their share together.
pub fn under(check: &AnnexCheck, entry: &EntryCheck, sign: DecimalSign) -> String {
    let mut names: Vec<&str> = Vec::new();
    for one in check.substances(entry) {
        if !names.contains(&one.name.as_str()) {
            names.push(&one.name);
        }
    }
    let reckoned = entry.reckoned.map(|share| format!(", {} as the entry counts it", with_unit(share, "%", sign)));
    format!("{}: {}{}", names.join(", "), share(entry.low, entry.high, sign), reckoned.unwrap_or_default())
}

fn share(low: Percent, high: Percent, sign: DecimalSign) -> String {
    let high_text = with_unit(high, "%", sign);
    if low == high { high_text } else { format!("{} to {high_text}", with_unit(low, "%", sign)) }
}

/// What a condition comes to.
pub fn outcome(said: &Said, sign: DecimalSign) -> String {
    let limit = said.limit.map(|limit| with_unit(limit, "%", sign));
    let limited =
        |what: &str, or: &str| limit.as_ref().map_or_else(|| or.to_owned(), |limit| format!("{what} {limit}"));
    match said.outcome {
        LawOutcome::Prohibited => "Prohibited in this product, or not among what is allowed".to_owned(),
        LawOutcome::Above => limited("Above", "Above the limit"),
        LawOutcome::MayBeAbove => limited("Perhaps above", "Perhaps above the limit"),
        LawOutcome::Unknown => "This program cannot judge it: read the words".to_owned(),
        LawOutcome::Print => limited("These words go on the label above", "These words go on the label"),
        LawOutcome::Indicate => limited("Named in the list of ingredients above", "Named in the list of ingredients"),
        LawOutcome::Within => limited("Within", "Kept as far as it was read"),
    }
}

/// The law's own words of a condition, and from which day they hold.
pub fn law_words(said: &Said) -> String {
    let letters: String = match said.letters {
        Letters::ALL | Letters::NONE => String::new(),
        some => some.iter().map(|letter| format!("({letter}) ")).collect(),
    };
    let placed = said.placed_from.map(|day| format!(" Placed on the market: from {day}."));
    let available = said.available_from.map(|day| format!(" Made available there: from {day}."));
    let days = [placed, available].into_iter().flatten().collect::<String>();
    format!("{letters}\u{201c}{}\u{201d}{days}", said.words.replace('\n', " "))
}

/// What is known of the law of another region beside an entry: differences of that entry or its annex, and what is not known of
/// them, each with its source.
pub fn regional(region: Region, entry: &EntryCheck) -> Vec<String> {
    let rows = regional_law(region.key(), entry.entry).filter(|row| row.standing != RegionStanding::Base);
    rows.map(|row| {
        let memory = if row.provenance.is_verified() { "" } else { ", unverified" };
        format!("{} ({}{memory})", row.difference, row.source)
    })
    .collect()
}

/// How the law of another region stands to all of the annexes; that nothing is known, where that is so.
pub fn standing(region: Region) -> Option<&'static str> {
    match region {
        Region::Eu => None,
        Region::Elsewhere => super::differs(region),
        Region::Gb | Region::Us => base_law(region.key()).map(|row| row.difference),
    }
}

/// Where it stands, and to which day that is known.
pub fn source(law: Option<&Law>) -> String {
    let known = law.and_then(Law::known_to).map(|day| format!(", as kept to {day}")).unwrap_or_default();
    format!(
        "Source: Annexes II to VI of Regulation (EC) No 1223/2009, exports of the Commission\u{2019}s database of cosmetic ingredients{known}."
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formula::{About, LineId};
    use crate::quantity::Quantity;
    use crate::sheet::{FormulaComposition, Named, SubstanceShare, Trust};

    fn checked(parts: &[(&str, &str)]) -> AnnexCheck {
        let share = |(name, percent): &(&str, &str)| {
            let share = Percent::from_canonical(percent).unwrap();
            SubstanceShare::new(&Named::listed(name), (share, share), LineId::of(1), Trust::Plain)
        };
        let substances = parts.iter().map(share).collect();
        let composition = FormulaComposition { substances, ..FormulaComposition::default() };
        AnnexCheck::of(&composition, &About::default()).unwrap()
    }

    // Annex V, entry 29: 1.0 % (Regulation (EC) No 1223/2009).
    #[test]
    fn annexes_say_entry_share_and_outcome() {
        let check = checked(&[("Phenoxyethanol", "1.2"), ("Quorblium Extract", "1")]);
        let entry = check.entries().remove(0);
        assert_eq!((entry_title(entry).as_str(), entry_about(entry).as_str()), ("Annex V/29", "2-Phenoxyethanol"));
        assert_eq!(under(&check, entry, DecimalSign::Comma), "Phenoxyethanol: 1,2\u{202f}%");
        let above = entry.says.iter().find(|said| said.outcome == LawOutcome::Above).unwrap();
        assert_eq!(outcome(above, DecimalSign::Point), "Above 1\u{202f}%");
        assert!(summary(&check, 1).starts_with("1 above a limit, 1 not recognised"), "{}", summary(&check, 1));
    }

    // Annex III/324, and what SI 2025/413 is known to say of it here.
    #[test]
    fn annexes_say_what_is_known_of_another_region() {
        let check = checked(&[("Methyl Salicylate", "0.01")]);
        let entry = check.entries().into_iter().find(|entry| entry.entry.reference == "324").unwrap();
        assert!(
            regional(Region::Gb, entry)
                .iter()
                .any(|row| row.contains("half a year to 1 year") && row.contains("SI 2025/413"))
        );
        assert_eq!(regional(Region::Eu, entry), Vec::<String>::new());
        assert_eq!(standing(Region::Eu), None);
        assert!(standing(Region::Us).is_some_and(|text| text.contains("no such annexes")));
        assert!(standing(Region::Elsewhere).is_some());
    }

    #[test]
    fn annexes_of_nothing_say_so() {
        assert_eq!(summary(&checked(&[]), 0), NOTHING);
    }

    #[test]
    fn annexes_ask_what_is_meant() {
        let means = ["One", "Two", "Three", "Four"].map(|name| Meaning::Inci(name.into()));
        let asked = question("On", &means, &Shelf::default());
        assert_eq!(asked, "\u{201c}On\u{201d}: is it One, or Two, or Three, or another?");
    }

    #[test]
    fn annexes_name_their_source_and_its_day() {
        let law = crate::law::shipped().unwrap();
        assert!(source(Some(law)).contains(&law.known_to().unwrap().to_string()));
    }
}
