//! Stability studies and shelf life, held against values from outside the project.

mod ageing;
mod calendar;
mod dates;
mod made;
mod photographs;
mod seen;
mod shelf;
mod stored;
