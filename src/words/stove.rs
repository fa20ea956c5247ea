//! Words at the stove: one thing to do, how far it has come, and what happens where something is off.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{DecimalSign, method, number, with_unit};
use crate::batch::{
    AtStove, Check, Cooling, Decision, Forecast, Making, Pot, PotGap, Reconciliation, Task, WeighIn, WeighVerdict,
};
use crate::facts::mid_sentence;
use crate::formula::StepKind;
use crate::paper::RecordFills;
use crate::quantity::{Celsius, Count, Day, Mass, Percent, Quantity, Timestamp};

pub const START: &str = "Start at the stove";
pub const CONTINUE: &str = "Continue at the stove";
pub const LEAVE: &str = "Leave the stove";
pub const AT_STOVE: &str = "At the stove";
pub const BACK: &str = "Back";
pub const NEXT: &str = "Next";
pub const DONE: &str = "Done";
pub const MAKER: &str = "Made by";
pub const BEGIN: &str = "Begin the batch";
pub const NOTHING_TO_MAKE: &str = "There is nothing to weigh yet";
pub const NOTHING_WHY: &str = "The formula needs lines that sum to 100\u{202f}%, and the plan a batch size.";
pub const WEIGHED: &str = "Weighed";
pub const LOT: &str = "Lot";
pub const GOOD_UNTIL: &str = "Good until";
pub const HALF_A_DAY: &str = "The day is not whole. Type day, month and year, or clear it.";
pub const WHY: &str = "Why";
pub const TAKE_OUT: &str = "Weigh it again";
pub const TAKE_OUT_WHY: &str = "If it lies apart from the rest, take some out and read the scale again.";
pub const KEEP: &str = "Keep it as it is";
pub const KEPT: &str = "Kept as it is.";
pub const KEEP_WHY: &str = "It is recorded as a deviation.";
pub const START_AGAIN: &str = "Give this batch up";
pub const START_AGAIN_WHY: &str = "It stays in the list of batches, with the reason.";
pub const ADD_READING: &str = "Add reading";
pub const NOW: &str = "Now";
pub const START_TIMER: &str = "Start the timer";
pub const IS_READ: &str = "Read";
pub const ONTO_SCALE: &str = "onto the scale";
pub const FILL: &str = "This pack holds";
pub const ADD_FILL: &str = "Add pack";
pub const ALL_FILLED: &str = "All packs are filled";
pub const RELEASE: &str = "Release the batch";
pub const WAIT: &str = "Let it wait for a result";
pub const REJECT: &str = "Reject the batch";
pub const DECIDED_BY: &str = "Decided by";
pub const DECIDE_WHY: &str = "Release it only where everything above is as it should be. The record tells what was done; it does not say that the product is safe.";
pub const NOTE_IT: &str = "Record";
pub const MORE: &str = "More at the stove";
pub const REMARK: &str = "Write a remark";
pub const DEVIATION: &str = "Record a deviation";
pub const WATER_BACK: &str = "Add back water that boiled off";
pub const POT_BEFORE: &str = "Pot with its content before heating";
pub const POT_AFTER: &str = "The same after heating";
pub const ADD_WATER: &str = "Record the water";
pub const WATER: &str = "Water that had boiled off";
pub const SMALLER: &str = "Change the size of the batch";
pub const NEW_SIZE: &str = "The batch is to weigh";
pub const SPLIT: &str = "Take a part out for something else";
pub const SPLIT_WHAT: &str = "What it becomes";
pub const SPLIT_CODE: &str = "Its code";
pub const GIVE_UP: &str = "Give the batch up";
pub const LOST: &str = "Left in pot and tools";
pub const RETAINED: &str = "Kept as a sample";
pub const SPEAK: &str = "Speak the steps";
pub const LEFT_HAND: &str = "Buttons for the left hand";
pub const WHAT_HAPPENED: &str = "What happened";
pub const WHAT_DECIDED: &str = "What was decided, and why";
pub const OVER: &str = "The time is up";
pub const PH_NOT_SET: &str = "Go on without setting the pH";
pub const PH_IS_SET: &str = "The pH is as it should be";
pub const WHAT_CAME_OUT: &str = "What came out of it";
pub const YIELD: &str = "yield";
pub const GIVEN_UP: &str = "Given up";
pub const TO_BATCH: &str = "To the plan and the records";
pub const ANOTHER: &str = "Another batch";
pub const SEEN: &str = "Seen";
pub const FIRST_READING: &str = "first reading";
pub const SIZE_UNREADABLE: &str = "That is no mass that a batch can have.";
pub const SPLIT_MASS: &str = "How much is taken out";
pub const BELOW_T1: &str = "A pack that is short by more than is tolerated is topped up or not sold by its label.";

