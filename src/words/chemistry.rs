//! Acidity, preservation and emulsion in words.

use super::{DecimalSign, dose, one_place, rounded};
use crate::facts::{Cover, Hlb};
use crate::formula::LineId;
use crate::quantity::{Percent, Ph};
use crate::sheet::hlb::Pair;
use crate::sheet::ph::{Bar, Prediction, Who, Window};
use crate::sheet::{Agent, Crowding, Dissolves, Dose, Emulsion, EmulsionSystem, InWater, ShareAt, Works};

/// Beside every share of active acid.
pub const NO_PROOF: &str = "The share in the acid form does not prove that the product keeps. Oil, solubilisers and gums lower it; a challenge test decides.";
/// Beside what is free in the water: what that leaves out.
pub const NOT_SUBTRACTED: &str = "What emulsifiers bind is not known and not subtracted, so less may be free than shown. Fatty alcohols and waxes are counted as oil, which they are only in part.";
/// Behind the names of what is not counted in an estimate.
pub const UNSEEN: &str = "Each of these moves or buffers the pH in a way this model has no constants for, so the reading may be outside this range.";
/// Beside every HLB.
pub const RULE_OF_THUMB: &str = "A rule of thumb: make five small batches, at \u{2212}1, \u{2212}\u{bd}, 0, +\u{bd} and +1 HLB around this figure, and watch them.";
/// Above the pH at which less than a tenth of an acid is undissociated.
pub const INACTIVE: &str = "Mostly in the inactive form.";

/// Gives a line its name.
pub type Name<'a> = &'a dyn Fn(LineId) -> String;

pub(super) fn percent(share: Percent, sign: DecimalSign) -> String {
    // To three figures after the point at most: an estimate is not better than that.
    format!("{}\u{202f}%", rounded(share, 3, sign))
}

pub(super) fn listed(names: &[LineId], name: Name<'_>) -> String {
    names.iter().map(|id| name(*id)).collect::<Vec<_>>().join(", ")
}

/// What the model expects of the pH, and what it cannot see.
pub fn prediction(found: &Prediction, name: Name<'_>, sign: DecimalSign) -> String {
    let mut text = format!(
        "Estimate for the water alone: pH {} to {}. It does not replace a reading.",
        dose::ph(found.low, sign),
        dose::ph(found.high, sign)
    );
    if !found.unseen.is_empty() {
        text += &format!(" Not counted: {}. {UNSEEN}", listed(&found.unseen, name));
    }
    if found.salty || found.thick_water {
        text += " So much is dissolved in this water that the estimate is rougher than usual.";
    }
    if found.gas {
        text += " Carbon dioxide will escape and the pH will rise: a reading counts only once the foam is gone.";
    }
    if found.drifts {
        text += " The pH will drift: measure again after one day and after three days.";
    }
    text
}

/// Whose window a bar is.
pub fn who(who: Who, name: Name<'_>) -> String {
    match who {
        Who::Line(id) | Who::Preservative(id) | Who::Emulsifier(id) => name(id),
        Who::Skin => "Skin".to_owned(),
        Who::Audience => "Children".to_owned(),
    }
}

/// What all windows leave.
pub fn meeting(window: &Window, name: Name<'_>, sign: DecimalSign) -> String {
    let of = |n: usize| window.bars.get(n).map_or_else(String::new, |bar| who(bar.who, name));
    let end = |n: usize, pick: fn(&Bar) -> Option<Ph>| {
        window.bars.get(n).and_then(pick).map_or_else(String::new, |end| dose::ph(end, sign))
    };
    match &window.meeting {
        Err((more, less)) => format!(
            "No pH suits all: {} needs {} or more, {} needs {} or less. Change one of them.",
            of(*more),
            end(*more, |bar| bar.window.min),
            of(*less),
            end(*less, |bar| bar.window.max)
        ),
        Ok(meeting) => match (meeting.min, meeting.max) {
            (Some(min), Some(max)) => {
                format!("All of them suit pH {} to {}.", dose::ph(min, sign), dose::ph(max, sign))
            }
            (Some(min), None) => format!("All of them suit pH {} or more.", dose::ph(min, sign)),
            (None, Some(max)) => format!("All of them suit pH {} or less.", dose::ph(max, sign)),
            (None, None) => "No window is known.".to_owned(),
        },
    }
}

