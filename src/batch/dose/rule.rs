//! How much more to add: as much as reaches the target by the best guess, but no more than keeps the chance of passing it
//! small.

use super::MolPerKg;
use super::belief::{Belief, Chemistry};

/// What is risked in a vessel.
#[derive(Debug, Clone, Copy)]
pub struct Policy {
    /// Passing the target by more than this …
    limit: f64,
    /// … with at most this probability in one dose.
    risk: f64,
    /// Passing it by more than this …
    far_limit: f64,
    /// … with at most this probability.
    far_risk: f64,
    /// A dose brings at most so many times what was added before.
    growth: f64,
    /// Coarse readings are a reason to stay further away from the target, not to risk more.
    holds_back: bool,
}

impl Policy {
    /// For a side sample: an overshoot there is what it is for, but a wild one teaches little.
    pub const SIDE: Self =
        Self { limit: 0.25, risk: 0.25, far_limit: 0.8, far_risk: 0.1, growth: 30.0, holds_back: false };
    /// For the batch. Tuned on the simulated population of `cargo task bench`.
    pub const BATCH: Self =
        Self { limit: 0.1, risk: 0.012, far_limit: 0.3, far_risk: 0.000_5, growth: 12.0, holds_back: true };

    /// The same for an instrument of this error. Strips teach five times as little as a meter, so a dose is held back by
    /// half of their error: some more doses than to aim at the target, and a batch that is hardly ever past it.
    #[must_use]
    pub fn for_half_width(self, half_width: f64) -> Self {
        let coarse = (half_width / 0.1).max(1.0);
        let limit = if self.holds_back { self.limit.max(half_width / 2.0) } else { self.limit * coarse };
        Self { limit, far_limit: self.far_limit * coarse, ..self }
    }
}

/// The next total of a titrant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Next {
    /// What to bring the total to.
    pub total: MolPerKg,
    /// The best guess of the total that reaches the target.
    pub best: MolPerKg,
    /// The total that 5 % of what is believed says reaches it, and 95 %.
    pub range: (MolPerKg, MolPerKg),
}

/// Reckons it. `added` are the totals so far, `down` says that the pH is to fall.
pub fn next_total(
    belief: &Belief,
    chemistry: &Chemistry,
    added: &[MolPerKg],
    titrant: usize,
    target: f64,
    down: bool,
    policy: Policy,
) -> Next {
    let past = |by: f64| if down { target - by } else { target + by };
    let total = |ph: f64| belief.total_for(chemistry, added, titrant, ph);
    let at_target = total(target);
    let best = MolPerKg(at_target.quantile(0.5));
    let near = MolPerKg(total(past(policy.limit)).quantile(policy.risk));
    let far = MolPerKg(total(past(policy.far_limit)).quantile(policy.far_risk));
    let so_far = added.get(titrant).copied().unwrap_or_default();
    let most = if so_far > MolPerKg::ZERO { so_far * (1.0 + policy.growth) } else { MolPerKg(f64::INFINITY) };
    Next {
        total: best.min(near).min(far).min(most),
        best,
        range: (MolPerKg(at_target.quantile(0.05)), MolPerKg(at_target.quantile(0.95))),
    }
}
