//! One fat as the shelf knows it: the table's row with the maker's supplier sheet laid over it.

use super::fat_values::nearest_tenth;
use super::supplier_sheet::{SheetFinding, read_composition};
use super::{Allergens, Doubts, Evidence, FatClass, FatKind, FatRow, Field, Ingredient, Iv, Profile, Span, Sv};
use crate::quantity::{Percent, Quantity, Reading};

/// How far a saponification value computed from typical acids may lie outside the measured range, in percent of itself,
/// before it is said: the worst difference of fifteen oils whose profile and range were both seen in Codex.
const SV_ERROR_PERCENT: f64 = 1.6;
/// The same for the iodine value, in its own unit: the mean error over thirteen oils with a measured iodine value and a
/// published composition (Ryan et al. 1984, JAOCS 61:1610).
const IV_ERROR: f64 = 3.1;
/// Half the width of the ranges of saponification values in Codex, in percent of the middle (median): taken for a fat
/// of which no value was measured.
const SV_SPREAD_PERCENT: f64 = 2.6;
/// What the saponification value of a triglyceride can be at all: from long erucic oils to medium-chain triglycerides.
pub const TRIGLYCERIDE_SV: Span<Sv> = Span { low: Sv::whole(155), high: Sv::whole(365) };

/// What is known about a fat.
#[derive(Debug, Clone)]
pub struct Fat {
    /// Its row of the table, if it has one.
    pub row: Option<&'static FatRow>,
    /// Its kind.
    pub kind: FatKind,
    /// Its fatty acids.
    pub profile: Option<Profile>,
    /// Where they come from.
    pub profile_evidence: Option<Evidence>,
    /// Measured saponification value, both ends.
    pub sv: Option<Span<Sv>>,
    /// Where it comes from.
    pub sv_evidence: Option<Evidence>,
    /// Measured iodine value, both ends.
    pub iv: Option<Span<Iv>>,
    /// Where it comes from.
    pub iv_evidence: Option<Evidence>,
    /// Unsaponifiables; an assumption for most fats of the table.
    pub unsaponifiable: Percent,
    /// Its allergens; nothing if that is not known.
    pub allergens: Option<Allergens>,
    /// What methods get wrong about it.
    pub doubts: Doubts,
    /// What is odd about the supplier's values.
    pub findings: Vec<SheetFinding>,
}

/// A value that was computed and lies outside what was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Disagreement<T> {
    /// From the acids.
    pub computed: T,
    /// As measured.
    pub measured: Span<T>,
}

impl Fat {
    /// The saponification value of its acids less what does not saponify; nothing for what is no triglyceride.
    pub fn computed_sv(&self) -> Option<Sv> {
        let saponifies = 1.0 - self.unsaponifiable.units() as f64 / Percent::WHOLE.units() as f64;
        Some(nearest_tenth(self.triglyceride()?.raw_saponification() * saponifies))
    }

    /// The iodine value of its acids; nothing for what is no triglyceride.
    pub fn computed_iv(&self) -> Option<Iv> {
        Some(nearest_tenth(self.triglyceride()?.raw_iodine()))
    }

    /// Its acids, if it is a triglyceride.
    pub fn triglyceride(&self) -> Option<&Profile> {
        self.profile.as_ref().filter(|_| self.kind == FatKind::Triglyceride)
    }

    /// Measured and typical, else computed and kept within what was measured, else the middle of that.
    pub fn typical_sv(&self) -> Option<Sv> {
        let row = self.row.filter(|_| self.sv_evidence != Some(Evidence::MAKER));
        row.and_then(|row| row.sv_typical).or_else(|| match (self.computed_sv(), self.sv) {
            (Some(computed), Some(measured)) => Some(measured.clip(computed)),
            (Some(computed), None) => Some(computed),
            (None, measured) => Some(measured?.middle()),
        })
    }

    /// The same for the iodine value.
    pub fn typical_iv(&self) -> Option<Iv> {
        let row = self.row.filter(|_| self.iv_evidence != Some(Evidence::MAKER));
        row.and_then(|row| row.iv_typical).or_else(|| match (self.computed_iv(), self.iv) {
            (Some(computed), Some(measured)) => Some(measured.clip(computed)),
            (Some(computed), None) => Some(computed),
            (None, measured) => Some(measured?.middle()),
        })
    }

    /// Both ends of the saponification value to reckon with: as measured, else what is usual around the computed one.
    pub fn sv_band(&self) -> Option<Span<Sv>> {
        self.sv.or_else(|| {
            let computed = self.computed_sv()?.float();
            let end = |sign: f64| Sv::nearest(computed * (1.0 + sign * SV_SPREAD_PERCENT / 100.0));
            Some(Span { low: end(-1.0), high: end(1.0) })
        })
    }

    /// The computed saponification value, if it lies outside the measured range by more than the method's error.
    pub fn sv_disagreement(&self) -> Option<Disagreement<Sv>> {
        let (computed, measured) = (self.computed_sv()?, self.sv?);
        let off = (measured.clip(computed).float() - computed.float()).abs();
        (off > computed.float() * SV_ERROR_PERCENT / 100.0).then_some(Disagreement { computed, measured })
    }

    /// The computed iodine value, if it lies outside the measured range by more than the method's error.
    pub fn iv_disagreement(&self) -> Option<Disagreement<Iv>> {
        let (computed, measured) = (self.computed_iv()?, self.iv?);
        let off = (measured.clip(computed).float() - computed.float()).abs();
        (off > IV_ERROR).then_some(Disagreement { computed, measured })
    }

