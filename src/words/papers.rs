//! The sentences of label, safety sheet and assessor's bundle, and the papers made of them.

use super::{finding, known_to, page};
use crate::desk::{Bench, Derived};
use crate::facts::{Hazard, Seen, source_text, statement};
use crate::formula::{Answer, Audience, Content, PaperField, Region};
use crate::paper::{
    BundleFacts, BundleFinding, Caution, Gap, Keeps, LabelFacts, LabelFormat, LabelLine, Labels, Paper, Part,
    Pictogram, SafetyFacts, Table, Which, bundle_facts, fits, is_tiny, label_facts, pictogram, safety_facts, tally,
};
use crate::quantity::{Celsius, Mass, MassUnit, Percent, Quantity, Volume};
use crate::rules::{Finding, Grade};
use crate::sheet::{Open, Trust};

/// Any of the papers of an open document; labels on sheets of a format.
pub fn paper(which: Which, format: LabelFormat, bench: &Bench, derived: &Derived) -> Paper {
    let (formula, shelf) = (&bench.state().formula, bench.shelf());
    let Derived { sheet, findings } = derived;
    match which {
        Which::Label => label_paper(&label_facts(formula, sheet, findings), format),
        Which::Safety => safety_paper(&safety_facts(formula, sheet, findings, shelf)),
        Which::Bundle => bundle_paper(&bundle_facts(formula, sheet, findings, shelf)),
    }
}

/// What is said of labels that cannot hold what must stand on the pack.
pub const LABEL_TOO_SMALL: &str = "These labels are too small: what must stand on the pack itself does not fit in legible letters and is cut. Choose a sheet of larger labels.";

/// The sentence that stands on every paper.
pub const NO_ASSESSMENT: &str = "This paper is no safety assessment and says of nothing that it is safe. Local law, the suppliers\u{2019} documents and a qualified assessor stand above it; in an emergency a poison centre or a doctor does.";

/// What is open about every list of a product whose fats are turned into soap: no source here gives those names.
const SAPONIFIED: &str = "Fats that become soap: this list names them, and the lye, as they were weighed. In the product they are salts of their fatty acids, and glycerin. Take those names from your suppliers\u{2019} documents, and let your assessor say which of the two ways to list them holds where you sell.";

/// What is open about the label's list.
pub fn label_open(open: &Open) -> String {
    match open {
        Open::NoInci(name) => format!("{name} has no INCI name: enter it on the shelf."),
        Open::OffShelf(name) => format!("\u{201c}{name}\u{201d} is not on the shelf, so it is not in the list."),
        Open::TwoNames(names) => {
            format!("{names}: the first name was taken. Enter the one that is on your supplier\u{2019}s document.")
        }
        Open::Shares(names) => format!(
            "{names}: the shares in this blend are not known, so its place in the order is a guess. Enter its composition on the shelf."
        ),
        Open::NoStatement(name) => {
            format!("{name}: its allergens are not known. Paste its supplier\u{2019}s allergen statement on the shelf.")
        }
        Open::StatementUnread(name, lines) => {
            format!("{name}: not all of its allergen statement was understood; lines left out: {lines}.")
        }
        Open::Nano(name) => format!(
            "{name}: if it is in nano form the list must say \u{201c}(nano)\u{201d} behind it. Its supplier\u{2019}s document tells; enter yes or no."
        ),
        Open::Saponified => SAPONIFIED.to_owned(),
        Open::NotWhole => "The formula is not a hundred percent yet, so the order may change.".to_owned(),
    }
}

/// What a label lacks.
pub fn gap(gap: &Gap) -> String {
    match gap {
        Gap::Responsible => "The name of the person or firm that answers for the product.".to_owned(),
        Gap::Address => "Their address.".to_owned(),
        Gap::Contact => "A telephone number, address or page in the United States where an adverse event is reported.".to_owned(),
        Gap::NetContent => "What is in one pack, with its unit. Only below 5\u{2009}g or 5\u{2009}mL it may be left out.".to_owned(),
        Gap::BatchCode => "The batch code.".to_owned(),
        Gap::BestBefore => "The date to use it by: a product that keeps 30 months or less needs one, and so does one of which nobody knows. Without tests of your own, 6 to 12 months is customary.".to_owned(),
        Gap::AfterOpening => "The months that it keeps after opening: a product that keeps longer than 30 months needs them.".to_owned(),
        Gap::Function => "What it is for, unless its name and look say so.".to_owned(),
        Gap::List(open) => label_open(open),
        Gap::OpenStops(1) => "One finding stops this product, and nobody answered it.".to_owned(),
        Gap::OpenStops(count) => format!("{count} findings stop this product, and nobody answered them."),
    }
}

