//! What the safety rules say, as sentences that are understood without the tool: who, what, how much, compared with what,
//! do what.

use super::{acidity, findings::finer_or_larger, grams, lots::lots, narrow};
use crate::formula::Region;
use crate::rules::{Finding, MessageId};

/// The whole sentence of a finding of the safety rules, with what lowers it and what it rests on.
pub(super) fn safety(finding: &Finding, said: MessageId) -> String {
    let detail = &finding.detail;
    let mut text = sentence(finding, said);
    text += &acidity::not_counted(said, &detail.more).unwrap_or_default();
    if let Some(scale) = detail.on_the_scale {
        let remedy = match scale.from {
            Some(batch) => finer_or_larger(batch, &grams(batch)),
            None => "Use a finer scale, or let a line without a most fill up to 100".to_owned(),
        };
        text += &format!(
            " This judges what will be weighed, in steps of {}, not the percent that you typed. {remedy}.",
            grams(scale.step)
        );
    }
    if let Some(document) = &detail.document {
        text += &format!(" It rests on your document: {}.", ended(document));
    }
    if !detail.lots.is_empty() {
        text += &format!(" Counted from {}.", lots(&detail.lots));
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
    if finding.is_lowered() && detail.custom && detail.verified {
        text += " No law says so: it is a custom of the trade or a choice of this program, so it is Care and not Stop.";
    }
    if finding.is_lowered() && !detail.verified {
        text += " What this rests on is from memory, or from a usual composition and not from your supplier\u{2019}s, so it is Care and not Stop: check it, and enter what your supplier says.";
    }
    text
}

fn sentence(finding: &Finding, said: MessageId) -> String {
    let detail = &finding.detail;
    let shown = |text: Option<String>| narrow(&text.unwrap_or_default());
    let more = narrow(&detail.more);
    let (value, limit) = (shown(finding.value()), shown(finding.limit()));
    let acid = if detail.as_acid { ", counted as acid" } else { "" };
    let words =
        [("subject", detail.subject.as_str()), ("value", &value), ("limit", &limit), ("more", &more), ("acid", acid)];
    fill(template(said, !detail.more.is_empty()), &words)
}

/// Puts words in the place of their names in braces. A word that is not known is told as what it would be, and a full stop
/// that a word brings is not set twice.
fn fill(template: &str, words: &[(&str, &str)]) -> String {
    let mut text = String::new();
    let mut parts = template.split('{');
    text.push_str(parts.next().unwrap_or_default());
    for part in parts {
        let (name, rest) = part.split_once('}').unwrap_or((part, ""));
        let word = words.iter().find(|(known, _)| *known == name).map_or(name, |(_, word)| word.trim());
        let begins = text.is_empty() || text.ends_with(". ");
        match (word, name) {
            ("", "acid") => {}
            ("", "subject" | "more") if begins => text.push_str("Something without a name"),
            ("", "subject" | "more") => text.push_str("something without a name"),
            ("", _) => text.push_str("an amount that is not known"),
            // Right behind a word: `, counted as acid`.
            (_, "acid") => text.push_str(words.iter().find(|(known, _)| *known == name).map_or("", |(_, word)| word)),
            _ => text.push_str(word),
        }
        let rest = if text.ends_with('.') { rest.strip_prefix('.').unwrap_or(rest) } else { rest };
        text.push_str(rest);
    }
    text
}

/// A text of the maker's at the end of a sentence that sets its own full stop.
pub(super) fn ended(text: &str) -> &str {
    text.trim().trim_end_matches(['.', ';', ',']).trim_end()
}

/// The sentence with the names of its words in braces: one small table instead of a formatter for each. `fed` says that there
/// is something more to it: what feeds microbes, what needs such a pH.
pub(super) const fn template(said: MessageId, fed: bool) -> &'static str {
    match said {
        MessageId::AboveCertificate => {
            "{subject} is {value} of the product; its supplier\u{2019}s certificate allows {limit} in category {more}. Take at most that."
        }
        MessageId::AboveCap => {
            "{subject} comes to {value} of the product over all lines; at most {limit} is allowed for this use. Take less."
        }
        MessageId::AboveMaximum => {
            "{subject} comes to {value} of the product over all lines{acid}; the list of preservatives (Annex V) allows {limit} for this use. Take less."
        }
        MessageId::AboveMost => {
            "{subject} is {value} of the product; at most {limit} is advised. Take less, or enter what its supplier\u{2019}s document says."
        }
        MessageId::AcidIdle => {
            "{subject} does nothing at pH {more}: only {value} of the product is in the form that acts. It works up to pH {limit}. Lower the target pH, or choose a preservative that works there."
        }
        MessageId::AcidUnderThree => {
            "{subject} is {value} of a product for children under three: acids that peel are left out of those. Take it out, or ask an assessor first."
        }
        MessageId::AcidWeak => {
            "{subject} does little at pH {more}: {value} of the product is in the form that acts. It works up to pH {limit}. Lower the target pH, or test the product."
        }
        MessageId::AcidWorks => {
            "{subject} works at pH {more}: {value} of the product is in the form that acts, and it counts up to pH {limit}."
        }
        MessageId::AhaTooAcid => {
            "{subject} at pH {value} is more acid than the pH {limit} that acids which peel should have at least. Raise the pH to {limit} or more."
        }
        MessageId::AlcoholUnderThree => {
            "{subject} is {value} of a product for children under three: alcohol above {limit} is left out of those. Take less, or ask an assessor first."
        }
        MessageId::AllergensNamed => {
            "The label names these fragrance allergens, each above {limit} of the product: {subject}."
        }
        MessageId::AminePurity => {
            "{subject} is {value} of the product. Take only cosmetic purity (at least 99\u{202f}%, few secondary amines), and never put bronopol, bronidox or nitrite beside it."
        }
        MessageId::AvoidedOnTheNappyArea => {
            "{subject} is {value} of a product for the nappy area: national advice is to leave it out there. Choose another preservative."
        }
        MessageId::AvoidedUnderThree => {
            "{subject} is {value} of a product for children under three: makers leave it out of those. Choose another preservative, or ask an assessor first."
        }
        MessageId::BindsPreservative => {
            "{subject} is {value} of the product and takes {more} to itself, which then no longer preserves the water. Take less of the solubiliser, or test the product."
        }
        MessageId::CamphorForChildren => {
            "{subject} is {value} of a product for children: oils and substances like camphor and menthol can stop a small child\u{2019}s breath. Take them out."
        }
        MessageId::CationicWithAnionic => {
            "{subject} ({value} of the product) carries a positive charge and {more} a negative one: together they fall out and the emulsion breaks. Exchange one of them, such as the gum for hydroxyethylcellulose."
        }
        MessageId::CertificateUnread => {
            "{subject} is {value} of the product, and its supplier\u{2019}s certificate seems to allow {limit} in category {more}; but not all of the certificate was understood. Mend it on the shelf before you rely on it."
        }
        MessageId::CompositionUnknown => {
            "{subject} holds {more}, and nobody stated how much: it may be up to {value} of the product. Ask its supplier for the composition and enter it on the shelf."
        }
        MessageId::DropsPacked => {
            "Oil fills {value} of the volume, and equal drops at their closest fill {limit}: an emulsion of oil in water so full inverts or separates easily. Use less oil, or an emulsifier that is made for so much of it, and add the oil slowly."
        }
        MessageId::Elsewhere => {
            "The rules of the place where you give this away or sell it were not checked. What is shown follows the law of the European Union: ask there what holds."
        }
        MessageId::DoseUnknown => {
            "The product has {value} of water, and from which dose on {subject} preserves it is not known to this program. Ask its supplier for the least dose, and have the product tested; or add a preservative of which it is known."
        }
        MessageId::EmulsifierEnough => {
            "Emulsifiers are {value} of the oils, which are {more} of the product; {limit} of the oils suffices."
        }
        MessageId::EmulsifierLow => {
            "Emulsifiers are {value} of the oils, which are {more} of the product; {limit} of the oils is usual at least. Take more emulsifier or less oil."
        }
        MessageId::Fizzes => {
            "{subject} ({value} of the product) and {more} make gas together, which can burst a closed jar. Take one of them out."
        }
        MessageId::FlashPoint => {
            "{subject} goes into a phase of {value}, and its vapour can be lit from {limit}. Add it when the batch has cooled, away from flame and hotplate."
        }
        MessageId::FormaldehydeBarred => {
            "{subject} can release {value} of formaldehyde in the product; from {limit} it may not be used. Choose another preservative."
        }
        MessageId::FormaldehydeLabel => {
            "{subject} can release {value} of formaldehyde in the product; above {limit} the label must say \u{201c}releases formaldehyde\u{201d}. Print it."
        }
        MessageId::FormaldehydeUnknown => {
            "{subject} releases formaldehyde; how much of it is not known to this program. Above {limit} the label must say \u{201c}releases formaldehyde\u{201d}: print it, or ask the supplier."
        }
        MessageId::FragranceModest => {
            "Fragrance and essential oils come to {value} of the product, within the usual {limit}."
        }
        MessageId::FragranceMuch => {
            "Fragrance and essential oils come to {value} of the product; for this use {limit} is the cautious bound. Take less."
        }
        MessageId::GreatBritain => {
            "Great Britain keeps the European law of 2020 and changes it by itself. It was not seen to ask for the fragrance allergens of 2023 or for the lower formaldehyde threshold, and a draft of 2026 was not followed: check there. Notify before you sell, and name a responsible person in the United Kingdom."
        }
        MessageId::GumDry => {
            "{subject} ({value} of the product) clumps if it is strewn dry into water. Stir it first into glycerin or a glycol of the same phase, or strew it slowly under a fast stirrer."
        }
        MessageId::HlbMeets if fed => {
            "The emulsifiers together have an HLB of {value}, and the oils ask for {limit}: that is close, though HLB does not decide here: {subject} with {more} builds a gel network in the water, and that holds the cream."
        }
        MessageId::HlbMeets => {
            "The emulsifiers together have an HLB of {value}, and the oils ask for {limit}: that is close enough."
        }
        MessageId::HlbOff if fed => {
            "The emulsifiers together have an HLB of {value}, and the oils ask for {limit}; but HLB does not decide here: {subject} with {more} builds a gel network in the water, and that holds the cream. Make a small trial batch and watch it."
        }
        MessageId::HlbOff => {
            "The emulsifiers together have an HLB of {value}, and the oils ask for {limit}: too far apart to hold. Change the shares of the emulsifiers until the two are within one of each other."
        }
        MessageId::KeptOtherwise => {
            "The product has {value} of water, but its pH, its alcohol or its little free water holds microbes, so no preservative is asked for. Measure it: a screening figure is no proof."
        }
        MessageId::LimitUnread => {
            "{subject} is in the product, and its limit in law was not read for this program: it was not checked. Look the limit up before you use it."
        }
        MessageId::LipophilicOnly => {
            "The emulsifiers together have an HLB of {value}: up to {limit} they hold water in oil and not oil in water. Water is {more} of the product, so it will most likely separate. Add an emulsifier of a high HLB, or replace these."
        }
        MessageId::LyeTooAlkaline => {
            "The product has pH {value}; where lye adjusts it, it must stay below pH {limit}. Do not put it on skin. Lower the pH."
        }
        MessageId::NamesUnrecognised => {
            "The allergen statement of {subject} ({value} of the product) has names that are not recognised here: {more}. Any of them may be an allergen that the label must name. Enter each on the shelf by its name on labels or with its CAS number, or ask the supplier what it is."
        }
        MessageId::NearCap => {
            "{subject} comes to {value} of the product, close below the {limit} that is allowed for this use: one weighing error is enough. Take a little less."
        }
        MessageId::NearMaximum => {
            "{subject} comes to {value} of the product over all lines{acid}, close below the {limit} that the list of preservatives (Annex V) allows for this use: one weighing error is enough. Take a little less."
        }
        MessageId::NiacinamidePh => {
            "{subject} breaks down into what makes skin flush away from pH 5 to 7, and the product has pH {value}. Set it to pH {limit}."
        }
        MessageId::NitrosaminePair => {
            "{subject} ({value} of the product) and {more} make nitrosamines together, which cause cancer. Take one of them out."
        }
        MessageId::KeepingUnknown => {
            "Too little is known of the fatty acids of {subject} ({value} of the product) to say how long it keeps; it may turn rancid soon. Enter its acids on the shelf as the supplier\u{2019}s sheet has them; until then an antioxidant is the safer choice, as it is usual from {limit} of such oils on."
        }
        MessageId::NoAntioxidant => {
            "Oils that turn rancid sooner than most ({subject}) are {value} of the product; from {limit} on an antioxidant is usual. Add one, such as mixed tocopherols."
        }
        MessageId::NoCertificate => {
            "For {subject} ({value} of the product) no limit of its supplier\u{2019}s certificate is entered for category {more}. Ask for the certificate and enter it on the shelf."
        }
        MessageId::NoChelator => {
            "Water is {value} of the product and no chelator is in it. Metals make oils rancid and weaken the preservative: add one, such as sodium phytate."
        }
        MessageId::NoDocument => {
            "For {value} ingredients no supplier\u{2019}s document is named on the shelf. Name the data sheet and the certificate of each: they beat every table here."
        }
        MessageId::NoEmulsifier => {
            "Oils are {more} of the product and there is no emulsifier: it will part. Add one, a fifth of the oils or more."
        }
        MessageId::NoInci => {
            "{subject} has no INCI name, so no label can list it and no limit of it can be checked. Enter the name from its supplier\u{2019}s document."
        }
        MessageId::NoPh => {
            "No pH of the product is stated, so neither its preservative nor what it does to skin could be checked against it. Measure it, and enter the target."
        }
        MessageId::NoPhForAcids => {
            "Only acid makes {subject} work, and no pH is stated. Set a target of {limit} or less, and measure it."
        }
        MessageId::NoStatement => {
            "What allergens {subject} ({value} of the product) brings is not known, so the label cannot be written. Ask its supplier for the allergen statement and paste it on the shelf."
        }
        MessageId::NoWater => {
            "Water is {value} of the product, not more than {limit}: no preservative is asked for. Keep water out of the jar, too."
        }
        MessageId::NoneWorksAtPh => {
            "At pH {value} no preservative of this product works: {subject} works up to pH {limit}. Lower the target pH, or add a preservative that works at pH {value}."
        }
        MessageId::NoneWorksBelow => {
            "At pH {value} no preservative of this product works: {subject} works from pH {limit} on. Add a preservative that works at pH {value}."
        }
        MessageId::NotInSprays => {
            "{subject} ({value} of the product) must not be in a spray: it would be breathed in. Choose another pack or another preservative."
        }
        MessageId::NotOnLips => {
            "{subject} ({value} of the product) must not be in a product for the lips. Choose another preservative."
        }
        MessageId::NotOnTheBody => {
            "{subject} must not be in a lotion or cream for large parts of the body ({value} of the product here). Choose another preservative."
        }
        MessageId::NotOnTheNappyArea => {
            "{subject} must not be left on the nappy area of children under three ({value} of the product here). Choose another preservative."
        }
        MessageId::NotTogether => {
            "{subject} ({value} of the product) must not stand beside the mixture with methylchloroisothiazolinone, which holds it already. Take one of them out."
        }
        MessageId::NotUnderSix => {
            "{subject} ({value} of the product) must not be in products for children under six. Take out what brings it."
        }
        MessageId::NotUnderThree => {
            "{subject} ({value} of the product) must not be in products for children under three. Choose another preservative."
        }
        MessageId::OnlyBoosters => {
            "The product has {value} of water and only {subject}, which helps a preservative and is none. Add a preservative of the list, or have the product pass a challenge test (ISO 11930) and enter it."
        }
        MessageId::OriginOpen => {
            "{subject} ({value} of the product) may come from what some people are allergic to ({more}). Ask its supplier and enter the answer on the shelf."
        }
        MessageId::Parabens => {
            "Parabens ({subject}) come to {value} of the product, counted as acid; together at most {limit} is allowed. Take less."
        }
        MessageId::ParabensWithin => {
            "Parabens ({subject}) come to {value} of the product, counted as acid, within the {limit} that all of them may have."
        }
        MessageId::PeanutProtein => {
            "{subject} is {value} of the product: peanut oil may hold at most 0.5\u{202f}ppm of protein. Ask its supplier for the certificate, name it on the shelf, and read the figure."
        }
        MessageId::PhAbove => {
            "{subject} keeps and works up to pH {limit}, and the product has pH {value}. Lower the pH, or exchange it."
        }
        MessageId::PhBelow => {
            "{subject} keeps and works from pH {limit} on, and the product has pH {value}. Raise the pH, or exchange it."
        }
        MessageId::Phototoxic => {
            "Oils that burn skin in the sun ({subject}, {more} of the product) come to {value} times what may stay on skin in the sun, where {limit} times is the bound. Take less, or oils freed of furocoumarins."
        }
        MessageId::PhototoxicWithin => {
            "Oils that burn skin in the sun ({subject}, {more} of the product) come to {value} times what may stay on skin in the sun, within the bound of {limit} times."
        }
        MessageId::PolymerEnough => {
            "{subject} is {value} of the product, which has {more} of oils. A polymer holds the drops by itself: {limit} of the product suffices."
        }
        MessageId::PolymerLow => {
            "{subject} is {value} of the product, which has {more} of oils. A polymer that is to hold the drops by itself is usually {limit} of the product at least. Take more of it, or add another emulsifier."
        }
        MessageId::Preserved => {
            "The product has {value} of water, preserved by {subject}. Only a challenge test shows that this is enough."
        }
        MessageId::Prohibited => {
            "{subject} ({value} of the product) is prohibited in cosmetics. Take out what brings it."
        }
        MessageId::RetinoidPregnancy => {
            "{subject} is {value} of a product for pregnancy: vitamin A may harm the unborn child. Take it out, and ask a midwife or doctor."
        }
        MessageId::RetinoidUnderThree => {
            "{subject} is {value} of a product for children under three: vitamin A is left out of those. Take it out, or ask an assessor first."
        }
        MessageId::RinseOffOnly => {
            "{subject} is {value} of a product that stays on the skin: it is allowed only in what is rinsed off. Choose another preservative."
        }
        MessageId::SalicylicPregnancy => {
            "{subject} comes to {value} of a product for pregnancy, counted as salicylic acid: more than the {limit} of a preservative. Take less, and ask a midwife or doctor."
        }
        MessageId::SaltThinsCarbomer => {
            "{subject} ({value} of the product) is thinned by what acts as salt: {more}. Take less of that, or another thickener."
        }
        MessageId::ScentPregnancy => {
            "Fragrance and essential oils are {value} of a product for pregnancy. Leave out what you can, and ask a midwife or doctor."
        }
        MessageId::ScentUnderThree => {
            "{subject} is {value} of a product for children under three: fragrance and essential oils are left out of those. Take it out, or ask an assessor first."
        }
        MessageId::SkinPh => "The product has pH {value}, within what skin takes well (up to pH {limit}).",
        MessageId::SoapInAcid => {
            "{subject} is soap and falls apart below pH {limit}; the product has pH {value}. Raise the pH, or take another emulsifier."
        }
        MessageId::SoapNotCured => {
            "The soap has pH {value}, above the pH {limit} that is usual. Let it cure, and measure again before it touches skin."
        }
        MessageId::SoapPh => "The soap has pH {value}, within what is usual for soap (up to pH {limit}).",
        MessageId::SoapTooMild => {
            "The soap has pH {value}, below the pH {limit} from which soap stays soap. Measure again; if it is so, do not count on it as soap."
        }
        MessageId::SourceFlags => {
            "Some people are allergic to what these are made from, or may be made from: {subject}. Say so where you hand it over."
        }
        MessageId::SourceUnderThree => {
            "{subject} ({value} of the product) may carry what children are allergic to, and this product is for children under three. What it is made from: {more}. Leave it out where you can."
        }
        MessageId::SpectrumBroad => {
            "Bacteria, yeasts and moulds are all held by {subject}, as far as usual grades say. Only a challenge test shows it."
        }
        MessageId::SpectrumFed => {
            "Bacteria, yeasts and moulds are all held by {subject}, as far as usual grades say, but {more} feeds them. Take less of what feeds them, fill it into a pump rather than a jar, and have it tested: only a challenge test shows that it keeps."
        }
        MessageId::SpectrumNarrow if fed => {
            "Some microbes are held only weakly by {subject}: {value}; and {more} feeds them. Add a preservative that is strong there, take less of what feeds them, and fill it into a pump rather than a jar."
        }
        MessageId::SpectrumNarrow => {
            "Some microbes are held only weakly by {subject}: {value}. Add a preservative that is strong there, and fill it into a pump rather than a jar."
        }
        MessageId::StatementUnread => {
            "Of the allergen statement of {subject} ({value} of the product) some lines were not understood and count as nothing; lines left out: {more}. Mend them on the shelf."
        }
        MessageId::Sunburn => {
            "With {value} of {subject} in the product, skin burns more easily in the sun. Print the warning, and advise sun protection for a week after use."
        }
        MessageId::TeaTreeFace => {
            "Tea tree oil is {value} of a face product; the European scientific committee accepts up to {limit}, for adults. Take {limit} or less."
        }
        MessageId::TeaTreeFaceWithin => {
            "Tea tree oil is {value} of a face product, within the {limit} that the European scientific committee accepts for adults."
        }
        MessageId::TeaTreeForChildren => {
            "Tea tree oil ({value} of the product) is for adults only: the European scientific committee did not judge it for children. Take it out."
        }
        MessageId::TeaTreeNotCovered => {
            "Tea tree oil is {value} of a product that stays on the skin and is not for the face: the European scientific committee\u{2019}s opinion does not cover that. Ask an assessor."
        }
        MessageId::TeaTreePregnancy => {
            "Tea tree oil ({value} of the product) is proposed to be classed as harmful to the unborn child. Take it out, and ask a midwife or doctor."
        }
        MessageId::TooAcid if fed => {
            "The product has pH {value}, below the pH {limit} that skin takes well; {more} needs a low pH to peel. If that is meant, keep it at this pH, and off sore skin and the eyes; if not, raise the pH."
        }
        MessageId::TooAcid => {
            "The product has pH {value}, below the pH {limit} that skin takes well. Raise the pH, or write into your notes why it is right."
        }
        MessageId::TooAlkaline if fed => {
            "The product has pH {value}, above the pH {limit} that skin takes well; its soap ({more}) falls apart in acid, so do not lower the pH. Keep it for skin that bears soap, or build it with another emulsifier."
        }
        MessageId::TooAlkaline => {
            "The product has pH {value}, above the pH {limit} that skin takes well. Lower the pH, or write into your notes why it is right."
        }
        MessageId::TooHot => {
            "{subject} goes into a phase of {value} and should see at most {limit}: {more} too much. Move it to the cool-down phase, or heat less."
        }
        MessageId::TooLittle => {
            "The product has {value} of water, and of {subject} there is too little to preserve it: less than half of the least usual dose, or only a trace. Take more, within what law allows, and have the product tested."
        }
        MessageId::TurnsWithIron => {
            "{subject} ({value} of the product) turns red or brown with {more}. Exchange one of them."
        }
        MessageId::UltramarineInAcid => {
            "{subject} gives off a gas that smells of rotten eggs below pH {limit}; the product has pH {value}. Raise the pH, or take another colour."
        }
        MessageId::UnitedStates => {
            "The law of the United States differs: preservatives have no list, colours have one of their own, fragrance allergens need no names yet, and the label needs a contact for adverse events and net contents in both kinds of units. Only what is named here was looked at: check there."
        }
        MessageId::Unpreserved => {
            "The product has {value} of water and no preservative. Bacteria and moulds grow in it. Add a preservative of the list, such as phenoxyethanol with ethylhexylglycerin."
        }
        MessageId::WaterUnknown => {
            "How much water is in the product is not known: {subject} could not be counted. With more than {limit} of water it needs a preservative. Enter the share, and what it is: its INCI name on the shelf."
        }
        MessageId::WheatProtein => {
            "{subject} is {value} of the product: hydrolysed wheat may have peptides of at most {more}\u{202f}kDa on average. Ask its supplier for the figure, and name the document on the shelf."
        }
        MessageId::WithinCap => {
            "{subject} comes to {value} of the product over all lines, within the {limit} that is allowed for this use."
        }
        MessageId::WithinCertificate => {
            "{subject} is {value} of the product, within the {limit} of its supplier\u{2019}s certificate for category {more}."
        }
        MessageId::WithinMaximum => {
            "{subject} comes to {value} of the product over all lines{acid}, within the {limit} that the list of preservatives (Annex V) allows for this use."
        }
        MessageId::ZincWithAcidPreservative => {
            "{subject} ({value} of the product) raises the pH and takes the acid from {more}, which then preserves nothing. Choose another preservative."
        }
        MessageId::NeedsBase => acidity::NEEDS_BASE,
        MessageId::BaseNotAcid => acidity::BASE_NOT_ACID,
        MessageId::AcidNotBase => acidity::ACID_NOT_BASE,
        MessageId::NeedsMoreBase => acidity::NEEDS_MORE_BASE,
        MessageId::AcidTooMuch => acidity::ACID_TOO_MUCH,
        MessageId::NeedsAcid => acidity::NEEDS_ACID,
        MessageId::NeedsMoreAcid => acidity::NEEDS_MORE_ACID,
        MessageId::BaseTooMuch => acidity::BASE_TOO_MUCH,
    }
}
