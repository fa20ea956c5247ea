//! Readers of suppliers' papers as they are pasted: what a material holds, and the limits of its certificate.

mod cas;
mod certificate;
mod composition;

pub use certificate::{Certificate, read_certificate};
pub use composition::{Composition, Contained, read_composition};
