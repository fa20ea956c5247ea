//! What is believed about a product's buffering: some hundred shapes of it, weighed by the readings.
//!
//! A product takes up acid by what the formula is known to hold and by one to three pools of weak acids that nobody
//! knows. Each shape is one choice of their constants and proportions; their amount and the product's unknown net charge
//! then enter linearly, so that each shape is fitted to the readings in closed form. Shapes that fit count more, by
//! Bayes' rule, and every answer is a quantile over all of them: nothing diverges, and few readings leave a wide answer.
//!
//! With x mol of titrant per kg of product delivering e(pH) equivalents each, w kg of water per kg of product, W(pH) =
//! [H⁺] - [OH⁻], L(pH) the charge of what is known and h(pH) the shape's protonated share, each reading says
//! x e(pH) - w W(pH) - f L(pH) = K + C h(pH).

use super::MolPerKg;
use super::fit::{Node, Reduced, weigh};
use super::shapes::{PoolShape, shapes};
use super::titrant::{Titrant, Water};
use crate::facts::Acid;
use crate::sheet::ph::Dissolved;

/// One state of the product: what was added by then, and the pH read.
#[derive(Debug, Clone)]
pub struct Point {
    /// In the order of the titrants.
    pub added: Vec<MolPerKg>,
    /// Variance of each of those from weighing, in (mol/kg)².
    pub doubt: Vec<f64>,
    /// As read.
    pub ph: f64,
    /// Standard uncertainty of the reading.
    pub u: f64,
}

/// The chemistry of one case: titrants, water, what the formula is known to hold.
#[derive(Debug, Clone)]
pub struct Chemistry {
    /// kg of water per kg of product.
    pub water: f64,
    titrants: Vec<Titrant>,
    law: Water,
    known: Vec<Dissolved>,
}

impl Chemistry {
    /// The molality of what is `known` is here in mol per kg of product.
    pub fn new(water: f64, titrants: &[&'static Acid], known: &[Dissolved]) -> Self {
        let law = Water::default();
        let titrants = titrants.iter().map(|row| Titrant::new(row, &law)).collect();
        Self { water: water.clamp(0.05, 1.0), titrants, law, known: known.to_vec() }
    }

    /// What a titrant delivers at a pH.
    pub fn delivers(&self, titrant: usize, ph: f64) -> f64 {
        self.titrants.get(titrant).map_or(0.0, |titrant| titrant.delivers(ph))
    }

    /// Σ x e(pH) - w W(pH), and its slope.
    fn brought(&self, added: &[MolPerKg], ph: f64) -> (f64, f64) {
        let (excess, slope) = self.law.excess(ph);
        let mut sum = (-self.water * excess, -self.water * slope);
        for (titrant, x) in self.titrants.iter().zip(added) {
            if x.0 != 0.0 {
                sum.0 += x.0 * titrant.delivers(ph);
                sum.1 += x.0 * titrant.slope(ph);
            }
        }
        sum
    }

    /// What the formula and the water take up on the way from one pH to another, mol per kg of product, and as much more
    /// as both readings may be wrong by: `doubt` in pH.
    pub fn accounts_for(&self, from: f64, to: f64, doubt: f64) -> f64 {
        let holds = |ph: f64| {
            let ((excess, falls), (charge, slope)) = (self.law.excess(ph), self.known(ph));
            (self.water * excess + charge, slope - self.water * falls)
        };
        let ((first, first_slope), (last, last_slope)) = (holds(from), holds(to));
        (last - first).abs() + doubt * first_slope.max(last_slope)
    }

    /// Variance of what was brought at a pH, from variances of the totals.
    fn doubt(&self, doubt: &[f64], ph: f64) -> f64 {
        self.titrants.iter().zip(doubt).map(|(titrant, variance)| variance * titrant.delivers(ph).powi(2)).sum()
    }

    /// The charge of what is known at a pH, and how fast it falls.
    fn known(&self, ph: f64) -> (f64, f64) {
        let d = self.law.d();
        self.known.iter().fold((0.0, 0.0), |sum, system| {
            (sum.0 + system.molality * system.mean_charge(ph, d), sum.1 + system.molality * system.slope(ph, d))
        })
    }
}

/// What is believed after some readings.
#[derive(Debug, Clone)]
pub struct Belief {
    shapes: Vec<PoolShape>,
    nodes: Vec<Node>,
    /// Least chi-squared over all shapes.
    pub misfit: f64,
    /// What the uncertainty of the readings had to be multiplied by for the best shape to fit: 1 if it does.
    pub widened: f64,
}

/// Weighed values in order.
#[derive(Debug, Clone)]
pub struct Spread(Vec<(f64, f64)>);

impl Spread {
    fn of(mut values: Vec<(f64, f64)>) -> Self {
        values.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        Self(values)
    }

    /// The value below which this share of the weight lies.
    pub fn quantile(&self, share: f64) -> f64 {
        let total: f64 = self.0.iter().map(|(_, weight)| weight).sum();
        let mut sum = 0.0;
        for (value, weight) in &self.0 {
            sum += weight;
            if sum >= share * total {
                return *value;
            }
        }
        self.0.last().map_or(0.0, |(value, _)| *value)
    }

