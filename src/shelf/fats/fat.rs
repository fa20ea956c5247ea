//! One fat as the shelf knows it: the table's row with the maker's supplier sheet laid over it.

use super::fat_sheet::read_fatty_acids;
use super::saponification::{evidence, sv_apart};
use crate::facts::{
    Allergens, Doubts, Evidence, FatClass, FatKind, FatRow, Field, Iv, OxidationOutlook, Profile, Span, Sv,
    TRIGLYCERIDE_SV, around, nearest_tenth,
};
use crate::quantity::{Parsed, Percent, Quantity};
use crate::shelf::{Ingredient, SheetFinding, SvApart};

/// How far a saponification value computed from typical acids may lie outside the measured range, in percent of itself,
/// before it is said: the worst difference of fifteen oils whose profile and range were both seen in Codex.
const SV_ERROR_PERCENT: f64 = 1.6;
/// The same for the iodine value, in its own unit: the mean error over thirteen oils with a measured iodine value and a
/// published composition (Ryan et al. 1984, JAOCS 61:1610).
const IV_ERROR: f64 = 3.1;

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
    /// That the maker's saponification value stands out, and why it is right all the same; until a reason is given the
    /// lower one stands in `sv`.
    pub sv_apart: Option<(SvApart, Option<String>)>,
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
    /// The saponification value of its acids less what does not saponify; nothing for what is no triglyceride, or of which
    /// too little is known.
    pub fn computed_sv(&self) -> Option<Sv> {
        let saponifies = 1.0 - self.unsaponifiable.units() as f64 / Percent::WHOLE.units() as f64;
        Some(nearest_tenth(self.telling()?.raw_saponification() * saponifies))
    }

    /// The iodine value of its acids; nothing for what is no triglyceride, or of which too little is known.
    pub fn computed_iv(&self) -> Option<Iv> {
        Some(nearest_tenth(self.telling()?.raw_iodine()))
    }

    /// Its acids, if it is a triglyceride.
    pub fn triglyceride(&self) -> Option<&Profile> {
        self.profile.as_ref().filter(|_| self.kind == FatKind::Triglyceride)
    }

    /// Its acids, if it is a triglyceride and enough of them is known for what follows from them.
    pub fn telling(&self) -> Option<&Profile> {
        self.triglyceride().filter(|profile| profile.tells())
    }

    /// How much of its acids is not known, where that is too much; all of them where nothing that was typed can be used.
    pub fn untold(&self) -> Option<Percent> {
        let typed = self.kind == FatKind::Triglyceride && self.profile_evidence == Some(Evidence::MAKER);
        match self.triglyceride() {
            Some(profile) => (!profile.tells()).then(|| profile.unknown()),
            None => typed.then_some(Percent::WHOLE),
        }
    }

    /// How long its acids let it keep; nothing if they are not known well enough, or of another kind.
    pub fn outlook(&self) -> Option<OxidationOutlook> {
        let profile = self.telling().filter(|_| !self.doubts.oxidation)?;
        Some(OxidationOutlook::of(profile.oxidizability()))
    }

    /// Measured and typical, else computed, both kept within what was measured; else the middle of that.
    pub fn typical_sv(&self) -> Option<Sv> {
        let row = self.row.filter(|_| self.sv_evidence != Some(Evidence::MAKER));
        let typical = row.and_then(|row| row.sv_typical);
        typical.map(|typical| self.sv.map_or(typical, |measured| measured.clip(typical))).or_else(|| {
            match (self.computed_sv(), self.sv) {
                (Some(computed), Some(measured)) => Some(measured.clip(computed)),
                (Some(computed), None) => Some(computed),
                (None, measured) => Some(measured?.middle()),
            }
        })
    }

    /// The same for the iodine value.
    pub fn typical_iv(&self) -> Option<Iv> {
        let row = self.row.filter(|_| self.iv_evidence != Some(Evidence::MAKER));
        let typical = row.and_then(|row| row.iv_typical);
        typical.map(|typical| self.iv.map_or(typical, |measured| measured.clip(typical))).or_else(|| {
            match (self.computed_iv(), self.iv) {
                (Some(computed), Some(measured)) => Some(measured.clip(computed)),
                (Some(computed), None) => Some(computed),
                (None, measured) => Some(measured?.middle()),
            }
        })
    }

    /// Both ends of the saponification value to reckon with: as measured, else what is usual around the computed one.
    pub fn sv_band(&self) -> Option<Span<Sv>> {
        self.sv.or_else(|| self.computed_sv().map(around))
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
        let row = self.links().fat.and_then(crate::facts::fat_row);
        (row.is_some() || self.has_fat_values()).then(|| self.merged_fat(row))
    }

    /// True if it is known as a fat, of the table or by values that the maker typed.
    pub fn is_fat(&self) -> bool {
        self.links().fat.is_some() || self.has_fat_values()
    }

    fn has_fat_values(&self) -> bool {
        Field::FATS.iter().any(|field| self.text(*field).is_some())
    }

    fn merged_fat(&self, row: Option<&'static FatRow>) -> Fat {
        let mut findings = Vec::new();
        let kind = self.text(Field::FatKind).and_then(|text| FatKind::from_key(&crate::facts::choice(text.value)));
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
            sv_apart: None,
            findings: Vec::new(),
        };
        if let Some(text) = self.text(Field::FattyAcids) {
            // What the maker typed takes the table's place even where it cannot be read: never the one for the other.
            (fat.profile, fat.profile_evidence) = (read_fatty_acids(text.value, &mut findings), Some(Evidence::MAKER));
        }
        if let Some(ends) = self.typed_ends(Field::SvLow, Field::SvHigh, &mut findings) {
            let known = fat.sv.zip(fat.sv_evidence);
            (fat.sv, fat.sv_evidence) = span_of(ends, known, Field::SvLow, &mut findings);
        }
        if let Some(ends) = self.typed_ends(Field::IvLow, Field::IvHigh, &mut findings) {
            let known = fat.iv.zip(fat.iv_evidence);
            (fat.iv, fat.iv_evidence) = span_of(ends, known, Field::IvLow, &mut findings);
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
            // The table's words on a row say no more than its own column, and would put doubt where there is none.
            if self.is_own() || self.is_overridden(Field::AllergenSource) {
                let table = fat.allergens.unwrap_or_default();
                fat.allergens = match Allergens::in_words(words.value) {
                    Some(own) => Some(table.with(own)),
                    None if table.is_empty() => None,
                    // What the table knows stays true; what the words may mean besides is in doubt.
                    None => Some(table.with(Allergens::NUT_IN_DOUBT)),
                };
            }
        }
        self.compare_sv(&mut fat, &mut findings);
        check_values(&fat, row.is_some() || kind.is_some(), &mut findings);
        fat.findings = findings;
        fat
    }

    /// Puts the lower value in the place of a typed one that stands out, unless the maker has said why it is right. One that
    /// no triglyceride has stays: no lye is computed from it at all.
    fn compare_sv(&self, fat: &mut Fat, findings: &mut Vec<SheetFinding>) {
        if self.typed_sv() == "-" {
            return;
        }
        let possible = |sv: Span<Sv>| [sv.low, sv.high].iter().all(|end| TRIGLYCERIDE_SV.clip(*end) == *end);
        let typed = fat.sv.filter(|sv| fat.kind != FatKind::Triglyceride || possible(*sv));
        let Some(apart) = typed.and_then(|typed| sv_apart(fat, fat.row, typed)) else { return };
        let reason = self.sv_reason().map(str::to_owned);
        if reason.is_none() {
            let whose = evidence(apart, fat.row);
            (fat.sv, fat.sv_evidence) = (whose.map(|_| apart.counted()), whose);
        }
        findings.push(SheetFinding::SvApart(apart, reason.clone()));
        fat.sv_apart = Some((apart, reason));
    }

    /// What the maker typed for the two ends: `None` if nothing, [`Ends::Unusable`] if it cannot be used.
    fn typed_ends<T: Quantity>(&self, low: Field, high: Field, findings: &mut Vec<SheetFinding>) -> Option<Ends<T>> {
        let end = |field: Field| {
            let text = self.text(field)?.value;
            Some(match T::read(text) {
                Parsed::Value(value) => Some(value),
                _ => None,
            })
        };
        Some(match (end(low), end(high)) {
            (None, None) => return None,
            (Some(None), _) => {
                findings.push(SheetFinding::ValueUnread(low));
                Ends::Unusable
            }
            (_, Some(None)) => {
                findings.push(SheetFinding::ValueUnread(high));
                Ends::Unusable
            }
            (Some(Some(low_value)), Some(Some(high_value))) if low_value > high_value => {
                findings.push(SheetFinding::EndsReversed(low));
                Ends::Unusable
            }
            (Some(Some(low)), Some(Some(high))) => Ends::Both(Span { low, high }),
            (Some(Some(low)), None) => Ends::Both(Span { low, high: low }),
            (None, Some(Some(high))) => Ends::High(high),
        })
    }
}

