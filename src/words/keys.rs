//! The list of keys that the page knows, as it shows it.

/// Its title.
pub const TITLE: &str = "Keyboard shortcuts";
/// That nothing needs them.
pub const INTRO: &str = "Everything here also has a button or a field: you never need a keyboard or a pointer.";

/// Keys and what they do. On some keyboards Ctrl is \u{2318} and Alt is \u{2325}.
pub const KEYS: [(&str, &str); 10] = [
    ("?", "Show or hide this list"),
    ("Tab", "Next field; with Shift, previous field"),
    ("Ctrl Z", "Undo"),
    ("Ctrl Y", "Redo; Ctrl Shift Z too"),
    ("Enter", "In a line: from name to percentage, from percentage to the next line"),
    ("\u{2191} \u{2193}", "In a name: choose from the matches. In a percentage: the line above or below"),
    ("Alt \u{2191} \u{2193}", "Move the line"),
    ("Alt Shift \u{2191} \u{2193}", "Move the line to the phase before or after"),
    ("q.s.", "Typed as a percentage: makes this the fill-up line"),
    ("Esc", "Close whatever is open"),
];
