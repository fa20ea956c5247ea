//! Where the course of a log speaks against its readings: what is asked before more goes in.
//!
//! A meter that is off by the same amount everywhere leaves no trace in a course, so one that was not checked is asked about
//! before the third dose in any case, and before the batch gets anything on the strength of a side sample; earlier where the
//! readings do not fit what can be in the batch.

use super::bounds::STRONG;
use super::{Advice, Chemistry, DoseInputs, Proposal, uncertainty};
use crate::batch::{Instrument, MeterCheck, MeterVerdict, PhEvent, PhLog, PhReading, ReplayedLog, Vessel};

/// So many doses go in on the word of a meter that was not checked. A choice of ours.
pub const DOSES_ON_TRUST: usize = 2;
/// Less than this share of what the formula alone takes up is no error of its shares and constants. A choice of ours.
const WEAK: f64 = 0.5;

/// Why a meter is to be checked before anything more goes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MeterDoubt {
    /// As many doses have gone in as go in on trust.
    DosesOnTrust,
    /// What a side sample told is about to be done to the batch.
    BeforeBatch,
    /// Nothing has gone in, and its reading alone says that nothing need.
    BeforeStop,
    /// The readings fit no product that is known.
    Misfit,
    /// The pH moved by less than anything would that is known to be in the batch.
    Strong,
    /// It moved by more than what the formula holds allows.
    Weak,
}

/// How two readings contradict each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadingClash {
    /// Acid went in and the pH rose, or base and it fell.
    WrongWay,
    /// Nothing went in, and it moved.
    Moved,
    /// Nothing went in, and it went on moving the way that it had gone before: as a slow electrode does.
    Slow,
}

/// The check that the meter failed, if no reading of a strip has taken its place since.
pub(super) fn failed(log: &PhLog) -> Option<MeterCheck> {
    let mut strip = false;
    for (_, (_, event)) in log.events.iter().enumerate().rev().filter(|(place, _)| !log.is_struck(*place)) {
        match event {
            PhEvent::Read { instrument, .. } if *instrument != Instrument::Meter => strip = true,
            PhEvent::Buffers(check) => {
                return (check.verdict() != MeterVerdict::Fits && !strip).then_some(*check);
            }
            _ => {}
        }
    }
    None
}

/// Why the meter is to be checked before this dose; nothing where it was, or where the maker goes on without.
pub(super) fn ask(case: &DoseInputs<'_>, course: &ReplayedLog, proposal: &Proposal) -> Option<MeterDoubt> {
    if course.readings.last().is_none_or(|newest| newest.checked) || case.log.goes_on_unchecked() {
        return None;
    }
    let dosed = |(place, (_, event)): (usize, &(_, PhEvent))| {
        matches!(event, PhEvent::Dose { .. }) && !case.log.is_struck(place)
    };
    let doses = case.log.events.iter().enumerate().filter(|one| dosed(*one)).count();
    let doubts = [
        (proposal.strong, MeterDoubt::Strong),
        (proposal.weak, MeterDoubt::Weak),
        (proposal.misfit, MeterDoubt::Misfit),
        (doses >= DOSES_ON_TRUST, MeterDoubt::DosesOnTrust),
        (doses > 0 && proposal.vessel == Vessel::Batch && course.side.is_some(), MeterDoubt::BeforeBatch),
    ];
    doubts.into_iter().find_map(|(found, doubt)| found.then_some(doubt))
}

/// What is to be done before a batch is left as it is that has had nothing: a slow electrode, on its way from its buffer,
/// shows a target that the product does not have. Only a reading of a meter that was checked before it ends a log so.
pub(super) fn before_stopping(case: &DoseInputs<'_>, course: &ReplayedLog) -> Option<Advice> {
    let newest = course.readings.last().filter(|newest| newest.instrument == Instrument::Meter)?;
    let dosed = course.batch.dosed() > 0 || course.samples > 0;
    if dosed || case.log.goes_on_unchecked() {
        return None;
    }
    if !newest.checked {
        return Some(Advice::CheckMeter(MeterDoubt::BeforeStop));
    }
    case.log.was_checked_between(newest.event, usize::MAX).then_some(Advice::Read(newest.vessel))
}

/// Whether what went in since the first reading moved the pH less, or more, than can be: by the readings alone and by as much
/// as they may be wrong.
///
/// Less than any product would that hides no more than lotions are taken to, beside what the formula tells; more than by half
/// of what the formula tells alone.
pub(super) fn strong_or_weak(
    chemistry: &Chemistry,
    course: &ReplayedLog,
    reading: &PhReading,
    down: bool,
) -> (bool, bool) {
    let alike = |other: &&PhReading| other.dilution == reading.dilution;
    let Some(first) = course.readings.iter().find(alike) else { return (false, false) };
    let way = if down { 1.0 } else { -1.0 };
    let pairs = reading.added.iter().zip(&first.added).enumerate();
    let went: f64 = pairs.map(|(n, (now, then))| (now.0 - then.0) * chemistry.delivers(n, reading.ph) * way).sum();
    let doubt = 2.0 * uncertainty(reading.instrument).hypot(uncertainty(first.instrument));
    let takes = |doubt| chemistry.accounts_for(first.ph, reading.ph, doubt);
    let strong = went - takes(doubt) > STRONG * ((reading.ph - first.ph).abs() + doubt);
    (strong, went > 0.0 && went < WEAK * takes(-doubt))
}

/// Two readings that cannot both be right, by their places in the log: acid was added between them and the pH rose, or base and
/// it fell, or nothing and it moved, by more than both errors allow.
pub(super) fn contradiction(
    course: &ReplayedLog,
    delivers: &dyn Fn(usize, f64) -> f64,
) -> Option<(usize, usize, ReadingClash)> {
    let mut last: [Option<(&PhReading, f64)>; 2] = [None, None];
    for reading in &course.readings {
        let slot = &mut last[usize::from(reading.vessel == Vessel::Side)];
        let mut moved = 0.0;
        if let Some((before, moved_before)) = *slot
            && before.dilution == reading.dilution
        {
            let more = reading.added.iter().zip(&before.added).enumerate();
            let equivalents: f64 = more.map(|(n, (now, then))| (now.0 - then.0) * delivers(n, reading.ph)).sum();
            let rose = reading.ph - before.ph;
            let spread = 2.0 * uncertainty(reading.instrument).hypot(uncertainty(before.instrument));
            // What two readings can be wrong by at the very most; half a hundredth for the rounding of what is kept.
            let sure = spread.max(reading.instrument.half_width() + before.instrument.half_width() + 0.005);
            let (wrong, clash) = if equivalents > 0.0 {
                (rose, ReadingClash::WrongWay)
            } else if equivalents < 0.0 {
                (-rose, ReadingClash::WrongWay)
            } else if rose * moved_before > 0.0 {
                (rose.abs(), ReadingClash::Slow)
            } else {
                (rose.abs(), ReadingClash::Moved)
            };
            if wrong > sure {
                return Some((before.event, reading.event, clash));
            }
            moved = rose;
        }
        *slot = Some((reading, moved));
    }
    None
}
