//! The parts of one material, read from what a table or a maker says that it is made of.

use crate::facts::{fold, preservative_named};
use crate::quantity::Percent;
use crate::shelf::read_composition;

/// One part of a material, in percent of the material.
pub(in crate::sheet) struct Component {
    pub(in crate::sheet) name: String,
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
/// has no share.
pub(in crate::sheet) fn read_parts(text: &str, names: &[String]) -> Option<Vec<Component>> {
    let mut components: Vec<Component> = Vec::new();
    let mut rest = None;
    for part in text.split(';').map(str::trim).filter(|part| !part.is_empty()) {
        let part = part.split('(').next().unwrap_or(part).trim().trim_end_matches(['%', ' ']);
        if let Some(name) = part.strip_suffix(" rest") {
            rest = Some(named(name, names, &components));
            continue;
        }
        let item = read_composition(&part.replace(" about ", " ")).items.into_iter().next()?;
        let name = named(&item.name, names, &components);
        components.push(Component { name, low: item.low, high: item.high });
    }
    let (low, high) = rest_of(&components);
    if let Some(name) = rest {
        components.push(Component { name, low, high });
    }
    let least: Percent = components.iter().map(|component| component.low).sum();
    (!components.is_empty() && least <= Percent::WHOLE).then_some(components)
}

/// The label's name of a part: the same words, another word for it, else the first label name that is still free.
fn named(name: &str, names: &[String], taken: &[Component]) -> String {
    let key = fold(name);
    let same = names.iter().find(|label| fold(label) == key);
    let other = || OTHER_WORDS.iter().find(|(word, _)| *word == key).map(|(_, inci)| (*inci).to_owned());
    let free = || names.iter().find(|label| !taken.iter().any(|component| component.name == **label)).cloned();
    same.cloned()
        .or_else(other)
        .or_else(|| if preservative_named(&key).is_some() { None } else { free() })
        .unwrap_or_else(|| title(name))
}

fn title(name: &str) -> String {
    let mut letters = name.trim().chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
