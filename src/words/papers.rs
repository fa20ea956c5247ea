//! The sentences of label, safety sheet and assessor's bundle.

use crate::sheet::Open;

/// What is open about the label's list.
pub fn label_open(open: &Open) -> String {
    match open {
        Open::NoInci(name) => format!("{name} has no INCI name: enter it on the shelf."),
        Open::OffShelf(name) => format!("\u{201c}{name}\u{201d} is not on the shelf, so it is not in the list."),
        Open::TwoNames(names) => {
            format!("{names}: the first name was taken. Enter the one that is on your supplier\u{2019}s document.")
        }
        Open::Shares(names) => format!(
            "{names}: the shares in this blend are not known, so its place in the order is a guess. Enter its composition on the shelf."
        ),
        Open::NoStatement(name) => {
            format!("{name}: its allergens are not known. Paste its supplier\u{2019}s allergen statement on the shelf.")
        }
        Open::StatementUnread(name, lines) => {
            format!("{name}: {lines} lines of its allergen statement were not understood.")
        }
        Open::Nano(name) => format!(
            "{name}: if it is in nano form the list must say \u{201c}(nano)\u{201d} behind it. Its supplier\u{2019}s document tells; enter yes or no."
        ),
        Open::NotWhole => "The formula is not a hundred percent yet, so the order may change.".to_owned(),
    }
}
