//! Kept versions: what they are called, and what is said of them.

use super::page;

/// The field beside the button that keeps a version.
pub const NAME: &str = "Name of the version (optional)";

/// The field for the name of a kept version.
pub fn name_of(number: u32) -> String {
    format!("Name of version {number}")
}

/// What stands over a kept version: its number, and when it was kept.
pub fn heading(number: u32, saved: &str) -> String {
    format!("{} {number} \u{b7} {saved}", page::VERSION)
}

/// A version by its number and its name, where it has one.
pub fn called(number: u32, name: &str) -> String {
    match name.trim() {
        "" => format!("{} {number}", page::VERSION),
        name => format!("{} {number}, {name}", page::VERSION),
    }
}

/// What is said once a version was kept.
pub fn saved(number: u32, name: &str) -> String {
    match name.trim() {
        "" => format!("{}{number}.", page::VERSION_SAVED),
        name => format!("{}{number}, {name}.", page::VERSION_SAVED),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn version_without_a_name_is_called_by_its_number() {
        assert_eq!(called(3, " "), "Version 3");
        assert_eq!(called(3, " Spring batch "), "Version 3, Spring batch");
        assert_eq!(
            (saved(3, ""), saved(3, "Spring batch")),
            ("Saved as version 3.".into(), "Saved as version 3, Spring batch.".into())
        );
    }
}
