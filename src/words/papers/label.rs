//! The label: what stands on it, what is missing, what to know before it is printed.

use super::{NO_ASSESSMENT, UNVERIFIED, answered, foot, region};
use crate::facts::{Basis, Provenance, source_text, us_name_basis};
use crate::formula::{Content, Region};
use crate::paper::{
    Block, Caution, Gap, Keeps, LabelFacts, LabelFormat, LabelLine, LabelTexts, Labels, Paper, is_tiny,
};
use crate::quantity::{Decimal, Mass, MassUnit, Quantity, Volume};
use crate::sheet::{NANO, Open};
use crate::words::{DecimalSign, differs, finding, known_to, lots, page};

/// What is said of labels that cannot hold what must stand on the pack.
pub const LABEL_TOO_SMALL: &str = "These labels are too small: what must be on the pack itself does not fit in legible type and is cut off. Choose a sheet with larger labels.";

/// What is open about every list of a product whose fats are turned into soap: no source here gives those names.
const SAPONIFIED: &str = "Fats that become soap: this list names the fats, the lye and its water, as weighed. In the product they are salts of their fatty acids, and glycerin. Take those names from your suppliers\u{2019} documents, and ask your assessor which of the two ways of listing them applies where you sell.";

/// What is open about the label's list.
pub fn label_open(open: &Open) -> String {
    match open {
        Open::NoInci(name) => format!("{name} has no INCI name: enter it on the shelf."),
        Open::OffShelf(name) => format!("\u{201c}{name}\u{201d} is not on the shelf, so it is not in the list."),
        Open::TwoNames(names) => {
            format!("{names}: the first name was used. Enter the one on your supplier\u{2019}s document.")
        }
        Open::Undecided(name) => format!(
            "{name}: which of the two it is decides its name. Ask your supplier, and enter the right one in the composition on the shelf."
        ),
        Open::Shares(names) => format!(
            "{names}: the percentages in this blend are not known, so its place in the order is a guess. Enter its composition on the shelf."
        ),
        Open::NoStatement(name) => {
            format!("{name}: its allergens are not known. Paste the supplier\u{2019}s allergen statement on the shelf.")
        }
        Open::StatementUnread(name, lines) => {
            format!("{name}: part of its allergen statement was not recognised; lines left out: {lines}.")
        }
        Open::NamesUnrecognised(name, unknown) => format!(
            "{name}: some names in its allergen statement were not recognised, so an allergen among them is not in the list ({}). Enter each on the shelf by its label name or with its CAS number, or ask the supplier.",
            if unknown.is_empty() { "none given".to_owned() } else { unknown.join(", ") }
        ),
        Open::Nano(name) => format!(
            "{name}: if it is in nano form, the list must say \u{201c}(nano)\u{201d} after it. Its supplier\u{2019}s document says whether it is; enter yes or no. The answer applies to all such powders in the formula."
        ),
        Open::Saponified => SAPONIFIED.to_owned(),
        Open::NoLye => {
            "The lye could not be calculated, so it is not in the list. Batch shows what is missing.".to_owned()
        }
        Open::NotWhole => "The formula does not add up to 100\u{202f}% yet, so the order may change.".to_owned(),
    }
}

/// What a label lacks.
pub fn gap(gap: &Gap) -> String {
    match gap {
        Gap::Responsible => "The name of the person or company responsible for the product.".to_owned(),
        Gap::Address => "Their address.".to_owned(),
        Gap::Contact => "A telephone number, address or web page in the United States where an adverse event can be reported.".to_owned(),
        Gap::NetContent => "The net content of one pack, with its unit. It can be left out only below 5\u{202f}g or 5\u{202f}mL.".to_owned(),
        Gap::BatchCode => "The batch code.".to_owned(),
        Gap::BestBefore => "The best-before date: a product that keeps for 30 months or less needs one, and so does one whose shelf life is not known. Without tests of your own, 6 to 12 months is customary.".to_owned(),
        Gap::DateForm(date) => format!("\u{201c}{date}\u{201d}: the date is month and year, or day, month and year, in that order, such as 06/2027 (Article 19(1)(c) of Regulation (EC) No 1223/2009)."),
        Gap::AfterOpening => "The number of months it keeps after opening: a product that keeps for longer than 30 months needs it.".to_owned(),
        Gap::Function => "What it is for, unless its name and look say so.".to_owned(),
        Gap::List(open) => label_open(open),
        Gap::OpenStops(1) => "One Stop has not been answered.".to_owned(),
        Gap::OpenStops(count) => format!("{count} Stops have not been answered."),
    }
}

