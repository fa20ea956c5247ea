//! Label, safety sheet and bundle: they hold what the sheet holds, name what is missing, and never give a verdict.

use hundred_parts::desk::{Action, Bench, Cupboard, DocId, Moment, demo, document_text, read_export};
use hundred_parts::facts::{Field, IngredientId, Shelf};
use hundred_parts::formula::{Answer, Audience, PaperField, Region};
use hundred_parts::paper::{
    Caution, Gap, Keeps, LABEL_FORMATS, LabelFacts, LabelLine, Part, bundle_facts, fits, label_facts, safety_facts,
};
use hundred_parts::rules::{self, Finding, Grade, Standing, standing};
use hundred_parts::sheet::{Sheet, compute};
use hundred_parts::words;

/// The demo on a bench, with the maker's shelf beside it.
struct Workshop {
    bench: Bench,
    shelf: Shelf,
}

impl Workshop {
    fn new() -> Self {
        let bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), Moment::from_millis(0));
        Self { bench, shelf: Shelf::default() }
    }

    fn act(mut self, action: Action) -> Self {
        self.bench.act(action, Moment::from_millis(0));
        self
    }

    fn paper(self, field: PaperField, text: &str) -> Self {
        self.act(Action::Paper(field, text.to_owned()))
    }

    fn derive(&self) -> (Sheet, Vec<Finding>) {
        let state = self.bench.state();
        let sheet = compute(&state.formula, &state.plan, &state.lye, &self.shelf);
        let findings = rules::check(&state.formula, &sheet, &self.shelf);
        (sheet, findings)
    }

    fn label(&self) -> LabelFacts {
        let (sheet, findings) = self.derive();
        label_facts(&self.bench.state().formula, &sheet, &findings)
    }

    fn safety(&self) -> String {
        let (sheet, findings) = self.derive();
        words::safety_paper(&safety_facts(&self.bench.state().formula, &sheet, &findings, &self.shelf)).text()
    }

    fn bundle(&self) -> String {
        let (sheet, findings) = self.derive();
        words::bundle_paper(&bundle_facts(&self.bench.state().formula, &sheet, &findings, &self.shelf)).text()
    }
}

/// Everything that a label needs in the European Union.
fn complete() -> Workshop {
    Workshop::new()
        .paper(PaperField::Responsible, "Marsh Lane Workshop")
        .paper(PaperField::Address, "3 Marsh Lane, Saltby")
        .paper(PaperField::NetContent, "100 g")
        .paper(PaperField::BatchCode, "H-07")
        .paper(PaperField::BestBefore, "06/2027")
        .paper(PaperField::Function, "Hand lotion")
}

// Source: Regulation (EC) 1223/2009 Article 19(1), items (a) to (g), from national authorities' pages.
#[test]
fn label_names_what_is_missing() {
    let gaps = Workshop::new().label().gaps;
    for gap in [Gap::Responsible, Gap::Address, Gap::NetContent, Gap::BatchCode, Gap::BestBefore, Gap::Function] {
        assert!(gaps.contains(&gap), "{gap:?}");
    }
    assert!(!gaps.contains(&Gap::Contact), "asked for in the United States only");
    let mut whole = complete();
    let id = IngredientId::parse("sodium-phytate").unwrap();
    whole.shelf.set(&id, Field::Components, "sodium phytate 50; water 50");
    assert_eq!(whole.label().gaps, []);
    assert!(complete().act(Action::Region(Region::Us)).label().gaps.contains(&Gap::Contact));
}

// Source: Commission page on the period after opening and the Irish authority's labelling page: up to thirty months a date,
// above that the months after opening.
#[test]
fn label_thirty_months_decide_between_date_and_opening() {
    let made = |months: &str, opened: &str, date: &str| {
        Workshop::new()
            .paper(PaperField::Durability, months)
            .paper(PaperField::AfterOpening, opened)
            .paper(PaperField::BestBefore, date)
            .label()
    };
    for (months, keeps) in [("29", false), ("30", false), ("31", true), ("", false)] {
        let label = made(months, "12", "");
        assert_eq!(matches!(label.keeps, Keeps::AfterOpening(_)), keeps, "{months}");
        assert_eq!(label.gaps.contains(&Gap::BestBefore), !keeps, "{months}");
    }
    assert!(made("36", "", "").gaps.contains(&Gap::AfterOpening));
    assert_eq!(made("12", "", "06/2027").keeps, Keeps::Until("06/2027".into()));
    assert!(matches!(made("12", "6", "06/2027").keeps, Keeps::Both(..)));
}

