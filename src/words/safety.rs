//! What the safety rules say, as sentences that are understood without the tool: who, what, how much, compared with what,
//! do what.

use crate::formula::Region;
use crate::rules::{Finding, KNOWN_TO, Said};

/// A thin space between number and unit, as everywhere on the page.
fn shown(text: Option<String>) -> String {
    text.unwrap_or_default().replace(" %", "\u{2009}%").replace(" \u{b0}C", "\u{2009}\u{b0}C")
}

/// The whole sentence of a finding of the safety rules, with what lowers it and what it rests on.
pub(super) fn safety(finding: &Finding, said: Said) -> String {
    let detail = &finding.detail;
    let mut text = sentence(finding, said);
    if let Some(document) = &detail.document {
        text += &format!(" It rests on your document: {document}.");
    }
    match detail.not_law {
        Some(Region::Gb) => {
            text += " This is law in the European Union; that Great Britain has it, too, was not seen. Check there.";
        }
        Some(Region::Us) => {
            text += " This is law in the European Union and not in the United States. It stays good advice."
        }
        Some(_) => text += " This is law in the European Union. The law where you are was not checked.",
        None => {}
    }
    if !detail.from.is_empty() {
        text += &format!(" It holds for new products from {}.", detail.from);
    }
    if finding.is_lowered() && !detail.verified {
        text += " What this rests on is from memory, or from a usual composition and not from your supplier\u{2019}s, so it is Care and not Stop: check it, and enter what your supplier says.";
    }
    text
}

/// Up to which day the law behind the rules is known.
pub fn known_to() -> String {
    format!("Rules as known on {KNOWN_TO}. Law moves: check what changed since.")
}

fn sentence(finding: &Finding, said: Said) -> String {
    let detail = &finding.detail;
    let more = shown(Some(detail.more.clone()));
    let (value, limit) = (shown(finding.value()), shown(finding.limit()));
    let acid = if detail.more == "as-acid" { ", counted as acid" } else { "" };
    let words =
        [("subject", detail.subject.as_str()), ("value", &value), ("limit", &limit), ("more", &more), ("acid", acid)];
    fill(template(said, !detail.more.is_empty()), &words)
}

/// Puts words in the place of their names in braces.
fn fill(template: &str, words: &[(&str, &str)]) -> String {
    let mut text = String::new();
    let mut parts = template.split('{');
    text.push_str(parts.next().unwrap_or_default());
    for part in parts {
        let (name, rest) = part.split_once('}').unwrap_or((part, ""));
        text.push_str(words.iter().find(|(known, _)| *known == name).map_or(name, |(_, word)| word));
        text.push_str(rest);
    }
    text
}

