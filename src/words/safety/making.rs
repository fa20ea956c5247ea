//! What is said of how an emulsion is made and keeps; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const HEAT: &[Template] = &[
    Template::new(
        Of::FlashPoint,
        "{subject} goes into a phase heated to {value}, and its vapour can ignite from {limit}. Add it once the batch has cooled, away from flames and hotplates.",
    ),
    Template::new(
        Of::TooHot,
        "{subject} goes into a phase heated to {value} and should not go above {limit}; that is {over} too hot. Move it to the cool-down phase, or heat less.",
    ),
];

pub(super) const EMULSIFIER: &[Template] = &[
    Template::new(Of::NoEmulsifier, "Oils are {oils} of the product and there is no emulsifier: it will separate. Add one, at a fifth of the oils or more."),
    Template::new(Of::DropsPacked, "Oil fills {value} of the volume; equal droplets packed as closely as they can be fill {limit}. An oil-in-water emulsion that full inverts or separates easily. Use less oil, or an emulsifier made for so much of it, and add the oil slowly."),
    Template::new(Of::LipophilicOnly, "{system} The emulsifiers together have an HLB of {value}; up to {limit} they hold water in oil, not oil in water. Water is {water} of the product, so it will most likely separate within hours. Add an emulsifier with a high HLB, or replace these."),
    Template::new(Of::WaterInOil, "{system} Water fills {value} of the volume; up to {limit} its droplets have room. Stir the water in slowly, and do not add anything that dissolves in water afterwards."),
    Template::new(Of::WaterPacked, "{system} Water fills {value} of the volume; equal droplets packed as closely as they can be fill {limit}. A water-in-oil emulsion that full inverts or separates easily. Use less water, or ask the supplier whether this emulsifier holds so much."),
    Template::new(Of::EmulsifierEnough, "{system} It is {value} of the oils, which are {oils} of the product; {limit} of the oils is enough."),
    Template::new(Of::EmulsifierLow, "{system} It is {value} of the oils, which are {oils} of the product; the usual minimum is {limit} of the oils. Use more emulsifier or less oil."),
    Template::new(Of::PolymerEnough, "{system} {subject} is {value} of the product, which has {oils} of oils. A polymer holds the droplets by itself: {limit} of the product is enough."),
    Template::new(Of::PolymerLow, "{system} {subject} is {value} of the product, which has {oils} of oils. A polymer that has to hold the droplets by itself is usually at least {limit} of the product. Use more of it, or add another emulsifier."),
    Template::new(Of::PolymerSalted, "{system} {subject} holds the droplets by itself, and salts ({partners}) are {value} of the product; above {limit} they collapse it, and the emulsion separates. Use less salt, or add another emulsifier."),
    Template::new(Of::SoapHolds, "{system} Its soap is there as it is sold, so keep the pH neutral or above.").or_with("bases", "{system} It is made here, from {subject} with {bases}. Weigh the base exactly: too little leaves too little soap, too much leaves base on skin. Measure the pH of the finished cream."),
    Template::new(Of::HlbMeets, "The emulsifiers together have an HLB of {value}, and the oils need {limit}: that is close enough.").or_with("partners", "The emulsifiers together have an HLB of {value}, and the oils need {limit}: that is close, though HLB does not decide here. {subject} with {partners} builds a gel network in the water, and that holds the cream."),
    Template::new(Of::HlbOff, "The emulsifiers together have an HLB of {value}, and the oils need {limit}: further apart than usual. Published figures differ by one to three units, so make a small trial batch, and change the proportions of the emulsifiers until the two are within one unit.").or_with("partners", "The emulsifiers together have an HLB of {value}, and the oils need {limit}, but HLB does not decide here: {subject} with {partners} builds a gel network in the water, and that holds the cream. Make a small trial batch and watch it."),
];

pub(super) const GUM: &[Template] = &[Template::new(
    Of::GumDry,
    "{subject} ({value} of the product) clumps if sprinkled dry into water. First stir it into glycerin or a glycol of the same phase, or sprinkle it in slowly under fast stirring.",
)];

pub(super) const ANTIOXIDANT: &[Template] = &[
    Template::new(
        Of::NoAntioxidant,
        "Oils that go rancid sooner than most ({subject}) are {value} of the product; from {limit} an antioxidant is usual. Add one, such as mixed tocopherols.",
    ),
    Template::new(
        Of::KeepingUnknown,
        "Too little is known of the fatty acids of {subject} ({value} of the product) to say how long it keeps; it may go rancid soon. Enter its fatty acids on the shelf from the supplier\u{2019}s data sheet. Until then an antioxidant is the more cautious choice; it is usual from {limit} of such oils.",
    ),
];

pub(super) const CHELATOR: &[Template] = &[Template::new(
    Of::NoChelator,
    "Water is {value} of the product and there is no chelator. Metals make oils go rancid and weaken the preservative: add a chelator, such as sodium phytate.",
)];
