//! Stock: what is low, what ends soon, what can be made; and of one lot what came, what it cost and what is left of it.

use crate::ui::browser::{focus, today};
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el, typed, when};
use crate::ui::field::{button, folded, quantity_field, text_field, text_input};
use crate::ui::records::{Used, show_lot};
use hundred_parts::batch::{LotStock, MaterialStock, Usage, ending, low, stocks};
use hundred_parts::desk::{Document, ShelfAction, makeable, needs};
use hundred_parts::facts::{IngredientId, Months};
use hundred_parts::quantity::{Day, Mass, Typed};
use hundred_parts::shelf::{Lot, LotField};
use hundred_parts::words::{FieldText, page, stock as said};
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// What all batches have used up; nothing while their records are read.
#[derive(Clone, Copy)]
pub(super) struct InStock {
    used: Used,
    usage: RwSignal<Option<Arc<Usage>>>,
}

impl InStock {
    pub(super) fn read(desk: Desk) -> Self {
        let used = Used::read(desk);
        let usage = crate::ui::dom::follow(move || Some(Arc::new(Usage::of(&used.get()?))));
        Self { used, usage }
    }

    /// How an ingredient stands, tracked; nothing while the records are read, or where none of its lots was entered.
    pub(super) fn of(self, desk: Desk, id: &IngredientId) -> Option<MaterialStock> {
        let usage = self.usage.get()?;
        desk.with(|open| (!open.shelf().lots_of(id).is_empty()).then(|| MaterialStock::of(open.shelf(), id, &usage)))
    }

    /// What a row of the list says of the stock of an ingredient.
    pub(super) fn row(self, desk: Desk, id: &IngredientId) -> Option<String> {
        said::row(&self.of(desk, id)?, today(), desk.sign)
    }
}

/// A row that leads to an ingredient.
#[derive(Clone, PartialEq)]
struct Alert {
    id: IngredientId,
    text: String,
}

/// What is low and what ends soon; nothing of both before the records are read.
#[derive(Clone, PartialEq, Default)]
struct Alerts {
    counted: bool,
    low: Vec<Alert>,
    ending: Vec<Alert>,
}

fn alerts(desk: Desk, stock: InStock) -> Option<Alerts> {
    let usage = stock.usage.get()?;
    let today = today();
    let planned = desk.derived(|derived| {
        let lye = derived.sheet.lye.as_ref().and_then(|lye| lye.as_ref().ok());
        match &derived.sheet.weigh {
            Ok(sheet) => desk.with(|open| needs(open, sheet, lye)),
            Err(_) => Vec::new(),
        }
    });
    let needed = |id: &IngredientId| -> Mass {
        planned.iter().filter(|need| need.ingredient.as_ref() == Some(id)).map(|need| need.mass).sum()
    };
    let all = desk.with(|open| stocks(open.shelf(), &usage));
    let mut found = Alerts { counted: all.iter().any(|(_, stock)| stock.usable(None).is_some()), ..Alerts::default() };
    let name = |id: &IngredientId| {
        desk.with(|open| open.shelf().entry(id).map(|entry| entry.label().to_owned()).unwrap_or_default())
    };
    for (id, stock) in all {
        if let Some(why) = low(&stock, needed(&id), today) {
            let there = stock.usable(today).unwrap_or_default();
            found.low.push(Alert { text: said::low(&name(&id), why, there, desk.sign), id: id.clone() });
        }
        for (lot, day) in today.map(|on| ending(&stock, on)).unwrap_or_default() {
            let text = today.map(|on| said::ends(&name(&id), &lot.lot, day, on)).unwrap_or_default();
            found.ending.push(Alert { text, id: id.clone() });
        }
    }
    Some(found)
}

/// The top of the shelf.
pub(super) fn top(desk: Desk, stock: InStock, open: RwSignal<Option<IngredientId>>) -> El {
    let shown = dynamic(
        move || alerts(desk, stock),
        move |found| {
            let Some(found) = found else { return View::nothing() };
            let list = |title: &str, rows: &[Alert]| {
                let one = |told: &Alert| {
                    let id = told.id.clone();
                    let go = move || {
                        open.set(Some(id.clone()));
                        focus("entry-title".to_owned());
                    };
                    el("li").child(button(&told.text).press(go))
                };
                let list = || el("ul").class("list").child(rows.iter().map(one).collect::<View>());
                View::from((!rows.is_empty()).then(|| el("div").child(el("h3").text(title)).child(list())))
            };
            if !found.counted && found.ending.is_empty() {
                return el("p").class("small").text(said::EMPTY).into();
            }
            if found.low.is_empty() && found.ending.is_empty() {
                return el("p").class("small").text(&said::nothing_low()).into();
            }
            View::from_iter([list(said::LOW, &found.low), list(said::ENDING, &found.ending)])
        },
    );
    el("section")
        .class("card store no-print")
        .attr("aria-labelledby", "stock-title")
        .child(el("h2").id("stock-title").text(said::STOCK))
        .child(stock.used.reading())
        .child(shown)
        .child(el("p").class("small").text(said::NOT_COUNTED))
        .child(can_make(desk, stock))
}

