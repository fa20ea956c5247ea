//! What a label must say: cautions word for word, the net content and the height of its figures.

mod cautions;
mod net_content;

pub use cautions::caution;
pub use net_content::{Tolerance, figure_height, tolerances};
