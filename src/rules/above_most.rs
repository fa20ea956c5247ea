//! More of an ingredient than its supplier, or the table, gives as the most.
//!
//! Why it matters: above it something happens that the maker does not want: it stings, crystallises, feels sticky or thins.
//! Source: the supplier's figure on the shelf, else the table's. A supplier's figure stops; the table's asks for care, since
//! what law caps has rules of its own. What is custom for emulsions says nothing of what is none.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{fold, limits, source_text};
use crate::formula::Use;
use crate::shelf::Ingredient;

pub(super) const RULE: Rule = Rule { code: "above-most", check };

/// Twenty percent of alcohol is a threshold above which no preservative is asked for, and no ceiling.
const NO_CEILING: &str = "ethanol";

/// Custom for what thickens or emulsifies is of emulsions, where it stiffens or parts. A balm is made of waxes and butters,
/// a cleansing oil of emulsifiers, a soap of what becomes soap.
fn is_for_emulsions(entry: &Ingredient) -> bool {
    let of_the_oils = ["Emollient", "Emulsion stabilising", "Film forming", "Surfactant - emulsifying"];
    entry.max_is_custom() && of_the_oils.iter().any(|function| entry.has_function(function))
}

fn is_emulsion(context: RuleContext<'_>) -> bool {
    context.is_wet() && context.about().purpose != Use::Soap && !context.is_bar_soap()
}

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for (_, line, share, entry) in context.known_lines() {
        let Some(most) = entry.max().filter(|most| share > most.value) else { continue };
        if !most.provenance.is_makers() {
            let capped = entry.inci().is_some_and(|inci| {
                let key = fold(inci.value);
                limits().iter().any(|limit| limit.names.iter().any(|(name, _)| *name == key))
            });
            let own_rule = capped || entry.links().preservative.is_some() || entry.has_function("Fragrance");
            let elsewhere = !is_emulsion(context) && is_for_emulsions(&entry);
            if own_rule || elsewhere || entry.id().as_str() == NO_CEILING {
                continue;
            }
        }
        let grade = if most.provenance.is_makers() { Grade::Stop } else { Grade::Care };
        let basis = entry.basis(most.provenance).or_own(source_text("own-most"));
        findings.push(
            Finding::said(RULE.code, grade, Message::AboveMost, basis)
                .on([line.id])
                .about(entry.label())
                .found(Amount::Percent(share))
                .against(Amount::Percent(most.value))
                .document(context.documents(&[line.id]).filter(|_| grade == Grade::Stop))
                .remedy([Remedy::Share(line.id, most.value)]),
        );
    }
}
