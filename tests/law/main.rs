//! The law against the Commission's own files (`src/law/annexes/`, their README names the source), and cases written by hand
//! from its text.

mod cases;
mod choice;
mod compliance;
mod data;
mod extent;
mod gaps;
