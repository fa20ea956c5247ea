//! Ten creams: five that pharmacopoeias print and that hold, five that part.
//!
//! Sources: British Pharmacopoeia (BP), United States Pharmacopeia (USP), European Pharmacopoeia and the formulary of Martindale
//! (The Extra Pharmacopoeia), each composition from memory; what parts is common practice, no source. Preservatives and scent
//! of the originals that play no part in the emulsion are left out.

use hundred_parts::desk::read_document;
use hundred_parts::facts::Field;
use hundred_parts::rules::{self, Finding, Grade, MessageId};
use hundred_parts::sheet::{EmulsionSystem, Sheet, compute};
use hundred_parts::shelf::Shelf;
use hundred_parts::words::{DecimalSign, finding};

/// A phase's lines: an ingredient of the table, or `=` before the INCI name of one that a maker describes.
type Lines = &'static [(&'static str, &'static str)];

fn cream(water: Lines, oil: Lines) -> (Sheet, Vec<Finding>) {
    let mut shelf = Shelf::default();
    let mut phase = |kind: &str, lines: Lines| {
        let line = |(what, share): &(&str, &str)| {
            let id = what.strip_prefix('=').map_or_else(
                || (*what).to_owned(),
                |inci| {
                    let own = shelf.add_own(inci);
                    shelf.set(&own, Field::Inci, inci);
                    own.to_string()
                },
            );
            format!(r#"{{"ingredient":"{id}","percent":"{share}"}}"#)
        };
        format!(r#"{{"kind":"{kind}","lines":[{}]}}"#, lines.iter().map(line).collect::<Vec<_>>().join(","))
    };
    let phases = [phase("water", water), phase("oil", oil)].join(",");
    let text = format!(r#"{{"format":"hundred-parts","version":1,"formula":{{"phases":[{phases}]}}}}"#);
    let document = read_document(&text, &mut shelf).unwrap();
    let state = &document.state;
    let sheet = compute(&state.formula, &state.plan, &state.lye, &shelf);
    let findings = rules::check(&state.formula, &sheet, &shelf);
    (sheet, findings)
}

/// What the rules say of how the emulsion is made.
fn of_making(findings: &[Finding]) -> Vec<&Finding> {
    findings.iter().filter(|finding| ["emulsifier", "clash"].contains(&finding.rule)).collect()
}

fn text(found: &Finding) -> String {
    finding(found, &[], DecimalSign::Point)
}

#[track_caller]
fn holds(name: &str, system: Option<EmulsionSystem>, (sheet, findings): (Sheet, Vec<Finding>)) {
    let found = sheet.emulsion.as_ref().map(|found| found.system);
    assert_eq!(found, system, "{name}: {:?}", sheet.composition.substances);
    let making = of_making(&findings);
    for found in &making {
        assert!(found.grade != Grade::Stop && !found.is_lowered(), "{name}: {}", text(found));
    }
    // A cream that was recognised is spoken of.
    assert_eq!(making.is_empty(), system.is_none(), "{name}");
}

/// Each has at least one finding that would stop but for resting on custom or memory, and says what to do.
#[track_caller]
fn parts(name: &str, said: MessageId, (_, findings): (Sheet, Vec<Finding>)) {
    let making = of_making(&findings);
    let found = making.iter().find(|found| found.message() == Some(said));
    let found = found.unwrap_or_else(|| panic!("{name}: {:?}", making.iter().map(|one| text(one)).collect::<Vec<_>>()));
    assert!(found.grade == Grade::Stop || found.is_lowered(), "{name}: {}", text(found));
    let told = text(found);
    assert!(["Add ", "Use ", "Replace "].iter().any(|verb| told.contains(verb)), "{name} without a remedy: {told}");
}

// Aqueous Cream BP: emulsifying ointment 30, phenoxyethanol 1, water 69; emulsifying ointment: emulsifying wax 30, white
// soft paraffin 50, liquid paraffin 20; emulsifying wax: cetostearyl alcohol 90, sodium cetostearyl sulfate 10 (memory).
#[test]
fn aqueous_cream_holds() {
    let oil: Lines =
        &[("petrolatum", "15"), ("mineral-oil", "6"), ("cetearyl-alcohol", "8.1"), ("=Sodium Cetearyl Sulfate", "0.9")];
    holds("aqueous", Some(EmulsionSystem::GelNetwork), cream(&[("water", "69"), ("phenoxyethanol", "1")], oil));
}

// Cetomacrogol Cream BP (formula A): cetomacrogol emulsifying ointment 30, chlorocresol 0.1, water 69.9; the ointment:
// cetomacrogol emulsifying wax 30, white soft paraffin 50, liquid paraffin 20; the wax: cetostearyl alcohol 80, macrogol
// cetostearyl ether (22) 20 (memory).
#[test]
fn cetomacrogol_cream_holds() {
    let oil: Lines =
        &[("petrolatum", "15"), ("mineral-oil", "6"), ("cetearyl-alcohol", "7.2"), ("ceteareth-20", "1.8")];
    holds("cetomacrogol", Some(EmulsionSystem::GelNetwork), cream(&[("water", "70")], oil));
    // Emulsifying wax 15 with liquid paraffin 6, which was a Stop once.
    let oil: Lines = &[("mineral-oil", "6"), ("cetearyl-alcohol", "12"), ("ceteareth-20", "3")];
    holds("with wax 15", Some(EmulsionSystem::GelNetwork), cream(&[("water", "79")], oil));
}

// Hydrophilic Ointment USP: stearyl alcohol 250 g, white petrolatum 250 g, propylene glycol 120 g, sodium lauryl sulfate
// 10 g, water 370 g (memory).
#[test]
fn hydrophilic_ointment_holds() {
    let water: Lines = &[("water", "37"), ("propylene-glycol", "12"), ("=Sodium Lauryl Sulfate", "1")];
    // A 25th of the alcohol is little sulfate, and holds: see the ratio of what a network needs.
    let oil: Lines = &[("petrolatum", "25"), ("=Stearyl Alcohol", "25")];
    holds("hydrophilic", Some(EmulsionSystem::GelNetwork), cream(water, oil));
}

// Rose Water Ointment USP (cold cream): spermaceti or cetyl esters wax 125 g, white wax 120 g, almond oil 560 g, sodium borate
// 5 g, stronger rose water 25 mL, water 165 mL (memory).
#[test]
fn cold_cream_of_beeswax_and_borax_holds() {
    let water: Lines = &[("water", "16.5"), ("rose-hydrosol", "2.5"), ("=Sodium Borate", "0.5")];
    let oil: Lines = &[("=Cetyl Esters", "12.5"), ("beeswax", "12"), ("almond-sweet", "56")];
    holds("cold cream", Some(EmulsionSystem::Soap), cream(water, oil));
}

// Oily Cream BP (hydrous ointment): wool alcohols ointment 50, phenoxyethanol 1, magnesium sulfate 0.5, water 48.5; the
// ointment: wool alcohols 6, hard paraffin 24, white soft paraffin 10, liquid paraffin 60 (memory). Water in oil.
#[test]
fn oily_cream_holds_as_water_in_oil() {
    let water: Lines = &[("water", "48.5"), ("phenoxyethanol", "1"), ("=Magnesium Sulfate", "0.5")];
    let oil: Lines = &[("=Lanolin Alcohol", "3"), ("=Paraffin", "12"), ("petrolatum", "5"), ("mineral-oil", "30")];
    let made = cream(water, oil);
    let said = of_making(&made.1).iter().any(|found| found.message() == Some(MessageId::WaterInOil));
    assert!(said, "{:?}", of_making(&made.1));
    holds("oily", Some(EmulsionSystem::WaterInOil), made);
}

#[test]
fn oil_and_water_without_an_emulsifier_part() {
    parts("no emulsifier", MessageId::NoEmulsifier, cream(&[("water", "80")], &[("almond-sweet", "20")]));
    // Wool fat alone holds no oil in so much water.
    let wool: Lines = &[("almond-sweet", "18"), ("lanolin", "2")];
    parts("wool fat alone", MessageId::NoEmulsifier, cream(&[("water", "80")], wool));
}

#[test]
fn lotion_with_a_water_in_oil_emulsifier_alone_parts() {
    let oil: Lines = &[("almond-sweet", "16"), ("sorbitan-oleate", "4")];
    parts("sorbitan oleate", MessageId::LipophilicOnly, cream(&[("water", "80")], oil));
    // One that was made for water in oil, with more water than its droplets have room for.
    let (sheet, findings) =
        cream(&[("water", "82")], &[("almond-sweet", "15"), ("=Polyglyceryl-3 Diisostearate", "3")]);
    assert_eq!(sheet.emulsion.map(|found| found.system), Some(EmulsionSystem::WaterInOil));
    let packed = of_making(&findings).into_iter().find(|found| found.message() == Some(MessageId::WaterPacked));
    assert_eq!(packed.map(|found| found.grade), Some(Grade::Care));
}

#[test]
fn far_too_little_emulsifier_parts() {
    let oil: Lines = &[("almond-sweet", "25"), ("emulsifying-wax-nf", "1")];
    parts("wax 1 to 25", MessageId::EmulsifierLow, cream(&[("water", "74")], oil));
}

#[test]
fn cationic_with_an_anionic_parts() {
    let oil: Lines = &[("almond-sweet", "12"), ("behentrimonium-methosulfate-cetearyl-alcohol", "4")];
    let made = cream(&[("water", "83"), ("sodium-stearoyl-lactylate", "1")], oil);
    assert_eq!(made.0.emulsion.as_ref().map(|found| found.system), Some(EmulsionSystem::Cationic));
    parts("cationic with anionic", MessageId::CationicWithAnionic, made);
}

#[test]
fn polymer_that_salt_collapses_parts() {
    let oil: Lines = &[("mct", "12"), ("acrylates-c10-30-alkyl-acrylate-crosspolymer", "0.3")];
    let made = cream(&[("water", "85.7"), ("sodium-pca-50", "2")], oil);
    assert_eq!(made.0.emulsion.as_ref().map(|found| found.system), Some(EmulsionSystem::Polymeric));
    parts("polymer and salt", MessageId::PolymerSalted, made);
}

/// Each kind is named in its finding, with what it is judged by.
#[test]
fn findings_name_the_kind_and_what_it_is_judged_by() {
    let told = |water: Lines, oil: Lines| {
        let (_, findings) = cream(water, oil);
        of_making(&findings).iter().map(|one| text(one)).collect::<Vec<_>>().join(" ")
    };
    let water: Lines = &[("water", "80")];
    for (oil, kind, by) in [
        (&[("almond-sweet", "15"), ("emulsifying-wax-nf", "5")][..], "gel network", "HLB does not decide"),
        (&[("almond-sweet", "15"), ("cetearyl-olivate-sorbitan-olivate", "5")], "liquid crystals", "share of the oils"),
        (
            &[("almond-sweet", "15"), ("behentrimonium-methosulfate-cetearyl-alcohol", "5")],
            "cationic",
            "anionic breaks",
        ),
        (&[("almond-sweet", "15"), ("sorbitan-stearate", "3"), ("polysorbate-60", "2")], "nonionic", "by HLB"),
        (&[("almond-sweet", "15"), ("sodium-stearoyl-lactylate", "5")], "anionic", "cationic breaks"),
        (&[("almond-sweet", "15"), ("glyceryl-stearate-se", "5")], "soap", "pH"),
    ] {
        let said = told(water, oil);
        assert!(said.contains("Recognised: ") && said.contains(kind) && said.contains(by), "{kind}: {said}");
    }
}
