//! The shelf: the built-in table, the maker's overrides of it, and the maker's own entries.
//!
//! Only the maker's texts are kept here, exactly as typed; everything else is computed from them and the table when
//! asked.

use std::collections::BTreeMap;

use crate::facts::{Field, IngredientId, Material, SearchKeys, material, materials};
use crate::quantity::sort_by;
use crate::shelf::typed::counts;
use crate::shelf::{Ingredient, Lot, sv_ends};

/// All ingredients that a formula can name.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Shelf {
    typed: BTreeMap<IngredientId, TypedFields>,
    /// No empty lists.
    pub(super) lots: BTreeMap<IngredientId, Vec<Lot>>,
}

/// What the maker typed about one ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
struct TypedFields {
    own: bool,
    /// In the order of [`Field`], no empty texts.
    cells: Vec<(Field, String)>,
    /// What is searched, where it differs from the table's.
    keys: Option<SearchKeys>,
}

impl TypedFields {
    fn new(id: &IngredientId, own: bool, cells: Vec<(Field, String)>) -> Self {
        let mut typed = Self { own, cells, keys: None };
        typed.refresh_keys(id);
        typed
    }

    fn text(&self, field: Field) -> Option<&str> {
        self.cells.iter().find(|(at, _)| *at == field).map(|(_, text)| text.as_str())
    }

    /// Takes the place of what was there; an empty text leaves nothing.
    fn put(&mut self, field: Field, text: String) {
        self.cells.retain(|(at, _)| *at != field);
        if !text.is_empty() {
            let place = self.cells.partition_point(|(at, _)| *at < field);
            self.cells.insert(place, (field, text));
        }
    }

    /// A reason is given for the saponification value that stands there, and for no other.
    fn confirm(&mut self) {
        let value = match self.text(Field::SvReason) {
            Some(_) => sv_ends(self.text(Field::SvLow), self.text(Field::SvHigh)),
            None => String::new(),
        };
        self.put(Field::SvConfirmed, value);
    }

    /// The row beneath; an own entry hides it.
    fn material(&self, id: &IngredientId) -> Option<&'static Material> {
        if self.own { None } else { material(id.as_str()) }
    }

    fn refresh_keys(&mut self, id: &IngredientId) {
        let row = self.material(id);
        let renamed = self.text(Field::Name).is_some() || self.text(Field::Inci).is_some();
        self.keys = (row.is_none() || renamed).then(|| {
            let text = |field| self.text(field).or_else(|| row?.fact(field).map(|fact| fact.text)).unwrap_or_default();
            SearchKeys::new(id.as_str(), text(Field::Name), text(Field::Inci), row.map_or(&[], |row| &row.also))
        });
    }
}

/// How many ingredients the maker may have typed something about. Stored shelves and files with more are read: earlier
/// releases had no limit when they wrote.
pub const MOST_ENTRIES: usize = 5000;
/// How many further lots one ingredient may have, read like [`MOST_ENTRIES`].
pub const MOST_LOTS: usize = 200;

impl Shelf {
    /// True if something can be typed about one more ingredient, or about this one.
    pub fn has_room(&self, id: Option<&IngredientId>) -> bool {
        self.typed.len() < MOST_ENTRIES || id.is_some_and(|id| self.typed.contains_key(id))
    }

    /// True if this shelf with what another one brings is within the limits.
    pub fn has_room_for(&self, other: &Self) -> bool {
        let joined = self.joined(other);
        joined.typed.len() <= MOST_ENTRIES.max(self.typed.len())
            && joined.lots.iter().all(|(id, lots)| lots.len() <= MOST_LOTS.max(self.lots_of(id).len()))
    }

    /// The ingredient of an id: an own entry, else the table's row with the overrides laid over it.
    ///
    /// Overrides of a row that the table no longer has are still found; they are all that is known then.
    pub fn entry(&self, id: &IngredientId) -> Option<Ingredient> {
        let Some(typed) = self.typed.get(id) else { return Some(self.untouched(material(id.as_str())?)) };
        Some(Ingredient::merged(id, typed.own, typed.material(id), &typed.cells).with_lots(self.lots_of(id)))
    }

    /// A row of the table over which the maker typed nothing.
    fn untouched(&self, row: &'static Material) -> Ingredient {
        Ingredient::merged(&row.id, false, Some(row), &[]).with_lots(self.lots_of(&row.id))
    }

    /// True if [`Shelf::entry`] finds something.
    pub fn knows(&self, id: &IngredientId) -> bool {
        self.typed.contains_key(id) || material(id.as_str()).is_some()
    }

    /// Keeps a text for a field of a known ingredient, as typed; the empty text takes the override back. A text of
    /// blanks stays and says that there is no value. Gives `false` and does nothing if the ingredient is not known.
    pub fn set(&mut self, id: &IngredientId, field: Field, text: impl Into<String>) -> bool {
        if !self.knows(id) {
            return false;
        }
        let text = text.into();
        let typed = self.typed.entry(id.clone()).or_insert_with(|| TypedFields::new(id, false, Vec::new()));
        if matches!(field, Field::SvLow | Field::SvHigh) && typed.text(field).unwrap_or_default() != text {
            typed.put(Field::SvReason, String::new());
            typed.put(Field::SvConfirmed, String::new());
        }
        typed.put(field, text);
        match field {
            Field::SvReason => typed.confirm(),
            Field::SvConfirmed if typed.text(field).is_none() => typed.put(Field::SvReason, String::new()),
            _ => {}
        }
        if typed.own || !typed.cells.is_empty() {
            typed.refresh_keys(id);
        } else {
            self.typed.remove(id);
        }
        true
    }