/// A caution as the label says it. The wordings are from memory but for that of the United States on acids.
pub const fn caution(caution: Caution) -> &'static str {
    match caution {
        Caution::Formaldehyde => "Releases formaldehyde.",
        Caution::NotUnderThree => "Not to be used for children under 3 years of age.",
        Caution::NotNappy => "Do not use on the nappy area.",
        Caution::Eyes => "Avoid contact with eyes.",
        Caution::VitaminA => "Contains vitamin A. Consider your daily intake before use.",
        Caution::Sunburn => {
            "Sunburn alert: this product contains an acid that may make your skin burn more easily in the sun. Use a sunscreen, wear protective clothing and limit sun exposure while using this product and for a week afterwards."
        }
        Caution::CitrusSun => "Contains citrus oil: keep treated skin out of the sun for a day.",
        Caution::Flammable => "Flammable until dry: keep away from fire.",
        Caution::NotDetermined => "Warning: The safety of this product has not been determined.",
    }
}

/// A net content with the units of its region: in the United States both kinds, elsewhere metric.
pub fn content(content: Content, region: Region) -> String {
    // One US fluid ounce is 29.5735295625 mL, by definition (231 cubic inches to the gallon of 128).
    const NANOLITRES_PER_OUNCE: i64 = 29_573_530;
    let metric = match content {
        Content::Mass(mass) if mass.units() >= 1_000_000_000 => {
            format!("{}\u{2009}kg", mass.number_in(MassUnit::Kilogram))
        }
        Content::Mass(mass) => format!("{}\u{2009}g", mass.canonical()),
        Content::Volume(volume) if volume.units() >= 1_000_000_000 => {
            format!("{}\u{2009}L", Volume::from_units(volume.units() / 1000).canonical())
        }
        Content::Volume(volume) => format!("{}\u{2009}mL", volume.canonical()),
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
        Content::Mass(mass) => format!("Net wt. {}\u{2009}oz ({metric})", hundredths(mass.number_in(MassUnit::Ounce))),
        Content::Volume(volume) => {
            let ounces = crate::quantity::mul_div_floor(volume.units(), 100, NANOLITRES_PER_OUNCE);
            let text = Percent::from_units(ounces * 10_000).canonical();
            format!("{text}\u{2009}fl. oz ({metric})")
        }
    }
}

fn keeps(keeps: &Keeps) -> Vec<String> {
    let until = |date: &str| format!("Best used before the end of: {date}");
    let opened = |months: &crate::facts::Months| {
        format!("Use within {} months of opening ({}M)", months.canonical(), months.canonical())
    };
    match keeps {
        Keeps::Until(date) => vec![until(date)],
        Keeps::AfterOpening(months) => vec![opened(months)],
        Keeps::Both(date, months) => vec![until(date), opened(months)],
        Keeps::Missing => Vec::new(),
    }
}

/// Letters are made larger while there is room, up to this x-height in micrometres. A choice of ours.
const LARGE_LETTERS: i64 = 2_400;

/// Between two statements of one paragraph.
const DOT: &str = " \u{b7} ";

