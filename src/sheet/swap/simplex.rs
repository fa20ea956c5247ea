//! The simplex method for a handful of rows over variables with a lower and an upper bound.
//!
//! Finds, among all mixtures x ≥ 0 with Σx = 1, x ≤ caps and rows·x ≤ limits, the one of least cost; first of all
//! whether there is one. Chvátal, Linear Programming (1983), chapter 8, is the method.

use super::mixture::MixtureProblem;

const TINY: f64 = 1e-9;
/// After so many steps the rule that cannot go round in circles (Bland's) chooses.
const PATIENCE: usize = 400;
/// More than any problem of this size needs; then what has been reached is kept.
const MOST_STEPS: usize = 20_000;

/// A basis and its tableau, ready for one cost after another.
#[derive(Debug, Clone)]
pub(super) struct Simplex {
    rows: usize,
    columns: usize,
    blends: usize,
    tableau: Vec<f64>,
    /// The values of the basic variables.
    values: Vec<f64>,
    basis: Vec<usize>,
    /// What one more of each variable would cost, all else held to the rows.
    reduced: Vec<f64>,
    upper: Vec<f64>,
    at_upper: Vec<bool>,
}

impl Simplex {
    /// A mixture within all limits; nothing if there is none.
    pub(super) fn feasible(problem: &MixtureProblem) -> Option<Self> {
        let (n, rows) = (problem.len(), problem.rows.len() + 1);
        // Columns: mixtures, a slack for each limit, and an artificial variable for each row.
        let columns = n + (rows - 1) + rows;
        let mut it = Self {
            rows,
            columns,
            blends: n,
            tableau: vec![0.0; rows * columns],
            values: vec![0.0; rows],
            basis: (columns - rows..columns).collect(),
            reduced: Vec::new(),
            upper: vec![f64::INFINITY; columns],
            at_upper: vec![false; columns],
        };
        it.upper[..n].copy_from_slice(&problem.caps);
        for row in 0..rows {
            // Row 0 is the sum; a row with a negative right side is turned round so that the artificial one is not.
            let limit = if row == 0 { 1.0 } else { problem.rows[row - 1].most };
            let sign = if limit < 0.0 { -1.0 } else { 1.0 };
            for n in 0..n {
                let coefficient = if row == 0 { 1.0 } else { problem.rows[row - 1].of[n] };
                it.tableau[row * columns + n] = sign * coefficient;
            }
            if row > 0 {
                it.tableau[row * columns + n + row - 1] = sign;
            }
            it.tableau[row * columns + columns - rows + row] = 1.0;
            it.values[row] = sign * limit;
        }
        let mut cost = vec![0.0; columns];
        cost[columns - rows..].fill(1.0);
        it.minimise_all(cost);
        let missing: f64 =
            it.basis.iter().zip(&it.values).filter(|(column, _)| **column >= columns - rows).map(|(_, v)| *v).sum();
        it.upper[columns - rows..].fill(0.0);
        (missing <= TINY).then_some(it)
    }

    /// Goes on to the mixture of least cost.
    pub(super) fn minimise(&mut self, cost: &[f64]) {
        let mut all = vec![0.0; self.columns];
        all[..self.blends].copy_from_slice(cost);
        self.minimise_all(all);
    }

    /// The mixture.
    pub(super) fn point(&self) -> Vec<f64> {
        let mut point: Vec<f64> =
            (0..self.blends).map(|column| if self.at_upper[column] { self.upper[column] } else { 0.0 }).collect();
        for (column, value) in self.basis.iter().zip(&self.values) {
            if let Some(slot) = point.get_mut(*column) {
                *slot = value.max(0.0);
            }
        }
        point
    }

    fn minimise_all(&mut self, cost: Vec<f64>) {
        let scale = cost.iter().fold(0.0f64, |most, cost| most.max(cost.abs())).max(1e-300);
        self.reduced = cost.clone();
        for (row, column) in self.tableau.chunks_exact(self.columns).zip(&self.basis) {
            subtract(&mut self.reduced, row, cost[*column]);
        }
        for step in 0..MOST_STEPS {
            let Some((column, rising)) = self.entering(scale * 1e-13, step > PATIENCE) else { return };
            self.enter(column, rising);
        }
    }

    fn entering(&self, tolerance: f64, first: bool) -> Option<(usize, bool)> {
        let mut best = None;
        let mut most = tolerance;
        for (column, ((reduced, at_upper), upper)) in
            self.reduced.iter().zip(&self.at_upper).zip(&self.upper).enumerate()
        {
            let gain = if *at_upper { *reduced } else { -reduced };
            if gain > most && *upper > 0.0 && !self.basis.contains(&column) {
                best = Some((column, !at_upper));
                if first {
                    return best;
                }
                most = gain;
            }
        }
        best
    }

    /// Moves a variable away from its bound until something stops it.
    fn enter(&mut self, column: usize, rising: bool) {
        let sign = if rising { 1.0 } else { -1.0 };
        let mut reach = self.upper[column];
        let mut leaving: Option<(usize, bool)> = None;
        let mut pivot = 0.0f64;
        for row in 0..self.rows {
            let falls = sign * self.tableau[row * self.columns + column];
            let (room, to_upper) = if falls > TINY {
                (self.values[row].max(0.0) / falls, false)
            } else if falls < -TINY {
                ((self.upper[self.basis[row]] - self.values[row]).max(0.0) / -falls, true)
            } else {
                continue;
            };
            if room < reach - 1e-15 || (room <= reach && falls.abs() > pivot && leaving.is_some()) {
                reach = room;
                leaving = Some((row, to_upper));
                pivot = falls.abs();
            }
        }
        for row in 0..self.rows {
            self.values[row] -= sign * self.tableau[row * self.columns + column] * reach;
        }
        let Some((row, to_upper)) = leaving else {
            self.at_upper[column] = rising;
            return;
        };
        let value = if rising { reach } else { self.upper[column] - reach };
        self.at_upper[self.basis[row]] = to_upper;
        self.at_upper[column] = false;
        self.pivot(row, column);
        self.values[row] = value;
    }

    fn pivot(&mut self, row: usize, column: usize) {
        let width = self.columns;
        let divisor = self.tableau[row * width + column];
        self.tableau[row * width..(row + 1) * width].iter_mut().for_each(|cell| *cell /= divisor);
        let pivot_row = self.tableau[row * width..(row + 1) * width].to_vec();
        for (other, cells) in self.tableau.chunks_exact_mut(width).enumerate() {
            if other != row {
                let factor = cells[column];
                subtract(cells, &pivot_row, factor);
            }
        }
        let factor = self.reduced[column];
        subtract(&mut self.reduced, &pivot_row, factor);
        self.basis[row] = column;
    }
}

/// Takes so many times one row from another.
fn subtract(from: &mut [f64], row: &[f64], times: f64) {
    if times != 0.0 {
        from.iter_mut().zip(row).for_each(|(cell, other)| *cell -= times * other);
    }
}
