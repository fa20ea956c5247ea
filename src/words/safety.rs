//! What the safety rules say, as sentences that are understood without the tool: who, what, how much, compared with what,
//! do what.

mod acidity;
mod chemistry;
mod law;
mod making;
mod microbes;
mod people;
mod scent;
mod template;

use super::{DecimalSign, findings::finer_or_larger, grams, lots::lots, number, with_unit};
use crate::formula::Region;
use crate::quantity::{Decimal, Quantity};
use crate::rules::{Amount, Finding, Message, MessageField, MessageId, Microbe, OnTheScale};
use template::Template;

/// The sentences of each rule.
const TABLES: [&[Template]; 33] = [
    law::ANNEXES,
    law::UNRECOGNISED,
    law::PROHIBITED,
    law::CAPPED,
    law::COMPOSITION,
    law::IDENTITY,
    law::REGION,
    law::ABOVE_MOST,
    microbes::UNPRESERVED,
    microbes::PRESERVATIVE_MAXIMUM,
    microbes::PARABENS,
    microbes::PRESERVATIVE_PH,
    microbes::UNDISSOLVED,
    microbes::SPECTRUM,
    microbes::BARRED,
    microbes::FORMALDEHYDE,
    people::AHA,
    people::CHILDREN,
    people::PREGNANCY,
    people::SOURCE_ALLERGENS,
    scent::ALLERGENS,
    scent::FRAGRANCE,
    scent::PHOTOTOXIC,
    chemistry::NITROSAMINE,
    chemistry::PRODUCT_PH,
    chemistry::PH_WINDOW,
    chemistry::CLASH,
    making::HEAT,
    making::EMULSIFIER,
    making::GUM,
    making::ANTIOXIDANT,
    making::CHELATOR,
    acidity::PH_REACH,
];

const _: () = assert!(each_has_one(), "a message without a sentence, or with two");

const fn each_has_one() -> bool {
    let mut n = 0;
    while n < MessageId::ALL.len() {
        if count(MessageId::ALL[n]) != 1 {
            return false;
        }
        n += 1;
    }
    true
}

const fn count(of: MessageId) -> usize {
    let (mut table, mut found) = (0, 0);
    while table < TABLES.len() {
        let mut row = 0;
        while row < TABLES[table].len() {
            found += (TABLES[table][row].of as usize == of as usize) as usize;
            row += 1;
        }
        table += 1;
    }
    found
}

fn template(of: MessageId) -> Option<&'static Template> {
    TABLES.iter().flat_map(|table| table.iter()).find(|template| template.of == of)
}

/// The sentence of a message that tells nothing of a formula.
pub(super) fn plain(of: MessageId) -> &'static str {
    template(of).map_or("", |template| template.text)
}

/// The sentences that a message may have, with given words for what they tell: with all of it, and without what may be
/// missing.
pub fn specimens(of: MessageId, word: &dyn Fn(&str) -> String) -> Vec<String> {
    let Some(template) = template(of) else { return Vec::new() };
    let may_lack = template.instead.or(template.also).map(|(field, _)| field);
    let without = |name: &str| if may_lack == Some(name) { String::new() } else { word(name) };
    let mut all = vec![template.fill(word)];
    all.extend(may_lack.map(|_| template.fill(&without)));
    all
}

/// The whole sentence of a finding of the safety rules, with what lowers it and what it rests on.
pub(super) fn safety(finding: &Finding, message: &Message, sign: DecimalSign) -> String {
    let detail = &finding.detail;
    let mut text = sentence(finding, message, sign);
    if let Some(scale) = detail.on_the_scale {
        text += &on_the_scale(scale, sign);
    }
    if let Some(document) = &detail.document {
        text += &format!(" This is based on your document: {}.", ended(document));
    }
    if !detail.lots.is_empty() {
        text += &format!(" Counted from {}.", lots(&detail.lots));
    }
    text += detail.not_law.map_or("", not_law);
    if let Some(from) = detail.from {
        text += &format!(" It applies to new products from {from}.");
    }
    text += why_lowered(finding);
    text
}

fn on_the_scale(scale: OnTheScale, sign: DecimalSign) -> String {
    let remedy = match scale.from {
        Some(batch) => finer_or_larger(batch, &grams(batch, sign)),
        None => "Use a finer scale, or make a line without a maximum the fill-up line".to_owned(),
    };
    let step = grams(scale.step, sign);
    format!(" This judges what will be weighed, in steps of {step}, not the percentage you typed. {remedy}.")
}

const fn not_law(region: Region) -> &'static str {
    match region {
        Region::Gb => " This is law in the European Union; whether Great Britain has it too was not seen. Check there.",
        Region::Us => " This is law in the European Union but not in the United States. It remains good advice.",
        Region::Eu | Region::Elsewhere => " This is law in the European Union. The law where you are was not checked.",
    }
}

fn why_lowered(finding: &Finding) -> &'static str {
    if !finding.is_lowered() {
        ""
    } else if !finding.detail.verified {
        " This rests on unverified figures, or on a usual composition rather than your supplier\u{2019}s, so it is graded Care and not Stop: check it, and enter what your supplier says."
    } else if finding.detail.custom {
        " No law says so: it is common trade practice or a choice of this program, so it is graded Care and not Stop."
    } else {
        ""
    }
}

fn sentence(finding: &Finding, message: &Message, sign: DecimalSign) -> String {
    let detail = &finding.detail;
    let shown = |amount: &Option<Amount>| amount.as_ref().map_or_else(String::new, |found| self::amount(found, sign));
    let fields = message.fields();
    let word = |name: &str| match name {
        "subject" => detail.subject.clone(),
        "value" => shown(&detail.value),
        "limit" => shown(&detail.limit),
        _ => fields.iter().find(|(field, _)| *field == name).map_or_else(String::new, |(_, held)| field(held, sign)),
    };
    template(message.id()).map_or_else(String::new, |template| template.fill(&word))
}

fn field(held: &MessageField<'_>, sign: DecimalSign) -> String {
    match held {
        MessageField::Amount(amount) => self::amount(amount, sign),
        MessageField::Names(names) => names.join(", "),
        MessageField::Text(text) => (*text).to_owned(),
        MessageField::System(system) => super::chemistry::recognised(*system).to_owned(),
        MessageField::Flag(true) => ", counted as acid".to_owned(),
        MessageField::Flag(false) => String::new(),
    }
}

fn amount(amount: &Amount, sign: DecimalSign) -> String {
    match amount {
        Amount::Percent(share) => with_unit(*share, "%", sign),
        Amount::Ph(ph) => number(&ph.canonical(), sign),
        Amount::Celsius(heat) => with_unit(*heat, "\u{b0}C", sign),
        Amount::Hundredths(hundredths) => number(&Decimal::new(*hundredths, 2).canonical(), sign),
        Amount::Kilodaltons(mass) => number(&mass.canonical(), sign),
        Amount::Count(count) => count.to_string(),
        Amount::PhRange(..) => number(&amount.stored_text(), sign),
        Amount::Microbes(kinds) => kinds.iter().map(|kind| microbe(*kind)).collect::<Vec<_>>().join(", "),
    }
}

const fn microbe(kind: Microbe) -> &'static str {
    match kind {
        Microbe::GramPositive => "Gram-positive bacteria",
        Microbe::GramNegative => "Gram-negative bacteria",
        Microbe::Yeast => "yeasts",
        Microbe::Mould => "moulds",
    }
}

/// A text of the maker's at the end of a sentence that sets its own full stop.
pub(super) fn ended(text: &str) -> &str {
    text.trim().trim_end_matches(['.', ';', ',']).trim_end()
}
