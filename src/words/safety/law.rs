//! What is said of what the law caps, forbids or asks for, and what is not known; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const PROHIBITED: &[Template] = &[Template::new(
    Of::Prohibited,
    "{subject} ({value} of the product) is prohibited in cosmetics. Take out what brings it.",
)];

pub(super) const CAPPED: &[Template] = &[
    Template::new(
        Of::AboveCap,
        "{subject} comes to {value} of the product over all lines; at most {limit} is allowed for this use. Take less.",
    ),
    Template::new(
        Of::NearCap,
        "{subject} comes to {value} of the product, close below the {limit} that is allowed for this use: one weighing error is enough. Take a little less.",
    ),
    Template::new(
        Of::WithinCap,
        "{subject} comes to {value} of the product over all lines, within the {limit} that is allowed for this use.",
    ),
];

pub(super) const ANNEXES: &[Template] = &[
    Template::new(
        Of::AnnexProhibits,
        "{subject} ({value} of the product) is prohibited in cosmetics by Annex {entry}. Take out what brings it.",
    ),
    Template::new(
        Of::AnnexBars,
        "{subject} ({value} of the product) is not among what Annex {entry} allows in a product like this. Read its words in the card of the annexes; take out what brings it.",
    ),
    Template::new(
        Of::AnnexAbove,
        "{subject} comes to {value} of the product over all lines; Annex {entry} allows at most {limit} in a product like this. Take less.",
    ),
    Template::new(
        Of::AnnexMayBeAbove,
        "{subject} may come to {value} of the product; Annex {entry} allows at most {limit} in a product like this. Ask the supplier for the exact share and enter it on the shelf.",
    ),
    Template::new(
        Of::AnnexesOpen,
        "What the annexes ask of this product cannot be told by program for Annex {entries}. Read the words in the card of the annexes.",
    ),
    Template::new(
        Of::AnnexesNotHere,
        "The annexes of the law have not been looked into yet, so nothing is said of what only they forbid or limit.",
    ),
];

pub(super) const UNRECOGNISED: &[Template] = &[
    Template::new(
        Of::Unrecognised,
        "Nobody here knows {names}: no limit, no pH, no water and no allergen in it is checked. Write the INCI name from its supplier\u{2019}s document, or its CAS number.",
    ),
    Template::new(
        Of::OnlyLikely,
        "It is not certain what {names} is: nothing is checked for it before you write which it is. The card of the annexes asks what it may be.",
    ),
    Template::new(
        Of::NotLookedUp,
        "The names are still being fetched, so {names} is not looked up yet and nothing is checked for it.",
    ),
];

pub(super) const COMPOSITION: &[Template] = &[Template::new(
    Of::CompositionUnknown,
    "{subject} holds {substances}, and nobody stated how much: it may be up to {value} of the product. Ask its supplier for the composition and enter it on the shelf.",
)];

pub(super) const IDENTITY: &[Template] = &[
    Template::new(
        Of::NoInci,
        "{subject} has no INCI name, so no label can list it and no limit of it can be checked. Enter the name from its supplier\u{2019}s document.",
    ),
    Template::new(
        Of::NoDocument,
        "For {value} ingredients no supplier\u{2019}s document is named on the shelf. Name the data sheet and the certificate of each: they beat every table here.",
    ),
];

pub(super) const REGION: &[Template] = &[
    Template::new(
        Of::GreatBritain,
        "Great Britain keeps the European law of 2020 and changes it by itself. It was not seen to ask for the fragrance allergens of 2023 or for the lower formaldehyde threshold, and a draft of 2026 was not followed: check there. Notify before you sell, and name a responsible person in the United Kingdom.",
    ),
    Template::new(
        Of::UnitedStates,
        "The law of the United States differs: preservatives have no list, colours have one of their own, fragrance allergens need no names yet, and the label needs a contact for adverse events and net contents in both kinds of units. Only what is named here was looked at: check there.",
    ),
    Template::new(
        Of::Elsewhere,
        "The rules of the place where you give this away or sell it were not checked. What is shown follows the law of the European Union: ask there what holds.",
    ),
];

pub(super) const ABOVE_MOST: &[Template] = &[Template::new(
    Of::AboveMost,
    "{subject} is {value} of the product; at most {limit} is advised. Take less, or enter what its supplier\u{2019}s document says.",
)];
