//! What the records of batches say was used up, and of which lots: a fold over each record, so that a correction in a record
//! corrects the stock, and nothing is kept twice.

use super::cups::as_sold;
use super::{BatchEntry, BatchRecord, BatchStage, Event, FrozenLine, MadeFrom, PhEvent};
use crate::facts::{Alkali, Field, IngredientId, material};
use crate::formula::{Formula, Line, StepKind};
use crate::quantity::{Day, Mass, Percent, Quantity, Timestamp, mul_div_nearest, sort_by};
use crate::shelf::{Lot, Shelf};
use std::collections::BTreeMap;

/// What one batch took of one lot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotUse {
    /// The ingredient, where its formula names one of the shelf.
    pub ingredient: Option<IngredientId>,
    /// What it was called.
    pub name: String,
    /// The lot, without spaces around it; empty if none was named.
    pub lot: String,
    /// How much of the ingredient went onto the scale; `None` for a line that was planned and of which nothing was noted.
    pub mass: Option<Mass>,
    /// The day up to which that lot is good, as it was noted when it was weighed.
    pub expiry: Option<Day>,
}

/// What is asked of a batch when stock is counted and lots are traced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsedBatch {
    /// Names its record, in the words of whoever keeps it.
    pub key: String,
    /// Its code; empty in records without one.
    pub code: String,
    /// What was made.
    pub title: String,
    /// When it began: its first entry.
    pub began: Option<Timestamp>,
    /// What it took, line by line.
    pub uses: Vec<LotUse>,
    /// How many packs were filled.
    pub packs: usize,
    /// What is in all of them.
    pub filled: Mass,
    /// How it stands.
    pub stage: BatchStage,
}

/// A step of the scale where a record does not say which it was.
const FINE_STEP: Mass = Mass::micrograms(10_000);

impl UsedBatch {
    /// Of a record. Only weighings that stand count, of each line the last one: what is weighed again takes the place of what
    /// was weighed before. A batch that was given up or rejected has used up what it has used up.
    ///
    /// Of a premix the ingredient itself counts by its share of the portion, and what it was diluted with as so much of the
    /// line that was planned smaller for that; what was left of the premix counts nowhere, as no record says how much was made.
    /// Of a dose of acid or base so much counts as is in it of what is sold, but for what came out of a cup into which a line
    /// had been weighed.
    pub fn of(key: &str, title: &str, record: &BatchRecord) -> Self {
        let from = record.made_from.as_deref();
        let mut batch = Self {
            key: key.to_owned(),
            code: String::new(),
            title: from.map_or(title, |from| from.formula.about.title.as_str()).to_owned(),
            began: record.entries.first().map(|entry| entry.at),
            uses: from.map(planned).unwrap_or_default(),
            packs: 0,
            filled: Mass::ZERO,
            stage: BatchStage::Making,
        };
        for entry in record.standing() {
            batch.take(entry, from);
        }
        if let Some(from) = from {
            let diluted = carriers(from, record, &batch.uses);
            let dosed = doses(from, record, &batch.uses);
            batch.uses.extend(diluted.into_iter().chain(dosed));
        }
        batch
    }

    fn take(&mut self, entry: &BatchEntry, from: Option<&MadeFrom>) {
        match &entry.event {
            Event::Begun { code, .. } => self.code = code.trim().to_owned(),
            Event::Weighed { line, actual, lot, expiry, .. } => {
                if let (Some(used), Some(from)) = (self.uses.get_mut(*line), from) {
                    used.lot = lot.trim().to_owned();
                    used.expiry = *expiry;
                    used.mass = Some(from.lines.get(*line).map_or(*actual, |line| of_ingredient(from, line, *actual)));
                }
            }
            Event::Filled { mass } => {
                self.packs += 1;
                self.filled = self.filled.plus(*mass);
            }
            Event::Decided { decision, .. } => self.stage = BatchStage::Decided(*decision),
            Event::Abandoned { .. } => self.stage = BatchStage::Abandoned,
            _ => {}
        }
    }
}

/// Every line of a record with the lot that was planned for it, and nothing weighed.
fn planned(from: &MadeFrom) -> Vec<LotUse> {
    let mut rest = lines_that_weigh(&from.formula);
    let one = |line: &FrozenLine| LotUse {
        ingredient: ingredient_of(line, &mut rest).or_else(|| of_lye(from, line)),
        name: line.name.clone(),
        lot: line.lot.trim().to_owned(),
        mass: None,
        expiry: None,
    };
    from.lines.iter().map(one).collect()
}

/// The lines of a formula of which something is weighed, with the names of their phases, the last first.
fn lines_that_weigh(formula: &Formula) -> Vec<(&str, &Line)> {
    let weighs =
        |line: &Line| line.share.typed().is_none_or(|typed| typed.value().is_some_and(|share| share > Percent::ZERO));
    let of_phases =
        formula.phases().iter().flat_map(|phase| phase.lines.iter().map(|line| (phase.name.as_str(), line)));
    let mut lines: Vec<_> = of_phases.filter(|(_, line)| weighs(line)).collect();
    lines.reverse();
    lines
}

