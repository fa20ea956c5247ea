//! What is to be mixed within which limits, and a mixture.

/// A limit: Σ of·x ≤ most.
#[derive(Debug, Clone, PartialEq)]
pub struct Constraint {
    /// One coefficient an oil.
    pub of: Vec<f64>,
    /// The most that they may come to.
    pub most: f64,
}

/// What to mix and within which limits.
#[derive(Debug, Clone, PartialEq)]
pub struct MixtureProblem {
    /// Each oil less the target, all of one length.
    pub points: Vec<Vec<f64>>,
    /// The most of each oil, 0 to 1.
    pub caps: Vec<f64>,
    /// Further limits.
    pub rows: Vec<Constraint>,
}

/// A mixture.
#[derive(Debug, Clone, PartialEq)]
pub struct OilMixture {
    /// Share of each oil; they sum to 1.
    pub shares: Vec<f64>,
    /// Squared distance to the target.
    pub distance: f64,
    /// By so much at most could the squared distance be less.
    pub gap: f64,
}

impl MixtureProblem {
    /// How many oils there are to choose from.
    pub fn len(&self) -> usize {
        self.points.len()
    }

    /// True if there is none.
    pub fn is_empty(&self) -> bool {
        self.points.is_empty()
    }

    /// The mixture of these shares, rid of what rounding left of them: none is below nothing, and they sum to 1.
    pub(super) fn mixture(&self, mut shares: Vec<f64>, gap: f64) -> OilMixture {
        shares.iter_mut().for_each(|share| *share = share.max(0.0));
        let sum: f64 = shares.iter().sum();
        shares.iter_mut().for_each(|share| *share /= sum);
        let here = self.at(&shares);
        OilMixture { shares, distance: dot(&here, &here), gap }
    }

    /// Where the mixture of these shares lies.
    pub(super) fn at(&self, shares: &[f64]) -> Vec<f64> {
        let mut sum = vec![0.0; self.points.first().map_or(0, Vec::len)];
        for (share, point) in shares.iter().zip(&self.points) {
            if *share != 0.0 {
                sum.iter_mut().zip(point).for_each(|(sum, cell)| *sum += share * cell);
            }
        }
        sum
    }
}

/// The inner product of two vectors of one length.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    // Four sums side by side: each addition to a single one would wait for the one before it.
    let ((fours, rest), (other_fours, other_rest)) = (a.as_chunks::<4>(), b.as_chunks::<4>());
    let mut sums = [0.0f64; 4];
    for ([a, b, c, d], [e, f, g, h]) in fours.iter().zip(other_fours) {
        sums[0] += a * e;
        sums[1] += b * f;
        sums[2] += c * g;
        sums[3] += d * h;
    }
    let rest: f64 = rest.iter().zip(other_rest).map(|(a, b)| a * b).sum();
    sums[0] + sums[1] + (sums[2] + sums[3]) + rest
}
