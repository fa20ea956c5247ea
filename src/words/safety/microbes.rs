//! What is said of preservatives and what grows without them; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const UNPRESERVED: &[Template] = &[
    Template::new(
        Of::NoWater,
        "Water is {value} of the product, not more than {limit}: no preservative is asked for. Keep water out of the jar, too.",
    ),
    Template::new(
        Of::KeptOtherwise,
        "The product has {value} of water, but its pH, its alcohol or its little free water holds microbes, so no preservative is asked for. Measure it: a screening figure is no proof.",
    ),
    Template::new(
        Of::WaterUnknown,
        "How much water is in the product is not known: {subject} could not be counted. With more than {limit} of water it needs a preservative. Enter the share, and what it is: its INCI name on the shelf.",
    ),
    Template::new(
        Of::Preserved,
        "The product has {value} of water, preserved by {subject}. Only a challenge test shows that this is enough.",
    ),
    Template::new(
        Of::DoseUnknown,
        "The product has {value} of water, and from which dose on {subject} preserves it is not known to this program. Ask its supplier for the least dose, and have the product tested; or add a preservative of which it is known.",
    ),
    Template::new(
        Of::TooLittle,
        "The product has {value} of water, and of {subject} there is too little to preserve it: less than four fifths of the least usual dose, or only a trace. Take more, within what law allows, and have the product tested.",
    ),
    Template::new(
        Of::OnlyBoosters,
        "The product has {value} of water and only {subject}, which helps a preservative and is none. Add a preservative of the list, or have the product pass a challenge test (ISO 11930) and enter it.",
    ),
    Template::new(
        Of::Unpreserved,
        "The product has {value} of water and no preservative. Bacteria and moulds grow in it. Add a preservative of the list, such as phenoxyethanol with ethylhexylglycerin.",
    ),
];

pub(super) const PRESERVATIVE_MAXIMUM: &[Template] = &[
    Template::new(
        Of::LimitUnread,
        "{subject} is in the product, and its limit in law was not read for this program: it was not checked. Look the limit up before you use it.",
    ),
    Template::new(
        Of::AboveMaximum,
        "{subject} comes to {value} of the product over all lines{as_acid}; the list of preservatives (Annex V) allows {limit} for this use. Take less.",
    ),
    Template::new(
        Of::NearMaximum,
        "{subject} comes to {value} of the product over all lines{as_acid}, close below the {limit} that the list of preservatives (Annex V) allows for this use: one weighing error is enough. Take a little less.",
    ),
    Template::new(
        Of::WithinMaximum,
        "{subject} comes to {value} of the product over all lines{as_acid}, within the {limit} that the list of preservatives (Annex V) allows for this use.",
    ),
];

pub(super) const PARABENS: &[Template] = &[
    Template::new(
        Of::Parabens,
        "Parabens ({subject}) come to {value} of the product, counted as acid; together at most {limit} is allowed. Take less.",
    ),
    Template::new(
        Of::ParabensWithin,
        "Parabens ({subject}) come to {value} of the product, counted as acid, within the {limit} that all of them may have.",
    ),
];

pub(super) const PRESERVATIVE_PH: &[Template] = &[
    Template::new(
        Of::NoPhForAcids,
        "Only acid makes {subject} work, and no pH is stated. Set a target of {limit} or less, and measure it.",
    ),
    Template::new(
        Of::NoneWorksAtPh,
        "At pH {value} no preservative of this product works: {subject} works up to pH {limit}. Lower the target pH, or add a preservative that works at pH {value}.",
    ),
    Template::new(
        Of::NoneWorksBelow,
        "At pH {value} no preservative of this product works: {subject} works from pH {limit} on. Add a preservative that works at pH {value}.",
    ),
    Template::new(
        Of::AcidWorks,
        "{subject} works at pH {ph}: {value} of the product is in the form that acts, and it counts up to pH {limit}.",
    ),
    Template::new(
        Of::AcidWeak,
        "{subject} does little at pH {ph}: {value} of the product is in the form that acts. It works up to pH {limit}. Lower the target pH, or test the product.",
    ),
    Template::new(
        Of::AcidIdle,
        "{subject} does nothing at pH {ph}: only {value} of the product is in the form that acts. It works up to pH {limit}. Lower the target pH, or choose a preservative that works there.",
    ),
];

pub(super) const SPECTRUM: &[Template] = &[
    Template::new(Of::SpectrumBroad, "Bacteria, yeasts and moulds are all held by {subject}, as far as usual grades say. Only a challenge test shows it."),
    Template::new(Of::SpectrumFed, "Bacteria, yeasts and moulds are all held by {subject}, as far as usual grades say, but {feeders} feeds them. Take less of what feeds them, fill it into a pump rather than a jar, and have it tested: only a challenge test shows that it keeps."),
    Template::new(Of::SpectrumNarrow, "Some microbes are held only weakly by {subject}: {value}. Add a preservative that is strong there, and fill it into a pump rather than a jar.").or_with("feeders", "Some microbes are held only weakly by {subject}: {value}; and {feeders} feeds them. Add a preservative that is strong there, take less of what feeds them, and fill it into a pump rather than a jar."),
];

pub(super) const BARRED: &[Template] = &[
    Template::new(
        Of::RinseOffOnly,
        "{subject} is {value} of a product that stays on the skin: it is allowed only in what is rinsed off. Choose another preservative.",
    ),
    Template::new(
        Of::NotInSprays,
        "{subject} ({value} of the product) must not be in a spray: it would be breathed in. Choose another pack or another preservative.",
    ),
    Template::new(
        Of::NotOnLips,
        "{subject} ({value} of the product) must not be in a product for the lips. Choose another preservative.",
    ),
    Template::new(
        Of::NotOnTheBody,
        "{subject} must not be in a lotion or cream for large parts of the body ({value} of the product here). Choose another preservative.",
    ),
    Template::new(
        Of::NotTogether,
        "{subject} ({value} of the product) must not stand beside the mixture with methylchloroisothiazolinone, which holds it already. Take one of them out.",
    ),
];

pub(super) const FORMALDEHYDE: &[Template] = &[
    Template::new(
        Of::FormaldehydeBarred,
        "{subject} can release {value} of formaldehyde in the product; from {limit} it may not be used. Choose another preservative.",
    ),
    Template::new(
        Of::FormaldehydeLabel,
        "{subject} can release {value} of formaldehyde in the product; above {limit} the label must say \u{201c}releases formaldehyde\u{201d}. Print it.",
    ),
    Template::new(
        Of::FormaldehydeUnknown,
        "{subject} releases formaldehyde; how much of it is not known to this program. Above {limit} the label must say \u{201c}releases formaldehyde\u{201d}: print it, or ask the supplier.",
    ),
];