/// A caution as the label says it, word for word as its source has it.
pub fn caution(caution: Caution) -> &'static str {
    crate::facts::caution(caution.key()).map_or("", |(wording, _)| wording)
}

/// A net content with the units of its region: in the United States both kinds, elsewhere metric.
pub fn content(content: Content, region: Region) -> String {
    let metric = match content {
        Content::Mass(mass) if mass >= Mass::KILOGRAM => {
            format!("{}\u{202f}kg", mass.number_in(MassUnit::Kilogram))
        }
        Content::Mass(mass) => format!("{}\u{202f}g", mass.canonical()),
        Content::Volume(volume) if volume >= Volume::LITRE => {
            format!("{}\u{202f}L", volume.litres().canonical())
        }
        Content::Volume(volume) => format!("{}\u{202f}mL", volume.canonical()),
    };
    if region != Region::Us {
        return metric;
    }
    let hundredths = |text: String| -> String {
        // Two places, cut: a content is never stated as more than it is.
        match text.split_once('.') {
            Some((whole, places)) => format!("{whole}.{}", places.chars().take(2).collect::<String>()),
            None => text,
        }
    };
    match content {
        Content::Mass(mass) => format!("Net wt. {}\u{202f}oz ({metric})", hundredths(mass.number_in(MassUnit::Ounce))),
        Content::Volume(volume) => format!("{}\u{202f}fl. oz ({metric})", volume.us_fluid_ounces().canonical()),
    }
}

/// How long it keeps, in one paragraph: rows are scarce on a label.
fn keeps(keeps: &Keeps) -> Option<LabelLine> {
    let until = |date: &str| format!("Best used before the end of: {date}");
    let opened = |text: String| LabelLine { open_jar: true, ..LabelLine::plain(text) };
    match keeps {
        Keeps::Until(date) => Some(LabelLine::plain(until(date))),
        Keeps::AfterOpening(months) => Some(opened(format!("{}M", months.canonical()))),
        Keeps::Both(date, months) => Some(opened(format!("{}M{DOT}{}", months.canonical(), until(date)))),
        Keeps::Missing => None,
    }
}

/// Between two statements of one paragraph.
const DOT: &str = " \u{b7} ";

/// A label, and the paragraphs of the leaflet where they do not all fit on it.
pub(super) fn labels(facts: &LabelFacts, format: LabelFormat) -> (Labels, Vec<String>) {
    texts(facts).lay_out(format, facts.letter_um)
}

/// All that a label says.
fn texts(facts: &LabelFacts) -> LabelTexts {
    // Rows are scarce on a label: what belongs together stands in one paragraph.
    let joined = |texts: Vec<String>, sign: &str| {
        let text = texts.join(sign).lines().map(str::trim).collect::<Vec<_>>().join(", ");
        (!text.is_empty()).then(|| LabelLine::plain(text))
    };
    let front = |text: String| LabelLine { front: true, ..LabelLine::plain(text) };
    let mut on_pack = vec![LabelLine { strong: true, ..front(facts.name.clone()) }];
    on_pack.extend(facts.function.iter().cloned().map(front));
    if let Some(amount) = facts.content.filter(|amount| !is_tiny(*amount)) {
        on_pack.push(LabelLine { figure_um: facts.figure_um, ..front(content(amount, facts.region)) });
    }
    on_pack.extend(keeps(&facts.keeps).map(|line| LabelLine { front: true, ..line }));
    let made = facts.made.map_or_else(String::new, |day| format!(", made {day}"));
    let batch = facts.batch.iter().map(|code| format!("Batch {code}{made}"));
    on_pack.extend(joined(batch.chain(facts.storage.clone()).collect(), DOT));
    let origin = facts.origin.iter().map(|origin| format!("Made in {origin}"));
    on_pack.extend(joined(facts.responsible.iter().cloned().chain(origin).collect(), ", "));
    let cautions = facts.cautions.iter().map(|one| caution(*one).to_owned());
    let law = facts.law.iter().map(|words| words.text.clone());
    let list = format!("Ingredients: {}", facts.ingredients.join(", "));
    LabelTexts {
        on_pack,
        or_leaflet: cautions.chain(law).chain(Some(list)).collect(),
        see_leaflet: "Warnings and ingredients: see the leaflet.".to_owned(),
    }
}

