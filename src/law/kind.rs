//! What a product is, as the annexes tell products apart: a kind, a form, and how young its users may be.

use crate::quantity::keyed;

keyed! {
    /// The kind of a product. Every product is of exactly one, though it may not be known which; `data/kinds.csv` says where
    /// each goes and whether it stays there.
    #[derive(PartialOrd, Ord, Hash)]
    ProductKind {
        /// Lotion, milk, cream or butter for the body.
        BodyLotion = "body-lotion",
        /// Oil, balm, gel, powder and whatever else stays on the body and has no kind of its own.
        BodyOther = "body-other",
        /// For the nappy area.
        NappyCare = "nappy-care",
        /// Baby wipes and intimate wipes, and what else stays on mucous skin below.
        IntimateCare = "intimate-care",
        /// For the feet.
        FootCare = "foot-care",
        /// Cream or lotion for the hands.
        HandCream = "hand-cream",
        /// Cream or lotion for the face.
        FaceCream = "face-cream",
        /// Serum, oil, mask or what else stays on the face.
        FaceOther = "face-other",
        /// Foundation, powder, blusher, concealer.
        FaceMakeUp = "face-make-up",
        /// Removes make-up of the face.
        MakeUpRemover = "make-up-remover",
        /// Removes make-up of the eyes.
        EyeMakeUpRemover = "eye-make-up-remover",
        /// Eye shadow.
        EyeShadow = "eye-shadow",
        /// Eye liner.
        EyeLiner = "eye-liner",
        /// Mascara.
        Mascara = "mascara",
        /// Eye cream and what else goes round the eyes.
        EyeOther = "eye-other",
        /// Colours eyelashes or eyebrows.
        EyelashDye = "eyelash-dye",
        /// Waves eyelashes.
        EyelashWaving = "eyelash-waving",
        /// Lipstick and other make-up of the lips.
        Lipstick = "lipstick",
        /// Salve or balm for the lips.
        LipCare = "lip-care",
        /// Deodorant, other than a roll-on.
        Deodorant = "deodorant",
        /// Deodorant as a roll-on.
        DeodorantRollOn = "deodorant-roll-on",
        /// Antiperspirant.
        Antiperspirant = "antiperspirant",
        /// Fine fragrance, with alcohol.
        FineFragrance = "fine-fragrance",
        /// Eau de toilette, with alcohol.
        EauDeToilette = "eau-de-toilette",
        /// Scented cream or oil, without alcohol.
        FragranceCream = "fragrance-cream",
        /// Sun protection for the face.
        SunFace = "sun-face",
        /// Sun protection for the body.
        SunBody = "sun-body",
        /// Self-tanning for the face.
        SelfTanFace = "self-tan-face",
        /// Self-tanning for the body.
        SelfTanBody = "self-tan-body",
        /// Nail varnish.
        NailVarnish = "nail-varnish",
        /// Hardens nails.
        NailHardener = "nail-hardener",
        /// Artificial nails.
        NailSystem = "nail-system",
        /// Dissolves cuticles.
        CuticleSolvent = "cuticle-solvent",
        /// Whatever else is for nails.
        NailOther = "nail-other",
        /// Shampoo.
        Shampoo = "shampoo",
        /// Shampoo against dandruff.
        DandruffShampoo = "dandruff-shampoo",
        /// Conditioner that is rinsed off.
        Conditioner = "conditioner",
        /// Hair masks and what else is rinsed off hair.
        HairRinseOther = "hair-rinse-other",
        /// Lotion, tonic or cream that stays in hair.
        HairLotion = "hair-lotion",
        /// Gel, spray and what else styles hair and stays.
        HairStyling = "hair-styling",
        /// Oxidative hair dye.
        HairDyeOxidative = "hair-dye-oxidative",
        /// Hair dye that is not oxidative.
        HairDyePlain = "hair-dye-plain",
        /// Straightens or waves hair.
        HairShaping = "hair-shaping",
        /// Removes hair.
        Depilatory = "depilatory",
        /// Washes hands, not as a bar.
        HandWash = "hand-wash",
        /// A bar of soap.
        BarSoap = "bar-soap",
        /// Shower gel, bath.
        ShowerBath = "shower-bath",
        /// Washes the face, not as a bar.
        FaceWash = "face-wash",
        /// Scrub, mask, shaving and what else is rinsed off skin.
        SkinRinseOther = "skin-rinse-other",
        /// Toothpaste.
        Toothpaste = "toothpaste",
        /// Mouthwash.
        Mouthwash = "mouthwash",
        /// Mouth spray.
        MouthSpray = "mouth-spray",
        /// Whitens teeth.
        ToothWhitening = "tooth-whitening",
        /// Whatever else is for the mouth.
        OralOther = "oral-other",
    }
}

keyed! {
    /// How a product leaves its pack.
    #[derive(PartialOrd, Ord, Hash)]
    ProductForm {
        /// As cream, liquid, gel, stick or bar: nothing of it flies.
        Still = "still",
        /// As loose powder.
        Powder = "powder",
        /// As spray of a pump, without a propellant.
        Pump = "pump",
        /// As spray of an aerosol can, with a propellant.
        Propellant = "propellant",
    }
}

keyed! {
    /// The youngest for whom a product is meant.
    #[derive(PartialOrd, Ord, Hash)]
    Youngest {
        /// Children under three years.
        UnderThree = "under-3",
        /// Children of three to five.
        Three = "3",
        /// Children of six to nine.
        Six = "6",
        /// Nobody under ten; adults too.
        Ten = "10",
    }
}

impl Youngest {
    /// Whether it is meant for somebody younger than that. None where this cannot be told.
    pub fn is_under(self, years: u8) -> Option<bool> {
        match (self, years) {
            (Self::UnderThree, 3..) => Some(true),
            (Self::Three, 6..) => Some(true),
            (Self::Six, 10..) => Some(true),
            (Self::Three, ..=3) | (Self::Six, ..=6) | (Self::Ten, ..=10) => Some(false),
            _ => None,
        }
    }
}
