//! The table of fats as it is looked at: filtered, sorted, each fat with its values and where they come from.

use super::fats::Figures;
use crate::facts::{Allergens, Evidence, FatClass, FatKind, FattyAcid, Hlb, IngredientId, Iv, Span, Sv, fold};
use crate::quantity::{Celsius, Percent, Quantity, ordered};
use crate::shelf::{Disagreement, Fat, Ingredient, SheetFinding, Shelf};

/// One fat.
#[derive(Debug, Clone)]
pub struct FatCard {
    /// Its id.
    pub id: IngredientId,
    /// Its name.
    pub name: String,
    /// Its INCI name.
    pub inci: String,
    /// True if the maker added it.
    pub own: bool,
    /// True if the maker has it.
    pub in_hand: bool,
    /// Its class; that of an own fat is not known.
    pub class: Option<FatClass>,
    /// Its kind.
    pub kind: FatKind,
    /// What follows from its acids; nothing if it is no triglyceride or they are not known.
    pub figures: Option<Figures>,
    /// Ranges of the acids, in the order of [`FattyAcid::ALL`].
    pub ranges: [Option<Span<Percent>>; FattyAcid::ALL.len()],
    /// Measured saponification value.
    pub sv: Option<Span<Sv>>,
    /// The one to reckon with.
    pub typical_sv: Option<Sv>,
    /// If the acids give another one than was measured.
    pub sv_disagrees: Option<Disagreement<Sv>>,
    /// Measured iodine value.
    pub iv: Option<Span<Iv>>,
    /// The one to reckon with.
    pub typical_iv: Option<Iv>,
    /// If the acids give another one than was measured.
    pub iv_disagrees: Option<Disagreement<Iv>>,
    /// The most unsaponifiables.
    pub unsaponifiable_max: Option<Percent>,
    /// Melting, from and to.
    pub melts: Option<(Celsius, Celsius)>,
    /// Required HLB.
    pub required_hlb: Option<Hlb>,
    /// Allergens; nothing if that is not known.
    pub allergens: Option<Allergens>,
    /// Anything else worth knowing.
    pub note: &'static str,
    /// What is odd about the maker's values.
    pub findings: Vec<SheetFinding>,
    /// Where the acids come from.
    pub acids_from: Option<Evidence>,
    /// Where their ranges come from.
    pub ranges_from: Option<Evidence>,
    /// Where the saponification value comes from.
    pub sv_from: Option<Evidence>,
    /// Where the iodine value comes from.
    pub iv_from: Option<Evidence>,
    /// Where the unsaponifiables come from.
    pub unsaponifiable_from: Option<Evidence>,
    /// Where the melting range comes from.
    pub melts_from: Option<Evidence>,
}

impl FatCard {
    /// The card of an ingredient; nothing if it is no fat.
    pub fn of(ingredient: &Ingredient) -> Option<Self> {
        let fat: Fat = ingredient.fat()?;
        let row = fat.row;
        Some(Self {
            id: ingredient.id().clone(),
            name: ingredient.label().to_owned(),
            inci: ingredient.inci().map(|inci| inci.value.to_owned()).unwrap_or_default(),
            own: ingredient.is_own(),
            in_hand: ingredient.in_hand(),
            class: fat.class(),
            kind: fat.kind,
            figures: fat.triglyceride().map(Figures::of),
            // The ranges are those of the table's acids; the maker's acids are another oil's.
            ranges: row.filter(|_| fat.profile_evidence != Some(Evidence::MAKER)).map_or([None; 16], |row| row.ranges),
            sv: fat.sv,
            typical_sv: fat.typical_sv(),
            sv_disagrees: fat.sv_disagreement(),
            iv: fat.iv,
            typical_iv: fat.typical_iv(),
            iv_disagrees: fat.iv_disagreement(),
            unsaponifiable_max: row.map(|row| row.unsaponifiable_max),
            melts: row.and_then(|row| row.melts),
            required_hlb: ingredient.required_hlb().map(|hlb| hlb.value),
            allergens: fat.allergens,
            note: row.map_or("", |row| row.note),
            acids_from: fat.profile_evidence,
            ranges_from: row.and_then(|row| row.ranges_evidence),
            sv_from: fat.sv_evidence,
            iv_from: fat.iv_evidence,
            unsaponifiable_from: row.map(|row| row.unsaponifiable_evidence),
            melts_from: row.and_then(|row| row.melts_evidence),
            findings: fat.findings,
        })
    }
}

