//! The fields of an ingredient in the groups in which a maker looks for them.

use crate::facts::Field;

/// A group of fields.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldGroup {
    /// What the maker has of it, and the supplier's papers.
    Stock,
    /// What it is.
    Identity,
    /// How much of it, at which pH, how hot.
    Bounds,
    /// Its figures.
    Figures,
    /// What a fat is made of.
    Fat,
    /// What else is to be known.
    Remarks,
}

/// Every field that is typed, in groups; those of fats only where `fat` says so.
pub fn field_groups(fat: bool) -> Vec<(FieldGroup, Vec<Field>)> {
    use Field as F;
    let mut groups = vec![
        (FieldGroup::Stock, vec![F::InHand, F::Price, F::Lot, F::Document, F::AllergenStatement, F::Certificate]),
        (
            FieldGroup::Identity,
            vec![F::Name, F::Inci, F::Components, F::Functions, F::UsualPhase, F::Solubility, F::AllergenSource],
        ),
        (FieldGroup::Bounds, vec![F::UseLow, F::UseHigh, F::Max, F::PhMin, F::PhMax, F::HeatMax]),
        (FieldGroup::Figures, vec![F::RequiredHlb, F::EmulsifierHlb, F::Density, F::ShelfLifeMonths]),
        (FieldGroup::Remarks, vec![F::ChildPregnancy, F::Notes]),
    ];
    if fat {
        let fields = vec![F::FatKind, F::FattyAcids, F::SvLow, F::SvHigh, F::IvLow, F::IvHigh, F::Unsaponifiable];
        groups.insert(4, (FieldGroup::Fat, fields));
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn field_groups_hold_every_field_once() {
        let all: Vec<Field> = field_groups(true).into_iter().flat_map(|(_, fields)| fields).collect();
        for field in Field::ALL.into_iter().filter(|field| !field.confirms()) {
            assert_eq!(all.iter().filter(|known| **known == field).count(), 1, "{}", field.key());
        }
        assert!(field_groups(false).len() < field_groups(true).len());
    }
}