/// What one preservative can do.
pub fn agent(found: &Agent, name: &str, sign: DecimalSign) -> String {
    let mut text = format!("{name}: {} added", percent(found.added, sign));
    if found.counted != found.added {
        text += &format!(", {} as acid", percent(found.counted, sign));
    }
    text += ".";
    if let Some([at, low, high]) = &found.shares {
        text += &format!(
            " At pH {} about {} of it is undissociated ({} to {}), which leaves {} active; {} at pH {}, {} at pH {}.",
            dose::ph(at.ph, sign),
            whole(at.share, sign),
            whole(at.range.0, sign),
            whole(at.range.1, sign),
            percent(at.active, sign),
            whole(low.share, sign),
            dose::ph(low.ph, sign),
            whole(high.share, sign),
            dose::ph(high.ph, sign)
        );
    }
    for said in verdict(found) {
        text += " ";
        text += said;
    }
    text
}

/// What is to be said of one preservative at the target pH.
pub fn verdict(found: &Agent) -> Vec<&'static str> {
    let little = |at: &ShareAt| at.share < Percent::millionths(10_000_000);
    let inactive = found.shares.as_ref().is_some_and(|[at, ..]| little(at)).then_some(INACTIVE);
    let window = match found.works {
        Works::Yes | Works::Unknown => None,
        Works::WithCare => Some("This pH is at the edge of its window."),
        Works::No => Some("This pH is outside its window: it does not count."),
        Works::TooLittle => Some("There is too little of it to preserve anything: it does not count."),
    };
    inactive.into_iter().chain(window).collect()
}

/// What of a preservative is free in the water, and whether it stays dissolved.
pub fn in_water(found: &InWater, is_acid: bool, sign: DecimalSign) -> String {
    let [least, likely, most] = found.free.map(|share| percent(share, sign));
    let form = if is_acid { "undissociated" } else { "free" };
    let mut text = format!("Its water holds about {likely} of it {form} ({least} to {most}).");
    if found.estimated {
        text += " How it divides between oil and water is estimated, not measured.";
    }
    text += match found.dissolves {
        Dissolves::Yes => "",
        Dissolves::InDoubt => {
            " Crystals may come when it stands in the cold: keep a jar at 4 to 10\u{202f}\u{b0}C and look."
        }
        Dissolves::No => {
            " That is more than water and oil hold: the rest may stand as crystals, and does not act. Glycols, glycerin and \
             benzyl alcohol hold more."
        }
    };
    if !found.note.is_empty() {
        text += &format!(" {}.", found.note);
    }
    text
}

/// A share to a whole percent, below ten to a tenth.
pub(super) fn whole(share: Percent, sign: DecimalSign) -> String {
    let places = if share < Percent::millionths(10_000_000) { 1 } else { 0 };
    format!("{}\u{202f}%", rounded(share, places, sign))
}

/// The organisms that are covered weakly (0) or only fairly (1).
pub fn gaps(cover: Cover) -> Vec<(&'static str, u8)> {
    let all = [
        ("Gram-positive bacteria", cover.gram_positive),
        ("Gram-negative bacteria", cover.gram_negative),
        ("yeasts", cover.yeast),
        ("moulds", cover.mould),
    ];
    all.into_iter().filter(|(_, grade)| *grade < 2).collect()
}

