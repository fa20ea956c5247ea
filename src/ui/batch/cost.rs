//! What the batch costs, and what a jar has to be sold for.

use crate::ui::benches::drawing::rect;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el, svg, typed};
use crate::ui::field::{folded, quantity_field, text_input, unfolding};
use hundred_parts::desk::{Action, OpenDocument};
use hundred_parts::quantity::{Minutes, Money, Percent, Quantity, Typed};
use hundred_parts::sheet::{Cost, CostField, PlanField, cost};
use hundred_parts::words::{self, FieldText, cost as said};

/// How many lines are drawn: the others cost less.
const MOST: usize = 8;
/// The length of the longest bar, in units of the drawing, and its height.
const BAR: (i64, i64) = (100, 8);

/// What is shown.
#[derive(Clone, PartialEq)]
struct Shown {
    cost: Cost,
    /// What costs most first: its name, and what it costs.
    rows: Vec<(String, Money)>,
    /// What has no price, in words.
    without: Vec<String>,
}

/// The card.
pub(super) fn card(desk: Desk) -> El {
    let found = move || -> Option<Shown> {
        desk.masses(|masses| {
            let sheet = masses.weigh.as_ref().ok()?;
            let makes_lye = desk.derived(|derived| derived.sheet.lye.is_some());
            desk.with(|open| {
                let state = open.state();
                Some(shown(cost(&state.formula, sheet, &state.plan, open.shelf(), makes_lye)?, open))
            })
        })
    };
    let inside = dynamic(found, move |found| match found {
        None => el("p").class("small").text(said::NOTHING).into(),
        Some(found) => whole(desk, found),
    });
    el("section")
        .class("card cost no-print")
        .attr("aria-labelledby", "cost-title")
        .child(el("h2").id("cost-title").text(said::TITLE))
        .child(inside)
        .child(unfolding(folded(said::MORE), move || extras(desk)))
}

fn shown(cost: Cost, open: &OpenDocument) -> Shown {
    let name = |line| {
        open.state().formula.line(line).map(|line| words::choice_name(&line.choice, open.shelf())).unwrap_or_default()
    };
    let lines = cost.dearest().into_iter().map(|(line, money)| (name(line.line), money.clone()));
    let beside = [(said::PACKAGING, &cost.packaging), (said::WORK, &cost.work)];
    let beside = beside.into_iter().filter_map(|(name, money)| Some((name.to_owned(), money.clone()?)));
    let mut rows: Vec<(String, Money)> = lines.chain(beside).filter(|(_, money)| money.micros > 0).collect();
    hundred_parts::quantity::sort_by(&mut rows, |a, b| b.1.micros.cmp(&a.1.micros));
    let lines = cost.lines.iter().filter_map(|line| Some((name(line.line), line.money.as_ref().err().copied()?)));
    let lines = said::without(&lines.collect::<Vec<_>>());
    let lye = cost.without_lye.then(|| said::LYE.to_owned());
    let not_counted = cost.not_counted.iter().map(|field| said::not_counted(*field));
    let without = lines.into_iter().chain(lye).chain(not_counted).collect();
    Shown { cost, rows, without }
}

fn whole(desk: Desk, shown: &Shown) -> View {
    let cost = &shown.cost;
    let sums = [
        (said::PER_BATCH, Some(&cost.total)),
        (said::PER_JAR, cost.jar.as_ref()),
        (said::PER_100G, cost.per_100g.as_ref()),
        (said::JAR_PRICE, cost.jar_price.as_ref()),
        (said::PRICE_100G, cost.price_100g.as_ref()),
    ];
    let sum = |(name, money): (&str, Option<&Money>)| {
        let per_100g = name == said::PER_100G || name == said::PRICE_100G;
        let shown = if per_100g { said::sum_per_unit } else { said::sum };
        let money = shown(money?, cost, desk.sign);
        Some(el("div").child(el("dt").text(name)).child(el("dd").text(&money)))
    };
    let sums = el("dl").class("sums").child(sums.into_iter().filter_map(sum).collect::<View>());
    let partial = (!shown.without.is_empty()).then(|| {
        let rows = shown.without.iter().map(|text| el("li").text(text)).collect::<View>();
        el("div").class("caution").child(el("p").text(said::PARTIAL)).child(el("ul").child(rows))
    });
    View::from_iter([View::from(sums), View::from(partial), picture(desk, shown)])
}

