//! Readers of suppliers' papers as they are pasted: what a material holds, and the limits of its certificate.

mod cas;
mod certificate;
mod composition;
mod contained;

pub use certificate::{Certificate, read_certificate};
pub use composition::{Composition, read_composition};
pub use contained::Contained;
