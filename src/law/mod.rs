//! The law on cosmetics, word for word and as far as a program can read it.
//!
//! Annexes II to VI of Regulation (EC) No 1223/2009 come as the Commission's exports (`annexes/`), which [`Export`] reads.
//! [`pack`] makes the compact data (`data/law.txt`) from them, [`Law::read`] reads that, and [`differences`] says what became of
//! each entry between two editions. Nothing here knows a formula, a browser, a clock or a file.

mod acts;
mod annex;
mod condition;
mod dates;
mod differences;
mod entry;
mod export;
mod figure;
mod judge;
mod kind;
mod letters;
mod maximum;
mod names;
mod numbers;
mod pack;
mod products;
mod prohibited;
mod reading;
mod regions;
mod scope;
mod sentence;
mod tidy;
mod unpack;
mod wording;

use crate::facts::{DataFile, Gradual, InPieces, data_file};
use crate::quantity::Day;
use std::sync::{LazyLock, OnceLock};
use unpack::Unpacking;

pub use acts::{Act, act_of};
pub use annex::Annex;
pub use condition::{Condition, EntryReading, Extent, Letters, Maximum, Untold, UseOf, What, WordingWhen};
pub use differences::{Difference, EntryChange, differences};
pub use entry::{AnnexCell, AnnexEntry};
pub use export::{Export, Unusable};
pub use judge::{JudgedShare, Judgement, Ruling, Verdict, judge, verdict};
pub use kind::{ProductForm, ProductKind, Youngest};
pub use names::{names_in, without_footnote};
pub use numbers::{broken_numbers, cas_numbers, is_cas_number};
pub use pack::pack;
pub use products::{Applies, Products, Scope};
pub use reading::read;
pub use regions::{RegionStanding, Regional, base_law, regional_law};
pub use scope::products;
pub use unpack::{Damage, Edition};

/// The compact data of this release, for the tests and the tools; the page has it in [`FILE`].
pub const COMPACT: &str = include_str!("data/law.txt");

/// The day to which the law of this release is known, written beside [`COMPACT`] by the same command: it is asked for before
/// the data has come.
pub const KNOWN_TO: Day = known_to(include_bytes!("data/known-to.txt"));

/// The day of `2026-08-28`; anything else does not compile.
const fn known_to(text: &[u8]) -> Day {
    let (year, month, day) = (number(text, 0, 4), number(text, 5, 2), number(text, 8, 2));
    Day::from_calendar(year, month as u8, day as u8).unwrap()
}

const fn number(text: &[u8], from: usize, digits: usize) -> i32 {
    let (mut value, mut at) = (0, from);
    while at < from + digits {
        assert!(text[at].is_ascii_digit(), "a day such as 2026-08-28");
        value = value * 10 + (text[at] - b'0') as i32;
        at += 1;
    }
    value
}

/// The tables of this room, and that of the shares by which an entry reckons: a file that the page fetches.
pub static FILE: DataFile = data_file!(
    "law": "data/law.txt", "data/acts.csv", "data/kinds.csv", "data/product-types.csv", "data/regions.csv",
    "../compliance/data/reckoned.csv",
);

static ABSENT: Damage = Damage::Absent;
static SHIPPED: Gradual<Unpacking<'static>> = Gradual::new();

impl InPieces for Unpacking<'static> {
    fn begin() -> Self {
        Self::new(FILE.text("data/law.txt"))
    }

    fn build(&mut self) -> bool {
        self.column()
    }
}

/// Reads a piece of the law of this release; false once it is all read, or not here.
pub fn prepare() -> bool {
    FILE.is_here() && SHIPPED.build()
}

/// The law of this release, read when it is asked for first.
///
/// # Errors
/// If its data is damaged, or was not fetched yet.
pub fn shipped() -> Result<&'static Law, &'static Damage> {
    // What is asked for too early must not count for ever.
    if FILE.is_here() { SHIPPED.whole().law() } else { Err(&ABSENT) }
}

static READINGS: LazyLock<Vec<OnceLock<EntryReading<'static>>>> = LazyLock::new(|| {
    let entries = shipped().map(Law::entries).unwrap_or_default();
    entries.iter().map(|_| OnceLock::new()).collect()
});

/// What a program reads in an entry of the law of this release; read once, when it is asked for first. None for an entry of
/// any other law.
pub fn reading_of(entry: &'static AnnexEntry) -> Option<&'static EntryReading<'static>> {
    let entries = shipped().map(Law::entries).ok()?;
    let at = entries.binary_search_by_key(&core::ptr::from_ref(entry), core::ptr::from_ref).ok()?;
    READINGS.get(at).map(|reading| reading.get_or_init(|| read(entry)))
}

/// The five annexes.
#[derive(Debug, Clone)]
pub struct Law {
    editions: Vec<Edition>,
    entries: Vec<AnnexEntry>,
}

impl Law {
    /// Reads the compact data.
    ///
    /// # Errors
    /// If it is damaged, or of another form.
    pub fn read(compact: &str) -> Result<Self, Damage> {
        let mut unpacking = Unpacking::new(compact);
        while unpacking.column() {}
        unpacking.into_law()
    }

    /// All entries, annex by annex, in the order of the files.
    pub fn entries(&self) -> &[AnnexEntry] {
        &self.entries
    }

    /// The annexes and the days of their files.
    pub fn editions(&self) -> &[Edition] {
        &self.editions
    }

    /// To which day the law is known: the earliest of the days to which an annex is kept.
    pub fn known_to(&self) -> Option<Day> {
        self.editions.iter().map(|edition| edition.updated).min()
    }

    /// The entries of that number in an annex; a few numbers stand there twice.
    pub fn find(&self, annex: Annex, reference: &str) -> impl Iterator<Item = &AnnexEntry> {
        let plain = |text: &str| text.replace(' ', "").to_ascii_lowercase();
        let wanted = plain(reference);
        self.entries.iter().filter(move |entry| entry.annex == annex && plain(&entry.reference) == wanted)
    }

    /// The entries that list a CAS number. A number says less than it seems: one of a mixture or of a plant stands in entries
    /// that mean one part or one use of it, so the name has to fit too.
    pub fn of_cas(&self, cas: &str) -> impl Iterator<Item = &AnnexEntry> {
        self.entries.iter().filter(move |entry| {
            (entry.cas.contains(cas) || entry.ec.contains(cas)) && entry.cas_numbers().any(|found| found == cas)
        })
    }

    /// The entries that list exactly that name, in any case: of the glossary, identified, or the chemical name. Other spellings
    /// are for the room of names.
    pub fn of_name(&self, name: &str) -> impl Iterator<Item = &AnnexEntry> {
        self.entries.iter().filter(move |entry| {
            entry.chemical.eq_ignore_ascii_case(name)
                || entry.ingredient_names().any(|known| known.eq_ignore_ascii_case(name))
        })
    }
}
