//! The facts of the assessor's bundle: what a safety assessor asks for, as far as it is here.
//!
//! What has no room in the program yet (a stability test) or was not kept (the record of a batch) is named as missing, never filled with something
//! invented. It says how far things are and gives no verdict.

use super::{Checked, LabelFacts, RecordFacts, checked, choice_name, label_facts};
use crate::facts::{Alkali, Field};
use crate::formula::{Answer, Formula, PaperField};
use crate::names::{RegistryNumbers, registry_numbers};
use crate::quantity::{Celsius, Mass, Percent, Typed, sort_by};
use crate::rules::{Finding, Grade, Standing, standing};
use crate::sheet::{Sheet, Trust, UsedLot};
use crate::shelf::Shelf;

/// One substance of the formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BundleSubstance {
    /// Its INCI name.
    pub name: String,
    /// Its numbers in the registry (CAS) and the inventory (EC).
    pub numbers: RegistryNumbers,
    /// What it does, by the shelf.
    pub functions: String,
    /// True if all of it is inside a fragrance or oil of the list.
    pub inside: bool,
    /// Least and greatest share, over all lines that bring it.
    pub range: (Percent, Percent),
    /// Whether the range is from a supplier, plain, or from memory; the least known of its parts decides.
    pub trust: Trust,
}

/// One raw material.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BundleMaterial {
    /// What the maker calls it.
    pub name: String,
    /// Its share.
    pub share: Option<Percent>,
    /// Its supplier's documents.
    pub document: Option<String>,
    /// The lot on the shelf.
    pub lot: Option<String>,
    /// The lot whose allergen statement counts.
    pub stated: Option<UsedLot>,
    /// What is open about it: the maker's values in place of the table's.
    pub overridden: Vec<Field>,
}

/// One step of the method.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BundleStep {
    /// The phase.
    pub phase: String,
    /// Its temperature.
    pub heat: Option<Celsius>,
    /// Its lines with their remarks.
    pub lines: Vec<(String, String)>,
}

/// A finding and who answered it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BundleFinding {
    /// The finding.
    pub finding: Finding,
    /// The names of its lines.
    pub names: Vec<String>,
    /// The answer that holds, if there is one.
    pub answer: Option<Answer>,
    /// True if there is an answer that holds no longer.
    pub lapsed: bool,
}

/// The lye of a soap.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BundleLye {
    /// What is weighed of each alkali; none where it could not be worked out.
    pub alkalis: Vec<(Alkali, Mass)>,
    /// Its water, with what the formula has of its own.
    pub water: Mass,
    /// The mass of the formula that it is for.
    pub batch: Mass,
}

/// The facts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BundleFacts {
    /// The formula, for title and purpose.
    pub about: crate::formula::About,
    /// Its substances, in falling share.
    pub substances: Vec<BundleSubstance>,
    /// Against what each line was checked.
    pub checked: Checked,
    /// Its raw materials.
    pub materials: Vec<BundleMaterial>,
    /// Its lye, where it is a soap.
    pub lye: Option<BundleLye>,
    /// The method.
    pub steps: Vec<BundleStep>,
    /// The label.
    pub label: LabelFacts,
    /// Findings that are not Fine, with answers.
    pub findings: Vec<BundleFinding>,
    /// Texts about assessment, test and notification, by field.
    pub state: Vec<(PaperField, Option<String>)>,
    /// Water activity as measured.
    pub water_activity: Option<String>,
    /// How many findings are Fine.
    pub fine: usize,
    /// The record of the last batch, where there is one.
    pub record: Option<RecordFacts>,
}

