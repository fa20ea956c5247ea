//! Photographs of samples: taken, kept, shown, carried in files, and the room that they take.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::proof::{condition, day, short_day};
use super::{DecimalSign, number};
use crate::batch::study::{MOST_KEPT, NoRoom, Pull, PullPoint, PullUnit, StudyPhotograph, Tally};
use crate::desk::PhotographMatches;
use crate::quantity::{Day, Decimal};

pub const TITLE: &str = "Photographs";
pub const TAKE: &str = "Take a photograph";
pub const CHOOSE: &str = "Choose a photograph";
pub const ABOUT: &str = "A photograph is made smaller on this device, without camera data such as where it was taken. It is kept in this browser only.";
pub const SAME_LIGHT: &str =
    "A change shows best in the same light, from the same distance, on the same plain background.";
pub const MAKING_SMALL: &str = "Making the photograph smaller\u{2026}";
pub const PREVIEW: &str = "The photograph as it would be kept";
pub const CAPTION: &str = "What it shows";
pub const CAPTION_HINT: &str = "For who cannot see it. Leave it empty to call it";
pub const KEEP: &str = "Keep this photograph";
pub const DISCARD: &str = "Discard it";
pub const KEPT: &str = "Photograph kept.";
pub const DISCARDED: &str = "Photograph discarded.";
pub const WAITS: &str = "The photograph is not kept yet. Keep or discard it first.";
pub const KEPT_ALREADY: &str = "This pull has that photograph already.";
pub const NOT_READ: &str = "This file cannot be read as a picture here. Choose a JPEG, PNG or WebP file.";
pub const NOT_SMALL: &str = "This picture cannot be made small enough to be kept. Choose one with less in it.";
pub const NOT_SAVED: &str = "The photograph was not saved; it is still here. Free some storage on this device, then keep it again. Message from the browser: ";
pub const COMING: &str = "Opening\u{2026}";
pub const NOT_HERE: &str = "Not on this device";
pub const NOT_HERE_TEXT: &str =
    "The study names this photograph, but this browser does not have it. Import a file that carries it.";
pub const DAMAGED: &str = "Damaged";
pub const DAMAGED_TEXT: &str =
    "What is stored of this photograph is damaged, so it is not shown. Import a file that carries it.";
pub const EARLIER: &str = "Earlier";
pub const LATER: &str = "Later";
pub const GONE: &str = "This photograph is not in the study that is open.";
pub const CROSS_OUT: &str = "Cross out this photograph";
pub const CROSS_OUT_HINT: &str = "It stays in the study and can still be looked at.";
pub const WHY: &str = "Why it does not count";
pub const CROSSED: &str = "crossed out";
pub const CROSSED_OUT: &str = "Photograph crossed out.";
pub const EXPORT_STUDY: &str = "Export this study";
pub const STUDY_TO_BIN: &str = "Move this study to the bin";
pub const IN_THE_BIN: &str = "Studies in the bin";
pub const STUDY_FILE: &str = "stability-study";

/// `0.3 MB`; at least a tenth, so that something is never nothing.
pub fn megabytes(bytes: u64, sign: DecimalSign) -> String {
    let tenths = i64::try_from(bytes.div_ceil(100_000)).unwrap_or(i64::MAX);
    format!("{}\u{202f}MB", number(&Decimal::new(tenths, 1).canonical(), sign))
}

/// `123 kB`.
pub fn kilobytes(bytes: usize) -> String {
    format!("{}\u{202f}kB", bytes.div_ceil(1000))
}

fn counted(number: usize) -> String {
    if number == 1 { "1 photograph".to_owned() } else { format!("{number} photographs") }
}

/// `12 photographs, 1.3 MB`.
pub fn tally(of: Tally, sign: DecimalSign) -> String {
    format!("{}, {}", counted(of.number), megabytes(of.bytes, sign))
}

/// What is kept on the device.
pub fn kept(of: Tally, sign: DecimalSign) -> String {
    match of.number {
        0 => "No photographs are kept on this device.".to_owned(),
        _ => format!("Kept on this device: {}, of at most {}.", tally(of, sign), megabytes(MOST_KEPT, sign)),
    }
}

/// `day 0`, `week 4`.
fn at_point(point: PullPoint) -> String {
    let unit = match point.unit {
        PullUnit::Day => "day",
        PullUnit::Week => "week",
        PullUnit::Month => "month",
    };
    format!("{unit} {}", point.count)
}

