//! The stability study and how long a batch keeps. No sentence here says that a product is stable or safe.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{DecimalSign, number, percent_text, with_unit};
use crate::batch::study::{
    ConditionKind, CriterionState, Pull, PullPoint, PullUnit, Separation, Study, StudyCondition, StudyCriterion,
    StudyIncident, StudyPlot, StudyPull, StudyVerdict, activation_energy, like_days, q10_factor,
};
use crate::facts::{Months, StabilityFigures};
use crate::quantity::{Celsius, Day, Decimal, Percent, Ph, Quantity};

mod days;
mod keeps;
mod texts;

pub use days::{day, short_day, weekday};
pub use keeps::*;
pub use texts::*;

const DOT: &str = " \u{b7} ";
fn count(number: i64, one: &str, more: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {more}") }
}

fn days(number: i64) -> String {
    count(number, "day", "days")
}

/// `6 months`.
pub fn months(months: Months) -> String {
    count(months.units(), "month", "months")
}

/// What is looked at: batch, day, length.
pub fn about(study: &Study) -> String {
    let basis = &study.basis;
    let code = if basis.code.is_empty() { basis.title.clone() } else { format!("Batch {}", basis.code) };
    let made = format!("made {}", day(basis.made));
    [code, made, format!("study of {} from {}", months(study.plan.months), day(basis.began))].join(DOT)
}

/// What a study could begin from.
pub fn batch_at_hand(code: &str, title: &str) -> String {
    let code = if code.is_empty() { "Batch at hand".to_owned() } else { format!("Batch {code}") };
    [code, title.to_owned()].join(DOT)
}

/// A condition, without how warm it is.
pub const fn condition(kind: ConditionKind) -> &'static str {
    match kind {
        ConditionKind::Room => "Room",
        ConditionKind::Warm => "Warm",
        ConditionKind::Hot => "Hot",
        ConditionKind::Cold => "Cold",
        ConditionKind::FreezeThaw => "Freeze and thaw",
        ConditionKind::Spin => "Centrifuge",
        ConditionKind::Light => "Light, window",
    }
}

/// A condition with how warm it is.
pub fn condition_at(of: &StudyCondition, sign: DecimalSign) -> String {
    let name = condition(of.kind);
    match of.celsius {
        Some(celsius) => format!("{name}, {}", with_unit(celsius, "\u{b0}C", sign)),
        None => name.to_owned(),
    }
}

/// `7 d`, `2 w`, `3 m`: for the grid.
pub fn short_point(point: PullPoint) -> String {
    let unit = match point.unit {
        PullUnit::Day if point.count == 0 => return "day 0".to_owned(),
        PullUnit::Day => "d",
        PullUnit::Week => "wk",
        PullUnit::Month => "mo",
    };
    format!("{}\u{202f}{unit}", point.count)
}

/// `day 0`, `7 days`, `3 months`.
pub fn point(point: PullPoint) -> String {
    let number = i64::from(point.count);
    match point.unit {
        PullUnit::Day if number == 0 => "day 0".to_owned(),
        PullUnit::Day => days(number),
        PullUnit::Week => count(number, "week", "weeks"),
        PullUnit::Month => count(number, "month", "months"),
    }
}

/// The sign of a pull in the grid.
pub fn pull_mark(pull: &Pull, state: Option<CriterionState>, today: Day) -> String {
    match state {
        Some(CriterionState::Outside) => "\u{2715}".to_owned(),
        Some(CriterionState::Care) => "!".to_owned(),
        Some(_) => "\u{2713}".to_owned(),
        None if pull.due < today => format!("late, {}", short_day(pull.due)),
        None => short_day(pull.due),
    }
}

/// How a sample or a criterion stands.
pub const fn state(state: CriterionState) -> &'static str {
    match state {
        CriterionState::NotJudged => "not judged",
        CriterionState::Within => "within limits",
        CriterionState::Care => "look into it",
        CriterionState::Outside => "outside limits",
    }
}

/// A pull in full.
pub fn pull(of: &Pull, found: Option<CriterionState>, today: Day) -> String {
    let stands = match found {
        Some(found) => format!("recorded, {}", state(found)),
        None if of.due < today => format!("overdue since {}", day(of.due)),
        None if of.due == today => "due today".to_owned(),
        None => format!("due {}", day(of.due)),
    };
    format!("{}, {}: {stands}", condition(of.condition), point(of.point))
}

