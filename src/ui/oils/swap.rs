//! What can take the place of an oil: limits, the closest mixture, single oils in order. Computed on a press only.

use super::phase::methods;
use super::{numbers, paragraphs, picture};
use crate::ui::browser::{focus, preference, set_preference};
use crate::ui::desk::{Desk, FollowUp, Overlay};
use crate::ui::dom::{El, LOCAL, View, dynamic, el, opened, ticked, when};
use crate::ui::field::{button, folded, pick_field, quantity_field};
use hundred_parts::desk::Action;
use hundred_parts::facts::{Allergens, Hlb, IngredientId};
use hundred_parts::formula::LineId;
use hundred_parts::quantity::{Quantity, Typed};
use hundred_parts::sheet::{
    Figures, NoSwap, Offer, Single, SwapAnswer, SwapWish, Values, new_lines, offer_of, swap, swap_cost,
};
use hundred_parts::words::{FieldText, cost as words_cost, fats, oils, swap as swap_words};
use leptos::prelude::*;
use std::sync::Arc;

/// Where the limits are kept on this device.
const LIMITS: &str = "swap-limits";
/// How many single oils are shown at first.
const FIRST: usize = 6;

type Found = Option<Arc<Result<SwapAnswer, NoSwap>>>;

fn oil_of(desk: Desk, line: LineId) -> Option<IngredientId> {
    desk.with(|open| open.state().formula.line(line)?.choice.id().cloned())
}

/// The way there from a line in hand, where the line is a fat.
pub(crate) fn swap_button(desk: Desk, line: LineId) -> View {
    dynamic(
        move || oil_of(desk, line),
        move |id| {
            let is_fat = |id: &IngredientId| desk.now(|open| open.shelf().entry(id)?.fat()).is_some();
            let go = move || desk.show(Overlay::Swap(line));
            id.as_ref().filter(|id| is_fat(id)).map(|_| button(oils::SWAP).press(go)).into()
        },
    )
}

/// What is to be swapped.
pub(crate) fn title(desk: Desk, line: LineId) -> String {
    let oil = oil_of(desk, line).map(|id| name(desk, &id)).unwrap_or_default();
    format!("{}: {oil}", oils::SWAP)
}

/// What it opens; nothing once the line has gone or is something else.
pub(crate) fn inside(desk: Desk, line: LineId) -> View {
    dynamic(move || oil_of(desk, line), move |id| id.clone().map(|id| card(desk, line, id)).into())
}

fn name(desk: Desk, id: &IngredientId) -> String {
    desk.now(|open| open.shelf().entry(id).map(|entry| entry.label().to_owned())).unwrap_or_default()
}

fn card(desk: Desk, line: LineId, id: IngredientId) -> El {
    // The limits stay from swap to swap: who avoids nuts avoids them in every oil.
    let wish = RwSignal::new(SwapWish::read(&preference(LIMITS).unwrap_or_default()));
    let found = RwSignal::new(Found::None);
    let find = move || {
        let limits = wish.with_untracked(|wish| Some((wish.limits()?, wish.weighting())));
        if let Some((limits, weighting)) = limits {
            let answer = desk.now(|open| swap(open.shelf(), &id, &limits, weighting));
            found.set(Some(Arc::new(answer)));
        }
    };
    let unread = move || wish.with(|wish| wish.limits().is_none());
    let answer =
        dynamic(move || found.get(), move |found| found.as_ref().map(|found| answered(desk, line, found)).into());
    el("section")
        .flag(LOCAL)
        .class("swap")
        .child(el("p").text(oils::SWAP_INTRO))
        .child(limits(desk, wish, found))
        .child(el("div").class("actions").child(button(oils::FIND).class("primary").press(find).disabled_if(unread)))
        .child(el("div").class("inside").attr("aria-live", "polite").child(answer))
}

