//! One ingredient as the shelf knows it: the table's values with the maker's laid over them.

use crate::facts::{
    Basis, Field, FieldProblem, Hlb, IngredientId, Links, Material, Months, PhWindow, Provenance, Solvent, UseRange,
    UsualPhase, beginning, choice, named_functions, source_of, words_count,
};
use crate::quantity::{Celsius, Density, Parsed, Percent, Quantity};
use crate::shelf::typed::counts;
use crate::shelf::{Lot, LotField, check};

/// A text and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell<'a> {
    /// As it stands in the table or as the maker typed it.
    pub text: &'a str,
    /// How well it is known; [`Ingredient::basis`] tells where from.
    pub provenance: Provenance,
}

/// A value and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// How well it is known; [`Ingredient::basis`] tells where from.
    pub provenance: Provenance,
}

/// An ingredient of the shelf. A text that gives no value (a half-typed number) is not used: the
/// table's counts, and where there is none the value is not known, never zero.
#[derive(Debug, Clone)]
pub struct Ingredient {
    id: IngredientId,
    own: bool,
    /// What the maker typed, in the order of [`Field`].
    typed: Vec<(Field, String)>,
    material: Option<&'static Material>,
    lots: Vec<Lot>,
}

impl Ingredient {
    /// Lays the maker's texts over a row of the table, or stands for an own entry where there is no row.
    pub(super) fn merged(
        id: &IngredientId,
        own: bool,
        material: Option<&'static Material>,
        typed: &[(Field, String)],
    ) -> Self {
        Self { id: id.clone(), own, typed: typed.to_vec(), material, lots: Vec::new() }
    }

    /// With the lots that the maker keeps of it.
    pub(super) fn with_lots(mut self, lots: &[Lot]) -> Self {
        self.lots = lots.to_vec();
        self
    }

    /// The lots that stand beside the one of the card, in the order in which they were entered.
    pub fn lots(&self) -> &[Lot] {
        &self.lots
    }

    /// Its id.
    pub fn id(&self) -> &IngredientId {
        &self.id
    }

    /// True if the maker added it.
    pub fn is_own(&self) -> bool {
        self.own
    }

