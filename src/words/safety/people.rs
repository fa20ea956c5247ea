//! What is said of whom a product is for, and what they may not bear; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const AHA: &[Template] = &[
    Template::new(
        Of::AhaTooAcid,
        "{subject} at pH {value} is more acidic than pH {limit}, the lowest that exfoliating acids should have. Raise the pH to {limit} or more.",
    ),
    Template::new(
        Of::Sunburn,
        "{subject} is {value} of the product: skin burns more easily in the sun. Print the warning, and advise sun protection for a week after use.",
    ),
];

pub(super) const CHILDREN: &[Template] = &[
    Template::new(
        Of::CamphorForChildren,
        "{subject} is {value} of a product for children: oils and substances like camphor and menthol can stop a small child breathing. Remove them.",
    ),
    Template::new(
        Of::TeaTreeForChildren,
        "Tea tree oil ({value} of the product) is for adults only: the European scientific committee did not judge it for children. Remove it.",
    ),
    Template::new(
        Of::NotUnderSix,
        "{subject} ({value} of the product) must not be used in products for children under six. Remove the ingredient that contains it.",
    ),
    Template::new(
        Of::NotUnderThree,
        "{subject} ({value} of the product) must not be used in products for children under three. Choose another preservative.",
    ),
    Template::new(
        Of::NotOnTheNappyArea,
        "{subject} must not be left on the nappy area of children under three ({value} of the product here). Choose another preservative.",
    ),
    Template::new(
        Of::AvoidedUnderThree,
        "{subject} is {value} of a product for children under three; makers leave it out of such products. Choose another preservative, or ask an assessor first.",
    ),
    Template::new(
        Of::AvoidedOnTheNappyArea,
        "{subject} is {value} of a product for the nappy area. France\u{2019}s medicines agency advised in 2012 to leave it out there; the European scientific committee judged otherwise in 2016 (both unverified). Choose another preservative.",
    ),
    Template::new(
        Of::ScentUnderThree,
        "{subject} is {value} of a product for children under three; fragrance and essential oils are left out of such products. Remove it, or ask an assessor first.",
    ),
    Template::new(
        Of::AlcoholUnderThree,
        "{subject} is {value} of a product for children under three; alcohol above {limit} is left out of such products. Use less, or ask an assessor first.",
    ),
    Template::new(
        Of::AcidUnderThree,
        "{subject} is {value} of a product for children under three; exfoliating acids are left out of such products. Remove it, or ask an assessor first.",
    ),
    Template::new(
        Of::RetinoidUnderThree,
        "{subject} is {value} of a product for children under three; vitamin A is left out of such products. Remove it, or ask an assessor first.",
    ),
    Template::new(
        Of::SourceUnderThree,
        "{subject} ({value} of a product for children under three) may contain something that children are allergic to. What it is made from: {made_from}. Leave it out where you can.",
    ),
];

pub(super) const PREGNANCY: &[Template] = &[
    Template::new(
        Of::RetinoidPregnancy,
        "{subject} is {value} of a product for use in pregnancy: vitamin A may harm the unborn child. Remove it, and ask a midwife or doctor.",
    ),
    Template::new(
        Of::TeaTreePregnancy,
        "Tea tree oil ({value} of the product) is proposed for classification as harmful to the unborn child. Remove it, and ask a midwife or doctor.",
    ),
    Template::new(
        Of::SalicylicPregnancy,
        "{subject} adds up to {value} of a product for use in pregnancy, counted as salicylic acid; that is more than the {limit} allowed as a preservative. Use less, and ask a midwife or doctor.",
    ),
    Template::new(
        Of::ScentPregnancy,
        "Fragrance and essential oils are {value} of a product for use in pregnancy. Leave out what you can, and ask a midwife or doctor.",
    ),
];

pub(super) const SOURCE_ALLERGENS: &[Template] = &[
    Template::new(
        Of::PeanutProtein,
        "{subject} is {value} of the product; peanut oil must contain no more than 0.5\u{202f}ppm protein. Ask the supplier for the certificate, name it on the shelf, and check the figure.",
    ),
    Template::new(
        Of::WheatProtein,
        "{subject} is {value} of the product; peptides in hydrolysed wheat must average no more than {most}\u{202f}kDa. Ask the supplier for the figure, and name the document on the shelf.",
    ),
    Template::new(
        Of::OriginOpen,
        "{subject} ({value} of the product) may come from something that some people are allergic to ({made_from}). Ask the supplier and enter the answer on the shelf.",
    ),
    Template::new(
        Of::SourceFlags,
        "Made, or perhaps made, from things that some people are allergic to: {subject}. Say so when you pass the product on.",
    ),
];
