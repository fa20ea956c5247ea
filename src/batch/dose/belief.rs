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

use super::titrant::{Titrant, Water};
use crate::facts::Acid;
use crate::sheet::ph::Dissolved;

const LN10: f64 = core::f64::consts::LN_10;

/// How many shapes are weighed.
const SHAPES: usize = 240;
/// What a hidden pool may hold, mol per kg of product: a little less and more than the 0.3 to 30 mmol/kg that lotions are
/// taken to hold. Common practice, no source; a test sees to it that it spans what the trade has seen.
const POOL: (f64, f64) = (0.2e-3, 80e-3);
/// Where a hidden pool may have its constant, as read in the product.
const CONSTANT: (f64, f64) = (3.2, 8.8);
/// Relative standard uncertainty of what the formula is known to hold: assay, weighing, what went into the oil.
const KNOWN: f64 = 0.12;
/// Standard uncertainty of the constants of what is known: sources, temperature, salts.
const KNOWN_CONSTANT: f64 = 0.08;
/// Nodes in units of the standard error at which an amount is weighed, and their spacing.
const NODES: [f64; 9] = [-3.0, -2.2, -1.5, -0.8, 0.0, 0.8, 1.5, 2.2, 3.0];
/// Nodes over the whole range where readings say little.
const WIDE: usize = 12;