// Source: the international avoirdupois ounce (28.349523125 g) and the US fluid ounce (29.5735295625 mL), by definition.
#[test]
fn label_content_has_the_units_of_its_region() {
    use hundred_parts::formula::Content;
    use hundred_parts::quantity::{Mass, Quantity, Volume};
    let mass = |grams: &str| Content::Mass(Mass::from_canonical(grams).unwrap());
    let volume = |ml: &str| Content::Volume(Volume::from_canonical(ml).unwrap());
    for (content, region, expected) in [
        (mass("50"), Region::Eu, "50\u{2009}g"),
        (mass("1500"), Region::Eu, "1.5\u{2009}kg"),
        (volume("250"), Region::Gb, "250\u{2009}mL"),
        (volume("1000"), Region::Eu, "1\u{2009}L"),
        (mass("50"), Region::Us, "Net wt. 1.76\u{2009}oz (50\u{2009}g)"),
        (mass("453.592370"), Region::Us, "Net wt. 16\u{2009}oz (453.59237\u{2009}g)"),
        (volume("100"), Region::Us, "3.38\u{2009}fl. oz (100\u{2009}mL)"),
    ] {
        assert_eq!(words::content(content, region), expected);
    }
}

#[test]
fn label_too_small_for_its_text_sends_to_a_leaflet() {
    let facts = complete().label();
    let small = words::label_paper(&facts, LABEL_FORMATS[1]);
    let large = words::label_paper(&facts, LABEL_FORMATS[4]);
    let leaflet = "Warnings and ingredients: see the leaflet.";
    assert!(small.text().contains(leaflet) && !large.text().contains(leaflet));
    // Whichever it is, nothing is cut: the list is in full on the label or on the leaflet.
    for paper in [&small, &large] {
        let list = format!("Ingredients: {}", facts.ingredients.join(", "));
        assert!(paper.text().contains(&list));
    }
    assert!(matches!(&small.parts[0], Part::Labels(labels) if labels.ruler_mm == 50 && labels.letter_um >= 1_200));
}

// Worked by hand for a label of 38.1 mm by 63.5 mm: 34.1 mm are free. Letters of 2.4 mm make rows of 2.88 mm with 0.3 mm
// behind a paragraph: ten paragraphs of one row take 31.8 mm, eleven 34.98 mm. In 59.5 mm are 41 letters.
#[test]
fn label_lines_are_counted_in_rows() {
    let line = |text: &str| LabelLine { text: text.to_owned(), strong: false, figure_um: None };
    let fits = |count: usize, text: &str| fits(&vec![line(text); count], LABEL_FORMATS[1].label_um, 2_400);
    assert!(fits(10, &"x".repeat(41)) && !fits(11, "x"));
    assert!(fits(5, &"x".repeat(42)) && !fits(6, &"x".repeat(42)), "a letter more is a row more");
    assert!(!fits(6, "two\nrows"));
}

#[test]
fn label_letters_grow_where_there_is_room_and_a_label_too_small_says_so() {
    let labels = |made: &Workshop, n: usize| match &words::label_paper(&made.label(), LABEL_FORMATS[n]).parts[0] {
        Part::Labels(labels) => labels.clone(),
        _ => panic!(),
    };
    let made = complete();
    assert!(labels(&made, 4).letter_um > labels(&made, 0).letter_um);
    assert!(LABEL_FORMATS.iter().enumerate().all(|(n, _)| !labels(&made, n).too_small));
    let long = complete().paper(PaperField::Address, &"A very long lane with a long name, ".repeat(20));
    assert!(labels(&long, 1).too_small);
    assert!(words::label_paper(&long.label(), LABEL_FORMATS[1]).text().contains(words::LABEL_TOO_SMALL));
    assert!(!words::label_paper(&made.label(), LABEL_FORMATS[1]).text().contains(words::LABEL_TOO_SMALL));
}

// Source: 21 CFR 701.3 (1996): letters of at least 1/16 inch; the figures of a net content after Directive 76/211/EEC, from
// memory: 2 mm to 50, 3 mm to 200, 4 mm to 1000, then 6 mm.
#[test]
fn label_letters_and_figures_are_high_enough() {
    assert_eq!(complete().act(Action::Region(Region::Us)).label().letter_um, 1_587);
    for (content, figure) in
        [("50 g", 2_000), ("51 g", 3_000), ("200 g", 3_000), ("201 g", 4_000), ("1 kg", 4_000), ("1001 g", 6_000)]
    {
        assert_eq!(complete().paper(PaperField::NetContent, content).label().figure_um, Some(figure), "{content}");
    }
}