/// What the emulsifiers can do.
pub fn emulsion(found: &Emulsion, name: Name<'_>, sign: DecimalSign) -> String {
    let mut text = recognised(found.system).to_owned();
    if let Some(share) = found.of_oils().filter(|_| found.goes_by_share()) {
        text += &match &found.polymer {
            Some(part) => format!(" {} is {} of the whole formula.", name(part.line), percent(part.share, sign)),
            None if found.network_of_oil.is_some() => format!(" All of it is {} of the oils.", whole(share, sign)),
            None => format!(" Emulsifiers are {} of the oils.", whole(share, sign)),
        };
        text += match found.dose {
            Some(Dose::Low) => " That is less than an emulsion usually needs (common practice).",
            Some(Dose::Lean) => " That is on the low side (common practice).",
            Some(Dose::Good) => " That is usual (common practice).",
            None => "",
        };
    }
    match (found.required, found.hlb) {
        (Some(required), Some(hlb)) if found.goes_by_hlb() => {
            text += &format!(
                " The oils need an HLB of {}; the emulsifiers have {}.",
                tenths(required, sign),
                tenths(hlb, sign)
            );
            text += if found.required_unknown.is_empty() { "" } else { " Oils without a required HLB:" };
            text += &listed_after(&found.required_unknown, name);
        }
        _ if !found.no_hlb.is_empty() && found.system == EmulsionSystem::Unknown => {
            text += &format!(" HLB does not apply to {}: go by its percentage.", listed(&found.no_hlb, name));
        }
        _ => {}
    }
    text += match found.crowding {
        None | Some(Crowding::Loose) => "",
        Some(Crowding::Thick) => {
            " More than half of the volume is oil: it will be thick, and the order of addition matters."
        }
        Some(Crowding::Crowded) => " The droplets are closely packed: pour the oil phase in slowly while stirring.",
        Some(Crowding::BeyondPacking) if !found.oil_is_packed() => "",
        Some(Crowding::BeyondPacking) => {
            " There is more oil than can be packed as round droplets: the emulsion may invert."
        }
    };
    text
}

/// What holds the droplets, in two or three words.
pub const fn system(system: EmulsionSystem) -> &'static str {
    match system {
        EmulsionSystem::GelNetwork => "gel network",
        EmulsionSystem::Cationic => "cationic",
        EmulsionSystem::Soap => "held by soap",
        EmulsionSystem::Polymeric => "held by a polymer",
        EmulsionSystem::WaterInOil => "water in oil",
        EmulsionSystem::Lamellar => "liquid crystals",
        EmulsionSystem::Anionic => "anionic",
        EmulsionSystem::Nonionic => "nonionic",
        EmulsionSystem::Unknown => "kind not known",
    }
}

/// Which kind of emulsifier was recognised, and by what it is judged.
pub const fn recognised(system: EmulsionSystem) -> &'static str {
    match system {
        EmulsionSystem::GelNetwork => {
            "Recognised: a gel network of fatty alcohol or glyceryl stearate with a hydrophilic partner, judged by all of it together; HLB does not decide."
        }
        EmulsionSystem::Cationic => {
            "Recognised: a cationic emulsifier, judged with its fatty alcohol by their share of the oils; HLB does not apply, and anything anionic breaks it."
        }
        EmulsionSystem::Soap => {
            "Recognised: an emulsifier that is soap, judged by its pH and not by HLB; acid, salts of calcium or magnesium and anything cationic break it."
        }
        EmulsionSystem::Polymeric => {
            "Recognised: a polymer around the droplets, judged by its dose; HLB does not apply, and salts or a pH outside its window break it."
        }
        EmulsionSystem::WaterInOil => {
            "Recognised: an emulsifier for water in oil, judged by how much water it has to hold."
        }
        EmulsionSystem::Lamellar => {
            "Recognised: an emulsifier that builds liquid crystals, judged by its share of the oils; HLB does not apply, and it sets as it cools."
        }
        EmulsionSystem::Anionic => {
            "Recognised: an anionic emulsifier, judged by its share of the oils; HLB does not apply, and anything cationic breaks it."
        }
        EmulsionSystem::Nonionic => "Recognised: a nonionic emulsifier, judged by its share of the oils and by HLB.",
        EmulsionSystem::Unknown => {
            "What kind of emulsifier this is was not recognised, so it is judged by its share of the oils alone."
        }
    }
}

fn listed_after(ids: &[LineId], name: Name<'_>) -> String {
    if ids.is_empty() { String::new() } else { format!(" {}.", listed(ids, name)) }
}

pub(super) fn tenths(hlb: Hlb, sign: DecimalSign) -> String {
    one_place(hlb, sign)
}

