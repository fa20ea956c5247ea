//! Oils that turn rancid sooner than most, and nothing that slows it.
//!
//! Why it matters: rancid oil smells, irritates, and makes sensitising peroxides.
//! Source: the oxidizability of a fat's acids, and the bound to it, as `facts::Profile` has them; where the acids are not
//! known or do not tell, a list of names from memory. The share from which it matters is a choice of ours.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Basis, IngredientId, OxidationOutlook, SubstanceClass, criteria, criterion, source_text};
use crate::formula::{LineId, PhaseKind};
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "no-antioxidant", check };

/// What is proposed: 0.3 % of mixed tocopherols, inside their usual range.
const DOSE: Percent = Percent::millionths(300_000);

/// The rates are from memory, see [`crate::facts::Profile::oxidizability`].
fn by_acids() -> Basis {
    Basis::memory(source_text("oxidation"))
}

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let listed = context.class(SubstanceClass::FastOxidising);
    let (mut fast, mut dark) = (Found::default(), Found::default());
    let mut basis = listed.basis;
    let mut told: Vec<LineId> = Vec::new();
    for (_, line, share, entry) in context.known_lines() {
        let Some(fat) = entry.fat() else { continue };
        match fat.outlook() {
            Some(outlook) => {
                told.push(line.id);
                if outlook >= OxidationOutlook::Short {
                    basis = by_acids();
                    fast.add(line.id, share, entry.label());
                }
            }
            None if fat.untold().is_some() && !listed.substances.iter().any(|substance| substance.line == line.id) => {
                dark.add(line.id, share, entry.label());
            }
            None => {}
        }
    }
    for substance in listed.substances.iter().filter(|substance| !told.contains(&substance.line)) {
        fast.add(substance.line, substance.high, &substance.name);
    }
    let bound = criterion(criteria::ANTIOXIDANT_OIL);
    if !context.class(SubstanceClass::Antioxidant).is_empty() {
        return;
    }
    let (grade, said, found, basis) = if fast.share >= bound.value {
        (Grade::Care, Message::NoAntioxidant, fast, basis)
    } else if !dark.lines.is_empty() && fast.share.plus(dark.share) >= bound.value {
        // What cannot be told may turn as soon as any: the question must not go with the answer.
        (Grade::Unknown, Message::KeepingUnknown, dark, criterion(criteria::UNREAD_ACIDS).basis)
    } else {
        return;
    };
    let add = IngredientId::parse("tocopherol").ok().map(|id| Remedy::Add(id, DOSE, PhaseKind::CoolDown));
    findings.push(
        Finding::said(RULE.code, grade, said, basis)
            .about(found.names())
            .on(found.lines)
            .found(Amount::Percent(found.share))
            .against(Amount::Percent(bound.value))
            .remedy(add),
    );
}

/// Oils that one finding speaks of.
#[derive(Default)]
struct Found {
    share: Percent,
    lines: Vec<LineId>,
    names: Vec<String>,
}

impl Found {
    fn add(&mut self, line: LineId, share: Percent, name: &str) {
        self.share = self.share.plus(share);
        self.lines.push(line);
        self.names.push(name.to_owned());
    }

    fn names(&self) -> String {
        let mut names = self.names.clone();
        names.sort_unstable();
        names.dedup();
        names.join(", ")
    }
}