#[test]
fn label_carries_the_cautions_of_the_rules() {
    let mut made = complete();
    let add = |made: &mut Workshop, id: &str, share: &str| {
        let phase = made.bench.state().formula.phases()[2].id;
        let Some(line) = made_line(made.bench.act(Action::AddLine(phase, 99), Moment::from_millis(0))) else {
            panic!()
        };
        made.bench.act(Action::ChooseLine(line, IngredientId::parse(id).unwrap()), Moment::from_millis(0));
        made.bench.act(Action::ShareLine(line, share.to_owned()), Moment::from_millis(0));
    };
    assert_eq!(made.label().cautions, []);
    add(&mut made, "retinyl-palmitate", "0.05");
    add(&mut made, "dmdm-hydantoin", "0.1");
    add(&mut made, "salicylic-acid", "0.1");
    let cautions = made.label().cautions;
    assert_eq!(cautions, [Caution::Formaldehyde, Caution::NotUnderThree, Caution::VitaminA]);
    let text = words::label_paper(&made.label(), LABEL_FORMATS[4]).text();
    for caution in cautions {
        assert!(text.contains(words::caution(caution)));
    }
}

fn made_line(made: hundred_parts::desk::Made) -> Option<hundred_parts::formula::LineId> {
    match made {
        hundred_parts::desk::Made::Line(line) => Some(line),
        _ => None,
    }
}

#[test]
fn safety_sheet_holds_what_the_sheet_holds() {
    let made = complete().act(Action::Audience(Audience::Pregnant));
    let (sheet, _) = made.derive();
    let text = made.safety();
    for listed in &sheet.label.ingredients {
        assert!(text.contains(&listed.name), "{}", listed.name);
    }
    for expected in [
        "A product for pregnancy",
        "Causes severe skin burns and eye damage. (H314)",
        "hot oil",
        "midwife",
        "Stick blender",
        "never clean with chlorine bleach",
        "poison centre",
        words::NO_ASSESSMENT,
        "Rules as known on 2026-11-25",
        "Nothing is known here of the hazards of",
    ] {
        assert!(text.contains(expected), "{expected}");
    }
}

#[test]
fn bundle_names_every_section_and_what_is_not_there() {
    let mut made = complete();
    let id = IngredientId::parse("glycerin").unwrap();
    made.shelf.set(&id, Field::Document, "Data sheet of 3 May 2026");
    made.shelf.set(&id, Field::Lot, "G-118");
    let text = made.bundle();
    for expected in [
        "Formula by INCI name",
        "Data sheet of 3 May 2026",
        "G-118",
        "Water phase, 72",
        "5.2 (target)",
        "No challenge test (ISO 11930) is entered.",
        "not assessed",
        "Batch records: none are kept here yet.",
        "It does not say that the product may be sold.",
        "usual range, from memory",
        words::NO_ASSESSMENT,
    ] {
        assert!(text.contains(expected), "{expected}");
    }
}

#[test]
fn papers_never_call_anything_safe() {
    let made = complete();
    for text in [made.safety(), made.bundle(), words::label_paper(&made.label(), LABEL_FORMATS[0]).text()] {
        // Where the word stands, it is denied.
        let text = text.to_lowercase();
        let text =
            text.replace("no test shows that a product is safe.", "").replace("says of nothing that it is safe.", "");
        for claim in
            ["is safe.", "is safe,", "certified", "approved", "guarantee", "hypoallergenic", "dermatologically"]
        {
            assert!(!text.contains(claim), "{claim}");
        }
    }
}

/// A Stop is answered with a reason and a name; the answer is kept, shown on paper, undone, and lapses with another value.
#[test]
fn answers_to_stops_are_kept_shown_undone_and_lapse() {
    let now = Moment::from_millis(0);
    let mut made = complete().act(Action::TargetPh("7.8".into()));
    let stop = made.derive().1.into_iter().find(|finding| finding.grade == Grade::Stop).unwrap();
    let formula = &made.bench.state().formula;
    assert_eq!(standing(&stop, formula), Some(Standing::Open));
    let answer = Answer {
        finding: stop.key(formula),
        value: stop.value().unwrap_or_default(),
        reason: "Rinsed off by the maker after a minute, a test of her own.".into(),
        person: "Ada Reedman".into(),
        day: "2026-11-25".into(),
    };
    made.bench.act(Action::Answer(Answer { person: String::new(), ..answer.clone() }), now);
    assert!(matches!(standing(&stop, &made.bench.state().formula), Some(Standing::Unfinished(_))));
    made.bench.act(Action::Answer(answer), now);
    assert!(matches!(standing(&stop, &made.bench.state().formula), Some(Standing::Answered(_))));
    let bundle = made.bundle();
    assert!(bundle.contains("Taken on by Ada Reedman, 2026-11-25: Rinsed off by the maker"), "{bundle}");
    // It comes back from a file as it was.
    let text = document_text(made.bench.document(), &made.shelf);
    let again = read_export(&text).unwrap();
    assert_eq!(again.documents[0].state.formula.papers, made.bench.state().formula.papers);
    // A graver value is another finding.
    made.bench.act(Action::TargetPh("7.9".into()), now);
    let graver = made
        .derive()
        .1
        .into_iter()
        .find(|finding| finding.key(&made.bench.state().formula) == stop.key(&made.bench.state().formula))
        .unwrap();
    assert!(matches!(standing(&graver, &made.bench.state().formula), Some(Standing::Lapsed(_))));
    assert!(made.bench.undo(now) && made.bench.undo(now));
    assert_eq!(standing(&stop, &made.bench.state().formula), Some(Standing::Open));
}

