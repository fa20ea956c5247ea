//! The parts of one material, read from what a table or a maker says that it is made of.

use super::identity::{Named, identify_part};
use super::parts::undecided;
use crate::facts::{fold, preservative_named};
use crate::quantity::Percent;
use crate::shelf::read_composition;

/// One part of a material, in percent of the material.
pub(in crate::sheet) struct Component {
    pub(in crate::sheet) named: Named,
    pub(in crate::sheet) low: Percent,
    pub(in crate::sheet) high: Percent,
}

/// What the pieces leave of the whole: at least and at most.
pub(super) fn rest_of(components: &[Component]) -> (Percent, Percent) {
    let high: Percent = components.iter().map(|component| component.high).sum();
    let low: Percent = components.iter().map(|component| component.low).sum();
    let left = |sum: Percent| Percent::WHOLE.minus(sum).max(Percent::ZERO);
    (left(high), left(low))
}

/// Names in component texts that are another word for an INCI name.
const OTHER_WORDS: [(&str, &str); 2] = [(" water", "Aqua"), (" cmit", "Methylchloroisothiazolinone")];

/// Reads `benzyl alcohol 85-88; dehydroacetic acid 7-8; water 4-8`. `rest` takes what the others leave. `None` if a part
/// has no share. Only names that a maker wrote are looked up.
pub(in crate::sheet) fn read_parts(text: &str, names: &[Named], makers: bool) -> Option<Vec<Component>> {
    let mut components: Vec<Component> = Vec::new();
    let mut rest = None;
    for part in text.split(';').map(str::trim).filter(|part| !part.is_empty()) {
        let part = part.split('(').next().unwrap_or(part).trim().trim_end_matches(['%', ' ']);
        if let Some(name) = part.strip_suffix(" rest") {
            rest = Some(named(name, names, &components, makers));
            continue;
        }
        let item = read_composition(&part.replace(" about ", " ")).items.into_iter().next()?;
        let named = named(&item.name, names, &components, makers);
        components.push(Component { named, low: item.low, high: item.high });
    }
    let (low, high) = rest_of(&components);
    if let Some(named) = rest {
        components.push(Component { named, low, high });
    }
    let least: Percent = components.iter().map(|component| component.low).sum();
    (!components.is_empty() && least <= Percent::WHOLE).then_some(components)
}

/// What a part is: the label name of the same words, another word for one, what the recogniser makes of it, else the first
/// label name that is still free.
fn named(name: &str, names: &[Named], taken: &[Component], makers: bool) -> Named {
    let key = fold(name);
    let other = OTHER_WORDS.iter().find(|(word, _)| *word == key).map(|(_, inci)| Named::listed(inci));
    if let Some(same) = names.iter().find(|label| fold(&label.name) == key) {
        return same.clone();
    }
    let part = other.unwrap_or_else(|| if makers { identify_part(name) } else { Named::open(name) });
    if let Some(same) = names.iter().find(|label| fold(&label.name) == fold(&part.name)) {
        return same.clone();
    }
    let free = names.iter().find(|label| !taken.iter().any(|component| component.named == **label));
    match free {
        // A part that may be either of two things is neither.
        Some(free) if !part.recognition.is_certain() && !undecided(name) && preservative_named(&key).is_none() => {
            free.clone()
        }
        _ => Named { name: title(&part.name), ..part },
    }
}

fn title(name: &str) -> String {
    let mut letters = name.trim().chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
