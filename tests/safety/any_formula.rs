//! Three hundred formulas that nobody thought of.

use crate::made::*;
use hundred_parts::facts::IngredientId;
use hundred_parts::rules::Grade;
use hundred_parts::shelf::Shelf;
use hundred_parts::words;
use proptest::prelude::*;

fn ids() -> Vec<IngredientId> {
    Shelf::default().ids().into_iter().cloned().collect()
}

/// Lines in whole thousandths of a percent that leave room for water, a use, an area, an audience, a pack, a pH, a region.
fn any_made() -> impl Strategy<Value = Made> {
    let line = (0..ids().len(), 1u32..6_000);
    let about = (0usize..2, 0usize..6, 0usize..4, 0usize..6, prop::option::of(200i32..1_200), 0usize..4);
    (prop::collection::vec(line, 0..14), about).prop_map(|(lines, about)| {
        let ids = ids();
        let mut made = Made::of(&["water fill-up"]);
        let mut seen = vec!["water".to_owned()];
        for (n, share) in lines {
            let id = ids[n].as_str().to_owned();
            if !seen.contains(&id) {
                made = made.with(&format!("{id} {}.{:03}", share / 1000, share % 1000));
                seen.push(id);
            }
        }
        let (purpose, area, audience, pack, ph, region) = about;
        let ph = ph.map_or_else(String::new, |ph| format!("{}.{:02}", ph / 100, ph % 100));
        made.set("use", ["leave-on", "rinse-off"][purpose])
            .set("area", ["body", "face", "hand", "lip", "nappy", "hair"][area])
            .set("audience", ["adult", "child-3-plus", "under-3", "pregnant"][audience])
            .set("pack", ["jar", "pump", "tube", "bottle", "bar", "spray"][pack])
            .set("target_ph", &ph)
            .set("region", ["eu", "gb", "us", "elsewhere"][region])
    })
}

/// What findings say, without the order of lines: keys, grades, values, sentences.
fn told(made: &Made) -> Vec<String> {
    let (formula, _, findings) = made.derive();
    let mut told: Vec<String> = findings
        .iter()
        .map(|finding| {
            let names: Vec<String> = Vec::new();
            format!(
                "{:?} {} {:?} {}",
                finding.grade,
                finding.key(&formula),
                finding.value(),
                words::finding(finding, &names, words::DecimalSign::Point)
            )
        })
        .collect();
    told.sort();
    told
}

const MICROBIAL: [&str; 6] =
    ["unpreserved", "only-boosters", "too-little", "none-works-at-ph", "none-works-below", "spectrum-narrow"];

proptest! {
    #[test]
    fn every_finding_has_a_source_and_a_stop_is_verified(made in any_made()) {
        for finding in made.findings() {
            prop_assert!(!finding.source().trim().is_empty(), "{finding:?}");
            prop_assert!(finding.grade != Grade::Stop || finding.verified(), "{finding:?}");
            prop_assert!(finding.grade != Grade::Stop || finding.detail.not_law.is_none(), "{finding:?}");
            let sentence = words::finding(&finding, &["X".to_owned()], words::DecimalSign::Point);
            prop_assert!(sentence.len() > 20 && !sentence.contains("  ") && !sentence.contains("{"), "{sentence}");
        }
    }

    #[test]
    fn findings_are_the_same_in_any_order_of_lines(made in any_made(), turn in 0usize..14) {
        let mut turned = made.clone();
        let lines = &mut turned.phases[0].1;
        let by = turn % lines.len();
        lines.rotate_left(by);
        lines.reverse();
        prop_assert_eq!(told(&made), told(&turned));
    }

    #[test]
    fn adding_water_never_removes_a_microbial_stop(made in any_made(), more in 1u32..40) {
        let stops = |made: &Made| -> Vec<&'static str> {
            let findings = made.findings();
            let mut stops: Vec<_> = findings
                .iter()
                .filter(|finding| finding.detail.asked == Some(Grade::Stop) && MICROBIAL.contains(&key(finding)))
                .map(key)
                .collect();
            stops.dedup();
            stops
        };
        let mut typed = made.clone();
        typed.phases[0].1[0].1 = "10".to_owned();
        let before = stops(&typed);
        typed.phases[0].1[0].1 = (10 + more).to_string();
        let after = stops(&typed);
        for stop in before {
            prop_assert!(after.contains(&stop), "{stop} is gone: {after:?}");
        }
    }
}
