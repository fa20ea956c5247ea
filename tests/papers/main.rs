//! Label, safety sheet and bundle: they hold what the sheet holds, name what is missing, and never give a verdict.

mod batch_record;
mod checked;
mod dates;
mod hazards;
mod label;
mod recall;
mod record_facts;
mod sheets;
mod starting_points;
mod workshop;
