//! Names of single substances as suppliers write them.

mod spelling;
mod substance_names;

pub(crate) use spelling::{is_stereo, position};
pub(crate) use substance_names::substance_names;
pub use substance_names::{Named, recognise};
