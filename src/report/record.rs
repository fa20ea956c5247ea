//! What a batch is made from, frozen as its record begins: the sheet and the findings in the words in which they were shown.

use super::record_method::{FrozenMethod, frozen_method};
use crate::batch::{FrozenFinding, FrozenPacks, FrozenScale, MadeFrom};
use crate::desk::{Derived, OpenDocument};
use crate::formula::{Formula, LineId};
use crate::rules::{Finding, KNOWN_TO, Standing, standing};
use crate::sheet::{BatchBasis, Fill, Plan};
use crate::words::{self, DecimalSign, choice_name};

/// Freezes the open formula and what follows from it, with numbers in the maker's notation.
pub fn made_from(open: &OpenDocument, derived: &Derived, sign: DecimalSign) -> MadeFrom {
    let formula = &open.state().formula;
    let name = |id: LineId| formula.line(id).map(|line| choice_name(&line.choice, open.shelf())).unwrap_or_default();
    let plan = &open.state().plan;
    let weigh = derived.sheet.weigh.as_ref().ok();
    let FrozenMethod { lines, steps } = frozen_method(open, derived);
    MadeFrom {
        formula: formula.clone(),
        version: open.document().current_version().map(|version| version.number),
        mark: open.mark(),
        batch: weigh.map(|sheet| sheet.batch.mass),
        lines,
        steps,
        scale: weigh.and_then(|sheet| Some(FrozenScale { step: sheet.step, tolerance: plan.tolerance_value()? })),
        packs: packs(plan),
        findings: derived.findings.iter().map(|finding| frozen(finding, formula, &name, sign)).collect(),
        rules_known_to: KNOWN_TO,
    }
}

/// Jars of a mass, where the batch is planned by them.
fn packs(plan: &Plan) -> Option<FrozenPacks> {
    let Fill::Mass(fill) = &plan.fill else { return None };
    let by_jars = plan.basis == BatchBasis::Jars;
    Some(FrozenPacks { count: plan.jars.value()?, fill: fill.value()? }).filter(|_| by_jars)
}

fn frozen(finding: &Finding, formula: &Formula, name: &dyn Fn(LineId) -> String, sign: DecimalSign) -> FrozenFinding {
    let names: Vec<String> = finding.lines.iter().map(|id| name(*id)).collect();
    let answered = standing(finding, formula).filter(|standing| matches!(standing, Standing::Answered(_)));
    FrozenFinding {
        rule: finding.rule.to_owned(),
        grade: finding.grade,
        text: words::finding(finding, &names, sign),
        answer: answered.map(|standing| words::standing(&standing, "")).unwrap_or_default(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DocId, ShelfDocument, demo};
    use crate::formula::Answer;
    use crate::quantity::{Day, Mass, Timestamp};
    use crate::rules::Grade;

    #[test]
    fn batch_freezes_what_it_was_made_from() {
        let mut document = demo();
        document.save_version(Timestamp::default());
        let mut open = OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), Timestamp::default());
        let derived = open.derive();
        let from = made_from(&open, &derived, DecimalSign::Point);
        assert_eq!((&from.formula, from.version, from.mark), (&open.state().formula, Some(1), open.mark()));
        let sum = from.lines.iter().fold(Mass::ZERO, |sum, line| sum.plus(line.on_scale));
        assert_eq!(Some(sum), from.batch, "what goes onto the scale is the batch");
        assert_eq!(from.findings.len(), derived.findings.len());
        assert!(from.findings.iter().all(|found| !found.text.is_empty() && found.answer.is_empty()));
        // What changes later changes nothing of it.
        open.act(crate::desk::Action::Title("Another".into()), Timestamp::default());
        assert_ne!(from.formula, open.state().formula);
    }

    #[test]
    fn batch_freezes_how_a_stop_was_answered() {
        // Annex V of Regulation (EC) No 1223/2009, entry 29: at most 1 % of phenoxyethanol.
        let text = include_str!("../desk/demo.json").replace(
            "\"benzyl-alcohol-dehydroacetic-acid\", \"percent\": \"0.9\"",
            "\"phenoxyethanol\", \"percent\": \"1.2\"",
        );
        let document = crate::desk::read_document(&text, &mut crate::shelf::Shelf::default()).unwrap();
        let mut open = OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), Timestamp::default());
        let derived = open.derive();
        let stop = derived.findings.iter().find(|found| standing(found, &open.state().formula).is_some()).unwrap();
        let answer = Answer {
            finding: stop.key(&open.state().formula),
            value: stop.value().unwrap_or_default(),
            reason: "Tested at this share.".into(),
            person: "Ada Marsh".into(),
            day: Day::read("2026-11-25"),
        };
        let place = derived.findings.iter().position(|found| found == stop).unwrap();
        open.act(crate::desk::Action::Answer(answer), Timestamp::default());
        let frozen = &made_from(&open, &open.derive(), DecimalSign::Point).findings[place];
        assert_eq!(frozen.grade, Grade::Stop);
        assert_eq!(frozen.answer, "Accepted by Ada Marsh, 2026-11-25: Tested at this share.");
    }
}
