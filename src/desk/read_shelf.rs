//! Reading the maker's shelf: own entries, overrides, lots.

use super::read_cursor::{JsonCursor, ReadResult, check_head, parse};
use super::texts::{MOST_NAME, MOST_NOTE};
use crate::facts::{Field, IngredientId};
use crate::shelf::{Lot, LotField, MOST_ENTRIES, MOST_LOTS, Shelf, sv_ends};
use std::collections::BTreeMap;

/// How far beyond the limits of writing a shelf is read: two tabs may each have added to one, and earlier releases had no
/// limits when they wrote.
const BEYOND: usize = 20;

/// Id, whether it is the maker's own, and its values.
type ShelfEntry = (IngredientId, bool, Vec<(Field, String)>);

/// Reads a stored shelf.
pub(super) fn read_shelf_text(text: &str, shelf: &mut Shelf) -> ReadResult<()> {
    let value = parse(text)?;
    let root = JsonCursor { value: &value, path: "$".into() };
    check_head(&root)?;
    read_shelf(&root.need("shelf", "a list")?, shelf)
}

/// Adds the entries of a list to a shelf; an entry of the same id takes the place of the one before.
pub(super) fn read_shelf(at: &JsonCursor<'_>, shelf: &mut Shelf) -> ReadResult<()> {
    // Filled one by one: a map that is collected brings a sort of its own along.
    let mut entries: BTreeMap<IngredientId, (bool, Vec<(Field, String)>)> = BTreeMap::new();
    for (id, own, values) in shelf.entries() {
        entries.insert(id.clone(), (own, values.to_vec()));
    }
    let mut kept: BTreeMap<IngredientId, Vec<Lot>> = BTreeMap::new();
    for (id, lots) in shelf.lots() {
        kept.insert(id.clone(), lots.to_vec());
    }
    for entry in at.list(BEYOND * MOST_ENTRIES)? {
        let (id, own, values) = shelf_entry(&entry)?;
        kept.insert(id.clone(), lots(&entry)?);
        entries.insert(id, (own, values));
    }
    *shelf = Shelf::restore(entries.into_iter().map(|(id, (own, values))| (id, own, values)));
    for (id, lots) in kept {
        shelf.keep_lots(&id, lots);
    }
    Ok(())
}

fn shelf_entry(entry: &JsonCursor<'_>) -> ReadResult<ShelfEntry> {
    let id_at = entry.need("id", "an id")?;
    let Some(id) = id_at.value.as_str().and_then(|text| IngredientId::parse(text).ok()) else {
        return id_at.wrong("an id of small letters, digits and hyphens");
    };
    let own = entry.get("own")?.is_none_or(|own| own.value.as_bool() != Some(false));
    let mut values = Vec::new();
    // A name and an INCI may also stand beside the id, for files written by hand.
    for (key, field) in [("name", Field::Name), ("inci", Field::Inci)] {
        if let Some(at) = entry.get(key)? {
            values.push((field, at.text(MOST_NAME)?));
        }
    }
    if let Some(table) = entry.get("values")? {
        for key in table.object()?.keys() {
            let Some(value) = table.get(key)? else { continue };
            let Some(field) = Field::from_key(key) else { return value.wrong("a value that the shelf knows") };
            values.push((field, value.text(MOST_NOTE)?));
        }
    }
    // In a file written by hand a reason stands beside the value that it is for; this program writes both.
    let text = |field| values.iter().find(|(at, _)| *at == field).map(|(_, text)| text.as_str());
    if text(Field::SvReason).is_some() && text(Field::SvConfirmed).is_none() {
        values.push((Field::SvConfirmed, sv_ends(text(Field::SvLow), text(Field::SvHigh))));
    }
    Ok((id, own, values))
}

/// The lots that stand beside the one of the card; none in files from before there were any.
fn lots(entry: &JsonCursor<'_>) -> ReadResult<Vec<Lot>> {
    let mut lots = Vec::new();
    for at in entry.get("lots")?.map_or_else(|| Ok(Vec::new()), |list| list.list(BEYOND * MOST_LOTS))? {
        let mut lot = Lot::default();
        for field in LotField::ALL {
            let most = if field == LotField::Statement { MOST_NOTE } else { MOST_NAME };
            lot.set(field, at.text_or_empty(field.key(), most)?);
        }
        lots.push(lot);
    }
    Ok(lots)
}
