//! Names of what plants give: genus and species or a common name, the part, the product, and words that say nothing more.
//!
//! `data/plants.csv` holds one row a plant: `latin` as in INCI names, `also` for other botanical names, `common` for common
//! ones, and what is made of it in `products`: `oil[seed -]=argan; extract[leaf]`. In the brackets stand the parts that it
//! may be made of, `-` for none named; behind the sign of equality what it is, or nothing for an INCI name of plant, first
//! part and product. `eo` is an essential oil, which may say so; `oil` is none, and must not; `none` is the plant's bare name.
//!
//! Every word must be one of these. A word that is left over (`hydrogenated`, another plant) makes it another substance.

mod build;

use std::borrow::Cow;
use std::sync::LazyLock;

use super::FILE;
use super::compounds;
use super::lexicon::{NameHit, meaning};
use super::reading::{Meaning, Sureness};
use super::vocabulary::{self, WordKind};
use crate::facts::{CsvRow, CsvTable, Gradual, fold};

/// Words between the names: `oil of cloves`, `huile d'amande`, `aceite de oliva`, `olio di ricino`.
const PARTICLES: [&str; 18] = [
    "of", "s", "d", "l", "de", "du", "des", "del", "dell", "della", "delle", "di", "da", "la", "le", "les", "von",
    "aus",
];

/// Words for essential oils.
const ESSENTIAL: [&str; 17] = [
    "essential",
    "eo",
    "he",
    "ethereal",
    "essentielle",
    "essentielles",
    "essenziale",
    "essencial",
    "esencial",
    "atherisches",
    "aetherisches",
    "atherisch",
    "ath",
    "aeth",
    "aetheroleum",
    "etherische",
    "etherique",
];

/// Words for oils in which something was laid.
const INFUSED: [&str; 14] = [
    "infused",
    "infusion",
    "macerated",
    "macerate",
    "macerat",
    "mazerat",
    "huileux",
    "oleolito",
    "oleolit",
    "auszug",
    "oelauszug",
    "olauszug",
    "olmazerat",
    "oelmazerat",
];

/// What is dry: its powder is the same.
const DRY: [&str; 7] = ["gum", "starch", "butter", "cera", "flour", "protein", "resin"];

struct Plant {
    latin: &'static str,
    products: Vec<Product>,
}

struct Product {
    name: &'static str,
    parts: Vec<&'static str>,
    means: Option<Vec<Meaning>>,
}

/// One name of a plant, without spaces.
#[derive(Clone)]
pub(super) struct PlantName {
    key: String,
    plant: usize,
    latin: bool,
}

pub(super) struct Plants {
    plants: Vec<Plant>,
    names: Vec<PlantName>,
    longest: usize,
    /// Rows of the table that are not read yet.
    rows: Vec<CsvRow<'static>>,
    is_sorted: bool,
}

/// What the words of a name say.
#[derive(Default)]
struct PlantTold {
    plants: Vec<usize>,
    /// The botanical name, without spaces.
    latin: Option<String>,
    parts: Vec<&'static str>,
    products: Vec<&'static str>,
    /// The part that a compound names.
    hint: Option<&'static str>,
    essential: bool,
    /// An oil that drew it out, and was not pressed of it.
    infused: bool,
    form: Option<&'static str>,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/plants.csv")));
static PLANTS: Gradual<Plants> = Gradual::new();

/// Builds a piece of the table; false once it is whole.
pub(super) fn build() -> bool {
    PLANTS.build()
}

/// The names of all plants, for the words in them.
pub(super) fn names() -> impl Iterator<Item = &'static str> {
    let columns = ["latin", "also", "common"];
    TABLE.rows().flat_map(move |row| columns.map(|column| row.get(column).unwrap_or_default()))
}

/// What the words of a name stand for, if they name a plant and what is made of it, and nothing else.
pub(super) fn read(words: &[&str]) -> Option<NameHit> {
    let told = PLANTS.whole().listen(words).or_else(|| PLANTS.whole().turned(words))?;
    let mut hits = told.plants.iter().filter_map(|plant| PLANTS.whole().plants.get(*plant)?.made(&told));
    let mut hit = hits.next()?;
    for other in hits {
        hit.means.extend(other.means);
        hit.ask = true;
    }
    Some(hit)
}

/// Whether the words are a plant's name and nothing more: where a substance came from.
pub(super) fn is_bare(words: &[&str]) -> bool {
    !words.is_empty() && PLANTS.whole().longest_at(words, 0).is_some_and(|(_, count)| count == words.len())
}