    /// The text of a field, unread.
    pub fn cell(&self, field: Field) -> Option<Cell<'_>> {
        match self.typed.iter().find(|(at, _)| *at == field) {
            Some((_, text)) => Some(Cell { text, provenance: Provenance::Maker }),
            None => table_cell(self.material?, field),
        }
    }

    /// True if the maker's text stands in the way of the table's where it cannot be used: the table's counts then.
    fn gives_way(cell: Cell<'_>, field: Field) -> bool {
        cell.provenance.is_makers() && field.gives_way()
    }

    /// Why the maker's text for a field gives no value, or only a part of one.
    pub fn unread(&self, field: Field) -> Option<FieldProblem> {
        let cell = self.cell(field).filter(|cell| cell.provenance.is_makers())?;
        check(field, cell.text).err()
    }

    /// Where the value that counts comes from; nothing where there is none.
    pub fn counted_provenance(&self, field: Field) -> Option<Provenance> {
        if !field.gives_way() && self.unread(field).is_some() {
            return None;
        }
        let cell = self.cell(field)?;
        let counts = !cell.provenance.is_makers() || !field.gives_way() || counts(field, cell.text);
        if counts { Some(cell.provenance) } else { self.original(field).map(|cell| cell.provenance) }
    }

    /// What the table has for a field, also where the maker overrides it.
    pub fn original(&self, field: Field) -> Option<Cell<'static>> {
        table_cell(self.material?, field)
    }

    /// True if the maker's text counts where the table has a row.
    pub fn is_overridden(&self, field: Field) -> bool {
        !self.own && self.counted_provenance(field).is_some_and(Provenance::is_makers)
    }

    /// True if the maker typed something where the table has a row, whether it counts or not.
    pub fn is_typed_over(&self, field: Field) -> bool {
        !self.own && self.cell(field).is_some_and(|cell| cell.provenance.is_makers())
    }

    /// Its rows in the other tables; an own entry has none.
    pub fn links(&self) -> Links<'static> {
        self.material.map(|material| material.links).unwrap_or_default()
    }

    /// Where the table read this row, and what of it was seen there.
    pub fn source(&self) -> Option<(&'static str, &'static str)> {
        self.material.and_then(|material| source_of(material.id.as_str()))
    }

    /// The source of a value of this entry that is known so well.
    pub fn basis(&self, provenance: Provenance) -> Basis {
        let source = if provenance.is_makers() { "" } else { self.source().map_or("", |(source, _)| source) };
        Basis { source, provenance }
    }

    /// Other names that makers use.
    pub fn also(&self) -> &'static [&'static str] {
        self.material.map_or(&[], |material| &material.also)
    }

    /// What the table's greatest share rests on; nothing if the maker overrides it.
    pub fn max_basis(&self) -> Option<&'static str> {
        let counts = self.value::<Percent>(Field::Max).is_some_and(|max| max.provenance.is_makers());
        let none = self.cell(Field::Max).is_some_and(|cell| cell.provenance.is_makers() && cell.text.trim().is_empty());
        if counts || none { None } else { self.material?.max_basis }
    }

    /// True if the table's greatest share is a custom of the trade and neither law nor advice on safety.
    pub fn max_is_custom(&self) -> bool {
        self.max_basis().is_some_and(|basis| basis.starts_with("Customary"))
    }

    pub(super) fn carrier(&self) -> Option<Solvent> {
        self.material?.carrier
    }

    /// The largest strength of a premix of it, as the table gives it.
    pub(super) fn premix(&self) -> Option<Percent> {
        self.material?.premix
    }

    /// What the table says of caps on it.
    pub(super) fn is_in_capped_tables(&self) -> bool {
        self.material.is_some_and(|material| material.capped)
    }

    /// The text of a field; a blank text is none.
    pub fn text(&self, field: Field) -> Option<Sourced<&str>> {
        let cell = self.cell(field)?;
        let unused = Self::gives_way(cell, field) && !words_count(field, cell.text);
        let cell = if unused { self.original(field)? } else { cell };
        let value = cell.text.trim();
        (!value.is_empty()).then_some(Sourced { value, provenance: cell.provenance })
    }

    /// The value of a number field, if its text gives exactly one.
    pub fn value<Q: Quantity>(&self, field: Field) -> Option<Sourced<Q>> {
        let cell = self.cell(field)?;
        let cell = match Q::read(cell.text) {
            Parsed::Value(value) => return Some(Sourced { value, provenance: cell.provenance }),
            // Blanks say that there is none.
            Parsed::Empty => return None,
            _ if Self::gives_way(cell, field) => self.original(field)?,
            _ => return None,
        };
        match Q::read(cell.text) {
            Parsed::Value(value) => Some(Sourced { value, provenance: cell.provenance }),
            _ => None,
        }
    }

    /// What makers call it.
    pub fn name(&self) -> Option<Sourced<&str>> {
        self.text(Field::Name)
    }

    /// Its name, or its id where it has none; of a name that is longer than any the beginning.
    pub fn label(&self) -> &str {
        self.name().map_or(self.id.as_str(), |name| beginning(name.value))
    }

    /// Its names on a label, `; ` between those of a blend.
    pub fn inci(&self) -> Option<Sourced<&str>> {
        self.text(Field::Inci)
    }

    /// What it does, in the terms of CosIng.
    pub fn functions(&self) -> Vec<&str> {
        let named = |cell: Cell<'static>| named_functions(cell.text).collect();
        match self.cell(Field::Functions) {
            Some(cell) if !cell.provenance.is_makers() || counts(Field::Functions, cell.text) => {
                named_functions(cell.text).collect()
            }
            _ => self.original(Field::Functions).map(named).unwrap_or_default(),
        }
    }

    /// Whether it does this, by the whole name in the terms of CosIng, whatever the case.
    pub fn has_function(&self, function: &str) -> bool {
        self.functions().iter().any(|name| name.eq_ignore_ascii_case(function))
    }

    /// True for a row of the table that stands for a class of substances, such as those that the law bars: it has no INCI
    /// name, and nobody weighs it.
    pub fn is_class(&self) -> bool {
        !self.is_own() && self.inci().is_none()
    }

    /// The phase it mostly goes into.
    pub fn usual_phase(&self) -> Option<Sourced<UsualPhase>> {
        let text = self.text(Field::UsualPhase)?;
        UsualPhase::from_key(&choice(text.value)).map(|value| Sourced { value, provenance: text.provenance })
    }

    /// The usual share, if either end is known. The maker's if either end is.
    pub fn use_range(&self) -> Option<Sourced<UseRange>> {
        let (low, high) = (self.value(Field::UseLow), self.value(Field::UseHigh));
        let provenance = joint(low.map(|end| end.provenance), high.map(|end| end.provenance))?;
        Some(Sourced { value: UseRange { low: low.map(|end| end.value), high: high.map(|end| end.value) }, provenance })
    }

    /// The most that law, safety advice or custom allows; see [`Ingredient::max_basis`].
    pub fn max(&self) -> Option<Sourced<Percent>> {
        self.value(Field::Max)
    }

    /// The pH in which it keeps and works, if either end is known. The maker's if either end is.
    pub fn ph_window(&self) -> Option<Sourced<PhWindow>> {
        let (min, max) = (self.value(Field::PhMin), self.value(Field::PhMax));
        let provenance = joint(min.map(|end| end.provenance), max.map(|end| end.provenance))?;
        Some(Sourced { value: PhWindow { min: min.map(|end| end.value), max: max.map(|end| end.value) }, provenance })
    }

    /// The highest temperature that it should see.
    pub fn heat_max(&self) -> Option<Sourced<Celsius>> {
        self.value(Field::HeatMax)
    }

    /// The HLB that it asks of its emulsifiers, oil in water.
    pub fn required_hlb(&self) -> Option<Sourced<Hlb>> {
        self.value(Field::RequiredHlb)
    }

    /// The HLB that it has as an emulsifier.
    pub fn emulsifier_hlb(&self) -> Option<Sourced<Hlb>> {
        self.value(Field::EmulsifierHlb)
    }

    /// Mass per volume at 20 °C.
    pub fn density(&self) -> Option<Sourced<Density>> {
        self.value(Field::Density)
    }

    /// How long it keeps unopened.
    pub fn shelf_life(&self) -> Option<Sourced<Months>> {
        self.value(Field::ShelfLifeMonths)
    }

    /// What it dissolves in.
    pub fn solubility(&self) -> Option<Sourced<&str>> {
        self.text(Field::Solubility)
    }

    /// What it is made from, as far as allergies go.
    pub fn allergen_source(&self) -> Option<Sourced<&str>> {
        self.text(Field::AllergenSource)
    }

    /// Cautions for children, pregnancy and broken skin.
    pub fn child_pregnancy(&self) -> Option<Sourced<&str>> {
        self.text(Field::ChildPregnancy)
    }

    /// What a blend consists of.
    pub fn components(&self) -> Option<Sourced<&str>> {
        self.text(Field::Components)
    }

    /// True if the maker has it: stated, or taken for granted of an own entry.
    pub fn in_hand(&self) -> bool {
        let delivered = || self.lots().iter().any(|lot| !lot.text(LotField::Amount).trim().is_empty());
        self.text(Field::InHand).map_or_else(|| self.own || delivered(), |text| choice(text.value) == "yes")
    }

    /// True if a document of its supplier was named, for it or for one of its lots.
    pub fn has_document(&self) -> bool {
        let of_lot = |lot: &Lot| !lot.text(LotField::Document).trim().is_empty();
        self.text(Field::Document).is_some() || self.lots().iter().any(of_lot)
    }

    /// The supplier's document that the maker named for it.
    pub fn document(&self) -> Option<&str> {
        self.text(Field::Document).map(|text| text.value)
    }

    /// Anything else worth knowing.
    pub fn notes(&self) -> Option<Sourced<&str>> {
        self.text(Field::Notes)
    }
}

fn table_cell(material: &Material, field: Field) -> Option<Cell<'static>> {
    let fact = material.fact(field)?;
    Some(Cell { text: fact.text, provenance: fact.provenance })
}

/// Both ends of a range in the table are equally well known, so only the maker can make them differ.
fn joint(low: Option<Provenance>, high: Option<Provenance>) -> Option<Provenance> {
    high.filter(|known| known.is_makers()).or(low).or(high)
}

#[cfg(test)]
mod tests;