/// How much of each formula the stock allows: read once this is opened.
fn can_make(desk: Desk, stock: InStock) -> El {
    let documents = RwSignal::new(None::<Vec<Document>>);
    let asked = RwSignal::new(false);
    let rows = move || -> Option<Vec<String>> {
        let usage = stock.usage.get()?;
        documents.with(|documents| {
            let one = |document: &Document| {
                let formula = &document.state.formula;
                let made = desk.with(|open| makeable(formula, open.shelf(), &usage, today()));
                let title = formula.about.title.trim();
                let title = if title.is_empty() { page::UNTITLED } else { title };
                format!("{title}: {}", said::can_make(&made, desk.sign))
            };
            Some(documents.as_ref()?.iter().map(one).collect())
        })
    };
    let list = move || {
        dynamic(rows, |rows| match rows {
            None => el("p").class("small").attr("role", "status").text(said::READING).into(),
            Some(rows) if rows.is_empty() => el("p").class("small").text(said::NO_FORMULA).into(),
            Some(rows) => {
                el("ul").class("plain").child(rows.iter().map(|row| el("li").text(row)).collect::<View>()).into()
            }
        })
    };
    let inside = move || el("div").child(el("p").class("small").text(said::CAN_MAKE_SAYS)).child(list()).into();
    folded(said::CAN_MAKE).child(when(move || asked.get(), inside)).on("toggle", move |_| {
        if !asked.get_untracked() {
            asked.set(true);
            spawn_local(async move {
                let (all, _) = desk.all_documents().await;
                documents.try_set(Some(all));
            });
        }
    })
}

/// What came, what it cost and what is left of the `n`th lot of an ingredient.
pub(super) fn lot_fields(desk: Desk, stock: InStock, id: &IngredientId, n: usize) -> View {
    let field = |field: LotField| LotAt { desk, id: id.clone(), n, field };
    let there = {
        let id = id.clone();
        move || -> Option<LotStock> {
            let name = desk.with(|open| open.shelf().lots_of(&id).get(n).map(|lot| lot.name.trim().to_owned()))?;
            let all = stock.of(desk, &id)?;
            all.lots.into_iter().find(|lot| lot.lot == name)
        }
    };
    let left = move || there().map(|lot| said::left(&lot, desk.sign)).unwrap_or_default();
    let trace = {
        let id = id.clone();
        move || {
            let wanted = desk.now(|open| {
                let lot = open.shelf().lots_of(&id).get(n)?.name.clone();
                Some((id.clone(), open.shelf().entry(&id)?.label().to_owned(), lot))
            });
            if let Some(wanted) = wanted {
                show_lot(desk, wanted);
            }
        }
    };
    let unnamed = {
        let at = field(LotField::Name);
        move || at.text().trim().is_empty()
    };
    View::from_iter([
        field(LotField::Supplier).plain(),
        field(LotField::Received).day(),
        field(LotField::Opened).day(),
        field(LotField::AfterOpening).months(),
        field(LotField::Expiry).day(),
        field(LotField::Amount).mass(),
        field(LotField::Price).money(),
        field(LotField::PriceFor).mass(),
        field(LotField::Document).plain(),
        el("p").class("small wide").attr("role", "status").text_of(left),
        el("div").class("actions wide").child(button(said::TRACE).disabled_if(unnamed).press(trace)),
    ])
}

/// What was weighed of an ingredient from no lot that stands here.
pub(super) fn from_none(desk: Desk, stock: InStock, id: IngredientId) -> El {
    let text = move || stock.of(desk, &id).and_then(|all| said::from_none(&all, desk.sign)).unwrap_or_default();
    el("p").class("small").text_of(text)
}

/// A text of a lot of the shelf.
#[derive(Clone)]
struct LotAt {
    desk: Desk,
    id: IngredientId,
    n: usize,
    field: LotField,
}

impl LotAt {
    fn text(&self) -> String {
        let text = |lot: &Lot| lot.text(self.field).to_owned();
        self.desk.with(|open| open.shelf().lots_of(&self.id).get(self.n).map(text)).unwrap_or_default()
    }

    fn set(&self, text: String) {
        self.desk.act_on_shelf(ShelfAction::SetLot(self.id.clone(), self.n, self.field, text));
    }

    fn element(&self) -> String {
        format!("lot-{}-{}", self.n + 1, self.field.key())
    }

    fn plain(self) -> El {
        let read = self.clone();
        let (element, label) = (self.element(), said::lot_field(self.field));
        text_field(self.desk, &element, label, move || read.text(), move |text| self.set(text))
    }

    fn day(self) -> El {
        let (read, element) = (self.clone(), self.element());
        let note = self.clone();
        let wrong = move || {
            let text = note.text();
            let text = text.trim();
            if text.is_empty() || Day::read(text).is_some() { String::new() } else { said::TYPED_DAY.to_owned() }
        };
        let input = text_input(self.desk, &element).attr("type", "date").value_of(move || read.text()).on("input", {
            let at = self.clone();
            move |event| at.set(typed(&event))
        });
        self.labelled(&element, input)
            .child(el("span").class("note-of-field").attr("aria-live", "polite").text_of(wrong))
    }

    fn mass(self) -> El {
        let (read, element) = (self.clone(), self.element());
        let (desk, label) = (self.desk, said::lot_field(self.field));
        let shown = move || FieldText::of(&Typed::<Mass>::new(read.text()), desk.sign);
        quantity_field(desk, &element, label, "g", shown, move |text| self.set(text))
    }

    fn months(self) -> El {
        let (read, element) = (self.clone(), self.element());
        let (desk, label) = (self.desk, said::lot_field(self.field));
        let shown = move || FieldText::of(&Typed::<Months>::new(read.text()), desk.sign);
        quantity_field(desk, &element, label, "", shown, move |text| self.set(text))
    }

    fn money(self) -> El {
        let (read, element) = (self.clone(), self.element());
        let (desk, label) = (self.desk, said::lot_field(self.field));
        crate::ui::batch::money_field(desk, &element, label, move || read.text(), move |text| self.set(text))
    }

    fn labelled(&self, element: &str, input: El) -> El {
        el("div").class("field").child(el("label").attr("for", element).text(said::lot_field(self.field))).child(input)
    }
}
