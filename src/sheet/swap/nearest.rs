//! The mixture nearest to a target under limits: a convex quadratic problem, solved exactly.
//!
//! Minimise |Σ xᵢ·pᵢ|² over x ≥ 0, Σx = 1, x ≤ caps, rows·x ≤ limits, where pᵢ is (weighted) acids of oil i less those
//! of the target. Wolfe's method (Finding the nearest point in a polytope, Math. Programming 11 (1976) 128): an active
//! set of corners of the feasible set, each found as the corner that lies furthest against the present point. It ends
//! when no corner does, which is the optimality condition (Karush, Kuhn, Tucker) and bounds the distance to the optimum:
//! see [`OilMixture::gap`].

use super::mixture::{MixtureProblem, OilMixture, dot};
use super::simplex::Simplex;

/// The gap at which a mixture is taken as the nearest one, in squared per cent.
const GAP: f64 = 1e-10;
const MOST_ROUNDS: usize = 2_000;

impl MixtureProblem {
    /// Whether anything can be mixed at all.
    pub fn has_mixture(&self) -> bool {
        Simplex::feasible(self).is_some()
    }
}

struct Corner {
    shares: Vec<f64>,
    place: Vec<f64>,
    /// Its place times those of the corners before it in the set, then times itself.
    products: Vec<f64>,
    weight: f64,
}

fn add(set: &mut Vec<Corner>, shares: Vec<f64>, place: Vec<f64>, weight: f64) {
    let mut products: Vec<f64> = set.iter().map(|before| dot(&before.place, &place)).collect();
    products.push(dot(&place, &place));
    set.push(Corner { shares, place, products, weight });
}

/// Keeps the corners that weigh more than this.
fn keep_above(set: &mut Vec<Corner>, least: f64) {
    let stays: Vec<bool> = set.iter().map(|corner| corner.weight > least).collect();
    for corner in &mut *set {
        let mut stays = stays.iter();
        corner.products.retain(|_| stays.next().is_some_and(|stays| *stays));
    }
    set.retain(|corner| corner.weight > least);
}

/// The nearest mixture; nothing if no mixture is within the limits.
pub fn nearest(problem: &MixtureProblem) -> Option<OilMixture> {
    if problem.is_empty() {
        return None;
    }
    let mut corners = Simplex::feasible(problem)?;
    let alone: Vec<f64> = problem.points.iter().map(|point| dot(point, point)).collect();
    corners.minimise(&alone);
    let shares = corners.point();
    let mut set = Vec::new();
    let place = problem.at(&shares);
    add(&mut set, shares, place, 1.0);
    let mut gap = f64::INFINITY;
    for _ in 0..MOST_ROUNDS {
        let here = blend(&set, |corner| &corner.place);
        let against: Vec<f64> = problem.points.iter().map(|point| dot(&here, point)).collect();
        corners.minimise(&against);
        let shares = corners.point();
        let place = problem.at(&shares);
        gap = 2.0 * (dot(&here, &here) - dot(&here, &place));
        if gap <= GAP || set.iter().any(|corner| corner.shares == shares) {
            break;
        }
        add(&mut set, shares, place, 0.0);
        if !settle(&mut set) {
            break;
        }
    }
    Some(problem.mixture(blend(&set, |corner| &corner.shares), gap.max(0.0)))
}

/// Moves to the nearest point of the plane through the corners, dropping those that would weigh less than nothing.
/// False if the corners do not span a plane, which only rounding can bring about; the weights are then as before.
fn settle(set: &mut Vec<Corner>) -> bool {
    loop {
        let Some(wanted) = plane_weights(set) else { return false };
        let step = set
            .iter()
            .zip(&wanted)
            .filter(|(_, wanted)| **wanted < 0.0)
            .map(|(corner, wanted)| corner.weight / (corner.weight - wanted))
            .fold(1.0f64, f64::min);
        for (corner, wanted) in set.iter_mut().zip(&wanted) {
            corner.weight += step * (wanted - corner.weight);
        }
        if step >= 1.0 {
            return true;
        }
        // Whichever stopped the step is dropped for certain, whatever rounding left of it.
        let least = set.iter().map(|corner| corner.weight).fold(f64::INFINITY, f64::min);
        keep_above(set, least.max(1e-14));
    }
}

/// The weights, summing to 1, of the point nearest to the origin in the plane through the corners.
fn plane_weights(set: &[Corner]) -> Option<Vec<f64>> {
    let n = set.len();
    let gram = |i: usize, j: usize| set[i.max(j)].products[i.min(j)];
    // Adding a constant to every product moves the origin off the plane, so that weights come out of one system.
    let shift = (0..n).map(|i| gram(i, i)).sum::<f64>() / n as f64 + 1.0;
    let mut system: Vec<f64> = Vec::with_capacity(n * (n + 1));
    for i in 0..n {
        system.extend((0..n).map(|j| gram(i, j) + shift));
        system.push(1.0);
    }
    let mut weights = solve(&mut system, n)?;
    let sum: f64 = weights.iter().sum();
    weights.iter_mut().for_each(|weight| *weight /= sum);
    Some(weights)
}

/// Solves n equations, each n coefficients and a right side, by elimination with row exchange.
fn solve(system: &mut [f64], n: usize) -> Option<Vec<f64>> {
    let width = n + 1;
    for column in 0..n {
        let pivot =
            (column..n).max_by(|a, b| system[a * width + column].abs().total_cmp(&system[b * width + column].abs()))?;
        if system[pivot * width + column].abs() < 1e-12 {
            return None;
        }
        for cell in 0..width {
            system.swap(column * width + cell, pivot * width + cell);
        }
        for row in column + 1..n {
            let factor = system[row * width + column] / system[column * width + column];
            for cell in column..width {
                system[row * width + cell] -= factor * system[column * width + cell];
            }
        }
    }
    let mut found = vec![0.0; n];
    for row in (0..n).rev() {
        let known: f64 = (row + 1..n).map(|column| system[row * width + column] * found[column]).sum();
        found[row] = (system[row * width + n] - known) / system[row * width + row];
    }
    Some(found)
}

fn blend(set: &[Corner], part: impl Fn(&Corner) -> &[f64]) -> Vec<f64> {
    let mut sum = vec![0.0; set.first().map_or(0, |corner| part(corner).len())];
    for corner in set {
        sum.iter_mut().zip(part(corner)).for_each(|(sum, cell)| *sum += corner.weight * cell);
    }
    sum
}
