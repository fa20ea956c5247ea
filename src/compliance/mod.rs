//! What the annexes say of a product: for each of its substances the entries that it falls under, collapsed to what bears on
//! this product, in the law's own words.
//!
//! [`check`] is the one door. It takes names with their shares, has them recognised ([`crate::names`]), finds their entries
//! and judges the product by these ([`crate::law`]). What an entry limits is summed over the substances that fall under it. What
//! cannot be told by program is [`LawOutcome::Unknown`] with the words beside it; a name that is not recognised for sure is told,
//! never passed over. Nothing here says that a product is safe.

mod check;
mod product;
mod reckoned;
mod said;

pub use crate::names::is_ready;
pub use check::{EntryCheck, LawCheck, Present, check};
pub use product::products_of;
pub use said::{LawOutcome, Said};