/// By what the table is sorted; what has no such value stands last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum FatSort {
    /// Name.
    #[default]
    Name,
    /// Saponification value.
    Saponification,
    /// Iodine value.
    Iodine,
    /// Oxidizability.
    Oxidizability,
    /// One acid, the most first.
    FattyAcid(FattyAcid),
    /// Saturated acids, the most first.
    Saturated,
}

/// What of the table is shown.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FatFilter {
    /// Beginnings of words that its name or INCI name holds; accents and case do not matter.
    pub words: String,
    /// Only this class.
    pub class: Option<FatClass>,
    /// Only what the maker has.
    pub in_hand: bool,
    /// Nothing that carries, or may carry, one of these.
    pub avoid: Allergens,
}

/// The table as it stands on the shelf, by name. It is made once, and looked at again and again: what a card says does not
/// change with a filter or an order.
pub struct FatTable {
    cards: Vec<FatCard>,
    /// Folded names of each card: every word has a space before it.
    words: Vec<String>,
}

impl FatTable {
    /// Every fat of the shelf.
    pub fn of(shelf: &Shelf) -> Self {
        let unsorted: Vec<FatCard> = shelf.fats().filter_map(|entry| FatCard::of(&entry)).collect();
        let names: Vec<String> = unsorted.iter().map(|card| fold(&card.name)).collect();
        let mut unsorted: Vec<Option<FatCard>> = unsorted.into_iter().map(Some).collect();
        let places = ordered(names.len(), &|a, b| names[a].cmp(&names[b]));
        let cards: Vec<FatCard> = places.into_iter().filter_map(|place| unsorted.get_mut(place)?.take()).collect();
        let words = cards.iter().map(|card| fold(&card.name) + &fold(&card.inci) + &fold(card.id.as_str())).collect();
        Self { cards, words }
    }

    /// The cards by name.
    pub fn cards(&self) -> &[FatCard] {
        &self.cards
    }

    /// The places of the cards that pass, in order; what has no value to sort by stands last. `in_hand` says whether the
    /// maker has a fat now.
    pub fn places(&self, filter: &FatFilter, sort: FatSort, in_hand: &dyn Fn(&IngredientId) -> bool) -> Vec<usize> {
        let typed = fold(&filter.words);
        let passes = |place: &usize| {
            let (Some(card), Some(text)) = (self.cards.get(*place), self.words.get(*place)) else { return false };
            let free = filter.avoid.is_empty() || card.allergens.is_some_and(|carried| !carried.meets(filter.avoid));
            typed.split_whitespace().all(|word| begins_a_word(text, word))
                && filter.class.is_none_or(|class| card.class == Some(class))
                && free
                && (!filter.in_hand || in_hand(&card.id))
        };
        let places: Vec<usize> = (0..self.cards.len()).filter(passes).collect();
        let figures: Vec<i64> = places.iter().map(|place| sort.figure(&self.cards[*place])).collect();
        let order = ordered(places.len(), &|a, b| figures[a].cmp(&figures[b]));
        order.into_iter().map(|n| places[n]).collect()
    }
}

fn begins_a_word(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, _)| at > 0 && text.as_bytes().get(at - 1) == Some(&b' '))
}

