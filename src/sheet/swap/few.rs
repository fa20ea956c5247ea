//! The nearest mixture of at most one, two or three oils: every single, pair and triple, each solved exactly.
//!
//! A pair is a line and a triple a plane, so each is a formula, not a search. The nearest point of a triple's plane,
//! limits aside, is a bound that leaves out nearly all of them.

use super::mixture::{MixtureProblem, OilMixture, dot};

/// The most oils that are counted out; more are hardly ever wanted, and there are too many ways.
pub const MOST: usize = 3;
const SLACK: f64 = 1e-9;

/// The nearest mixture of at most `most` oils (1 to [`MOST`]); nothing if none is within the limits.
pub fn nearest_few(problem: &MixtureProblem, most: usize) -> Option<OilMixture> {
    let search = Search::new(problem);
    let mut best = Best { distance: f64::INFINITY, oils: [0; MOST], shares: [0.0; MOST] };
    let n = problem.len();
    for i in 0..n {
        search.single(i, &mut best);
    }
    for i in 0..if most >= 2 { n } else { 0 } {
        for j in i + 1..n {
            search.pair(i, j, &mut best);
        }
    }
    for i in 0..if most >= 3 { n } else { 0 } {
        search.triples_with(i, &mut best);
    }
    if best.distance == f64::INFINITY {
        return None;
    }
    let mut shares = vec![0.0; n];
    for (oil, share) in best.oils.into_iter().zip(best.shares) {
        shares[oil] += share;
    }
    Some(problem.mixture(shares, 0.0))
}

struct Best {
    distance: f64,
    oils: [usize; MOST],
    shares: [f64; MOST],
}

impl Best {
    fn offer(&mut self, distance: f64, oils: [usize; MOST], shares: [f64; MOST]) {
        // A tie keeps what came first: fewer oils.
        if distance < self.distance - 1e-12 {
            *self = Self { distance, oils, shares };
        }
    }
}

struct Search<'a> {
    problem: &'a MixtureProblem,
    products: Vec<f64>,
    limited: bool,
}

impl<'a> Search<'a> {
    fn new(problem: &'a MixtureProblem) -> Self {
        let n = problem.len();
        let mut products = vec![0.0; n * n];
        for i in 0..n {
            for j in i..n {
                let product = dot(&problem.points[i], &problem.points[j]);
                products[i * n + j] = product;
                products[j * n + i] = product;
            }
        }
        let limited = !problem.rows.is_empty() || problem.caps.iter().any(|cap| *cap < 1.0);
        Self { problem, products, limited }
    }

    fn product(&self, i: usize, j: usize) -> f64 {
        self.products[i * self.problem.len() + j]
    }

    fn single(&self, i: usize, best: &mut Best) {
        let within =
            self.problem.caps[i] >= 1.0 - SLACK && self.problem.rows.iter().all(|row| row.of[i] <= row.most + SLACK);
        if within {
            best.offer(self.product(i, i), [i; MOST], [1.0, 0.0, 0.0]);
        }
    }

    /// x_j = t and x_i = 1 − t: a parabola over what the limits leave of 0 to 1.
    fn pair(&self, i: usize, j: usize, best: &mut Best) {
        let (ii, ij, jj) = (self.product(i, i), self.product(i, j), self.product(j, j));
        let (curve, slope) = (ii - 2.0 * ij + jj, ij - ii);
        let caps = &self.problem.caps;
        let (mut low, mut high) = ((1.0 - caps[i]).max(0.0), caps[j].min(1.0));
        for row in &self.problem.rows {
            clip(row.of[j] - row.of[i], row.most - row.of[i], &mut low, &mut high);
        }
        if low > high + SLACK {
            return;
        }
        let t = if curve > 0.0 { (-slope / curve).clamp(low.min(high), high) } else { low };
        best.offer(ii + 2.0 * t * slope + t * t * curve, [i, j, i], [1.0 - t, t, 0.0]);
    }

    /// All triples whose first oil is i. With it as the origin, u its products with the ways to the others and g the
    /// products of these ways, the plane's nearest point is at ii − (g_kk·u_j² − 2·g_jk·u_j·u_k + g_jj·u_k²) /
    /// (g_jj·g_kk − g_jk²).
    fn triples_with(&self, i: usize, best: &mut Best) {
        let n = self.problem.len();
        let ii = self.product(i, i);
        let u: Vec<f64> = (0..n).map(|j| self.product(i, j) - ii).collect();
        let g: Vec<f64> = (0..n).map(|j| self.product(j, j) - 2.0 * u[j] - ii).collect();
        for j in i + 1..n {
            let row = &self.products[j * n..(j + 1) * n];
            for k in j + 1..n {
                let across = row[k] - u[j] - u[k] - ii;
                let determinant = g[j] * g[k] - across * across;
                let gain = g[k] * u[j] * u[j] - 2.0 * across * u[j] * u[k] + g[j] * u[k] * u[k];
                if gain > (ii - best.distance) * determinant {
                    self.triple([i, j, k], best);
                }
            }
        }
    }