/// The ingredient of a line. A record has the names of its lines and no ids: they stand in the order of its formula, which
/// has them. A line of a lye is not among them.
fn ingredient_of(line: &FrozenLine, rest: &mut Vec<(&str, &Line)>) -> Option<IngredientId> {
    let is_it = |(phase, own): &(&str, &Line)| {
        *phase == line.phase && own.share.typed().is_none_or(|typed| typed.value() == Some(line.share))
    };
    let at = rest.iter().rposition(is_it)?;
    let own = rest.get(at)?.1;
    rest.truncate(at);
    own.choice.id().cloned()
}

/// How much of so much on the scale is the ingredient itself: all of it, but where a premix was weighed, which is more than
/// half as heavy again as the line and off by more than the scale's step.
fn of_ingredient(from: &MadeFrom, line: &FrozenLine, actual: Mass) -> Mass {
    let Some(exact) = from.batch.map(|batch| batch.share(line.share)).filter(|exact| *exact > Mass::ZERO) else {
        return actual;
    };
    let step = from.scale.map_or(FINE_STEP, |scale| scale.step);
    let over = line.on_scale.minus(exact);
    if over > step && over.units() > exact.units() / 2 {
        Mass::from_units(mul_div_nearest(actual.units(), exact.units(), line.on_scale.units()))
    } else {
        actual
    }
}

/// The alkali, or the water, of a line of the lye: a line of no share and of no phase of the formula.
fn of_lye(from: &MadeFrom, line: &FrozenLine) -> Option<IngredientId> {
    let in_formula = from.formula.phases().iter().any(|phase| phase.name == line.phase);
    if in_formula || line.share > Percent::ZERO {
        return None;
    }
    let is_it = |alkali: &Alkali| alkali.row().is_some_and(|row| line.name.contains(row.formula));
    let id = Alkali::ALL.into_iter().find(is_it).map_or("water", Alkali::id);
    IngredientId::parse(id).ok()
}

/// What premixes were diluted with: of the one line of the same phase that was planned smaller for that. Where none or several
/// were, nobody can tell.
fn carriers(from: &MadeFrom, record: &BatchRecord, uses: &[LotUse]) -> Vec<LotUse> {
    let mut actual: Vec<Option<Mass>> = vec![None; from.lines.len()];
    for entry in record.standing() {
        if let Event::Weighed { line, actual: mass, .. } = &entry.event
            && let Some(last) = actual.get_mut(*line)
        {
            *last = Some(*mass);
        }
    }
    let carrier = |phase: &str| {
        let smaller = |(_, line): &(usize, &FrozenLine)| line.phase == phase && is_smaller(from, line);
        let mut found = from.lines.iter().enumerate().filter(smaller);
        found.next().filter(|_| found.next().is_none()).and_then(|(place, _)| uses.get(place))
    };
    let of_line = |((line, used), mass): ((&FrozenLine, &LotUse), Option<Mass>)| {
        let mass = mass?.minus(used.mass?);
        (mass > Mass::ZERO).then(|| Some(LotUse { mass: Some(mass), ..carrier(&line.phase)?.clone() }))?
    };
    from.lines.iter().zip(uses).zip(actual).filter_map(of_line).collect()
}

/// Whether less of a line was to go onto the scale than it is, by more than a step of the scale.
fn is_smaller(from: &MadeFrom, line: &FrozenLine) -> bool {
    let step = from.scale.map_or(FINE_STEP, |scale| scale.step);
    from.batch.is_some_and(|batch| batch.share(line.share).minus(line.on_scale) > step)
}

/// What was dosed of acids and bases, lot by lot, beyond what had been weighed of them for the setting of the pH.
fn doses(from: &MadeFrom, record: &BatchRecord, uses: &[LotUse]) -> Vec<LotUse> {
    let sets_ph = || from.steps.iter().filter(|step| step.kind == StepKind::SetPh).flat_map(|step| &step.lines);
    let mut cups: Vec<(&IngredientId, Mass)> = Vec::new();
    for used in sets_ph().filter_map(|line| uses.get(*line)) {
        cups.extend(used.ingredient.as_ref().zip(used.mass));
    }
    let mut found: Vec<LotUse> = Vec::new();
    for entry in record.standing() {
        let Event::Ph(PhEvent::Dose { titrant, strength, mass, lot, .. }) = &entry.event else { continue };
        let mut taken = as_sold(titrant, *mass, *strength);
        for (_, cup) in cups.iter_mut().filter(|(id, _)| *id == titrant) {
            let from_cup = taken.min(*cup);
            (*cup, taken) = (cup.minus(from_cup), taken.minus(from_cup));
        }
        if taken <= Mass::ZERO {
            continue;
        }
        let lot = lot.trim();
        match found.iter_mut().find(|known| known.ingredient.as_ref() == Some(titrant) && known.lot == lot) {
            Some(known) => known.mass = known.mass.map(|mass| mass.plus(taken)),
            None => found.push(LotUse {
                ingredient: Some(titrant.clone()),
                name: name_of(titrant, uses),
                lot: lot.to_owned(),
                mass: Some(taken),
                expiry: None,
            }),
        }
    }
    found
}

