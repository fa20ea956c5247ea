//! The shapes that a product's hidden buffering may have.

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

/// One choice of hidden pools.
#[derive(Debug, Clone, Copy)]
pub(super) struct PoolShape {
    /// 10^-pKa of each pool, and its share of all of them.
    pub(super) pools: [(f64, f64); 3],
    /// What the known is multiplied by, and how far its constants are moved.
    pub(super) known: (f64, f64),
    /// Logarithms of the least and the greatest amount of all pools together.
    pub(super) range: (f64, f64),
}

impl PoolShape {
    /// The charge of what is known, from its value and its fall per unit of pH.
    pub(super) fn known(&self, (charge, falls): (f64, f64)) -> f64 {
        self.known.0 * (charge + self.known.1 * falls)
    }

    /// The protonated share at a pH (`power` = 10^pH), and how fast it falls per unit of pH.
    pub(super) fn protonated(&self, power: f64) -> (f64, f64) {
        self.pools.iter().fold((0.0, 0.0), |sum, (constant, share)| {
            let protonated = 1.0 / (1.0 + power * constant);
            (sum.0 + share * protonated, sum.1 + share * LN10 * protonated * (1.0 - protonated))
        })
    }
}

/// The shapes, the same every time: an additive recurrence in eight dimensions covers them evenly.
pub(super) fn shapes() -> Vec<PoolShape> {
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
            PoolShape { pools, known, range }
        })
        .collect()
}