/// A label, and the paragraphs of the leaflet where they do not all fit on it.
fn labels(facts: &LabelFacts, format: LabelFormat) -> (Labels, Vec<String>) {
    let plain = |text: String| LabelLine { text, strong: false, figure_um: None };
    // Rows are scarce on a label: what belongs together stands in one paragraph.
    let joined = |texts: Vec<String>, sign: &str| {
        let text = texts.join(sign).lines().map(str::trim).collect::<Vec<_>>().join(", ");
        (!text.is_empty()).then(|| plain(text))
    };
    let list = format!("Ingredients: {}", facts.ingredients.join(", "));
    let cautions: Vec<String> = facts.cautions.iter().map(|one| caution(*one).to_owned()).collect();
    let mut short = vec![LabelLine { text: facts.name.clone(), strong: true, figure_um: None }];
    short.extend(facts.function.iter().cloned().map(plain));
    if let Some(amount) = facts.content.filter(|amount| !is_tiny(*amount)) {
        short.push(LabelLine { text: content(amount, facts.region), strong: false, figure_um: facts.figure_um });
    }
    short.extend(joined(keeps(&facts.keeps), DOT));
    let batch = facts.batch.iter().map(|code| format!("Batch {code}"));
    short.extend(joined(batch.chain(facts.storage.clone()).collect(), DOT));
    let origin = facts.origin.iter().map(|origin| format!("Made in {origin}"));
    short.extend(joined(facts.responsible.iter().cloned().chain(origin).collect(), ", "));
    let whole: Vec<LabelLine> =
        short.iter().cloned().chain(cautions.iter().cloned().map(plain)).chain(Some(plain(list.clone()))).collect();
    let fits = |lines: &[LabelLine], letter_um: i64| fits(lines, format.label_um, letter_um * 2);
    let all = fits(&whole, facts.letter_um);
    let (lines, leaflet) = if all {
        (whole, Vec::new())
    } else {
        short.push(plain("Warnings and ingredients: see the leaflet.".to_owned()));
        (short, cautions.into_iter().chain(Some(list)).collect())
    };
    let too_small = !all && !fits(&lines, facts.letter_um);
    let mut letter_um = facts.letter_um;
    while !too_small && letter_um + 100 <= LARGE_LETTERS && fits(&lines, letter_um + 100) {
        letter_um += 100;
    }
    (Labels { format, lines, letter_um, too_small, ruler_mm: 50 }, leaflet)
}

/// The label at true size on a sheet, what is missing for it, and the leaflet where it does not fit.
pub fn label_paper(facts: &LabelFacts, format: LabelFormat) -> Paper {
    let (labels, leaflet) = labels(facts, format);
    let too_small = labels.too_small;
    let mut parts = vec![Part::Labels(labels)];
    if !leaflet.is_empty() {
        parts.push(Part::NewPage);
        parts.push(Part::Heading(1, format!("Leaflet for {}", facts.name)));
        parts.push(Part::Text("Not all of it fits on a label of this size in legible letters. This leaflet or tag goes with every pack, and the label says so.".to_owned()));
        parts.push(Part::Frame(leaflet.into_iter().map(Part::Text).collect()));
    }
    parts.push(Part::NewPage);
    parts.push(Part::Heading(1, "Before you print".to_owned()));
    if too_small {
        parts.push(Part::Frame(vec![Part::Text(LABEL_TOO_SMALL.to_owned())]));
    }
    parts.push(Part::Text(
        "Print at true size (100\u{2009}%, no fitting to the page) and measure the ruler: it is 50\u{2009}mm long."
            .to_owned(),
    ));
    parts.push(Part::Text(match facts.region {
        Region::Us => format!("Small letters are at least {} high ({}).", millimetres(facts.letter_um), source_text("21cfr701")),
        _ => format!("Small letters are at least {} high: a choice of this program, since law asks only for what is easily legible.", millimetres(facts.letter_um)),
    }));
    if let Some(figure) = facts.figure_um {
        parts.push(Part::Text(format!(
            "The figures of the net content are at least {} high (Directive 76/211/EEC, from memory).",
            millimetres(figure)
        )));
    }
    if let Some(bounds) = facts.bounds {
        parts.push(Part::Text(fill_sentence(&bounds, facts.content)));
    }
    parts.extend(missing(&facts.gaps));
    parts.push(Part::Text(known_to()));
    parts.push(Part::Text(NO_ASSESSMENT.to_owned()));
    Paper { title: format!("Label: {}", facts.name), foot: foot(&facts.name), parts }
}

/// How far a fill may fall short.
pub fn fill_sentence(bounds: &crate::sheet::Bounds, content: Option<Content>) -> String {
    let unit = if matches!(content, Some(Content::Volume(_))) { "mL" } else { "g" };
    let shown = |mass: Mass| format!("{}\u{2009}{unit}", mass.canonical());
    format!(
        "Fills of {}: the mean of a batch not below that, few packs below {}, none below {} ({}). A guide for your own check, no approval: weigh every pack and aim one to two percent higher.",
        shown(bounds.nominal),
        shown(bounds.few),
        shown(bounds.none),
        source_text("76211")
    )
}

