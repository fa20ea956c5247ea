//! The lye sheet: the cautions in full before the first gram of lye, then what to weigh, and what to expect of the soap.

use super::{NO_ASSESSMENT, UNVERIFIED, foot, table};
use crate::paper::{Block, LyeFacts, Paper};
use crate::words::{SheetStyle, lye, oils, page};

/// The lye sheet.
pub fn lye_paper(facts: &LyeFacts, style: SheetStyle) -> Paper {
    let text = |text: &str| Block::Text(text.to_owned());
    let head = |text: &str| Block::Heading(2, text.to_owned());
    let mut parts = vec![
        Block::Frame(vec![text(lye::NO_LOTION)]),
        head(oils::CAUTIONS),
        Block::List(facts.cautions.iter().map(|one| lye::caution(*one).to_owned()).collect()),
        text(lye::CAUTION_SOURCE),
        head(oils::WEIGH_LYE),
        doses(facts, style),
        Block::Text(lye::solution(facts, style)),
        Block::Text(lye::discount(facts, style.sign)),
        head(oils::LEFT_OVER),
        Block::List(lye::left_over(facts, style.sign).map(|(what, value)| format!("{what}: {value}")).to_vec()),
    ];
    if !facts.notes.is_empty() {
        parts.push(Block::List(facts.notes.iter().map(|(note, name)| lye::note(note, name, style.sign)).collect()));
    }
    parts.push(fats(facts, style));
    if !facts.acids.is_empty() {
        parts.push(head(oils::ACIDS));
        parts.push(Block::List(facts.acids.iter().map(|acid| lye::acid_row(acid, style.sign)).collect()));
    }
    parts.push(head(oils::EXPECT));
    let rows = || facts.alkalis.iter().filter_map(|dose| dose.row);
    parts.extend(rows().flat_map(|row| [lye::expected_ph(row), lye::cure(row)]).map(Block::Text));
    parts.extend(rows().map(|row| Block::Text(lye::label(row))));
    parts.push(Block::Text(format!("{} {UNVERIFIED}", lye::DEFER)));
    parts.push(text(NO_ASSESSMENT));
    Paper { title: format!("{} \u{2013} {}", lye::TITLE, facts.title), foot: foot(&facts.title), parts }
}

fn doses(facts: &LyeFacts, style: SheetStyle) -> Block {
    let alkalis = facts.alkalis.iter().map(|dose| (lye::alkali(dose.alkali), dose.weigh));
    let rows = alkalis.chain([(oils::WATER, facts.water)]).map(|(what, mass)| vec![what.to_owned(), style.mass(mass)]);
    table(&[page::INGREDIENT, page::WEIGHED], &[1], rows.collect())
}

fn fats(facts: &LyeFacts, style: SheetStyle) -> Block {
    let rows =
        facts.fats.iter().map(|fat| vec![fat.name.clone(), style.mass(fat.mass), lye::fat_value(fat, style.sign)]);
    let total = vec![page::TOTAL.to_owned(), style.mass(facts.fat_mass), String::new()];
    table(&[oils::FAT, oils::MASS, oils::SV_RANGE], &[1, 2], rows.chain([total]).collect())
}
