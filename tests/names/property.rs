//! Whatever is typed is read.

use hundred_parts::names::recognise;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn any_text_is_read(text in "\\PC{0,300}", cas in proptest::option::of("[0-9]{2,7}-[0-9]{2}-[0-9]")) {
        let reading = recognise(&text, cas.as_deref());
        prop_assert_eq!(reading.is_certain(), !reading.means.is_empty());
        prop_assert!(reading.candidates.is_empty() || reading.doubt.is_some());
    }

    /// Words and signs of names in any order find their way through every branch.
    #[test]
    fn any_heap_of_words_is_read(words in prop::collection::vec(prop::sample::select(vec![
        "aqua", "(", ")", "and", "(and)", "/", ",", ";", "-", "oil", "seed", "sodium", "benzoate", "50", "%", "alpha",
        "citric", "acid", "salt", "of", "mono", "hydrate", "argan", "Elaeis", "Guineensis", "in", "water", "CAS",
        "56-81-5", "peg", "hydrogenated", "methyl-", "paraben", "\u{3b1}", "\u{200b}", "organic", "solution", "phenoxi",
    ]), 0..40)) {
        let reading = recognise(&words.join(" "), None);
        prop_assert_eq!(reading.is_certain(), !reading.means.is_empty());
    }
}