fn millimetres(micrometres: i64) -> String {
    format!("{}\u{2009}mm", crate::quantity::Celsius::from_units(micrometres).canonical())
}

fn missing(gaps: &[Gap]) -> Vec<Part> {
    if gaps.is_empty() {
        return vec![Part::Text("Nothing that this program looks for is missing on the label.".to_owned())];
    }
    vec![Part::Heading(2, "Missing".to_owned()), Part::List(gaps.iter().map(gap).collect())]
}

fn foot(title: &str) -> String {
    format!("{title} \u{b7} {}", "no safety assessment")
}

fn degrees(heat: Celsius) -> String {
    format!("{}\u{2009}\u{b0}C", heat.canonical())
}

/// The safety sheet.
pub fn safety_paper(facts: &SafetyFacts) -> Paper {
    let about = &facts.about;
    let mut parts = vec![
        Part::Text(for_whom(facts)),
        Part::Heading(1, "What is in it".to_owned()),
        Part::Text(facts.label.ingredients.join(", ")),
    ];
    let sources: Vec<String> = facts.sources.iter().map(|(name, source)| format!("{name}: {source}")).collect();
    if !sources.is_empty() {
        parts.push(Part::Text(format!("Made from: {}.", sources.join("; "))));
    }
    parts.push(Part::Heading(1, "Cautions in use".to_owned()));
    parts.push(Part::Frame(vec![Part::List(in_use(facts))]));
    parts.push(Part::Heading(1, "First aid".to_owned()));
    parts.push(Part::List(FIRST_AID.map(str::to_owned).to_vec()));
    parts.push(Part::Heading(1, "Cautions in making".to_owned()));
    if let Some(heat) = facts.hottest {
        parts.push(Part::Text(format!("The hottest phase is {}.", degrees(heat))));
    }
    for (name, hazard) in &facts.materials {
        parts.extend(material(name, hazard));
    }
    let work =
        facts.work.iter().map(|row| vec![row.material.to_owned(), row.handling.to_owned(), row.protection.join(", ")]);
    parts.push(table(&["At the bench", "What to do", "What to wear"], &[], work.collect()));
    if facts.acids {
        parts.push(Part::Text(
            "Acids are in use: never clean with chlorine bleach beside them, the two give off a toxic gas.".to_owned(),
        ));
    }
    if !facts.unknown.is_empty() {
        parts.push(Part::Text(format!(
            "Nothing is known here of the hazards of {}. Read the data sheets.",
            facts.unknown.join(", ")
        )));
    }
    parts.push(Part::Heading(1, "What was checked".to_owned()));
    parts.push(Part::Text(checked(facts)));
    let stops: Vec<&Finding> = facts.findings.iter().filter(|one| one.grade == Grade::Stop).collect();
    if !stops.is_empty() {
        let sentences = stops.iter().map(|one| finding(one, &[])).collect();
        parts.push(Part::Frame(vec![Part::Text("What stops this product:".to_owned()), Part::List(sentences)]));
    }
    parts.push(Part::Text(known_to()));
    parts.push(Part::Frame(vec![Part::Text(NO_ASSESSMENT.to_owned())]));
    Paper { title: format!("Safety sheet: {}", about.title), foot: foot(&about.title), parts }
}

fn for_whom(facts: &SafetyFacts) -> String {
    let about = &facts.about;
    format!(
        "A product for {} that {}, for the {}, in a {}.",
        page::audience(about.audience),
        page::purpose(about.purpose),
        page::area(about.area),
        page::pack(about.pack)
    )
}

/// First aid in neutral words: common advice, no source of its own. It replaces no doctor.
const FIRST_AID: [&str; 5] = [
    "In the eyes: rinse with running water for 15 minutes, lids open, contact lenses out. Then see a doctor.",
    "Skin reaction: wash it off, stop using it, cool the skin. See a doctor if it spreads, blisters or lasts.",
    "Swallowed: rinse the mouth, make nobody vomit, call a poison centre with this sheet in hand.",
    "Burn by hot oil or wax: cool running water for 20 minutes, no ice. See a doctor for blisters.",
    "Hard to breathe, or swelling of face or throat: call an ambulance.",
];