/// The label at true size on a sheet, what is missing for it, and the leaflet where it does not fit.
pub fn label_paper(facts: &LabelFacts, format: LabelFormat) -> Paper {
    let (labels, leaflet) = labels(facts, format);
    let (too_small, ruler) = (labels.too_small, labels.ruler_text());
    let mut parts = vec![Block::Labels(labels)];
    if !leaflet.is_empty() {
        parts.push(Block::NewPage);
        parts.push(Block::Heading(1, format!("Leaflet for {}", facts.name)));
        parts.push(Block::Text("Not everything fits on a label of this size in legible type. This leaflet or tag goes with every pack, and the label says so.".to_owned()));
        parts.push(Block::Frame(leaflet.into_iter().map(Block::Text).collect()));
    }
    parts.push(Block::NewPage);
    parts.push(Block::Heading(1, "Before you print".to_owned()));
    if too_small {
        parts.push(Block::Frame(vec![Block::Text(LABEL_TOO_SMALL.to_owned())]));
    }
    parts.push(Block::Text(format!(
        "Print at actual size (100\u{202f}%, not \u{201c}fit to page\u{201d}) and measure the ruler: it must be {ruler} long."
    )));
    parts.push(Block::Text(match facts.region {
        Region::Us => format!("Lower-case letters are at least {} high ({}).", millimetres(facts.letter_um), source_text("21cfr701")),
        _ => format!("Lower-case letters (their x-height) are at least {} high: a choice of this program, since the law asks only that the text is easily legible.", millimetres(facts.letter_um)),
    }));
    if let Some(figure) = facts.figure_um {
        parts.push(Block::Text(format!(
            "The figures in the net content are at least {} high ({}).",
            millimetres(figure),
            source_text("heights")
        )));
    }
    if let Some(bounds) = facts.bounds {
        parts.push(Block::Text(fill_sentence(&bounds, facts.content)));
    }
    parts.extend(missing(&facts.gaps));
    if let Some(list) = wordings(facts) {
        parts.push(Block::Heading(2, "Where the wording comes from".to_owned()));
        parts.push(list);
    }
    if !facts.lots.is_empty() {
        parts.push(Block::Text(format!("Allergens are counted from {}.", lots(&facts.lots))));
    }
    for (stop, answer) in &facts.answers {
        parts.push(Block::Text(format!("{} {}", finding(stop, &[], DecimalSign::Point), answered(answer))));
    }
    parts.push(Block::Text(format!("Made for: {}.", region(facts.region))));
    parts.push(Block::Text(LANGUAGE.to_owned()));
    parts.extend(plant_names(facts).map(Block::Text));
    parts.extend(differs(facts.region).map(|text| Block::Text(text.to_owned())));
    parts.push(Block::Text(format!("{} {UNVERIFIED}", known_to())));
    parts.push(Block::Text(NO_ASSESSMENT.to_owned()));
    Paper { title: format!("Label: {}", facts.name), foot: foot(&facts.name), parts }
}

/// Article 19(5) of Regulation (EC) No 1223/2009.
const LANGUAGE: &str = "This label is in English. The country where the product is made available decides in which language content, durability, warnings and what it is for must stand (Article 19(5) of Regulation (EC) No 1223/2009); names of ingredients stay as they are.";

