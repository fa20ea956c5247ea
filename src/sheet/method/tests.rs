//! First methods as a maker of creams would judge them: one formula for each thing that goes wrong at the stove.

use super::*;
use crate::facts::IngredientId;
use crate::formula::{Choice, PhaseKind, Share};
use crate::quantity::{Quantity, Typed};
use PhaseKind::{CoolDown, Oil, Other, Water};

/// A formula of phases: kind, temperature, lines by id (or by a typed name after `=`) with their shares.
type PhaseSpec<'a> = (PhaseKind, &'a str, &'a [(&'a str, &'a str)]);

fn formula(phases: &[PhaseSpec<'_>]) -> Formula {
    let mut formula = Formula::default();
    for (n, (kind, heat, lines)) in phases.iter().enumerate() {
        let id = formula.add_phase(*kind, format!("Phase {n}"), n);
        formula.phase_mut(id).unwrap().heat = Typed::new((*heat).to_owned());
        for (at, (name, share)) in lines.iter().enumerate() {
            let line = formula.add_line(id, at).unwrap();
            let line = formula.line_mut(line).unwrap();
            line.choice = match name.strip_prefix('=') {
                Some(name) => Choice::Named(name.to_owned()),
                None => Choice::Known(IngredientId::parse(name).unwrap()),
            };
            line.share = Share::read(share);
        }
    }
    formula
}

struct Planned {
    formula: Formula,
    steps: Vec<PlannedStep>,
}

fn made(phases: &[PhaseSpec<'_>]) -> Planned {
    made_for(formula(phases), false)
}

fn made_for(formula: Formula, soap: bool) -> Planned {
    let steps = first_method(&formula, &Shelf::default(), soap);
    let all: Vec<LineId> = formula.lines().map(|(_, line)| line.id).collect();
    let mut weighed: Vec<LineId> =
        steps.iter().filter(|step| step.kind == StepKind::Weigh).flat_map(|step| step.lines.clone()).collect();
    weighed.sort_unstable();
    assert_eq!(weighed, all, "each line is weighed once: {steps:#?}");
    Planned { formula, steps }
}

impl Planned {
    /// Between the tidying at both ends.
    fn reasons(&self) -> Vec<Reason> {
        self.steps[2..self.steps.len() - 1].iter().map(|step| step.reason).collect()
    }

    fn step(&self, reason: Reason) -> &PlannedStep {
        self.steps.iter().find(|step| step.reason == reason).unwrap_or_else(|| panic!("{reason:?}: {:#?}", self.steps))
    }

    /// What the first step of a reason is about.
    fn lines(&self, reason: Reason) -> Vec<String> {
        let name = |line: &LineId| match &self.formula.line(*line).unwrap().choice {
            Choice::Named(name) => name.clone(),
            Choice::Known(id) => id.as_str().to_owned(),
        };
        self.step(reason).lines.iter().map(name).collect()
    }

    fn heat(&self, reason: Reason) -> Option<String> {
        self.step(reason).temperature.map(Quantity::canonical)
    }
}

#[test]
fn gum_without_anything_that_wets_it_is_strewn_into_moving_water() {
    let made = made(&[(Water, "", &[("water", "qs"), ("sodium-benzoate", "0.4"), ("xanthan-gum", "0.5")])]);
    assert_eq!(made.reasons(), [Reason::ColdTogether, Reason::DryCup, Reason::StrewGum, Reason::Pack]);
    assert_eq!(made.lines(Reason::StrewGum), ["xanthan-gum"]);
}

#[test]
fn gum_in_oil_is_stirred_in_right_before_the_phases_meet() {
    let made = made(&[
        (Water, "", &[("water", "qs"), ("glycerin", "3")]),
        (Oil, "", &[("squalane", "10"), ("acrylates-c10-30-alkyl-acrylate-crosspolymer", "0.3")]),
    ]);
    let wanted = [
        Reason::ColdTogether,
        Reason::ColdTogether,
        Reason::DryCup,
        Reason::GumIntoOil,
        Reason::JoinCold,
        Reason::Blend,
        Reason::Pack,
    ];
    assert_eq!(made.reasons(), wanted);
    assert_eq!(made.lines(Reason::GumIntoOil), ["acrylates-c10-30-alkyl-acrylate-crosspolymer"]);
}

#[test]
fn powder_in_a_vessel_is_worked_in_and_late_powder_is_sifted() {
    let made = made(&[
        (Water, "72", &[("water", "qs")]),
        (Oil, "72", &[("plum-kernel", "15"), ("cetearyl-olivate-sorbitan-olivate", "5"), ("zinc-oxide", "10")]),
        (CoolDown, "40", &[("colloidal-oatmeal", "2")]),
    ]);
    assert_eq!(made.lines(Reason::WorkInPowder), ["zinc-oxide"]);
    assert_eq!(made.lines(Reason::EmulsifierMelts), ["plum-kernel", "cetearyl-olivate-sorbitan-olivate"]);
    assert_eq!(made.lines(Reason::SiftPowder), ["colloidal-oatmeal"]);
    let reasons = made.reasons();
    let at = |reason| reasons.iter().position(|one| *one == reason).unwrap();
    assert!(at(Reason::WorkInPowder) < at(Reason::HeatPhases) && at(Reason::Cool) < at(Reason::SiftPowder));
}

#[test]
fn two_phases_of_water_are_one_before_they_meet_oil() {
    let made = made(&[
        (Water, "75", &[("water", "qs")]),
        (Water, "75", &[("allantoin", "0.3"), ("panthenol-75", "1")]),
        (Oil, "75", &[("plum-kernel", "15"), ("cetearyl-olivate-sorbitan-olivate", "5")]),
    ]);
    let reasons = made.reasons();
    let at = |reason| reasons.iter().position(|one| *one == reason).unwrap();
    assert!(at(Reason::JoinAlike) < at(Reason::HeatPhases), "{reasons:?}");
    assert_eq!(made.step(Reason::JoinAlike).phases.len(), 2);
}

#[test]
fn gum_with_what_wets_it_as_a_phase_of_its_own_joins_the_water_before_the_heat() {
    let made = made(&[
        (Water, "72", &[("water", "qs")]),
        (Other, "", &[("glycerin", "3"), ("xanthan-gum", "0.3")]),
        (Oil, "72", &[("plum-kernel", "15"), ("cetearyl-olivate-sorbitan-olivate", "5")]),
    ]);
    let reasons = made.reasons();
    let at = |reason| reasons.iter().position(|one| *one == reason).unwrap();
    assert!(at(Reason::WetGum) < at(Reason::GumIntoWater) && at(Reason::GumIntoWater) < at(Reason::HeatPhases));
    assert!(!reasons.contains(&Reason::HeatSensitive), "{reasons:?}");
}

#[test]
fn phase_that_stays_cold_goes_in_late_and_a_hot_one_is_heated() {
    let made = made(&[
        (Water, "72", &[("water", "qs")]),
        (Other, "65", &[("=My melted blend", "4")]),
        (Other, "", &[("=My cold extract", "4")]),
        (Oil, "72", &[("plum-kernel", "15"), ("cetearyl-olivate-sorbitan-olivate", "5")]),
    ]);
    assert_eq!(made.step(Reason::HeatPhases).phases.len(), 3);
    assert_eq!(made.lines(Reason::LateIntoCups), ["My cold extract"]);
    assert_eq!(made.lines(Reason::HeatSensitive), ["My cold extract"]);
}

/// One phase with a temperature and one without: the second is heated with it, and water never lands in a cup.
#[test]
fn phase_without_a_temperature_is_heated_with_the_one_that_it_meets() {
    let oil: &[(&str, &str)] = &[("plum-kernel", "15"), ("cetearyl-olivate-sorbitan-olivate", "5")];
    for (water_heat, oil_heat) in [("", "75"), ("75", ""), ("warm", "75")] {
        let made = made(&[(Water, water_heat, &[("water", "qs")]), (Oil, oil_heat, oil)]);
        assert_eq!(made.step(Reason::HeatPhases).phases.len(), 2, "{water_heat} {oil_heat}");
        assert!(made.reasons().contains(&Reason::JoinPhases));
    }
    let made = made(&[(Water, "20", &[("water", "qs")]), (Oil, "75", oil)]);
    assert_eq!(made.step(Reason::HeatPhases).phases.len(), 1);
    assert_eq!(made.step(Reason::JoinHotAndCold).phases.len(), 1, "the cold water, poured into the hot oil");
}

#[test]
fn water_alone_is_stirred_or_heated_and_never_joined() {
    let cold = made(&[(Water, "", &[("water", "qs"), ("glycerin", "3"), ("panthenol-75", "1")])]);
    assert_eq!(cold.reasons(), [Reason::ColdTogether, Reason::Pack]);
    let mut hot = formula(&[(Water, "70", &[("water", "qs"), ("allantoin", "0.4")])]);
    hot.about.target_ph = Typed::new("5.5".to_owned());
    let hot = made_for(hot, false);
    let wanted = [Reason::PhaseTogether, Reason::HeatWater, Reason::CoolWater, Reason::SetPh, Reason::Pack];
    assert_eq!(hot.reasons(), wanted);
}

#[test]
fn oil_alone_has_no_ph_and_is_poured_before_it_sets() {
    let mut oils = formula(&[
        (Oil, "", &[("plum-kernel", "qs"), ("beeswax", "20"), ("shea", "20")]),
        (CoolDown, "", &[("tocopherol", "0.5"), ("lavender-essential-oil", "0.5")]),
    ]);
    oils.about.target_ph = Typed::new("5.5".to_owned());
    let balm = made_for(oils, false);
    let wanted = [
        Reason::PhaseTogether,
        Reason::Melt,
        Reason::LateIntoCups,
        Reason::CoolMelt,
        Reason::HeatSensitive,
        Reason::FragranceLast,
        Reason::PourMelt,
    ];
    assert_eq!(balm.reasons(), wanted);
    let blend = made(&[(Oil, "", &[("plum-kernel", "qs"), ("jojoba", "20")])]);
    assert_eq!(blend.reasons(), [Reason::ColdTogether, Reason::Pack], "nothing melts, so nothing is heated");
}

#[test]
fn soap_with_lye_lines_weighs_all_before_the_lye_and_sets_no_ph() {
    let mut soap = formula(&[
        (Oil, "", &[("olive", "50"), ("coconut", "20")]),
        (Water, "", &[("water", "qs"), ("sodium-hydroxide", "9"), ("citric-acid", "0.5")]),
        (CoolDown, "40", &[("lavender-essential-oil", "1"), ("kaolin", "1")]),
    ]);
    soap.about.target_ph = Typed::new("5.5".to_owned());
    let made = made_for(soap, false);
    let wanted = [
        Reason::PhaseTogether,
        Reason::WaterForLye,
        Reason::LyeLine,
        Reason::LateIntoCups,
        Reason::LyeIntoWater,
        Reason::Melt,
        Reason::JoinLye,
        Reason::BlendSoap,
        Reason::SiftPowder,
        Reason::IntoSoap,
        Reason::Mould,
    ];
    assert_eq!(made.reasons(), wanted);
    assert_eq!(made.lines(Reason::LyeLine), ["sodium-hydroxide"]);
}

#[test]
fn small_amount_of_lye_sets_a_ph_and_makes_no_soap() {
    for share in ["0.3", "1.5", "", "abc"] {
        let made = made(&[
            (Water, "", &[("water", "qs"), ("carbomer", "0.3")]),
            (CoolDown, "", &[("sodium-hydroxide", share)]),
        ]);
        assert_eq!(made.lines(Reason::SetPhWith), ["sodium-hydroxide"], "{share}");
        assert!(!made.reasons().contains(&Reason::Mould), "{share}");
    }
}

#[test]
fn what_the_heat_would_spoil_comes_late_and_so_does_scent() {
    let made = made(&[
        (Water, "75", &[("water", "qs"), ("niacinamide", "3"), ("ethanol", "5")]),
        (
            Oil,
            "75",
            &[("plum-kernel", "15"), ("cetearyl-olivate-sorbitan-olivate", "5"), ("lavender-essential-oil", "0.3")],
        ),
    ]);
    assert_eq!(made.lines(Reason::HeatSensitive), ["niacinamide", "ethanol"]);
    assert_eq!(made.lines(Reason::FragranceLast), ["lavender-essential-oil"]);
    assert_eq!(made.heat(Reason::Cool).as_deref(), Some("40"));
    let ids: Vec<&PlannedStep> = made.steps.iter().filter(|step| step.rest).collect();
    assert!(ids.iter().all(|step| step.reason != Reason::LateIntoCups), "a new line of the water goes with the water");
}

#[test]
fn own_ingredient_of_which_nothing_is_known_stays_where_it_stands() {
    let made = made(&[
        (Water, "", &[("water", "qs"), ("=My hydrosol", "10")]),
        (Oil, "", &[("=My oil", "10")]),
        (CoolDown, "", &[("=My extract", "1")]),
    ]);
    let wanted = [
        Reason::ColdTogether,
        Reason::ColdTogether,
        Reason::JoinCold,
        Reason::Blend,
        Reason::LateIntoCups,
        Reason::StirIn,
        Reason::Pack,
    ];
    assert_eq!(made.reasons(), wanted);
    assert_eq!(made.step(Reason::StirIn).temperature, None, "nothing was heated");
}

/// In each of these the salt dissolves before any acid is in.
#[test]
fn benzoate_or_sorbate_dissolves_before_any_acid_wherever_both_stand() {
    let oil: PhaseSpec<'_> = (Oil, "72", &[("plum-kernel", "15"), ("cetearyl-olivate-sorbitan-olivate", "5")]);
    let both: &[(&str, &str)] = &[("water", "qs"), ("lactic-acid", "0.3"), ("sodium-benzoate", "0.4")];
    let whole: &[(&str, &str)] = &[("water", "qs"), ("lactic-acid", "5"), ("potassium-sorbate", "0.3")];
    let late: &[(&str, &str)] = &[("=Gluconolactone", "2"), ("sodium-benzoate-potassium-sorbate", "1")];
    for phases in [
        vec![(Water, "72", both), oil],
        vec![(Water, "", both)],
        vec![(Water, "72", whole), oil],
        vec![(Water, "", whole)],
        vec![(Water, "72", &[("water", "qs")]), oil, (CoolDown, "40", late)],
        vec![(Water, "72", &[("water", "qs"), ("=Citric Acid", "0.3")]), oil, (CoolDown, "40", late)],
    ] {
        let made = made(&phases);
        let places = |wanted: &[&str]| -> Vec<usize> {
            let names = |step: &PlannedStep| -> Vec<String> {
                let choice = |line: &LineId| made.formula.line(*line).unwrap().choice.clone();
                step.lines.iter().map(choice).map(|choice| format!("{choice:?}")).collect()
            };
            // What is weighed in a cup is not in the batch yet.
            let in_batch = |step: &&(usize, &PlannedStep)| step.1.reason != Reason::LateIntoCups;
            let holds = |step: &&(usize, &PlannedStep)| {
                names(step.1).iter().any(|name| wanted.iter().any(|part| name.contains(part)))
            };
            let steps: Vec<(usize, &PlannedStep)> = made.steps.iter().enumerate().collect();
            steps.iter().filter(in_batch).filter(holds).map(|(at, _)| *at).collect()
        };
        let (salts, acids) = (places(&["benzoate", "sorbate"]), places(&["-acid", "Acid", "lactone"]));
        assert!(!salts.is_empty() && !acids.is_empty(), "{:#?}", made.steps);
        assert!(salts.iter().max() < acids.iter().min(), "{salts:?} {acids:?} {:#?}", made.steps);
    }
}

#[test]
fn blend_that_brings_acid_and_salt_at_once_is_a_preservative() {
    let made = made(&[(Water, "", &[("water", "qs"), ("gluconolactone-sodium-benzoate", "0.9")])]);
    assert_eq!(made.reasons(), [Reason::ColdTogether, Reason::Pack]);
}

#[test]
fn acid_that_is_there_for_itself_goes_in_whole_and_a_little_of_it_is_dosed() {
    let peel = made(&[(Water, "", &[("water", "qs"), ("lactic-acid", "5"), ("sodium-benzoate", "0.4")])]);
    assert_eq!(peel.lines(Reason::StirIn), ["lactic-acid"]);
    let lotion = made(&[(Water, "", &[("water", "qs"), ("lactic-acid", "0.3")])]);
    assert_eq!(lotion.lines(Reason::SetPhWith), ["lactic-acid"]);
}

/// Stearic acid and a base make the emulsifier as the hot phases meet: dosed by pH at the end, there would be none.
#[test]
fn base_that_makes_the_emulsifier_is_in_the_hot_water() {
    let made = made(&[
        (Water, "75", &[("water", "qs"), ("triethanolamine", "1")]),
        (Oil, "75", &[("plum-kernel", "10"), ("=Stearic Acid", "5")]),
    ]);
    assert_eq!(made.lines(Reason::PhaseTogether), ["water", "triethanolamine"]);
    assert!(!made.reasons().contains(&Reason::SetPhWith));
}

#[test]
fn every_phase_has_one_step_that_takes_the_rest_of_it() {
    let made = made(&[
        (Water, "72", &[("water", "qs"), ("glycerin", "3"), ("xanthan-gum", "0.3")]),
        (Oil, "72", &[("plum-kernel", "15"), ("cetearyl-olivate-sorbitan-olivate", "5"), ("zinc-oxide", "5")]),
        (CoolDown, "40", &[("panthenol-75", "1")]),
    ]);
    let rest: Vec<Reason> = made.steps.iter().filter(|step| step.rest).map(|step| step.reason).collect();
    assert_eq!(rest, [Reason::GumJoins, Reason::EmulsifierMelts, Reason::LateIntoCups]);
    assert_eq!(made_for(Formula::default(), false).steps, []);
}