/// The ends of a range as the maker typed them.
enum Ends<T> {
    /// Both, or the low one alone, which then stands for both: nothing is counted below it.
    Both(Span<T>),
    /// The high one alone.
    High(T),
    /// Text that gives no range.
    Unusable,
}

/// The range that typed ends give, and whose it is. A high end alone keeps the low one that is known: from that end lye
/// is counted, and a high one in its place would leave lye in the soap.
fn span_of<T: Quantity>(
    ends: Ends<T>,
    known: Option<(Span<T>, Evidence)>,
    low: Field,
    findings: &mut Vec<SheetFinding>,
) -> (Option<Span<T>>, Option<Evidence>) {
    match (ends, known) {
        (Ends::Both(span), _) => (Some(span), Some(Evidence::MAKER)),
        (Ends::High(high), Some((known, evidence))) if known.low <= high => {
            (Some(Span { low: known.low, high }), Some(evidence))
        }
        (Ends::High(_), _) => {
            findings.push(SheetFinding::LowEndMissing(low));
            (None, Some(Evidence::MAKER))
        }
        (Ends::Unusable, _) => (None, Some(Evidence::MAKER)),
    }
}

/// What is said only of the maker's values; the table's own disagreements have their note.
fn check_values(fat: &Fat, kind_known: bool, findings: &mut Vec<SheetFinding>) {
    let maker = Some(Evidence::MAKER);
    if !kind_known {
        findings.push(SheetFinding::TakenAsTriglyceride);
    }
    let own_sv = fat.sv_evidence == maker || fat.row.is_some_and(|row| fat.sv != Some(row.sv));
    let own_iv = fat.iv_evidence == maker || fat.row.is_some_and(|row| fat.iv != Some(row.iv));
    if let Some(sv) = fat.sv.filter(|_| own_sv && fat.kind == FatKind::Triglyceride) {
        for end in [sv.low, sv.high] {
            if TRIGLYCERIDE_SV.clip(end) != end {
                findings.push(SheetFinding::SvImpossible(end));
                break;
            }
        }
    }
    let own_profile = fat.profile_evidence == maker;
    if (own_sv || own_profile)
        && fat.sv_apart.is_none()
        && let Some(off) = fat.sv_disagreement()
    {
        findings.push(SheetFinding::SvDisagrees(off));
    }
    if (own_profile || own_iv)
        && let Some(off) = fat.iv_disagreement()
    {
        findings.push(SheetFinding::IvDisagrees(off));
    }
}
