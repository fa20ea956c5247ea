//! Finding ingredients while the maker types.
//!
//! Names, INCI names, other common names and ids are compared folded (see [`fold()`]); the folded forms are made once,
//! when the table is read or an entry changes, so a keystroke only compares. It does not guess at misspellings.

use crate::facts::{IngredientId, Matched, SearchKeys, UsualPhase, fold};
use crate::quantity::sort_by;
use crate::shelf::Shelf;

/// An ingredient that matches a query.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SearchHit {
    /// Which ingredient.
    pub id: IngredientId,
    /// What of it matched.
    pub matched: Matched,
}

/// How well an ingredient matches, best first. Within one rank own entries come first, then names in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Rank {
    /// The whole name.
    ExactName,
    /// Its INCI names or its id as a whole.
    Exact,
    /// Another common name as a whole: a row that stands for several has the name of each.
    ExactAlso,
    /// The name begins with the query.
    NameBegins,
    /// Its id or INCI name begins with the query.
    OfficialBegins,
    /// Every word begins a word of the name.
    NameWords,
    /// Every word begins a word of another text.
    Words,
    /// Every word begins a word of one text or another.
    MixedWords,
    /// Every word stands somewhere in the name.
    NameParts,
    /// Every word stands somewhere.
    Parts,
}

/// A folded query.
struct Query {
    /// All words, each with a space before it.
    phrase: String,
    /// Where each word with its space stands in the phrase.
    words: Vec<core::ops::Range<usize>>,
}

impl Query {
    fn new(text: &str) -> Self {
        let phrase = fold(text);
        let starts: Vec<_> = phrase.match_indices(' ').map(|(at, _)| at).collect();
        let ends = starts.iter().skip(1).copied().chain([phrase.len()]);
        let words = starts.iter().zip(ends).map(|(start, end)| *start..end).collect();
        Self { phrase, words }
    }

    /// The words, each with a space before it: found so, it begins a word.
    fn words(&self) -> impl Iterator<Item = &str> {
        self.words.iter().filter_map(|range| self.phrase.get(range.clone()))
    }

    fn all_begin_in(&self, key: &str) -> bool {
        self.words().all(|word| key.contains(word))
    }

    fn rank(&self, keys: &SearchKeys) -> Option<(Rank, Matched)> {
        if keys.name == self.phrase {
            return Some((Rank::ExactName, Matched::Name));
        }
        if let Some((matched, _)) = keys.all().find(|(_, key)| *key == self.phrase) {
            // An id mostly repeats the name, and the name is what the maker sees.
            let by_id = matched == Matched::Id && self.all_begin_in(&keys.name);
            let itself = keys.inci == self.phrase || keys.id == self.phrase;
            let rank = if itself { Rank::Exact } else { Rank::ExactAlso };
            return Some((rank, if by_id { Matched::Name } else { matched }));
        }
        if keys.name.starts_with(&self.phrase) {
            return Some((Rank::NameBegins, Matched::Name));
        }
        let official = |(matched, key): &(Matched, &str)| {
            matches!(matched, Matched::Id | Matched::Inci) && key.starts_with(&self.phrase)
        };
        if let Some((matched, _)) = keys.all().find(official) {
            return Some((Rank::OfficialBegins, matched));
        }
        if let Some((matched, _)) = keys.all().find(|(_, key)| self.all_begin_in(key)) {
            return Some((if matched == Matched::Name { Rank::NameWords } else { Rank::Words }, matched));
        }
        self.scattered(keys)
    }

    /// Words that do not all begin words of one text.
    fn scattered(&self, keys: &SearchKeys) -> Option<(Rank, Matched)> {
        let found = |part: &str| keys.all().find(|(_, key)| key.contains(part)).map(|(matched, _)| matched);
        let mut firsts = self.words().map(|word| (found(word), found(word.trim_start())));
        let (begins, stands) = firsts.next()?;
        let mut rank = if begins.is_some() { Rank::MixedWords } else { Rank::Parts };
        let matched = begins.or(stands)?;
        for (begins, stands) in firsts {
            begins.or(stands)?;
            if begins.is_none() {
                rank = Rank::Parts;
            }
        }
        let in_name = || self.words().all(|word| keys.name.contains(word.trim_start()));
        Some(if rank == Rank::Parts && in_name() { (Rank::NameParts, Matched::Name) } else { (rank, matched) })
    }
}

/// What is searched for.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// What was typed so far.
    pub query: &'a str,
    /// How many are wanted at the most.
    pub limit: usize,
    /// The phase that it is to go into: where several fit about as well, what usually goes there comes first.
    pub phase: Option<UsualPhase>,
}

impl<'a> Wanted<'a> {
    /// For no phase in particular.
    pub const fn anywhere(query: &'a str, limit: usize) -> Self {
        Self { query, limit, phase: None }
    }
}

