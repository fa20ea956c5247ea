//! Which lot of a raw material counts, line by line.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::pick_field;
use hundred_parts::desk::{Action, OpenDocument};
use hundred_parts::formula::LineId;
use hundred_parts::words::{self, page};

/// A line whose material has lots: what it is called, and the lots to choose from, by name and as shown.
type LotChoice = (LineId, String, Vec<(String, String)>);

fn rows(open: &OpenDocument) -> Vec<LotChoice> {
    let row = |line: &hundred_parts::formula::Line| -> Option<LotChoice> {
        let entry = open.shelf().entry(line.choice.id()?)?;
        let newest = entry.counted("")?;
        let mut choices = vec![(String::new(), words::newest_lot(&newest))];
        for one in entry.counted_lots().iter().filter(|one| !one.lot.is_empty()) {
            choices.push((one.lot.to_owned(), words::lot_choice(one)));
        }
        let lot = line.lot.trim();
        if choices.iter().all(|(known, _)| known != lot) {
            choices.push((lot.to_owned(), words::missing_lot(lot)));
        }
        Some((line.id, entry.label().to_owned(), choices))
    };
    open.state().formula.lines().filter_map(|(_, line)| row(line)).collect()
}

/// The card; nothing where no supplier's statement was entered.
pub(super) fn card(desk: Desk) -> El {
    let one = move |(line, name, choices): &LotChoice| {
        let (line, lots) = (*line, choices.iter().map(|(lot, _)| lot.clone()).collect::<Vec<_>>());
        let known = lots.clone();
        let at = move || {
            desk.with(|open| {
                let lot = open.state().formula.line(line).map_or("", |line| line.lot.trim()).to_owned();
                known.iter().position(|known| *known == lot).unwrap_or(0)
            })
        };
        let set = move |n: usize| {
            if let Some(lot) = lots.get(n) {
                desk.act(Action::LotOfLine(line, lot.clone()));
            }
        };
        let shown = choices.iter().map(|(_, shown)| shown.clone()).collect::<Vec<_>>();
        pick_field(&format!("lot-of-{}", line.number()), name, shown, at, set).class("field wide")
    };
    let list = dynamic(
        move || desk.with(rows),
        move |rows| {
            if rows.is_empty() {
                return View::nothing();
            }
            el("section")
                .class("card")
                .child(el("h2").text(page::LOTS_THAT_COUNT))
                .child(el("p").class("small").text(page::LOTS_THAT_COUNT_INTRO))
                .child(el("div").class("fields").child(rows.iter().map(one).collect::<View>()))
                .into()
        },
    );
    el("div").child(list)
}
