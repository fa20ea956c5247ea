//! One entry of an annex, in the law's own words.

use super::{Annex, Day};

/// One row of an annex.
///
/// Texts are the law's own, whole: a line of text for each line that has any, without soft hyphens and repeated spaces.
/// A cell that says `-` for 'none' is empty. Most cells of Annex II are empty: it has no columns for them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its annex.
    pub annex: Annex,
    /// Its reference number, such as `98` or `12 a`. A few stand twice in one annex.
    pub reference: String,
    /// The chemical name, or international non-proprietary name (INN).
    pub chemical: String,
    /// The names of the glossary of common ingredients, in Annex IV the numbers of the Colour Index, as one text.
    pub glossary: String,
    /// The cell of the CAS numbers: numbers with what stands between them.
    pub cas: String,
    /// The cell of the numbers of the European inventory (EC).
    pub ec: String,
    /// In Annex IV the colour.
    pub colour: String,
    /// Product type and body parts.
    pub product: String,
    /// Maximum concentration in the ready for use preparation.
    pub maximum: String,
    /// Other conditions.
    pub other: String,
    /// Wording of conditions of use and warnings.
    pub wording: String,
    /// The act that the row rests on.
    pub regulation: String,
    /// Ingredients that the Commission names as examples and the entry itself does not. A comma between two names.
    pub identified: String,
    /// When the database last touched the row, as `28/08/2026`.
    pub updated: String,
}

/// The cells of an entry, by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cell {
    /// [`Entry::reference`].
    Reference,
    /// [`Entry::chemical`].
    Chemical,
    /// [`Entry::glossary`].
    Glossary,
    /// [`Entry::cas`].
    Cas,
    /// [`Entry::ec`].
    Ec,
    /// [`Entry::colour`].
    Colour,
    /// [`Entry::product`].
    Product,
    /// [`Entry::maximum`].
    Maximum,
    /// [`Entry::other`].
    Other,
    /// [`Entry::wording`].
    Wording,
    /// [`Entry::regulation`].
    Regulation,
    /// [`Entry::identified`].
    Identified,
    /// [`Entry::updated`].
    Updated,
}

impl Cell {
    /// All cells, in the order of the compact data.
    pub const ALL: [Self; 13] = [
        Self::Reference,
        Self::Chemical,
        Self::Glossary,
        Self::Identified,
        Self::Cas,
        Self::Ec,
        Self::Colour,
        Self::Product,
        Self::Maximum,
        Self::Other,
        Self::Wording,
        Self::Regulation,
        Self::Updated,
    ];

    /// What its column is called where differences are printed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Reference => "reference number",
            Self::Chemical => "chemical name",
            Self::Glossary => "glossary names",
            Self::Cas => "CAS numbers",
            Self::Ec => "EC numbers",
            Self::Colour => "colour",
            Self::Product => "product type, body parts",
            Self::Maximum => "maximum concentration",
            Self::Other => "other conditions",
            Self::Wording => "wording of conditions of use and warnings",
            Self::Regulation => "regulation",
            Self::Identified => "identified ingredients",
            Self::Updated => "update date",
        }
    }

    /// Whether the export of an annex has a column for it.
    pub const fn stands_in(self, annex: Annex) -> bool {
        match self {
            Self::Colour => matches!(annex, Annex::IV),
            Self::Glossary | Self::Product | Self::Maximum | Self::Other | Self::Wording => !matches!(annex, Annex::II),
            _ => true,
        }
    }
}

impl Entry {
    /// An entry with every cell empty.
    pub fn empty(annex: Annex) -> Self {
        let none = String::new;
        Self {
            annex,
            reference: none(),
            chemical: none(),
            glossary: none(),
            cas: none(),
            ec: none(),
            colour: none(),
            product: none(),
            maximum: none(),
            other: none(),
            wording: none(),
            regulation: none(),
            identified: none(),
            updated: none(),
        }
    }

    /// The text of a cell.
    pub fn get(&self, cell: Cell) -> &str {
        match cell {
            Cell::Reference => &self.reference,
            Cell::Chemical => &self.chemical,
            Cell::Glossary => &self.glossary,
            Cell::Cas => &self.cas,
            Cell::Ec => &self.ec,
            Cell::Colour => &self.colour,
            Cell::Product => &self.product,
            Cell::Maximum => &self.maximum,
            Cell::Other => &self.other,
            Cell::Wording => &self.wording,
            Cell::Regulation => &self.regulation,
            Cell::Identified => &self.identified,
            Cell::Updated => &self.updated,
        }
    }

    pub(super) fn set(&mut self, cell: Cell, text: String) {
        *(match cell {
            Cell::Reference => &mut self.reference,
            Cell::Chemical => &mut self.chemical,
            Cell::Glossary => &mut self.glossary,
            Cell::Cas => &mut self.cas,
            Cell::Ec => &mut self.ec,
            Cell::Colour => &mut self.colour,
            Cell::Product => &mut self.product,
            Cell::Maximum => &mut self.maximum,
            Cell::Other => &mut self.other,
            Cell::Wording => &mut self.wording,
            Cell::Regulation => &mut self.regulation,
            Cell::Identified => &mut self.identified,
            Cell::Updated => &mut self.updated,
        }) = text;
    }

    /// Such as `Annex III, 98`.
    pub fn title(&self) -> String {
        format!("{}, {}", self.annex, self.reference)
    }

    /// Whether the row only says that its entry was moved or deleted.
    pub fn is_gone(&self) -> bool {
        self.chemical.to_ascii_lowercase().starts_with("moved or deleted")
    }

    /// When the database last touched the row, where it says so.
    pub fn updated_on(&self) -> Option<Day> {
        Day::from_slashes(&self.updated)
    }
}
