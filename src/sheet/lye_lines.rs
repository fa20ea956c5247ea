//! The lines of a soap: which are fats, which acids, and what is odd about the others.

use super::lye_acids::{AcidLine, LyeAcid, acid_line};
use super::ph::WaterPhase;
use super::{LyeFat, LyeNote, NoLye, WeighSheet};
use crate::facts::{Alkali, FatKind, Field, Solvent, TRIGLYCERIDE_SV, UsualPhase};
use crate::formula::{Formula, LineId, PhaseKind};
use crate::quantity::{Mass, Percent};
use crate::shelf::{Fat, Ingredient, SheetFinding, Shelf, dissolves_in};

/// What was found among the lines.
#[derive(Default)]
pub(super) struct GatheredLines {
    pub(super) fats: Vec<LyeFat>,
    pub(super) acids: Vec<LyeAcid>,
    pub(super) notes: Vec<LyeNote>,
}

/// The fats among the lines, and what is odd about the others.
pub(super) fn gather(
    formula: &Formula,
    sheet: &WeighSheet,
    wanted: Option<&[LineId]>,
    water: &WaterPhase,
    shelf: &Shelf,
) -> Result<GatheredLines, NoLye> {
    let mut gathered = GatheredLines::default();
    let GatheredLines { fats, acids, notes } = &mut gathered;
    for weighed in &sheet.lines {
        let asked = wanted.is_none_or(|lines| lines.contains(&weighed.line));
        let Some(line) = formula.line(weighed.line) else { continue };
        let id = line.choice.id();
        let alkali = id.is_some_and(|id| Alkali::ALL.iter().any(|alkali| alkali.id() == id.as_str()));
        if alkali {
            notes.push(LyeNote::AlkaliInFormula(weighed.line));
        }
        if !asked {
            continue;
        }
        let entry = id.and_then(|id| shelf.entry(id));
        let fat = entry.as_ref().and_then(Ingredient::fat);
        let in_oil = formula.lines().any(|(phase, line)| line.id == weighed.line && phase.kind == PhaseKind::Oil);
        match (fat, wanted) {
            (Some(fat), _) => {
                fats.push(one_fat(weighed.line, weighed.mass, &fat)?);
                notes.extend(fat.sv_apart.map(|(apart, reason)| match reason {
                    None => LyeNote::SvApart(weighed.line, apart),
                    Some(reason) => LyeNote::SvConfirmed(weighed.line, apart, reason),
                }));
            }
            // A line that was picked on purpose must not be left out in silence.
            (None, Some(_)) => return Err(NoLye::SvUnknown(weighed.line)),
            (None, None) if alkali || weighed.share <= Percent::ZERO => {}
            (None, None) => match acid_line(line, (weighed.mass, weighed.share), water, shelf) {
                AcidLine::Takes(acid) => acids.push(acid),
                AcidLine::Unknown => return Err(NoLye::AcidUnknown(weighed.line)),
                AcidLine::None if may_saponify(in_oil, entry.as_ref()) => notes.push(LyeNote::NotCounted(weighed.line)),
                AcidLine::None => {}
            },
        }
    }
    Ok(gathered)
}

/// Whether a line that is no fat of the shelf may take up lye all the same: what is not on the shelf, what belongs to
/// oil, and what stands in an oil phase and is not known to dissolve in water.
fn may_saponify(in_oil: bool, entry: Option<&Ingredient>) -> bool {
    let Some(entry) = entry else { return true };
    let powder = entry.has_function("Colorant") || entry.has_function("Absorbent");
    let usual = entry.usual_phase().map(|usual| usual.value);
    let solvent = dissolves_in(entry);
    !powder
        && (usual == Some(UsualPhase::Oil)
            || solvent == Some(Solvent::Oil)
            || (in_oil && solvent != Some(Solvent::Water)))
}

fn one_fat(line: LineId, mass: Mass, fat: &Fat) -> Result<LyeFat, NoLye> {
    let unread = |finding: &SheetFinding| {
        use SheetFinding::{EndsReversed, LowEndMissing, ValueUnread};
        matches!(finding, ValueUnread(_) | EndsReversed(_) | LowEndMissing(Field::SvLow))
    };
    let (Some(sv), Some(typical), false) = (fat.sv_band(), fat.typical_sv(), fat.findings.iter().any(unread)) else {
        return Err(NoLye::SvUnknown(line));
    };
    if fat.kind == FatKind::Triglyceride {
        for end in [sv.low, sv.high] {
            if TRIGLYCERIDE_SV.clip(end) != end {
                return Err(NoLye::SvImpossible(line, end));
            }
        }
    }
    let verified = fat.sv_evidence.is_some_and(|evidence| evidence.provenance.is_settled());
    Ok(LyeFat { line, mass, sv, typical, kind: fat.kind, measured: fat.sv.is_some(), verified })
}
