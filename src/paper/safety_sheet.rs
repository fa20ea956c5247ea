//! The facts of the safety sheet: for whom, what is in it, what may harm in use and in making, what was checked.

use super::bundle::with_answer;
use super::{BundleFinding, Caution, Checked, LabelFacts, MaterialHazards, checked, label_facts, material_hazards};
use crate::facts::{Hazard, SubstanceClass, When, hazards, in_class};
use crate::formula::{About, Formula, PhaseKind};
use crate::quantity::{Celsius, Typed};
use crate::rules::{Fact, Finding, Grade};
use crate::sheet::Sheet;
use crate::shelf::Shelf;

/// The facts.
#[derive(Debug, Clone)]
pub struct SafetyFacts {
    /// Title, use, area, audience, pack.
    pub about: About,
    /// The label: list, cautions, storage.
    pub label: LabelFacts,
    /// Hazards of raw materials, of their parts and of the lye, each once.
    pub hazards: MaterialHazards,
    /// Hazards of the work itself.
    pub work: Vec<&'static Hazard>,
    /// The hottest phase.
    pub hottest: Option<Celsius>,
    /// Lines flagged as made from what people are allergic to.
    pub sources: Vec<(String, String)>,
    /// Against what each line was checked.
    pub checked: Checked,
    /// The findings.
    pub findings: Vec<Finding>,
    /// Those that stop, with who answered them.
    pub stops: Vec<BundleFinding>,
    /// Whether chlorine bleach and acids could meet at the bench.
    pub acids: bool,
}

/// Gathers a safety sheet.
pub fn safety_facts(formula: &Formula, sheet: &Sheet, findings: &[Finding], shelf: &Shelf) -> SafetyFacts {
    let mut sources = Vec::new();
    let (mut powder, mut volatile) = (false, false);
    for (_, line) in formula.lines().filter(|(_, line)| !line.is_blank()) {
        let Some(entry) = line.choice.id().and_then(|id| shelf.entry(id)) else { continue };
        let name = entry.label().to_owned();
        powder |= ["Absorbent", "Bulking", "Colorant", "Gel forming", "Binding", "Viscosity controlling"]
            .iter()
            .any(|function| entry.has_function(function));
        volatile |= entry.has_function("Fragrance") || entry.id().as_str() == "ethanol";
        if let Some(source) = entry.allergen_source().filter(|_| !entry.has_function("Fragrance")) {
            sources.push((name, source.value.to_owned()));
        }
    }
    sources.dedup();
    let hottest = formula.phases().iter().filter_map(|phase| Typed::value(&phase.heat)).max();
    let heated = formula.phases().iter().any(|phase| phase.kind == PhaseKind::Oil)
        || hottest.is_some_and(|heat| crate::quantity::Quantity::units(heat) > 45_000);
    let work = hazards().iter().filter(|row| match row.when {
        When::Material => false,
        When::Always => true,
        When::Heat => heated,
        When::Powder => powder,
        When::Volatile => volatile,
    });
    SafetyFacts {
        about: formula.about.clone(),
        label: label_facts(formula, sheet, findings),
        acids: sheet
            .composition
            .substances
            .iter()
            .any(|substance| in_class(SubstanceClass::Acid, &substance.key).is_some()),
        checked: checked(formula, sheet, shelf),
        hazards: material_hazards(formula, sheet, shelf),
        work: work.collect(),
        hottest,
        sources,
        stops: findings
            .iter()
            .filter(|finding| finding.grade == Grade::Stop)
            .map(|finding| with_answer(finding, formula, shelf))
            .collect(),
        findings: findings.to_vec(),
    }
}

impl SafetyFacts {
    /// Cautions in use.
    pub fn cautions(&self) -> &[Caution] {
        &self.label.cautions
    }

    /// The codes of the rules that found nothing to say or something well, and of those that could not judge.
    pub fn judged(&self) -> (Vec<&'static str>, Vec<&'static str>) {
        let mut unknown: Vec<&'static str> = Vec::new();
        for finding in self.findings.iter().filter(|finding| finding.grade == Grade::Unknown) {
            if !unknown.contains(&finding.rule) {
                unknown.push(finding.rule);
            }
        }
        let mut checked: Vec<&'static str> =
            crate::rules::RULES.iter().map(|rule| rule.code).filter(|code| !unknown.contains(code)).collect();
        checked.dedup();
        (checked, unknown)
    }

    /// What rests on memory among the findings.
    pub fn unverified(&self) -> usize {
        self.findings
            .iter()
            .filter(|finding| {
                matches!(finding.fact, Fact::Message(_)) && !finding.verified() && finding.grade != Grade::Fine
            })
            .count()
    }
}
