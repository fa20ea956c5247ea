//! Documents, links and actions: what goes out comes in again, and nothing from outside breaks anything.

use hundred_parts::desk::{
    Action, Bench, Cupboard, DocId, Document, LinkProblem, Made, Moment, ShelfAction, Snapshot, State, collection_text,
    crc32, decode, demo, document_text, encode, encode_for_qr, read_export, title_with,
};
use hundred_parts::facts::{Field, IngredientId, Shelf};
use hundred_parts::formula::{LineId, PhaseId, PhaseKind, Use};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::sheet::{AlkaliChoice, LyeField, PlanField, Saponified};
use proptest::prelude::*;

fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,3}([.,][0-9]{0,4})?",
        Just("q.s.".to_owned()),
        Just("1.234".to_owned()),
        Just("<b>&\u{202e}\"".to_owned()),
        "\\PC{0,12}",
    ]
}

const PLAN_FIELDS: [PlanField; 10] = [
    PlanField::Jars,
    PlanField::Fill,
    PlanField::Density,
    PlanField::Loss,
    PlanField::Mass,
    PlanField::Vessel,
    PlanField::HeadRoom,
    PlanField::Step,
    PlanField::Repeatability,
    PlanField::Tolerance,
];

/// An action on whatever line and phase there are; `pick` chooses among them.
fn action() -> impl Strategy<Value = (u8, usize, String)> {
    (0u8..23, any::<usize>(), text())
}

fn make(bench: &Bench, (kind, pick, text): (u8, usize, String)) -> Action {
    let formula = &bench.state().formula;
    let lines: Vec<LineId> = formula.lines().map(|(_, line)| line.id).collect();
    let phases: Vec<PhaseId> = formula.phases().iter().map(|phase| phase.id).collect();
    let (Some(line), Some(phase)) =
        (lines.get(pick % lines.len().max(1)).copied(), phases.get(pick % phases.len().max(1)).copied())
    else {
        return Action::AddPhase(PhaseKind::Oil, text);
    };
    match kind {
        0 => Action::Title(text),
        1 => Action::AddPhase(PhaseKind::Other, text),
        2 => Action::RemovePhase(phase),
        3 => Action::MovePhase(phase, pick % 5),
        4 => Action::HeatPhase(phase, text),
        5 | 6 => Action::AddLine(phase, pick % 4),
        7 => Action::RemoveLine(line),
        8 => Action::MoveLine(line, phase, pick % 4),
        9 => Action::NudgeLine(line, pick % 2 == 0),
        10 => Action::NameLine(line, text),
        11 => Action::ShareLine(line, text),
        12 => Action::FillUp(line),
        13 => Action::NoteLine(line, text),
        14 => Action::Hand(line, text),
        15 => Action::DropLine(line, lines[(pick / 7) % lines.len()], pick % 2 == 0),
        16 => {
            let oils = ["olive", "coconut", "castor"].map(|id| IngredientId::parse(id).unwrap());
            let count = pick % 3 + 1;
            let share = |n: usize| Percent::from_units((pick % 97 + n) as i64 * 1_000_003);
            Action::SwapLine(line, oils.into_iter().take(count).enumerate().map(|(n, oil)| (oil, share(n))).collect())
        }
        17 => Action::Saponify(if pick % 3 == 0 { Saponified::Soap } else { Saponified::Lines(vec![line]) }),
        18 => Action::LyeText(LyeField::Discount, text),
        19 => Action::LyeText([LyeField::Ratio, LyeField::SodiumPurity, LyeField::Concentration][pick % 3], text),
        20 => Action::Alkali(AlkaliChoice::ALL[pick % 3]),
        21 => Action::Purpose(Use::ALL[pick % 3]),
        _ => Action::PlanText(PLAN_FIELDS[pick % PLAN_FIELDS.len()], text),
    }
}

fn worked_on(steps: Vec<(u8, usize, String)>) -> Bench {
    let now = Moment::from_millis(0);
    let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
    for step in steps {
        let action = make(&bench, step);
        bench.act(action, now);
        bench.rest();
    }
    bench
}

