//! Names of the annexes' files in the letters of the nomenclature.

use std::borrow::Cow;

/// What stays in capitals.
const KEPT: [&str; 22] = [
    "CI", "HC", "PEG", "PPG", "BHA", "BHT", "DEA", "MEA", "TEA", "MIPA", "DMDM", "PVP", "PABA", "EDTA", "HCL", "HCI",
    "PCA", "DNA", "HEMA", "TBHQ", "MDM", "SD",
];

/// A name as the nomenclature has it: the files print many in capitals.
pub(super) fn titled(name: &str) -> Cow<'static, str> {
    if name.chars().any(|c| c.is_ascii_lowercase()) {
        return Cow::Owned(name.to_owned());
    }
    let mut whole = String::with_capacity(name.len());
    for piece in name.split_inclusive(|c: char| !c.is_alphanumeric()) {
        let word = piece.trim_end_matches(|c: char| !c.is_alphanumeric());
        whole.push_str(&word_titled(word));
        whole.push_str(piece.get(word.len()..).unwrap_or_default());
    }
    Cow::Owned(whole)
}

fn word_titled(word: &str) -> String {
    // Positions on a ring.
    if ["P", "M", "O"].contains(&word) {
        return word.to_lowercase();
    }
    if KEPT.contains(&word) || word.chars().filter(char::is_ascii_alphabetic).count() < 2 {
        return if word == "HCL" { "HCl".to_owned() } else { word.to_owned() };
    }
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_string() + &letters.as_str().to_lowercase())
}

#[cfg(test)]
mod tests {
    use super::*;

    // Names of Annexes III, IV and VI as the files print them.
    #[test]
    fn titled_names_are_those_of_the_nomenclature() {
        for (printed, name) in [
            ("BENZOPHENONE-3", "Benzophenone-3"),
            ("CI 77891", "CI 77891"),
            ("POLYSILICONE-15", "Polysilicone-15"),
            ("PEG-25 PABA", "PEG-25 PABA"),
            ("N,N-DIETHYL-M-AMINOPHENOL SULFATE", "N,N-Diethyl-m-Aminophenol Sulfate"),
            ("Rosa Damascena Flower Oil", "Rosa Damascena Flower Oil"),
        ] {
            assert_eq!(titled(printed), name);
        }
    }
}
