//! The table of fats: a page of its own on the shelf, and on paper.

use super::phase::{methods, methods_on_paper};
use super::{numbers, paragraphs, picture};
use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, dynamic, each, el, follow, opened, ticked, typed, when};
use crate::ui::field::{button, folded, pick_field, text_input};
use hundred_parts::desk::ShelfAction;
use hundred_parts::facts::{Allergens, FatClass, FattyAcid, Field, IngredientId};
use hundred_parts::sheet::{FatCard, FatFilter, FatSort, FatTable};
use hundred_parts::words::{DecimalSign, fats, oils, page};
use leptos::prelude::*;
use std::rc::Rc;

/// How many stand side by side.
const MOST: usize = 4;

const SORTS: [FatSort; 9] = [
    FatSort::Name,
    FatSort::Saponification,
    FatSort::Iodine,
    FatSort::Oxidizability,
    FatSort::Saturated,
    FatSort::FattyAcid(FattyAcid::Oleic),
    FatSort::FattyAcid(FattyAcid::Linoleic),
    FatSort::FattyAcid(FattyAcid::AlphaLinolenic),
    FatSort::FattyAcid(FattyAcid::Lauric),
];
const CLASSES: [FatClass; 4] = [FatClass::Oil, FatClass::Butter, FatClass::Wax, FatClass::Animal];

/// What is shown of the table.
#[derive(Clone, Copy)]
struct Looked {
    desk: Desk,
    filter: RwSignal<FatFilter>,
    sort: RwSignal<usize>,
    side: RwSignal<Vec<IngredientId>>,
}

/// The page; `leave` goes back to the ingredients.
pub(crate) fn place(desk: Desk, leave: impl Fn() + 'static) -> El {
    let looked = Looked {
        desk,
        filter: RwSignal::new(FatFilter::default()),
        sort: RwSignal::new(0),
        side: RwSignal::new(Vec::new()),
    };
    // Made anew only when the shelf says something else of a fat; a key or a tick moves what is there.
    let list = dynamic(
        move || Shown(Rc::new(desk.with(|open| FatTable::of(open.shelf())))),
        move |Shown(table)| rows(looked, table),
    );
    let print = || request_animation_frame(browser::print);
    let head = el("section")
        .class("card fats-head")
        .child(el("h2").id("fats-title").text(oils::FATS))
        .child(el("p").class("no-print").text(oils::FATS_INTRO))
        .child(controls(looked))
        .child(el("p").class("small no-print").text(oils::OWN_FAT))
        .child(
            el("div")
                .class("actions no-print")
                .child(button(oils::TO_SHELF).press(leave))
                .child(button(oils::PRINT_FATS).press(print)),
        )
        .child(picture::legend())
        .child(methods())
        .child(methods_on_paper());
    let side = dynamic(
        move || looked.side.get(),
        move |side| if side.is_empty() { View::nothing() } else { side_by_side(looked, side).into() },
    );
    el("div")
        .class("shelf fats")
        .child(head)
        .child(el("div").class("fats-list").child(side).child(el("section").class("card").child(list)))
}

/// The cards that pass the filter, in order: each is made once and moves, comes and goes by its place in the table.
fn rows(looked: Looked, table: &Rc<FatTable>) -> View {
    let Looked { desk, filter, sort, .. } = looked;
    let kept = table.clone();
    let places = follow(move || {
        let sort = SORTS.get(sort.get()).copied().unwrap_or_default();
        let in_hand = |id: &IngredientId| desk.with(|open| open.shelf().entry(id).is_some_and(|entry| entry.in_hand()));
        let places = filter.with(|filter| kept.places(filter, sort, &in_hand));
        places.into_iter().map(|place| place as u32).collect::<Vec<_>>()
    });
    let none = move || el("p").class("empty").text(oils::NO_FAT_FOUND).into();
    let table = table.clone();
    let row =
        move |place: u32| table.cards().get(place as usize).map_or_else(|| el("article"), |card| fat(looked, card));
    View::from_iter([when(move || places.with(Vec::is_empty), none), each(move || places.get(), row)])
}

/// The table as a value of a dynamic region: what can change about it by the maker's hand. What is in hand is followed by its box
/// alone, so that a tick does not draw the list anew and take the focus away.
struct Shown(Rc<FatTable>);