/// The best ingredients for what has been typed so far. Every word of the query must begin a word of the
/// ingredient's texts or at least stand in them; an empty query gives everything, own entries first, then by name. The
/// order is the same every time. Rows that stand for a whole class of substances are no ingredients and not found. Where that leaves room, `recognise` is asked which rows of the table the query may name: they
/// come like those of which another name is the query.
pub fn search(shelf: &Shelf, wanted: Wanted<'_>, recognise: &dyn Fn(&str) -> Vec<&'static str>) -> Vec<SearchHit> {
    let parsed = Query::new(wanted.query);
    let found = ranked(shelf, &parsed, wanted.phase, &[]);
    let recognised = if found.len() < wanted.limit { recognise(wanted.query) } else { Vec::new() };
    let mut found = if recognised.is_empty() { found } else { ranked(shelf, &parsed, wanted.phase, &recognised) };
    sort_by(&mut found, |a, b| a.0.cmp(&b.0));
    let hit = |(order, matched): Ranked<'_>| SearchHit { id: order.4.clone(), matched };
    found.into_iter().take(wanted.limit).map(hit).collect()
}

/// By rank, where the phase comes before all but a whole name; own before others, name and id; with what matched.
type Ranked<'a> = (((bool, bool), Rank, bool, &'a str, &'a IngredientId), Matched);