    /// Its class, if it is in the table.
    pub fn class(&self) -> Option<FatClass> {
        self.row.map(|row| row.class)
    }
}

impl Ingredient {
    /// What is known about it as a fat; nothing if it is none.
    pub fn fat(&self) -> Option<Fat> {
        let row = self.links().fat.and_then(super::fat_row);
        let typed = Field::FATS.iter().any(|field| self.text(*field).is_some());
        (row.is_some() || typed).then(|| self.merged_fat(row))
    }

    fn merged_fat(&self, row: Option<&'static FatRow>) -> Fat {
        let mut findings = Vec::new();
        let kind = self.text(Field::FatKind).and_then(|text| FatKind::from_key(text.value));
        let mut fat = Fat {
            row,
            kind: kind.or(row.map(|row| row.kind)).unwrap_or_default(),
            profile: row.and_then(|row| row.profile.clone()),
            profile_evidence: row.and_then(|row| row.profile_evidence),
            sv: row.map(|row| row.sv),
            sv_evidence: row.map(|row| row.sv_evidence),
            iv: row.map(|row| row.iv),
            iv_evidence: row.map(|row| row.iv_evidence),
            unsaponifiable: row.map_or(Percent::ZERO, |row| row.unsaponifiable),
            allergens: row.map(|row| row.allergens),
            doubts: row.map(|row| row.doubts).unwrap_or_default(),
            findings: Vec::new(),
        };
        if let Some(text) = self.text(Field::FattyAcids) {
            // What the maker typed takes the table's place even where it cannot be read: never the one for the other.
            (fat.profile, fat.profile_evidence) = (read_composition(text.value, &mut findings), Some(Evidence::MAKER));
        }
        if let Some(span) = self.typed_span(Field::SvLow, Field::SvHigh, &mut findings) {
            (fat.sv, fat.sv_evidence) = (span, Some(Evidence::MAKER));
        }
        if let Some(span) = self.typed_span(Field::IvLow, Field::IvHigh, &mut findings) {
            (fat.iv, fat.iv_evidence) = (span, Some(Evidence::MAKER));
        }
        if let Some(share) = self.value::<Percent>(Field::Unsaponifiable) {
            fat.unsaponifiable = share.value;
        } else if self.text(Field::Unsaponifiable).is_some() {
            findings.push(SheetFinding::ValueUnread(Field::Unsaponifiable));
        }
        if kind.is_none() && self.text(Field::FatKind).is_some() {
            findings.push(SheetFinding::ValueUnread(Field::FatKind));
        }
        if let Some(words) = self.allergen_source() {
            let table = fat.allergens.unwrap_or_default();
            // The table's words on a row say no more than its own column, and would put doubt where there is none.
            let own = if self.is_own() || self.is_overridden(Field::AllergenSource) {
                Allergens::in_words(words.value)
            } else {
                Allergens::NONE
            };
            fat.allergens = Some(table.with(own));
        }
        check_values(&fat, row.is_some() || kind.is_some(), &mut findings);
        fat.findings = findings;
        fat
    }

    /// What the maker typed for the two ends, one of them enough: `None` if nothing, `Some(None)` if it gives no range.
    fn typed_span<T: Quantity>(
        &self,
        low: Field,
        high: Field,
        findings: &mut Vec<SheetFinding>,
    ) -> Option<Option<Span<T>>> {
        let end = |field: Field| {
            let text = self.text(field)?.value;
            Some(match T::read(text) {
                Reading::Value(value) => Some(value),
                _ => None,
            })
        };
        let (typed_low, typed_high) = (end(low), end(high));
        let (low_value, high_value) = match (typed_low, typed_high) {
            (None, None) => return None,
            (Some(value), None) | (None, Some(value)) => (value, value),
            (Some(low), Some(high)) => (low, high),
        };
        let (Some(low_value), Some(high_value)) = (low_value, high_value) else {
            findings.push(SheetFinding::ValueUnread(if typed_low == Some(None) { low } else { high }));
            return Some(None);
        };
        if low_value > high_value {
            findings.push(SheetFinding::EndsReversed(low));
            return Some(None);
        }
        Some(Some(Span { low: low_value, high: high_value }))
    }
}

/// What is said only of the maker's values; the table's own disagreements have their note.
fn check_values(fat: &Fat, kind_known: bool, findings: &mut Vec<SheetFinding>) {
    let maker = Some(Evidence::MAKER);
    if !kind_known {
        findings.push(SheetFinding::TakenAsTriglyceride);
    }
    let own_sv = fat.sv_evidence == maker;
    if let Some(sv) = fat.sv.filter(|_| own_sv && fat.kind == FatKind::Triglyceride) {
        for end in [sv.low, sv.high] {
            if TRIGLYCERIDE_SV.clip(end) != end {
                findings.push(SheetFinding::SvImpossible(end));
                break;
            }
        }
    }
    let own_profile = fat.profile_evidence == maker;
    if let Some(off) = fat.sv_disagreement().filter(|_| own_sv || own_profile) {
        findings.push(SheetFinding::SvDisagrees(off));
    }
    if let Some(off) = fat.iv_disagreement().filter(|_| own_profile || fat.iv_evidence == maker) {
        findings.push(SheetFinding::IvDisagrees(off));
    }
}
