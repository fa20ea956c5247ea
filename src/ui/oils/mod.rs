//! The oils bench: what an oil phase is made of, what can take an oil's place, the table of fats.

mod phase;
mod picture;
mod swap;
mod table;

pub(super) use phase::{bench, inside as phase};
pub(super) use swap::{inside as swap, swap_button, title as swap_title};
pub(super) use table::place as table;

use super::dom::{El, View, el};

/// Names with their numbers.
pub(super) fn numbers(rows: &[(&'static str, String)]) -> El {
    let row = |(what, much): &(&str, String)| el("div").child(el("dt").text(what)).child(el("dd").text(much));
    el("dl").class("numbers").child(rows.iter().map(row).collect::<View>())
}

fn paragraphs<T: AsRef<str>>(said: &[T]) -> View {
    said.iter().map(|said| el("p").text(said.as_ref())).collect()
}