/// The head of the form of a pull.
pub fn pull_title(of: &Pull) -> String {
    format!("{}, {}", condition(of.condition), point(of.point))
}

/// When a pull was due.
pub fn due_on(of: &Pull) -> String {
    format!("Due {}", weekday(of.due))
}

/// The head of what is due.
pub fn due_head(due: &[Pull], today: Day) -> String {
    let late = due.iter().filter(|pull| pull.due < today).count();
    let pulls = count(i64::try_from(due.len()).unwrap_or(i64::MAX), "pull", "pulls");
    match late {
        0 => format!("{pulls} due today"),
        late if late == due.len() => format!("{pulls} overdue"),
        late => format!("{pulls} due, {late} of them overdue"),
    }
}

/// The head of what comes next, and what that is.
pub fn next_head(next: &[Pull]) -> Option<(String, String)> {
    let first = next.first()?;
    let what: Vec<&str> = next.iter().map(|pull| condition(pull.condition)).collect();
    Some((format!("Next pull on {}", weekday(first.due)), what.join(DOT)))
}

/// What a list shows of a study: what is due.
pub fn in_list(study: &Study, today: Day) -> String {
    let due = study.due(today);
    match (due.is_empty(), next_head(&study.next(today))) {
        (false, _) => due_head(&due, today),
        (true, Some((head, _))) => head,
        (true, None) => ALL_SEEN.to_owned(),
    }
}

pub const fn criterion(of: StudyCriterion) -> &'static str {
    match of {
        StudyCriterion::Appearance => "Appearance",
        StudyCriterion::Colour => "Colour",
        StudyCriterion::Odour => "Odour",
        StudyCriterion::Ph => "pH",
        StudyCriterion::Viscosity => "Viscosity",
        StudyCriterion::WeightLoss => "Weight loss",
        StudyCriterion::Separation => "Separation",
    }
}

/// What was seen by one criterion.
pub fn verdict(of: &StudyVerdict) -> String {
    let samples = count(i64::try_from(of.judged).unwrap_or(i64::MAX), "sample", "samples");
    match (of.state, of.at) {
        (CriterionState::NotJudged, _) => "Not judged: nothing was recorded, or no limit is set.".to_owned(),
        (CriterionState::Within, _) | (_, None) => format!("Within limits in {samples} so far."),
        (found, Some(at)) => {
            let head = if found == CriterionState::Outside { "Outside limits" } else { "Look into it" };
            format!("{head}: first {}, {} ({samples}).", condition(at.condition).to_lowercase(), point(at.point))
        }
    }
}

pub const fn separation(of: Separation) -> &'static str {
    match of {
        Separation::None => "None",
        Separation::Drops => "Drops, sweat or grain",
        Separation::Layer => "A layer of oil or water",
    }
}

pub const fn incident(of: StudyIncident) -> &'static str {
    match of {
        StudyIncident::Centrifuge => "Centrifuge",
        StudyIncident::FreezeThaw => "Freeze and thaw",
        StudyIncident::Transport => "Shaken or carried about",
        StudyIncident::Storage => "Kept otherwise than planned",
        StudyIncident::Other => "Something else",
    }
}

/// A noted event or remark.
pub fn noted(what: Option<StudyIncident>, text: &str) -> String {
    match what {
        Some(what) if text.trim().is_empty() => incident(what).to_owned(),
        Some(what) => format!("{}: {text}", incident(what)),
        None => text.to_owned(),
    }
}

/// A value of a picture.
pub fn plot_value(plot: &StudyPlot, units: i64, sign: DecimalSign) -> String {
    number(&Decimal::new(units, plot.places).rounded(2).canonical(), sign)
}

/// The head of a picture.
pub fn plot_title(plot: &StudyPlot, study: &Study) -> String {
    let method = study.plan.limits.viscosity_method.trim();
    match plot.criterion {
        StudyCriterion::Viscosity if !method.is_empty() => format!("Viscosity, {method}"),
        StudyCriterion::WeightLoss => "Weight loss in %".to_owned(),
        other => criterion(other).to_owned(),
    }
}