    /// The share of the weight at or below a value.
    pub fn below(&self, value: f64) -> f64 {
        let total: f64 = self.0.iter().map(|(_, weight)| weight).sum();
        let part: f64 = self.0.iter().filter(|(at, _)| *at <= value).map(|(_, weight)| weight).sum();
        if total > 0.0 { part / total } else { 0.0 }
    }
}

impl Belief {
    /// Weighs all shapes by the readings; the first should be of the product as it was. Without readings nothing is
    /// believed, and every quantile is zero.
    pub fn from(chemistry: &Chemistry, points: &[Point]) -> Self {
        let shapes = shapes();
        let reduced: Vec<Reduced> = points
            .iter()
            .map(|point| Reduced {
                power: 10f64.powf(point.ph),
                brought: chemistry.brought(&point.added, point.ph),
                known: chemistry.known(point.ph),
                u: point.u,
                doubt: chemistry.doubt(&point.doubt, point.ph),
            })
            .collect();
        let free = points.len().saturating_sub(2) as f64;
        let (nodes, misfit) = weigh(&shapes, &reduced, 1.0);
        // Readings that no shape fits are less sure than they claim: widen them until the best shape does.
        let most = free + 2.0 * (2.0 * free).sqrt() + 1.0;
        if misfit <= most {
            return Self { shapes, nodes, misfit, widened: 1.0 };
        }
        let widened = (misfit / free.max(1.0)).sqrt();
        let (nodes, _) = weigh(&shapes, &reduced, widened);
        Self { shapes, nodes, misfit, widened }
    }

    /// The total of one titrant, mol per kg of product, at which the product has this pH; `added` are the totals of all
    /// titrants, of which the one asked for does not count.
    pub fn total_for(&self, chemistry: &Chemistry, added: &[MolPerKg], titrant: usize, ph: f64) -> Spread {
        let spread = self.totals(chemistry, added, titrant, ph);
        Spread::of(spread)
    }

    /// The probability that this pH is reached or passed after these totals.
    pub fn reached(&self, chemistry: &Chemistry, added: &[MolPerKg], titrant: usize, ph: f64) -> f64 {
        let x = added.get(titrant).copied().unwrap_or_default();
        Spread(self.totals(chemistry, added, titrant, ph)).below(x.0)
    }

    /// The pH below which the product lies with this probability, after these totals, within 0 to 14.
    pub fn ph_quantile(&self, chemistry: &Chemistry, added: &[MolPerKg], titrant: usize, share: f64) -> f64 {
        let (mut low, mut high) = (0.5f64, 13.5f64);
        for _ in 0..14 {
            let middle = f64::midpoint(low, high);
            // The product is at or below this pH if what reaches it exactly is no more acid (or no less base) than this.
            let reached = self.reached(chemistry, added, titrant, middle);
            let below = if chemistry.delivers(titrant, middle) > 0.0 { reached } else { 1.0 - reached };
            if below < share { low = middle } else { high = middle }
        }
        f64::midpoint(low, high)
    }

    fn totals(&self, chemistry: &Chemistry, added: &[MolPerKg], titrant: usize, ph: f64) -> Vec<(f64, f64)> {
        let mut others = added.to_vec();
        if let Some(own) = others.get_mut(titrant) {
            *own = MolPerKg::ZERO;
        }
        let (brought, _) = chemistry.brought(&others, ph);
        let known = chemistry.known(ph);
        let delivers = chemistry.delivers(titrant, ph);
        let power = 10f64.powf(ph);
        let protonated: Vec<f64> = self.shapes.iter().map(|shape| shape.protonated(power).0).collect();
        let mut totals = Vec::with_capacity(self.nodes.len() * 3);
        for node in &self.nodes {
            let (Some(shape), Some(share)) = (self.shapes.get(node.shape), protonated.get(node.shape)) else {
                continue;
            };
            let middle = (node.charge + node.pools * share + shape.known(known) - brought) / delivers;
            let wide = 3f64.sqrt() * node.charge_u / delivers.abs();
            // Three points stand for a normal distribution (Gauss and Hermite).
            totals.push((middle - wide, node.weight / 6.0));
            totals.push((middle, node.weight * 2.0 / 3.0));
            totals.push((middle + wide, node.weight / 6.0));
        }
        totals
    }

    /// Buffering at a pH, mol per kg of product and unit of pH: its quantile over all shapes, titrants left out.
    pub fn buffer(&self, chemistry: &Chemistry, ph: f64, share: f64) -> f64 {
        let (_, known) = chemistry.known(ph);
        let (_, water) = chemistry.brought(&[], ph);
        let power = 10f64.powf(ph);
        let spread: Vec<(f64, f64)> = self
            .nodes
            .iter()
            .filter_map(|node| {
                let shape = self.shapes.get(node.shape)?;
                Some((water + shape.known.0 * known + node.pools * shape.protonated(power).1, node.weight))
            })
            .collect();
        Spread::of(spread).quantile(share)
    }
}
