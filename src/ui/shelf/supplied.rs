//! What suppliers state: allergens lot by lot, limits of a certificate, and what was read of either.

use super::stock::{self, InStock};
use crate::ui::annexes::names_are_here;
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, el, typed};
use crate::ui::field::{area_field, button, text_field, text_input};
use hundred_parts::desk::ShelfAction;
use hundred_parts::facts::IngredientId;
use hundred_parts::rules::certificate_category;
use hundred_parts::shelf::{Certificate, Composition, Lot, LotField, read_certificate, read_composition};
use hundred_parts::words::{self, page};

/// How many lines are shown at once: more than any list of allergens has, and few enough to be drawn at a key.
const MOST: usize = 100;

/// What of a text does not count as understood: its heading, its lines, what to do about them.
struct Left<'a> {
    meta: &'a str,
    lines: &'a [String],
    remedy: &'a str,
}

/// What was read of a text, what was not, and what to do about that. It stands there as soon as the text does. What was not
/// understood is not known to be wrong.
fn read_back(told: String, items: &[String], left: &[Left<'_>]) -> View {
    let list = |lines: &[String]| {
        let more = lines.len().checked_sub(MOST + 1).map(|more| el("li").text(&words::and_more(more + 1)));
        el("ul").child(lines.iter().take(MOST).map(|line| el("li").text(line)).collect::<View>()).child(more)
    };
    let not = left.iter().filter(|left| !left.lines.is_empty()).map(|left| {
        el("div")
            .attr("data-grade", "unknown")
            .child(el("p").class("grade").text(left.meta))
            .child(list(left.lines))
            .child(el("p").text(left.remedy))
    });
    [el("p").text(&told), list(items)].into_iter().chain(not).collect()
}

/// What was understood of a supplier's statement, and what was not.
pub(super) fn statement(desk: Desk, text: impl Fn() -> String + 'static) -> El {
    // Names are told anew when their tables have come.
    let read = move || (read_composition(&text()), names_are_here());
    let list = move |read: &Composition| {
        if read.items.is_empty() && read.unread.is_empty() {
            return View::nothing();
        }
        let told = |item| words::contained(item, desk.sign);
        let items: Vec<String> = read.recognised().map(told).collect();
        let names: Vec<String> = read.unrecognised().map(told).collect();
        let left = [
            Left { meta: page::NOT_RECOGNISED, lines: &names, remedy: words::MEND_NAMES },
            Left { meta: page::NOT_UNDERSTOOD, lines: &read.unread, remedy: words::MEND_STATEMENT },
        ];
        read_back(words::composition_read(read), &items, &left)
    };
    el("div").class("read small").attr("role", "status").child(dynamic(read, move |(read, _)| list(read)))
}

/// What was understood of a supplier's certificate, what of it counts for the open formula, and what was not.
pub(super) fn certificate(desk: Desk, text: impl Fn() -> String + 'static) -> El {
    let read = move || {
        let category = desk.with(|open| certificate_category(&open.state().formula.about));
        (read_certificate(&text()), category)
    };
    let list = move |(read, category): &(Certificate, &'static str)| {
        if read.limits.is_empty() && read.unread.is_empty() {
            return View::nothing();
        }
        let one =
            |(category, limit): &(Option<String>, _)| words::certificate_limit(category.as_deref(), *limit, desk.sign);
        let items: Vec<String> = read.limits.iter().map(one).collect();
        let left = [Left { meta: page::NOT_UNDERSTOOD, lines: &read.unread, remedy: words::MEND_CERTIFICATE }];
        read_back(words::certificate_read(read, category, desk.sign), &items, &left)
    };
    el("div").class("read small").attr("role", "status").child(dynamic(read, list))
}

/// The lots of an ingredient: what came, what is left, what its supplier states.
pub(super) fn lots(desk: Desk, stock: InStock, id: IngredientId) -> El {
    let (counted, added, others) = (id.clone(), id.clone(), id.clone());
    let count = move || desk.with(|open| open.shelf().lots_of(&counted).len());
    let rows = move |count: &usize| (0..*count).map(|n| lot(desk, stock, &id, n)).collect::<View>();
    let add = move || {
        desk.act_on_shelf(ShelfAction::AddLot(added.clone()));
    };
    el("div")
        .class("lots")
        .child(el("h3").text(page::LOTS))
        .child(el("p").class("small").text(page::LOTS_INTRO))
        .child(dynamic(count, rows))
        .child(stock::from_none(desk, stock, others))
        .child(el("div").class("actions").child(button(page::ADD_LOT).press(add)))
}

fn lot(desk: Desk, stock: InStock, id: &IngredientId, n: usize) -> El {
    let text = |field: LotField| {
        let id = id.clone();
        move || {
            desk.with(|open| open.shelf().lots_of(&id).get(n).map(|lot: &Lot| lot.text(field).to_owned()))
                .unwrap_or_default()
        }
    };
    let set = |field: LotField| {
        let id = id.clone();
        move |text: String| {
            desk.act_on_shelf(ShelfAction::SetLot(id.clone(), n, field, text));
        }
    };
    let element = |field: LotField| format!("lot-{}-{}", n + 1, field.key());
    let (day, set_day, set_statement) = (element(LotField::Date), set(LotField::Date), set(LotField::Statement));
    let date = text_input(desk, &day)
        .attr("type", "date")
        .value_of(text(LotField::Date))
        .on("input", move |event| set_day(typed(&event)));
    let name = text_field(desk, &element(LotField::Name), page::LOT, text(LotField::Name), set(LotField::Name));
    let stated = area_field(desk, &element(LotField::Statement), page::LOT_STATEMENT, text(LotField::Statement))
        .on("input", move |event| set_statement(typed(&event)))
        .child(statement(desk, text(LotField::Statement)));
    let gone = id.clone();
    let remove = move || {
        desk.act_on_shelf(ShelfAction::RemoveLot(gone.clone(), n));
        desk.say(page::REMOVED_LOT, Some(FollowUp::Undo));
        focus("work".to_owned());
    };
    el("fieldset")
        .class("lot")
        .child(el("legend").text(&format!("{} {}", page::FURTHER_LOT, n + 1)))
        .child(
            el("div")
                .class("fields")
                .child(name)
                .child(stock::lot_fields(desk, stock, id, n))
                .child(el("div").class("field").child(el("label").attr("for", &day).text(page::LOT_DATE)).child(date))
                .child(stated),
        )
        .child(el("div").class("actions").child(button(page::REMOVE_LOT).press(remove)))
}
