//! What happens to one batch. Its record is a list of entries that only grows; everything else, such as the setting of its
//! pH, is a fold over it.

mod at_stove;
mod batch_code;
mod cooling;
mod correction;
mod cups;
pub mod dose;
mod event;
mod fills;
mod given_codes;
mod left_open;
mod log;
mod making;
mod meter;
mod next_step;
mod reconcile;
mod record;
mod rescale;
mod scale_reading;
mod seal;
pub mod study;
mod trace;
mod units;
mod used;
mod wanted;
mod weigh_in;

pub use at_stove::{AtStove, CHECKS_TO_DECIDE, PotGap, WeighedLot, evaporated, is_past};
pub use batch_code::{BatchCode, CodePattern, CodeProblem, PLACEHOLDERS};
pub use cooling::{Cooling, CurvePoint, Forecast, forecast_cooling};
pub use correction::EntryFigure;
pub use event::{Check, Decision, Event, MassSource, Pot};
pub use fills::{Fills, judge_fills};
pub use given_codes::GivenCodes;
pub use left_open::LeftOpen;
pub use log::{Instrument, PhEvent, PhLog, PhReading, ReplayedLog, SAMPLING_METHODS, Vessel, VesselState};
pub use making::{BatchStage, Making, MakingLine, Reading, Task, Timer, WeighedLine};
pub use meter::{BufferReading, MeterCheck, MeterTrust, MeterVerdict};
pub use next_step::{Adjuster, Dot, MeterNow, NextStep, Picture, Tools, adjusters, next_step};
pub use reconcile::{BatchFlows, BatchLoss, Reconciliation, reconcile};
pub use record::{
    BatchEntry, BatchRecord, EntryId, FrozenFinding, FrozenLine, FrozenPacks, FrozenScale, FrozenStep, MadeFrom,
    PhSetting,
};
pub use rescale::{LineState, NoRescale, Rescale, rescale, scale_to};
pub use scale_reading::{NoReading, ScaleReading};
pub use seal::{Seal, SealState, is_after_seals};
pub use trace::{LotIndex, TracedBatch, TracedLot, trace, trace_lot};
pub use units::{Kilograms, MolPerKg};
pub use used::{LotStock, LotUse, MaterialStock, Usage, UsedBatch, stocks};
pub use wanted::{CanMake, Low, Need, ToBuy, can_make, days_left, ending, low, shopping};
pub use weigh_in::{WeighIn, WeighRemedy, WeighVerdict, judge_weighing, weigh_remedies};
