//! Fitting one shape of buffering to the readings, in closed form, and weighing it by how well it fits.

use super::shapes::PoolShape;

/// Nodes in units of the standard error at which an amount is weighed, and their spacing.
const NODES: [f64; 9] = [-3.0, -2.2, -1.5, -0.8, 0.0, 0.8, 1.5, 2.2, 3.0];
/// Nodes over the whole range where readings say little.
const WIDE: usize = 12;

/// One fitted state of one shape.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    pub(super) shape: usize,
    /// mol per kg of product in all hidden pools together.
    pub(super) pools: f64,
    /// The product's unknown charge, and its standard uncertainty.
    pub(super) charge: f64,
    pub(super) charge_u: f64,
    pub(super) weight: f64,
}

/// A reading reduced to what every shape needs of it.
pub(super) struct Reduced {
    pub(super) power: f64,
    pub(super) brought: (f64, f64),
    pub(super) known: (f64, f64),
    pub(super) u: f64,
    /// Variance of what was brought, from weighing.
    pub(super) doubt: f64,
}

/// Fits every shape; gives the nodes and the least chi-squared.
pub(super) fn weigh(shapes: &[PoolShape], readings: &[Reduced], widen: f64) -> (Vec<Node>, f64) {
    let mut nodes = Vec::new();
    let mut logs = Vec::new();
    let mut best = f64::INFINITY;
    let (mut rows, mut amounts) = (Vec::with_capacity(readings.len()), Vec::new());
    for (at, shape) in shapes.iter().enumerate() {
        rows.clear();
        rows.extend(readings.iter().map(|reading| {
            let (protonated, falls) = shape.protonated(reading.power);
            ReadingRow {
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
struct ReadingRow {
    y: f64,
    h: f64,
    falls: f64,
    own: f64,
    u: f64,
    doubt: f64,
}

impl ReadingRow {
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
    fn of(rows: &[ReadingRow], amount: f64) -> Option<Self> {
        let (mut weight, mut mean) = (0.0, 0.0);
        let w = |row: &ReadingRow| row.weight(amount);
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
fn amounts_of(shape: &PoolShape, rows: &[ReadingRow], amounts: &mut Vec<f64>) {
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
fn best_amount(rows: &[ReadingRow]) -> Option<(f64, f64)> {
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
