//! The worked example with three mistakes, and what regions say.

use crate::made::*;
use hundred_parts::facts::IngredientId;
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
    use hundred_parts::desk::{Action, Bench, Cupboard, DocId, Moment, demo};
    use hundred_parts::formula::LineId;
    let now = Moment::from_millis(0);
    let stops = |bench: &Bench| -> Vec<&'static str> {
        bench.derive().findings.iter().filter(|finding| finding.grade == Grade::Stop).map(key).collect()
    };
    let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
    assert_eq!(stops(&bench), Vec::<&str>::new());
    let line = |bench: &Bench, id: &str| -> LineId {
        let wanted = IngredientId::parse(id).unwrap();
        let mut lines = bench.state().formula.lines();
        lines.find(|(_, line)| line.choice.id() == Some(&wanted)).map(|(_, line)| line.id).unwrap()
    };
    let preservative = line(&bench, "benzyl-alcohol-dehydroacetic-acid");
    bench.act(Action::ChooseLine(preservative, IngredientId::parse("sodium-benzoate").unwrap()), now);
    bench.act(Action::ShareLine(preservative, "0.62".into()), now);
    bench.act(Action::TargetPh("6.4".into()), now);
    let active = line(&bench, "lactic-acid");
    bench.act(Action::ChooseLine(active, IngredientId::parse("methylisothiazolinone").unwrap()), now);
    assert_eq!(stops(&bench), ["above-maximum", "none-works-at-ph", "rinse-off-only"]);
    for said in ["rinse-off-only", "above-maximum", "none-works-at-ph"] {
        let finding = bench.derive().findings.into_iter().find(|finding| key(finding) == said).unwrap();
        bench.act(Action::Mend(finding.detail.mends[0].clone()), now);
    }
    assert_eq!(stops(&bench), Vec::<&str>::new());
    assert!(bench.undo(now) && stops(&bench) == ["none-works-at-ph"]);
}
