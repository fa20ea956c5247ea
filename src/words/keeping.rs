//! What is said of keeping, exporting and taking in.

/// Another formula was asked for, and the open one could not be written.
pub const STAYS_OPEN: &str =
    "This formula could not be saved, so it stays open. Export it, or make room in this browser, and try again.";
/// A formula of the list is gone.
pub const NOT_HERE: &str = "That formula is no longer here: it was moved to the bin in another tab.";
/// Another tab wrote a formula that was to be moved.
pub const BIN_CONFLICT: &str = "Another tab has just changed that formula. It was not moved; look at it first.";
/// The journal refused; the browser's words follow.
pub const BIN_FAILED: &str = "It could not be moved; nothing has changed. The browser said: ";
/// The browser made no file.
pub const NOT_EXPORTED: &str = "The browser did not make a file. Nothing was exported.";

/// An import that stopped.
pub fn added_some(added: usize, of: usize) -> String {
    format!("{added} of {of} formulas were added. The others could not be saved; they are still on the card.")
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
            "{back} What was in hand or marked for lye of ingredients that it does not have was left out: check Batch."
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_told_as_parts() {
        assert!(added_some(22, 40).starts_with("22 of 40 "));
        assert!(exported_some(1).contains("1 formula,") && exported_some(2).contains("2 formulas,"));
        assert!(!brought_back(0).contains("left out") && brought_back(1).contains("left out"));
    }
}
