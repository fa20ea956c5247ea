//! What the safety rules say, as a closed list. The sentences are in `words`.
//!
//! Subject, value and limit are the finding's, since every finding is named, answered and reported by them. What else a
//! sentence tells is a field of its message, of its own type.

use super::MessageField;
use crate::facts::Kilodaltons;
use crate::quantity::{Celsius, Percent, Ph};
use crate::sheet::EmulsionSystem;

macro_rules! messages {
    ($($(#[$doc:meta])* $name:ident $({ $($field:ident: $kind:ty),+ })? = $key:literal),+ $(,)?) => {
        /// What a safety rule says, with what its sentence tells beside subject, value and limit of the finding.
        #[derive(Debug, Clone, PartialEq, Eq)]
        pub enum Message {
            $($(#[$doc])* $name $({
                $(#[doc = concat!("What its sentence tells as `", stringify!($field), "`.")] $field: $kind),+
            })?),+
        }

        /// A message without its fields.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum MessageId {
            $($(#[$doc])* $name),+
        }

        impl Message {
            /// Which one it is.
            pub const fn id(&self) -> MessageId {
                match self { $(Self::$name { .. } => MessageId::$name),+ }
            }

            /// Its fields by name.
            pub fn fields(&self) -> Vec<(&'static str, MessageField<'_>)> {
                match self {
                    $(Self::$name $({ $($field),+ })? => {
                        vec![$($((stringify!($field), MessageField::from($field))),+)?]
                    })+
                }
            }
        }

        impl MessageId {
            /// All.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// Its key in files. Never changes.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$name => $key),+ }
            }

            /// The names of its fields.
            pub const fn fields(self) -> &'static [&'static str] {
                match self { $(Self::$name => &[$($(stringify!($field)),+)?]),+ }
            }
        }
    };
}

impl Message {
    /// Its key in files.
    pub const fn key(&self) -> &'static str {
        self.id().key()
    }
}

