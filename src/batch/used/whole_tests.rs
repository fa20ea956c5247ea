//! What is taken off a lot beside the lines of a formula: carriers of premixes, the lye of a soap, doses of acid and base. All
//! worked by hand.

use super::tests::{entry, grams, id, line, record, weighed};
use super::*;
use crate::batch::{FrozenStep, Vessel, trace_lot};
use crate::formula::{Choice, Share};
use crate::quantity::Typed;
use std::sync::Arc;

fn milligrams(milligrams: i64) -> Mass {
    Mass::micrograms(milligrams * 1000)
}

fn dose(titrant: &str, percent: i64, mass: Mass, lot: &str) -> Event {
    Event::Ph(PhEvent::Dose {
        vessel: Vessel::Batch,
        titrant: id(titrant),
        strength: Percent::millionths(percent * 1_000_000),
        mass,
        step: Mass::micrograms(10_000),
        lot: lot.into(),
    })
}

fn lots(record: &BatchRecord, of: &str) -> Vec<(String, Mass)> {
    Usage::of(&[UsedBatch::of("a", "", record)]).lots(&id(of)).to_vec()
}

// 1 g of olive in 1000 g is weighed as 11 g of a premix of 10 % that was to be 10 g: 1.1 g are olive and 9.9 g its carrier, shea,
// of which 91 g instead of 100 g were to go onto the scale, and did.
#[test]
fn carrier_of_a_premix_comes_off_the_lot_of_its_line() {
    let mut record = record(["A1", "B1", ""], vec![weighed(2, grams(91), "B2"), weighed(1, grams(11), "A1")]);
    let from = Arc::make_mut(record.made_from.as_mut().unwrap());
    (from.lines[1].share, from.lines[1].on_scale) = (Percent::millionths(100_000), grams(10));
    from.lines[2].on_scale = grams(91);
    let own = from.formula.lines().nth(1).map(|(_, line)| line.id).unwrap();
    from.formula.line_mut(own).unwrap().share = Share::Typed(Typed::new("0.1"));
    assert_eq!(lots(&record, "olive"), [("A1".to_owned(), milligrams(1100))]);
    assert_eq!(lots(&record, "shea"), [("B2".to_owned(), milligrams(100_900))], "what was weighed and the carrier");
    let batch = UsedBatch::of("a", "", &record);
    let traced = trace_lot(std::slice::from_ref(&batch), &id("shea"), "B2").unwrap();
    assert_eq!(traced.batches[0].mass, Some(milligrams(100_900)));
    // Where two lines of the phase were planned smaller, nobody can tell which of them is in the premix.
    Arc::make_mut(record.made_from.as_mut().unwrap()).lines[3].on_scale = grams(90);
    assert_eq!(lots(&record, "shea"), [("B2".to_owned(), grams(91))]);
}

#[test]
fn lye_comes_off_the_lots_of_its_alkali_and_water() {
    let mut record = record(["", "", ""], vec![weighed(4, grams(70), "W1"), weighed(5, grams(35), "N7")]);
    let from = Arc::make_mut(record.made_from.as_mut().unwrap());
    let formula = from.formula.clone();
    for (name, on_scale) in [("Water for the lye", 70), ("sodium hydroxide (NaOH)", 35)] {
        let mut of_lye = line(name, "0", on_scale, "", &formula);
        of_lye.phase = "Lye".into();
        from.lines.push(of_lye);
    }
    assert_eq!(lots(&record, "sodium-hydroxide"), [("N7".to_owned(), grams(35))]);
    assert_eq!(lots(&record, "water"), [("W1".to_owned(), grams(70))]);
}

// Citric acid is sold whole: 2 g of a 50 % solution are 1 g of it, 3 g of a 10 % one 0.3 g.
#[test]
fn doses_come_off_the_lot_that_they_were_made_from() {
    let doses = vec![dose("citric-acid", 50, grams(2), "C1"), dose("citric-acid", 10, grams(3), " C1 ")];
    let of = |events: Vec<Event>| lots(&record(["", "", ""], events), "citric-acid");
    assert_eq!(of(doses.clone()), [("C1".to_owned(), milligrams(1300))]);
    let struck = Event::Struck { entry: entry(0, Event::Filled { mass: grams(1) }).id, reason: "Misread".into() };
    assert_eq!(of([doses.clone(), vec![struck]].concat()), [("C1".to_owned(), milligrams(300))]);
    assert_eq!(of(vec![dose("citric-acid", 50, grams(2), "")]), [(String::new(), grams(1))], "no lot was named");
    let named = UsedBatch::of("a", "", &record(["", "", ""], doses)).uses.pop().unwrap();
    assert!(named.name.starts_with("Citric acid"), "{}", named.name);
}

// 2 g were weighed into a cup for the setting of the pH: of 3 g dosed only 1 g came from elsewhere.
#[test]
fn what_is_dosed_out_of_a_cup_counts_once() {
    let events = vec![weighed(4, grams(2), "C1"), dose("citric-acid", 100, grams(3), "C2")];
    let mut record = record(["", "", ""], events);
    let from = Arc::make_mut(record.made_from.as_mut().unwrap());
    let phase = from.formula.phases()[0].id;
    let acid = from.formula.add_line(phase, 4).unwrap();
    from.formula.line_mut(acid).unwrap().share = Share::Typed(Typed::new("0.2"));
    from.formula.line_mut(acid).unwrap().choice = Choice::Known(id("citric-acid"));
    let formula = from.formula.clone();
    from.lines.push(line("Citric acid", "0.2", 2, "C1", &formula));
    from.steps.push(FrozenStep {
        kind: StepKind::SetPh,
        text: String::new(),
        why: String::new(),
        stirring: String::new(),
        lines: vec![4],
        temperature: None,
        minutes: None,
    });
    assert_eq!(lots(&record, "citric-acid"), [("C1".to_owned(), grams(2)), ("C2".to_owned(), grams(1))]);
}