/// What is said of a lot that is past its day.
pub fn lot_has_passed(day: Day) -> String {
    format!("This lot was good until {}. Take another one, or record a deviation that says why.", day.text())
}

/// What is asked for of what is looked at.
pub const fn check(check: Check) -> &'static str {
    match check {
        Check::Clearance => "Nothing of another product is left, seen by",
        Check::Scale => "A known weight, and what the scale shows",
        Check::Appearance => "Looks",
        Check::Odour => "Smells",
        Check::Viscosity => "How thick, and how found",
        Check::CodeOnPack => "Code on the packs, seen by",
        Check::Other => "Looked at",
    }
}

/// Where one is: the phase and the line of it, or what is done in the step.
pub fn place(at: &AtStove, task: Task) -> (String, String) {
    match task {
        Task::Weigh { step, line } => {
            let of_step: Vec<usize> = at.making.tasks.iter().filter_map(|other| other.line_of(step)).collect();
            let nth = of_step.iter().position(|other| *other == line).map_or(1, |nth| nth + 1);
            let phase = at.from.lines.get(line).map(|line| line.phase.clone()).unwrap_or_default();
            (phase, format!("line {nth} of {}", of_step.len()))
        }
        Task::Step(step) => {
            (at.step(step).map(|step| method::kind(step.kind)).unwrap_or_default().to_owned(), String::new())
        }
        Task::Decide => ("Decide".to_owned(), String::new()),
    }
}

/// How many of the tasks are done, for whoever does not see the picture.
pub fn progress(making: &Making, at: usize) -> String {
    format!("Step {} of {}", at + 1, making.tasks.len())
}

/// What comes after a task, as the button that leads there says it.
pub fn next(at: &AtStove, after: usize, sign: DecimalSign) -> String {
    match at.making.tasks.get(after + 1) {
        Some(Task::Weigh { line, .. }) => {
            let (Some(frozen), Some(line)) = (at.from.lines.get(*line), at.making.lines.get(*line)) else {
                return NEXT.to_owned();
            };
            format!("Next: {}, {}", mid_sentence(&frozen.name), grams(line.target, sign))
        }
        Some(Task::Step(step)) => {
            let kind = at.step(*step).map_or(StepKind::Other, |step| step.kind);
            if kind == StepKind::Other {
                NEXT.to_owned()
            } else {
                format!("Next: {}", mid_sentence(method::kind(kind)))
            }
        }
        Some(Task::Decide) => "Next: decide".to_owned(),
        None => DONE.to_owned(),
    }
}

/// The button that says that a step is done.
pub fn done(kind: StepKind, temperature: Option<Celsius>, ph_is_set: bool, sign: DecimalSign) -> String {
    let degrees = temperature.map(|celsius| with_unit(celsius, "\u{b0}C", sign));
    match (kind, degrees) {
        (StepKind::Heat, Some(degrees)) => format!("All is at {degrees}"),
        (StepKind::Cool, Some(degrees)) => format!("It is below {degrees}"),
        (StepKind::Clean, _) => "All is clean".to_owned(),
        (StepKind::LayOut, _) => "All is laid out".to_owned(),
        (StepKind::Hold, _) => "It was held".to_owned(),
        (StepKind::Join, _) => "They are joined".to_owned(),
        (StepKind::Blend, _) => "It is blended".to_owned(),
        (StepKind::Add, _) => "It is stirred in".to_owned(),
        (StepKind::SetPh, _) => if ph_is_set { PH_IS_SET } else { PH_NOT_SET }.to_owned(),
        (StepKind::Pack, _) => ALL_FILLED.to_owned(),
        (StepKind::Weigh, _) => "It is weighed".to_owned(),
        _ => DONE.to_owned(),
    }
}

/// What stands on the scale if it is not set to zero.
pub fn in_vessel(mass: Mass, sign: DecimalSign) -> (String, String, String) {
    ("on the scale ".to_owned(), grams(mass, sign), " in all, if you do not zero it".to_owned())
}

/// What is in already of a line, and what is missing to its target.
pub fn before(mass: Mass, target: Mass, sign: DecimalSign) -> String {
    if mass < target {
        format!("{} are in; add {}.", grams(mass, sign), grams(target.minus(mass), sign))
    } else {
        format!("{} are in.", grams(mass, sign))
    }
}

