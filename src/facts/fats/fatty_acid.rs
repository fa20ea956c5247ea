//! The fatty acids that the table of fats tells apart.

/// A fatty acid, in the order of the table's columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FattyAcid {
    /// Caprylic, 8:0.
    Caprylic,
    /// Capric, 10:0.
    Capric,
    /// Lauric, 12:0.
    Lauric,
    /// Myristic, 14:0.
    Myristic,
    /// Palmitic, 16:0.
    Palmitic,
    /// Palmitoleic, 16:1.
    Palmitoleic,
    /// Stearic, 18:0.
    Stearic,
    /// Oleic and its isomers, 18:1.
    Oleic,
    /// Linoleic, 18:2.
    Linoleic,
    /// Alpha-linolenic, 18:3.
    AlphaLinolenic,
    /// Gamma-linolenic, 18:3.
    GammaLinolenic,
    /// Arachidic, 20:0.
    Arachidic,
    /// Gondoic, 20:1.
    Gondoic,
    /// Behenic, 22:0.
    Behenic,
    /// Erucic, 22:1.
    Erucic,
    /// Ricinoleic, 18:1 with a hydroxy group.
    Ricinoleic,
}

/// What acids have in common for feel and keeping.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kinship {
    /// Saturated, up to 14 carbons.
    ShortSaturated,
    /// Saturated, 16 carbons and more.
    LongSaturated,
    /// One double bond.
    Mono,
    /// Two double bonds and more.
    Poly,
    /// With a hydroxy group.
    Hydroxy,
}

/// Molar masses of the elements in g/mol, IUPAC standard atomic weights (2021), abridged.
const CARBON: f64 = 12.011;
pub(super) const HYDROGEN: f64 = 1.008;
pub(super) const OXYGEN: f64 = 15.999;

/// Molar mass in g/mol of a plain fatty acid, CnH(2n−2d)O2.
pub(super) fn molar_mass(carbons: u8, double_bonds: u8) -> f64 {
    let (n, d) = (f64::from(carbons), f64::from(double_bonds));
    n * CARBON + 2.0 * (n - d) * HYDROGEN + 2.0 * OXYGEN
}

impl FattyAcid {
    /// All of them.
    pub const ALL: [Self; 16] = [
        Self::Caprylic,
        Self::Capric,
        Self::Lauric,
        Self::Myristic,
        Self::Palmitic,
        Self::Palmitoleic,
        Self::Stearic,
        Self::Oleic,
        Self::Linoleic,
        Self::AlphaLinolenic,
        Self::GammaLinolenic,
        Self::Arachidic,
        Self::Gondoic,
        Self::Behenic,
        Self::Erucic,
        Self::Ricinoleic,
    ];

    /// The column of the table and the key in files. It never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Caprylic => "8:0",
            Self::Capric => "10:0",
            Self::Lauric => "12:0",
            Self::Myristic => "14:0",
            Self::Palmitic => "16:0",
            Self::Palmitoleic => "16:1",
            Self::Stearic => "18:0",
            Self::Oleic => "18:1",
            Self::Linoleic => "18:2",
            Self::AlphaLinolenic => "18:3a",
            Self::GammaLinolenic => "18:3g",
            Self::Arachidic => "20:0",
            Self::Gondoic => "20:1",
            Self::Behenic => "22:0",
            Self::Erucic => "22:1",
            Self::Ricinoleic => "ricinoleic",
        }
    }

    /// What chemists call it, in small letters.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Caprylic => "caprylic",
            Self::Capric => "capric",
            Self::Lauric => "lauric",
            Self::Myristic => "myristic",
            Self::Palmitic => "palmitic",
            Self::Palmitoleic => "palmitoleic",
            Self::Stearic => "stearic",
            Self::Oleic => "oleic",
            Self::Linoleic => "linoleic",
            Self::AlphaLinolenic => "alpha-linolenic",
            Self::GammaLinolenic => "gamma-linolenic",
            Self::Arachidic => "arachidic",
            Self::Gondoic => "gondoic",
            Self::Behenic => "behenic",
            Self::Erucic => "erucic",
            Self::Ricinoleic => "ricinoleic",
        }
    }

    /// Number of carbon atoms.
    pub const fn carbons(self) -> u8 {
        match self {
            Self::Caprylic => 8,
            Self::Capric => 10,
            Self::Lauric => 12,
            Self::Myristic => 14,
            Self::Palmitic | Self::Palmitoleic => 16,
            Self::Stearic
            | Self::Oleic
            | Self::Linoleic
            | Self::AlphaLinolenic
            | Self::GammaLinolenic
            | Self::Ricinoleic => 18,
            Self::Arachidic | Self::Gondoic => 20,
            Self::Behenic | Self::Erucic => 22,
        }
    }

    /// Number of double bonds between carbon atoms.
    pub const fn double_bonds(self) -> u8 {
        match self {
            Self::Palmitoleic | Self::Oleic | Self::Gondoic | Self::Erucic | Self::Ricinoleic => 1,
            Self::Linoleic => 2,
            Self::AlphaLinolenic | Self::GammaLinolenic => 3,
            _ => 0,
        }
    }

    /// Molar mass in g/mol, of CnH(2n−2d)O2, with one more oxygen for ricinoleic acid.
    pub fn molar_mass(self) -> f64 {
        let plain = molar_mass(self.carbons(), self.double_bonds());
        if matches!(self, Self::Ricinoleic) { plain + OXYGEN } else { plain }
    }

    /// Which of its like it belongs to.
    pub const fn kinship(self) -> Kinship {
        if matches!(self, Self::Ricinoleic) {
            return Kinship::Hydroxy;
        }
        match (self.double_bonds(), self.carbons()) {
            (0, ..=14) => Kinship::ShortSaturated,
            (0, _) => Kinship::LongSaturated,
            (1, _) => Kinship::Mono,
            _ => Kinship::Poly,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn acid_order_is_the_order_of_its_number() {
        for (n, acid) in FattyAcid::ALL.into_iter().enumerate() {
            assert_eq!(acid as usize, n, "profiles are looked up by this number");
        }
    }
}
