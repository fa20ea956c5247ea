//! Against what every ingredient was checked, the words of the law on the label, numbers, and what is open in the bundle.

use crate::workshop::*;
use hundred_parts::desk::Action;
use hundred_parts::formula::Region;
use hundred_parts::paper::{LABEL_FORMATS, checked};
use hundred_parts::quantity::Timestamp;
use hundred_parts::words;

/// A line that is only a name.
fn write(made: &mut Workshop, name: &str, share: &str) {
    let phase = made.open.state().formula.phases()[2].id;
    let now = Timestamp::from_millis(0);
    let hundred_parts::desk::Made::Line(line) = made.open.act(Action::AddLine(phase, 99), now) else { panic!() };
    made.open.act(Action::NameLine(line, name.to_owned()), now);
    made.open.act(Action::ShareLine(line, share.to_owned()), now);
}

// Annex V, entries 29 and 1, Annex III, entry 98 (Regulation (EC) No 1223/2009).
#[test]
fn checked_says_of_every_ingredient_against_what() {
    let mut made = complete();
    add_own(&mut made, "The clear one", "2-Phenoxyethanol", "0.5");
    write(&mut made, "Salicylic Acid (BHA)", "0.2");
    write(&mut made, "Quorblium Extract", "0.1");
    let (sheet, _) = made.derive();
    let found = checked(&made.open.state().formula, &sheet, &made.shelf);
    assert_eq!(found.count() + 1, found.lines.len(), "all but the extract that nobody knows");
    for text in [made.safety(), made.bundle()] {
        for expected in [
            "The clear one (2-Phenoxyethanol) | Phenoxyethanol",
            "V/29",
            "Salicylic Acid (BHA) | Salicylic Acid",
            "III/98",
            "not recognised: nothing was checked",
            &format!(
                "{} of {} ingredients were recognised and looked up in Annexes II to VI",
                found.count(),
                found.lines.len()
            ),
            "as kept to 2026-08-28",
            "The other one, or part of it, was not checked",
            "It says nothing about harm",
        ] {
            assert!(text.contains(expected), "{expected}: {text}");
        }
        let extract = text.lines().filter(|line| line.starts_with("Quorblium Extract | "));
        assert!(extract.clone().any(|line| line.ends_with(" | not known")), "{text}");
    }
}

#[test]
fn checked_says_where_the_annexes_were_not_looked_into() {
    let made = complete();
    let (mut sheet, _) = made.derive();
    sheet.annexes = None;
    let found = checked(&made.open.state().formula, &sheet, &made.shelf);
    assert_eq!((found.count(), found.looked_up), (0, false));
}

// Annex III, entries 4 (above 2 %: "Contains ammonia") and 12; Annex V, entries 3 and 54 have cautions of their own.
#[test]
fn label_prints_the_words_of_the_law_once() {
    let mut made = complete();
    add(&mut made, "benzalkonium", "0.05");
    add(&mut made, "salicylic-acid", "0.1");
    write(&mut made, "Hydrogen Peroxide", "0.2");
    write(&mut made, "Ammonia", "2.5");
    write(&mut made, "Formic Acid", "0.2");
    let label = made.label();
    let text = words::label_paper(&label, LABEL_FORMATS[4]).text();
    let law: Vec<(&str, &[String])> = label.law.iter().map(|one| (one.text.as_str(), one.entries.as_slice())).collect();
    let peroxide = "Contains hydrogen peroxide. Avoid contact with eyes. Rinse immediately if product comes into contact with them.";
    assert_eq!(
        law,
        [("Contains ammonia", &["Annex III/4".to_owned()][..]), (peroxide, &["Annex III/12".to_owned()][..])]
    );
    assert!(text.contains("\u{201c}Contains ammonia\u{201d}: Regulation (EC) No 1223/2009, Annex III/4."), "{text}");
    assert!(made.safety().contains("Contains ammonia (Annex III/4)"));
    assert_eq!(text.matches("children under 3").count(), 2, "on the label and beneath where it was read: {text}");
    assert!(made.act(Action::Region(Region::Us)).label().law.is_empty());
}

// Source: Annex I, part A, and Article 11(2) of Regulation (EC) No 1223/2009, from memory.
#[test]
fn bundle_names_what_the_law_asks_and_is_not_here() {
    let made = complete();
    let text = made.bundle();
    for expected in [
        "56-81-5 | 200-289-5",
        "A 4: impurities, traces, packaging material | nothing",
        "A 6: exposure",
        "A 8: toxicological profile",
        "A 9: undesirable",
        "good manufacturing practice",
        "proof of the effect claimed",
        "data on animal testing",
    ] {
        assert!(text.contains(expected), "{expected}: {text}");
    }
    let mut made = made;
    write(&mut made, "Quorblium Extract", "0.1");
    let text = made.bundle();
    let lacks = text.lines().find(|line| line.starts_with("A 1: composition")).unwrap();
    assert_eq!(lacks.matches("Quorblium Extract").count(), 2, "neither CAS nor EC: {lacks}");
}
