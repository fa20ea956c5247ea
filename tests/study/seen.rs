//! What a study has seen, criterion by criterion, and what ends a shelf life.

use crate::made::{begun, day, entry, looked, lot, ph, study, with_ph};
use hundred_parts::batch::EntryId;
use hundred_parts::batch::study::{
    ConditionKind::{self, Cold, Room, Spin, Warm},
    CriterionState, LotEndBasis, Observation, Separation, ShelfLife, ShelfLimit, Study, StudyCriterion, StudyEvent,
    StudyVerdict, Viscosity, plots, seen_so_far, usual_plan, verdicts,
};
use hundred_parts::facts::Months;
use hundred_parts::quantity::{Mass, Percent, Quantity};
use hundred_parts::shelf::Shelf;

/// Without a record or a shelf.
fn shelf_life(study: &Study) -> ShelfLife {
    hundred_parts::batch::study::shelf_life(study, None, &Shelf::default())
}

fn verdict(study: &Study, criterion: StudyCriterion) -> StudyVerdict {
    verdicts(study).into_iter().find(|verdict| verdict.criterion == criterion).unwrap()
}

fn weighs(text: &str) -> Observation {
    Observation { weight: Mass::from_canonical(text).ok(), ..Observation::default() }
}

// The limits of 0.5 and 1.0 are common practice, no source.
#[test]
fn ph_is_held_against_its_limits_and_against_day_0() {
    let at = |readings: &[(ConditionKind, &str, &str)]| {
        let looks = readings.iter().map(|(kind, point, ph)| looked(*kind, point, "2026-12-30", with_ph(ph)));
        verdict(&study(looks.collect()), StudyCriterion::Ph)
    };
    assert_eq!(at(&[]).state, CriterionState::NotJudged);
    assert_eq!(at(&[(Room, "0d", "5.2"), (Room, "1m", "4.7")]).state, CriterionState::Within);
    assert_eq!(at(&[(Room, "0d", "5.2"), (Room, "1m", "4.69")]).state, CriterionState::Outside);
    // Within its limits, and yet 0.6 from where it began.
    let found = at(&[(Warm, "0d", "5.65"), (Warm, "1m", "5.05"), (Room, "0d", "5.2")]);
    assert_eq!((found.state, found.judged), (CriterionState::Care, 3));
    assert_eq!(found.at.map(|pull| (pull.condition, pull.due)), Some((Warm, day("2026-12-30"))));
    // A condition without a reading of its own is held against that of the room.
    assert_eq!(at(&[(Room, "0d", "5.65"), (Cold, "1m", "5.1")]).state, CriterionState::Care);
}

#[test]
fn what_is_not_looked_at_is_not_judged_and_what_has_no_limit_neither() {
    let thick = Observation { viscosity: Viscosity::from_canonical("9500").ok(), ..Observation::default() };
    let found = study(vec![looked(Room, "0d", "2026-11-30", thick)]);
    for criterion in StudyCriterion::ALL {
        let found = verdict(&found, *criterion);
        assert_eq!((found.state, found.judged, found.at), (CriterionState::NotJudged, 0, None), "{criterion:?}");
    }
    assert_eq!(plots(&found).len(), 1, "measured all the same");
}

// Worked by hand: 61.2 g to 59.9 g is 1.3 g of 50 g, 2.6 %; to 59.6 g it is 3.2 %. The 3 % are common practice, no source.
#[test]
fn loss_of_weight_is_of_the_content_and_not_of_the_pack() {
    let looks = |last: &str| {
        study(vec![looked(Warm, "0d", "2026-11-30", weighs("61.2")), looked(Warm, "1m", "2026-12-30", weighs(last))])
    };
    for (last, lost, state) in [
        ("59.9", "2.6", CriterionState::Within),
        ("59.6", "3.2", CriterionState::Care),
        ("61.5", "0", CriterionState::Within),
    ] {
        let study = looks(last);
        assert_eq!(study.weight_loss(&study.seen[1]), Percent::from_canonical(lost).ok(), "{last}");
        assert_eq!(verdict(&study, StudyCriterion::WeightLoss).state, state, "{last}");
    }
}

#[test]
fn changes_and_layers_are_graded() {
    let one =
        |seen: Observation, criterion| verdict(&study(vec![looked(Spin, "1d", "2026-12-01", seen)]), criterion).state;
    let score = |score| Observation { odour: Some(score), ..Observation::default() };
    for (given, state) in [
        (0, CriterionState::Within),
        (1, CriterionState::Within),
        (2, CriterionState::Care),
        (3, CriterionState::Care),
        (4, CriterionState::Outside),
        (5, CriterionState::Outside),
    ] {
        assert_eq!(one(score(given), StudyCriterion::Odour), state, "{given}");
    }
    let out = |separation| Observation { separation: Some(separation), ..Observation::default() };
    for (given, state) in [
        (Separation::None, CriterionState::Within),
        (Separation::Drops, CriterionState::Care),
        (Separation::Layer, CriterionState::Outside),
    ] {
        assert_eq!(one(out(given), StudyCriterion::Separation), state, "{given:?}");
    }
}