/// How a weighing stands to its target.
pub fn judged(found: &WeighIn, sign: DecimalSign) -> String {
    let off = if found.difference < Mass::ZERO { Mass::ZERO.minus(found.difference) } else { found.difference };
    let off_text = grams(off, sign);
    match found.verdict {
        WeighVerdict::Within if off == Mass::ZERO => "exact".to_owned(),
        WeighVerdict::Within if found.difference < Mass::ZERO => format!("{off_text} under: within its limits"),
        WeighVerdict::Within => format!("{off_text} over: within its limits"),
        WeighVerdict::Over => format!("{off_text} over"),
        WeighVerdict::Under => format!("{off_text} under"),
    }
}

/// What to do where too little is in.
pub fn add_more(mass: Mass, sign: DecimalSign) -> String {
    format!("Add {} more, and read the scale again.", grams(mass, sign))
}

/// The button that makes more of everything.
pub fn rescale(batch: Mass, sign: DecimalSign) -> String {
    format!("Make {} of all instead", grams(batch, sign))
}

/// What making another size asks for.
pub fn rescale_why(more: &[(String, Mass)], rest: usize, sign: DecimalSign) -> String {
    let more: Vec<String> =
        more.iter().map(|(name, mass)| format!("{} {}", grams(*mass, sign), mid_sentence(name))).collect();
    let more = if more.is_empty() { String::new() } else { format!("Add {}. ", more.join(", ")) };
    match rest {
        0 => format!("{more}Nothing else changes."),
        1 => format!("{more}The line that is left is scaled to it."),
        rest => format!("{more}The {rest} lines that are left are scaled to it."),
    }
}

/// What is written down of a weighing that is off.
pub fn off(name: &str, found: &WeighIn, target: Mass, sign: DecimalSign) -> String {
    format!("{name}: {} of {}", judged(found, sign), grams(target, sign))
}

/// What was decided of it.
pub fn decided_rescaled(batch: Mass, why: &str, sign: DecimalSign) -> String {
    with_reason(&format!("The rest is scaled to it; the batch now weighs {}.", grams(batch, sign)), why)
}

/// A decision with its reason, where one was given.
pub fn with_reason(decision: &str, why: &str) -> String {
    if why.trim().is_empty() { decision.to_owned() } else { format!("{decision} Why: {}", why.trim()) }
}

/// A mass in grams.
pub fn grams(mass: Mass, sign: DecimalSign) -> String {
    with_unit(mass, "g", sign)
}

/// A temperature.
pub fn degrees(celsius: Celsius, sign: DecimalSign) -> String {
    with_unit(celsius, "\u{b0}C", sign)
}

/// What a pot is called.
pub const fn pot(pot: Pot) -> &'static str {
    match pot {
        Pot::Water => "Water",
        Pot::Oil => "Oil",
        Pot::Batch => "Batch",
    }
}

/// Minutes and seconds of a running time.
pub fn clock(millis: i64) -> String {
    let seconds = (millis.max(0) + 999) / 1000;
    match seconds / 3600 {
        0 => format!("{}:{:02}", seconds / 60, seconds % 60),
        hours => format!("{hours}:{:02}:{:02}", (seconds / 60).rem_euclid(60), seconds % 60),
    }
}

/// What a time is for.
pub fn timer(at: &AtStove, step: usize, sign: DecimalSign) -> String {
    let Some(step) = at.step(step) else { return String::new() };
    let kind = mid_sentence(method::kind(step.kind));
    match step.temperature {
        Some(celsius) => format!("{kind} at {}", degrees(celsius, sign)),
        None => kind,
    }
}

/// How far apart two pots are, and what to do where that is too far.
pub fn gap(gap: PotGap, sign: DecimalSign) -> String {
    let text = |celsius: Celsius| number(&celsius.canonical(), sign);
    let apart = text(gap.apart);
    let apart = format!("{apart} degree{}", if apart == "1" { "" } else { "s" });
    if gap.fits() {
        format!("{apart} apart")
    } else {
        format!("{apart} apart: usual is within {}. Wait, or warm the colder one.", text(gap.most))
    }
}

/// When the pot will have cooled: headline, figure, and what it rests on.
pub fn cooling(
    found: &Cooling,
    target: Celsius,
    now: Timestamp,
    sign: DecimalSign,
) -> (String, Option<String>, String) {
    let target = degrees(target, sign);
    match found {
        Cooling::There => (format!("It is at {target} or below"), None, "Stir, then read once more.".to_owned()),
        Cooling::TooFew => (format!("Until {target}"), None, "Two readings, some minutes apart, tell when.".to_owned()),
        Cooling::NotFalling => {
            (format!("Until {target}"), None, "The readings do not fall. Is the heat off?".to_owned())
        }
        Cooling::NotReached => {
            (format!("Until {target}"), None, "The room seems too warm for that. A cold water bath helps.".to_owned())
        }
        Cooling::Forecast(forecast) => forecast_words(forecast, &target, now),
    }
}

