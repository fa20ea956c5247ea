//! The worked example with three mistakes, and what regions say.

use crate::made::*;
use hundred_parts::facts::IngredientId;
use hundred_parts::quantity::Timestamp;
use hundred_parts::rules::Grade;

#[test]
fn regions_say_what_differs() {
    l1().silent("great-britain");
    for (region, said) in [("gb", "great-britain"), ("us", "united-states"), ("elsewhere", "elsewhere")] {
        l1().set("region", region).says(said, Grade::Unknown);
    }
}

/// The invented demo is free of Stops; three planted mistakes show, and the proposed changes mend them.
#[test]
fn demo_shows_three_planted_mistakes_and_their_mending() {
    use hundred_parts::desk::{Action, DocId, OpenDocument, ShelfDocument, demo};
    use hundred_parts::formula::LineId;
    let now = Timestamp::from_millis(0);
    let stops = |open: &OpenDocument| -> Vec<&'static str> {
        open.derive().findings.iter().filter(|finding| finding.grade == Grade::Stop).map(key).collect()
    };
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    assert_eq!(stops(&open), Vec::<&str>::new());
    let line = |open: &OpenDocument, id: &str| -> LineId {
        let wanted = IngredientId::parse(id).unwrap();
        let mut lines = open.state().formula.lines();
        lines.find(|(_, line)| line.choice.id() == Some(&wanted)).map(|(_, line)| line.id).unwrap()
    };
    let preservative = line(&open, "benzyl-alcohol-dehydroacetic-acid");
    open.act(Action::ChooseLine(preservative, IngredientId::parse("sodium-benzoate").unwrap()), now);
    open.act(Action::ShareLine(preservative, "0.62".into()), now);
    open.act(Action::TargetPh("6.4".into()), now);
    let active = line(&open, "lactic-acid");
    open.act(Action::ChooseLine(active, IngredientId::parse("methylisothiazolinone").unwrap()), now);
    assert_eq!(stops(&open), ["above-maximum", "none-works-at-ph", "rinse-off-only"]);
    for said in ["rinse-off-only", "above-maximum", "none-works-at-ph"] {
        let finding = open.derive().findings.into_iter().find(|finding| key(finding) == said).unwrap();
        open.act(Action::Remedy(finding.detail.remedies[0].clone()), now);
    }
    assert_eq!(stops(&open), Vec::<&str>::new());
    assert!(open.undo(now) && stops(&open) == ["none-works-at-ph"]);
}
