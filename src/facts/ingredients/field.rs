//! What can be known about an ingredient, as a closed list of fields.

/// One thing that can be known about an ingredient, and that a maker can override.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Field {
    /// What makers call it.
    Name,
    /// Its names on a label, `; ` between those of a blend, in falling share; ` or ` stands between alternatives.
    Inci,
    /// What it does, in the terms of CosIng, `; ` between them.
    Functions,
    /// The phase it mostly goes into.
    UsualPhase,
    /// The low end of the usual share.
    UseLow,
    /// The high end of the usual share.
    UseHigh,
    /// The most that law, safety advice or custom allows; the table says which.
    Max,
    /// The lowest pH of a product in which it keeps and works.
    PhMin,
    /// The highest pH of a product in which it keeps and works.
    PhMax,
    /// The highest temperature that it should see while being worked, in °C.
    HeatMax,
    /// The HLB that an oil asks of its emulsifiers, oil in water.
    RequiredHlb,
    /// The HLB that an emulsifier has.
    EmulsifierHlb,
    /// Mass per volume at 20 °C, in g/mL.
    Density,
    /// How long it keeps unopened, in months.
    ShelfLifeMonths,
    /// What it dissolves in, first word first.
    Solubility,
    /// What it is made from, as far as allergies go.
    AllergenSource,
    /// Cautions for children, pregnancy and broken skin.
    ChildPregnancy,
    /// What a blend consists of, in percent.
    Components,
    /// Anything else worth knowing.
    Notes,
    /// What a fragrance or oil holds, as its supplier states it: names and percent, pasted.
    AllergenStatement,
    /// The most that the supplier's certificate allows, by category, pasted.
    Certificate,
    /// The supplier's documents by name and date.
    Document,
    /// The lot on the shelf.
    Lot,
    /// The maker has it: `yes` or `no`.
    InHand,
    /// What a kilogram of it costs: a [`crate::quantity::Money`].
    Price,
    /// What kind of fat it is, as a [`crate::facts::FatKind`] key.
    FatKind,
    /// Fatty acids in per cent, from a supplier's sheet: `16:0 6.5; 18:1 72; 18:2 18`.
    FattyAcids,
    /// Low end of the measured saponification value.
    SvLow,
    /// Its high end.
    SvHigh,
    /// Low end of the measured iodine value.
    IvLow,
    /// Its high end.
    IvHigh,
    /// What of a fat does not saponify.
    Unsaponifiable,
    /// Why a typed saponification value that stands out is right all the same.
    SvReason,
    /// The value that the reason was given for, so that it lapses with it.
    SvConfirmed,
}

/// What a field holds, and so how it is typed and checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldKind {
    /// Any text.
    Text,
    /// A [`crate::quantity::Percent`].
    Percent,
    /// A [`crate::quantity::Ph`].
    Ph,
    /// [`crate::quantity::Celsius`].
    Celsius,
    /// A [`crate::quantity::Density`].
    Density,
    /// A [`crate::facts::Hlb`].
    Hlb,
    /// [`crate::facts::Months`].
    Months,
    /// A [`UsualPhase`] key.
    Phase,
    /// `yes` or `no`.
    YesNo,
    /// A sum of money: a [`crate::quantity::Money`].
    Money,
    /// A [`crate::facts::FatKind`] key.
    FatKind,
    /// A [`crate::facts::Sv`].
    Sv,
    /// An [`crate::facts::Iv`].
    Iv,
    /// Functions, `; ` between them.
    Functions,
    /// What something dissolves in, a solvent first.
    Solubility,
    /// Parts of a blend with their shares, `; ` between them.
    Parts,
}

/// The phase an ingredient mostly goes into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UsualPhase {
    /// Heated with the water.
    Water,
    /// Melted with the oils.
    Oil,
    /// Added below about 40 °C.
    CoolDown,
    /// Part of a soap's lye.
    Lye,
}

impl UsualPhase {
    /// All, in the order of work.
    pub const ALL: [Self; 4] = [Self::Water, Self::Oil, Self::CoolDown, Self::Lye];

    /// As files hold it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::Oil => "oil",
            Self::CoolDown => "cool-down",
            Self::Lye => "lye",
        }
    }

    /// The phase of a key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|phase| phase.key() == key)
    }
}

/// A word to choose, as files have it, whatever its case and its spaces: `Cool down` is `cool-down`.
pub(crate) fn choice(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join("-").to_ascii_lowercase()
}

impl Field {
    /// All, in the order of a card.
    pub const ALL: [Self; 34] = [
        Self::Name,
        Self::Inci,
        Self::Functions,
        Self::UsualPhase,
        Self::UseLow,
        Self::UseHigh,
        Self::Max,
        Self::PhMin,
        Self::PhMax,
        Self::HeatMax,
        Self::RequiredHlb,
        Self::EmulsifierHlb,
        Self::Density,
        Self::ShelfLifeMonths,
        Self::Solubility,
        Self::AllergenSource,
        Self::ChildPregnancy,
        Self::Components,
        Self::Notes,
        Self::AllergenStatement,
        Self::Certificate,
        Self::Document,
        Self::Lot,
        Self::InHand,
        Self::Price,
        Self::FatKind,
        Self::FattyAcids,
        Self::SvLow,
        Self::SvHigh,
        Self::IvLow,
        Self::IvHigh,
        Self::Unsaponifiable,
        Self::SvReason,
        Self::SvConfirmed,
    ];

