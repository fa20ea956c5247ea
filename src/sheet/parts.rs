//! The parts of one line's material, and how they are known.

use super::Trust;
use super::components::{Component, read_parts, rest_of};
use super::identity::{Identity, Named, identify};
use crate::facts::{IngredientId, Preservative, PreservativeGroup, fold, inci_names, preservative};
use crate::formula::Choice;
use crate::names::names_scent;
use crate::quantity::Percent;
use crate::shelf::{Ingredient, Shelf};

/// What fragrances and essential oils do, in the terms of CosIng.
const SCENT: &str = "Fragrance";

/// What a line is made of.
pub(super) struct LineParts {
    /// In percent of the line.
    pub(super) components: Vec<Component>,
    /// How they are known.
    pub(super) trust: Trust,
    /// Its row, where it is a mixture of preservatives as sold.
    pub(super) blend: Option<&'static Preservative>,
    /// It is a fragrance or an essential oil, or holds one.
    pub(super) scent: bool,
}

impl LineParts {
    /// Of what a line is; nothing where it has no name, or one that the shelf does not have any more.
    pub(super) fn of(choice: &Choice, shelf: &Shelf) -> Option<Self> {
        match choice {
            Choice::Known(id) => Some(Self::of_entry(&shelf.entry(id)?, shelf)),
            Choice::Named(name) if name.trim().is_empty() => None,
            Choice::Named(name) => Some(Self::of_text(name, None)),
        }
    }

    /// Of an entry of the shelf.
    pub(super) fn of_entry(entry: &Ingredient, shelf: &Shelf) -> Self {
        match makers_names(entry) {
            Some(text) => Self::of_text(text, Some(entry)),
            None => Self::of_table(entry, shelf),
        }
    }

    /// The names of an entry on a label, as far as they are known.
    pub(super) fn named(entry: &Ingredient) -> Vec<Named> {
        match makers_names(entry).map(identify) {
            None => label_names(entry),
            Some(Identity::Material(id)) => Shelf::default().entry(&id).as_ref().map(label_names).unwrap_or_default(),
            Some(Identity::Substances(names) | Identity::Solution(names, _)) => names,
        }
    }

    /// Of what a maker wrote: the name of a line, or of an entry with what it says of its parts.
    pub(super) fn of_text(text: &str, entry: Option<&Ingredient>) -> Self {
        let stated = |names: &[Named]| {
            let text = entry?.components().filter(|text| text.provenance.is_makers())?;
            read_parts(text.value, names, true)
        };
        let (names, share) = match identify(text) {
            Identity::Material(id) => {
                let row = Shelf::default().entry(&id);
                let names = row.as_ref().map(label_names).unwrap_or_default();
                if let (Some(row), None) = (&row, stated(&names)) {
                    return Self::of_table(row, &Shelf::default());
                }
                (names, None)
            }
            Identity::Substances(names) => (names, None),
            Identity::Solution(names, share) => (names, Some(share)),
        };
        let (components, trust) = match (stated(&names), share, names.as_slice()) {
            (Some(components), ..) => (components, Trust::Maker),
            (None, Some(share), [dissolved, water]) => {
                let rest = Percent::WHOLE.minus(share);
                (vec![whole_part(dissolved, share), whole_part(water, rest)], Trust::Maker)
            }
            (None, _, [only]) => (vec![whole_part(only, Percent::WHOLE)], Trust::Plain),
            (None, ..) => (open_parts(&names), Trust::Open),
        };
        let scent = entry.is_some_and(|entry| entry.has_function(SCENT)) || names_scent(text);
        Self { components, trust, blend: None, scent }
    }

    /// Of an entry whose names are those of the table.
    fn of_table(entry: &Ingredient, shelf: &Shelf) -> Self {
        let names = label_names(entry);
        let (components, trust) = components(entry, &names, shelf);
        Self { components, trust, blend: blend_of(entry), scent: entry.has_function(SCENT) }
    }
}

