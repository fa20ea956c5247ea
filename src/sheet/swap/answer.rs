//! The answer to a swap: singles in order, the best mixture, and what would change with each.

use super::costs::{CostBound, OilPrice, bounds, no_cost, oil_price};
use super::mixture::dot;
use super::{
    Constraint, Hint, LeftOut, Limits, MOST_OILS, MixtureProblem, NoSwap, Offer, OilMixture, OilPool, Single,
    SwapAnswer, SwapLimit, Weighting, WhyLeftOut, drying, nearest, nearest_few,
};
use crate::facts::{Allergens, FatClass, FatKind, FattyAcid, Hlb, IngredientId, Profile};
use crate::quantity::{Percent, Quantity, ordered, sort_by};
use crate::sheet::fats::{Figures, values_of};
use crate::sheet::largest_remainder;
use crate::shelf::{Fat, Ingredient, Shelf};

struct SwapCandidate {
    id: IngredientId,
    fat: Fat,
    profile: Profile,
    in_hand: bool,
    hlb: Option<Hlb>,
    price: OilPrice,
}

impl SwapCandidate {
    fn of(ingredient: &Ingredient) -> Option<Self> {
        let fat = ingredient.fat()?;
        let profile = fat.triglyceride()?.clone();
        let hlb = ingredient.required_hlb().map(|hlb| hlb.value);
        Some(Self {
            id: ingredient.id().clone(),
            fat,
            profile,
            in_hand: ingredient.in_hand(),
            hlb,
            price: oil_price(ingredient),
        })
    }

    /// Why it cannot be taken, apart from where it is.
    fn left_out(&self, limits: &Limits) -> Option<WhyLeftOut> {
        if let Some(unknown) = self.fat.untold() {
            return Some(WhyLeftOut::AcidsUnknown(unknown));
        }
        if !limits.avoid.is_empty() {
            match self.fat.allergens {
                None => return Some(WhyLeftOut::AllergensUnknown),
                Some(carried) if carried.meets(limits.avoid) => return Some(WhyLeftOut::Carries(carried)),
                Some(_) => {}
            }
        }
        if limits.plants_only {
            match self.fat.row.map(|row| row.class) {
                None => return Some(WhyLeftOut::OriginUnknown),
                Some(FatClass::Animal) => return Some(WhyLeftOut::OfAnimals),
                Some(_) => {}
            }
        }
        let iodine = self.profile.iodine();
        if limits.no_drying && iodine > drying() {
            return Some(WhyLeftOut::Drying(iodine));
        }
        if limits.oxidizability.is_some() && self.fat.doubts.oxidation {
            return Some(WhyLeftOut::OxidationUnknown);
        }
        (limits.hlb_within.is_some() && self.hlb.is_none()).then_some(WhyLeftOut::HlbUnknown)
    }

    fn in_pool(&self, limits: &Limits) -> bool {
        limits.pool == OilPool::Everything || self.in_hand
    }
}

struct SwapProblem<'a> {
    old: &'a SwapCandidate,
    /// What the old oil is: the same for every offer.
    before: Figures,
    all: &'a [SwapCandidate],
    weighting: Weighting,
}

/// Looks for what can take the place of an oil.
///
/// # Errors
/// Why its acids give no answer.
pub fn swap(shelf: &Shelf, old: &IngredientId, limits: &Limits, weighting: Weighting) -> Result<SwapAnswer, NoSwap> {
    let entry = shelf.entry(old).ok_or(NoSwap::NotAFat)?;
    let fat = entry.fat().ok_or(NoSwap::NotAFat)?;
    if fat.kind != FatKind::Triglyceride {
        return Err(NoSwap::NotTriglyceride(fat.kind));
    }
    let old = SwapCandidate::of(&entry).ok_or(NoSwap::NoAcids)?;
    if let Some(unknown) = old.fat.untold() {
        return Err(NoSwap::AcidsUnknown(unknown));
    }
    if limits.hlb_within.is_some() && old.hlb.is_none() {
        return Err(NoSwap::HlbUnknown);
    }
    if let Some(why) = old.price.as_ref().err().filter(|_| limits.no_dearer) {
        return Err(NoSwap::PriceUnknown(*why));
    }
    let all: Vec<SwapCandidate> =
        shelf.fats().filter(|other| *other.id() != old.id).filter_map(|other| SwapCandidate::of(&other)).collect();
    let case = SwapProblem { old: &old, before: Figures::of(&old.profile), all: &all, weighting };
    let left_out = all
        .iter()
        .filter(|one| one.in_pool(limits))
        .filter_map(|one| Some(LeftOut { id: one.id.clone(), why: case.left_out(one, limits)? }))
        .collect();
    let taken = case.taken(limits);
    let problem = case.problem(&taken, limits);
    let blend = match case.best(&taken, &problem, limits) {
        Some(parts) => Ok(case.offer(&parts)),
        None => Err(case.clash(limits)),
    };
    Ok(SwapAnswer {
        before: case.before.clone(),
        before_values: values_of(&[(1.0, &old.fat)]),
        before_hlb: old.hlb,
        singles: case.singles(&taken, &problem, limits),
        blend,
        left_out,
    })
}

