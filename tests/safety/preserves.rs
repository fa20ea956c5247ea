//! What counts as a preservative: by its dose, by the pH, on the card as in the findings.

use crate::made::*;
use hundred_parts::facts::{Field, PreservativeGroup, preservatives};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::rules::Grade;
use hundred_parts::sheet::{Agent, Trust, Works};

fn percent(text: &str) -> Percent {
    Percent::from_canonical(text).unwrap()
}

/// A lotion with 1 % of a fragrance of which the supplier states this.
fn scented(statement: &str, lines: &[&str]) -> Made {
    water(lines).with("parfum 1").shelf("parfum", Field::AllergenStatement, statement)
}

/// An own entry with a field, and so much of it.
fn own(field: Field, text: &str, share: &str) -> Made {
    let mut made = water(&[]);
    let id = made.shelf.add_own("Harbour keeper");
    made.shelf.set(&id, field, text);
    made.with(&format!("{id} {share}"))
}

// Source: common practice, no source: half of the least usual dose preserves nothing (benzyl alcohol is used from 0.5 % on,
// from memory).
#[test]
fn traces_do_not_preserve() {
    let bare = water(&["glycerin 3"]).says("unpreserved", Grade::Stop);
    assert_eq!(bare.detail.remedies.len(), 1);
    for trace in ["2 %", "39.9999 %"] {
        let made = scented(&format!("Benzyl alcohol {trace}"), &["glycerin 3"]);
        assert_eq!(made.says("unpreserved", Grade::Stop).detail.remedies.len(), 1, "{trace}");
        for said in ["preserved", "too-little", "spectrum-narrow", "spectrum-broad"] {
            made.silent(said);
        }
    }
    scented("Benzyl alcohol 40 %", &[]).says("preserved", Grade::Fine);
    // What the maker added is named, and stops as well: a challenge test alone shows that so little is enough.
    let little = water(&["phenoxyethanol 0.2"]);
    assert_eq!(little.says("too-little", Grade::Stop).detail.subject, "Phenoxyethanol");
    little.papers(r#""challenge_test":"ISO 11930 A, 3 May 2026, Quay Laboratory""#).says("too-little", Grade::Care);
    own(Field::Components, "butylparaben 0.05; water 99.95", "1").says("too-little", Grade::Stop);
    // Salts and their acid count together: 0.1271 % and 0.03 % as acid, and neither is enough alone.
    water(&["sodium-benzoate 0.15"]).set("target_ph", "4.8").says("too-little", Grade::Stop);
    let both = water(&["sodium-benzoate 0.15", "benzoic-acid 0.03"]).set("target_ph", "4.8");
    both.says("preserved", Grade::Fine);
}

#[test]
fn traces_do_not_take_the_place_of_an_acid_that_is_idle() {
    let made = |ph: &str| scented("Benzyl alcohol 2 %", &["sodium-benzoate 0.5"]).set("target_ph", ph);
    made("6.5").says("none-works-at-ph", Grade::Stop);
    made("6.5").with("benzyl-alcohol 0.4").silent("none-works-at-ph");
    made("").says("no-ph-for-acids", Grade::Stop);
    made("").with("benzyl-alcohol 0.4").says("no-ph-for-acids", Grade::Care);
}

// The table has no usual dose of these; Annex V allows 0.1 % of bronopol and of benzalkonium chloride.
#[test]
fn dose_that_is_not_known_is_never_well() {
    for id in ["bronopol", "benzalkonium", "chlorhexidine"] {
        let made = water(&[&format!("{id} 0.1")]);
        made.says("dose-unknown", Grade::Care);
        made.silent("preserved");
        made.silent("spectrum-broad");
        made.with("phenoxyethanol 0.8").silent("dose-unknown");
    }
    // A mixture as sold is dosed as a whole.
    water(&["cmit-mit-solution 0.05"]).set("use", "rinse-off").says("preserved", Grade::Fine);
    water(&["cmit-mit-solution 0.02"]).set("use", "rinse-off").says("too-little", Grade::Stop);
    // A salt is known by its acid.
    water(&["sodium-salicylate 0.3"]).set("target_ph", "4").says("preserved", Grade::Fine);
    // Names without shares say nothing of a dose.
    own(Field::Inci, "Glycerin; Aqua; Phenoxyethanol", "2").says("dose-unknown", Grade::Care);
}

// Sodium hydroxymethylglycinate works from pH 8 on (from memory).
#[test]
fn preservative_below_its_window_does_not_count() {
    let made = water(&["sodium-hydroxymethylglycinate 0.4"]).set("target_ph", "5.5");
    let finding = made.says_lowered("none-works-below");
    assert_eq!((value(&finding).as_str(), finding.limit().as_deref()), ("5.5", Some("8")));
    for said in ["preserved", "spectrum-narrow", "spectrum-broad"] {
        made.silent(said);
    }
    assert_eq!(agents(&made)[0].works, Works::No);
    made.set("target_ph", "8.5").silent("none-works-below");
}

fn agents(made: &Made) -> Vec<Agent> {
    made.derive().1.preservation.map_or_else(Vec::new, |found| found.agents)
}

/// What the card says does not count is in no finding that says the product is preserved, and the other way round.
#[test]
fn card_and_findings_count_the_same_preservatives() {
    let mut seen = [0; 2];
    for row in preservatives().iter().filter(|row| row.group == PreservativeGroup::Listed) {
        let Some(most) = row.leave_on.max(row.rinse_off).filter(|most| most.units() > 0) else { continue };
        let substances = water(&[&format!("{} 1", row.id)]).derive().1.composition.substances;
        if substances.iter().any(|substance| substance.trust == Trust::Open)
            || substances.iter().all(|substance| substance.preservative() != Some(row))
        {
            continue;
        }
        for (part, ph) in [(1, 350), (1, 450), (1, 545), (1, 640), (1, 830), (1, 990), (12, 350), (12, 545)] {
            let share = Percent::from_units(most.units() / part);
            let ph = format!("{}.{:02}", ph / 100, ph % 100);
            let made =
                water(&[&format!("{} {}", row.id, share.canonical())]).set("use", "rinse-off").set("target_ph", &ph);
            let counts = agents(&made).iter().any(|agent| !matches!(agent.works, Works::No | Works::TooLittle));
            let said = ["preserved", "dose-unknown"].iter().any(|said| made.find(said).is_some());
            let idle = ["none-works-at-ph", "none-works-below"].iter().any(|said| made.find(said).is_some());
            assert_eq!(
                counts,
                said && !idle,
                "{} {} at {ph}: {:?}",
                row.id,
                share.canonical(),
                shown(&made.findings())
            );
            seen[usize::from(counts)] += 1;
        }
    }
    assert!(seen[0] > 60 && seen[1] > 100, "{seen:?}");
}

// Annex V/29: 1 % of phenoxyethanol. Worked: 1.2 × 0.7 = 0.84; 1.08 × 0.95 = 1.026.
#[test]
fn card_follows_the_makers_composition() {
    let blend = |components: &str, share: &str| {
        water(&[&format!("phenoxyethanol-ethylhexylglycerin {share}")]).shelf(
            "phenoxyethanol-ethylhexylglycerin",
            Field::Components,
            components,
        )
    };
    for (components, share, counted, said, grade) in [
        ("phenoxyethanol 70; ethylhexylglycerin 30", "1.2", "0.84", "within-maximum", Grade::Fine),
        ("phenoxyethanol 95; ethylhexylglycerin 5", "1.08", "1.026", "above-maximum", Grade::Stop),
    ] {
        let made = blend(components, share);
        let ether = agents(&made).into_iter().find(|agent| agent.substance.id == "phenoxyethanol").unwrap();
        assert_eq!((ether.counted_most, ether.limit), (percent(counted), Some(percent("1"))));
        assert_eq!(value(&made.says(said, grade)), format!("{counted} %"));
    }
    let mixture = water(&["dmdm-hydantoin-ipbc 0.3"]);
    let open = mixture.derive().1.preservation.unwrap();
    assert_eq!((open.agents.len(), open.unknown_blends.len()), (0, 1));
    let stated = mixture.shelf(
        "dmdm-hydantoin-ipbc",
        Field::Components,
        "DMDM Hydantoin 40; Iodopropynyl Butylcarbamate 2; water rest",
    );
    let known = stated.derive().1.preservation.unwrap();
    let ids: Vec<_> = known.agents.iter().map(|agent| (agent.substance.id, agent.counted)).collect();
    assert_eq!(ids, [("dmdm-hydantoin", percent("0.12")), ("ipbc", percent("0.006"))]);
    assert!(known.unknown_blends.is_empty());
}

#[test]
fn card_knows_the_makers_own_preservative() {
    let made = own(Field::Inci, "Phenoxyethanol", "0.9");
    let found = agents(&made);
    assert_eq!((found.len(), found[0].substance.id, found[0].counted), (1, "phenoxyethanol", percent("0.9")));
    made.says("preserved", Grade::Fine);
    // What a fragrance brings of it counts against the limit, on the card as in the finding.
    let scent = scented("Benzyl alcohol 30 %", &["benzyl-alcohol 0.8"]);
    assert_eq!(agents(&scent)[0].counted_most, percent("1.1"));
    assert_eq!(value(&scent.says("above-maximum", Grade::Stop)), "1.1 %");
}