/// What an acid or base is called: as in the batch, where it is a line of that too, else as in the table.
fn name_of(titrant: &IngredientId, uses: &[LotUse]) -> String {
    let own = uses.iter().find(|used| used.ingredient.as_ref() == Some(titrant)).map(|used| used.name.clone());
    let row = || Some(material(titrant.as_str())?.fact(Field::Name)?.text.to_owned());
    own.or_else(row).unwrap_or_else(|| titrant.as_str().to_owned())
}

/// What all records together say was used up, by ingredient and lot.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Usage(BTreeMap<IngredientId, Vec<(String, Mass)>>);

impl Usage {
    /// Of these batches.
    pub fn of(batches: &[UsedBatch]) -> Self {
        let mut usage = Self::default();
        for used in batches.iter().flat_map(|batch| &batch.uses) {
            let (Some(id), Some(mass)) = (&used.ingredient, used.mass) else { continue };
            let lots = usage.0.entry(id.clone()).or_default();
            match lots.iter_mut().find(|(lot, _)| *lot == used.lot) {
                Some((_, sum)) => *sum = sum.plus(mass),
                None => lots.push((used.lot.clone(), mass)),
            }
        }
        usage
    }

    /// What was used of an ingredient, lot by lot.
    pub fn lots(&self, id: &IngredientId) -> &[(String, Mass)] {
        self.0.get(id).map_or(&[], Vec::as_slice)
    }
}

/// How a lot stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotStock {
    /// What it is called.
    pub lot: String,
    /// What was delivered, if that was entered.
    pub delivered: Option<Mass>,
    /// What was weighed from it.
    pub used: Mass,
    /// The day up to which it is good, as far as it is opened with that ([`Lot::keeps_until`]).
    pub expires: Option<Day>,
}

impl LotStock {
    /// What is left; less than nothing where more was weighed from it than was delivered. `None` where it was not entered how
    /// much that was.
    pub fn left(&self) -> Option<Mass> {
        self.delivered.map(|delivered| delivered.minus(self.used))
    }

    /// What of it can still be used on a day.
    pub fn usable(&self, on: Option<Day>) -> Option<Mass> {
        let past = self.expires.zip(on).is_some_and(|(expires, on)| super::is_past(expires, on));
        self.left().map(|left| if past { Mass::ZERO } else { left.max(Mass::ZERO) })
    }
}

/// How an ingredient stands.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MaterialStock {
    /// Its lots, in the order of the shelf. Of two of one name the first is the one that was weighed from.
    pub lots: Vec<LotStock>,
    /// What was weighed without a lot, or from one that the shelf does not have.
    pub from_none: Mass,
}

impl MaterialStock {
    /// Of an ingredient of a shelf.
    pub fn of(shelf: &Shelf, id: &IngredientId, usage: &Usage) -> Self {
        let mut stock = Self::default();
        for lot in shelf.lots_of(id).iter().filter(|lot| !lot.is_blank()) {
            stock.lots.push(lot_stock(lot));
        }
        for (name, mass) in usage.lots(id) {
            match stock.lots.iter_mut().find(|lot| lot.lot == *name) {
                Some(lot) => lot.used = lot.used.plus(*mass),
                None => stock.from_none = stock.from_none.plus(*mass),
            }
        }
        stock
    }

    /// What of it can be used on a day. `None` where the amount of no lot was entered.
    pub fn usable(&self, on: Option<Day>) -> Option<Mass> {
        let mut all = self.lots.iter().filter_map(|lot| lot.usable(on)).peekable();
        all.peek().is_some().then(|| all.sum())
    }

    /// What was delivered of it in all, as far as that was entered.
    pub fn delivered(&self) -> Mass {
        self.lots.iter().filter_map(|lot| lot.delivered).sum()
    }
}

fn lot_stock(lot: &Lot) -> LotStock {
    let name = lot.name.trim().to_owned();
    LotStock { lot: name, delivered: lot.delivered(), used: Mass::ZERO, expires: lot.keeps_until() }
}

/// Every ingredient of which a lot was entered, by its id.
pub fn stocks(shelf: &Shelf, usage: &Usage) -> Vec<(IngredientId, MaterialStock)> {
    let mut all: Vec<_> = shelf.lots().map(|(id, _)| (id.clone(), MaterialStock::of(shelf, id, usage))).collect();
    sort_by(&mut all, |a, b| a.0.cmp(&b.0));
    all
}

#[cfg(test)]
mod tests;
#[cfg(test)]
mod whole_tests;