/// Plants by their names alone in a list for the United States, where the common English name is usual beside them.
fn plant_names(facts: &LabelFacts) -> Option<String> {
    let is_plant = |name: &&String| {
        let products = ["Butter", "Extract", "Flour", "Gum", "Juice", "Oil", "Powder", "Starch", "Water", "Wax"];
        products.iter().any(|product| name.ends_with(product)) && name.split(' ').count() > 2 && !name.contains('(')
    };
    let plants: Vec<&str> = facts.ingredients.iter().filter(is_plant).map(String::as_str).collect();
    (facts.region == Region::Us && !plants.is_empty()).then(|| {
        format!("The common English name of a plant is usual in parentheses, as in Butyrospermum Parkii (Shea) Butter (21 CFR 701.3, unverified). It is not known here for: {}.", plants.join(", "))
    })
}

/// Where the wordings and names on the label were read, and which of them nobody read.
fn wordings(facts: &LabelFacts) -> Option<Block> {
    let told = |what: String, basis: Basis| match basis.provenance {
        Provenance::Verified | Provenance::Maker => format!("{what}: {}.", basis.source),
        Provenance::Custom | Provenance::Allowance => format!("{what}: worded by this program, not by law."),
        Provenance::Checked | Provenance::Mixed | Provenance::Memory => {
            format!("{what}: not read in the law (unverified). Compare it before you print. ({})", basis.source)
        }
    };
    let warnings = facts.cautions.iter().filter_map(|one| {
        let (wording, basis) = crate::facts::caution(one.key())?;
        let short: String = wording.split_inclusive(['.', ':']).next().unwrap_or(wording).to_owned();
        Some(told(format!("\u{201c}{short}\u{201d}"), basis))
    });
    let law = facts.law.iter().map(|words| {
        let from = words.from.map_or_else(String::new, |day| format!(" Placed on the market: from {day}."));
        let entries = words.entries.join(", ");
        format!("\u{201c}{}\u{201d}: Regulation (EC) No 1223/2009, {entries}.{from}", words.text)
    });
    let names = facts.ingredients.iter().filter(|_| facts.region == Region::Us);
    let names = names
        .filter_map(|name| Some(told(format!("\u{201c}{name}\u{201d}"), us_name_basis(name.trim_end_matches(NANO))?)));
    let all: Vec<String> = warnings.chain(law).chain(names).collect();
    if all.is_empty() { None } else { Some(Block::List(all)) }
}

/// How far a fill may fall short.
pub fn fill_sentence(bounds: &crate::sheet::NominalBounds, content: Option<Content>) -> String {
    let unit = if matches!(content, Some(Content::Volume(_))) { "mL" } else { "g" };
    let shown = |mass: Mass| format!("{}\u{202f}{unit}", mass.canonical());
    format!(
        "Fills of {}: the batch average not below that, only a few packs below {}, none below {} ({}). A guide for your own checks, not an approval: weigh every pack and aim one to two percent higher.",
        shown(bounds.nominal),
        shown(bounds.few),
        shown(bounds.none),
        source_text("76211")
    )
}

fn millimetres(micrometres: i64) -> String {
    format!("{}\u{202f}mm", Decimal::new(micrometres, 3).canonical())
}

pub(super) fn missing(gaps: &[Gap]) -> Vec<Block> {
    if gaps.is_empty() {
        return vec![Block::Text("Nothing that this program looks for is missing from the label.".to_owned())];
    }
    let (open, missing): (Vec<&Gap>, Vec<&Gap>) = gaps.iter().partition(|gap| gap.is_open());
    let list = |head: &str, gaps: Vec<&Gap>| {
        let told = (!gaps.is_empty()).then(|| gaps.into_iter().map(gap).collect());
        told.into_iter().flat_map(|told| [Block::Heading(2, head.to_owned()), Block::List(told)]).collect::<Vec<_>>()
    };
    list("Missing", missing).into_iter().chain(list(page::NOT_KNOWN, open)).collect()
}