/// What came of looking for a pair of emulsifiers.
pub fn pair(found: Pair, high: &str, low: &str, sign: DecimalSign) -> String {
    match found {
        Pair::Shares { high: of_high, low: of_low } => {
            format!("{} of {high} and {} of {low}.", percent(of_high, sign), percent(of_low, sign))
        }
        Pair::TooLow => format!("These two cannot reach it: both are below. Choose one with a higher HLB than {high}."),
        Pair::TooHigh => format!("These two cannot reach it: both are above. Choose one with a lower HLB than {low}."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Document, read_document};
    use crate::sheet::{Sheet, compute};
    use crate::shelf::Shelf;

    fn lotion(lines: &str) -> (Document, Sheet) {
        let text = format!(
            r#"{{"format":"hundred-parts","version":1,"formula":{{"target_ph":"5.4","phases":[
            {{"kind":"water","lines":[{{"ingredient":"water","percent":"fill-up"}},{lines}]}},
            {{"kind":"oil","lines":[{{"ingredient":"almond-sweet","percent":"10"}},{{"ingredient":"emulsifying-wax-nf","percent":"1"}}]}}]}}}}"#
        );
        let document = read_document(&text, &mut Shelf::default()).unwrap();
        let sheet = compute(&document.state.formula, &document.state.plan, &document.state.lye, &Shelf::default());
        (document, sheet)
    }

    fn named(document: &Document) -> impl Fn(LineId) -> String {
        let lines: Vec<_> = document
            .state
            .formula
            .lines()
            .filter_map(|(_, line)| Some((line.id, line.choice.id()?.to_string())))
            .collect();
        move |id| lines.iter().find(|(line, _)| *line == id).map_or_else(String::new, |(_, name)| name.clone())
    }

    #[test]
    fn prediction_says_what_it_cannot_see_and_that_a_reading_decides() {
        let (document, sheet) = lotion(
            r#"{"ingredient":"sodium-benzoate","percent":"0.5"},{"ingredient":"sodium-bicarbonate","percent":"0.1"},{"ingredient":"xanthan-gum","percent":"0.2"}"#,
        );
        let text = prediction(sheet.ph.as_ref().unwrap(), &named(&document), DecimalSign::Point);
        assert!(text.contains("does not replace a reading") && text.contains("Not counted: xanthan-gum."), "{text}");
        assert!(text.contains(UNSEEN), "{text}");
        assert!(text.contains("Carbon dioxide"), "{text}");
    }

    #[test]
    fn meeting_that_is_empty_names_both_sides() {
        let (document, sheet) =
            lotion(r#"{"ingredient":"sodium-benzoate","percent":"0.5"},{"ingredient":"carbomer","percent":"0.2"}"#);
        assert_eq!(
            meeting(&sheet.window, &named(&document), DecimalSign::Point),
            "No pH suits all: carbomer needs 5.5 or more, sodium-benzoate needs 5.0 or less. Change one of them."
        );
    }

    #[test]
    fn agent_says_how_little_of_an_acid_is_left_to_act() {
        let (_, sheet) = lotion(r#"{"ingredient":"sodium-benzoate","percent":"0.5"}"#);
        let preservation = sheet.preservation.unwrap();
        assert_eq!(
            agent(&preservation.agents[0], "Sodium benzoate", DecimalSign::Point),
            "Sodium benzoate: 0.5\u{202f}% added, 0.424\u{202f}% as acid. At pH 5.4 about 6\u{202f}% of it is undissociated (4.8\u{202f}% to 6.1\u{202f}%), which leaves 0.025\u{202f}% active; 11\u{202f}% at pH 5.1, 3.1\u{202f}% at pH 5.7. Mostly in the inactive form. This pH is at the edge of its window."
        );
        assert!(preservation.cover.is_some());
    }

    #[test]
    fn emulsion_without_a_meaningful_hlb_speaks_of_the_share() {
        let (document, sheet) = lotion(r#"{"ingredient":"glycerin","percent":"4"}"#);
        let text = emulsion(sheet.emulsion.as_ref().unwrap(), &named(&document), DecimalSign::Comma);
        assert_eq!(
            text,
            "Recognised: a gel network of fatty alcohol or glyceryl stearate with a hydrophilic partner, judged by all of it together; HLB does not decide. All of it is 10\u{202f}% of the oils. That is less than an emulsion usually needs (common practice)."
        );
    }
}
