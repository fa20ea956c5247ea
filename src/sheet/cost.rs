//! What a batch costs: its lines at the prices of the shelf, packaging, and time; and what a jar has to cost for a margin.
//!
//! A price that is not known is never nothing: the sums are of what is known, and say that they are partial.

use super::{BatchBasis, CostField, Plan, WeighSheet};
use crate::facts::IngredientId;
use crate::formula::{Formula, LineId};
use crate::quantity::{Mass, Minutes, Money, Percent, Quantity, Typed, mul_div_nearest};
use crate::shelf::{NoPrice, Shelf};

/// Why a line has no cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoCost {
    /// It names nothing that is on the shelf.
    NotOnShelf,
    /// Its price.
    Price(NoPrice),
    /// Its price is in another currency than the first one.
    OtherCurrency,
}

/// What a line costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CostLine {
    /// Which.
    pub line: LineId,
    /// How much of its ingredient the batch gets.
    pub mass: Mass,
    /// What that costs.
    pub money: Result<Money, NoCost>,
    /// The lot whose price it is; empty where it is that of the card.
    pub lot: String,
}

/// What a batch costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cost {
    /// Every line in order.
    pub lines: Vec<CostLine>,
    /// What the packs cost, where that was entered.
    pub packaging: Option<Money>,
    /// What the time costs, where that was entered.
    pub work: Option<Money>,
    /// What was entered and does not count: it cannot be read, is in another currency, or lacks what belongs to it.
    pub not_counted: Vec<CostField>,
    /// True if a lye is made, whose alkali has no price here.
    pub without_lye: bool,
    /// All that is known together.
    pub total: Money,
    /// The same for one jar, where it is planned by jars.
    pub jar: Option<Money>,
    /// The same for 100 g of what is filled: what is lost is paid for by the rest.
    pub per_100g: Option<Money>,
    /// What a jar has to be sold for, where a margin was entered.
    pub jar_price: Option<Money>,
    /// What 100 g have to be sold for, likewise.
    pub price_100g: Option<Money>,
}

impl Cost {
    /// True if nothing is missing.
    pub fn is_complete(&self) -> bool {
        self.lines.iter().all(|line| line.money.is_ok()) && self.not_counted.is_empty() && !self.without_lye
    }

    /// The lines that have a cost, the dearest first; of equal ones the first in the formula.
    pub fn dearest(&self) -> Vec<(&CostLine, &Money)> {
        let mut known: Vec<_> = self.lines.iter().filter_map(|line| Some((line, line.money.as_ref().ok()?))).collect();
        crate::quantity::sort_by(&mut known, |a, b| b.1.micros.cmp(&a.1.micros));
        known
    }

    /// Its share of all that is known; nothing of nothing.
    pub fn share(&self, money: &Money) -> Option<Percent> {
        let whole = Some(self.total.micros).filter(|whole| *whole > 0)?;
        Some(Percent::millionths(mul_div_nearest(money.micros, Percent::WHOLE.units(), whole)))
    }
}

const HUNDRED_GRAMS: Mass = Mass::micrograms(100_000_000);

