//! Safety findings through documents: the worked examples of each rule, and just under, at and just over each bound.
//!
//! Where a criterion's figure is known only from memory, or is the usual composition of a blend, a Stop is shown as Care:
//! such examples name both the grade that the criterion asks for and the one that is shown.

mod advice;
mod annexes;
mod any_formula;
mod demo;
mod edges;
mod lots;
mod made;
mod making;
mod microbes;
mod people;
mod preserves;
mod scent;
mod sentences;
mod shelf_fields;
mod starting_points;
mod substances;
mod tables;
mod written;