fn in_use(facts: &SafetyFacts) -> Vec<String> {
    let mut lines: Vec<String> = facts.cautions().iter().map(|one| caution(*one).to_owned()).collect();
    lines.extend(
        [
            "For intact skin only. Keep out of eyes, mouth and open wounds. Stop if skin reddens, itches or swells.",
            "Before first use: put a little on a spot of skin the size of a coin, such as the bend of the elbow, twice a day for 7 to 10 days. A home test of a day or two misses late allergies, and no test shows that a product is safe. Do not test on children.",
            "Keep out of reach of children. Clean hands or a spatula in the jar. Throw it away if it smells, parts, changes colour or shows a speck.",
        ]
        .map(str::to_owned),
    );
    match facts.about.audience {
        Audience::UnderThree => lines.push("For small children only what an assessor has looked at for them; never for premature babies or under three months without clinical advice.".to_owned()),
        Audience::Pregnant => lines.push("Ask a midwife or doctor before use in pregnancy. On the breast a child swallows it.".to_owned()),
        Audience::Adult | Audience::ChildThreePlus => {}
    }
    lines.extend(facts.label.storage.iter().map(|text| format!("Storage: {text}")));
    if facts.label.storage.is_none() {
        lines.push("Storage: closed, cool and dark.".to_owned());
    }
    let named: Vec<&str> = facts
        .findings
        .iter()
        .filter(|one| one.fact == crate::rules::Fact::Said(crate::rules::Said::AllergensNamed))
        .map(|one| one.detail.subject.as_str())
        .collect();
    if !named.is_empty() {
        lines.push(format!("Fragrance allergens above the threshold: {}.", named.join(", ")));
    }
    lines
}

fn material(name: &str, hazard: &Hazard) -> Vec<Part> {
    let signal = match hazard.danger {
        Some(true) => "Danger. ",
        Some(false) => "Warning. ",
        None => "Not classified, or classified in different ways. ",
    };
    let pictograms: Vec<Pictogram> = hazard.pictograms.iter().filter_map(|code| pictogram(code)).collect();
    let mut parts = vec![Part::Heading(2, name.to_owned())];
    if !pictograms.is_empty() {
        parts.push(Part::Pictograms(pictograms));
    }
    let said = |codes: &[&str]| -> String {
        let texts: Vec<String> =
            codes.iter().filter_map(|code| Some(format!("{} ({code})", statement(code)?))).collect();
        texts.join(" ")
    };
    parts.push(Part::Text(format!("{signal}{}", said(&hazard.statements))));
    if !hazard.precautions.is_empty() {
        parts.push(Part::Text(said(&hazard.precautions)));
    }
    let mut handling = hazard.handling.to_owned();
    if !hazard.protection.is_empty() {
        handling += &format!(" Wear: {}.", hazard.protection.join(", "));
    }
    if !hazard.away_from.is_empty() {
        handling += &format!(" Keep away from: {}.", hazard.away_from.join(", "));
    }
    if let Some((flash, seen)) = hazard.flash {
        handling +=
            &format!(" Its vapour can be lit from {}{}.", degrees(flash), if seen { "" } else { " (from memory)" });
    }
    parts.push(Part::Text(handling));
    let memory = if hazard.basis.seen == Seen::Memory { " Partly from memory." } else { "" };
    parts.push(Part::Text(format!(
        "Source: {}.{memory} Your supplier\u{2019}s data sheet counts.",
        hazard.basis.source
    )));
    vec![Part::Frame(parts)]
}

fn checked(facts: &SafetyFacts) -> String {
    let [(_, stop), (_, care), (_, unknown), (_, fine)] = tally(&facts.findings);
    let (checked, open) = facts.judged();
    let open = if open.is_empty() { "nothing".to_owned() } else { open.join(", ") };
    format!(
        "{} checks ran: {stop} Stop, {care} Care, {unknown} Unknown, {fine} Fine. Not judged, or only in part: {open}. {} of what was found rests on values from memory. Not checked at all: microbes in the product, stability, impurities, the pack, exposure, toxicology, and local rules beyond those named.",
        checked.len(),
        facts.unverified()
    )
}

