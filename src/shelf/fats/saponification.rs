//! A typed saponification value against what its acids and the table say, and the maker's word for it.
//!
//! Why it matters: lye is weighed by it, and a slip of one digit (`291` for `191`) makes a soap that burns. What lies far off
//! does not count before the maker has said why it is right.

use crate::facts::{Evidence, FatRow, Field, Span, Sv, around, criteria, criterion};
use crate::quantity::{Parsed, Percent, Quantity};
use crate::shelf::{Fat, Ingredient};

/// What a typed saponification value was compared with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SvFrom {
    /// The range of the table.
    Table,
    /// What its fatty acids come to, with half the usual width of a range to either side.
    Acids,
}

/// A typed saponification value that lies far from another one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SvApart {
    /// As typed.
    pub typed: Span<Sv>,
    /// What was expected.
    pub expected: Span<Sv>,
    /// Where that comes from.
    pub from: SvFrom,
}

impl SvApart {
    /// What counts before it is confirmed: the lower one of each end.
    pub fn counted(self) -> Span<Sv> {
        Span { low: self.typed.low.min(self.expected.low), high: self.typed.high.min(self.expected.high) }
    }
}

/// The one against which a typed value stands out, the lower one of two.
pub(super) fn sv_apart(fat: &Fat, row: Option<&FatRow>, typed: Span<Sv>) -> Option<SvApart> {
    let table = row.filter(|row| row.kind == fat.kind).map(|row| (row.sv, row.sv, SvFrom::Table));
    // The table's own acids say no more than its range does.
    let own = table.is_none() || fat.profile_evidence == Some(Evidence::MAKER);
    let acids = fat.computed_sv().filter(|_| own).map(|sv| (Span { low: sv, high: sv }, around(sv), SvFrom::Acids));
    [table, acids]
        .into_iter()
        .flatten()
        .filter(|(must_meet, may_reach, _)| misses(typed, *must_meet) || strays(typed, *may_reach))
        .map(|(_, expected, from)| SvApart { typed, expected, from })
        .min_by_key(|apart| apart.expected.low)
}

/// Two ranges lie apart by more than the criterion.
fn misses(typed: Span<Sv>, expected: Span<Sv>) -> bool {
    typed.low > more(expected.high) || typed.high < less(expected.low)
}

/// An end reaches beyond the other range by more than that.
fn strays(typed: Span<Sv>, expected: Span<Sv>) -> bool {
    typed.high > more(expected.high) || typed.low < less(expected.low)
}

fn more(sv: Sv) -> Sv {
    of(sv, Percent::WHOLE.plus(criterion(criteria::SV_APART).value))
}

fn less(sv: Sv) -> Sv {
    of(sv, Percent::WHOLE.minus(criterion(criteria::SV_APART).value))
}

fn of(sv: Sv, share: Percent) -> Sv {
    Sv::from_units(crate::quantity::mul_div_floor(sv.units(), share.units(), Percent::WHOLE.units()))
}

/// Whose value counts, where the expected one does.
pub(super) fn evidence(apart: SvApart, row: Option<&FatRow>) -> Option<Evidence> {
    match apart.from {
        _ if apart.typed.low < apart.expected.low => Some(Evidence::MAKER),
        SvFrom::Table => row.map(|row| row.sv_evidence),
        SvFrom::Acids => None,
    }
}

/// The typed ends of a saponification value as one text, to tell whether they are still the same; a hyphen alone if there
/// are none that can be read.
pub fn sv_ends(low: Option<&str>, high: Option<&str>) -> String {
    let end = |text: Option<&str>| match text.map(Sv::read) {
        Some(Parsed::Value(value)) => value.canonical(),
        _ => String::new(),
    };
    format!("{}-{}", end(low), end(high))
}

impl Ingredient {
    /// The typed ends of its saponification value, as of [`sv_ends`].
    pub(super) fn typed_sv(&self) -> String {
        let text = |field| self.text(field).map(|text| text.value);
        sv_ends(text(Field::SvLow), text(Field::SvHigh))
    }

    /// Why the maker holds a typed saponification value that stands out to be right; nothing if no reason was given, or
    /// the value has changed since.
    pub fn sv_reason(&self) -> Option<&str> {
        let confirmed = self.text(Field::SvConfirmed)?.value;
        let reason = self.text(Field::SvReason)?.value.trim();
        (!reason.is_empty() && confirmed == self.typed_sv()).then_some(reason)
    }
}