/// Gathers a bundle.
pub fn bundle_facts(formula: &Formula, sheet: &Sheet, findings: &[Finding], shelf: &Shelf) -> BundleFacts {
    let text = |field| formula.papers.said(field).map(str::to_owned);
    let state = [PaperField::Assessor, PaperField::ChallengeTest, PaperField::Stability, PaperField::Notified];
    BundleFacts {
        about: formula.about.clone(),
        substances: substances(formula, sheet, shelf),
        checked: checked(formula, sheet, shelf),
        materials: materials(formula, sheet, shelf),
        lye: lye(sheet),
        steps: formula
            .phases()
            .iter()
            .map(|phase| BundleStep {
                phase: phase.name.clone(),
                heat: Typed::value(&phase.heat),
                lines: phase
                    .lines
                    .iter()
                    .filter(|line| !line.is_blank())
                    .map(|line| (choice_name(&line.choice, shelf), line.note.clone()))
                    .collect(),
            })
            .collect(),
        label: label_facts(formula, sheet, findings),
        findings: findings
            .iter()
            .filter(|finding| finding.grade != Grade::Fine)
            .map(|finding| with_answer(finding, formula, shelf))
            .collect(),
        state: state.into_iter().map(|field| (field, text(field))).collect(),
        water_activity: text(PaperField::WaterActivity),
        fine: findings.iter().filter(|finding| finding.grade == Grade::Fine).count(),
        record: None,
    }
}

/// A finding with the names of its lines and with who answered it.
pub(super) fn with_answer(finding: &Finding, formula: &Formula, shelf: &Shelf) -> BundleFinding {
    let standing = standing(finding, formula);
    let lines = finding.lines.iter().filter_map(|id| formula.line(*id));
    BundleFinding {
        names: lines.map(|line| choice_name(&line.choice, shelf)).collect(),
        answer: match &standing {
            Some(Standing::Answered(answer)) => Some((*answer).clone()),
            _ => None,
        },
        lapsed: matches!(standing, Some(Standing::Lapsed(_) | Standing::Unfinished(_))),
        finding: finding.clone(),
    }
}

fn substances(formula: &Formula, sheet: &Sheet, shelf: &Shelf) -> Vec<BundleSubstance> {
    let mut found: Vec<BundleSubstance> = Vec::new();
    for substance in &sheet.composition.substances {
        let line = formula.line(substance.line).and_then(|line| line.choice.id()).and_then(|id| shelf.entry(id));
        let functions =
            line.filter(|_| !substance.inside).map_or_else(String::new, |entry| entry.functions().join(", "));
        if let Some(known) = found.iter_mut().find(|known| known.name == substance.name) {
            known.range = (known.range.0.plus(substance.low), known.range.1.plus(substance.high));
            known.trust = known.trust.max(substance.trust);
            known.inside &= substance.inside;
            // Those of a line that is this substance itself, before those of a blend that brings it.
            if known.functions.is_empty() || (substance.trust == Trust::Plain && !functions.is_empty()) {
                known.functions = functions;
            }
            continue;
        }
        found.push(BundleSubstance {
            name: substance.name.clone(),
            numbers: registry_numbers(&substance.name),
            functions,
            inside: substance.inside,
            range: (substance.low, substance.high),
            trust: substance.trust,
        });
    }
    sort_by(&mut found, |a, b| b.range.1.cmp(&a.range.1).then_with(|| a.name.cmp(&b.name)));
    found
}

fn lye(sheet: &Sheet) -> Option<BundleLye> {
    let batch = sheet.weigh.as_ref().map_or(Mass::ZERO, |weigh| weigh.batch.mass);
    sheet.lye.as_ref().map(|found| match found {
        Ok(lye) => {
            let alkalis = lye.alkalis.iter().map(|dose| (dose.alkali, dose.weigh)).collect();
            BundleLye { alkalis, water: lye.water, batch }
        }
        Err(_) => BundleLye { alkalis: Vec::new(), water: Mass::ZERO, batch },
    })
}

fn materials(formula: &Formula, sheet: &Sheet, shelf: &Shelf) -> Vec<BundleMaterial> {
    formula
        .lines()
        .filter(|(_, line)| !line.is_blank())
        .map(|(_, line)| {
            let entry = line.choice.id().and_then(|id| shelf.entry(id));
            let text = |field| Some(entry.as_ref()?.text(field)?.value.to_owned());
            BundleMaterial {
                name: choice_name(&line.choice, shelf),
                share: sheet.totals.share_of(line.id),
                document: text(Field::Document),
                lot: text(Field::Lot),
                stated: sheet.composition.lot(line.id).cloned(),
                overridden: line.choice.id().map_or_else(Vec::new, |id| {
                    shelf.overridden(id).into_iter().filter(|field| !field.is_makers()).collect()
                }),
            }
        })
        .collect()
}