fn table(head: &[&str], numbers: &[usize], rows: Vec<Vec<String>>) -> Part {
    Part::Table(Table { head: head.iter().map(|text| (*text).to_owned()).collect(), numbers: numbers.to_vec(), rows })
}

fn share(percent: Percent) -> String {
    percent.canonical()
}

/// The assessor's bundle.
pub fn bundle_paper(facts: &BundleFacts) -> Paper {
    let sections: Vec<(&str, Vec<Part>)> = vec![
        ("Product", product(facts)),
        ("Formula by INCI name", vec![formula_table(facts)]),
        ("Raw materials and documents", vec![material_table(facts)]),
        ("Method", method(facts)),
        ("Specification", specification(facts)),
        ("Preservation", state(facts, PaperField::ChallengeTest, "No challenge test (ISO 11930) is entered.")),
        ("Label", label_section(&facts.label)),
        ("Findings and answers", findings(facts)),
        ("How far it is", readiness(facts)),
        ("Not in this bundle", vec![Part::List(NOT_HERE.map(str::to_owned).to_vec())]),
    ];
    let mut parts = vec![
        Part::Text(NO_ASSESSMENT.to_owned()),
        Part::Text(known_to()),
        Part::Contents(sections.iter().map(|(head, _)| (*head).to_owned()).collect()),
        Part::NewPage,
    ];
    for (head, section) in sections {
        parts.push(Part::Heading(1, head.to_owned()));
        parts.extend(section);
    }
    Paper { title: format!("Assessor\u{2019}s bundle: {}", facts.about.title), foot: foot(&facts.about.title), parts }
}

/// Sections whose room this program does not have yet.
const NOT_HERE: [&str; 4] = [
    "Batch records: none are kept here yet. Add those of the batches that were made.",
    "Stability test: no observations are kept here yet. Add the plan and its results.",
    "Toxicological profiles, impurities and exposure: the assessor\u{2019}s part.",
    "The suppliers\u{2019} documents themselves: add those that are named under raw materials.",
];

fn product(facts: &BundleFacts) -> Vec<Part> {
    let about = &facts.about;
    let mut rows = vec![
        vec!["Name".to_owned(), about.title.clone()],
        vec!["For".to_owned(), page::audience(about.audience).to_owned()],
        vec!["Use".to_owned(), format!("{}, {}", page::purpose(about.purpose), page::area(about.area))],
        vec!["Pack".to_owned(), page::pack(about.pack).to_owned()],
        vec!["Region".to_owned(), region(about.region).to_owned()],
    ];
    if !about.notes.trim().is_empty() {
        rows.push(vec!["Notes".to_owned(), about.notes.clone()]);
    }
    vec![table(&["What", "Stated"], &[], rows)]
}

/// A region by name.
pub const fn region(region: Region) -> &'static str {
    match region {
        Region::Eu => "European Union and Northern Ireland",
        Region::Gb => "Great Britain",
        Region::Us => "United States",
        Region::Elsewhere => "elsewhere",
    }
}

fn formula_table(facts: &BundleFacts) -> Part {
    let known = |trust: Trust| match trust {
        Trust::Plain => "as weighed",
        Trust::Maker => "supplier\u{2019}s document",
        Trust::Table => "usual range, from memory",
        Trust::Open => "share not known",
    };
    let rows = facts.substances.iter().map(|one| {
        vec![
            one.name.clone(),
            share(one.range.0),
            share(one.range.1),
            if one.inside { "within a fragrance or oil".to_owned() } else { one.functions.clone() },
            known(one.trust).to_owned(),
        ]
    });
    table(&["INCI name", "From, %", "To, %", "Functions of its raw material", "Known from"], &[1, 2], rows.collect())
}

fn material_table(facts: &BundleFacts) -> Part {
    let text = |text: &Option<String>| text.clone().unwrap_or_else(|| "none named".to_owned());
    let rows = facts.materials.iter().map(|one| {
        let own: Vec<&str> = one.overridden.iter().map(|field| page::field(*field)).collect();
        vec![
            one.name.clone(),
            one.share.map_or_else(String::new, share),
            text(&one.document),
            one.lot.clone().unwrap_or_else(|| "\u{2013}".to_owned()),
            own.join(", "),
        ]
    });
    table(&["Raw material", "%", "Documents", "Lot", "Values of the maker\u{2019}s own"], &[1], rows.collect())
}

