//! What the law asks of a product's file, against what is in the bundle: nothing that is open is passed over.
//!
//! The points are those of Annex I, part A, and of Article 11(2) of Regulation (EC) No 1223/2009, from memory.

use super::table;
use crate::formula::PaperField;
use crate::paper::{Block, BundleFacts, BundleSubstance};

const HEAD: &str = "Points of Annex I, part A, and of Article 11(2) of Regulation (EC) No 1223/2009, against this bundle. The list of points is unverified: compare it with the law.";
const NOTHING: &str = "nothing";

/// The table of points.
pub(super) fn open_points(facts: &BundleFacts) -> Vec<Block> {
    vec![Block::Text(HEAD.to_owned()), table(&["Point", "In this bundle", "Open"], &[], rows(facts))]
}

fn rows(facts: &BundleFacts) -> Vec<Vec<String>> {
    let text = |field: PaperField| {
        let said = facts.state.iter().find(|(at, _)| *at == field).and_then(|(_, text)| text.clone());
        said.unwrap_or_else(|| NOTHING.to_owned())
    };
    let mut rows = vec![
        vec!["A 1: composition".to_owned(), COMPOSITION.to_owned(), numbers_open(facts)],
        vec![
            "A 2: physical and chemical characteristics, stability".to_owned(),
            text(PaperField::Stability),
            "The report of a stability test in the pack as sold, and the specifications of substances and product."
                .to_owned(),
        ],
        vec![
            "A 3: microbiological quality".to_owned(),
            text(PaperField::ChallengeTest),
            "Microbial limits, and the report of a challenge test where the product can grow microbes.".to_owned(),
        ],
    ];
    rows.extend(POINTS.iter().map(|cells| cells.map(str::to_owned).to_vec()));
    rows
}

const COMPOSITION: &str =
    "substances with INCI name, percentage and function, and CAS and EC numbers where they are known here";

/// Point, what is here, what is open.
const POINTS: [[&str; 3]; 12] = [
    [
        "A 4: impurities, traces, packaging material",
        NOTHING,
        "Purity of every raw material, traces that cannot be avoided technically, and what the packaging is made of. Ask the suppliers.",
    ],
    [
        "A 5: normal and reasonably foreseeable use",
        "use, area, audience and warnings",
        "How it may be misused, and the explanation of the warnings.",
    ],
    [
        "A 6: exposure to the product",
        NOTHING,
        "Amount, area, how often and how long; who is exposed, also by foreseeable use.",
    ],
    ["A 7: exposure to the substances", NOTHING, "Follows from A 6 and the percentages of the formula."],
    [
        "A 8: toxicological profile of the substances",
        NOTHING,
        "All relevant endpoints, the no observed adverse effect level and the margin of safety. Ask a toxicologist.",
    ],
    [
        "A 9: undesirable and serious undesirable effects",
        NOTHING,
        "Reports of users, also that there are none yet, and who collects them.",
    ],
    [
        "A 10: other information on the product",
        NOTHING,
        "Existing studies with volunteers, findings of other risk assessments.",
    ],
    [
        "Art. 11(2)(a): description of the product",
        "the section Product",
        "A picture of product and pack, and the code by which both are found again.",
    ],
    [
        "Art. 11(2)(b): safety report",
        "this bundle, as material for part A",
        "Part A in full, and part B, which a qualified assessor writes and signs.",
    ],
    [
        "Art. 11(2)(c): method and good manufacturing practice",
        "the method",
        "A statement that it is made by good manufacturing practice (Article 8), with its procedures and batch records.",
    ],
    [
        "Art. 11(2)(d): proof of the effect claimed",
        NOTHING,
        "Proof, where the nature or the claimed effect of the product calls for it.",
    ],
    [
        "Art. 11(2)(e): data on animal testing",
        NOTHING,
        "A statement on tests on animals by maker and suppliers, also those made for other laws or countries.",
    ],
];

/// Which substances lack a number.
fn numbers_open(facts: &BundleFacts) -> String {
    let named = |lacks: fn(&BundleSubstance) -> bool| {
        let names: Vec<&str> = facts.substances.iter().filter(|one| lacks(one)).map(|one| one.name.as_str()).collect();
        names.join(", ")
    };
    let (cas, ec) = (named(|one| one.numbers.cas.is_empty()), named(|one| one.numbers.ec.is_empty()));
    let lack = |what: &str, names: String| (!names.is_empty()).then(|| format!("No {what} number here: {names}."));
    let open: Vec<String> = [lack("CAS", cas), lack("EC", ec)].into_iter().flatten().collect();
    if open.is_empty() {
        "Compare the numbers with the suppliers\u{2019} documents.".to_owned()
    } else {
        open.join(" ")
    }
}