/// Whether the words say no more than which plants a substance came from: `plant, sugarcane`, `corn derived`.
pub(super) fn is_source(words: &[&str]) -> bool {
    const SOURCES: [&str; 12] = [
        "plant",
        "plants",
        "vegetable",
        "based",
        "beet",
        "cane",
        "sugar",
        "sugarcane",
        "and",
        "or",
        "fermented",
        "fermentation",
    ];
    let mut at = 0;
    while let Some(word) = words.get(at) {
        match PLANTS.whole().longest_at(words, at) {
            Some((_, count)) => at += count,
            None if SOURCES.contains(word) || vocabulary::kind(word) == Some(WordKind::Remark) => at += 1,
            None => return false,
        }
    }
    !words.is_empty()
}

/// Whether the words name any plant at all.
pub(super) fn is_plant(words: &[&str]) -> bool {
    (0..words.len()).any(|at| PLANTS.whole().longest_at(words, at).is_some())
}

/// The INCI names of the essential oils and absolutes that the table has, folded, sorted.
static ESSENTIAL_OILS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let mut all: Vec<String> = Vec::new();
    for plant in &PLANTS.whole().plants {
        for product in plant.products.iter().filter(|product| ["eo", "absolute", "concrete"].contains(&product.name)) {
            let made = if product.name == "eo" { "oil" } else { product.name };
            match &product.means {
                Some(means) => all.extend(means.iter().map(|one| fold(one.text()))),
                None => all.extend(product.parts.iter().filter(|part| **part != "-").map(|part| {
                    let hit = plant.inci(core::iter::once(title(part).as_str()), made);
                    hit.means.first().map_or_else(String::new, |one| fold(one.text()))
                })),
            }
        }
    }
    all.sort_unstable();
    all.dedup();
    all
});

/// Whether an INCI name is that of an essential oil or an absolute.
pub(super) fn is_essential_oil(inci: &str) -> bool {
    ESSENTIAL_OILS.binary_search(&fold(inci)).is_ok()
}

impl Plants {
    /// The longest name of plants that begins at a word, and how many words it takes.
    pub(super) fn longest_at(&self, words: &[&str], at: usize) -> Option<(&[PlantName], usize)> {
        (1..=self.longest.min(words.len() - at)).rev().find_map(|count| {
            let key: String = words.get(at..at + count)?.concat();
            let found = |key: &str| {
                let start = self.names.partition_point(|name| name.key.as_str() < key);
                let end = self.names.partition_point(|name| name.key.as_str() <= key);
                self.names.get(start..end).filter(|names| !names.is_empty())
            };
            let single = key.strip_suffix("es").into_iter().chain(key.strip_suffix('s')).find_map(found);
            found(&key).or(single).map(|names| (names, count))
        })
    }

    fn listen(&self, words: &[&str]) -> Option<PlantTold> {
        let mut told = PlantTold::default();
        let mut at = 0;
        while let Some(word) = words.get(at) {
            if let Some((names, count)) = self.longest_at(words, at) {
                told.plant(names)?;
                at += count;
            } else {
                told.word(word, self)?;
                at += 1;
            }
        }
        (!told.plants.is_empty()).then_some(told)
    }
}

impl Plants {
    /// The same with the last word where it may belong: `almond oil sweet`, `eucalyptus oil globulus`.
    fn turned(&self, words: &[&str]) -> Option<PlantTold> {
        let parted: Vec<&str> = words.iter().flat_map(|word| compounds::parted(word, self)).collect();
        let (last, rest) = parted.split_last().filter(|(_, rest)| rest.len() > 1)?;
        [0, 1].into_iter().find_map(|at| {
            let mut turned = rest.to_vec();
            turned.insert(at, last);
            self.listen(&turned)
        })
    }
}

impl PlantTold {
    /// Another name of a plant must be of the same one.
    fn plant(&mut self, names: &[PlantName]) -> Option<()> {
        let mut new: Vec<_> = names.iter().map(|name| name.plant).collect();
        new.dedup();
        if self.plants.is_empty() {
            self.plants = new;
        } else {
            self.plants.retain(|plant| new.contains(plant));
        }
        let latin = names.iter().find(|name| name.latin).map(|name| name.key.clone());
        self.latin = self.latin.take().or(latin);
        (!self.plants.is_empty()).then_some(())
    }

