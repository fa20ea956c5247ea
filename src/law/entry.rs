//! One entry of an annex, in the law's own words.

use super::Annex;
use super::dates::day_with_slashes;
use super::numbers::cas_numbers;
use crate::quantity::Day;

/// One row of an annex.
///
/// Texts are the law's own, whole: a line of text for each line that has any, without soft hyphens and repeated spaces.
/// A cell that says `-` for 'none' is empty. Most cells of Annex II are empty: it has no columns for them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AnnexEntry {
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
    /// The cell of the numbers of the European inventory (EC). In the compact data only where CAS numbers stand in it by a slip:
    /// beside those, numbers of the inventory say nothing new.
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
    /// When the database last touched the row, as `28/08/2026`. Only in an export.
    pub updated: String,
}

/// The cells of an entry, by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AnnexCell {
    /// [`AnnexEntry::reference`].
    Reference,
    /// [`AnnexEntry::chemical`].
    Chemical,
    /// [`AnnexEntry::glossary`].
    Glossary,
    /// [`AnnexEntry::cas`].
    Cas,
    /// [`AnnexEntry::ec`].
    Ec,
    /// [`AnnexEntry::colour`].
    Colour,
    /// [`AnnexEntry::product`].
    Product,
    /// [`AnnexEntry::maximum`].
    Maximum,
    /// [`AnnexEntry::other`].
    Other,
    /// [`AnnexEntry::wording`].
    Wording,
    /// [`AnnexEntry::regulation`].
    Regulation,
    /// [`AnnexEntry::identified`].
    Identified,
    /// [`AnnexEntry::updated`].
    Updated,
}

impl AnnexCell {
    /// All cells, those of the compact data in its order.
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

    /// Whether the compact data has it.
    pub const fn is_packed(self) -> bool {
        !matches!(self, Self::Updated)
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

impl AnnexEntry {
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
    pub fn get(&self, cell: AnnexCell) -> &str {
        match cell {
            AnnexCell::Reference => &self.reference,
            AnnexCell::Chemical => &self.chemical,
            AnnexCell::Glossary => &self.glossary,
            AnnexCell::Cas => &self.cas,
            AnnexCell::Ec => &self.ec,
            AnnexCell::Colour => &self.colour,
            AnnexCell::Product => &self.product,
            AnnexCell::Maximum => &self.maximum,
            AnnexCell::Other => &self.other,
            AnnexCell::Wording => &self.wording,
            AnnexCell::Regulation => &self.regulation,
            AnnexCell::Identified => &self.identified,
            AnnexCell::Updated => &self.updated,
        }
    }

    pub(super) fn set(&mut self, cell: AnnexCell, text: String) {
        *(match cell {
            AnnexCell::Reference => &mut self.reference,
            AnnexCell::Chemical => &mut self.chemical,
            AnnexCell::Glossary => &mut self.glossary,
            AnnexCell::Cas => &mut self.cas,
            AnnexCell::Ec => &mut self.ec,
            AnnexCell::Colour => &mut self.colour,
            AnnexCell::Product => &mut self.product,
            AnnexCell::Maximum => &mut self.maximum,
            AnnexCell::Other => &mut self.other,
            AnnexCell::Wording => &mut self.wording,
            AnnexCell::Regulation => &mut self.regulation,
            AnnexCell::Identified => &mut self.identified,
            AnnexCell::Updated => &mut self.updated,
        }) = text;
    }

    /// The CAS numbers of the entry, those among its EC numbers too; such that fail their check digit are left out.
    pub fn cas_numbers(&self) -> impl Iterator<Item = String> {
        cas_numbers(&self.cas).chain(cas_numbers(&self.ec))
    }

    /// Such as `Annex III, 98`.
    pub fn title(&self) -> String {
        format!("{}, {}", self.annex, self.reference)
    }

    /// Such as `III/98`.
    pub fn short_title(&self) -> String {
        format!("{}/{}", self.annex.numeral(), self.reference)
    }

    /// Whether the row only says that its entry was moved or deleted.
    pub fn is_gone(&self) -> bool {
        self.chemical.to_ascii_lowercase().starts_with("moved or deleted")
    }

    /// When the database last touched the row, where it says so.
    pub fn updated_on(&self) -> Option<Day> {
        day_with_slashes(&self.updated)
    }
}