    /// Adds an own entry. Its id is made from the name and is one that neither the table nor the shelf has.
    pub fn add_own(&mut self, name: &str) -> IngredientId {
        let mut n = 1;
        let mut id = IngredientId::slug(name, n);
        while self.knows(&id) {
            n += 1;
            id = IngredientId::slug(name, n);
        }
        let cells = if name.is_empty() { Vec::new() } else { vec![(Field::Name, name.to_owned())] };
        self.typed.insert(id.clone(), TypedFields::new(&id, true, cells));
        id
    }

    /// Removes an own entry; gives `false` if there is none. Overrides are taken back by [`Shelf::set`] instead.
    pub fn remove_own(&mut self, id: &IngredientId) -> bool {
        let own = self.typed.get(id).is_some_and(|typed| typed.own);
        if own {
            self.typed.remove(id);
            self.lots.remove(id);
        }
        own
    }

    /// The ids of the own entries, sorted.
    pub fn own_ids(&self) -> impl Iterator<Item = &IngredientId> {
        self.typed.iter().filter(|(_, typed)| typed.own).map(|(id, _)| id)
    }

    /// The fields of a table's row that the maker overrides, in the order of a card; none for an own entry. What could not
    /// be read overrides nothing.
    pub fn overridden(&self, id: &IngredientId) -> Vec<Field> {
        match self.typed.get(id) {
            Some(typed) if !typed.own => {
                let counted = |(field, text): &&(Field, String)| counts(*field, text);
                typed.cells.iter().filter(counted).map(|(field, _)| *field).collect()
            }
            _ => Vec::new(),
        }
    }

    /// The ids of everything on the shelf, sorted.
    pub fn ids(&self) -> Vec<&IngredientId> {
        let rows = materials().map(|row| &row.id).filter(|id| !self.typed.contains_key(id));
        let mut ids: Vec<_> = rows.chain(self.typed.keys()).collect();
        sort_by(&mut ids, |a, b| a.cmp(b));
        ids
    }

    /// Everything on the shelf, sorted by id.
    pub fn iter(&self) -> impl Iterator<Item = Ingredient> {
        self.ids().into_iter().filter_map(|id| self.entry(id))
    }

    /// Everything that is or may be a fat, sorted by id: what has a row in that table, and whatever the maker typed.
    pub fn fats(&self) -> impl Iterator<Item = Ingredient> {
        let rows = materials().filter(|row| row.links.fat.is_some() && !self.typed.contains_key(&row.id));
        let rows = rows.map(|row| (&row.id, Some(row)));
        let mut all: Vec<_> = rows.chain(self.typed.keys().map(|id| (id, None))).collect();
        sort_by(&mut all, |a, b| a.0.cmp(b.0));
        all.into_iter().filter_map(|(id, row)| row.map(|row| self.untouched(row)).or_else(|| self.entry(id)))
    }

    /// What the maker typed: each id, whether it is an own entry, and its texts in the order of a card. All that need
    /// be stored.
    pub fn entries(&self) -> impl Iterator<Item = (&IngredientId, bool, &[(Field, String)])> {
        self.typed.iter().map(|(id, typed)| (id, typed.own, typed.cells.as_slice()))
    }

    /// What the maker typed about one ingredient: whether it is an own entry, and its texts.
    pub(super) fn typed(&self, id: &IngredientId) -> Option<(bool, &[(Field, String)])> {
        self.typed.get(id).map(|typed| (typed.own, typed.cells.as_slice()))
    }

    /// The shelf that gave these [`Shelf::entries`]. Of two texts for one field, and of two entries for one id, the
    /// later counts; empty texts and overrides of nothing are dropped. An own entry stays one even if the table has
    /// gained its id.
    pub fn restore(entries: impl IntoIterator<Item = (IngredientId, bool, Vec<(Field, String)>)>) -> Self {
        let mut shelf = Self::default();
        for (id, own, texts) in entries {
            let mut cells: Vec<(Field, String)> = Vec::new();
            for (field, text) in texts {
                match cells.binary_search_by(|(at, _)| at.cmp(&field)) {
                    Ok(place) => cells[place].1 = text,
                    Err(place) => cells.insert(place, (field, text)),
                }
            }
            cells.retain(|(_, text)| !text.is_empty());
            // A reason whose value another tab has changed is one for nothing.
            if !cells.iter().any(|(field, _)| *field == Field::SvConfirmed) {
                cells.retain(|(field, _)| *field != Field::SvReason);
            }
            if own || !cells.is_empty() {
                let typed = TypedFields::new(&id, own, cells);
                shelf.typed.insert(id, typed);
            }
        }
        shelf
    }

    /// What a search goes through: id, whether it is own, keys. Rows of whole classes are left out: see
    /// [`Ingredient::is_class`].
    pub(super) fn searched(&self) -> impl Iterator<Item = (&IngredientId, bool, &SearchKeys)> {
        let rows = materials().filter(|row| !self.typed.contains_key(&row.id)).map(|row| (&row.id, false, &row.keys));
        let typed = self.typed.iter().filter_map(|(id, typed)| {
            let keys = typed.keys.as_ref().or_else(|| Some(&material(id.as_str())?.keys))?;
            Some((id, typed.own, keys))
        });
        rows.chain(typed).filter(|(_, own, keys)| *own || !keys.inci.is_empty())
    }
}

#[cfg(test)]
mod tests;
