//! What is said of preservatives and what grows without them; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const UNPRESERVED: &[Template] = &[
    Template::new(
        Of::NoWater,
        "Water is {value} of the product, not more than {limit}: no preservative is called for. Keep water out of the jar, too.",
    ),
    Template::new(
        Of::KeptOtherwise,
        "The product contains {value} water, but its pH, its alcohol or its low free water holds microbes back, so this program calls for no preservative. Measure it: a screening figure is not proof.",
    ),
    Template::new(
        Of::WaterUnknown,
        "How much water is in the product is not known: {subject} could not be counted. With more than {limit} water it needs a preservative. Enter its percentage and, on the shelf, its INCI name.",
    ),
    Template::new(
        Of::Preserved,
        "The product contains {value} water, preserved by {subject}. Only a challenge test can show that this is enough.",
    ),
    Template::new(
        Of::DoseUnknown,
        "The product contains {value} water, and the dose from which {subject} preserves it is not known to this program. Ask the supplier for the minimum dose and have the product tested, or add a preservative whose minimum dose is known.",
    ),
    Template::new(
        Of::TooLittle,
        "The product contains {value} water and too little {subject} to preserve it: less than four fifths of the lowest usual dose, or only a trace. Use more, within what the law allows, and have the product tested.",
    ),
    Template::new(
        Of::OnlyBoosters,
        "The product contains {value} water and only {subject}, which helps a preservative but is not one. Add a preservative from the list, or have the product pass a challenge test (ISO 11930) and enter the result.",
    ),
    Template::new(
        Of::Unpreserved,
        "The product contains {value} water and no preservative. Bacteria and moulds grow in it. Add a preservative from the list, such as phenoxyethanol with ethylhexylglycerin.",
    ),
];

pub(super) const PRESERVATIVE_MAXIMUM: &[Template] = &[
    Template::new(
        Of::LimitUnread,
        "{subject} is in the product. Its legal limit was not read for this program, so it was not checked. Look the limit up before you use it.",
    ),
    Template::new(
        Of::AboveMaximum,
        "{subject} adds up to {value} of the product across all lines{as_acid}; the preservative list (Annex V) allows {limit} for this use. Use less.",
    ),
    Template::new(
        Of::NearMaximum,
        "{subject} adds up to {value} of the product across all lines{as_acid}, just below the {limit} that the preservative list (Annex V) allows for this use: one weighing error is enough to exceed it. Use a little less.",
    ),
    Template::new(
        Of::WithinMaximum,
        "{subject} adds up to {value} of the product across all lines{as_acid}, within the {limit} that the preservative list (Annex V) allows for this use.",
    ),
];

pub(super) const PARABENS: &[Template] = &[
    Template::new(
        Of::Parabens,
        "Parabens ({subject}) add up to {value} of the product, counted as acid; the maximum allowed together is {limit}. Use less.",
    ),
    Template::new(
        Of::ParabensWithin,
        "Parabens ({subject}) add up to {value} of the product, counted as acid, within the {limit} allowed for all of them together.",
    ),
];

pub(super) const PRESERVATIVE_PH: &[Template] = &[
    Template::new(
        Of::NoPhForAcids,
        "{subject} works only in acid, and no pH is stated. Set a target of {limit} or less, and measure it.",
    ),
    Template::new(
        Of::NoneWorksAtPh,
        "No preservative in this product works at pH {value}: {subject} works up to pH {limit}. Lower the target pH, or add a preservative that works at pH {value}.",
    ),
    Template::new(
        Of::NoneWorksBelow,
        "No preservative in this product works at pH {value}: {subject} works at pH {limit} or more. Add a preservative that works at pH {value}.",
    ),
    Template::new(
        Of::AcidWorks,
        "{subject} works at pH {ph}: {value} of the product is in the active form, and it counts up to pH {limit}.",
    ),
    Template::new(
        Of::AcidWeak,
        "{subject} does little at pH {ph}: {value} of the product is in the active form. It works up to pH {limit}. Lower the target pH, or test the product.",
    ),
    Template::new(
        Of::AcidIdle,
        "{subject} does nothing at pH {ph}: only {value} of the product is in the active form. It works up to pH {limit}. Lower the target pH, or choose a preservative that works at pH {ph}.",
    ),
];

pub(super) const UNDISSOLVED: &[Template] = &[Template::new(
    Of::MoreThanDissolves,
    "{subject} is {value} of the product, more than its water and oil hold at this pH: undissociated, water holds {limit}. The rest may stand as crystals and does not act. Use less, or another preservative; glycols, glycerin and benzyl alcohol hold more.",
)];

pub(super) const SPECTRUM: &[Template] = &[
    Template::new(Of::SpectrumBroad, "Bacteria, yeasts and moulds are all held back by {subject}, according to the usual ratings. Only a challenge test can show it."),
    Template::new(Of::SpectrumFed, "Bacteria, yeasts and moulds are all held back by {subject}, according to the usual ratings, but {feeders} feeds them. Use less of what feeds them, fill into a pump rather than a jar, and have it tested: only a challenge test can show that it keeps."),
    Template::new(Of::SpectrumNarrow, "Some microbes are held back only weakly by {subject}: {value}. Add a preservative that is strong against these, and fill into a pump rather than a jar.").or_with("feeders", "Some microbes are held back only weakly by {subject}: {value}; and {feeders} feeds them. Add a preservative that is strong against these, use less of what feeds them, and fill into a pump rather than a jar."),
];

pub(super) const BARRED: &[Template] = &[
    Template::new(
        Of::RinseOffOnly,
        "{subject} is {value} of a product that stays on the skin; it is allowed only in rinse-off products. Choose another preservative.",
    ),
    Template::new(
        Of::NotInSprays,
        "{subject} ({value} of the product) must not be used in a spray: it would be breathed in. Choose another pack or another preservative.",
    ),
    Template::new(
        Of::NotOnLips,
        "{subject} ({value} of the product) must not be used in a product for the lips. Choose another preservative.",
    ),
    Template::new(
        Of::NotOnTheBody,
        "{subject} must not be used in a lotion or cream for large areas of the body ({value} of the product here). Choose another preservative.",
    ),
    Template::new(
        Of::NotTogether,
        "{subject} ({value} of the product) must not be combined with the mixture with methylchloroisothiazolinone, which already contains it. Remove one of them.",
    ),
];

pub(super) const FORMALDEHYDE: &[Template] = &[
    Template::new(
        Of::FormaldehydeBarred,
        "{subject} can release {value} of formaldehyde in the product; at {limit} or more it must not be used. Choose another preservative.",
    ),
    Template::new(
        Of::FormaldehydeLabel,
        "{subject} can release {value} of formaldehyde in the product; above {limit} the label must say \u{201c}releases formaldehyde\u{201d}. Print that wording.",
    ),
    Template::new(
        Of::FormaldehydeUnknown,
        "{subject} releases formaldehyde; how much is not known to this program. Above {limit} the label must say \u{201c}releases formaldehyde\u{201d}: print that wording, or ask the supplier.",
    ),
];
