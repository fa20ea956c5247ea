//! What goes onto the scale: caps kept by rounding, premixes that can be made, findings that judge the weighed batch, and
//! what leaves as CSV.

mod any_batch;
mod caps;
mod cost;
mod csv;
mod premixes;
mod work;
