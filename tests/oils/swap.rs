//! Oils that take the place of another, under limits; applied and undone.

use crate::{formula_of, id, line};
use hundred_parts::desk::{Action, DocId, Document, OpenDocument, ShelfDocument};
use hundred_parts::facts::{Allergens, Cox, FatKind, Field, Hlb};
use hundred_parts::formula::{Choice, Formula};
use hundred_parts::quantity::{Percent, Quantity, Timestamp};
use hundred_parts::sheet::{Limits, NoSwap, OilPool, SwapLimit, Weighting, WhyLeftOut, offer_of, swap};
use hundred_parts::shelf::Shelf;

fn in_hand(ids: &[&str]) -> Shelf {
    let mut shelf = Shelf::default();
    for name in ids {
        shelf.set(&id(name), Field::InHand, "yes");
    }
    shelf
}

#[test]
fn swap_nut_free_on_my_shelf_says_what_changes() {
    let shelf = in_hand(&["sunflower-high-oleic", "grapeseed", "olive", "hazelnut", "sesame"]);
    let limits = Limits { pool: OilPool::InHand, avoid: Allergens::NUTS, ..Limits::default() };
    let answer = swap(&shelf, &id("almond-sweet"), &limits, Weighting::Plain).unwrap();
    let blend = answer.blend.unwrap();
    assert_eq!(blend.parts.iter().map(|(_, share)| *share).sum::<Percent>(), Percent::WHOLE);
    assert!(blend.parts.iter().all(|(oil, _)| *oil != id("hazelnut")), "{:?}", blend.parts);
    assert!(blend.lost.meets(Allergens::TREE_NUT));
    assert_eq!(answer.left_out.len(), 1);
    assert_eq!(answer.left_out[0].why, WhyLeftOut::Carries(Allergens::TREE_NUT));
    assert!(blend.misplaced <= answer.singles[0].misplaced.plus(Percent::millionths(50_000)));
    let sesame = answer.singles.iter().find(|one| one.id == id("sesame")).unwrap();
    let offer = offer_of(&shelf, &id("almond-sweet"), sesame).unwrap();
    assert_eq!((offer.gained, offer.misplaced), (Allergens::SESAME, sesame.misplaced));
    assert_eq!(answer.singles.len(), 4);
}

#[test]
fn swap_under_limits_keeps_them_as_shown() {
    let shelf = Shelf::default();
    for target in ["almond-sweet", "argan", "sunflower-linoleic", "shea", "rosehip"] {
        let limits = Limits {
            most_oils: Some(3),
            most_of_one: Some(Percent::millionths(50_000_000)),
            oxidizability: Some(Cox::from_units(250)),
            ..Limits::default()
        };
        let answer = swap(&shelf, &id(target), &limits, Weighting::Keeping).unwrap();
        let blend = answer.blend.unwrap_or_else(|limits| panic!("{target}: {limits:?}"));
        assert!(blend.parts.len() <= 3 && blend.breaks.is_empty(), "{target}: {:?}", blend.parts);
        assert!(blend.parts.iter().all(|(_, share)| *share <= Percent::millionths(50_000_000)), "{target}");
        let index = blend.figures.oxidizability().unwrap();
        assert!(index <= Cox::from_units(250), "{target}: {index:?}");
        assert!(
            answer
                .singles
                .iter()
                .all(|one| one.breaks.contains(&SwapLimit::MostOfOne(Percent::millionths(50_000_000))))
        );
    }
}

#[test]
fn swap_keeps_the_required_hlb_where_it_is_known() {
    let limits = Limits { hlb_within: Some(Hlb::from_units(50)), ..Limits::default() };
    let answer = swap(&Shelf::default(), &id("olive"), &limits, Weighting::Plain).unwrap();
    let blend = answer.blend.unwrap();
    assert!((blend.required_hlb.unwrap().units() - 700).abs() <= 50);
    assert!(answer.left_out.iter().any(|one| one.why == WhyLeftOut::HlbUnknown));
    let unknown = swap(&Shelf::default(), &id("moringa"), &limits, Weighting::Plain);
    assert_eq!(unknown.unwrap_err(), NoSwap::HlbUnknown);
}