/// What costs most, as bars: each row says its figure, so the bars themselves are not read out.
fn picture(desk: Desk, shown: &Shown) -> View {
    let Some((_, most)) = shown.rows.first() else { return View::nothing() };
    let most = most.micros.max(1);
    let bar = |(name, money): &(String, Money)| {
        let length = hundred_parts::quantity::mul_div_nearest(money.micros, BAR.0, most);
        let drawn = svg("svg")
            .attr("viewBox", &format!("0 0 {} {}", BAR.0, BAR.1))
            .attr("preserveAspectRatio", "none")
            .attr("aria-hidden", "true")
            .child(rect("bar", (0, 0), (length, BAR.1)));
        el("div")
            .class("cost-row")
            .child(el("span").text(name))
            .child(drawn)
            .child(el("span").class("figure").text(&said::line(money, &shown.cost, desk.sign)))
    };
    el("div")
        .class("cost-bars")
        .attr("role", "img")
        .attr("aria-label", &said::picture(&shown.rows, &shown.cost, desk.sign))
        .child(shown.rows.iter().take(MOST).map(bar).collect::<View>())
        .into()
}

fn extras(desk: Desk) -> El {
    let typed = move |field: CostField| move || desk.with(|open| open.state().plan.costs.text(field).to_owned());
    let money = |field: CostField, label: &str| {
        money_field(desk, &element(field), label, typed(field), move |text| set(desk, field, text))
    };
    el("div")
        .class("fields")
        .child(money(CostField::Pack, said::PACK_COST))
        .child(number::<Minutes>(desk, CostField::Minutes, said::MINUTES, ""))
        .child(money(CostField::Rate, said::RATE))
        .child(number::<Percent>(desk, CostField::Margin, said::MARGIN, "%"))
        .child(el("p").class("small wide").text(said::MARGIN_SAYS))
}

fn element(field: CostField) -> String {
    format!("plan-{}", field.key())
}

fn set(desk: Desk, field: CostField, text: String) {
    desk.act(Action::PlanText(PlanField::Cost(field), text));
}

fn number<T: Quantity + 'static>(desk: Desk, field: CostField, label: &str, unit: &str) -> El {
    let typed = move || Typed::<T>::new(desk.with(|open| open.state().plan.costs.text(field).to_owned()));
    let shown = move || FieldText::of(&typed(), desk.sign);
    quantity_field(desk, &element(field), label, unit, shown, move |text| set(desk, field, text))
}

/// A field for a sum of money in any currency.
pub(in crate::ui) fn money_field(
    desk: Desk,
    id: &str,
    label: &str,
    shown: impl Fn() -> String + Clone + 'static,
    set: impl Fn(String) + 'static,
) -> El {
    let note_id = format!("{id}-note");
    let (note, invalid, empty) = (shown.clone(), shown.clone(), shown.clone());
    let input = text_input(desk, id)
        .attr("maxlength", "60")
        .attr("aria-describedby", &note_id)
        .attr_of("aria-invalid", move || Some((!said::money_note(&invalid()).is_empty()).to_string()))
        .value_of(shown)
        .on("input", move |event| set(typed(&event)));
    let told = move || {
        let text = note();
        if text.trim().is_empty() { said::PRICE_HINT.to_owned() } else { said::money_note(&text) }
    };
    el("div").class("field").child(el("label").attr("for", id).text(label)).child(input).child(
        el("span")
            .id(&note_id)
            .class("note-of-field")
            .class_if("what-is-expected", move || empty().trim().is_empty())
            .attr("aria-live", "polite")
            .text_of(told),
    )
}
