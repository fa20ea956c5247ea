//! The hazards of what is handled: raw materials as sold, the parts of blends, and the lye of a soap.

use super::choice_name;
use crate::facts::{Alkali, Hazard, fold, hazard, hazards_named};
use crate::formula::{Formula, Line};
use crate::sheet::{Sheet, SubstanceShare};
use crate::shelf::Shelf;

/// A hazard, and of what.
#[derive(Debug, Clone)]
pub struct FoundHazard {
    /// The raw material.
    pub name: String,
    /// The part of it that the hazard is of, where it is not that of the whole.
    pub part: Option<String>,
    /// The hazard.
    pub row: &'static Hazard,
}

/// Hazards, and what is not known.
#[derive(Debug, Clone, Default)]
pub struct MaterialHazards {
    /// In the order of the formula, each once; the lye of a soap first.
    pub known: Vec<FoundHazard>,
    /// Raw materials, or parts of them, of which nothing is known here: their data sheets count.
    pub unknown: Vec<String>,
}

/// Gathers them. A blend has the hazards of its parts, whatever their share in it: only its data sheet can say less.
pub fn material_hazards(formula: &Formula, sheet: &Sheet, shelf: &Shelf) -> MaterialHazards {
    let mut found = MaterialHazards::default();
    for alkali in alkalis(sheet) {
        found.known.extend(lye(alkali));
    }
    for (_, line) in formula.lines().filter(|(_, line)| !line.is_blank()) {
        let own = |share: &&SubstanceShare| share.line == line.id && !share.inside;
        let parts: Vec<&SubstanceShare> = sheet.composition.substances.iter().filter(own).collect();
        found.take(line, &parts, shelf);
    }
    found.unknown.sort();
    found.unknown.dedup();
    found
}

impl MaterialHazards {
    fn take(&mut self, line: &Line, parts: &[&SubstanceShare], shelf: &Shelf) {
        let name = choice_name(&line.choice, shelf);
        let entry = line.choice.id().and_then(|id| shelf.entry(id));
        let linked = entry.as_ref().and_then(|entry| entry.links().hazard).and_then(hazard);
        if let Some(row) = linked {
            self.add(FoundHazard { name: name.clone(), part: None, row });
        }
        let whole = parts.len() == 1;
        for part in parts {
            let rows = hazards_named(&part.key);
            if rows.is_empty() && linked.is_none() && !is_water(&part.key) {
                self.unknown.push(if whole { name.clone() } else { format!("{} (in {name})", part.name) });
            }
            for row in rows {
                let of = (!whole).then(|| part.name.clone());
                self.add(FoundHazard { name: name.clone(), part: of, row });
            }
        }
        if parts.is_empty() && linked.is_none() {
            self.unknown.push(name);
        }
    }

    fn add(&mut self, one: FoundHazard) {
        if self.known.iter().all(|known| known.row.id != one.row.id) {
            self.known.push(one);
        }
    }
}

/// Water has no hazard but its heat, which is among those of the work.
fn is_water(key: &str) -> bool {
    key == fold("Aqua")
}

/// The alkalis of the lye; both where one is asked for and could not be worked out.
fn alkalis(sheet: &Sheet) -> Vec<Alkali> {
    match &sheet.lye {
        None => Vec::new(),
        Some(Ok(lye)) => lye.alkalis.iter().map(|dose| dose.alkali).collect(),
        Some(Err(_)) => vec![Alkali::Sodium, Alkali::Potassium],
    }
}

fn lye(alkali: Alkali) -> Option<FoundHazard> {
    let id = match alkali {
        Alkali::Sodium => "sodium-hydroxide",
        Alkali::Potassium => "potassium-hydroxide",
    };
    let row = hazard(id)?;
    Some(FoundHazard { name: format!("{} for the lye", row.material), part: None, row })
}