proptest! {
    #[test]
    fn undo_of_everything_is_the_beginning_and_redo_the_end(steps in prop::collection::vec(action(), 0..40)) {
        let now = Moment::from_millis(0);
        let mut bench = worked_on(steps);
        let end = bench.state().clone();
        while bench.undo(now) {}
        prop_assert_eq!(bench.state().write(), demo().state.write());
        while bench.redo(now) {}
        prop_assert_eq!(bench.state(), &end);
    }

    #[test]
    fn criterion_15_export_then_import_is_the_same_document(steps in prop::collection::vec(action(), 0..40)) {
        let bench = worked_on(steps);
        let mut document = bench.document().clone();
        document.save_version(Moment::from_millis(1_000));
        let once = document_text(&document, bench.shelf());
        let again = read_export(&once).map_err(|problem| TestCaseError::fail(problem.to_string()))?;
        // Characters that rearrange the page do not come in again, and nothing else changes.
        let twice = document_text(&again.documents[0], &again.shelf);
        let thrice = read_export(&twice).map_err(|problem| TestCaseError::fail(problem.to_string()))?;
        prop_assert_eq!(&document_text(&thrice.documents[0], &thrice.shelf), &twice);
        if !once.contains('\u{202e}') && !once.contains("\\u") {
            prop_assert_eq!(&twice, &once);
        }
    }

    #[test]
    fn link_brings_the_same_formula(steps in prop::collection::vec(action(), 0..30)) {
        let bench = worked_on(steps);
        for fragment in [encode(bench.state(), bench.shelf(), true), encode_for_qr(bench.state(), bench.shelf(), true)] {
            let incoming = decode(&fragment).map_err(|problem| TestCaseError::fail(format!("{problem:?}")))?;
            let plain = read_export(&document_text(&Document { state: bench.state().clone(), versions: Vec::new() }, &Shelf::default()));
            let plain = plain.map_err(|problem| TestCaseError::fail(problem.to_string()))?;
            prop_assert_eq!(incoming.documents[0].state.write(), plain.documents[0].state.write());
        }
    }

    #[test]
    fn any_text_into_the_link_decoder_gives_a_value_or_an_error(text in "\\PC{0,200}") {
        let _ = decode(&text);
        let _ = decode(&format!("#1.{text}"));
    }

    #[test]
    fn any_bytes_in_a_link_give_a_value_or_an_error(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = decode(&format!("#1.{}", data_encoding::BASE64URL_NOPAD.encode(&bytes)));
        // With a right checksum the bytes reach the reader itself.
        let mut whole = crc32(&bytes).to_le_bytes().to_vec();
        whole.extend(miniz_oxide::deflate::compress_to_vec(&bytes, 6));
        let _ = decode(&format!("#1.{}", data_encoding::BASE64URL_NOPAD.encode(&whole)));
    }

    #[test]
    fn scaling_is_linear_where_the_scale_can_show_it(factor in 1i64..50) {
        let now = Moment::from_millis(0);
        let masses = |jars: i64| {
            let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
            bench.act(Action::PlanText(PlanField::Jars, jars.to_string()), now);
            bench.act(Action::PlanText(PlanField::Fill, "100".into()), now);
            bench.act(Action::PlanText(PlanField::Loss, String::new()), now);
            bench.derive().sheet.weigh.unwrap().lines.iter().map(|line| hundred_parts::quantity::Quantity::units(line.mass)).collect::<Vec<_>>()
        };
        // The demo's shares are multiples of 0.05 %, so 100 g at 0.01 g is weighed exactly.
        let one = masses(1);
        prop_assert_eq!(masses(factor), one.iter().map(|mass| mass * factor).collect::<Vec<_>>());
    }
}

#[test]
fn typed_text_survives_export_to_the_letter() {
    let now = Moment::from_millis(0);
    let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
    let line = bench.state().formula.lines().nth(1).unwrap().1.id;
    for text in ["4,50 %", "1.5x", "1.", "0,3"] {
        bench.act(Action::ShareLine(line, text.into()), now);
        let again = read_export(&document_text(bench.document(), bench.shelf())).unwrap();
        let kept = again.documents[0].state.formula.lines().nth(1).unwrap().1.share.typed().unwrap().text().to_owned();
        assert_eq!(kept, text);
    }
}

