//! What is said of what the law caps, forbids or asks for, and what is not known; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const PROHIBITED: &[Template] = &[Template::new(
    Of::Prohibited,
    "{subject} ({value} of the product) is prohibited in cosmetics. Remove the ingredient that contains it.",
)];

pub(super) const CAPPED: &[Template] = &[
    Template::new(
        Of::AboveCap,
        "{subject} adds up to {value} of the product across all lines; the maximum allowed for this use is {limit}. Use less.",
    ),
    Template::new(
        Of::NearCap,
        "{subject} adds up to {value} of the product, just below the {limit} that is allowed for this use: one weighing error is enough to exceed it. Use a little less.",
    ),
    Template::new(
        Of::WithinCap,
        "{subject} adds up to {value} of the product across all lines, within the {limit} that is allowed for this use.",
    ),
];

pub(super) const ANNEXES: &[Template] = &[
    Template::new(
        Of::AnnexProhibits,
        "{subject} ({value} of the product) is prohibited in cosmetics by Annex {entry}. Remove the ingredient that contains it.",
    ),
    Template::new(
        Of::AnnexBars,
        "{subject} ({value} of the product) is not among what Annex {entry} allows in a product like this. Read its words on the card \u{201c}The annexes\u{201d}; remove the ingredient that contains it.",
    ),
    Template::new(
        Of::AnnexAbove,
        "{subject} adds up to {value} of the product across all lines; Annex {entry} allows at most {limit} in a product like this. Use less.",
    ),
    Template::new(
        Of::AnnexMayBeAbove,
        "{subject} may add up to {value} of the product; Annex {entry} allows at most {limit} in a product like this. Ask the supplier for the exact percentage and enter it on the shelf.",
    ),
    Template::new(
        Of::AnnexesOpen,
        "This program cannot judge what the law asks of this product in Annex {entries}. Read the words on the card \u{201c}The annexes\u{201d}.",
    ),
    Template::new(
        Of::AnnexesNotHere,
        "The annexes of the law have not been checked yet, so nothing is said of what only they prohibit or limit.",
    ),
];

pub(super) const UNRECOGNISED: &[Template] = &[
    Template::new(
        Of::Unrecognised,
        "Not recognised: {names}. No limit, pH, water or allergen is checked for it. Enter the INCI name from the supplier\u{2019}s document, or its CAS number.",
    ),
    Template::new(
        Of::OnlyLikely,
        "It is not certain what {names} is: nothing is checked for it until you write which it is. The card \u{201c}The annexes\u{201d} asks what it may be.",
    ),
    Template::new(
        Of::NotLookedUp,
        "The names are still loading, so {names} has not been looked up yet and nothing is checked for it.",
    ),
];

pub(super) const COMPOSITION: &[Template] = &[Template::new(
    Of::CompositionUnknown,
    "{subject} contains {substances}, but how much is not stated: it may be up to {value} of the product. Ask the supplier for the composition and enter it on the shelf.",
)];

pub(super) const IDENTITY: &[Template] = &[
    Template::new(
        Of::NoInci,
        "{subject} has no INCI name, so no label can list it and its limits cannot be checked. Enter the name from the supplier\u{2019}s document.",
    ),
    Template::new(
        Of::NoDocument,
        "Ingredients with no supplier\u{2019}s document named on the shelf: {value}. Name the data sheet and the certificate of each: they override every table here.",
    ),
];

pub(super) const REGION: &[Template] = &[
    Template::new(
        Of::GreatBritain,
        "Great Britain keeps the European law of 2020 and amends it separately. No sign was seen that it requires the fragrance allergens of 2023 or the lower formaldehyde threshold, and a draft of 2026 was not followed up: check there. Notify before you sell, and name a responsible person in the United Kingdom.",
    ),
    Template::new(
        Of::UnitedStates,
        "The law of the United States differs: there is no list of preservatives, colours have a list of their own, fragrance allergens do not need to be named yet, and the label needs a contact for adverse events and the net contents in both kinds of units. Only what is named here was looked at: check there.",
    ),
    Template::new(
        Of::Elsewhere,
        "The rules of the place where you sell this or give it away were not checked. What is shown follows the law of the European Union: find out what applies there.",
    ),
];

pub(super) const ABOVE_MOST: &[Template] = &[Template::new(
    Of::AboveMost,
    "{subject} is {value} of the product; the advised maximum is {limit}. Use less, or enter what the supplier\u{2019}s document says.",
)];