fn limits(desk: Desk, wish: RwSignal<SwapWish>, found: RwSignal<Found>) -> El {
    // An answer to other limits must not stand below these.
    let change = move |change: &dyn Fn(&mut SwapWish)| {
        wish.update(|wish| change(wish));
        set_preference(LIMITS, &wish.with_untracked(SwapWish::kept));
        found.set(None);
    };
    let tick = move |text: &str, read: fn(&SwapWish) -> bool, set: fn(&mut SwapWish, bool)| {
        let boxed = el("input")
            .attr("type", "checkbox")
            .checked_of(move || wish.with(read))
            .on("change", move |event| change(&|wish| set(wish, ticked(&event))));
        el("label").class("tick").child(boxed).text(" ").text(text)
    };
    let most = pick_field(
        "swap-most",
        oils::HOW_MANY,
        oils::HOW_MANY_CHOICES.map(str::to_owned),
        move || wish.with(|wish| usize::from(wish.most_oils)),
        move |n| change(&|wish| wish.most_oils = u8::try_from(n).unwrap_or(0)),
    );
    let of_one = number(
        desk,
        "swap-most-of-one",
        (oils::MOST_OF_ONE, "%"),
        wish,
        |w| &w.most_of_one,
        move |text| {
            change(&|wish| wish.most_of_one = Typed::new(text.clone()));
        },
    );
    let cox = number(
        desk,
        "swap-cox",
        (oils::COX_AT_MOST, ""),
        wish,
        |wish| &wish.oxidizability,
        move |text| {
            change(&|wish| wish.oxidizability = Typed::new(text.clone()));
        },
    );
    let hlb = number(
        desk,
        "swap-hlb",
        (oils::HLB_WITHIN, ""),
        wish,
        |wish| &wish.hlb_within,
        move |text| {
            change(&|wish| wish.hlb_within = Typed::new(text.clone()));
        },
    );
    let cost = crate::ui::batch::money_field(
        desk,
        "swap-cost",
        oils::COST_AT_MOST,
        move || wish.with(|wish| wish.cost.clone()),
        move |text| change(&|wish| wish.cost.clone_from(&text)),
    );
    let ticks = el("div")
        .class("swap-ticks")
        .child(tick(oils::NUT_FREE, |w| w.avoids(Allergens::NUTS), |w, on| w.set_avoids(Allergens::NUTS, on)))
        .child(tick(oils::SESAME_FREE, |w| w.avoids(Allergens::SESAME), |w, on| w.set_avoids(Allergens::SESAME, on)))
        .child(tick(oils::SOYA_FREE, |w| w.avoids(Allergens::SOYA), |w, on| w.set_avoids(Allergens::SOYA, on)))
        .child(tick(oils::WHEAT_FREE, |w| w.avoids(Allergens::WHEAT), |w, on| w.set_avoids(Allergens::WHEAT, on)))
        .child(tick(oils::PLANTS_ONLY, |wish| wish.plants_only, |wish, on| wish.plants_only = on))
        .child(tick(oils::NO_DRYING, |wish| wish.no_drying, |wish, on| wish.no_drying = on))
        .child(tick(oils::NO_DEARER, |wish| wish.no_dearer, |wish, on| wish.no_dearer = on))
        .child(tick(oils::IN_HAND_ONLY, |wish| wish.in_hand, |wish, on| wish.in_hand = on))
        .child(tick(oils::KEEPING, |wish| wish.keeping, |wish, on| wish.keeping = on));
    el("div")
        .class("inside")
        .child(ticks)
        .child(when(move || wish.with(|w| w.in_hand), || el("p").class("small").text(oils::IN_HAND_WHERE).into()))
        .child(when(
            move || wish.with(|w| w.no_dearer || !w.cost.trim().is_empty()),
            || el("p").class("small").text(oils::COST_WHERE).into(),
        ))
        .child(el("div").class("fields").child(most).child(of_one).child(cox).child(hlb).child(cost))
}

fn number<T: Quantity + 'static>(
    desk: Desk,
    id: &str,
    (label, unit): (&str, &str),
    wish: RwSignal<SwapWish>,
    read: for<'a> fn(&'a SwapWish) -> &'a Typed<T>,
    set: impl Fn(String) + 'static,
) -> El {
    quantity_field(desk, id, label, unit, move || wish.with(|wish| FieldText::of(read(wish), desk.sign)), set)
}

/// The old oil, to compare with.
#[derive(Clone)]
struct Before {
    figures: Figures,
    values: Option<Values>,
    hlb: Option<Hlb>,
}