/// All that a picture shows, in words.
pub fn plot_text(plot: &StudyPlot, sign: DecimalSign) -> String {
    let value = |units| plot_value(plot, units, sign);
    let limits = match plot.limits {
        (Some(low), Some(high)) => format!("Limits {} to {}.", value(low), value(high)),
        (None, Some(high)) => format!("At most {}.", value(high)),
        (Some(low), None) => format!("At least {}.", value(low)),
        (None, None) => "No limits set.".to_owned(),
    };
    let series = plot.series.iter().map(|series| {
        let points = series.points.iter().map(|(day, units)| format!("{} on day {day}", value(*units)));
        format!("{}: {}.", condition(series.condition), points.collect::<Vec<_>>().join(", "))
    });
    [format!("{} over time.", criterion(plot.criterion)), limits]
        .into_iter()
        .chain(series)
        .collect::<Vec<_>>()
        .join(" ")
}

/// What warm storage is taken for by the rule of Q10, with the range that its doubt makes.
pub fn ageing(
    kind: ConditionKind,
    seen: i64,
    warm: Celsius,
    room: Celsius,
    figures: &StabilityFigures,
    sign: DecimalSign,
) -> String {
    let [least, usual, greatest] = figures.q10_tenths.map(|tenths| (tenths, like_days(seen, tenths, warm, room)));
    let tenths = |tenths: i64| number(&Decimal::new(tenths, 1).canonical(), sign);
    let energy = activation_energy(q10_factor(usual.0 as f64 / 10.0, warm, room), warm, room);
    let energy = energy
        .map_or_else(String::new, |energy| format!(", an activation energy of {energy:.0}\u{202f}kJ/mol by Arrhenius"));
    format!(
        "{}: {} at {}. With a Q10 of {}{energy}, that is taken for {} at {}; with {} for {}, with {} for {}.",
        condition(kind),
        days(seen),
        with_unit(warm, "\u{b0}C", sign),
        tenths(usual.0),
        days(usual.1),
        with_unit(room, "\u{b0}C", sign),
        tenths(least.0),
        days(least.1),
        tenths(greatest.0),
        days(greatest.1),
    )
}

/// The source of that.
pub fn ageing_source(figures: &StabilityFigures) -> String {
    format!("Q10: {} (unverified).", figures.q10_basis.source)
}

/// What a calendar shows of the pulls of one day, and what it tells of them.
pub fn in_calendar(study: &Study, pulls: &[Pull]) -> (String, String) {
    let basis = &study.basis;
    let name = if basis.code.is_empty() { basis.title.clone() } else { basis.code.clone() };
    let number = count(i64::try_from(pulls.len()).unwrap_or(i64::MAX), "pull", "pulls");
    let lines: Vec<String> = pulls.iter().map(pull_title).collect();
    (format!("Stability study {name}: {number}"), [vec![basis.title.clone()], lines].concat().join("\n"))
}

/// What was recorded of a pull, for who looks at it again.
pub fn seen(of: &StudyPull, lost: Option<Percent>, sign: DecimalSign) -> Vec<String> {
    let seen = &of.seen;
    let score = |name: StudyCriterion, score: Option<u8>| Some(format!("{} {}", criterion(name), score?));
    let ph = |ph: Ph| format!("pH {}", number(&ph.canonical(), sign));
    [
        Some(format!("Looked at on {}", day(of.on))),
        score(StudyCriterion::Appearance, seen.appearance),
        score(StudyCriterion::Colour, seen.colour),
        score(StudyCriterion::Odour, seen.odour),
        seen.ph.map(ph),
        seen.viscosity.map(|value| format!("Viscosity {}", number(&value.canonical(), sign))),
        seen.weight.map(|mass| with_unit(mass, "g", sign)),
        lost.map(|lost| format!("Weight loss {}", percent_text(lost))),
        seen.separation.map(|found| format!("Separation: {}", separation(found).to_lowercase())),
        Some(seen.note.clone()).filter(|note| !note.is_empty()),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Stability studies that came in a file.
pub fn incoming(title: &str, here: bool) -> String {
    format!("Stability study: {title} \u{2013} {}", if here { "already here" } else { "new" })
}