messages! {
    /// More than a certificate allows.
    AboveCertificate { category: &'static str } = "above-certificate",
    /// More than a cap.
    AboveCap = "above-cap",
    /// More of a preservative than law allows.
    AboveMaximum { as_acid: bool } = "above-maximum",
    /// More than the most of an ingredient.
    AboveMost = "above-most",
    /// An acid preservative does nothing at this pH.
    AcidIdle { ph: Ph } = "acid-idle",
    /// Peeling acid for the smallest.
    AcidUnderThree = "acid-under-three",
    /// An acid preservative does little at this pH.
    AcidWeak { ph: Ph } = "acid-weak",
    /// An acid is needed to reach the target pH, and what sets a pH the other way is not.
    AcidNotBase { agent: String, least: Percent, most: Percent, uncounted: Vec<String> } = "acid-not-base",
    /// An acid that a pH is set with takes it below its target.
    AcidTooMuch { uncounted: Vec<String> } = "acid-too-much",
    /// An acid preservative works.
    AcidWorks { ph: Ph } = "acid-works",
    /// A peeling acid below its pH.
    AhaTooAcid = "aha-too-acid",
    /// Alcohol for the smallest.
    AlcoholUnderThree = "alcohol-under-three",
    /// Allergens that the label names.
    AllergensNamed = "allergens-named",
    /// An amine must be pure.
    AminePurity = "amine-purity",
    /// More than an entry of the annexes allows in this product.
    AnnexAbove { entry: String } = "annex-above",
    /// An entry of the annexes does not allow it in this product.
    AnnexBars { entry: String } = "annex-bars",
    /// More than an entry allows, if the upper end of its share is true.
    AnnexMayBeAbove { entry: String } = "annex-may-be-above",
    /// Annex II prohibits it.
    AnnexProhibits { entry: String } = "annex-prohibits",
    /// The annexes are not here to be looked into.
    AnnexesNotHere = "annexes-not-here",
    /// Entries whose words a program cannot judge.
    AnnexesOpen { entries: Vec<String> } = "annexes-open",
    /// A preservative that is left off the nappy area.
    AvoidedOnTheNappyArea = "avoided-on-the-nappy-area",
    /// A preservative that is left out for the smallest.
    AvoidedUnderThree = "avoided-under-three",
    /// A water of a scented plant without a statement of its allergens.
    AromaticWater = "aromatic-water",
    /// A base is needed to reach the target pH, and what sets a pH the other way is not.
    BaseNotAcid { agent: String, least: Percent, most: Percent, uncounted: Vec<String> } = "base-not-acid",
    /// A base that a pH is set with takes it above its target.
    BaseTooMuch { uncounted: Vec<String> } = "base-too-much",
    /// A solubiliser takes the preservative to itself.
    BindsPreservative { partners: Vec<String> } = "binds-preservative",
    /// Camphor-like oils for children.
    CamphorForChildren = "camphor-for-children",
    /// A cationic with an anionic.
    CationicWithAnionic { partners: Vec<String>, gums: Vec<String> } = "cationic-with-anionic",
    /// Lines of a certificate that were not understood.
    CertificateUnread { category: &'static str } = "certificate-unread",
    /// Shares of a blend are not known.
    CompositionUnknown { substances: Vec<String> } = "composition-unknown",
    /// The drops are closer than equal spheres can be.
    DropsPacked = "drops-packed",
    /// Nothing was checked for this place.
    Elsewhere = "elsewhere",
    /// Which dose preserves is not known.
    DoseUnknown = "dose-unknown",
    /// Emulsifier suffices.
    EmulsifierEnough { system: EmulsionSystem, oils: Percent } = "emulsifier-enough",
    /// Emulsifier is little.
    EmulsifierLow { system: EmulsionSystem, oils: Percent } = "emulsifier-low",
    /// Acid and bicarbonate in a closed pack.
    Fizzes { partners: Vec<String> } = "fizzes",
    /// Near the flash point.
    FlashPoint = "flash-point",
    /// Too much releasable formaldehyde.
    FormaldehydeBarred = "formaldehyde-barred",
    /// The label must say that formaldehyde is released.
    FormaldehydeLabel = "formaldehyde-label",
    /// A releaser of an unknown amount.
    FormaldehydeUnknown = "formaldehyde-unknown",
    /// Scent within what is usual.
    FragranceModest = "fragrance-modest",
    /// Much scent.
    FragranceMuch = "fragrance-much",
    /// What differs in Great Britain.
    GreatBritain = "great-britain",
    /// A gum without anything to wet it.
    GumDry = "gum-dry",
    /// HLB fits.
    HlbMeets { partners: Vec<String> } = "hlb-meets",
    /// HLB does not fit.
    HlbOff { partners: Vec<String> } = "hlb-off",
    /// Too little is known of an oil's acids to say how long it keeps.
    KeepingUnknown = "keeping-unknown",
    /// Something but a preservative keeps it.
    KeptOtherwise = "kept-otherwise",
    /// The limit in law was not read.
    LimitUnread = "limit-unread",
    /// Emulsifiers that hold water in oil, in what is mostly water.
    LipophilicOnly { system: EmulsionSystem, water: Percent } = "lipophilic-only",
    /// pH 11 or more with lye.
    LyeTooAlkaline = "lye-too-alkaline",
    /// Names in an allergen statement that were not recognised.
    NamesUnrecognised { names: Vec<String> } = "names-unrecognised",
    /// Names that were not looked up yet.
    NotLookedUp { names: Vec<String> } = "not-looked-up",
    /// Names that may be one of several.
    OnlyLikely { names: Vec<String> } = "only-likely",
    /// Names that nobody here knows.
    Unrecognised { names: Vec<String> } = "unrecognised",
    /// Close below a cap.
    NearCap = "near-cap",
    /// Close below the legal maximum.
    NearMaximum { as_acid: bool } = "near-maximum",
    /// An acid is needed to reach the target pH.
    NeedsAcid { agent: String, least: Percent, most: Percent, uncounted: Vec<String> } = "needs-acid",
    /// A base is needed to reach the target pH.
    NeedsBase { agent: String, least: Percent, most: Percent, uncounted: Vec<String> } = "needs-base",
    /// More of an acid is needed to reach the target pH.
    NeedsMoreAcid { agent: String, least: Percent, most: Percent, uncounted: Vec<String> } = "needs-more-acid",
    /// More of a base is needed to reach the target pH.
    NeedsMoreBase { agent: String, least: Percent, most: Percent, uncounted: Vec<String> } = "needs-more-base",
    /// Niacinamide outside its pH.
    NiacinamidePh = "niacinamide-ph",
    /// An amine with a nitrosating agent.
    NitrosaminePair { partners: Vec<String> } = "nitrosamine-pair",
    /// No antioxidant for oils that need one.
    NoAntioxidant = "no-antioxidant",
    /// No certificate for a scent.
    NoCertificate { category: &'static str } = "no-certificate",
    /// More of a preservative than water and oil hold.
    MoreThanDissolves = "more-than-dissolves",
    /// No chelator.
    NoChelator = "no-chelator",
    /// No supplier's document.
    NoDocument = "no-document",
    /// No emulsifier at all.
    NoEmulsifier { oils: Percent } = "no-emulsifier",
    /// No INCI name.
    NoInci = "no-inci",
    /// No pH stated.
    NoPh = "no-ph",
    /// No pH stated, though acids preserve it.
    NoPhForAcids = "no-ph-for-acids",
    /// No allergen statement.
    NoStatement = "no-statement",
    /// No water to speak of.
    NoWater = "no-water",
    /// No preservative works at this pH.
    NoneWorksAtPh = "none-works-at-ph",
    /// No preservative works below its pH.
    NoneWorksBelow = "none-works-below",
    /// Not in sprays.
    NotInSprays = "not-in-sprays",
    /// Not on lips.
    NotOnLips = "not-on-lips",
    /// Not on large parts of the body.
    NotOnTheBody = "not-on-the-body",
    /// Not on the nappy area.
    NotOnTheNappyArea = "not-on-the-nappy-area",
    /// Not with the mixture that holds it.
    NotTogether = "not-together",
    /// Not under six years.
    NotUnderSix = "not-under-six",
    /// Not under three years.
    NotUnderThree = "not-under-three",
    /// Only things that help a preservative.
    OnlyBoosters = "only-boosters",
    /// Where an ingredient comes from is open.
    OriginOpen { made_from: String } = "origin-open",
    /// Parabens at or over a limit.
    Parabens = "parabens",
    /// Parabens within limits.
    ParabensWithin = "parabens-within",
    /// Peanut oil needs a protein certificate.
    PeanutProtein = "peanut-protein",
    /// pH above an ingredient's.
    PhAbove = "ph-above",
    /// pH below an ingredient's.
    PhBelow = "ph-below",
    /// Oils that burn in the sun.
    Phototoxic { oils: Percent } = "phototoxic",
    /// Oils that burn in the sun, within limits.
    PhototoxicWithin { oils: Percent } = "phototoxic-within",
    /// A polymer holds the drops by itself.
    PolymerEnough { system: EmulsionSystem, oils: Percent } = "polymer-enough",
    /// Too little of a polymer that is to hold the drops.
    PolymerLow { system: EmulsionSystem, oils: Percent } = "polymer-low",
    /// Salt takes a polymer away that holds the drops by itself.
    PolymerSalted { system: EmulsionSystem, partners: Vec<String> } = "polymer-salted",
    /// A preservative is there.
    Preserved = "preserved",
    /// A banned substance.
    Prohibited = "prohibited",
    /// Vitamin A in pregnancy.
    RetinoidPregnancy = "retinoid-pregnancy",
    /// Vitamin A for the smallest.
    RetinoidUnderThree = "retinoid-under-three",
    /// Only in products that are washed off.
    RinseOffOnly = "rinse-off-only",
    /// Salicylic acid in pregnancy.
    SalicylicPregnancy = "salicylic-pregnancy",
    /// Salt thins carbomer.
    SaltThinsCarbomer { partners: Vec<String> } = "salt-thins-carbomer",
    /// Scent in pregnancy.
    ScentPregnancy = "scent-pregnancy",
    /// Scent for the smallest.
    ScentUnderThree = "scent-under-three",
    /// pH fits skin.
    SkinPh = "skin-ph",
    /// A cream that soap holds, made in it or sold as such.
    SoapHolds { system: EmulsionSystem, bases: Vec<String> } = "soap-holds",
    /// Soap in acid.
    SoapInAcid = "soap-in-acid",
    /// Soap is still too alkaline.
    SoapNotCured = "soap-not-cured",
    /// Soap's pH is usual.
    SoapPh = "soap-ph",
    /// Soap's pH is too low for soap.
    SoapTooMild = "soap-too-mild",
    /// What the ingredients are made from.
    SourceFlags = "source-flags",
    /// A food allergen for the smallest.
    SourceUnderThree { made_from: String } = "source-under-three",
    /// All kinds of microbes are held.
    SpectrumBroad = "spectrum-broad",
    /// All kinds of microbes are held, and something feeds them.
    SpectrumFed { feeders: Vec<String> } = "spectrum-fed",
    /// Some kinds of microbes are not held.
    SpectrumNarrow { feeders: Vec<String> } = "spectrum-narrow",
    /// Lines of an allergen statement that were not understood.
    StatementUnread { lines: usize } = "statement-unread",
    /// The sun after a peeling acid.
    Sunburn = "sunburn",
    /// Too much tea tree oil for the face.
    TeaTreeFace = "tea-tree-face",
    /// Tea tree oil within the opinion.
    TeaTreeFaceWithin = "tea-tree-face-within",
    /// Tea tree oil for children.
    TeaTreeForChildren = "tea-tree-for-children",
    /// Tea tree oil where no opinion covers it.
    TeaTreeNotCovered = "tea-tree-not-covered",
    /// Tea tree oil in pregnancy.
    TeaTreePregnancy = "tea-tree-pregnancy",
    /// The product is too acid.
    TooAcid { peeling: Vec<String> } = "too-acid",
    /// The product is too alkaline.
    TooAlkaline { soaps: Vec<String> } = "too-alkaline",
    /// A phase is too hot for an ingredient.
    TooHot { over: Celsius } = "too-hot",
    /// A dose too small to preserve.
    TooLittle = "too-little",
    /// Iron colours a preservative.
    TurnsWithIron { partners: Vec<String> } = "turns-with-iron",
    /// Ultramarine in acid.
    UltramarineInAcid = "ultramarine-in-acid",
    /// What differs in the United States.
    UnitedStates = "united-states",
    /// Water without a preservative.
    Unpreserved = "unpreserved",
    /// Water in oil, with room for its drops.
    WaterInOil { system: EmulsionSystem } = "water-in-oil",
    /// Water in oil in drops that are closer than equal spheres can be.
    WaterPacked { system: EmulsionSystem } = "water-packed",
    /// How much water there is, is not known.
    WaterUnknown = "water-unknown",
    /// Hydrolysed wheat needs a size.
    WheatProtein { most: Kilodaltons } = "wheat-protein",
    /// Within a cap.
    WithinCap = "within-cap",
    /// Within the certificate.
    WithinCertificate { category: &'static str } = "within-certificate",
    /// Within the legal maximum.
    WithinMaximum { as_acid: bool } = "within-maximum",
    /// Zinc oxide with an acid preservative.
    ZincWithAcidPreservative { partners: Vec<String> } = "zinc-with-acid-preservative",
}