fn answered(desk: Desk, line: LineId, found: &Arc<Result<SwapAnswer, NoSwap>>) -> View {
    let answer = match &**found {
        Ok(answer) => answer,
        Err(why) => return el("p").class("caution").text(&swap_words::no_swap(*why, desk.sign)).into(),
    };
    let before = Before { figures: answer.before.clone(), values: answer.before_values, hlb: answer.before_hlb };
    let mixture = match &answer.blend {
        Ok(best) => el("section")
            .class("agent")
            .child(el("h3").text(if best.is_match() { oils::BLEND } else { oils::NO_MATCH }))
            .child(
                (!best.is_match()).then(|| el("p").class("caution").text(&oils::no_match(best.misplaced, desk.sign))),
            )
            .child(el("p").class("large").text(&oils::shares(&parts(desk, best), desk.sign)))
            .child(offer(desk, line, &before, best)),
        Err(clash) => el("p").class("caution").text(&swap_words::clash(clash, desk.sign)),
    };
    let all = RwSignal::new(answer.singles.len() <= FIRST);
    let kept = found.clone();
    let list = dynamic(
        move || all.get(),
        move |all| {
            let Ok(answer) = &*kept else { return View::nothing() };
            let shown = if *all { answer.singles.len() } else { FIRST };
            let each = answer.singles.iter().take(shown).map(|one| single(desk, line, &before, one));
            each.collect()
        },
    );
    let more = el("div").hidden_if(move || all.get()).child(button(oils::SHOW_ALL).press(move || all.set(true)));
    let none = answer.singles.is_empty().then(|| el("p").text(oils::NO_SINGLE));
    let singles = el("section").class("agent").child(el("h3").text(oils::SINGLES)).child(none).child(list).child(more);
    let left: Vec<_> = answer.left_out.iter().map(|left| (name(desk, &left.id), left.why)).collect();
    let left = swap_words::left_out(&left);
    let left = (!left.is_empty()).then(|| folded(oils::LEFT_OUT).class("small").child(paragraphs(&left)));
    View::from_iter([
        mixture.into(),
        singles.into(),
        View::from(left),
        el("p").class("caution").text(fats::SWAP_CARE).into(),
        el("p").class("small").text(oils::ORDER).text(" ").text(fats::CLOSE_MATCH).into(),
        methods().into(),
    ])
}

fn parts(desk: Desk, offer: &Offer) -> Vec<(String, hundred_parts::quantity::Percent)> {
    offer.parts.iter().map(|(id, share)| (name(desk, id), *share)).collect()
}

/// One oil, folded; the rest is computed and drawn when it is opened.
fn single(desk: Desk, line: LineId, before: &Before, one: &Single) -> El {
    let open = RwSignal::new(false);
    let summary = format!("{} \u{2013} {}", name(desk, &one.id), oils::points(one.misplaced, desk.sign));
    let (before, one) = (before.clone(), one.clone());
    let inside = move || {
        let found = oil_of(desk, line).and_then(|old| desk.now(|open| offer_of(open.shelf(), &old, &one)));
        found.map(|found| offer(desk, line, &before, &found)).into()
    };
    folded(&summary).child(when(move || open.get(), inside)).on("toggle", move |event| open.set(opened(&event)))
}

fn offer(desk: Desk, line: LineId, before: &Before, one: &Offer) -> El {
    let take = {
        let parts = one.parts.clone();
        move || {
            let refused = desk.derived(|derived| {
                desk.now(|open| new_lines(&open.state().formula, &derived.sheet.totals, line, &parts).err())
            });
            if let Some(why) = refused {
                desk.say(swap_words::no_replacement(why), None);
                return;
            }
            desk.act(Action::SwapLine(line, parts.clone()));
            desk.close_overlay();
            desk.say(oils::TAKEN, Some(FollowUp::Undo));
            focus(format!("name-{}", line.number()));
        }
    };
    let costs = oil_of(desk, line).and_then(|old| desk.now(|open| swap_cost(open.shelf(), &old, &one.parts)));
    let costs = costs.map(|cost| el("p").text(&words_cost::swapped(&cost, desk.sign)));
    let breaks: Vec<String> = one.breaks.iter().map(|limit| swap_words::limit(limit, desk.sign)).collect();
    let breaks = (!breaks.is_empty()).then(|| el("p").class("caution").text(&oils::breaks(&breaks)));
    let hint = |hint: &hundred_parts::sheet::Hint| {
        let (said, source) = fats::hint(hint, &hint.about().map(|id| name(desk, id)).unwrap_or_default());
        el("p").text(&said).child(el("small").text(" ").text(&oils::source(source)))
    };
    let rows = oils::changes(
        (&before.figures, before.values.as_ref(), before.hlb),
        (&one.figures, one.values.as_ref(), one.required_hlb),
        desk.sign,
    );
    el("div")
        .class("inside offer")
        .child(breaks)
        .child(picture::named(&before.figures, oils::BEFORE, desk.sign))
        .child(picture::named(&one.figures, oils::AFTER, desk.sign))
        .child(picture::legend())
        .child(numbers(&rows))
        .child(costs)
        .child(el("p").text(&oils::outlook(&one.figures, desk.sign)))
        .child(paragraphs(&oils::allergen_change(one.gained, one.lost)))
        .child(one.hints.iter().map(hint).collect::<View>())
        .child(el("div").class("actions").child(button(oils::TAKE).class("primary").press(take)))
}
