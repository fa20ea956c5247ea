//! Filling: what each pack holds, against what may be missing of it, and what is left in the pot.

use super::Stove;
use super::draft::Draft;
use crate::ui::browser;
use crate::ui::dom::{View, dynamic, el};
use crate::ui::field::button;
use crate::ui::records::picture;
use hundred_parts::batch::Event;
use hundred_parts::paper::RecordFills;
use hundred_parts::quantity::Mass;
use hundred_parts::words::stove as words;

/// The packs.
pub(super) fn packs(stove: Stove) -> View {
    let typed = Draft::new(stove, "fill");
    let add = move || {
        if let Some(mass) = typed.value_now::<Mass>().filter(|mass| *mass > Mass::ZERO)
            && stove.note(Event::Filled { mass })
        {
            typed.clear();
            browser::focus("stove-fill".to_owned());
        }
    };
    let field = el("div")
        .class("reading")
        .child(typed.number::<Mass>("stove-fill", words::FILL, "g", add))
        .child(button(words::ADD_FILL).disabled_if(move || typed.value::<Mass>().is_none()).press(add));
    let fills = move || {
        let found = stove.with(|made| {
            let packs = made.at.from.packs;
            let fills = RecordFills::of(packs.map(|packs| packs.fill), made.at.making.fills.clone())?;
            Some((fills, packs.map(|packs| packs.count)))
        });
        found.flatten()
    };
    let shown = dynamic(fills, move |found| {
        let Some((fills, wanted)) = found else { return View::nothing() };
        let sign = stove.desk.sign;
        let short = fills.judged.as_ref().is_some_and(|judged| !judged.below.is_empty());
        let short = short.then(|| el("p").class("judged").attr("data-verdict", "off").text(words::BELOW_T1));
        let said = el("p").attr("role", "status").text(&words::fills(fills, *wanted, sign));
        View::from_iter([said.into(), View::from(short), picture(fills, sign).into()])
    });
    View::from_iter([field.into(), shown, rest(stove, "lost", words::LOST), rest(stove, "retained", words::RETAINED)])
}

/// What went elsewhere.
fn rest(stove: Stove, name: &'static str, label: &'static str) -> View {
    let typed = Draft::new(stove, name);
    let add = move || {
        let Some(mass) = typed.value_now::<Mass>() else { return };
        let what = label.to_owned();
        let event = if name == "lost" { Event::Lost { what, mass } } else { Event::Retained { what, mass } };
        if stove.note(event) {
            typed.clear();
        }
    };
    let so_far = move || {
        let sum = stove.with(|made| {
            let flows = made.at.flows(&made.record);
            if name == "lost" { flows.losses.iter().map(|loss| loss.mass).sum() } else { flows.retained }
        });
        words::recorded(sum.unwrap_or_default(), stove.desk.sign)
    };
    el("div")
        .class("reading")
        .child(typed.number::<Mass>(&format!("stove-{name}"), label, "g", add))
        .child(button(words::NOTE_IT).disabled_if(move || typed.value::<Mass>().is_none()).press(add))
        .child(el("p").class("last").attr("role", "status").text_of(so_far))
        .into()
}
