//! Readers of suppliers' papers as they are pasted: what a material holds, its fatty acids, the limits of its certificate.

mod acid_shares;
mod cas;
mod certificate;
mod composition;
mod fat_sheet;

pub use certificate::{Certificate, read_certificate};
pub use composition::{Composition, Contained, read_composition};
pub use fat_sheet::SheetFinding;
pub(super) use fat_sheet::read_fatty_acids;
