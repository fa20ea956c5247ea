//! What is asked and said where a new formula starts from one that is there.
#![allow(missing_docs, reason = "each constant is its own text")]

use crate::desk::{Climate, Skin, StartingPoint};

pub const START_FROM: &str = "Start from";
pub const EMPTY: &str = "Empty formula";
pub const EMPTY_WHY: &str = "No lines yet. You write all of them.";
pub const INTRO: &str = "Each of these is a complete formula to change as you like. Ingredients and doses are common practice, without a source, and nobody has tested the product.";
pub const WHICH_SKIN: &str = "What kind of skin is it for?";
pub const WHICH_CLIMATE: &str = "What is the climate like where it will be used?";
pub const BEST_FIRST: &str = "What fits your answers best comes first.";
pub const START_WITH_THIS: &str = "Start with this formula";

pub const fn skin(value: Skin) -> &'static str {
    match value {
        Skin::Dry => "dry",
        Skin::Normal => "normal",
        Skin::Oily => "oily",
        Skin::Sensitive => "sensitive",
    }
}

/// As the answer to the question.
pub const fn climate(value: Climate) -> &'static str {
    match value {
        Climate::ColdDry => "cold and dry",
        Climate::Temperate => "temperate",
        Climate::HotHumid => "hot and humid",
    }
}

/// Which skin and climate it suits.
pub fn suits(point: &StartingPoint) -> String {
    let skins = listed(&point.skins().into_iter().map(skin).collect::<Vec<_>>());
    let climates: Vec<_> = point.climates().into_iter().map(climate).collect();
    if climates.is_empty() {
        format!("Suits {skins} skin in any climate.")
    } else {
        format!("Suits {skins} skin where the climate is {}.", climates.join(", or "))
    }
}

/// Words with "and" before the last.
fn listed(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::starting_points;

    #[test]
    fn what_a_starting_point_suits_is_one_sentence() {
        let told: Vec<String> = starting_points().iter().map(suits).collect();
        assert_eq!(
            told,
            [
                "Suits normal, oily and sensitive skin where the climate is temperate, or hot and humid.",
                "Suits dry, normal and sensitive skin where the climate is cold and dry, or temperate.",
                "Suits oily and normal skin where the climate is hot and humid, or temperate.",
                "Suits dry and sensitive skin where the climate is cold and dry.",
                "Suits normal, oily and sensitive skin in any climate.",
                "Suits normal and oily skin in any climate.",
            ]
        );
    }

    /// Sentences are to be read aloud: at most so many words each.
    #[test]
    fn why_is_said_in_short_sentences() {
        for point in starting_points() {
            let long = point.why.split_inclusive(". ").find(|sentence| sentence.split_whitespace().count() > 25);
            assert!(long.is_none() && point.why.ends_with('.'), "{}: {long:?}", point.key);
        }
    }
}
