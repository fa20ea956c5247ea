//! The safety sheet: cautions in use and in making, first aid, what was checked.

use super::checked::checked_short;
use super::hazards::hazard_frame;
use super::{NO_ASSESSMENT, UNVERIFIED, answered, degrees, foot, region};
use crate::formula::Audience;
use crate::paper::{Block, Caution, Paper, SafetyFacts, tally};
use crate::words::{DecimalSign, differs, finding, known_to, lots, page};

/// The safety sheet.
pub fn safety_paper(facts: &SafetyFacts) -> Paper {
    let about = &facts.about;
    let mut parts = vec![
        Block::Text(for_whom(facts)),
        Block::Heading(1, "What is in it".to_owned()),
        Block::Text(facts.label.ingredients.join(", ")),
    ];
    let sources: Vec<String> = facts.sources.iter().map(|(name, source)| format!("{name}: {source}")).collect();
    if !sources.is_empty() {
        parts.push(Block::Text(format!("Made from: {}.", sources.join("; "))));
    }
    parts.push(Block::Heading(1, "Cautions for use".to_owned()));
    parts.push(Block::Frame(vec![Block::List(in_use(facts))]));
    parts.push(Block::Heading(1, "First aid".to_owned()));
    parts.push(Block::Columns(FIRST_AID.map(str::to_owned).to_vec()));
    parts.push(Block::Heading(1, "Cautions while making".to_owned()));
    parts.extend(beware(facts).map(Block::Text));
    for one in &facts.hazards.known {
        parts.push(hazard_frame(one));
    }
    parts.push(Block::Heading(2, "At the bench".to_owned()));
    let work = facts.work.iter().map(|row| {
        let wear =
            if row.protection.is_empty() { String::new() } else { format!(" Wear: {}.", row.protection.join(", ")) };
        format!("{}: {}{wear}", row.material, row.handling)
    });
    parts.push(Block::Columns(work.collect()));
    parts.push(Block::Heading(1, "What was checked".to_owned()));
    let differs = differs(about.region).map_or_else(String::new, |text| format!("{text} "));
    let (checked, place) = (checked(facts), region(about.region));
    parts.push(Block::Text(format!("{checked} {UNVERIFIED} Made for: {place}. {differs}{}", known_to())));
    parts.extend(checked_short(&facts.checked));
    if !facts.stops.is_empty() {
        let sentences = facts.stops.iter().map(|stop| match &stop.answer {
            Some(answer) => format!("{} {}", finding(&stop.finding, &stop.names, DecimalSign::Point), answered(answer)),
            None => format!("{} Not answered yet.", finding(&stop.finding, &stop.names, DecimalSign::Point)),
        });
        let sentences = sentences.collect();
        parts.push(Block::Frame(vec![Block::Text("Findings graded Stop:".to_owned()), Block::List(sentences)]));
    }
    parts.push(Block::Frame(vec![Block::Text(NO_ASSESSMENT.to_owned())]));
    Paper { title: format!("Safety sheet: {}", about.title), foot: foot(&about.title), parts }
}

/// What the whole batch asks for: heat, acids, materials of which nothing is known.
fn beware(facts: &SafetyFacts) -> Option<String> {
    let heat = facts.hottest.map(|heat| format!("The hottest phase is {}.", degrees(heat)));
    let acids = facts.acids.then(|| {
        "Acids are in use: never clean with chlorine bleach near them; together they give off a toxic gas.".to_owned()
    });
    let names = &facts.hazards.unknown;
    let unknown = (!names.is_empty()).then(|| {
        format!(
            "The hazards of {} are not known to this program. That does not mean that there are none: read the data sheets.",
            names.join(", ")
        )
    });
    let said: Vec<String> = [heat, acids, unknown].into_iter().flatten().collect();
    (!said.is_empty()).then(|| said.join(" "))
}

fn for_whom(facts: &SafetyFacts) -> String {
    let about = &facts.about;
    format!(
        "For {}: {}, {}, {}.",
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
    "Swallowed: rinse the mouth, do not make the person vomit, call a poison centre with this sheet in hand.",
    "Burn from hot oil or wax: cool running water for 20 minutes, no ice. See a doctor for blisters.",
    "Trouble breathing, or swelling of the face or throat: call an ambulance.",
];

fn in_use(facts: &SafetyFacts) -> Vec<String> {
    let caution = |one: &Caution| {
        let (wording, basis) = crate::facts::caution(one.key())?;
        Some(if basis.holds() { wording.to_owned() } else { format!("{wording} (Wording unverified.)") })
    };
    let mut lines: Vec<String> = facts.cautions().iter().filter_map(caution).collect();
    lines.extend(facts.label.law.iter().map(|words| format!("{} ({})", words.text, words.entries.join(", "))));
    lines.extend(
        [
            "For intact skin only. Keep out of eyes, mouth and open wounds. Stop if skin reddens, itches or swells.",
            "Before first use: put a little on a coin-sized spot of skin, such as the bend of the elbow, twice a day for 7 to 10 days. A home test of a day or two misses delayed allergies, and no test shows that a product is safe. Do not test on children.",
            "Keep out of reach of children. Use clean hands or a spatula in the jar. Throw it away if it smells off, separates, changes colour or shows specks.",
        ]
        .map(str::to_owned),
    );
    match facts.about.audience {
        Audience::UnderThree => lines.push("For small children, use only what an assessor has reviewed for them; never on premature babies or babies under three months without clinical advice.".to_owned()),
        Audience::Pregnant => lines.push("Ask a midwife or doctor before use in pregnancy. On the breast, a nursing baby swallows it.".to_owned()),
        Audience::Adult | Audience::ChildThreePlus => {}
    }
    lines.extend(facts.label.storage.iter().map(|text| format!("Storage: {text}")));
    if facts.label.storage.is_none() {
        lines.push("Storage: keep closed, cool and dark.".to_owned());
    }
    let named: Vec<&str> = facts
        .findings
        .iter()
        .filter(|one| one.message() == Some(crate::rules::MessageId::AllergensNamed))
        .map(|one| one.detail.subject.as_str())
        .collect();
    if !named.is_empty() {
        let from = if facts.label.lots.is_empty() {
            String::new()
        } else {
            format!(" Counted from {}.", lots(&facts.label.lots))
        };
        lines.push(format!("Fragrance allergens above the threshold: {}.{from}", named.join(", ")));
    }
    lines
}

fn checked(facts: &SafetyFacts) -> String {
    let [(_, stop), (_, care), (_, unknown), (_, fine)] = tally(&facts.findings);
    let (checked, open) = facts.judged();
    let open = if open.is_empty() { "nothing".to_owned() } else { open.join(", ") };
    format!(
        "{} checks ran: {stop} Stop, {care} Care, {unknown} Unknown, {fine} Fine. Not assessed, or only in part: {open}. Findings that rest on unverified values: {}. Not checked at all: microbes in the product, stability, impurities, the packaging, exposure, toxicology, and local rules beyond those named.",
        checked.len(),
        facts.unverified()
    )
}
