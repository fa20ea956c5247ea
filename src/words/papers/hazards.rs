//! One hazard on the safety sheet, framed.

use super::degrees;
use crate::facts::{Hazard, Provenance, statement};
use crate::paper::{Block, FoundHazard, Pictogram, pictogram};

/// What it is of, its signs and statements, how to handle it, and where that was read.
pub(super) fn hazard_frame(found: &FoundHazard) -> Block {
    let hazard = found.row;
    let head = match &found.part {
        Some(part) => format!("{}: its part {part}", found.name),
        None => found.name.clone(),
    };
    let mut parts = vec![Block::Heading(2, format!("{head}{}", days(hazard)))];
    let pictograms: Vec<Pictogram> = hazard.pictograms.iter().filter_map(|code| pictogram(code)).collect();
    if !pictograms.is_empty() {
        parts.push(Block::Pictograms(pictograms));
    }
    parts.push(Block::Text(format!("{}{}", signal(hazard), said(&hazard.statements, &hazard.added))));
    if !hazard.precautions.is_empty() {
        parts.push(Block::Text(said(&hazard.precautions, &[])));
    }
    parts.push(Block::Text(handling(hazard)));
    parts.push(Block::Text(source(found)));
    Block::Frame(parts)
}

const fn signal(hazard: &Hazard) -> &'static str {
    match hazard.danger {
        Some(true) => "Danger. ",
        Some(false) => "Warning. ",
        None => "Not classified, or classified in different ways. ",
    }
}

/// Between which days a classification has to be used.
fn days(hazard: &Hazard) -> String {
    let since = hazard.since.map(|day| format!(", from {day}"));
    let until = hazard.until.map(|day| format!(", until {day}"));
    since.into_iter().chain(until).collect()
}

fn said(codes: &[&str], added: &[&str]) -> String {
    let mark = |code: &str| if added.contains(&code) { ", added by suppliers" } else { "" };
    let texts = codes.iter().filter_map(|code| Some(format!("{} ({code}{})", statement(code)?, mark(code))));
    texts.collect::<Vec<_>>().join(" ")
}

fn handling(hazard: &Hazard) -> String {
    let mut handling = hazard.handling.to_owned();
    if !hazard.protection.is_empty() {
        handling += &format!(" Wear: {}.", hazard.protection.join(", "));
    }
    if !hazard.away_from.is_empty() {
        handling += &format!(" Keep away from: {}.", hazard.away_from.join(", "));
    }
    if let Some((flash, seen)) = hazard.flash {
        let memory = if seen.is_verified() { "" } else { " (unverified)" };
        handling += &format!(" Its vapour can ignite from {}{memory}.", degrees(flash));
    }
    handling
}

fn source(found: &FoundHazard) -> String {
    let basis = &found.row.basis;
    let memory = if basis.provenance == Provenance::Memory { " Partly unverified." } else { "" };
    let part = if found.part.is_some() {
        " Stated for the undiluted part; the blend\u{2019}s own data sheet says how the blend is classified."
    } else {
        ""
    };
    format!("Source: {}.{memory}{part} Your supplier\u{2019}s data sheet takes precedence.", basis.source)
}