/// All about one oil of the list; nothing if either of the two is no triglyceride any more.
pub fn offer_of(shelf: &Shelf, old: &IngredientId, single: &Single) -> Option<Offer> {
    let candidate = |id: &IngredientId| SwapCandidate::of(&shelf.entry(id)?);
    let (old, new) = (candidate(old)?, candidate(&single.id)?);
    let case = SwapProblem { old: &old, before: Figures::of(&old.profile), all: &[], weighting: Weighting::default() };
    Some(Offer { breaks: single.breaks.clone(), ..case.offer(&[(&new, Percent::WHOLE)]) })
}

type MixtureParts<'a> = Vec<(&'a SwapCandidate, Percent)>;

impl<'a> SwapProblem<'a> {
    /// Each candidate's acids in 100 g of its fat less the old oil's, weighted, so that mixtures add by mass of fat.
    fn problem(&self, taken: &[&SwapCandidate], limits: &Limits) -> MixtureProblem {
        let mut kinds: Vec<&str> = Vec::new();
        for one in taken.iter().copied().chain([self.old]) {
            let kind = one.profile.rest_is().kind;
            if one.profile.raw_rest() > 0.0 && !kinds.contains(&kind) {
                kinds.push(kind);
            }
        }
        let weights = FattyAcid::ALL.map(|acid| self.weight(acid));
        let acids =
            |one: &SwapCandidate| {
                let scale = one.profile.acid_share() * 100.0 / one.profile.total();
                let mut column = Vec::with_capacity(weights.len() + kinds.len());
                column.extend(
                    FattyAcid::ALL.iter().zip(weights).map(|(acid, weight)| one.profile.raw(*acid) * scale * weight),
                );
                // Acids without a column match only where they are the same ones.
                column.extend(kinds.iter().map(|kind| {
                    if one.profile.rest_is().kind == *kind { one.profile.raw_rest() * scale } else { 0.0 }
                }));
                column
            };
        let target = acids(self.old);
        let away = |one: &&SwapCandidate| {
            let mut column = acids(one);
            column.iter_mut().zip(&target).for_each(|(cell, target)| *cell -= target);
            column
        };
        let cap = limits.most_of_one.map_or(1.0, |share| share.units() as f64 / Percent::WHOLE.units() as f64);
        MixtureProblem {
            points: taken.iter().map(away).collect(),
            caps: vec![cap.min(1.0); taken.len()],
            rows: self.rows(taken, limits),
        }
    }

    fn weight(&self, acid: FattyAcid) -> f64 {
        let turns = matches!(acid, FattyAcid::Linoleic | FattyAcid::AlphaLinolenic | FattyAcid::GammaLinolenic);
        if turns && self.weighting == Weighting::Keeping { 2.0 } else { 1.0 }
    }

    fn rows(&self, taken: &[&SwapCandidate], limits: &Limits) -> Vec<Constraint> {
        let mut rows = Vec::new();
        if let Some(most) = limits.oxidizability {
            // The index is of acids, so a fat counts by the mass of acid that it carries.
            let over =
                |one: &&SwapCandidate| one.profile.acid_share() * (one.profile.raw_oxidizability() - most.float());
            rows.push(Constraint { of: taken.iter().map(over).collect(), most: 0.0 });
        }
        if let (Some(within), Some(old)) = (limits.hlb_within, self.old.hlb) {
            let hlb: Vec<f64> = taken.iter().map(|one| one.hlb.map_or(0.0, float)).collect();
            rows.push(Constraint { of: hlb.iter().map(|hlb| -hlb).collect(), most: float(within) - float(old) });
            rows.push(Constraint { of: hlb, most: float(old) + float(within) });
        }
        for bound in self.bounds(limits) {
            let over = bound.over(taken.iter().map(|one| &one.price));
            // In parts of the greatest difference, so that the row is of the size of the others.
            let scale = over.iter().fold(1, |most, over| over.abs().max(most)) as f64;
            rows.push(Constraint { of: over.into_iter().map(|over| over as f64 / scale).collect(), most: 0.0 });
        }
        rows
    }

