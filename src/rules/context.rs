//! What every rule may look at, and the questions that many of them ask.

use super::{Finding, MessageId};
use crate::facts::{Basis, CriterionKey, SubstanceClass, criteria, criterion, fold, in_class};
use crate::formula::{About, Area, Choice, Formula, Line, LineId, Pack, Phase, Region, Use};
use crate::quantity::{Percent, Ph, Quantity, mul_div_nearest};
use crate::sheet::{Sheet, SubstanceShare};
use crate::shelf::{Ingredient, Shelf};

/// What every rule may look at.
#[derive(Clone, Copy)]
pub struct RuleContext<'a> {
    /// The formula.
    pub formula: &'a Formula,
    /// What was computed from it.
    pub sheet: &'a Sheet,
    /// What is known about ingredients.
    pub shelf: &'a Shelf,
}

/// The substances of a formula that belong to a class.
pub(super) struct Members<'a> {
    /// Them.
    pub(super) substances: Vec<&'a SubstanceShare>,
    /// Where the class comes from.
    pub(super) basis: Basis,
}

impl<'a> Members<'a> {
    pub(super) fn is_empty(&self) -> bool {
        self.substances.is_empty()
    }

    /// Their greatest sum.
    pub(super) fn most(&self) -> Percent {
        self.substances.iter().map(|substance| substance.high).sum()
    }

    /// Their least sum.
    pub(super) fn least(&self) -> Percent {
        self.substances.iter().map(|substance| substance.low).sum()
    }

    /// Their names, sorted, each once.
    pub(super) fn names(&self) -> String {
        names(&self.substances)
    }

    /// The same, one by one.
    pub(super) fn list(&self) -> Vec<String> {
        list(&self.substances)
    }

    pub(super) fn lines(&self) -> Vec<LineId> {
        self.substances.iter().map(|substance| substance.line).collect()
    }

    /// Whether that they are there at all is known for sure.
    pub(super) fn hold(&self) -> bool {
        self.substances.iter().any(|substance| substance.trust.holds())
    }
}

/// The names of some substance shares, sorted, each once.
pub(super) fn names(substances: &[&SubstanceShare]) -> String {
    list(substances).join(", ")
}

/// The same, one by one.
pub(super) fn list(substances: &[&SubstanceShare]) -> Vec<String> {
    let mut names: Vec<String> = substances.iter().map(|substance| substance.name.clone()).collect();
    names.sort_unstable();
    names.dedup();
    names
}