/// A field that was emptied must not come back with its usual value: of the scale's readability that would be a guess.
#[test]
fn emptied_field_stays_empty_in_an_export() {
    let now = Moment::from_millis(0);
    let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
    for field in PLAN_FIELDS {
        bench.act(Action::PlanText(field, String::new()), now);
    }
    bench.act(Action::LyeText(LyeField::Discount, " ".into()), now);
    let once = document_text(bench.document(), bench.shelf());
    let again = read_export(&once).unwrap();
    assert_eq!(again.documents[0].state.plan, bench.state().plan);
    assert_eq!(document_text(&again.documents[0], &again.shelf), once);
}

#[test]
fn collection_brings_every_formula_and_own_ingredients() {
    let mut shelf = Shelf::default();
    let id: IngredientId = shelf.add_own("Harbour balm base");
    shelf.set(&id, Field::Inci, "Cera Alba");
    let text = collection_text([demo(), Document::default()].iter(), &shelf);
    let again = read_export(&text).unwrap();
    assert_eq!(again.documents.len(), 2);
    assert_eq!(again.shelf.entry(&id).unwrap().inci().unwrap().value, "Cera Alba");
}

#[test]
fn link_cut_anywhere_is_refused() {
    let whole = encode(&demo().state, &Shelf::default(), false);
    for end in 3..whole.len() - 1 {
        assert!(decode(&whole[..end]).is_err(), "cut at {end}");
    }
    assert!(matches!(decode("#3.AAAA"), Err(LinkProblem::Newer)));
    assert!(matches!(decode("#/batch"), Err(LinkProblem::NotALink)));
}

#[test]
fn link_of_a_bomb_is_refused() {
    let zeros = vec![0u8; 10_000_000];
    let mut bytes = crc32(&zeros).to_le_bytes().to_vec();
    bytes.extend(miniz_oxide::deflate::compress_to_vec(&zeros, 9));
    assert!(matches!(
        decode(&format!("1.{}", data_encoding::BASE64URL_NOPAD.encode(&bytes))),
        Err(LinkProblem::Damaged)
    ));
}

