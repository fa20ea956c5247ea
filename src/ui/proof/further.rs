//! What was seen by each criterion, events beside the plan, the calendar, and what warm storage can and cannot tell.

use super::typing::{Typing, forget};
use super::{Proof, of_study};
use crate::ui::browser;
use crate::ui::dom::{El, View, el};
use crate::ui::field::{button, folded, unfolding};
use hundred_parts::batch::study::{
    CalendarEntry, ConditionKind, CriterionState, Pull, Study, StudyEvent, StudyIncident, calendar_file, seen_so_far,
    verdicts as judged,
};
use hundred_parts::facts::stability_figures;
use hundred_parts::quantity::Day;
use hundred_parts::words::proof as words;

/// A sentence for each criterion.
pub(super) fn verdicts(proof: Proof) -> El {
    let rows = of_study(proof, judged, |found| {
        let one = |verdict: &hundred_parts::batch::study::StudyVerdict| {
            let grade = match verdict.state {
                CriterionState::NotJudged => "unknown",
                CriterionState::Within => "fine",
                CriterionState::Care => "care",
                CriterionState::Outside => "stop",
            };
            View::from_iter([
                el("dt").text(words::criterion(verdict.criterion)),
                el("dd").attr("data-grade", grade).text(&words::verdict(verdict)),
            ])
        };
        el("dl").class("verdicts").child(found.iter().map(one).collect::<View>()).into()
    });
    let content = of_study(
        proof,
        |study| study.basis.content.is_none() && study.seen.iter().any(|seen| seen.seen.weight.is_some()),
        |unknown| unknown.then(|| el("p").class("small").text(words::CONTENT_UNKNOWN)).into(),
    );
    el("section")
        .class("card")
        .child(el("h3").text(words::VERDICTS))
        .child(rows)
        .child(content)
        .child(el("p").class("small").text(words::VERDICT_CARE))
}

/// Events and remarks, and a form for another one.
pub(super) fn events(proof: Proof) -> El {
    let noted = of_study(
        proof,
        |study| study.notes.clone(),
        |notes| {
            let one = |(at, what, text): &(_, Option<StudyIncident>, String)| {
                let day = browser::day_of(*at).map(words::short_day).unwrap_or_default();
                el("li").child(el("span").class("small").text(&day)).text(" ").text(&words::noted(*what, text))
            };
            if notes.is_empty() {
                return View::nothing();
            }
            el("ul").class("noted").child(notes.iter().map(one).collect::<View>()).into()
        },
    );
    let form = unfolding(folded(words::EVENTS), move || {
        let what = Typing::new(proof, "event", "what", "");
        let text = Typing::new(proof, "event", "text", "");
        let kinds = StudyIncident::ALL.iter().map(|kind| words::incident(*kind).to_owned()).collect();
        let keep = move || {
            let kind = what.picked().and_then(|place| StudyIncident::ALL.get(place).copied());
            let said = text.now();
            let event = match kind {
                Some(what) => StudyEvent::Happened { what, text: said },
                None if said.is_empty() => return proof.desk.say(words::NOTHING_SEEN, None),
                None => StudyEvent::Remark { text: said },
            };
            if proof.desk.note_study(event) {
                forget(proof, "event");
                what.set(String::new());
                text.set(String::new());
                proof.desk.say(words::EVENT_KEPT, None);
            }
        };
        el("div")
            .class("fields")
            .child(what.pick("event-what", words::WHAT, words::NOTE, kinds))
            .child(text.words("event-text", words::IN_WORDS))
            .child(button(words::KEEP_EVENT).press(keep))
    });
    el("section").class("card").child(noted).child(form)
}

/// What warm storage can and cannot tell, what it is taken for, and the calendar.
pub(super) fn means(proof: Proof) -> El {
    let models = of_study(proof, models(proof), |lines: &Vec<String>| {
        lines.iter().map(|line| el("p").class("small").text(line)).collect()
    });
    let text = unfolding(folded(words::MEANS), move || {
        el("div").child(words::MEANS_TEXT.into_iter().map(|text| el("p").text(text)).collect::<View>())
    });
    el("section")
        .class("card")
        .child(text)
        .child(models)
        .child(button(words::CALENDAR).press(move || give_calendar(proof)))
}

/// For each warm condition, how long was seen there and what that is taken for.
fn models(proof: Proof) -> impl Fn(&Study) -> Vec<String> {
    move |study| {
        let Some(figures) = stability_figures() else { return Vec::new() };
        let room = study.plan.condition(ConditionKind::Room).and_then(|room| room.celsius);
        let one = |kind: ConditionKind| {
            let (warm, room) = (study.plan.condition(kind)?.celsius?, room?);
            let days = seen_so_far(study, kind).days;
            (days > 0).then(|| words::ageing(kind, days, warm, room, &figures, proof.desk.sign))
        };
        let mut lines: Vec<String> = [ConditionKind::Warm, ConditionKind::Hot].into_iter().filter_map(one).collect();
        if !lines.is_empty() {
            lines.push(words::ageing_source(&figures));
        }
        lines
    }
}

/// A file with an event for each day that has pulls still to come.
fn give_calendar(proof: Proof) {
    let id = proof.desk.now(|open| open.open_study().map(|study| study.id().as_str().to_owned())).unwrap_or_default();
    let today = proof.today_now();
    let entries = proof.now(|study| {
        let entry = |(day, pulls): (Day, Vec<Pull>)| {
            let (summary, text) = words::in_calendar(study, &pulls);
            CalendarEntry { uid: format!("{id}.{}@hundred-parts", day.text()), day, summary, text }
        };
        study.open_days(today).into_iter().map(entry).collect::<Vec<_>>()
    });
    let entries = entries.unwrap_or_default();
    if entries.is_empty() {
        return proof.desk.say(words::NO_CALENDAR, None);
    }
    if browser::download("stability-study.ics", "text/calendar", &calendar_file(&entries, browser::now())).is_some() {
        proof.desk.say(words::CALENDAR_GIVEN, None);
    }
}