impl<'a> RuleContext<'a> {
    pub(super) fn about(self) -> &'a About {
        &self.formula.about
    }

    pub(super) fn region(self) -> Region {
        self.about().region
    }

    pub(super) fn leave_on(self) -> bool {
        self.about().purpose == Use::LeaveOn
    }

    pub(super) fn area(self) -> Area {
        self.about().area
    }

    /// The pH of the product, as far as it is stated.
    pub(super) fn ph(self) -> Option<Ph> {
        self.about().target_ph.value()
    }

    /// True if the stated pH is above a criterion's.
    pub(super) fn ph_above(self, key: CriterionKey<Ph>) -> bool {
        self.ph().is_some_and(|ph| ph > criterion(key).value)
    }

    /// True if the stated pH is below a criterion's.
    pub(super) fn ph_below(self, key: CriterionKey<Ph>) -> bool {
        self.ph().is_some_and(|ph| ph < criterion(key).value)
    }

    pub(super) fn substances(self) -> &'a [SubstanceShare] {
        &self.sheet.composition.substances
    }

    /// The substances of a class.
    pub(super) fn class(self, class: SubstanceClass) -> Members<'a> {
        let mut basis = Basis::memory("");
        let within = |substance: &&SubstanceShare| match in_class(class, &substance.key) {
            Some(found) => {
                basis = found;
                true
            }
            None => false,
        };
        let substances = self.substances().iter().filter(within).collect();
        Members { substances, basis }
    }

    /// What is water, or holds mostly water. A powder of a juice is none, whether its INCI name says so or only what its
    /// maker calls it.
    pub(super) fn water(self) -> Members<'a> {
        let mut water = self.class(SubstanceClass::Water);
        water.substances.retain(|substance| self.is_water(substance.line, &substance.key));
        water
    }

    /// Whether a substance of this folded name, in this line, is water or holds mostly water.
    pub(super) fn is_water(self, line: LineId, folded: &str) -> bool {
        let plain = [" aqua", " water"].contains(&folded);
        in_class(SubstanceClass::Water, folded).is_some() && (plain || !self.is_dry(line, folded))
    }

    /// Whether a substance of this folded name, in this line, is dry by its name or by what its maker calls it.
    pub(super) fn is_dry(self, line: LineId, folded: &str) -> bool {
        [folded, &fold(&self.called(line))].iter().any(|name| in_class(SubstanceClass::Dry, name).is_some())
    }

    /// The phase, line, share and shelf entry of every line that has all of them.
    pub(super) fn known_lines(self) -> Vec<(&'a Phase, &'a Line, Percent, Ingredient)> {
        self.formula
            .lines()
            .filter_map(|(phase, line)| {
                let share = self.sheet.totals.share_of(line.id)?;
                Some((phase, line, share, self.shelf.entry(line.choice.id()?)?))
            })
            .collect()
    }

    /// The shelf entry of a line.
    pub(super) fn entry(self, line: LineId) -> Option<Ingredient> {
        self.shelf.entry(self.formula.line(line)?.choice.id()?)
    }

    /// What a line is called.
    pub(super) fn name(self, line: LineId) -> String {
        self.entry(line).map_or_else(String::new, |entry| entry.label().to_owned())
    }

    /// What a line is called, on the shelf or not.
    pub(super) fn called(self, line: LineId) -> String {
        match (self.entry(line), self.formula.line(line).map(|line| &line.choice)) {
            (Some(entry), _) => entry.label().to_owned(),
            (None, Some(Choice::Named(name))) if !name.trim().is_empty() => name.trim().to_owned(),
            (None, Some(Choice::Known(id))) => id.as_str().to_owned(),
            _ => "a line without a name".to_owned(),
        }
    }

    /// The documents that the maker named for some lines, each once.
    pub(super) fn documents(self, lines: &[LineId]) -> Option<String> {
        let mut names: Vec<String> =
            lines.iter().filter_map(|line| self.entry(*line)?.document().map(str::to_owned)).collect();
        names.sort();
        names.dedup();
        (!names.is_empty()).then(|| names.join("; "))
    }

    /// Names the lots that a finding was counted from: those of its lines whose supplier's statement brings what it is
    /// about, or lacks.
    pub(super) fn name_lots(self, mut finding: Finding) -> Finding {
        let subject = fold(&finding.detail.subject);
        let about_statement = matches!(
            finding.message(),
            Some(MessageId::NoStatement | MessageId::StatementUnread | MessageId::NamesUnrecognised)
        );
        for line in &finding.lines {
            let brings = self
                .substances()
                .iter()
                .any(|substance| substance.inside && substance.line == *line && subject.contains(substance.key.trim()));
            if let Some(lot) = self.sheet.composition.lot(*line).filter(|_| brings || about_statement) {
                finding.detail.lots.push(lot.clone());
            }
        }
        finding
    }

    /// True if there is enough water for microbes to grow, as far as the shares say.
    pub(super) fn is_wet(self) -> bool {
        self.most_water() > criterion(criteria::WATER_FREE).value
    }

    /// The greatest share of water: that of the lines and that of the lye.
    pub(super) fn most_water(self) -> Percent {
        self.water().most().plus(self.lye_water().unwrap_or(Percent::ZERO))
    }

    /// The water that a lye adds to that of the lines, of all that it makes; nothing in a bar, which dries while it cures.
    /// `None` where lye is asked for and cannot be computed.
    pub(super) fn lye_water(self) -> Option<Percent> {
        let lye = match &self.sheet.lye {
            Some(lye) if self.about().pack != Pack::Bar => lye.as_ref().ok()?,
            _ => return Some(Percent::ZERO),
        };
        let weigh = self.sheet.weigh.as_ref().ok()?;
        let alkali: i64 = lye.alkalis.iter().map(|dose| dose.weigh.units()).sum();
        let (batch, whole) = (weigh.batch.mass.units(), Percent::WHOLE.units());
        // Water of the lines is part of what the lye needs.
        let there = mul_div_nearest(batch, self.water().least().units(), whole);
        let more = (lye.water.units() - there).max(0);
        Some(Percent::from_units(mul_div_nearest(more, whole, (batch + more + alkali).max(1))))
    }

    /// True if something other than a preservative keeps microbes from growing: very low or high pH, much alcohol, little
    /// free water as measured.
    pub(super) fn is_kept_otherwise(self) -> bool {
        self.ph_below(criteria::PH_EXEMPT_LOW)
            || self.ph_above(criteria::PH_EXEMPT_HIGH)
            || self.class(SubstanceClass::Alcohol).least() > criterion(criteria::ALCOHOL_EXEMPT).value
            || self
                .formula
                .papers
                .water_activity()
                .is_some_and(|activity| activity < criterion(criteria::WATER_ACTIVITY).value.units())
    }

    /// True if lye goes into it: one that stands in the formula, or that of a soap, which comes from the plan for it.
    pub(super) fn has_lye(self) -> bool {
        self.about().purpose == Use::Soap || !self.class(SubstanceClass::Alkali).is_empty()
    }

    /// True for a bar of soap made with lye and washed off.
    pub(super) fn is_bar_soap(self) -> bool {
        self.about().pack == Pack::Bar && !self.leave_on() && self.has_lye()
    }

    /// A share of a line that brings something found at `found` down to a little below `limit`, in hundredths of a
    /// percent.
    pub(super) fn lower_share(self, line: LineId, found: Percent, limit: Percent) -> Option<Percent> {
        let share = self.sheet.totals.share_of(line)?;
        let near = criterion(criteria::NEAR).value;
        let goal = i128::from(share.units()) * i128::from(limit.units()) * i128::from(near.units());
        let exact = goal / (i128::from(found.units()).max(1) * i128::from(Percent::WHOLE.units()));
        let rounded = i64::try_from(exact / 10_000 * 10_000).ok()?;
        (rounded > 0).then(|| Percent::from_units(rounded))
    }
}
