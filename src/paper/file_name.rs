//! What a file is called that leaves the program: after the title of its formula, so that every system takes it.

/// Longer names are cut: some systems take 255 bytes, and a letter has up to four. Common practice, no source.
const LONGEST: usize = 60;

/// Names that a system keeps for devices, whatever stands after a point. Common practice, no source.
const DEVICES: [&str; 4] = ["con", "prn", "aux", "nul"];

/// The name of a file: letters and digits of `title`, a hyphen for what lies between them, `or` where nothing is left, then
/// `end`, which begins with a point or a hyphen.
pub fn file_name(title: &str, or: &str, end: &str) -> String {
    let mut kept = String::new();
    for c in title.chars().filter(|c| !is_unseen(*c)) {
        if c.is_alphanumeric() {
            kept.push(c);
        } else if !kept.is_empty() && !kept.ends_with('-') {
            kept.push('-');
        }
    }
    let cut: String = kept.chars().take(LONGEST).collect();
    let cut = cut.trim_end_matches('-');
    let low = cut.to_lowercase();
    let port =
        low.strip_prefix("com").or(low.strip_prefix("lpt")).is_some_and(|n| matches!(n.as_bytes(), [b'0'..=b'9']));
    if cut.is_empty() || port || DEVICES.contains(&low.as_str()) {
        let hyphen = if cut.is_empty() { "" } else { "-" };
        return format!("{or}{hyphen}{cut}{end}");
    }
    format!("{cut}{end}")
}

/// True for a character that nobody sees where it stands: controls, marks that join, part or turn text, fillers.
///
/// Source: the Unicode Standard, general categories Cc and Cf and the property Default_Ignorable_Code_Point, from memory.
pub(super) const fn is_unseen(c: char) -> bool {
    match c {
        '\t' | '\n' | '\r' => false,
        '\0'..='\u{1f}'
        | '\u{7f}'..='\u{9f}'
        | '\u{ad}'
        | '\u{34f}'
        | '\u{600}'..='\u{605}'
        | '\u{61c}'
        | '\u{6dd}'
        | '\u{70f}'
        | '\u{115f}'..='\u{1160}'
        | '\u{17b4}'..='\u{17b5}'
        | '\u{180b}'..='\u{180f}'
        | '\u{200b}'..='\u{200f}'
        | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}'
        | '\u{2800}'
        | '\u{3164}'
        | '\u{fe00}'..='\u{fe0f}'
        | '\u{feff}'
        | '\u{ffa0}'
        | '\u{fff0}'..='\u{fffb}'
        | '\u{1bca0}'..='\u{1bca3}'
        | '\u{1d173}'..='\u{1d17a}'
        | '\u{e0000}'..='\u{e0fff}' => true,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_name_keeps_letters_of_every_script_and_nothing_that_a_path_or_a_shell_reads() {
        for (title, expected) in [
            ("Oat & honey lotion", "Oat-honey-lotion.csv"),
            ("../../etc/passwd", "etc-passwd.csv"),
            ("  .hidden", "hidden.csv"),
            ("C:\\temp\\x", "C-temp-x.csv"),
            ("Crème №2", "Crème-2.csv"),
            ("Лосьон", "Лосьон.csv"),
            ("\u{202e}gpj.exe", "gpj-exe.csv"),
            ("a\u{200b}b", "ab.csv"),
            ("", "formula.csv"),
            ("???", "formula.csv"),
            ("con", "formula-con.csv"),
            ("LPT1", "formula-LPT1.csv"),
            ("Comb", "Comb.csv"),
        ] {
            assert_eq!(file_name(title, "formula", ".csv"), expected, "{title:?}");
        }
        assert_eq!(file_name(&"ab ".repeat(100), "formula", ".csv").chars().count(), 59 + 4);
    }
}