    fn bounds(&self, limits: &Limits) -> Vec<CostBound> {
        bounds(limits, &self.old.price)
    }

    fn left_out(&self, one: &SwapCandidate, limits: &Limits) -> Option<WhyLeftOut> {
        one.left_out(limits).or_else(|| no_cost(&one.price, &self.bounds(limits)))
    }

    fn taken(&self, limits: &Limits) -> Vec<&'a SwapCandidate> {
        self.all.iter().filter(|one| one.in_pool(limits) && self.left_out(one, limits).is_none()).collect()
    }

    /// The nearest mixture within all limits.
    fn best(&self, taken: &[&'a SwapCandidate], problem: &MixtureProblem, limits: &Limits) -> Option<MixtureParts<'a>> {
        let most = limits.most_oils.map_or(usize::MAX, usize::from);
        let whole = nearest(problem)?;
        let used = whole.shares.iter().filter(|share| **share > 1e-6).count();
        let mixture = if used <= most { whole } else { nearest_few(problem, most.clamp(1, MOST_OILS))? };
        Some(self.in_round_shares(taken, &mixture, limits))
    }

    /// Whether there is any within them.
    fn any(&self, limits: &Limits) -> bool {
        let taken = self.taken(limits);
        self.best(&taken, &self.problem(&taken, limits), limits).is_some()
    }

    /// Shares as a maker can write them: the coarsest steps that keep all limits.
    fn in_round_shares(&self, taken: &[&'a SwapCandidate], mixture: &OilMixture, limits: &Limits) -> MixtureParts<'a> {
        // Parts of a thousandth of the line are not worth a weighing.
        let kept = |floor: f64| -> Vec<i64> {
            mixture.shares.iter().map(|share| if *share < floor { 0 } else { (share * 1e12) as i64 }).collect()
        };
        let mut parts = Vec::new();
        for (steps, floor) in [(1_000, 1e-3), (100_000, 1e-5), (Percent::WHOLE.units(), 1e-6)] {
            let step = Percent::WHOLE.units() / steps;
            let shares = largest_remainder(&kept(floor), steps);
            parts = taken
                .iter()
                .zip(shares)
                .filter(|(_, share)| *share > 0)
                .map(|(one, share)| (*one, Percent::millionths(share * step)))
                .collect();
            if self.broken(&parts, limits).is_empty() {
                break;
            }
        }
        sort_by(&mut parts, |a, b| b.1.cmp(&a.1));
        parts
    }

    /// The limits on figures that a mixture breaks, as far as they are shown.
    fn broken(&self, parts: &[(&SwapCandidate, Percent)], limits: &Limits) -> Vec<SwapLimit> {
        let mut broken = Vec::new();
        if let Some(most) = limits.most_of_one.filter(|most| parts.iter().any(|(_, share)| share > most)) {
            broken.push(SwapLimit::MostOfOne(most));
        }
        if let Some(most) = limits.oxidizability {
            let over = blended(parts).is_none_or(|profile| profile.oxidizability() > most);
            if over {
                broken.push(SwapLimit::Oxidizability(most));
            }
        }
        if let (Some(within), Some(old)) = (limits.hlb_within, self.old.hlb) {
            let off = hlb_of(parts).map_or(i64::MAX, |hlb| (hlb.units() - old.units()).abs());
            if off > within.units() {
                broken.push(SwapLimit::HlbWithin(within));
            }
        }
        let over = |bound: &CostBound| bound.is_broken(parts.iter().map(|(one, share)| (&one.price, *share)));
        broken.extend(self.bounds(limits).into_iter().filter(over).map(|bound| bound.limit));
        broken
    }

    fn singles(&self, taken: &[&SwapCandidate], problem: &MixtureProblem, limits: &Limits) -> Vec<Single> {
        let broken: Vec<Vec<SwapLimit>> =
            taken.iter().map(|one| self.broken(&[(*one, Percent::WHOLE)], limits)).collect();
        let far: Vec<f64> = problem.points.iter().map(|point| dot(point, point)).collect();
        let nearer = |a: usize, b: usize| {
            broken[a].is_empty().cmp(&broken[b].is_empty()).reverse().then(far[a].total_cmp(&far[b]))
        };
        let single = |n: usize| Single {
            id: taken[n].id.clone(),
            misplaced: self.before.misplaced_in(&taken[n].profile),
            breaks: broken[n].clone(),
        };
        ordered(taken.len(), &nearer).into_iter().map(single).collect()
    }

    fn offer(&self, parts: &[(&SwapCandidate, Percent)]) -> Offer {
        let figures = blended(parts).map_or_else(|| self.before.clone(), |profile| Figures::of(&profile));
        let old = self.old.fat.allergens.unwrap_or_default();
        let new = parts.iter().fold(Allergens::NONE, |sum, (one, _)| sum.with(one.fat.allergens.unwrap_or_default()));
        let masses: Vec<(f64, &Fat)> = parts.iter().map(|(one, share)| (share.units() as f64, &one.fat)).collect();
        Offer {
            parts: parts.iter().map(|(one, share)| (one.id.clone(), *share)).collect(),
            misplaced: figures.misplaced(&self.before),
            figures,
            values: values_of(&masses),
            required_hlb: hlb_of(parts),
            gained: new.without(old),
            lost: old.without(new),
            hints: self.hints(parts),
            breaks: Vec::new(),
        }
    }

    fn hints(&self, parts: &[(&SwapCandidate, Percent)]) -> Vec<Hint> {
        let solid = |class: FatClass| class != FatClass::Oil;
        let thick = |one: &SwapCandidate| one.profile.raw(FattyAcid::Ricinoleic) > 50.0;
        let thin =
            |one: &SwapCandidate| one.profile.raw(FattyAcid::Caprylic) + one.profile.raw(FattyAcid::Capric) > 50.0;
        let mut hints = Vec::new();
        for (one, _) in parts {
            if let (Some(new), Some(old)) = (one.fat.class(), self.old.fat.class())
                && solid(new) != solid(old)
            {
                hints.push(Hint::Firmness(one.id.clone(), new));
            }
            if thick(one) && !thick(self.old) {
                hints.push(Hint::Thick(one.id.clone()));
            }
            if thin(one) && !thin(self.old) {
                hints.push(Hint::Thin(one.id.clone()));
            }
            if one.fat.doubts.oxidation {
                hints.push(Hint::OxidationDoubtful(one.id.clone()));
            }
            if one.fat.allergens.is_none() {
                hints.push(Hint::AllergensUnknown(one.id.clone()));
            }
        }
        if thick(self.old) && !parts.iter().any(|(one, _)| thick(one)) {
            hints.push(Hint::OldWasThick);
        }
        hints
    }

    /// The limits that cannot be kept together: whichever of them is lifted, the rest can be.
    fn clash(&self, limits: &Limits) -> Vec<SwapLimit> {
        let mut left = limits.clone();
        if !self.any(&Limits::default()) {
            return Vec::new();
        }
        for limit in limits.each() {
            let without = left.without(&limit);
            if !self.any(&without) {
                left = without;
            }
        }
        left.each()
    }
}

fn float(hlb: Hlb) -> f64 {
    hlb.units() as f64 / 100.0
}

fn blended(parts: &[(&SwapCandidate, Percent)]) -> Option<Profile> {
    if let [(only, _)] = parts {
        return Some(only.profile.clone());
    }
    let masses: Vec<(f64, &Profile)> = parts.iter().map(|(one, share)| (share.units() as f64, &one.profile)).collect();
    Profile::blend(&masses)
}

/// By mass; nothing if one part has none.
fn hlb_of(parts: &[(&SwapCandidate, Percent)]) -> Option<Hlb> {
    let mut units = 0i64;
    for (one, share) in parts {
        // Hundredths of HLB by millionths of a percent: far inside the integer.
        units += one.hlb?.units() * share.units();
    }
    let whole = Percent::WHOLE.units();
    Some(Hlb::from_units((units * 2 + whole) / (whole * 2)))
}
