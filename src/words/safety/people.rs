//! What is said of whom a product is for, and what they may not bear; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const AHA: &[Template] = &[
    Template::new(
        Of::AhaTooAcid,
        "{subject} at pH {value} is more acid than the pH {limit} that acids which peel should have at least. Raise the pH to {limit} or more.",
    ),
    Template::new(
        Of::Sunburn,
        "With {value} of {subject} in the product, skin burns more easily in the sun. Print the warning, and advise sun protection for a week after use.",
    ),
];

pub(super) const CHILDREN: &[Template] = &[
    Template::new(
        Of::CamphorForChildren,
        "{subject} is {value} of a product for children: oils and substances like camphor and menthol can stop a small child\u{2019}s breath. Take them out.",
    ),
    Template::new(
        Of::TeaTreeForChildren,
        "Tea tree oil ({value} of the product) is for adults only: the European scientific committee did not judge it for children. Take it out.",
    ),
    Template::new(
        Of::NotUnderSix,
        "{subject} ({value} of the product) must not be in products for children under six. Take out what brings it.",
    ),
    Template::new(
        Of::NotUnderThree,
        "{subject} ({value} of the product) must not be in products for children under three. Choose another preservative.",
    ),
    Template::new(
        Of::NotOnTheNappyArea,
        "{subject} must not be left on the nappy area of children under three ({value} of the product here). Choose another preservative.",
    ),
    Template::new(
        Of::AvoidedUnderThree,
        "{subject} is {value} of a product for children under three: makers leave it out of those. Choose another preservative, or ask an assessor first.",
    ),
    Template::new(
        Of::AvoidedOnTheNappyArea,
        "{subject} is {value} of a product for the nappy area: national advice is to leave it out there. Choose another preservative.",
    ),
    Template::new(
        Of::ScentUnderThree,
        "{subject} is {value} of a product for children under three: fragrance and essential oils are left out of those. Take it out, or ask an assessor first.",
    ),
    Template::new(
        Of::AlcoholUnderThree,
        "{subject} is {value} of a product for children under three: alcohol above {limit} is left out of those. Take less, or ask an assessor first.",
    ),
    Template::new(
        Of::AcidUnderThree,
        "{subject} is {value} of a product for children under three: acids that peel are left out of those. Take it out, or ask an assessor first.",
    ),
    Template::new(
        Of::RetinoidUnderThree,
        "{subject} is {value} of a product for children under three: vitamin A is left out of those. Take it out, or ask an assessor first.",
    ),
    Template::new(
        Of::SourceUnderThree,
        "{subject} ({value} of the product) may carry what children are allergic to, and this product is for children under three. What it is made from: {made_from}. Leave it out where you can.",
    ),
];

pub(super) const PREGNANCY: &[Template] = &[
    Template::new(
        Of::RetinoidPregnancy,
        "{subject} is {value} of a product for pregnancy: vitamin A may harm the unborn child. Take it out, and ask a midwife or doctor.",
    ),
    Template::new(
        Of::TeaTreePregnancy,
        "Tea tree oil ({value} of the product) is proposed to be classed as harmful to the unborn child. Take it out, and ask a midwife or doctor.",
    ),
    Template::new(
        Of::SalicylicPregnancy,
        "{subject} comes to {value} of a product for pregnancy, counted as salicylic acid: more than the {limit} of a preservative. Take less, and ask a midwife or doctor.",
    ),
    Template::new(
        Of::ScentPregnancy,
        "Fragrance and essential oils are {value} of a product for pregnancy. Leave out what you can, and ask a midwife or doctor.",
    ),
];

pub(super) const SOURCE_ALLERGENS: &[Template] = &[
    Template::new(
        Of::PeanutProtein,
        "{subject} is {value} of the product: peanut oil may hold at most 0.5\u{202f}ppm of protein. Ask its supplier for the certificate, name it on the shelf, and read the figure.",
    ),
    Template::new(
        Of::WheatProtein,
        "{subject} is {value} of the product: hydrolysed wheat may have peptides of at most {most}\u{202f}kDa on average. Ask its supplier for the figure, and name the document on the shelf.",
    ),
    Template::new(
        Of::OriginOpen,
        "{subject} ({value} of the product) may come from what some people are allergic to ({made_from}). Ask its supplier and enter the answer on the shelf.",
    ),
    Template::new(
        Of::SourceFlags,
        "Some people are allergic to what these are made from, or may be made from: {subject}. Say so where you hand it over.",
    ),
];
