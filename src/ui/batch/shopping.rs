//! What the planned batch needs and the shelf does not have.

use crate::ui::browser::today;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::records::Used;
use hundred_parts::batch::{ToBuy, Usage};
use hundred_parts::desk::{needs, to_buy};
use hundred_parts::words::stock as said;

/// The card.
pub(super) fn card(desk: Desk) -> El {
    let used = Used::read(desk);
    let list = move || -> Option<Vec<ToBuy>> {
        let usage = Usage::of(&used.get()?);
        desk.derived(|derived| {
            let sheet = derived.sheet.weigh.as_ref().ok()?;
            let lye = derived.sheet.lye.as_ref().and_then(|lye| lye.as_ref().ok());
            Some(desk.with(|open| to_buy(&needs(open, sheet, lye), open, &usage, today())))
        })
    };
    let inside = dynamic(list, move |list| match list {
        None => View::nothing(),
        Some(list) if list.iter().all(|row| row.there.is_none()) => {
            el("p").class("small").text(said::SHOPPING_EMPTY).into()
        }
        Some(list) => View::from_iter([el("p").attr("role", "status").text(&said::missing(list)), table(desk, list)]),
    });
    el("section")
        .class("card shopping no-print")
        .attr("aria-labelledby", "shopping-title")
        .child(el("h2").id("shopping-title").text(said::SHOPPING))
        .child(used.reading())
        .child(inside)
}

fn table(desk: Desk, list: &[ToBuy]) -> El {
    let head = |(text, class): (&str, &str)| el("th").attr("scope", "col").class(class).text(text);
    let heads = [(said::INGREDIENT, ""), (said::NEEDED, "number"), (said::THERE, "number"), (said::TO_BUY, "number")];
    let row = |row: &ToBuy| {
        let cells = said::to_buy(row, desk.sign);
        let cell = |text: &String| el("td").class("number").text(text);
        el("tr")
            .child(el("th").attr("scope", "row").text(&row.need.name))
            .child(cells.iter().map(cell).collect::<View>())
    };
    el("table")
        .class("compare")
        .child(el("thead").child(el("tr").child(heads.into_iter().map(head).collect::<View>())))
        .child(el("tbody").child(list.iter().map(row).collect::<View>()))
}
