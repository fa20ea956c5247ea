//! What is said of how an emulsion is made and keeps; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const HEAT: &[Template] = &[
    Template::new(
        Of::FlashPoint,
        "{subject} goes into a phase of {value}, and its vapour can be lit from {limit}. Add it when the batch has cooled, away from flame and hotplate.",
    ),
    Template::new(
        Of::TooHot,
        "{subject} goes into a phase of {value} and should see at most {limit}: {over} too much. Move it to the cool-down phase, or heat less.",
    ),
];

pub(super) const EMULSIFIER: &[Template] = &[
    Template::new(Of::NoEmulsifier, "Oils are {oils} of the product and there is no emulsifier: it will part. Add one, a fifth of the oils or more."),
    Template::new(Of::DropsPacked, "Oil fills {value} of the volume, and equal drops at their closest fill {limit}: an emulsion of oil in water so full inverts or separates easily. Use less oil, or an emulsifier that is made for so much of it, and add the oil slowly."),
    Template::new(Of::LipophilicOnly, "The emulsifiers together have an HLB of {value}: up to {limit} they hold water in oil and not oil in water. Water is {water} of the product, so it will most likely separate. Add an emulsifier of a high HLB, or replace these."),
    Template::new(Of::EmulsifierEnough, "Emulsifiers are {value} of the oils, which are {oils} of the product; {limit} of the oils suffices."),
    Template::new(Of::EmulsifierLow, "Emulsifiers are {value} of the oils, which are {oils} of the product; {limit} of the oils is usual at least. Take more emulsifier or less oil."),
    Template::new(Of::PolymerEnough, "{subject} is {value} of the product, which has {oils} of oils. A polymer holds the drops by itself: {limit} of the product suffices."),
    Template::new(Of::PolymerLow, "{subject} is {value} of the product, which has {oils} of oils. A polymer that is to hold the drops by itself is usually {limit} of the product at least. Take more of it, or add another emulsifier."),
    Template::new(Of::HlbMeets, "The emulsifiers together have an HLB of {value}, and the oils ask for {limit}: that is close enough.").or_with("partners", "The emulsifiers together have an HLB of {value}, and the oils ask for {limit}: that is close, though HLB does not decide here: {subject} with {partners} builds a gel network in the water, and that holds the cream."),
    Template::new(Of::HlbOff, "The emulsifiers together have an HLB of {value}, and the oils ask for {limit}: too far apart to hold. Change the shares of the emulsifiers until the two are within one of each other.").or_with("partners", "The emulsifiers together have an HLB of {value}, and the oils ask for {limit}; but HLB does not decide here: {subject} with {partners} builds a gel network in the water, and that holds the cream. Make a small trial batch and watch it."),
];

pub(super) const GUM: &[Template] = &[Template::new(
    Of::GumDry,
    "{subject} ({value} of the product) clumps if it is strewn dry into water. Stir it first into glycerin or a glycol of the same phase, or strew it slowly under a fast stirrer.",
)];

pub(super) const ANTIOXIDANT: &[Template] = &[
    Template::new(
        Of::NoAntioxidant,
        "Oils that turn rancid sooner than most ({subject}) are {value} of the product; from {limit} on an antioxidant is usual. Add one, such as mixed tocopherols.",
    ),
    Template::new(
        Of::KeepingUnknown,
        "Too little is known of the fatty acids of {subject} ({value} of the product) to say how long it keeps; it may turn rancid soon. Enter its acids on the shelf as the supplier\u{2019}s sheet has them; until then an antioxidant is the safer choice, as it is usual from {limit} of such oils on.",
    ),
];

pub(super) const CHELATOR: &[Template] = &[Template::new(
    Of::NoChelator,
    "Water is {value} of the product and no chelator is in it. Metals make oils rancid and weaken the preservative: add one, such as sodium phytate.",
)];