/// Source: RFC 4648 section 5 (the URL-safe alphabet) and RFC 1951 (raw deflate): the link is taken apart here with the
/// standard's parts alone.
#[test]
fn link_is_base64url_of_a_checksum_and_raw_deflate() {
    let link = encode(&demo().state, &Shelf::default(), false);
    let body = link.strip_prefix("2.").unwrap();
    assert!(body.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-' || b == b'_'), "RFC 4648 section 5");
    let bytes = data_encoding::BASE64URL_NOPAD.decode(body.as_bytes()).unwrap();
    let text = miniz_oxide::inflate::decompress_to_vec(&bytes[4..]).unwrap();
    assert_eq!(crc32(&text).to_le_bytes(), bytes[..4]);
}

/// Twenty lines of the longest names are the worst that a maker writes.
#[test]
fn criterion_16_a_formula_of_twenty_lines_makes_a_short_link() {
    let now = Moment::from_millis(0);
    let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
    let phase = bench.state().formula.phases()[1].id;
    for (id, share) in [
        ("jojoba", "2.5"),
        ("squalane", "2"),
        ("propanediol", "1.5"),
        ("allantoin", "0.3"),
        ("niacinamide", "2"),
        ("urea", "3"),
    ] {
        bench.act(Action::AddLine(phase, 0), now);
        let line = bench.state().formula.phases()[1].lines[0].id;
        bench.act(Action::ChooseLine(line, IngredientId::parse(id).unwrap()), now);
        bench.act(Action::ShareLine(line, share.into()), now);
    }
    assert_eq!(bench.state().formula.lines().count(), 20);
    let link = encode(bench.state(), bench.shelf(), false);
    println!(
        "twenty lines: {} characters, {} for a QR code",
        link.len(),
        encode_for_qr(bench.state(), bench.shelf(), false).len()
    );
    // The rest of 700 is for the address of the page.
    assert!(link.len() <= 600, "{} characters", link.len());
    assert_eq!(decode(&link).unwrap().documents[0].state.formula.lines().count(), 20);
}

#[test]
fn criterion_18_a_link_has_names_of_own_ingredients_and_nothing_else_of_the_shelf() {
    let now = Moment::from_millis(0);
    let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
    let id = bench.act_on_shelf(ShelfAction::Add("Quince seed oil".into())).unwrap();
    for (field, text) in
        [(Field::Inci, "Cydonia Seed Oil"), (Field::Lot, "SECRET-LOT"), (Field::Document, "SECRET-SUPPLIER")]
    {
        bench.act_on_shelf(ShelfAction::Set(id.clone(), field, text.into()));
    }
    bench.act_on_shelf(ShelfAction::Add("Not in the formula".into()));
    let line = bench.state().formula.lines().nth(4).unwrap().1.id;
    bench.act(Action::ChooseLine(line, id.clone()), now);
    bench.act(Action::Notes("SECRET-NOTE".into()), now);
    bench.act(Action::NoteLine(line, "SECRET-LINE-NOTE".into()), now);
    for (with_notes, secrets) in [(false, 0), (true, 2)] {
        let incoming = decode(&encode(bench.state(), bench.shelf(), with_notes))
            .expect("a link with an own ingredient opens elsewhere");
        assert_eq!(incoming.shelf.entry(&id).unwrap().inci().unwrap().value, "Cydonia Seed Oil");
        assert_eq!(incoming.shelf.own_ids().count(), 1);
        let all = collection_text(incoming.documents.iter(), &incoming.shelf);
        assert_eq!(all.matches("SECRET").count(), secrets, "{all}");
    }
}

/// Links live in mails and on jars: each version that was ever made opens for ever.
#[test]
fn criterion_12_released_links_open() {
    for (link, lines) in [
        (include_str!("formats/link-1.txt"), 2),
        (include_str!("formats/link-1q.txt"), 2),
        (include_str!("formats/link-2.txt"), 14),
    ] {
        let incoming = decode(link.trim()).unwrap();
        assert_eq!(incoming.documents[0].state.formula.lines().count(), lines, "{link}");
    }
}

/// Every version of the format that was ever released opens for ever.
#[test]
fn released_version_one_opens() {
    let incoming = read_export(include_str!("formats/version-1.json")).unwrap();
    let state: &State = &incoming.documents[0].state;
    assert_eq!(state.formula.about.title, "Harbour hand lotion");
    assert_eq!(state.formula.lines().count(), 4);
    // With lots, which came later and are missing from older files.
    let incoming = read_export(include_str!("formats/version-1-lots.json")).unwrap();
    let (_, line) = incoming.documents[0].state.formula.lines().nth(1).unwrap();
    assert_eq!(line.lot, "L6");
    assert_eq!(incoming.shelf.lots_of(line.choice.id().unwrap()).len(), 2);
}

#[test]
fn fill_up_that_moves_leaves_its_share_behind() {
    let now = Moment::from_millis(0);
    let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
    let lines: Vec<LineId> = bench.state().formula.lines().map(|(_, line)| line.id).collect();
    assert_eq!(bench.act(Action::ShareLine(lines[1], "qs".into()), now), Made::Nothing);
    let formula = &bench.state().formula;
    assert_eq!(formula.fill_up(), Some(lines[1]));
    assert_eq!(formula.line(lines[0]).unwrap().share.typed().unwrap().text(), "69.2");
}

/// Source: JSON Schema draft 2020-12 by an independent validator, over documents that random work left behind.
#[test]
fn every_exported_document_fits_the_schema() {
    let schema = serde_json::from_str(include_str!("../public/hundred-parts-1.schema.json")).unwrap();
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("hundred-parts.json", schema).unwrap();
    let schema = compiler.compile("hundred-parts.json", &mut schemas).unwrap();
    let fits = |text: &str| {
        let value = serde_json::from_str(text).unwrap();
        schemas.validate(&value, schema).map_err(|problem| TestCaseError::fail(problem.to_string()))
    };
    assert!(fits(r#"{"format":"hundred-parts","version":1,"formula":{"phases":3}}"#).is_err(), "it can refuse");
    let lots = include_str!("formats/version-1-lots.json");
    assert!(fits(lots).is_ok() && fits(&lots.replace("\"date\"", "\"day\"")).is_err(), "also in a lot");
    assert!(fits(include_str!("formats/version-1.json")).is_ok());
    let work = prop::collection::vec(action(), 0..40);
    let mut runner =
        proptest::test_runner::TestRunner::new(ProptestConfig::with_cases(ProptestConfig::default().cases / 2));
    runner
        .run(&(work, text()), |(steps, value)| {
            let mut bench = worked_on(steps);
            bench.save_version(Moment::from_millis(0));
            let id = bench.act_on_shelf(hundred_parts::desk::ShelfAction::Add("Plum oil".into())).unwrap();
            use hundred_parts::desk::ShelfAction::{AddLot, Set, SetLot};
            bench.act_on_shelf(Set(id.clone(), Field::Density, value.clone()));
            bench.act_on_shelf(AddLot(id.clone()));
            bench.act_on_shelf(SetLot(id, 0, hundred_parts::facts::LotField::Statement, value.clone()));
            let line = bench.state().formula.lines().next().map(|(_, line)| line.id);
            if let Some(line) = line {
                bench.act(Action::LotOfLine(line, value), Moment::from_millis(0));
            }
            fits(&document_text(bench.document(), bench.shelf()))?;
            fits(&collection_text([bench.document()].into_iter(), bench.shelf()))
        })
        .unwrap();
}

/// As much of the text as a field of so many UTF-16 code units takes in.
fn typed_into(units: usize, text: &str) -> String {
    let mut left = units;
    text.chars().take_while(|c| left.checked_sub(c.len_utf16()).map(|rest| left = rest).is_some()).collect()
}

// The limits of the fields are those of the HTML attribute `maxlength`, counted in UTF-16 code units (HTML Living
// Standard, 4.10.5.3.1). What a field takes in must come back from the journal and from the page's own files, however
// many bytes it has: three to a code unit in most scripts of Asia.
#[test]
fn whatever_fits_into_the_fields_is_read_again() {
    for script in ["\u{30ed}", "\u{44f}", "\u{1f9f4}", "a\u{301}", "\u{5d0}\"\\"] {
        let (name, note) = (typed_into(200, &script.repeat(200)), typed_into(20_000, &script.repeat(20_000)));
        let now = Moment::from_millis(1);
        let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
        let own = bench.act_on_shelf(ShelfAction::Add(name.clone())).unwrap();
        bench.act_on_shelf(ShelfAction::Set(own, Field::AllergenStatement, note.clone()));
        let line = bench.state().formula.lines().next().map(|(_, line)| line.id).unwrap();
        for action in [
            Action::Title(name.clone()),
            Action::Notes(note.clone()),
            Action::NameLine(line, name.clone()),
            Action::NoteLine(line, typed_into(2000, &note)),
        ] {
            bench.act(action, now);
        }
        // Copies of copies too.
        for n in 0..20 {
            let title = title_with(&bench.state().formula.about.title, " (copy from another tab)");
            bench.split_off(DocId::random(n), title, now);
        }
        let (formula, shelf) = (bench.take_commit().unwrap(), bench.take_shelf_commit(now).unwrap());
        let again = Bench::open(&formula.slot, formula.steps.put, Cupboard::default());
        assert_eq!(again.unwrap().state().write(), bench.state().write(), "{script}");
        assert_eq!(
            Cupboard::open(&shelf.slot, Vec::new())
                .map(|cupboard| Bench::new(DocId::random(2), demo(), cupboard, now).shelf().clone()),
            Some(bench.shelf().clone()),
            "{script}"
        );
        let file = document_text(bench.document(), bench.shelf());
        assert!(read_export(&file).is_ok(), "{script}");
    }
}

#[test]
fn no_more_lines_and_phases_than_are_read_again() {
    let now = Moment::from_millis(1);
    let mut bench = Bench::new(DocId::random(1), Document::default(), Cupboard::default(), now);
    for _ in 0..60 {
        bench.act(Action::AddPhase(PhaseKind::Oil, "Oil".into()), now);
    }
    let phase = bench.state().formula.phases()[0].id;
    for n in 0..600 {
        bench.act(Action::AddLine(phase, n), now);
    }
    let slot = bench.take_commit().unwrap().slot;
    let again = Bench::open(&slot, Vec::new(), Cupboard::default()).expect("a formula that was made here is read here");
    assert_eq!((again.state().formula.phases().len(), again.state().formula.lines().count()), (50, 500));
}