/// What the maker wrote that names an entry: its label names, or without any its own name; nothing where the table's names
/// stand.
pub(super) fn makers_names(entry: &Ingredient) -> Option<&str> {
    match entry.inci() {
        Some(inci) => inci.provenance.is_makers().then_some(inci.value),
        None => entry.name().filter(|name| name.provenance.is_makers()).map(|name| name.value),
    }
}

/// The label name that the maker gave an entry.
pub fn makers_inci(entry: &Ingredient) -> Option<&str> {
    entry.inci().filter(|inci| inci.provenance.is_makers()).map(|inci| inci.value)
}

/// The names of all that a choice consists of, as far as that is known.
pub fn consists_of(choice: &Choice, shelf: &Shelf) -> Vec<Named> {
    let parts = LineParts::of(choice, shelf).map(|parts| parts.components);
    parts.unwrap_or_default().into_iter().map(|component| component.named).collect()
}

/// The names of an ingredient on a label, `or` resolved to the first.
pub(super) fn label_names(entry: &Ingredient) -> Vec<Named> {
    let text = entry.inci().map_or("", |inci| inci.value);
    inci_names(text).map(Named::listed).collect()
}

/// The row of a mixture of preservatives as sold.
fn blend_of(entry: &Ingredient) -> Option<&'static Preservative> {
    entry.links().preservative.and_then(preservative).filter(|row| row.group == PreservativeGroup::Blend)
}

fn whole_part(named: &Named, share: Percent) -> Component {
    Component { named: named.clone(), low: share, high: share }
}

fn open_parts(names: &[Named]) -> Vec<Component> {
    let open = |named: &Named| Component { named: named.clone(), low: Percent::ZERO, high: Percent::WHOLE };
    names.iter().map(open).collect()
}

/// The parts of a material, and how they are known.
fn components(entry: &Ingredient, names: &[Named], shelf: &Shelf) -> (Vec<Component>, Trust) {
    let stated = entry.components().filter(|text| text.provenance.is_makers());
    if let Some(components) = stated.and_then(|text| read_parts(text.value, names, true)) {
        return (components, Trust::Maker);
    }
    if let Some(row) = blend_of(entry)
        && stated.is_none()
        && !row.parts.is_empty()
    {
        return (blend_pieces(row, names, shelf), Trust::Table);
    }
    if let [only] = names {
        // Solutions of one named substance (an acid, a lye) are known by their parts; a plain one is itself, and so is one
        // whose parts have no other name on a label ("potassium or sodium stearate" in a self-emulsifying grade).
        let parts = entry.components().and_then(|text| read_parts(text.value, names, false));
        return match parts.filter(|parts| !parts.iter().any(|part| undecided(&part.named.name))) {
            Some(parts) if parts.len() > 1 => (parts, Trust::Table),
            _ => (vec![whole_part(only, Percent::WHOLE)], Trust::Plain),
        };
    }
    match entry.components().and_then(|text| read_parts(text.value, names, false)) {
        Some(components) => (components, Trust::Table),
        None => (open_parts(names), Trust::Open),
    }
}

/// A part that may be either of two things is no name of a label.
pub(super) fn undecided(name: &str) -> bool {
    name.contains(" or ")
}

/// The parts of a blend of the preservative table; what it does not name shares the rest.
fn blend_pieces(row: &Preservative, names: &[Named], shelf: &Shelf) -> Vec<Component> {
    let mut components = Vec::new();
    for part in &row.parts {
        let entry = IngredientId::parse(part.id).ok().and_then(|id| shelf.entry(&id));
        let names = entry.map(|entry| label_names(&entry)).filter(|names| !names.is_empty());
        for named in names.unwrap_or_else(|| vec![Named::listed(part.id)]) {
            components.push(Component { named, low: part.low, high: part.high });
        }
    }
    let is_there = |named: &&Named| {
        let key = fold(&named.name);
        components.iter().any(|component: &Component| fold(&component.named.name) == key)
    };
    let rest: Vec<&Named> = names.iter().filter(|named| !is_there(named)).collect();
    let (low, high) = rest_of(&components);
    let low = if rest.len() == 1 { low } else { Percent::ZERO };
    components.extend(rest.into_iter().map(|named| Component { named: named.clone(), low, high }));
    components
}
