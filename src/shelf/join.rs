//! Two shelves that went on from one: what each of them changed since, joined.

use crate::facts::{Field, IngredientId};
use crate::shelf::{Lot, Shelf};

type Texts = [(Field, String)];
/// Whether it is the maker's own, and its texts.
type Entry<'a> = (bool, &'a Texts);

/// Whichever side changed; nothing if both did, each in its own way.
fn changed<'a, T: PartialEq>(mine: &'a T, base: &T, theirs: &'a T) -> Option<&'a T> {
    if mine == base || mine == theirs {
        Some(theirs)
    } else if theirs == base {
        Some(mine)
    } else {
        None
    }
}

impl Shelf {
    /// This shelf with what another one has beside it: two that never were one. Where both have a text for one field, this
    /// one's stays; an id that is own here stays own. Lots stand side by side, those of one name and day once.
    #[must_use]
    pub fn joined(&self, other: &Self) -> Self {
        self.join(&Self::default(), other, |known, new| (&known.name, &known.date) == (&new.name, &new.date))
    }

    /// This shelf with what another one changed since both were `base`, removals too. Where both changed one text, this
    /// one's stays; what was removed in one and changed in the other stays. Of lots that both changed, all stay: two of one
    /// name too, if anything in them differs.
    #[must_use]
    pub fn joined_since(&self, base: &Self, other: &Self) -> Self {
        self.join(base, other, PartialEq::eq)
    }

    fn join(&self, base: &Self, other: &Self, same: fn(&Lot, &Lot) -> bool) -> Self {
        // Without maps of its own: each kind of map that is made at once costs the page five kilobytes.
        let others = other.entries().map(|(id, ..)| id).filter(|id| self.typed(id).is_none());
        let ids = self.entries().map(|(id, ..)| id).chain(others);
        let joined: Vec<_> = ids
            .filter_map(|id| {
                let (own, texts) = entry(self.typed(id), base.typed(id), other.typed(id))?;
                Some((id.clone(), own, texts))
            })
            .collect();
        let mut joined = Self::restore(joined);
        let others = other.lots().map(|(id, _)| id).filter(|id| self.lots_of(id).is_empty());
        let ids: Vec<&IngredientId> = self.lots().map(|(id, _)| id).chain(others).collect();
        for id in ids {
            let (mine, before, theirs) = (self.lots_of(id), base.lots_of(id), other.lots_of(id));
            match changed(&mine, &before, &theirs) {
                Some(lots) => joined.put_lots(id, lots.to_vec()),
                None => joined.put_lots(id, both(mine, theirs, same)),
            }
        }
        joined
    }
}

/// A value that two shelves have changed, each in its own way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clash {
    /// Of which ingredient.
    pub id: IngredientId,
    /// Which value.
    pub field: Field,
    /// The text that stays; empty for none.
    pub kept: String,
    /// The text that gives way; empty for none.
    pub other: String,
}

impl Clash {
    /// Between the shelf whose text stays and another one, if they differ.
    pub fn between(kept: &Shelf, other: &Shelf, id: &IngredientId, field: Field) -> Option<Self> {
        let of =
            |shelf: &Shelf| shelf.typed(id).and_then(|(_, texts)| text(texts, field)).unwrap_or_default().to_owned();
        let (kept, other) = (of(kept), of(other));
        (kept != other).then(|| Self { id: id.clone(), field, kept, other })
    }
}

/// Two shelves of which one took the place of the other, or was joined with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShelfChange {
    /// The one whose texts stay where both have some.
    pub kept: Shelf,
    /// The other one.
    pub other: Shelf,
    /// What both began with, if they were joined.
    pub base: Option<Shelf>,
    /// Values that were typed in this tab, if the other one gave way.
    pub typed_here: Vec<(IngredientId, Field)>,
}

impl ShelfChange {
    /// The values that gave way, and that the maker may miss: those that both changed, each in its own way, or that were
    /// typed in this tab.
    pub fn clashes(&self) -> Vec<Clash> {
        let Some(base) = &self.base else {
            let typed = self.typed_here.iter();
            return typed.filter_map(|(id, field)| Clash::between(&self.kept, &self.other, id, *field)).collect();
        };
        let fields =
            |id| Field::ALL.iter().filter_map(move |field| Clash::between(&self.kept, &self.other, id, *field));
        let since = |clash: &Clash| {
            let changed = |shelf: &Shelf| Clash::between(shelf, base, &clash.id, clash.field).is_some();
            changed(&self.kept) && changed(&self.other)
        };
        self.kept.entries().map(|(id, ..)| id).flat_map(fields).filter(since).collect()
    }
}

