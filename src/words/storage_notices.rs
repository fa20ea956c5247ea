//! What is said of keeping, exporting and taking in.

use super::page;
use crate::desk::BIN_DAYS;
use crate::shelf::{Clash, Shelf, ShelfChange};

/// Another formula was asked for, and the open one could not be written.
pub const STAYS_OPEN: &str = "This formula could not be saved, so it stays open. Export it, or free some storage in this browser, and try again.";
/// A formula of the list is gone.
pub const NOT_HERE: &str = "That formula is no longer in this browser.";
/// A formula of the list was binned meanwhile.
pub const IN_THE_BIN: &str = "That formula was moved to the bin in another tab. It can be restored from there.";
/// More on the shelf than can be read again.
pub const SHELF_FULL: &str = "The shelf has no room for that, so nothing was added: it holds what you typed about 5000 ingredients, and 200 lots of each. Remove what you do not use, or import less.";
/// A card where nothing is kept.
pub const KEEPS_NOTHING_TITLE: &str = "This browser keeps nothing for this page";
/// What that means.
pub const KEEPS_NOTHING: &str = "Its settings block what pages store. You can work, scale and print, but all of it is gone when the page is closed. Export what matters, or allow this page to store data and open it again.";
/// The card of an import that runs.
pub const IMPORTING: &str = "Adding formulas";
/// Its button.
pub const STOP: &str = "Stop";

/// How far an import is.
pub fn so_far(done: usize, all: usize) -> String {
    format!("{done} of {all}")
}

/// Documents of a file that cannot be read, before the reasons.
pub fn left_out(formulas: usize) -> String {
    let formulas = if formulas == 1 { "1 formula".to_owned() } else { format!("{formulas} formulas") };
    format!("{formulas} in the file cannot be read and would be left out. What was found there:")
}

/// An import that is done.
pub fn added(formulas: usize) -> String {
    if formulas == 1 {
        "The formula was added to the list.".to_owned()
    } else {
        format!("{formulas} formulas were added to the list.")
    }
}

/// What left the bin for good.
pub fn left_the_bin(documents: usize) -> String {
    let documents = if documents == 1 { "1 document was".to_owned() } else { format!("{documents} documents were") };
    format!("{documents} removed for good after {BIN_DAYS} days of use in the bin.")
}

/// Only the quick copy took it; the browser's words follow, if it had any.
pub fn only_mirror(reason: &str) -> String {
    if reason.is_empty() { page::ONLY_MIRROR.to_owned() } else { format!("{} ({reason})", page::ONLY_MIRROR) }
}

fn value(text: &str) -> String {
    if text.trim().is_empty() { "nothing".to_owned() } else { format!("\u{201c}{}\u{201d}", text.trim()) }
}

/// What two shelves disagree about; at most three of it.
fn told(clashes: &[Clash], shelf: &Shelf, one: impl Fn(&str, &str, &Clash) -> String) -> String {
    let name = |clash: &Clash| {
        shelf.entry(&clash.id).map_or_else(|| clash.id.as_str().to_owned(), |entry| entry.label().to_owned())
    };
    let mut text: Vec<String> =
        clashes.iter().take(3).map(|clash| one(&name(clash), page::field(clash.field), clash)).collect();
    if clashes.len() > 3 {
        text.push(format!("And {} more.", clashes.len() - 3));
    }
    text.join(" ")
}

/// Another tab changed the shelf too, or changed values that were typed here. Nothing to say if nothing of that was typed
/// here and is another value now.
pub fn shelf_change(change: &ShelfChange) -> Option<String> {
    let clashes = change.clashes();
    let joined = change.base.is_some();
    let one = |name: &str, field: &str, clash: &Clash| {
        let (kept, other) = (value(&clash.kept), value(&clash.other));
        if joined {
            format!("{name}, {field}: {kept} counts, the other tab had {other}.")
        } else {
            format!("{name}, {field}: now {kept}, before {other}.")
        }
    };
    let what = told(&clashes, &change.kept, one);
    match (joined, what.is_empty()) {
        (true, true) => Some(page::SHELF_JOINED.to_owned()),
        (true, false) => Some(format!("{} {what} Undo on the shelf brings the other value back.", page::SHELF_JOINED)),
        (false, true) => None,
        (false, false) => Some(format!("{} {what} Undo on the shelf brings yours back.", page::SHELF_CHANGED)),
    }
}
/// Another tab wrote a formula that was to be moved.
pub const BIN_CONFLICT: &str = "Another tab has just changed that formula. It was not moved; check it first.";
/// The journal refused; the browser's words follow.
pub const BIN_FAILED: &str = "It could not be moved; nothing has changed. Message from the browser: ";
/// The browser made no file.
pub const NOT_EXPORTED: &str = "The browser did not create a file. Nothing was exported.";

/// An import that stopped.
pub fn added_some(added: usize, of: usize) -> String {
    format!("{added} of {of} formulas were added. The others could not be saved; they are still in the import list.")
}

/// How many lines a formula has.
pub fn lines(count: usize) -> String {
    if count == 1 { "1 line".to_owned() } else { format!("{count} lines") }
}

/// How many links and files wait behind the one that is shown; empty for none.
pub fn waiting(behind: usize) -> String {
    match behind {
        0 => String::new(),
        1 => "1 more link or file is waiting. It comes next.".to_owned(),
        _ => format!("{behind} more links or files are waiting. They come next, in order."),
    }
}

/// An export of everything that is not everything.
pub fn exported_some(formulas: usize) -> String {
    let formulas = if formulas == 1 { "1 formula".to_owned() } else { format!("{formulas} formulas") };
    format!("The file holds {formulas}, but not everything that is stored here could be read.")
}

/// An older version is back; of so many lines the plan had something that the version has no place for.
pub fn brought_back(left_out: usize) -> String {
    let back = "The older version is back.";
    match left_out {
        0 => back.to_owned(),
        _ => format!(
            "{back} Amounts in stock and lye ticks for ingredients that it does not have were left out: check Batch."
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_told_as_parts() {
        assert!(added_some(22, 40).starts_with("22 of 40 "));
        assert_eq!((lines(1), lines(14)), ("1 line".to_owned(), "14 lines".to_owned()));
        assert_eq!(waiting(0), "");
        assert!(
            waiting(1).starts_with("1 more link or file is ") && waiting(2).starts_with("2 more links or files are ")
        );
        assert!(exported_some(1).contains("1 formula,") && exported_some(2).contains("2 formulas,"));
        assert!(!brought_back(0).contains("left out") && brought_back(1).contains("left out"));
    }
}