/// What a batch costs; nothing where no line has a price and nothing else was entered.
pub fn cost(formula: &Formula, sheet: &WeighSheet, plan: &Plan, shelf: &Shelf, makes_lye: bool) -> Option<Cost> {
    let mut total = Money::default();
    let lines: Vec<CostLine> = sheet.lines.iter().map(|row| line_cost(formula, row.line, row.mass, shelf)).collect();
    let lines: Vec<CostLine> = lines.into_iter().map(|line| counted(line, &mut total)).collect();
    let mut not_counted = Vec::new();
    let jars = plan.jars.value().filter(|_| plan.basis == BatchBasis::Jars).map(Quantity::units);
    let text = |field| plan.costs.text(field);
    let packaging =
        extra(CostField::Pack, plan, &mut total, &mut not_counted, |money| jars.map(|jars| money.times(jars)));
    let minutes = Typed::<Minutes>::new(text(CostField::Minutes));
    let work = extra(CostField::Rate, plan, &mut total, &mut not_counted, |rate| {
        minutes.value().map(|minutes| rate.of_minutes(minutes))
    });
    let rate_missing = text(CostField::Rate).trim().is_empty() && !minutes.is_empty();
    if rate_missing || minutes.is_unread() {
        not_counted.push(CostField::Minutes);
    }
    if lines.iter().all(|line| line.money.is_err()) && packaging.is_none() && work.is_none() {
        return None;
    }
    let typed_margin = Typed::<Percent>::new(text(CostField::Margin));
    let margin = typed_margin.value();
    let jar = jars.and_then(|jars| total.divided(jars));
    let per_100g = total.of_mass(HUNDRED_GRAMS, filled(sheet, plan));
    let price = |cost: &Option<Money>| margin.and_then(|margin| cost.as_ref()?.with_margin(margin));
    if !typed_margin.is_empty() && margin.is_none_or(|margin| margin >= Percent::WHOLE) {
        not_counted.push(CostField::Margin);
    }
    Some(Cost {
        jar_price: price(&jar),
        price_100g: price(&per_100g),
        lines,
        packaging,
        work,
        not_counted,
        without_lye: makes_lye,
        total,
        jar,
        per_100g,
    })
}

fn line_cost(formula: &Formula, id: LineId, mass: Mass, shelf: &Shelf) -> CostLine {
    let line = formula.line(id);
    let entry = line.and_then(|line| shelf.entry(line.choice.id()?));
    let wanted = line.map_or("", |line| line.lot.as_str());
    let price = entry.ok_or(NoCost::NotOnShelf).and_then(|entry| entry.unit_price(wanted).map_err(NoCost::Price));
    let lot = price.as_ref().map(|price| price.lot.clone()).unwrap_or_default();
    let money = price.and_then(|price| price.of(mass).ok_or(NoCost::Price(NoPrice::Unread)));
    CostLine { line: id, mass, money, lot }
}

/// The same line once it is in the sum, where its currency is that of the others.
fn counted(mut line: CostLine, total: &mut Money) -> CostLine {
    if let Ok(money) = &line.money {
        match total.plus(money) {
            Some(sum) => *total = sum,
            None => line.money = Err(NoCost::OtherCurrency),
        }
    }
    line
}

/// Adds what was entered beside the lines. What cannot be counted is named.
fn extra(
    field: CostField,
    plan: &Plan,
    total: &mut Money,
    not_counted: &mut Vec<CostField>,
    comes_to: impl Fn(&Money) -> Option<Money>,
) -> Option<Money> {
    let text = plan.costs.text(field);
    if text.trim().is_empty() {
        return None;
    }
    let money = Money::read(text).ok().flatten().and_then(|money| comes_to(&money));
    let sum = money.as_ref().and_then(|money| total.plus(money));
    match sum {
        Some(sum) => {
            *total = sum;
            money
        }
        None => {
            not_counted.push(field);
            None
        }
    }
}

/// What of a batch goes into packs: all but what was planned to be lost.
fn filled(sheet: &WeighSheet, plan: &Plan) -> Mass {
    let loss = plan.loss.value().filter(|_| plan.basis == BatchBasis::Jars).unwrap_or(Percent::ZERO);
    let whole = Percent::WHOLE.units();
    Mass::from_units(mul_div_nearest(sheet.batch.mass.units(), whole, whole.saturating_add(loss.units())))
}

/// What a kilogram of an oil costs, and of what takes its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SwapCost {
    /// Of the oil.
    pub before: Money,
    /// Of what takes its place.
    pub after: Money,
}

/// What a swap does to the cost; nothing where a price is not known, or where they are in two currencies.
pub fn swap_cost(shelf: &Shelf, old: &IngredientId, parts: &[(IngredientId, Percent)]) -> Option<SwapCost> {
    let of = |id: &IngredientId, mass: Mass| shelf.entry(id)?.unit_price("").ok()?.of(mass);
    let before = of(old, Mass::KILOGRAM)?;
    let mut after = Money::default();
    for (id, share) in parts {
        after = after.plus(&of(id, Mass::KILOGRAM.share(*share))?)?;
    }
    before.with_currency(&after)?;
    (!parts.is_empty()).then_some(SwapCost { before, after })
}