fn entry(
    mine: Option<Entry<'_>>,
    base: Option<Entry<'_>>,
    theirs: Option<Entry<'_>>,
) -> Option<(bool, Vec<(Field, String)>)> {
    let all = |(own, texts): Entry<'_>| (own, texts.to_vec());
    if let Some(one) = changed(&mine, &base, &theirs) {
        return one.map(all);
    }
    let (Some(mine), Some(theirs)) = (mine, theirs) else { return mine.or(theirs).map(all) };
    let base = base.map_or(&[][..], |(_, texts)| texts);
    let only_theirs = theirs.1.iter().filter(|(field, _)| text(mine.1, *field).is_none());
    let texts = mine.1.iter().chain(only_theirs).filter_map(|(field, _)| {
        let (mine, theirs) = (text(mine.1, *field), text(theirs.1, *field));
        let text = changed(&mine, &text(base, *field), &theirs).copied().unwrap_or(mine)?;
        Some((*field, text.to_owned()))
    });
    Some((mine.0 || theirs.0, texts.collect()))
}

fn text(texts: &Texts, field: Field) -> Option<&str> {
    texts.iter().find(|(at, _)| *at == field).map(|(_, text)| text.as_str())
}

/// These, and of the others those that are not the same as one of these.
fn both(mine: &[Lot], theirs: &[Lot], same: fn(&Lot, &Lot) -> bool) -> Vec<Lot> {
    let new = |lot: &&Lot| !mine.iter().any(|known| same(known, lot));
    mine.iter().chain(theirs.iter().filter(new)).cloned().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shelf::LotField;

    fn id(text: &str) -> IngredientId {
        IngredientId::parse(text).unwrap()
    }

    fn max(shelf: &Shelf, of: &str) -> Option<String> {
        shelf
            .entries()
            .find(|(id, ..)| id.as_str() == of)?
            .2
            .iter()
            .find(|(field, _)| *field == Field::Max)
            .map(|(_, text)| text.clone())
    }

    #[test]
    fn join_keeps_what_either_side_changed_and_this_one_where_both_did() {
        let mut base = Shelf::default();
        base.set(&id("glycerin"), Field::Max, "10");
        base.set(&id("urea"), Field::Max, "5");
        let gone = base.add_own("Old oil");
        let (mut mine, mut theirs) = (base.clone(), base.clone());
        theirs.set(&id("glycerin"), Field::Max, "12");
        theirs.remove_own(&gone);
        mine.set(&id("glycerin"), Field::Density, "1.25");
        mine.set(&id("urea"), Field::Max, "");
        let joined = mine.joined_since(&base, &theirs);
        assert_eq!(max(&joined, "glycerin").as_deref(), Some("12"), "a value that only the other one changed");
        assert_eq!(joined.entry(&id("glycerin")).unwrap().cell(Field::Density).unwrap().text, "1.25");
        assert_eq!(max(&joined, "urea"), None, "taken back here, untouched there");
        assert!(!joined.knows(&gone), "removed there, untouched here");
        theirs.set(&id("urea"), Field::Max, "7");
        assert_eq!(max(&mine.joined_since(&base, &theirs), "urea").as_deref(), Some("7"), "nobody's text is dropped");
        mine.set(&id("urea"), Field::Max, "6");
        assert_eq!(
            max(&mine.joined_since(&base, &theirs), "urea").as_deref(),
            Some("6"),
            "both changed it: this one's stays"
        );
        assert_eq!(mine.joined_since(&base, &base), mine);
        assert_eq!(base.joined_since(&base, &theirs), theirs);
    }

    #[test]
    fn join_of_lots_takes_the_changed_list_and_both_where_both_changed() {
        let water = id("water");
        let mut base = Shelf::default();
        base.add_lot(&water);
        base.set_lot(&water, 0, LotField::Name, "A".into());
        let (mut mine, mut theirs) = (base.clone(), base.clone());
        theirs.remove_lot(&water, 0);
        assert!(mine.joined_since(&base, &theirs).lots_of(&water).is_empty(), "removed there");
        for (shelf, name) in [(&mut mine, "B"), (&mut theirs, "C")] {
            shelf.add_lot(&water);
            let last = shelf.lots_of(&water).len() - 1;
            shelf.set_lot(&water, last, LotField::Name, name.into());
        }
        let names: Vec<String> =
            mine.joined_since(&base, &theirs).lots_of(&water).iter().map(|lot| lot.name.clone()).collect();
        assert_eq!(names, ["A", "B", "C"]);
    }
}