fn forecast_words(forecast: &Forecast, target: &str, now: Timestamp) -> (String, Option<String>, String) {
    let minutes = |at: Timestamp| (at.millis() - now.millis()).max(0).saturating_add(30_000) / 60_000;
    let early = minutes(forecast.earliest);
    let range = match forecast.latest {
        Some(latest) => format!("{early} to {} min", minutes(latest)),
        None => format!("{early} min at the least"),
    };
    let rests = format!("{range}, from {} readings. An estimate: measure before anything goes in.", forecast.readings);
    (format!("{target} in about"), Some(minutes(forecast.at).to_string()), rests)
}

/// What is said of the packs that were filled.
pub fn fills(fills: &RecordFills, wanted: Option<Count>, sign: DecimalSign) -> String {
    let count = fills.fills.len();
    let of = match wanted {
        Some(wanted) => format!("{count} of {} filled", wanted.units()),
        None => format!("{count} filled"),
    };
    let Some(found) = &fills.judged else { return of };
    let average = Mass::from_units(found.average.units() / 10_000 * 10_000);
    let short = match found.below.len() {
        0 => "none short".to_owned(),
        1 => "1 short by more than is tolerated".to_owned(),
        many => format!("{many} short by more than is tolerated"),
    };
    format!("{of} \u{b7} average {} \u{b7} {short}", grams(average, sign))
}

/// What is recorded of what went elsewhere; nothing of nothing.
pub fn recorded(mass: Mass, sign: DecimalSign) -> String {
    if mass > Mass::ZERO { format!("{} recorded", grams(mass, sign)) } else { String::new() }
}

/// Yield and what is not accounted for.
pub fn yielded(found: &Reconciliation, sign: DecimalSign) -> (String, String) {
    let percent = |share: Option<Percent>| share.map(|share| one_decimal(share, sign)).unwrap_or_default();
    let rest = format!("{} of {} accounted for", grams(found.accounted, sign), grams(found.theoretical, sign));
    (percent(found.yield_share), rest)
}

fn one_decimal(share: Percent, sign: DecimalSign) -> String {
    let tenths = Percent::from_units((share.units() + 50_000) / 100_000 * 100_000);
    with_unit(tenths, "%", sign)
}

/// How a batch ended.
pub fn ended(code: &str, how: &str) -> String {
    format!("{code}: {}", mid_sentence(how))
}

/// What is to be put back of water.
pub fn put_back(mass: Mass, sign: DecimalSign) -> String {
    format!("Put {} of boiled water back.", grams(mass, sign))
}

/// How much the batch is to weigh as it stands.
pub fn weighs_now(mass: &str) -> String {
    format!("It is planned for {mass}.")
}

/// Why a batch cannot be so small.
pub fn too_much_in(name: &str, least: Option<Mass>, sign: DecimalSign) -> String {
    let least = least.map(|least| format!(" The smallest batch is {}.", grams(least, sign))).unwrap_or_default();
    format!("More {} is in than that.{least}", mid_sentence(name))
}

/// The end of the time that a picture shows.
pub fn after_minutes(minutes: i64) -> String {
    format!("{minutes} min")
}

/// The picture of a pot that cools, in words.
pub fn cooling_picture(found: &Forecast, target: Celsius, sign: DecimalSign) -> String {
    let minutes = found.curve.first().map_or(0, |first| (found.at.millis() - first.at.millis()) / 60_000);
    format!(
        "Temperature over time: {} is reached about {minutes} minutes after the first reading.",
        degrees(target, sign)
    )
}

/// A task as it is spoken.
pub fn spoken(at: &AtStove, place: usize, sign: DecimalSign) -> String {
    match at.making.tasks.get(place) {
        Some(Task::Weigh { line, .. }) => {
            let name = at.from.lines.get(*line).map(|line| line.name.clone()).unwrap_or_default();
            let target = at.making.lines.get(*line).map(|line| line.target).unwrap_or_default();
            format!("{name}: {} grams.", number(&target.canonical(), sign))
        }
        Some(Task::Step(step)) => at.step(*step).map(|step| step.text.clone()).unwrap_or_default(),
        Some(Task::Decide) | None => WHAT_CAME_OUT.to_owned(),
    }
}

/// What became of a batch.
pub const fn decision(decision: Decision) -> &'static str {
    match decision {
        Decision::Released => "Released",
        Decision::Waiting => "Waiting for a result",
        Decision::Rejected => "Rejected",
    }
}