fn ranked<'a>(shelf: &'a Shelf, query: &Query, phase: Option<UsualPhase>, recognised: &[&str]) -> Vec<Ranked<'a>> {
    let elsewhere = |id: &IngredientId| {
        phase.is_some_and(|phase| {
            shelf.entry(id).and_then(|entry| entry.usual_phase()).is_none_or(|usual| usual.value != phase)
        })
    };
    let of = |(id, own, keys): (&'a IngredientId, bool, &'a SearchKeys)| {
        let named = recognised.contains(&id.as_str()).then_some((Rank::ExactAlso, Matched::Also));
        let plain = query.rank(keys);
        let (rank, matched) = plain.filter(|(rank, _)| named.is_none_or(|(also, _)| *rank <= also)).or(named)?;
        let whole = rank <= Rank::ExactAlso;
        // What only holds the letters somewhere comes last, whatever its phase.
        let order = (!whole && rank >= Rank::NameParts, !whole && elsewhere(id));
        Some(((order, rank, !own, keys.name.as_str(), id), matched))
    };
    shelf.searched().filter_map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::Field;
    use proptest::prelude::*;

    fn ids(shelf: &Shelf, query: &str) -> Vec<String> {
        search(shelf, Wanted::anywhere(query, 500), &|_| Vec::new()).into_iter().map(|hit| hit.id.to_string()).collect()
    }

    fn first(query: &str) -> Option<(String, Matched)> {
        search(&Shelf::default(), Wanted::anywhere(query, 1), &|_| Vec::new())
            .pop()
            .map(|hit| (hit.id.to_string(), hit.matched))
    }

    #[test]
    fn search_best_hit_is_what_was_meant() {
        for (query, id, matched) in [
            ("Butyrospermum", "shea", Matched::Inci),
            ("shea", "shea", Matched::Name),
            ("SHEA BUT", "shea", Matched::Name),
            ("butter shea", "shea", Matched::Name),
            ("cupuaçu", "cupuacu", Matched::Name),
            ("vitamin e", "tocopherol", Matched::Also),
            ("tocopherol", "tocopherol", Matched::Name),
            ("vitamin E ac", "tocopheryl-acetate", Matched::Also),
            ("distilled water", "water", Matched::Also),
            ("aqua", "water", Matched::Inci),
            ("perfume", "parfum", Matched::Also),
            ("lactyl stear", "sodium-stearoyl-lactylate", Matched::Name),
            ("anthan", "xanthan-gum", Matched::Name),
            ("c12-15", "c12-15-alkyl-benzoate", Matched::Name),
            ("beeswax", "beeswax", Matched::Name),
            ("mct", "mct", Matched::Id),
            ("citric-acid", "citric-acid", Matched::Inci),
        ] {
            assert_eq!(first(query), Some((id.to_owned(), matched)), "{query:?}");
        }
    }

    #[test]
    fn search_finds_what_the_recogniser_takes_the_query_for() {
        let first = |query: &str| {
            search(&Shelf::default(), Wanted::anywhere(query, 3), &crate::names::materials_named)
                .first()
                .map(|hit| hit.id.to_string())
        };
        for (query, id) in [
            ("2-Phenoxyethanol", "phenoxyethanol"),
            ("Natriumbenzoat", "sodium-benzoate"),
            ("56-81-5", "glycerin"),
            ("Butyrospermum Parkii (Shea) Butter", "shea"),
            ("shea", "shea"),
        ] {
            assert_eq!(first(query).as_deref(), Some(id), "{query}");
        }
        assert_eq!(first("Quorblium"), None);
    }

    #[test]
    fn search_knows_the_phase_that_it_is_for() {
        let first = |query, phase| {
            let wanted = Wanted { query, limit: 3, phase };
            search(&Shelf::default(), wanted, &|_| Vec::new()).first().map(|hit| hit.id.to_string())
        };
        for (query, phase, id) in [
            ("wat", UsualPhase::Water, "water"),
            ("phyt", UsualPhase::Water, "sodium-phytate"),
            ("sunfl", UsualPhase::Oil, "sunflower-high-oleic"),
            // A whole name is what it says, wherever it goes.
            ("tocopherol", UsualPhase::Water, "tocopherol"),
        ] {
            assert_eq!(first(query, Some(phase)).as_deref(), Some(id), "{query}");
        }
    }

    #[test]
    fn search_finds_no_classes() {
        for query in ["banned parabens", "chelators", "antioxidants taken for preservatives", "other benzoates"] {
            let found = ids(&Shelf::default(), query);
            let class = |id: &String| Shelf::default().entry(&IngredientId::parse(id).unwrap()).unwrap().is_class();
            assert!(!found.iter().any(class), "{query}: {found:?}");
        }
    }

    #[test]
    fn search_word_start_ranks_above_substring() {
        let hits = ids(&Shelf::default(), "oat");
        let place = |id: &str| hits.iter().position(|hit| hit == id).unwrap_or_else(|| panic!("{id}: {hits:?}"));
        assert!(place("oat") < place("sodium-benzoate"));
        assert!(place("colloidal-oatmeal") < place("sodium-benzoate"));
    }

    #[test]
    fn search_exact_name_comes_first() {
        assert_eq!(ids(&Shelf::default(), "Urea")[0], "urea");
        let mut shelf = Shelf::default();
        shelf.add_own("Urea with something");
        assert_eq!(ids(&shelf, "Urea")[..2], ["urea", "urea-with-something"]);
    }

    #[test]
    fn search_own_entries_come_first_among_equals() {
        let mut shelf = Shelf::default();
        shelf.add_own("Zesty sunflower oil");
        assert_eq!(
            ids(&shelf, "sunflower")[0],
            "sunflower-high-oleic",
            "a name that begins with the query stays first"
        );
        shelf.add_own("Sunflower, our farm");
        assert_eq!(ids(&shelf, "sunflower")[0], "sunflower-our-farm");
    }

    #[test]
    fn search_accents_and_case_do_not_matter() {
        let mut shelf = Shelf::default();
        let own = shelf.add_own("Crème de Karité");
        for query in ["creme", "CRÈME", "cre\u{300}me kari", "karité", "\u{202e}kar"] {
            assert_eq!(ids(&shelf, query)[0], own.as_str(), "{query:?}");
        }
    }

    #[test]
    fn search_follows_overridden_names() {
        let mut shelf = Shelf::default();
        let shea = IngredientId::parse("shea").unwrap();
        shelf.set(&shea, Field::Name, "Quokka");
        assert_eq!(ids(&shelf, "quokka"), ["shea"]);
        assert_eq!(ids(&shelf, "karite"), ["shea"], "other names stay");
        shelf.set(&shea, Field::Name, "");
        assert!(ids(&shelf, "quokka").is_empty());
        shelf.set(&shea, Field::Notes, "Quokka");
        assert_eq!(ids(&shelf, "shea butter")[0], "shea", "an override elsewhere leaves the names alone");
    }

    #[test]
    fn search_every_word_must_match() {
        assert!(ids(&Shelf::default(), "shea xyzzy").is_empty());
        assert!(ids(&Shelf::default(), "shea butyrospermum").contains(&"shea".to_owned()));
    }

    #[test]
    fn search_nothing_typed_gives_everything_up_to_the_limit() {
        let mut shelf = Shelf::default();
        let own = shelf.add_own("Zz");
        let classes =
            Shelf::default().ids().iter().filter(|id| shelf.entry(id).is_some_and(|entry| entry.is_class())).count();
        assert!(classes > 0);
        assert_eq!(ids(&shelf, "").len(), Shelf::default().ids().len() - classes + 1);
        assert_eq!(search(&shelf, Wanted::anywhere(" %", 3), &|_| Vec::new()).len(), 3);
        assert_eq!(search(&shelf, Wanted::anywhere("", 1), &|_| Vec::new())[0].id, own);
        assert!(search(&shelf, Wanted::anywhere("", 0), &|_| Vec::new()).is_empty());
    }

    #[test]
    fn search_same_query_gives_the_same_order() {
        let mut shelf = Shelf::default();
        for _ in 0..3 {
            shelf.add_own("Same name");
        }
        assert_eq!(ids(&shelf, "same name"), ["same-name", "same-name-2", "same-name-3"]);
    }

    #[test]
    fn search_hostile_queries_are_only_text() {
        let shelf = Shelf::default();
        for query in [
            "<script>alert(1)</script>",
            "\u{202e}\u{2066}",
            &"x ".repeat(5000),
            &"é".repeat(10_000),
            "\0",
            "' OR 1=1 --",
        ] {
            let _ = search(&shelf, Wanted::anywhere(query, 20), &|_| Vec::new());
        }
    }

    proptest! {
        #[test]
        fn search_any_own_name_is_found(name in ".{0,60}", query in ".{0,60}") {
            let mut shelf = Shelf::default();
            let own = shelf.add_own(&name);
            prop_assert!(search(&shelf, Wanted::anywhere(&name, 1000), &|_| Vec::new()).iter().any(|hit| hit.id == own));
            prop_assert!(search(&shelf, Wanted::anywhere(&query, 5), &|_| Vec::new()).len() <= 5);
        }
    }
}
