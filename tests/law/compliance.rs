//! What the annexes say of whole products, by the one door that the rules use.
//!
//! The expected answers were read from the entries in the Commission's files (`src/law/annexes/`, kept to 28 August 2026),
//! which are named in each line.

use hundred_parts::compliance::{EntryCheck, LawCheck, LawOutcome, Present, check, products_of};
use hundred_parts::formula::{About, Area, Audience, Pack, Use};
use hundred_parts::quantity::{Percent, Quantity};

fn percent(text: &str) -> Percent {
    Percent::from_canonical(text).unwrap_or_else(|problem| panic!("{text}: {problem:?}"))
}

/// `Salicylic acid 0.5`, `Parfum 0.1-0.5`.
fn present(line: &str) -> Present<'_> {
    let (name, share) = line.rsplit_once(' ').unwrap();
    let (low, high) = share.split_once('-').unwrap_or((share, share));
    Present { name, cas: None, low: percent(low), high: percent(high) }
}

fn of(lines: &[&str], about: &About) -> LawCheck {
    let present: Vec<Present<'_>> = lines.iter().map(|line| present(line)).collect();
    check(&present, products_of(about))
}

fn entry<'a>(found: &'a LawCheck, title: &str) -> &'a EntryCheck {
    let titles: Vec<String> = found.entries.iter().map(|entry| entry.entry.title()).collect();
    found.entries.iter().find(|entry| entry.entry.title() == title).unwrap_or_else(|| panic!("{title}: {titles:?}"))
}

fn product(purpose: Use, area: Area, pack: Pack, audience: Audience) -> About {
    About { purpose, area, pack, audience, ..About::default() }
}

#[test]
fn compliance_tells_over_at_and_under_by_the_product() {
    let body = About::default();
    let lips = product(Use::LeaveOn, Area::Lip, Pack::Tube, Audience::Adult);
    let shampoo = product(Use::RinseOff, Area::Hair, Pack::Bottle, Audience::Adult);
    let spray = product(Use::LeaveOn, Area::Body, Pack::Spray, Audience::Adult);
    for (line, about, title, outcome) in [
        ("2-Phenoxyethanol 1", &body, "Annex V, 29", LawOutcome::Within),
        ("Phenoxyethanol 1.000001", &body, "Annex V, 29", LawOutcome::Above),
        ("Phenoxyethanol 0.9-1.1", &body, "Annex V, 29", LawOutcome::MayBeAbove),
        ("Sodium benzoate 0.59", &body, "Annex V, 1", LawOutcome::Within),
        ("Natriumbenzoat 0.591", &body, "Annex V, 1", LawOutcome::Above),
        ("Salicylic Acid (BHA) 3", &shampoo, "Annex III, 98", LawOutcome::Unknown),
        ("Boric acid 0.01", &body, "Annex II, 1395", LawOutcome::Prohibited),
        ("Chloroacetamide 0.1", &body, "Annex II, 1387", LawOutcome::Prohibited),
        ("d-Limonene 0.002", &body, "Annex III, 88", LawOutcome::Unknown),
        ("Linalool 0.0009", &body, "Annex III, 84", LawOutcome::Within),
        ("Iodopropynyl butylcarbamate 0.01", &lips, "Annex V, 56", LawOutcome::Prohibited),
        ("Avobenzone 5.000001", &body, "Annex VI, 8", LawOutcome::Above),
        ("Zinc oxide 5", &spray, "Annex VI, 30", LawOutcome::Unknown),
    ] {
        let found = of(&[line], about);
        assert_eq!(entry(&found, title).outcome(), outcome, "{line}: {:#?}", entry(&found, title).says);
    }
}

#[test]
fn compliance_sums_salts_of_one_acid_and_not_single_esters() {
    let body = About::default();
    // 0.3 % as acid each, 0.6 % together: above 0.5 % (V/1, leave-on).
    let benzoates = of(&["Sodium benzoate 0.354", "Benzoic acid 0.3"], &body);
    let found = entry(&benzoates, "Annex V, 1");
    assert_eq!((found.outcome(), found.of.as_slice()), (LawOutcome::Above, [0, 1].as_slice()));
    assert_eq!(found.reckoned, Some(percent("0.6")));
    // Parabens: 0.4 % for one ester, 0.8 % for mixtures (V/12): 0.36 % and 0.36 % as acid are no breach.
    let parabens = of(&["Methylparaben 0.4", "Ethyl paraben 0.39"], &body);
    assert_eq!(entry(&parabens, "Annex V, 12").outcome(), LawOutcome::Unknown);
    let one = of(&["Methylparaben 0.45"], &body);
    assert!(entry(&one, "Annex V, 12").outcome() >= LawOutcome::Unknown);
}

#[test]
fn compliance_never_passes_over_what_it_has_not_read() {
    let found = of(&["Quux extract 3", "Glycerin 5", "Potassium Sorbite 0.5"], &About::default());
    assert_eq!(found.unread().collect::<Vec<_>>(), [0, 2]);
    assert_eq!(found.entries, []);
    assert_eq!(of(&["Phenoxyethanol 0"], &About::default()).entries, []);
}

#[test]
fn compliance_by_number_alone_is_a_question_and_by_name_is_not() {
    let about = About::default();
    // Citric acid has the number of one part of V/59, rosehip oil that of III/366: the names say otherwise.
    for line in ["Citric acid 0.3", "Rosa Canina Seed Oil 5", "CI 77491 1"] {
        let found = of(&[line], &about);
        let wrong = found
            .entries
            .iter()
            .find(|entry| ["Annex V, 59", "Annex III, 366", "Annex IV, 121"].contains(&entry.entry.title().as_str()));
        assert_eq!(wrong, None, "{line}");
    }
    let number = Present { name: "an unknown thing", cas: Some("79-07-2"), low: percent("0.1"), high: percent("0.1") };
    let found = check(&[number], products_of(&about));
    assert!(found.entries.iter().any(|entry| entry.outcome() >= LawOutcome::Unknown), "{found:?}");
}

#[test]
fn compliance_carries_the_words_of_the_label() {
    let found = of(&["Salicylic acid 0.5"], &About::default());
    let says = &entry(&found, "Annex III, 98").says;
    assert!(says.iter().any(|said| said.words.contains("Not to be used for children under 3 years")), "{says:#?}");
}