/// One state of the product: what was added by then, mol per kg of product, and the pH read.
#[derive(Debug, Clone)]
pub struct Point {
    /// In the order of the titrants.
    pub added: Vec<f64>,
    /// Variance of each of those, from weighing.
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
    fn brought(&self, added: &[f64], ph: f64) -> (f64, f64) {
        let (excess, slope) = self.law.excess(ph);
        let mut sum = (-self.water * excess, -self.water * slope);
        for (titrant, x) in self.titrants.iter().zip(added) {
            if *x != 0.0 {
                sum.0 += x * titrant.delivers(ph);
                sum.1 += x * titrant.slope(ph);
            }
        }
        sum
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

/// One choice of hidden pools.
#[derive(Debug, Clone, Copy)]
struct Shape {
    /// 10^-pKa of each pool, and its share of all of them.
    pools: [(f64, f64); 3],
    /// What the known is multiplied by, and how far its constants are moved.
    known: (f64, f64),
    /// Logarithms of the least and the greatest amount of all pools together.
    range: (f64, f64),
}

impl Shape {
    /// The charge of what is known, from its value and its fall per unit of pH.
    fn known(&self, (charge, falls): (f64, f64)) -> f64 {
        self.known.0 * (charge + self.known.1 * falls)
    }

    /// The protonated share at a pH (`power` = 10^pH), and how fast it falls per unit of pH.
    fn protonated(&self, power: f64) -> (f64, f64) {
        self.pools.iter().fold((0.0, 0.0), |sum, (constant, share)| {
            let protonated = 1.0 / (1.0 + power * constant);
            (sum.0 + share * protonated, sum.1 + share * LN10 * protonated * (1.0 - protonated))
        })
    }
}

/// The shapes, the same every time: an additive recurrence in eight dimensions covers them evenly.
fn shapes() -> Vec<Shape> {
    // The root of x^9 = x + 1, whose powers make the steps (Roberts' generalised golden ratio).
    let mut root = 1.1f64;
    for _ in 0..40 {
        root = (1.0 + root).powf(1.0 / 9.0);
    }
    let steps: Vec<f64> = (1..=8).map(|n| root.powi(-n)).collect();
    let between = |(low, high): (f64, f64), part: f64| low + (high - low) * part;
    let logs = (POOL.0.ln(), POOL.1.ln());
    (0..SHAPES)
        .map(|n| {
            let part = |k: usize| (0.5 + steps.get(k).copied().unwrap_or(0.0) * (n as f64 + 1.0)).fract();
            let count = n % 3 + 1;
            let mut pools = [(0.0, 0.0); 3];
            for (k, pool) in pools.iter_mut().take(count).enumerate() {
                *pool = (10f64.powf(-between(CONSTANT, part(k))), between(logs, part(k + 3)).exp());
            }
            let total: f64 = pools.iter().map(|pool| pool.1).sum();
            pools.iter_mut().for_each(|pool| pool.1 /= total);
            let shares = pools.iter().take(count).map(|pool| pool.1);
            let (least, most) = shares.fold((f64::MAX, 0.0f64), |ends, share| (ends.0.min(share), ends.1.max(share)));
            let range = (logs.0 - least.ln(), logs.1 - most.ln());
            // A triangle around nothing, with a standard deviation of 1.
            let triangle = |part: f64| {
                let side = part * 2.0 - 1.0;
                6f64.sqrt() * side.signum() * (1.0 - (1.0 - side.abs()).sqrt())
            };
            let known = (1.0 + KNOWN * triangle(part(6)), KNOWN_CONSTANT * triangle(part(7)));
            Shape { pools, known, range }
        })
        .collect()
}

/// One fitted state of one shape.
#[derive(Debug, Clone, Copy)]
struct Node {
    shape: usize,
    /// mol per kg of product in all hidden pools together.
    pools: f64,
    /// The product's unknown charge, and its standard uncertainty.
    charge: f64,
    charge_u: f64,
    weight: f64,
}

/// What is believed after some readings.
#[derive(Debug, Clone)]
pub struct Belief {
    shapes: Vec<Shape>,
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

/// A reading reduced to what every shape needs of it.
struct Reduced {
    power: f64,
    brought: (f64, f64),
    known: (f64, f64),
    u: f64,
    /// Variance of what was brought, from weighing.
    doubt: f64,
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
    pub fn total_for(&self, chemistry: &Chemistry, added: &[f64], titrant: usize, ph: f64) -> Spread {
        let mut spread = self.totals(chemistry, added, titrant, ph);
        spread.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        Spread(spread)
    }

    /// The probability that this pH is reached or passed after these totals.
    pub fn reached(&self, chemistry: &Chemistry, added: &[f64], titrant: usize, ph: f64) -> f64 {
        let x = added.get(titrant).copied().unwrap_or(0.0);
        Spread(self.totals(chemistry, added, titrant, ph)).below(x)
    }

    /// The pH below which the product lies with this probability, after these totals, within 0 to 14.
    pub fn ph_quantile(&self, chemistry: &Chemistry, added: &[f64], titrant: usize, share: f64) -> f64 {
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

    fn totals(&self, chemistry: &Chemistry, added: &[f64], titrant: usize, ph: f64) -> Vec<(f64, f64)> {
        let mut others = added.to_vec();
        if let Some(own) = others.get_mut(titrant) {
            *own = 0.0;
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
        let mut spread: Vec<(f64, f64)> = self
            .nodes
            .iter()
            .filter_map(|node| {
                let shape = self.shapes.get(node.shape)?;
                Some((water + shape.known.0 * known + node.pools * shape.protonated(power).1, node.weight))
            })
            .collect();
        spread.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        Spread(spread).quantile(share)
    }
}

/// Fits every shape; gives the nodes and the least chi-squared.
fn weigh(shapes: &[Shape], readings: &[Reduced], widen: f64) -> (Vec<Node>, f64) {
    let mut nodes = Vec::new();
    let mut logs = Vec::new();
    let mut best = f64::INFINITY;
    let (mut rows, mut amounts) = (Vec::with_capacity(readings.len()), Vec::new());
    for (at, shape) in shapes.iter().enumerate() {
        rows.clear();
        rows.extend(readings.iter().map(|reading| {
            let (protonated, falls) = shape.protonated(reading.power);
            Row {
                y: reading.brought.0 - shape.known(reading.known),
                h: protonated,
                falls,
                own: reading.brought.1 + shape.known.0 * reading.known.1,
                u: reading.u * widen,
                doubt: reading.doubt,
            }
        }));
        amounts_of(shape, &rows, &mut amounts);
        for (n, amount) in amounts.iter().enumerate() {
            let Some(fit) = Fit::of(&rows, *amount) else { continue };
            best = best.min(fit.chi);
            let spacing = spacing(&amounts, n) / (amount * (shape.range.1 - shape.range.0));
            nodes.push(Node { shape: at, pools: *amount, charge: fit.charge, charge_u: fit.charge_u, weight: 0.0 });
            logs.push(-fit.chi / 2.0 + fit.charge_u.ln() - fit.first_slope.ln() + spacing.max(1e-300).ln());
        }
    }
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    for (node, log) in nodes.iter_mut().zip(&logs) {
        node.weight = (log - top).exp();
    }
    nodes.retain(|node| node.weight > 1e-6);
    (nodes, if best.is_finite() { best } else { 0.0 })
}

/// One reading as one shape sees it.
struct Row {
    y: f64,
    h: f64,
    falls: f64,
    own: f64,
    u: f64,
    doubt: f64,
}

impl Row {
    /// One over its variance in mol per kg, with so much in the pools.
    fn weight(&self, amount: f64) -> f64 {
        1.0 / (((amount * self.falls + self.own) * self.u).powi(2) + self.doubt)
    }
}

/// Charge and fit of a shape with a given amount in its pools.
struct Fit {
    charge: f64,
    charge_u: f64,
    chi: f64,
    first_slope: f64,
}

impl Fit {
    fn of(rows: &[Row], amount: f64) -> Option<Self> {
        let (mut weight, mut mean) = (0.0, 0.0);
        let w = |row: &Row| row.weight(amount);
        for row in rows {
            weight += w(row);
            mean += w(row) * (row.y - amount * row.h);
        }
        let first = rows.first()?;
        let charge = mean / weight;
        let chi = rows.iter().map(|row| w(row) * (row.y - amount * row.h - charge).powi(2)).sum();
        Some(Self { charge, charge_u: weight.powf(-0.5), chi, first_slope: amount * first.falls + first.own })
    }
}

/// The amounts at which a shape is weighed: around the one that fits best where readings tell, else over its range.
fn amounts_of(shape: &Shape, rows: &[Row], amounts: &mut Vec<f64>) {
    amounts.clear();
    let ends = (shape.range.0.exp(), shape.range.1.exp());
    if let Some((best, error)) = best_amount(rows)
        && error < 0.35 * best
    {
        amounts.extend(NODES.iter().map(|t| best + t * error).filter(|amount| (ends.0..=ends.1).contains(amount)));
        if !amounts.is_empty() {
            return;
        }
    }
    let step = (shape.range.1 - shape.range.0) / (WIDE - 1) as f64;
    amounts.extend((0..WIDE).map(|n| (shape.range.0 + step * n as f64).exp()));
}

/// The amount that fits best and its standard error, by weighted least squares in closed form, reweighed three times.
fn best_amount(rows: &[Row]) -> Option<(f64, f64)> {
    if rows.len() < 2 {
        return None;
    }
    let mut amount = 0.0f64;
    let mut error = f64::INFINITY;
    for _ in 0..3 {
        let (mut s, mut sh, mut sy, mut shh, mut shy) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for row in rows {
            let w = row.weight(amount);
            s += w;
            sh += w * row.h;
            sy += w * row.y;
            shh += w * row.h * row.h;
            shy += w * row.h * row.y;
        }
        let spread = shh - sh * sh / s;
        if spread.is_nan() || spread <= 1e-12 * shh {
            return None;
        }
        amount = ((shy - sh * sy / s) / spread).max(0.0);
        error = spread.powf(-0.5);
    }
    Some((amount, error))
}

/// The width that a node stands for.
fn spacing(amounts: &[f64], n: usize) -> f64 {
    let at = |n: usize| amounts.get(n).copied();
    let here = at(n).unwrap_or(0.0);
    match (n.checked_sub(1).and_then(at), at(n + 1)) {
        (Some(before), Some(after)) => (after - before) / 2.0,
        (Some(before), None) => here - before,
        (None, Some(after)) => after - here,
        (None, None) => here,
    }
}
