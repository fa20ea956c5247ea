//! The first method in words.

use super::*;
use crate::desk::{demo, starting_points};
use crate::formula::{LineId, StepKind};

fn order(formula: &Formula, shelf: &Shelf, soap: bool) -> Vec<(StepKind, String)> {
    steps(formula, shelf, soap).into_iter().map(|step| (step.kind, step.text)).collect()
}

/// Where the first step that says this stands.
fn place(steps: &[(StepKind, String)], text: &str) -> usize {
    steps.iter().position(|(_, said)| said.contains(text)).unwrap_or_else(|| panic!("{text}: {steps:#?}"))
}

#[test]
fn first_method_of_the_demo_follows_the_craft() {
    let formula = demo().state.formula;
    let steps = order(&formula, &Shelf::default(), false);
    let wanted = [
        "Clean and disinfect",
        "Lay out",
        "glycerin (vegetable) and xanthan gum into one cup",
        "no dry powder",
        "dissolve its salts, then stir in the wetted gum",
        "emulsifier included",
        "heat the water phase and oil phase",
        "Hold the water phase and oil phase",
        "within 5 degrees",
        "Stir by hand, then blend",
        "into cups",
        "Let it cool",
        "Sift colloidal oatmeal",
        "one after the other",
        "Measure the pH",
        "Fill clean jars",
        "Clean bench",
    ];
    let places: Vec<usize> = wanted.iter().map(|text| place(&steps, text)).collect();
    assert!(places.is_sorted(), "{places:?} {steps:#?}");
    let lactic = steps.iter().position(|(kind, text)| *kind == StepKind::Add && text.contains("actic"));
    assert_eq!(lactic, None, "the acid is dosed with the pH, not stirred in at once");
}

/// Common practice, no source: about 70 °C for both phases (the demo says 72), additions near 40 °C.
#[test]
fn first_method_takes_temperatures_of_the_phases_and_times_of_the_craft() {
    let formula = demo().state.formula;
    let of = |kind| {
        let steps = steps(&formula, &Shelf::default(), false);
        let step = steps.into_iter().find(|step| step.kind == kind).unwrap();
        (step.temperature, step.minutes)
    };
    let text = str::to_owned;
    assert_eq!(of(StepKind::Heat), (text("72"), text("")));
    assert_eq!(of(StepKind::Hold), (text("72"), text("20")));
    assert_eq!(of(StepKind::Blend), (text(""), text("3")));
    assert_eq!(of(StepKind::Cool), (text("40"), text("")));
}

#[test]
fn first_method_weighs_every_line_of_every_starting_point_once() {
    for point in starting_points() {
        let formula = point.document.state.formula.clone();
        let soap = formula.phases().len() == 1 && formula.about.purpose == crate::formula::Use::RinseOff;
        let mut weighed: Vec<LineId> = steps(&formula, &Shelf::default(), soap)
            .into_iter()
            .filter(|step| step.kind == StepKind::Weigh)
            .flat_map(|step| step.lines)
            .collect();
        let count = weighed.len();
        weighed.sort_unstable();
        weighed.dedup();
        assert_eq!((weighed.len(), count), (formula.lines().count(), count), "{}", formula.about.title);
    }
}

#[test]
fn first_method_heats_nothing_that_has_nothing_to_melt() {
    let titled = |title: &str| {
        let point =
            starting_points().into_iter().find(|point| point.document.state.formula.about.title.contains(title));
        point.unwrap().document.state.formula
    };
    let kinds = |formula: &Formula, soap| -> Vec<StepKind> {
        steps(formula, &Shelf::default(), soap).iter().map(|step| step.kind).collect()
    };
    let cold = kinds(&titled("gel-cream"), false);
    assert!(!cold.contains(&StepKind::Heat) && !cold.contains(&StepKind::Cool) && cold.contains(&StepKind::Join));
    let balm = kinds(&titled("balm"), false);
    assert!(balm.contains(&StepKind::Heat) && !balm.contains(&StepKind::Blend) && !balm.contains(&StepKind::SetPh));
    let soap = order(&titled("bar soap"), &Shelf::default(), true);
    assert!(place(&soap, "goggles") < place(&soap, "Weigh the lye alone"));
    assert!(place(&soap, "never water to lye") < place(&soap, "Pour the lye into the fats"));
}

#[test]
fn method_of_the_maker_stands_in_place_of_the_first_one() {
    let mut formula = demo().state.formula;
    formula.set_method([NewStep { kind: StepKind::Other, text: "Sing to it.".into(), ..NewStep::default() }]);
    let steps = steps(&formula, &Shelf::default(), false);
    assert_eq!(steps.iter().map(|step| step.text.as_str()).collect::<Vec<_>>(), ["Sing to it."]);
    assert_eq!(formula.unplanned().len(), formula.lines().count());
}

#[test]
fn list_of_names_reads_as_a_sentence() {
    let names = |names: &[&str]| and(&names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>());
    assert_eq!(names(&[]), "");
    assert_eq!(names(&["a"]), "a");
    assert_eq!(names(&["a", "b", "c"]), "a, b and c");
}

#[test]
fn every_reason_says_what_to_do_and_why() {
    for reason in Reason::ALL {
        let (text, why, _) = said(*reason, "oil", "oil phase");
        assert!(text.ends_with('.') && why.ends_with('.') && !text.contains('{'), "{reason:?}: {text} {why}");
    }
}