fn method(facts: &BundleFacts) -> Vec<Part> {
    let mut parts = Vec::new();
    for step in &facts.steps {
        let heat = step.heat.map_or_else(String::new, |heat| format!(", {}", degrees(heat)));
        parts.push(Part::Heading(2, format!("{}{heat}", step.phase)));
        let line =
            |(name, note): &(String, String)| if note.is_empty() { name.clone() } else { format!("{name}: {note}") };
        parts.push(Part::List(step.lines.iter().map(line).collect()));
    }
    parts
}

fn specification(facts: &BundleFacts) -> Vec<Part> {
    let ph = facts
        .about
        .target_ph
        .value()
        .map_or_else(|| "not stated".to_owned(), |ph| format!("{} (target)", ph.canonical()));
    let water = facts.water_activity.clone().unwrap_or_else(|| "not measured".to_owned());
    vec![
        table(&["What", "Stated"], &[], vec![vec!["pH".to_owned(), ph], vec!["Water activity".to_owned(), water]]),
        Part::Text("Appearance, odour, viscosity and microbial limits are not kept here yet.".to_owned()),
    ]
}

fn state(facts: &BundleFacts, field: PaperField, none: &str) -> Vec<Part> {
    let text = facts.state.iter().find(|(at, _)| *at == field).and_then(|(_, text)| text.clone());
    vec![Part::Text(text.unwrap_or_else(|| none.to_owned()))]
}

fn label_section(facts: &LabelFacts) -> Vec<Part> {
    let format = crate::paper::LABEL_FORMATS[4];
    let (labels, leaflet) = labels(facts, format);
    let mut parts: Vec<Part> =
        labels.lines.into_iter().map(|line| Part::Text(line.text)).chain(leaflet.into_iter().map(Part::Text)).collect();
    parts = vec![Part::Frame(parts)];
    parts.extend(missing(&facts.gaps));
    parts
}

fn findings(facts: &BundleFacts) -> Vec<Part> {
    let row = |one: &BundleFinding| {
        let mut text = finding(&one.finding, &one.names);
        if let Some(answer) = &one.answer {
            text += &format!(" {}", answered(answer));
        } else if one.lapsed {
            text += " There is an answer, but it lacks something or is of another value.";
        }
        let verified = if one.finding.verified() { "" } else { " (unverified)" };
        vec![page::grade(one.finding.grade).to_owned(), text, format!("{}{verified}", one.finding.source())]
    };
    let mut parts = vec![table(&["Grade", "Finding", "Source"], &[], facts.findings.iter().map(row).collect())];
    parts.push(Part::Text(format!("{} more checks found nothing amiss.", facts.fine)));
    parts
}

/// Who took a Stop on, and why.
pub fn answered(answer: &Answer) -> String {
    let day = if answer.day.is_empty() { String::new() } else { format!(", {}", answer.day) };
    format!("Taken on by {}{day}: {}", answer.person, answer.reason)
}

/// How far things are, without a verdict.
fn readiness(facts: &BundleFacts) -> Vec<Part> {
    let said = |field: PaperField, none: &str| {
        let text = facts.state.iter().find(|(at, _)| *at == field).and_then(|(_, text)| text.clone());
        text.unwrap_or_else(|| none.to_owned())
    };
    let named = facts.materials.iter().filter(|one| one.document.is_some()).count();
    let stops = facts.findings.iter().filter(|one| one.finding.grade == Grade::Stop);
    let open = stops.clone().filter(|one| one.answer.is_none()).count();
    let rows = [
        ("Assessment", said(PaperField::Assessor, "not assessed")),
        ("Challenge test", said(PaperField::ChallengeTest, "none entered")),
        ("Stability", said(PaperField::Stability, "none entered")),
        ("Notification", said(PaperField::Notified, "none entered")),
        ("Documents of raw materials", format!("{named} of {} named", facts.materials.len())),
        ("Stops", format!("{} found, {open} without an answer", stops.count())),
        ("Label", format!("missing: {}", facts.label.gaps.len())),
    ];
    vec![
        table(&["What", "How far"], &[], rows.into_iter().map(|(what, far)| vec![what.to_owned(), far]).collect()),
        Part::Text("This list says how far things are. It does not say that the product may be sold.".to_owned()),
    ]
}
