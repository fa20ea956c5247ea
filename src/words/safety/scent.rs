//! What is said of fragrance and essential oils; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const ALLERGENS: &[Template] = &[
    Template::new(
        Of::NoStatement,
        "What allergens {subject} ({value} of the product) brings is not known, so the label cannot be written. Ask its supplier for the allergen statement and paste it on the shelf.",
    ),
    Template::new(
        Of::AromaticWater,
        "{subject} ({value} of the product) carries a little of the oil of its plant, and with it allergens that the label may have to name. Ask its supplier for the allergen statement and paste it on the shelf.",
    ),
    Template::new(
        Of::StatementUnread,
        "Of the allergen statement of {subject} ({value} of the product) some lines were not understood and count as nothing; lines left out: {lines}. Mend them on the shelf.",
    ),
    Template::new(
        Of::NamesUnrecognised,
        "The allergen statement of {subject} ({value} of the product) has names that are not recognised here: {names}. Any of them may be an allergen that the label must name. Enter each on the shelf by its name on labels or with its CAS number, or ask the supplier what it is.",
    ),
    Template::new(
        Of::AllergensNamed,
        "The label names these fragrance allergens, each above {limit} of the product: {subject}.",
    ),
];

pub(super) const FRAGRANCE: &[Template] = &[
    Template::new(
        Of::NoCertificate,
        "For {subject} ({value} of the product) no limit of its supplier\u{2019}s certificate is entered for category {category}. Ask for the certificate and enter it on the shelf.",
    ),
    Template::new(
        Of::AboveCertificate,
        "{subject} is {value} of the product; its supplier\u{2019}s certificate allows {limit} in category {category}. Take at most that.",
    ),
    Template::new(
        Of::CertificateUnread,
        "{subject} is {value} of the product, and its supplier\u{2019}s certificate seems to allow {limit} in category {category}; but not all of the certificate was understood. Mend it on the shelf before you rely on it.",
    ),
    Template::new(
        Of::WithinCertificate,
        "{subject} is {value} of the product, within the {limit} of its supplier\u{2019}s certificate for category {category}.",
    ),
    Template::new(
        Of::FragranceModest,
        "Fragrance and essential oils come to {value} of the product, within the usual {limit}.",
    ),
    Template::new(
        Of::FragranceMuch,
        "Fragrance and essential oils come to {value} of the product; for this use {limit} is the cautious bound. Take less.",
    ),
    Template::new(
        Of::TeaTreeFace,
        "Tea tree oil is {value} of a face product; the European scientific committee accepts up to {limit}, for adults. Take {limit} or less.",
    ),
    Template::new(
        Of::TeaTreeFaceWithin,
        "Tea tree oil is {value} of a face product, within the {limit} that the European scientific committee accepts for adults.",
    ),
    Template::new(
        Of::TeaTreeNotCovered,
        "Tea tree oil is {value} of a product that stays on the skin and is not for the face: the European scientific committee\u{2019}s opinion does not cover that. Ask an assessor.",
    ),
];

pub(super) const PHOTOTOXIC: &[Template] = &[
    Template::new(
        Of::Phototoxic,
        "Oils that burn skin in the sun ({subject}, {oils} of the product) come to {value} times what may stay on skin in the sun, where {limit} times is the bound. Take less, or oils freed of furocoumarins.",
    ),
    Template::new(
        Of::PhototoxicWithin,
        "Oils that burn skin in the sun ({subject}, {oils} of the product) come to {value} times what may stay on skin in the sun, within the bound of {limit} times.",
    ),
];