/// The sentence with the names of its words in braces: one small table instead of a formatter for each. `fed` says that
/// something feeds microbes.
const fn template(said: Said, fed: bool) -> &'static str {
    match said {
        Said::AboveCertificate => {
            "{subject} is {value} of the product; its supplier\u{2019}s certificate allows {limit} in category {more}. Take at most that."
        }
        Said::AboveCap => {
            "{subject} comes to {value} of the product over all lines; at most {limit} is allowed for this use. Take less."
        }
        Said::AboveMaximum => {
            "{subject} comes to {value} of the product over all lines{acid}; the list of preservatives allows {limit}. Take less."
        }
        Said::AboveMost => {
            "{subject} is {value} of the product; at most {limit} is advised. Take less, or read its supplier\u{2019}s document again."
        }
        Said::AcidIdle => {
            "{subject} does nothing at pH {more}: only {value} of the product is in the form that acts. It works up to pH {limit}. Lower the target pH, or choose a preservative that works there."
        }
        Said::AcidUnderThree => {
            "{subject} is {value} of a product for children under three: acids that peel are left out of those. Take it out, or have an assessor answer for it."
        }
        Said::AcidWeak => {
            "{subject} does little at pH {more}: {value} of the product is in the form that acts. It works up to pH {limit}. Lower the target pH, or test the product."
        }
        Said::AcidWorks => {
            "{subject} works at pH {more}: {value} of the product is in the form that acts, and it counts up to pH {limit}."
        }
        Said::AhaTooAcid => {
            "{subject} at pH {value} is more acid than the {limit} that acids which peel should have at least. Raise the pH."
        }
        Said::AlcoholUnderThree => {
            "{subject} is {value} of a product for children under three: alcohol above {limit} is left out of those. Take less, or have an assessor answer for it."
        }
        Said::AllergensNamed => {
            "The label names these fragrance allergens, each above {limit} of the product: {subject}."
        }
        Said::AminePurity => {
            "{subject} is {value} of the product. Take only cosmetic purity (at least 99\u{2009}%, few secondary amines), and never put bronopol, bronidox or nitrite beside it."
        }
        Said::AvoidedOnTheNappyArea => {
            "{subject} is {value} of a product for the nappy area: national advice is to leave it out there. Choose another preservative."
        }
        Said::AvoidedUnderThree => {
            "{subject} is {value} of a product for children under three: makers leave it out of those. Choose another preservative, or have an assessor answer for it."
        }
        Said::BindsPreservative => {
            "{subject} is {value} of the product and takes {more} to itself, which then no longer preserves the water. Take less of the solubiliser, or test the product."
        }
        Said::CamphorForChildren => {
            "{subject} is {value} of a product for children: oils and substances like camphor and menthol can stop a small child\u{2019}s breath. Take them out."
        }
        Said::CationicWithAnionic => {
            "{subject} carries a positive charge and {more} a negative one: together they fall out and the emulsion breaks. Exchange one of them, such as the gum for hydroxyethylcellulose."
        }
        Said::CompositionUnknown => {
            "{subject} holds {more}, and nobody stated how much: it may be up to {value} of the product. Ask its supplier for the composition and enter it on the shelf."
        }
        Said::Elsewhere => {
            "The rules of the place where you give this away or sell it were not checked. What is shown follows the law of the European Union: ask there what holds."
        }
        Said::EmulsifierEnough => {
            "There is emulsifier for the oil: {value} of the {more} of oils, and {limit} suffices."
        }
        Said::EmulsifierLow => {
            "There is little emulsifier for the oil: {value} of the {more} of oils, where {limit} is usual at least. Take more emulsifier or less oil."
        }
        Said::Fizzes => "{subject} and {more} make gas together, which can burst a closed jar. Take one of them out.",
        Said::FlashPoint => {
            "{subject} goes into a phase of {value}, and its vapour can be lit from {limit}. Add it when the batch has cooled, away from flame and hotplate."
        }
        Said::FormaldehydeBarred => {
            "{subject} can release {value} of formaldehyde in the product; from {limit} it may not be used. Choose another preservative."
        }
        Said::FormaldehydeLabel => {
            "{subject} can release {value} of formaldehyde in the product; above {limit} the label must say \u{201c}releases formaldehyde\u{201d}. Print it."
        }
        Said::FormaldehydeUnknown => {
            "{subject} releases formaldehyde; how much is not known here. Above {limit} the label must say \u{201c}releases formaldehyde\u{201d}: print it, or ask the supplier."
        }
        Said::FragranceModest => {
            "Fragrance and essential oils come to {value} of the product, within the usual {limit}."
        }
        Said::FragranceMuch => {
            "Fragrance and essential oils come to {value} of the product; for this use {limit} is the cautious bound. Take less."
        }
        Said::GreatBritain => {
            "Great Britain keeps the European law of 2020 and changes it by itself. It was not seen to ask for the fragrance allergens of 2023 or for the lower formaldehyde threshold, and a draft of 2026 was not followed: check there. Notify before you sell, and name a responsible person in the United Kingdom."
        }
        Said::GumDry => {
            "{subject} ({value} of the product) clumps if it is strewn dry into water. Stir it first into glycerin or a glycol of the same phase, or strew it slowly under a fast stirrer."
        }
        Said::HlbMeets => "The emulsifiers have an HLB of {value}, and the oils ask for {limit}.",
        Said::HlbOff => {
            "The emulsifiers have an HLB of {value}, and the oils ask for {limit}. Change the shares of the emulsifiers until it is within one."
        }
        Said::KeptOtherwise => {
            "Microbes are held by the pH, by alcohol or by little free water, so no preservative is asked for. Measure it: a screening figure is no proof."
        }
        Said::LimitUnread => "{subject} has a limit in law that was not read here. Look it up before you use it.",
        Said::LyeTooAlkaline => {
            "The product has pH {value}; where lye adjusts it, it must stay below pH {limit}. Do not put it on skin. Lower the pH."
        }
        Said::NearCap => {
            "{subject} comes to {value} of the product, close below the {limit} that are allowed: one weighing error is enough. Take a little less."
        }
        Said::NearMaximum => {
            "{subject} comes to {value} of the product over all lines{acid}, close below the {limit} that the list of preservatives allows: one weighing error is enough. Take a little less."
        }
        Said::NiacinamidePh => {
            "{subject} breaks down into what makes skin flush away from pH 5 to 7, and the product has pH {value}. Set it to {limit}."
        }
        Said::NitrosaminePair => {
            "{subject} and {more} make nitrosamines together, which cause cancer. Take one of them out."
        }
        Said::NoAntioxidant => {
            "{value} of the product are oils that turn rancid sooner than most ({subject}); from {limit} on an antioxidant is usual. Add one, such as mixed tocopherols."
        }
        Said::NoCertificate => {
            "For {subject} ({value} of the product) no limit of its supplier\u{2019}s certificate is entered for category {more}. Ask for the certificate and enter it on the shelf."
        }
        Said::NoChelator => {
            "Water is {value} of the product and no chelator is in it. Metals make oils rancid and weaken the preservative: add one, such as sodium phytate."
        }
        Said::NoDocument => {
            "For {value} ingredients no supplier\u{2019}s document is named on the shelf. Name the data sheet and the certificate of each: they beat every table here."
        }
        Said::NoEmulsifier => {
            "Oils are {more} of the product and there is no emulsifier: it will part. Add one, a fifth of the oils or more."
        }
        Said::NoInci => {
            "{subject} has no INCI name, so no label can list it and no limit of it can be checked. Enter the name from its supplier\u{2019}s document."
        }
        Said::NoPh => "No pH is stated. Measure it, enter the target, and see what it does to preservative and skin.",
        Said::NoPhForAcids => {
            "Only acid makes {subject} work, and no pH is stated. Set a target of {limit} or less, and measure it."
        }
        Said::NoStatement => {
            "What allergens {subject} ({value} of the product) brings is not known, so the label cannot be written. Ask its supplier for the allergen statement and paste it on the shelf."
        }
        Said::NoWater => {
            "Water is {value} of the product, not more than {limit}: no preservative is asked for. Keep water out of the jar, too."
        }
        Said::NoneWorksAtPh => {
            "No preservative here works at pH {value}: {subject}, up to pH {limit}. Lower the target pH, or add a preservative that works there."
        }
        Said::NotInSprays => {
            "{subject} must not be in a spray: it would be breathed in. Choose another pack or another preservative."
        }
        Said::NotOnLips => "{subject} must not be in a product for the lips. Choose another preservative.",
        Said::NotOnTheBody => {
            "{subject} must not be in a lotion or cream for large parts of the body ({value} of the product here). Choose another preservative."
        }
        Said::NotOnTheNappyArea => {
            "{subject} must not be left on the nappy area of children under three ({value} of the product here). Choose another preservative."
        }
        Said::NotTogether => {
            "{subject} must not stand beside the mixture with methylchloroisothiazolinone that holds it already. Take one of them out."
        }
        Said::NotUnderSix => {
            "{subject} ({value} of the product) must not be in products for children under six. Take out what brings it."
        }
        Said::NotUnderThree => {
            "{subject} ({value} of the product) must not be in products for children under three. Choose another preservative."
        }
        Said::OnlyBoosters => {
            "The product has {value} of water and only {subject}, which helps a preservative and is none. Add a preservative of the list, or have the product pass a challenge test (ISO 11930) and enter it."
        }
        Said::OriginOpen => {
            "{subject} ({value} of the product) may come from what some people are allergic to ({more}). Ask its supplier and enter the answer on the shelf."
        }
        Said::Parabens => {
            "Parabens ({subject}) come to {value} of the product, counted as acid; together at most {limit} is allowed. Take less."
        }
        Said::ParabensWithin => {
            "Parabens ({subject}) come to {value} of the product, counted as acid, within the {limit} that all of them may have."
        }
        Said::PeanutProtein => {
            "{subject} is {value} of the product: peanut oil may hold at most 0.5\u{2009}ppm of protein. Ask its supplier for the certificate, name it on the shelf, and read the figure."
        }
        Said::PhAbove => {
            "{subject} keeps and works up to pH {limit}, and the product has pH {value}. Lower the pH, or exchange it."
        }
        Said::PhBelow => {
            "{subject} keeps and works from pH {limit} on, and the product has pH {value}. Raise the pH, or exchange it."
        }
        Said::Phototoxic => {
            "Oils that burn skin in the sun ({subject}, {more} of the product) reach {value} of what may stay on skin, where {limit} is the bound. Take less, or oils freed of furocoumarins."
        }
        Said::PhototoxicWithin => {
            "Oils that burn skin in the sun ({subject}, {more} of the product) reach {value} of what may stay on skin, where {limit} is the bound."
        }
        Said::Preserved => {
            "The product has {value} of water, preserved by {subject}. Only a challenge test shows that this is enough."
        }
        Said::Prohibited => "{subject} ({value} of the product) is prohibited in cosmetics. Take out what brings it.",
        Said::RetinoidPregnancy => {
            "{subject} is {value} of a product for pregnancy: vitamin A may harm the unborn child. Take it out, and ask a midwife or doctor."
        }
        Said::RetinoidUnderThree => {
            "{subject} is {value} of a product for children under three: vitamin A is left out of those. Take it out, or have an assessor answer for it."
        }
        Said::RinseOffOnly => {
            "{subject} is {value} of a product that stays on the skin: it is allowed only in what is rinsed off. Choose another preservative."
        }
        Said::SalicylicPregnancy => {
            "{subject} is {value} of a product for pregnancy, more than the {limit} of a preservative. Take less, and ask a midwife or doctor."
        }
        Said::SaltThinsCarbomer => {
            "{more} is salt to {subject}, which it thins. Take less of it, or another thickener."
        }
        Said::ScentPregnancy => {
            "Fragrance and essential oils are {value} of a product for pregnancy. Leave out what you can, and ask a midwife or doctor."
        }
        Said::ScentUnderThree => {
            "{subject} is {value} of a product for children under three: fragrance and essential oils are left out of those. Take it out, or have an assessor answer for it."
        }
        Said::SkinPh => "The product has pH {value}, as skin likes it.",
        Said::SoapInAcid => {
            "{subject} is soap and falls apart below pH {limit}; the product has pH {value}. Raise the pH, or take another emulsifier."
        }
        Said::SoapNotCured => {
            "The soap has pH {value}, above {limit}. Let it cure, and measure again before it touches skin."
        }
        Said::SoapPh => "The soap has pH {value}, as soap has.",
        Said::SoapTooMild => "The soap has pH {value}, below the {limit} from which soap stays soap. Measure again.",
        Said::SourceFlags => "Made from what some people are allergic to: {subject}. Say so where you hand it over.",
        Said::SourceUnderThree => {
            "{subject} ({value} of the product) comes from {more}, in a product for children under three. Leave it out where you can."
        }
        Said::SpectrumBroad => {
            "Bacteria, yeasts and moulds are all held by {subject}, as far as grades say. Only a challenge test shows it."
        }
        Said::SpectrumNarrow if fed => {
            "Held only weakly by {subject}: {value}; and {more} feeds them. Add what is strong there, take less of what feeds them, and take a pump instead of a jar."
        }
        Said::SpectrumNarrow => {
            "Held only weakly by {subject}: {value}. Add what is strong there, and take a pump instead of a jar."
        }
        Said::StatementUnread => {
            "Not all of the allergen statement of {subject} was understood: lines left out, which count as nothing: {more}. Mend them on the shelf."
        }
        Said::Sunburn => {
            "With {value} of {subject} in the product, skin burns in the sun. Print the warning, and advise sun protection for a week after use."
        }
        Said::TeaTreeFace => {
            "Tea tree oil is {value} of a face cream; the scientific committee found {limit} safe, for adults. Take less."
        }
        Said::TeaTreeFaceWithin => {
            "Tea tree oil is {value} of a face product, within the {limit} that the scientific committee found safe for adults."
        }
        Said::TeaTreeForChildren => {
            "Tea tree oil ({value} of the product) is for adults only: the scientific committee said nothing of children. Take it out."
        }
        Said::TeaTreeNotCovered => {
            "Tea tree oil is {value} of a product that stays on the skin and is not for the face: the scientific committee\u{2019}s opinion does not cover that. Ask an assessor."
        }
        Said::TeaTreePregnancy => {
            "Tea tree oil ({value} of the product) is proposed as harmful to the unborn child. Take it out, and ask a midwife or doctor."
        }
        Said::TooAcid => {
            "The product has pH {value}, below the {limit} that skin takes well. Raise the pH, or write down why it is right."
        }
        Said::TooAlkaline => {
            "The product has pH {value}, above the {limit} that skin takes well. Lower the pH, or write down why it is right."
        }
        Said::TooHot => {
            "{subject} goes into a phase of {value} and should see at most {limit}: {more} too much. Move it to the cool-down phase, or heat less."
        }
        Said::TooLittle => {
            "{subject} preserves, but is less than half of the least usual dose. Take more, within what law allows, and have the product tested."
        }
        Said::TurnsWithIron => "{subject} turns red or brown with {more}. Exchange one of them.",
        Said::UltramarineInAcid => {
            "{subject} gives off a gas that smells of rotten eggs below pH {limit}; the product has pH {value}. Raise the pH, or take another colour."
        }
        Said::UnitedStates => {
            "The law of the United States differs: preservatives have no list, colours have one of their own, fragrance allergens need no names yet, and the label needs a contact for adverse events and net contents in both kinds of units. Only what is named here was looked at: check there."
        }
        Said::Unpreserved => {
            "The product has {value} of water and no preservative. Bacteria and moulds grow in it. Add a preservative of the list, such as phenoxyethanol with ethylhexylglycerin."
        }
        Said::WheatProtein => {
            "{subject} is {value} of the product: hydrolysed wheat may have peptides of at most {more}\u{2009}kDa on average. Ask its supplier for the figure, and name the document on the shelf."
        }
        Said::WithinCap => {
            "{subject} comes to {value} of the product over all lines, within the {limit} that are allowed for this use."
        }
        Said::WithinCertificate => {
            "{subject} is {value} of the product, within the {limit} of its supplier\u{2019}s certificate for category {more}."
        }
        Said::WithinMaximum => {
            "{subject} comes to {value} of the product over all lines{acid}, within the {limit} that the list of preservatives allows."
        }
        Said::ZincWithAcidPreservative => {
            "{subject} raises the pH and takes the acid from {more}, which then preserves nothing. Choose another preservative."
        }
    }
}
