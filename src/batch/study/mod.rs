//! The stability study of a batch, and how long the batch keeps: a plan of dated pulls, what was seen at each, what that says
//! of every criterion (never that a product is stable), and what ends its shelf life first.
//!
//! Like the record of a batch it is a list of entries that only grows; all else is a fold over it.

mod ageing;
mod calendar;
mod event;
mod fold;
mod lot_end;
mod photograph;
mod plan;
mod plot;
mod shelf_life;
mod verdict;

pub use ageing::{activation_energy, arrhenius_factor, like_days, q10_factor};
pub use calendar::{CalendarEntry, calendar_file};
pub use event::{
    Observation, SCORES, Separation, StudyBasis, StudyEntry, StudyEvent, StudyIncident, StudyLot, Viscosity,
};
pub use fold::{Study, StudyPull};
pub use lot_end::{LotEnd, LotEndBasis, lot_ends};
pub use photograph::{
    Jpeg, LEFT_FREE, MEDIA_TYPE, MOST_BYTES, MOST_KEPT, MOST_SIDE, NoRoom, Photograph, PhotographId, PhotographProblem,
    StorageEstimate, StudyPhotograph, Tally, attempts, bare, has_room,
};
pub use plan::{
    ConditionKind, MOST_POINTS, Pull, PullPoint, PullUnit, StudyCondition, StudyLimits, StudyPlan, points_text,
    read_points, usual_condition, usual_plan,
};
pub use plot::{PlotSeries, StudyPlot, plots};
pub use shelf_life::{ShelfLife, ShelfLimit, StabilityEvidence, seen_so_far, shelf_life};
pub use verdict::{CriterionState, StudyCriterion, StudyVerdict, judge_pull, verdicts};