#[test]
fn pulls_are_due_overdue_and_next_until_they_are_recorded() {
    let begun = study(Vec::new());
    let kinds =
        |pulls: Vec<hundred_parts::batch::study::Pull>| pulls.iter().map(|pull| pull.condition).collect::<Vec<_>>();
    assert_eq!(begun.due(day("2026-11-29")), Vec::new());
    assert_eq!(kinds(begun.due(day("2026-11-30"))).len(), 4, "day 0: room, warm, cold, light");
    assert_eq!(kinds(begun.next(day("2026-11-30"))), [Room, Spin]);
    let looked_at = study(vec![looked(Room, "0d", "2026-12-01", with_ph("5.2"))]);
    assert!(!kinds(looked_at.due(day("2026-11-30"))).contains(&Room));
    assert!(looked_at.due(day("2027-12-31")).len() > 12, "what nobody looked at stays overdue");
}

#[test]
fn correction_takes_the_place_of_what_was_crossed_out_and_another_plan_keeps_what_was_seen() {
    let events = [
        begun(),
        looked(Room, "2w", "2026-12-14", with_ph("5.2")),
        StudyEvent::Struck { entry: EntryId::random(2), reason: "Misread".into() },
        looked(Room, "2w", "2026-12-14", with_ph("5.1")),
    ];
    let entries: Vec<_> = events.into_iter().zip(1..).map(|(event, n)| entry(n, event)).collect();
    let found = Study::of(&entries).unwrap();
    assert_eq!(found.seen.iter().map(|seen| seen.seen.ph).collect::<Vec<_>>(), [Some(ph("5.1"))]);
    let mut plan = usual_plan(Months::from_units(12), None);
    plan.conditions.retain(|condition| condition.kind != Warm);
    let changed = study(vec![looked(Warm, "1m", "2026-12-30", with_ph("5.2")), StudyEvent::Planned(plan)]);
    assert_eq!(changed.seen.len(), 1);
    assert!(changed.pulls.iter().all(|pull| pull.condition != Warm));
    assert_eq!(Study::of(&entries[1..]), None, "never begun");
}

#[test]
fn what_ends_first_binds_and_only_a_sample_that_failed_is_evidence_that_limits() {
    let lots = study(Vec::new());
    let life = shelf_life(&lots);
    let binds = ShelfLimit::Lot(lot("Tocopherol", "0366", Some("2027-05-31")), LotEndBasis::Noted);
    assert_eq!(life.limits, [(day("2027-05-31"), binds)]);
    assert_eq!((life.best_before(), life.lots_without_end(), life.without_lot()), (Some(day("2027-05-31")), 0, 1));
    // A rule of three months from 28 November 2026 ends on 28 February 2027, before any lot.
    let ruled = shelf_life(&study(vec![StudyEvent::Ruled(Some(Months::from_units(3)))]));
    assert_eq!((ruled.best_before(), ruled.limits.len()), (Some(day("2027-02-28")), 2));
    assert!(matches!(ruled.limits[0].1, ShelfLimit::Rule(_)));
    // A lot that turns out to end sooner binds from then on; a rule that is taken away binds no more.
    let sooner = StudyEvent::Lot(lot("Plum kernel oil", "0412", Some("2027-01-31")));
    let changed =
        shelf_life(&study(vec![StudyEvent::Ruled(Some(Months::from_units(3))), sooner, StudyEvent::Ruled(None)]));
    assert_eq!((changed.best_before(), changed.limits.len()), (Some(day("2027-01-31")), 1));
    let seen = shelf_life(&study(vec![
        looked(Room, "7d", "2026-12-07", with_ph("5.2")),
        looked(Room, "1m", "2026-12-30", with_ph("5.2")),
    ]));
    assert_eq!((seen.evidence.days, seen.best_before()), (30, Some(day("2027-05-31"))));
    let broke = shelf_life(&study(vec![
        looked(Room, "7d", "2026-12-07", with_ph("5.2")),
        looked(Room, "1m", "2026-12-30", with_ph("3.9")),
        looked(Room, "2m", "2027-01-30", with_ph("5.2")),
    ]));
    assert_eq!((broke.evidence.days, broke.evidence.outside_after), (7, Some(30)), "what comes later is no evidence");
    assert_eq!(broke.limits[0], (day("2026-12-07"), ShelfLimit::Sample), "it ends where it was last seen to hold");
    // What was looked at and could not be judged says nothing of how long it held.
    let noted = Observation { note: "Looks well".into(), ..Observation::default() };
    let unjudged = study(vec![looked(Warm, "1m", "2026-12-30", noted)]);
    assert_eq!(seen_so_far(&unjudged, Warm).days, 0);
    let at_once = shelf_life(&study(vec![looked(Room, "0d", "2026-11-30", with_ph("3.9"))]));
    assert_eq!(at_once.limits[0], (day("2026-11-30"), ShelfLimit::Sample), "it never was");
    assert_eq!((broke.best_before(), at_once.best_before()), (None, None), "no date before it is known why");
}

#[test]
fn pictures_hold_what_was_measured_and_its_limits() {
    let found = study(vec![
        looked(Room, "0d", "2026-11-30", with_ph("5.2")),
        looked(Warm, "7d", "2026-12-07", with_ph("5.1")),
        looked(Room, "3m", "2027-02-28", with_ph("4.2")),
    ]);
    let plots = plots(&found);
    let [plot] = plots.as_slice() else { panic!("{plots:?}") };
    assert_eq!((plot.criterion, plot.days, plot.limits), (StudyCriterion::Ph, 90, (Some(470), Some(570))));
    assert!(plot.span.0 < 420 && plot.span.1 > 570, "{:?}", plot.span);
    assert_eq!(plot.series[0].points, [(0, 520), (90, 420)]);
    assert_eq!(plot.series[1].points, [(7, 510)]);
}