#[test]
fn papers_texts_survive_export_and_a_link_without_notes_drops_them() {
    let made = complete().act(Action::Region(Region::Gb)).paper(PaperField::WaterActivity, "0,97");
    let again = read_export(&document_text(made.bench.document(), &made.shelf)).unwrap();
    let formula = &again.documents[0].state.formula;
    assert_eq!((formula.about.region, &formula.papers), (Region::Gb, &made.bench.state().formula.papers));
    let link = |notes| hundred_parts::desk::decode(&hundred_parts::desk::encode(made.bench.state(), notes)).unwrap();
    assert_eq!(link(false).documents[0].state.formula.papers.texts().count(), 0);
    assert_eq!(link(true).documents[0].state.formula.papers, made.bench.state().formula.papers);
    let bad = document_text(made.bench.document(), &made.shelf).replace("\"batch_code\"", "\"batch_colour\"");
    assert!(read_export(&bad).unwrap_err().to_string().starts_with("formula.papers.batch_colour: found"));
}

/// The contract of the command line: findings and label with their keys.
#[test]
fn report_has_findings_and_label() {
    let text = document_text(&demo(), &Shelf::default());
    let report: serde_json::Value = serde_json::from_str(&words::sheet_report(&text).unwrap()).unwrap();
    for finding in report["findings"].as_array().unwrap() {
        for key in ["rule", "grade", "lines", "value", "limit", "source", "verified", "message"] {
            assert!(finding.get(key).is_some(), "{key}");
        }
        assert!(["stop", "care", "unknown", "fine"].contains(&finding["grade"].as_str().unwrap()));
    }
    let label = &report["label"];
    assert_eq!(label["ingredients"][0], "Aqua");
    assert_eq!(label["allergens"][0]["name"], "Benzyl Alcohol");
    assert_eq!(report["rules_known_to"], "2026-11-25");
}

// Source: Regulation (EC) 1223/2009 Article 19(1)(g), read in part: falling order, below one percent any order, colourants
// last, "Parfum", allergens named.
#[test]
fn label_list_is_in_the_order_of_the_law() {
    let mut made = complete();
    let now = Moment::from_millis(0);
    let phase = made.bench.state().formula.phases()[2].id;
    for (id, share) in [("lavender-essential-oil", "0.3"), ("iron-oxide", "2"), ("titanium-dioxide", "3")] {
        let line = made_line(made.bench.act(Action::AddLine(phase, 99), now)).unwrap();
        made.bench.act(Action::ChooseLine(line, IngredientId::parse(id).unwrap()), now);
        made.bench.act(Action::ShareLine(line, share.into()), now);
    }
    let lavender = IngredientId::parse("lavender-essential-oil").unwrap();
    made.shelf.set(&lavender, Field::AllergenStatement, "Linalool 35\nLinalyl acetate 40");
    let (sheet, _) = made.derive();
    let names = sheet.label.names();
    let place =
        |name: &str| names.iter().position(|known| *known == name).unwrap_or_else(|| panic!("{name}: {names:?}"));
    assert_eq!(place("Aqua"), 0);
    assert!(place("CI 77891") > place("Linalool") && place("CI 77491") > place("Dehydroacetic Acid"));
    assert!(place("Linalool") > place("Parfum") && place("Lavandula Oil/Extract") > place("Parfum"));
    assert!(!names.contains(&"Lavandula Angustifolia Oil"), "the oil stands as Parfum");
    let above: Vec<_> = sheet.label.ingredients.iter().take_while(|one| !one.under_one).collect();
    assert!(above.windows(2).all(|pair| pair[0].share >= pair[1].share));
    let us = made.act(Action::Region(Region::Us));
    let (sheet, _) = us.derive();
    assert_eq!((sheet.label.names()[0], sheet.label.names().contains(&"Fragrance")), ("Water", true));
}