impl FatSort {
    /// What a card is sorted by, the least first; what has no such value stands last.
    fn figure(self, card: &FatCard) -> i64 {
        let figures = card.figures.as_ref();
        let found = match self {
            Self::Name => Some(0),
            Self::Saponification => card.typical_sv.map(Quantity::units),
            Self::Iodine => card.typical_iv.map(Quantity::units),
            Self::Oxidizability => figures.and_then(|figures| figures.oxidizability()).map(Quantity::units),
            Self::FattyAcid(acid) => figures.map(|figures| -figures.acid(acid).units()),
            Self::Saturated => figures.map(|figures| -figures.saturated.units()),
        };
        found.unwrap_or(i64::MAX)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::Field;

    fn fat_table(shelf: &Shelf, filter: &FatFilter, sort: FatSort) -> Vec<FatCard> {
        let table = FatTable::of(shelf);
        let in_hand = |id: &IngredientId| shelf.entry(id).is_some_and(|entry| entry.in_hand());
        table.places(filter, sort, &in_hand).into_iter().map(|place| table.cards()[place].clone()).collect()
    }

    fn ids(cards: &[FatCard]) -> Vec<&str> {
        cards.iter().map(|card| card.id.as_str()).collect()
    }

    #[test]
    fn table_is_filtered_by_words_class_allergens_and_what_is_in_hand() {
        let mut shelf = Shelf::default();
        assert_eq!(fat_table(&shelf, &FatFilter::default(), FatSort::Name).len(), crate::facts::fats().len());
        let words = FatFilter { words: "Sunflówer oleic".to_owned(), ..FatFilter::default() };
        assert_eq!(ids(&fat_table(&shelf, &words, FatSort::Name)).len(), 2);
        let own = shelf.add_own("Harbour oil");
        shelf.set(&own, Field::FattyAcids, "18:1 100");
        shelf.set(&IngredientId::parse("walnut").unwrap(), Field::InHand, "yes");
        let mine = FatFilter { in_hand: true, ..FatFilter::default() };
        assert_eq!(ids(&fat_table(&shelf, &mine, FatSort::Name)), ["harbour-oil", "walnut"]);
        let free = FatFilter { avoid: Allergens::NUTS, ..mine };
        assert!(fat_table(&shelf, &free, FatSort::Name).is_empty(), "what is not known is not free");
        // Beside what the table knows, unknown words are a doubt, and take nothing away.
        for (fat, kept) in [("almond-sweet", Allergens::TREE_NUT), ("sesame", Allergens::SESAME)] {
            let fat = IngredientId::parse(fat).unwrap();
            shelf.set(&fat, Field::AllergenSource, "Mandel");
            let carried = shelf.entry(&fat).unwrap().fat().unwrap().allergens.unwrap();
            assert!(carried.meets(kept) && carried.meets(Allergens::NUTS), "{fat:?}");
            shelf.set(&fat, Field::AllergenSource, "");
        }
        for (words, offered) in [("Mandel", false), ("filbert", false), ("ask supplier", false), ("none", true)] {
            shelf.set(&own, Field::AllergenSource, words);
            assert_eq!(ids(&fat_table(&shelf, &free, FatSort::Name)) == ["harbour-oil"], offered, "{words}");
        }
    }

    #[test]
    fn table_is_sorted_and_what_has_no_value_stands_last() {
        let cards = fat_table(&Shelf::default(), &FatFilter::default(), FatSort::FattyAcid(FattyAcid::Ricinoleic));
        assert_eq!(ids(&cards)[0], "castor");
        let cards = fat_table(&Shelf::default(), &FatFilter::default(), FatSort::Oxidizability);
        assert!(cards[95].figures.is_none() && cards[0].figures.is_some());
    }

    #[test]
    fn bar_of_a_fat_is_whole() {
        for card in fat_table(&Shelf::default(), &FatFilter::default(), FatSort::Name) {
            if let Some(figures) = card.figures {
                assert_eq!(
                    figures.bar().iter().map(|(_, share)| *share).sum::<Percent>(),
                    Percent::WHOLE,
                    "{}",
                    card.id
                );
                let named = figures.bar().iter().filter(|(acid, _)| acid.is_some()).map(|(_, share)| *share).sum();
                let parts = figures.by_double_bonds();
                assert_eq!(parts.into_iter().sum::<Percent>(), named, "{}: each named acid counts once", card.id);
                // An oil of a hydroxy acid with one double bond: most of castor oil.
                assert!(card.id.as_str() != "castor" || parts[1] > parts[0].plus(parts[2]));
            }
        }
    }
}
