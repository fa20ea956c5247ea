//! The recogniser of names against names as suppliers write them, against all names of the annexes, and against anything.

mod annex_table;
mod annexes;
mod property;
mod spellings;
mod statements;
