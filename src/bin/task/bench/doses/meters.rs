//! The table of meters that lie: what is left of a lie where the meter is checked, and whether it is asked about where not.

use super::meter::{Care, Fault};
use super::population::{SETTINGS, Setting};
use super::{Outcome, Way, all};
use crate::say::say;
use hundred_parts::batch::Instrument;

/// Both products with a buffer that nobody told of: 100 mmol/kg, and 300.
const HIDDEN: [(f64, &str); 2] =
    [(0.1, "down, hidden buffer of 100 mmol/kg"), (0.3, "down, hidden buffer of 300 mmol/kg")];
const FAULTS: [(Fault, &str); 6] = [
    (Fault::None, "sound"),
    (Fault::Slow, "slow, 60 to 95 %"),
    (Fault::Offset, "offset up to 0.3"),
    (Fault::Slope, "slope 85 to 100 %"),
    (Fault::Drift, "drift"),
    (Fault::All, "all of these"),
];
const CARES: [(Care, &str); 3] =
    [(Care::Checking, "checked"), (Care::Asked, "checked when asked"), (Care::Trusting, "never checked")];

/// The products that are read with a meter.
pub(super) fn settings() -> Vec<Setting> {
    let hidden = HIDDEN.map(|(hidden, name)| Setting { name, hidden, ..SETTINGS[0] });
    let with_meter = |setting: &&Setting| setting.instrument == Instrument::Meter;
    SETTINGS.iter().filter(with_meter).copied().chain(hidden).collect()
}

/// True if the meter was asked about before a third dose went anywhere, or no third dose did.
pub(super) fn asked_in_time(outcome: &Outcome) -> bool {
    outcome.asked.map_or(outcome.all_doses < 3, |(doses, _)| doses < 3)
}

/// Prints it.
pub(super) fn print(runs: u64) {
    say!("");
    say!("meters that lie: side sample first, formula told; a share is of all batches of the row, refused ones too");
    say!(
        "{:<42}{:>9}{:>8}{:>8}{:>8}{:>7}{:>10}{:>10}{:>10}{:>10}",
        "",
        "within",
        "> 0.3",
        "worst",
        "doses",
        "reads",
        "set anew",
        "asked",
        "by course",
        "not done"
    );
    for setting in settings() {
        say!("{}", setting.name);
        for (care, cared) in CARES {
            for (fault, name) in FAULTS {
                let outcomes = all(setting, Way::Judged { fault, care }, runs);
                let of = outcomes.len().max(1) as f64;
                let share =
                    |test: &dyn Fn(&Outcome) -> bool| 100.0 * outcomes.iter().filter(|o| test(o)).count() as f64 / of;
                let mean = |value: &dyn Fn(&Outcome) -> f64| outcomes.iter().map(value).sum::<f64>() / of;
                say!(
                    "  {:<40}{:>8.1}%{:>7.2}%{:>8.2}{:>8.2}{:>7.2}{:>9.1}%{:>9.1}%{:>9.1}%{:>9.2}%",
                    format!("{cared}, {name}"),
                    share(&|o| o.gap <= 0.2),
                    share(&|o| o.far_past),
                    outcomes.iter().map(|o| o.worst).fold(0.0, f64::max),
                    mean(&|o| o.doses as f64),
                    mean(&|o| (o.readings + o.side_readings) as f64),
                    share(&|o| o.calibrated > 0),
                    share(&|o| care == Care::Checking || asked_in_time(o)),
                    share(&|o| o.asked.is_some_and(|(_, course)| course)),
                    share(&|o| o.unfinished || o.refused),
                );
            }
        }
    }
}
