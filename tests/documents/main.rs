//! Documents, links and actions: what goes out comes in again, and nothing from outside breaks anything.

mod fields;
mod files;
mod frozen;
mod limits;
mod links;
mod starting_points;
mod work;