    fn word(&mut self, word: &str, plants: &Plants) -> Option<()> {
        match vocabulary::kind(word) {
            Some(WordKind::Part(part)) if !self.parts.contains(&part) => self.parts.push(part),
            Some(WordKind::Product(product)) if !self.products.contains(&product) => self.products.push(product),
            Some(WordKind::Form) if word == "powder" => self.form = Some("Powder"),
            _ if PARTICLES.contains(&word) => {}
            Some(WordKind::Part(_) | WordKind::Product(_) | WordKind::Remark | WordKind::Form | WordKind::Function) => {
            }
            Some(WordKind::Author) if self.latin.is_some() => {}
            // The form that gave the species its name: `Prunus dulcis var. dulcis`.
            _ if self.latin.as_ref().is_some_and(|latin| latin.ends_with(word) && word.len() > 3) => {}
            _ if ESSENTIAL.contains(&word) => self.essential = true,
            _ if INFUSED.contains(&word) => {
                self.infused = true;
                self.products.retain(|product| *product != "Oil");
                self.products.push("Oil");
            }
            _ => return self.compound(word, plants),
        }
        Some(())
    }

    /// A compound as German and Dutch write it: `mandelol`.
    fn compound(&mut self, word: &str, plants: &Plants) -> Option<()> {
        let (names, compound) = compounds::read(word, plants)?;
        if !self.products.contains(&compound.product) {
            self.products.push(compound.product);
        }
        self.hint = compound.part;
        self.plant(names)
    }

    /// What is made, as the table writes it.
    fn product(&self) -> String {
        let mut products: Vec<&str> = self.products.clone();
        let dry = products.iter().any(|product| DRY.iter().any(|dry| dry.eq_ignore_ascii_case(product)));
        products.extend(self.form.filter(|form| !dry && !products.contains(form)));
        match products.as_slice() {
            [] => "none".to_owned(),
            all => all.join(" ").to_lowercase(),
        }
    }
}

impl Product {
    fn read(text: &'static str) -> Option<Self> {
        let (name, rest) = text.split_once('[')?;
        let (parts, means) = rest.split_once(']')?;
        let means = means.strip_prefix('=').map(|means| means.split('|').map(meaning).collect());
        Some(Self { name, parts: parts.split(' ').collect(), means })
    }

    fn is(&self, product: &str, essential: bool) -> bool {
        match self.name {
            "eo" => product == "oil" || (essential && product == "none"),
            name => name == product && !essential,
        }
    }

    /// Whether it is an oil that is not pressed or distilled.
    fn is_infused(&self) -> bool {
        const PRESSED: [&str; 6] = ["seed", "kernel", "nut", "fruit", "germ", "bran"];
        self.name == "oil" && !self.parts.iter().any(|part| PRESSED.contains(part))
    }

    fn takes(&self, parts: &[&str]) -> bool {
        let named = |part: &&str| self.parts.iter().any(|one| one.eq_ignore_ascii_case(part));
        if parts.is_empty() { self.parts.contains(&"-") } else { parts.iter().all(named) }
    }
}

impl Plant {
    /// What was told of this plant.
    fn made(&self, told: &PlantTold) -> Option<NameHit> {
        let product = told.product();
        let is = |one: &&Product| one.is(&product, told.essential) && (!told.infused || one.is_infused());
        let with = |parts: &[&str]| self.products.iter().filter(is).find(|one| one.takes(parts));
        let found = match told.hint {
            // Pits, seeds and nuts are one in many names; other parts are not.
            Some(part) => with(&[told.parts.as_slice(), &[part]].concat())
                .or_else(|| if ["Kernel", "Seed", "Nut"].contains(&part) { with(&told.parts) } else { None }),
            None => with(&told.parts),
        };
        match found {
            Some(Product { means: Some(means), .. }) => {
                Some(NameHit { means: means.clone(), sureness: Sureness::Synonym, ask: means.len() > 1 })
            }
            Some(Product { parts, .. }) => {
                let part = parts.first().filter(|part| **part != "-").map(|part| title(part));
                Some(self.inci(part.as_deref().into_iter(), &product))
            }
            None if product == "none" || told.infused => None,
            None => {
                let hit = self.inci(told.parts.iter().copied(), &product);
                // A common name may stand for another plant in another INCI name.
                let known = told.latin.is_some() && !told.parts.is_empty() && !told.essential;
                Some(if known { hit } else { hit.asked() })
            }
        }
    }

    fn inci<'a>(&self, parts: impl Iterator<Item = &'a str>, product: &str) -> NameHit {
        let mut name = self.latin.to_owned();
        for word in parts.map(str::to_owned).chain(product.split(' ').map(title)) {
            name.push(' ');
            name.push_str(&word);
        }
        NameHit::new(Meaning::Inci(Cow::Owned(name)), Sureness::Synonym)
    }
}

fn title(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
