//! Temperatures of the pots, read and recorded.

use super::Stove;
use super::draft::Draft;
use crate::ui::dom::{El, View, el};
use crate::ui::field::button;
use hundred_parts::batch::{Event, Pot};
use hundred_parts::quantity::{Celsius, Quantity};
use hundred_parts::words::{number, stove as words};

/// A field for each pot, beside it what was read last.
pub(super) fn readings(stove: Stove, pots: &[Pot], wanted: Option<Celsius>) -> El {
    let figure = wanted.map(|wanted| {
        let figure = number(&wanted.canonical(), stove.desk.sign);
        el("p").class("figure").child(el("strong").text(&figure)).child(el("span").text("\u{b0}C"))
    });
    el("div").class("readings").child(figure).child(pots.iter().map(|pot| reading(stove, *pot)).collect::<View>())
}

/// One pot.
pub(super) fn reading(stove: Stove, pot: Pot) -> El {
    let typed = Draft::new(stove, &format!("celsius-{}", pot.key()));
    let add = move || {
        if let Some(reading) = typed.value_now::<Celsius>()
            && stove.note(Event::Temperature { pot, reading })
        {
            typed.clear();
        }
    };
    let last = move || {
        let last = stove.with(|made| made.at.making.temperature(pot)).flatten();
        last.map(|last| format!("{} {}", words::IS_READ, words::degrees(last.celsius, stove.desk.sign)))
    };
    let label = if pot == Pot::Batch { words::NOW } else { words::pot(pot) };
    el("div")
        .class("reading")
        .child(typed.number::<Celsius>(&format!("stove-{}", pot.key()), label, "\u{b0}C", add))
        .child(button(words::ADD_READING).disabled_if(move || typed.value::<Celsius>().is_none()).press(add))
        .child(el("span").class("last").attr("role", "status").text_of(move || last().unwrap_or_default()))
}
