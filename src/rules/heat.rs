//! An ingredient in a phase that is hotter than it should see.
//!
//! Why it matters: delicate oils oxidise, vitamins and preservatives break down, vapour of scents and alcohol may catch fire.
//! Source: heat limits of the ingredient table, most of them custom from memory; flash points of the hazard table.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{criteria, criterion, hazard, source_text};
use crate::formula::PhaseKind;
use crate::quantity::{Celsius, Quantity};

pub(super) const RULE: Rule = Rule { code: "heat", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for (phase, line, _, entry) in context.known_lines() {
        let Some(heat) = phase.heat.value() else { continue };
        let to_cool = (phase.kind != PhaseKind::CoolDown).then_some(Remedy::ToCoolDown(line.id));
        let volatile = entry.has_function("Fragrance") || entry.id().as_str() == "ethanol";
        let flash = entry.links().hazard.and_then(hazard).filter(|_| volatile).and_then(|row| Some((row, row.flash?)));
        let margin = criterion(criteria::FLASH_MARGIN);
        if let Some((row, (point, seen))) = flash
            && heat.units() > point.units() - margin.value.units()
        {
            // At the flash point itself nothing but the hazard table is needed.
            let near = heat < point;
            let finding = Finding::said(RULE.code, Grade::Stop, Message::FlashPoint, row.basis);
            findings.push(
                if near { finding.rests_on(margin.basis) } else { finding }
                    .if_holds(seen.is_verified())
                    .on([line.id])
                    .about(entry.label())
                    .found(Amount::Celsius(heat))
                    .against(Amount::Celsius(point))
                    .remedy(to_cool),
            );
            continue;
        }
        let Some(most) = entry.heat_max() else { continue };
        let over = heat.units() - most.value.units();
        if over <= 0 {
            continue;
        }
        let basis = entry.basis(most.provenance).or_own(source_text("own-heat"));
        let spared = criterion(criteria::HEAT_CARE);
        let grade = if over <= spared.value.units() { Grade::Care } else { Grade::Stop };
        findings.push(
            Finding::said(RULE.code, grade, Message::TooHot { over: Celsius::from_units(over) }, basis)
                .rests_on(spared.basis)
                .on([line.id])
                .about(entry.label())
                .found(Amount::Celsius(heat))
                .against(Amount::Celsius(most.value))
                .document(context.documents(&[line.id]).filter(|_| most.provenance.is_makers()))
                .remedy(to_cool),
        );
    }
}
