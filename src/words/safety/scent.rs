//! What is said of fragrance and essential oils; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const ALLERGENS: &[Template] = &[
    Template::new(
        Of::NoStatement,
        "The allergens in {subject} ({value} of the product) are not known, so the label cannot be written. Ask the supplier for the allergen statement and paste it on the shelf.",
    ),
    Template::new(
        Of::AromaticWater,
        "{subject} ({value} of the product) contains a little of the oil of its plant, and with it allergens that the label may have to name. Ask the supplier for the allergen statement and paste it on the shelf.",
    ),
    Template::new(
        Of::StatementUnread,
        "Some lines of the allergen statement for {subject} ({value} of the product) were not recognised and are not counted; lines left out: {lines}. Correct them on the shelf.",
    ),
    Template::new(
        Of::NamesUnrecognised,
        "The allergen statement for {subject} ({value} of the product) has names that were not recognised: {names}. Any of them may be an allergen that the label must name. Enter each on the shelf by its label name or with its CAS number, or ask the supplier what it is.",
    ),
    Template::new(
        Of::AllergensNamed,
        "The label names these fragrance allergens, each above {limit} of the product: {subject}.",
    ),
];

pub(super) const FRAGRANCE: &[Template] = &[
    Template::new(
        Of::NoCertificate,
        "No limit from the supplier\u{2019}s certificate is entered for {subject} ({value} of the product) in category {category}. Ask for the certificate and enter it on the shelf.",
    ),
    Template::new(
        Of::AboveCertificate,
        "{subject} is {value} of the product; the supplier\u{2019}s certificate allows {limit} in category {category}. Use no more than that.",
    ),
    Template::new(
        Of::CertificateUnread,
        "{subject} is {value} of the product, and the supplier\u{2019}s certificate seems to allow {limit} in category {category}, but part of the certificate was not recognised. Correct it on the shelf before you rely on it.",
    ),
    Template::new(
        Of::WithinCertificate,
        "{subject} is {value} of the product, within the {limit} of the supplier\u{2019}s certificate for category {category}.",
    ),
    Template::new(
        Of::FragranceModest,
        "Fragrance and essential oils add up to {value} of the product, within the usual {limit}.",
    ),
    Template::new(
        Of::FragranceMuch,
        "Fragrance and essential oils add up to {value} of the product; the cautious maximum for this use is {limit}. Use less.",
    ),
    Template::new(
        Of::TeaTreeFace,
        "Tea tree oil is {value} of a face product; the European scientific committee accepts up to {limit}, for adults. Use {limit} or less.",
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
        "Oils that burn skin in the sun ({subject}, {oils} of the product) add up to {value} times the amount that may stay on skin in the sun; the limit is {limit} times. Use less, or use oils freed of furocoumarins.",
    ),
    Template::new(
        Of::PhototoxicWithin,
        "Oils that burn skin in the sun ({subject}, {oils} of the product) add up to {value} times the amount that may stay on skin in the sun, within the limit of {limit} times.",
    ),
];
