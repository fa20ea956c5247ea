//! Reading the maker's shelf: own entries, overrides, lots.

use super::read::{At, Found, MOST_NAME, MOST_NOTE, check_head, parse};
use crate::facts::{Field, IngredientId, Lot, LotField, Shelf};
use crate::formula::MOST_LINES;

/// Id, whether it is the maker's own, and its values.
type ShelfEntry = (IngredientId, bool, Vec<(Field, String)>);

/// Reads a stored shelf.
pub(super) fn read_shelf_text(text: &str, shelf: &mut Shelf) -> Found<()> {
    let value = parse(text)?;
    let root = At { value: &value, path: "$".into() };
    check_head(&root)?;
    read_shelf(&root.need("shelf", "a list")?, shelf)
}

/// Adds the entries of a list to a shelf; an entry of the same id takes the place of the one before.
pub(super) fn read_shelf(at: &At<'_>, shelf: &mut Shelf) -> Found<()> {
    let mut entries: Vec<ShelfEntry> =
        shelf.entries().map(|(id, own, values)| (id.clone(), own, values.to_vec())).collect();
    let mut kept: Vec<(IngredientId, Vec<Lot>)> = shelf.lots().map(|(id, lots)| (id.clone(), lots.to_vec())).collect();
    for entry in at.list(5000)? {
        let (id, own, values) = shelf_entry(&entry)?;
        entries.retain(|(other, ..)| *other != id);
        kept.retain(|(other, _)| *other != id);
        kept.push((id.clone(), lots(&entry)?));
        entries.push((id, own, values));
    }
    *shelf = Shelf::restore(entries);
    for (id, lots) in kept {
        shelf.keep_lots(&id, lots);
    }
    Ok(())
}

fn shelf_entry(entry: &At<'_>) -> Found<ShelfEntry> {
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
    Ok((id, own, values))
}

/// The lots that stand beside the one of the card; none in files from before there were any.
fn lots(entry: &At<'_>) -> Found<Vec<Lot>> {
    let mut lots = Vec::new();
    for at in entry.get("lots")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_LINES))? {
        let mut lot = Lot::default();
        for field in LotField::ALL {
            let most = if field == LotField::Statement { MOST_NOTE } else { MOST_NAME };
            lot.set(field, at.text_or_empty(field.key(), most)?);
        }
        lots.push(lot);
    }
    Ok(lots)
}