#[test]
fn swap_limits_that_clash_are_named_and_no_other() {
    let shelf = in_hand(&["sunflower-linoleic", "grapeseed", "hazelnut"]);
    let cox = Cox::from_units(200);
    let limits = Limits {
        pool: OilPool::InHand,
        avoid: Allergens::NUTS,
        most_oils: Some(3),
        oxidizability: Some(cox),
        ..Limits::default()
    };
    // Hazelnut alone would keep well enough; it is a nut, and everything else in hand oxidises.
    let clash = swap(&shelf, &id("almond-sweet"), &limits, Weighting::Plain).unwrap().blend.unwrap_err();
    assert_eq!(clash, [SwapLimit::InHand, SwapLimit::Avoid(Allergens::NUTS), SwapLimit::Oxidizability(cox)]);
    let sentence = hundred_parts::words::swap::clash(&clash, hundred_parts::words::DecimalSign::Point);
    assert!(sentence.starts_with("No blend can meet these limits together"), "{sentence}");
    // Two oils of at most 40 % each leave a fifth.
    let limits = Limits { most_oils: Some(2), most_of_one: Some(Percent::millionths(40_000_000)), ..Limits::default() };
    let clash = swap(&Shelf::default(), &id("almond-sweet"), &limits, Weighting::Plain).unwrap().blend.unwrap_err();
    assert_eq!(clash, [SwapLimit::MostOils(2), SwapLimit::MostOfOne(Percent::millionths(40_000_000))]);
    // Nothing in hand at all.
    let limits = Limits { pool: OilPool::InHand, ..Limits::default() };
    let clash = swap(&Shelf::default(), &id("almond-sweet"), &limits, Weighting::Plain).unwrap().blend.unwrap_err();
    assert_eq!(clash, [SwapLimit::InHand]);
}

#[test]
fn swap_of_what_is_no_triglyceride_is_refused() {
    let limits = Limits::default();
    let of = |name: &str| swap(&Shelf::default(), &id(name), &limits, Weighting::Plain);
    assert_eq!(of("jojoba").unwrap_err(), NoSwap::NotTriglyceride(FatKind::WaxEster));
    assert_eq!(of("glycerin").unwrap_err(), NoSwap::NotAFat);
    let singles = of("olive").unwrap().singles;
    assert!(singles.iter().all(|one| !["jojoba", "squalane", "beeswax"].contains(&one.id.as_str())));
}

#[test]
fn swap_finds_an_own_oil_of_the_same_acids() {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("Twin");
    shelf.set(
        &own,
        Field::FattyAcids,
        "16:0 12.34; 16:1 1.26; 18:0 2.29; 18:1 73.23; 18:2 9.82; 18:3 .32; 20:0 .58; 20:1 .16",
    );
    let answer = swap(&shelf, &id("olive"), &Limits::default(), Weighting::Plain).unwrap();
    assert_eq!(answer.singles[0].id, own);
    assert_eq!(answer.blend.unwrap().parts, [(own.clone(), Percent::WHOLE)]);
    // What it carries is not known, so it is not nut-free.
    let limits = Limits { avoid: Allergens::NUTS, ..Limits::default() };
    let answer = swap(&shelf, &id("olive"), &limits, Weighting::Plain).unwrap();
    assert!(answer.left_out.iter().any(|one| one.id == own && one.why == WhyLeftOut::AllergensUnknown));
    shelf.set(&own, Field::AllergenSource, "olive");
    assert!(swap(&shelf, &id("olive"), &limits, Weighting::Plain).unwrap().singles.iter().any(|one| one.id == own));
}

fn opened(formula: Formula) -> OpenDocument {
    let mut document = Document::default();
    document.state.formula = formula;
    OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), Timestamp::from_millis(0))
}

#[test]
fn swap_is_applied_and_undone_as_one_step() {
    let now = Timestamp::from_millis(0);
    let mut open = opened(formula_of(&[("almond-sweet", "10"), ("shea", "5")]));
    let before = open.state().clone();
    let parts = vec![
        (id("sunflower-high-oleic"), Percent::millionths(60_400_000)),
        (id("olive"), Percent::millionths(23_000_000)),
        (id("grapeseed"), Percent::millionths(16_600_000)),
    ];
    open.act(Action::SwapLine(line(&before.formula, 0), parts), now);
    let shares: Vec<_> = open.state().formula.lines().map(|(_, line)| line.share.typed().unwrap().text()).collect();
    assert_eq!(shares, ["6.04", "2.30", "1.66", "5"].map(|text| if text == "2.30" { "2.3" } else { text }));
    assert!(open.undo(now));
    assert_eq!(open.state(), &before);
    assert!(!open.can_undo());
}

#[test]
fn swap_of_an_unread_share_changes_one_for_one_only() {
    let now = Timestamp::from_millis(0);
    let mut open = opened(formula_of(&[("almond-sweet", "10.x"), ("shea", "5")]));
    let target = line(&open.state().formula, 0);
    let half = Percent::millionths(50_000_000);
    open.act(Action::SwapLine(target, vec![(id("olive"), half), (id("canola"), half)]), now);
    assert!(!open.can_undo());
    open.act(Action::SwapLine(target, vec![(id("olive"), Percent::WHOLE)]), now);
    let changed = open.state().formula.line(target).unwrap();
    assert_eq!((&changed.choice, changed.share.typed().unwrap().text()), (&Choice::Known(id("olive")), "10.x"));
}