    /// What makes an entry a fat; the built-in fats have these in a table of their own.
    pub const FATS: [Self; 7] =
        [Self::FatKind, Self::FattyAcids, Self::SvLow, Self::SvHigh, Self::IvLow, Self::IvHigh, Self::Unsaponifiable];

    /// True if the table's value counts where the maker's text cannot be read. What the maker says of a fat and of the parts of
    /// a blend says at least that this material is another one than the table's: lye and acids are counted from it, so then
    /// nothing is.
    pub const fn gives_way(self) -> bool {
        !matches!(
            self,
            Self::Components
                | Self::FatKind
                | Self::FattyAcids
                | Self::SvLow
                | Self::SvHigh
                | Self::IvLow
                | Self::IvHigh
                | Self::Unsaponifiable
        )
    }

    /// The column of the table and the key in files. It never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Name => "name",
            Self::Inci => "inci",
            Self::Functions => "functions",
            Self::UsualPhase => "usual_phase",
            Self::UseLow => "use_low_percent",
            Self::UseHigh => "use_high_percent",
            Self::Max => "max_percent",
            Self::PhMin => "ph_min",
            Self::PhMax => "ph_max",
            Self::HeatMax => "heat_max_c",
            Self::RequiredHlb => "required_hlb",
            Self::EmulsifierHlb => "emulsifier_hlb",
            Self::Density => "density_g_ml",
            Self::ShelfLifeMonths => "shelf_life_months",
            Self::Solubility => "solubility",
            Self::AllergenSource => "allergen_source",
            Self::ChildPregnancy => "child_pregnancy",
            Self::Components => "components",
            Self::Notes => "notes",
            Self::AllergenStatement => "allergen_statement",
            Self::Certificate => "certificate_limits",
            Self::Document => "supplier_document",
            Self::Lot => "lot",
            Self::InHand => "in_hand",
            Self::Price => "price_per_kg",
            Self::FatKind => "fat_kind",
            Self::FattyAcids => "fatty_acids",
            Self::SvLow => "sv_low",
            Self::SvHigh => "sv_high",
            Self::IvLow => "iv_low",
            Self::IvHigh => "iv_high",
            Self::Unsaponifiable => "unsaponifiable_percent",
            Self::SvReason => "sv_reason",
            Self::SvConfirmed => "sv_confirmed",
        }
    }

    /// The field of a key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|field| field.key() == key)
    }

    /// True if only the maker can fill it, as no table has it: what stands on a supplier's papers, what is in hand.
    pub const fn is_makers(self) -> bool {
        matches!(
            self,
            Self::AllergenStatement | Self::Certificate | Self::Document | Self::Lot | Self::InHand | Self::Price
        ) || self.confirms()
    }

    /// True if it is no value but the maker's word for one, which has a place of its own beside it.
    pub const fn confirms(self) -> bool {
        matches!(self, Self::SvReason | Self::SvConfirmed)
    }

    /// True if it is a longer text that is mostly pasted from a supplier's papers.
    pub const fn is_pasted(self) -> bool {
        matches!(self, Self::AllergenStatement | Self::Certificate | Self::Document)
    }

    /// What it holds.
    pub const fn shape(self) -> FieldKind {
        match self {
            Self::UseLow | Self::UseHigh | Self::Max | Self::Unsaponifiable => FieldKind::Percent,
            Self::PhMin | Self::PhMax => FieldKind::Ph,
            Self::HeatMax => FieldKind::Celsius,
            Self::RequiredHlb | Self::EmulsifierHlb => FieldKind::Hlb,
            Self::Density => FieldKind::Density,
            Self::ShelfLifeMonths => FieldKind::Months,
            Self::UsualPhase => FieldKind::Phase,
            Self::InHand => FieldKind::YesNo,
            Self::Price => FieldKind::Money,
            Self::FatKind => FieldKind::FatKind,
            Self::SvLow | Self::SvHigh => FieldKind::Sv,
            Self::IvLow | Self::IvHigh => FieldKind::Iv,
            Self::Functions => FieldKind::Functions,
            Self::Solubility => FieldKind::Solubility,
            Self::Components => FieldKind::Parts,
            Self::Name
            | Self::Inci
            | Self::AllergenSource
            | Self::ChildPregnancy
            | Self::Notes
            | Self::AllergenStatement
            | Self::Certificate
            | Self::Document
            | Self::Lot
            | Self::FattyAcids
            | Self::SvReason
            | Self::SvConfirmed => FieldKind::Text,
        }
    }

    /// The table's column that says how well the value is known. Most texts have none: only a caution that a
    /// rule rests on is told apart.
    pub(super) const fn seen_column(self) -> Option<&'static str> {
        Some(match self {
            Self::UseLow | Self::UseHigh => "use_seen",
            Self::Max => "max_seen",
            Self::PhMin | Self::PhMax => "ph_seen",
            Self::HeatMax => "heat_seen",
            Self::RequiredHlb => "required_hlb_seen",
            Self::EmulsifierHlb => "emulsifier_hlb_seen",
            Self::Density => "density_seen",
            Self::ShelfLifeMonths => "shelf_life_seen",
            Self::ChildPregnancy => "child_pregnancy_seen",
            _ => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn field_keys_lead_back_to_their_fields() {
        for field in Field::ALL {
            assert_eq!(Field::from_key(field.key()), Some(field));
        }
        assert_eq!(Field::from_key("id"), None);
        for (n, field) in Field::ALL.into_iter().enumerate() {
            assert_eq!(field as usize, n, "cells are looked up by this number");
        }
    }
}
