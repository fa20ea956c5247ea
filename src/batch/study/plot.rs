//! What was measured, over time: the pictures as plain figures.

use super::{ConditionKind, Study, StudyCriterion, StudyPull, Viscosity};
use crate::quantity::{Percent, Ph, Quantity};

/// What was measured under one condition.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlotSeries {
    /// Which.
    pub condition: ConditionKind,
    /// Days since the beginning, and the value in smallest units.
    pub points: Vec<(i64, i64)>,
}

/// One picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyPlot {
    /// What it is of.
    pub criterion: StudyCriterion,
    /// Decimal places of its smallest unit.
    pub places: u32,
    /// The last day of its axis: as far as was looked, and a month at least.
    pub days: i64,
    /// The ends of its upright axis, in smallest units; the first is below the second.
    pub span: (i64, i64),
    /// Its limits, where there are any: lowest and highest.
    pub limits: (Option<i64>, Option<i64>),
    /// What was measured, by condition.
    pub series: Vec<PlotSeries>,
}

/// The pictures of what was measured at all: pH, viscosity, loss of weight.
pub fn plots(study: &Study) -> Vec<StudyPlot> {
    let limits = &study.plan.limits;
    let split = |range: Option<(i64, i64)>| (range.map(|range| range.0), range.map(|range| range.1));
    let ph = split(limits.ph.map(|(low, high)| (low.units(), high.units())));
    let thick = split(limits.viscosity.map(|(low, high)| (low.units(), high.units())));
    let light = (None, limits.weight_loss.map(Quantity::units));
    [
        plot(study, StudyCriterion::Ph, Ph::PLACES, ph, &|seen| Some(seen.seen.ph?.units())),
        plot(study, StudyCriterion::Viscosity, Viscosity::PLACES, thick, &|seen| Some(seen.seen.viscosity?.units())),
        plot(study, StudyCriterion::WeightLoss, Percent::PLACES, light, &|seen| Some(study.weight_loss(seen)?.units())),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn plot(
    study: &Study,
    criterion: StudyCriterion,
    places: u32,
    limits: (Option<i64>, Option<i64>),
    value: &dyn Fn(&StudyPull) -> Option<i64>,
) -> Option<StudyPlot> {
    let mut series: Vec<PlotSeries> = Vec::new();
    for seen in &study.seen {
        let Some(value) = value(seen) else { continue };
        let (condition, point) = (seen.pull.condition, (seen.on.number() - study.basis.began.number(), value));
        match series.iter_mut().find(|known| known.condition == condition) {
            Some(known) => known.points.push(point),
            None => series.push(PlotSeries { condition, points: vec![point] }),
        }
    }
    let points = || series.iter().flat_map(|series| &series.points);
    let values = || points().map(|point| point.1).chain(limits.0).chain(limits.1);
    let (low, high) = (values().min()?, values().max()?);
    points().next()?;
    // A tenth of the way beyond both ends, so that nothing lies on the edge.
    let room = ((high - low) / 10).max(1);
    let days = points().map(|point| point.0).max().unwrap_or(0).max(30);
    Some(StudyPlot { criterion, places, days, span: ((low - room).max(0), high + room), limits, series })
}
