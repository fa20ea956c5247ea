//! The weigh sheet: premixes first, then a table for each phase with room for lots and initials.

use super::{NO_ASSESSMENT, foot, table};
use crate::formula::NewStep;
use crate::paper::{Block, Paper, WeighFacts, WeighPhase, WeighRow};
use crate::words::{SheetStyle, as_premix, asked_text, method, page, phase_heat, premix_text, row_notes, worst_text};

/// The weigh sheet, and the steps by which what is weighed is made.
pub fn weigh_paper(facts: &WeighFacts, steps: &[NewStep], style: SheetStyle) -> Paper {
    let asked = asked_text(facts, style).unwrap_or_default();
    let mut parts = vec![Block::Text(format!("{} {}{asked}", page::BATCH_MASS, style.mass(facts.batch)))];
    parts.extend(worst_text(facts, style).map(Block::Text));
    if !facts.premixes.is_empty() {
        let rows = facts.premixes.iter().map(|row| format!("{}{}", row.active_name, premix_text(row, style)));
        parts.push(Block::Heading(2, page::PREMIX.to_owned()));
        parts.push(Block::List(rows.collect()));
        parts.push(Block::Text(page::PREMIX_CARE.to_owned()));
    }
    for phase in &facts.blocks {
        let heat = phase_heat(phase, style).unwrap_or_default();
        parts.push(Block::Heading(2, format!("{}{heat}", phase.name)));
        parts.push(phase_table(phase, style));
    }
    if !steps.is_empty() {
        let step = |(n, step): (usize, &NewStep)| format!("{}. {}", n + 1, method::line(step, style.sign));
        parts.push(Block::Heading(2, method::TITLE.to_owned()));
        parts.push(Block::List(steps.iter().enumerate().map(step).collect()));
    }
    parts.push(Block::Text(page::PRINT_CARE.to_owned()));
    parts.push(Block::Text(NO_ASSESSMENT.to_owned()));
    Paper { title: format!("{}: {}", page::WEIGH_SHEET, facts.title), foot: foot(&facts.title), parts }
}

fn phase_table(phase: &WeighPhase, style: SheetStyle) -> Block {
    let total =
        vec![page::TOTAL.to_owned(), style.percent(phase.share), style.mass(phase.mass), String::new(), String::new()];
    let rows = phase.rows.iter().map(|row| weigh_row(row, style)).chain([total]);
    table(&[page::INGREDIENT, page::PERCENT, page::WEIGHED, page::WEIGHED_BLANK, page::LOT], &[1, 2], rows.collect())
}

/// A row; what more there is to say of its name or its mass stands below in the same cell.
fn weigh_row(row: &WeighRow, style: SheetStyle) -> Vec<String> {
    let name: Vec<String> =
        [row.name.clone()].into_iter().chain(row.inci.clone()).chain(row_notes(row, style)).collect();
    let mass: Vec<String> =
        [style.mass(row.on_scale)].into_iter().chain(row.as_premix.map(|part| as_premix(part, style))).collect();
    vec![name.join("\n"), style.percent(row.share), mass.join("\n"), String::new(), String::new()]
}