/// What a photograph is called where the maker did not say: `Room, week 4, 12 March 2026`.
pub fn default_caption(pull: &Pull, on: Day) -> String {
    format!("{}, {}, {}", condition(pull.condition), at_point(pull.point), day(on))
}

/// What a photograph is called.
pub fn caption(of: &StudyPhotograph) -> String {
    let own = of.photograph.caption.trim();
    if own.is_empty() { default_caption(&of.pull, of.on) } else { own.to_owned() }
}

/// For who cannot see it; also what happened to it.
pub fn alternative(of: &StudyPhotograph) -> String {
    let named = default_caption(&of.pull, of.on);
    let own = of.photograph.caption.trim();
    let named = if own.is_empty() { named } else { format!("{own} ({named})") };
    if of.struck.is_some() { format!("{named}, crossed out") } else { named }
}

/// Below a small one: `week 4 · 12 Mar`.
pub fn short(of: &StudyPhotograph) -> String {
    format!("{} \u{b7} {}", at_point(of.pull.point), short_day(of.on))
}

/// Why one was crossed out.
pub fn crossed_out(reason: &str) -> String {
    if reason.trim().is_empty() { "Crossed out.".to_owned() } else { format!("Crossed out: {}", reason.trim()) }
}

/// Its size: `1280 × 960 pixels, 123 kB`.
pub fn size(width: u32, height: u32, bytes: usize) -> String {
    format!("{width} \u{d7} {height} pixels, {}", kilobytes(bytes))
}

/// What a preview says of what it shows.
pub fn measured(width: u32, height: u32, bytes: usize, before: u64, sign: DecimalSign) -> String {
    format!("{}; the file that you chose has {}.", size(width, height, bytes), megabytes(before, sign))
}

/// Why there is no room: what was measured, what is needed, what to do.
pub fn no_room(why: NoRoom, sign: DecimalSign) -> String {
    let size = |bytes: u64| megabytes(bytes, sign);
    match why {
        NoRoom::Browser { needs, free } => {
            let free = if free == 0 { "no storage".to_owned() } else { format!("{} of storage", size(free)) };
            format!(
                "Not kept: this browser has {free} free for this page, and {} are needed, most of it so that formulas and records can still be saved. Free storage on this device, then try again.",
                size(needs),
            )
        }
        NoRoom::Most { needs, kept } => format!(
            "Not kept: there are {} on this device and this needs {} more; at most {} are kept, so that one file can hold them all. Export an old study, then move it to the bin: its photographs go when it leaves the bin.",
            tally(kept, sign),
            size(needs),
            size(MOST_KEPT),
        ),
    }
}

/// Photographs of a file for which there is no room.
pub fn left_out(why: NoRoom, sign: DecimalSign) -> String {
    format!(
        "The photographs would be left out. {} All else can be added now, and the photographs by the same file later.",
        no_room(why, sign)
    )
}

/// What the preview of a file says of its photographs, a sentence for each kind.
pub fn incoming(found: &PhotographMatches, sign: DecimalSign) -> Vec<String> {
    let line = |of: Tally, text: &str| (of.number > 0).then(|| format!("{} {text}", tally(of, sign)));
    [
        line(found.new, "\u{2013} new, would be added"),
        line(found.here, "\u{2013} already here"),
        line(found.damaged, "\u{2013} damaged in the file (other bytes than its digest says), would be left out"),
        line(found.missing, "\u{2013} not in this file"),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Photographs of a file that could not be stored.
pub fn left(number: usize, all: usize, reason: &str) -> String {
    format!(
        "{number} of {} could not be saved. Free some storage on this device and import the file again: what is here is not added twice. Message from the browser: {reason}",
        counted(all),
    )
}

/// Studies and photographs that were added and nothing else.
pub fn added(studies: usize, photographs: usize) -> String {
    let studies = match studies {
        0 => None,
        1 => Some("1 study".to_owned()),
        more => Some(format!("{more} studies")),
    };
    let photographs = (photographs > 0).then(|| counted(photographs));
    format!("Added: {}.", studies.into_iter().chain(photographs).collect::<Vec<_>>().join(", "))
}

/// Photographs that a written file lacks.
pub fn not_in_file(number: usize) -> String {
    format!(
        "The file was written without {} that your studies name: this browser does not have them whole.",
        counted(number)
    )
}

/// One photograph in a row of others.
pub fn place_of(place: usize, all: usize) -> String {
    format!("{place} of {all}")
}