impl PartialEq for Shown {
    fn eq(&self, other: &Self) -> bool {
        let same = |a: &FatCard, b: &FatCard| {
            let of = |card: &FatCard| (card.typical_sv, card.typical_iv, card.sv, card.iv, card.allergens);
            a.id == b.id && a.name == b.name && of(a) == of(b) && a.figures == b.figures && a.findings == b.findings
        };
        let (ours, others) = (self.0.cards(), other.0.cards());
        ours.len() == others.len() && ours.iter().zip(others).all(|(a, b)| same(a, b))
    }
}

fn controls(looked: Looked) -> El {
    let Looked { desk, filter, sort, .. } = looked;
    let find = text_input(desk, "search-fats")
        .flag(LOCAL)
        .attr("type", "search")
        .attr("maxlength", "100")
        .value_of(move || filter.with(|filter| filter.words.clone()))
        .on("input", move |event| filter.update(|filter| filter.words = typed(&event)));
    let find =
        el("div").class("field").child(el("label").attr("for", "search-fats").text(oils::SEARCH_FATS)).child(find);
    let classes = [oils::ALL_CLASSES].into_iter().chain(CLASSES.map(fats::fat_class)).map(str::to_owned);
    let class_at = move || {
        filter.with(|filter| CLASSES.iter().position(|class| Some(*class) == filter.class).map_or(0, |n| n + 1))
    };
    let set_class = move |n: usize| {
        filter.update(|filter| filter.class = n.checked_sub(1).and_then(|n| CLASSES.get(n)).copied());
    };
    let tick = |text: &str, on: bool| {
        let boxed = el("input").attr("type", "checkbox").on("change", move |event| {
            let ticked = ticked(&event);
            filter.update(|filter| {
                if on {
                    filter.in_hand = ticked;
                } else {
                    filter.avoid = if ticked { Allergens::NUTS } else { Allergens::NONE };
                }
            });
        });
        el("label").class("tick").child(boxed).text(" ").text(text)
    };
    el("div")
        .class("inside no-print")
        .child(find)
        .child(
            el("div")
                .class("fields")
                .child(pick_field(
                    "sort-fats",
                    oils::SORT_BY,
                    SORTS.map(|by| oils::sort(by).to_owned()),
                    move || sort.get(),
                    move |n| sort.set(n),
                ))
                .child(pick_field("class-fats", oils::CLASS, classes, class_at, set_class)),
        )
        .child(tick(oils::NUT_FREE, false))
        .child(tick(oils::IN_HAND_ONLY, true))
}

/// One fat of the list.
fn fat(looked: Looked, card: &FatCard) -> El {
    let Looked { desk, side, .. } = looked;
    let sign = desk.sign;
    let open = RwSignal::new(false);
    let kept = card.clone();
    let picture = card.figures.as_ref().map(|figures| picture::bar(figures, &card.name, sign));
    let none = card.figures.is_none().then(|| el("p").class("small").text(oils::NO_ACIDS));
    let compared = {
        let id = card.id.clone();
        move || side.with(|side| side.contains(&id))
    };
    let full = {
        let compared = compared.clone();
        move || !compared() && side.with(|side| side.len() >= MOST)
    };
    let id = card.id.clone();
    let compare =
        el("input").attr("type", "checkbox").checked_of(compared).disabled_if(full).on("change", move |event| {
            side.update(|side| {
                side.retain(|other| *other != id);
                if ticked(&event) {
                    side.push(id.clone());
                }
            });
        });
    let id = card.id.clone();
    let has = {
        let id = card.id.clone();
        move || desk.with(|open| open.shelf().entry(&id).is_some_and(|entry| entry.in_hand()))
    };
    let hand = el("input").attr("type", "checkbox").checked_of(has).on("change", move |event| {
        let text = if ticked(&event) { "yes" } else { "no" };
        desk.act_on_shelf(ShelfAction::Set(id.clone(), Field::InHand, text.to_owned()));
    });
    let tick = |boxed: El, text: &str| {
        let hidden = el("span").class("hidden").text(": ").text(&card.name);
        el("label").class("tick").child(boxed).text(" ").text(text).child(hidden)
    };
    el("article")
        .class("fat")
        .child(
            el("h3")
                .text(&card.name)
                .child(card.own.then(|| el("em").text(" ").text(page::YOURS)))
                .child(el("small").text(" ").text(&oils::kind(card))),
        )
        .child(picture)
        .child(none)
        .child(numbers(&oils::card_values(card, sign)))
        .child(findings(card, sign))
        .child(el("div").class("ticks no-print").child(tick(compare, oils::COMPARE)).child(tick(hand, oils::IN_HAND)))
        .child(
            folded(oils::SOURCES)
                .class("small no-print")
                .child(when(move || open.get(), move || details(looked, &kept).into()))
                .on("toggle", move |event| open.set(opened(&event))),
        )
}