    /// x_i = s, x_j = t, x_k = 1 − s − t: a bowl over a polygon. Its lowest point is in the bowl's middle, or on an edge;
    /// the edges where an oil is missing are the pairs.
    fn triple(&self, [i, j, k]: [usize; 3], best: &mut Best) {
        let kk = self.product(k, k);
        let (ik, jk) = (self.product(i, k), self.product(j, k));
        let a = self.product(i, i) - 2.0 * ik + kk;
        let c = self.product(j, j) - 2.0 * jk + kk;
        let b = self.product(i, j) - ik - jk + kk;
        let (p, q) = (ik - kk, jk - kk);
        let determinant = a * c - b * b;
        let flat = determinant <= 1e-10 * a * c;
        let value = |s: f64, t: f64| kk + 2.0 * (s * p + t * q) + a * s * s + 2.0 * b * s * t + c * t * t;
        let mut middle = None;
        if !flat {
            let (s, t) = ((b * q - c * p) / determinant, (b * p - a * q) / determinant);
            let distance = value(s, t);
            if distance >= best.distance - 1e-12 {
                return;
            }
            if s >= 0.0 && t >= 0.0 && s + t <= 1.0 && self.within([i, j, k], s, t) {
                best.offer(distance, [i, j, k], [s, t, 1.0 - s - t]);
                return;
            }
            middle = Some((s, t));
        }
        if !self.limited {
            return;
        }
        for (x, y, most) in self.edges([i, j, k]) {
            // The lowest point within lies on the edge of a limit that the middle breaks.
            let kept = middle.is_some_and(|(s, t)| x * s + y * t <= most);
            let along = x * x + y * y;
            if kept || along <= 1e-24 {
                continue;
            }
            // The edge through (s0, t0) in the direction (−y, x).
            let (s0, t0) = (x * most / along, y * most / along);
            let curve = a * y * y - 2.0 * b * x * y + c * x * x;
            let slope = -y * (p + a * s0 + b * t0) + x * (q + b * s0 + c * t0);
            let lowest = if curve > 0.0 { -slope / curve } else { 0.0 };
            if curve > 0.0 && value(s0 - y * lowest, t0 + x * lowest) >= best.distance {
                continue;
            }
            let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
            self.clip_all([i, j, k], (s0, t0), (-y, x), &mut low, &mut high);
            if low > high + SLACK {
                continue;
            }
            let r = if curve > 0.0 { lowest.clamp(low.min(high), high) } else { low };
            let (s, t) = (s0 - y * r, t0 + x * r);
            best.offer(value(s, t), [i, j, k], [s, t, 1.0 - s - t]);
        }
    }

    /// The limits of a triple as x·s + y·t ≤ most: caps and rows.
    fn edges(&self, [i, j, k]: [usize; 3]) -> impl Iterator<Item = (f64, f64, f64)> + '_ {
        let caps = &self.problem.caps;
        let capped = [(1.0, 0.0, caps[i]), (0.0, 1.0, caps[j]), (-1.0, -1.0, caps[k] - 1.0)];
        let rows = self
            .problem
            .rows
            .iter()
            .map(move |row| (row.of[i] - row.of[k], row.of[j] - row.of[k], row.most - row.of[k]));
        capped.into_iter().chain(rows)
    }

    fn within(&self, oils: [usize; 3], s: f64, t: f64) -> bool {
        !self.limited || self.edges(oils).all(|(x, y, most)| x * s + y * t <= most + SLACK)
    }

    fn clip_all(&self, oils: [usize; 3], at: (f64, f64), way: (f64, f64), low: &mut f64, high: &mut f64) {
        let triangle = [(-1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (1.0, 1.0, 1.0)];
        for (x, y, most) in triangle.into_iter().chain(self.edges(oils)) {
            clip(x * way.0 + y * way.1, most - x * at.0 - y * at.1, low, high);
        }
    }
}

/// Keeps of low to high what r·slope ≤ most allows.
fn clip(slope: f64, most: f64, low: &mut f64, high: &mut f64) {
    if slope > 1e-12 {
        *high = high.min(most / slope);
    } else if slope < -1e-12 {
        *low = low.max(most / slope);
    } else if most < -SLACK {
        *high = f64::NEG_INFINITY;
    }
}