/// What is odd about a fat's values.
fn findings(card: &FatCard, sign: DecimalSign) -> Option<El> {
    let sv = card.sv_disagrees.as_ref().map(|off| fats::sv_disagrees(off, sign));
    let iv = card.iv_disagrees.as_ref().map(|off| fats::iv_disagrees(off, sign));
    let mut said: Vec<String> = card.findings.iter().map(|odd| fats::sheet_finding(odd, sign)).collect();
    for more in [sv, iv].into_iter().flatten() {
        if !said.contains(&more) {
            said.push(more);
        }
    }
    (!said.is_empty()).then(|| el("div").class("caution").child(paragraphs(&said)))
}

fn details(looked: Looked, card: &FatCard) -> El {
    let sign = looked.desk.sign;
    let row = |acid: FattyAcid| {
        let typical = card.figures.as_ref().map(|figures| figures.acid(acid));
        let range = card.ranges.get(acid as usize).copied().flatten();
        let typical = oils::typical_acid(typical, sign);
        let range = range.map(|range| oils::span(range, sign)).unwrap_or_default();
        (!typical.is_empty() || !range.is_empty()).then(|| {
            el("tr")
                .child(el("th").attr("scope", "row").text(&fats::acid(acid)))
                .child(el("td").class("number").text(&typical))
                .child(el("td").class("number").text(&range))
        })
    };
    let rows: Vec<El> = FattyAcid::ALL.into_iter().filter_map(row).collect();
    let head = |text: &str, class: &str| el("th").attr("scope", "col").class(class).text(text);
    let table = (!rows.is_empty()).then(|| {
        el("table")
            .class("compare")
            .child(el("caption").class("hidden").text(&card.name))
            .child(
                el("thead").child(
                    el("tr")
                        .child(head(oils::ACID, ""))
                        .child(head(oils::TYPICAL, "number"))
                        .child(head(oils::RANGE, "number")),
                ),
            )
            .child(el("tbody").child(rows.into_iter().collect::<View>()))
    });
    el("div")
        .class("inside")
        .child(el("p").attr("lang", "la").text(&card.inci))
        .child(table)
        .child((!card.note.is_empty()).then(|| el("p").text(card.note)))
        .child(paragraphs(&oils::card_sources(card)))
}

fn side_by_side(looked: Looked, side: &[IngredientId]) -> El {
    let Looked { desk, side: chosen, .. } = looked;
    let sign = desk.sign;
    let one = |id: &IngredientId| {
        let card = desk.now(|open| open.shelf().entry(id).and_then(|entry| FatCard::of(&entry)))?;
        let bar = card.figures.as_ref().map(|figures| picture::bar(figures, &card.name, sign));
        let outlook = card.figures.as_ref().map(|figures| el("p").class("small").text(&oils::outlook(figures, sign)));
        Some(
            el("div")
                .class("compared")
                .child(el("h3").text(&card.name))
                .child(bar)
                .child(outlook)
                .child(numbers(&oils::card_values(&card, sign))),
        )
    };
    el("section")
        .class("card side-by-side")
        .attr("aria-labelledby", "side-title")
        .child(el("h2").id("side-title").text(oils::SIDE_BY_SIDE))
        .child(el("div").class("compared-all").child(side.iter().filter_map(one).collect::<View>()))
        .child(el("div").class("actions no-print").child(button(page::CLOSE).press(move || chosen.set(Vec::new()))))
}
