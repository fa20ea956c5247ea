//! The built-in table of materials, read once.
//!
//! `data/ingredients.csv` holds one row a material, sorted by id, with a column beside every value that says how well it is
//! known. Densities are at 20 °C. Where the values come from is in `data/ingredient-sources.csv` ([`super::sources`]); the fatty
//! acids, preservative limits, acid constants and hazards of the linked rows are in their own tables.

use std::sync::{LazyLock, OnceLock};

use super::field_check::check_single;
use super::search_keys::SearchKeys;
use crate::facts::{
    CsvRow, CsvTable, Field, FieldKind, FieldProblem, IngredientId, Links, Provenance, RowProblem, Solvent, UsualPhase,
    Wrong,
};
use crate::quantity::{Percent, Quantity};

/// One row of the table.
#[derive(Debug)]
pub(crate) struct Material {
    pub(crate) id: IngredientId,
    facts: [Option<TableValue>; Field::ALL.len()],
    pub(crate) links: Links<'static>,
    pub(crate) carrier: Option<Solvent>,
    pub(crate) premix: Option<Percent>,
    pub(crate) capped: bool,
    pub(crate) max_basis: Option<&'static str>,
    pub(crate) also: Vec<&'static str>,
    pub(crate) keys: SearchKeys,
}

/// One value of the table.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TableValue {
    pub(crate) text: &'static str,
    pub(crate) provenance: Provenance,
}

impl Material {
    /// What the table has for a field.
    pub(crate) fn fact(&self, field: Field) -> Option<TableValue> {
        self.facts.get(field as usize).copied().flatten()
    }
}

/// The rows, sorted by id. A row that cannot be read is left out; a test sees to it that there is none.
pub(crate) fn materials() -> impl Iterator<Item = &'static Material> {
    PLACES.iter().filter_map(Place::material)
}

/// The row of an id.
pub(crate) fn material(id: &str) -> Option<&'static Material> {
    // The order of ids is that of the file; a test keeps it so.
    PLACES.binary_search_by(|place| place.id.cmp(id)).ok().and_then(|n| PLACES.get(n)?.material())
}

/// The names of one row, as the table has them.
#[derive(Debug, Clone, Copy)]
pub(crate) struct MaterialNames {
    /// Its id.
    pub(crate) id: &'static str,
    /// Its name on the shelf.
    pub(crate) name: &'static str,
    /// Its INCI names, separated by `; `; empty for a group.
    pub(crate) inci: &'static str,
    /// Other names.
    pub(crate) also: &'static [&'static str],
}

/// The names of all rows, sorted by id.
pub(crate) fn material_names() -> impl Iterator<Item = MaterialNames> {
    materials().map(|material| MaterialNames {
        id: material.id.as_str(),
        name: material.fact(Field::Name).map_or("", |fact| fact.text),
        inci: material.fact(Field::Inci).map_or("", |fact| fact.text),
        also: &material.also,
    })
}

/// A row that is read when it is asked for: the page starts with a dozen of them.
struct Place {
    id: &'static str,
    row: CsvRow<'static>,
    material: OnceLock<Option<Material>>,
}

impl Place {
    fn material(&self) -> Option<&Material> {
        self.material.get_or_init(|| read_row(self.row).ok()).as_ref()
    }
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/ingredients.csv")));

static PLACES: LazyLock<Vec<Place>> = LazyLock::new(|| {
    let place = |row: CsvRow<'static>| Some(Place { id: row.get("id").ok()?, row, material: OnceLock::new() });
    TABLE.rows().filter_map(place).collect()
});

fn read_row(row: CsvRow<'static>) -> Result<Material, RowProblem> {
    let id = row.get("id")?;
    let id = IngredientId::parse(id).map_err(|_| row.wrong_cell("id", id, "a kebab-case id"))?;
    let mut facts = [None; Field::ALL.len()];
    for (slot, field) in facts.iter_mut().zip(Field::ALL) {
        *slot = read_fact(row, field)?;
    }
    let text = |field: Field| facts.get(field as usize).copied().flatten().map_or("", |fact| fact.text);
    let also: Vec<_> = row.get("also")?.split(';').map(str::trim).filter(|name| !name.is_empty()).collect();
    Ok(Material {
        keys: SearchKeys::new(id.as_str(), text(Field::Name), text(Field::Inci), &also),
        links: Links {
            fat: some(row.get("fat")?),
            preservative: some(row.get("preservative")?),
            acid_base: some(row.get("acid_base")?),
            hazard: some(row.get("hazard")?),
        },
        carrier: read_carrier(row)?,
        premix: read_premix(row)?,
        capped: match row.get("capped")? {
            "" => false,
            "yes" => true,
            other => return Err(row.wrong_cell("capped", other, "yes or nothing")),
        },
        max_basis: some(row.get("max_basis")?),
        id,
        facts,
        also,
    })
}

fn read_fact(row: CsvRow<'static>, field: Field) -> Result<Option<TableValue>, RowProblem> {
    let elsewhere = field.is_makers() || Field::FATS.contains(&field);
    let text = if elsewhere { "" } else { row.get(field.key())? };
    if text.is_empty() {
        return Ok(None);
    }
    if field == Field::UsualPhase && UsualPhase::from_key(text).is_none() {
        return Err(row.wrong_cell(field.key(), text, "water, oil, cool-down or lye"));
    }
    // Remarks stand among the table's solubilities and parts; that its functions are known is tested, not looked up here.
    let free = matches!(field.shape(), FieldKind::Solubility | FieldKind::Parts | FieldKind::Functions);
    match if free { Ok(()) } else { check_single(field, text) } {
        Ok(()) => {}
        Err(FieldProblem::Number(_, problem)) => {
            return Err(row.wrong(Wrong::Number { column: field.key().to_owned(), found: text.to_owned(), problem }));
        }
        Err(_) => return Err(row.wrong_cell(field.key(), text, "what its column is for")),
    }
    let provenance = match field.seen_column() {
        None => Provenance::Memory,
        Some(column) => Provenance::read(row, column)?,
    };
    Ok(Some(TableValue { text, provenance }))
}

fn read_carrier(row: CsvRow<'static>) -> Result<Option<Solvent>, RowProblem> {
    match row.get("carrier")? {
        "" => Ok(None),
        key => Solvent::from_key(key).map(Some).ok_or_else(|| row.wrong_cell("carrier", key, "water, oil or nothing")),
    }
}

/// A strength without a basis is none.
fn read_premix(row: CsvRow<'static>) -> Result<Option<Percent>, RowProblem> {
    match (row.get("premix_percent")?, row.get("premix_basis")?) {
        ("", "") => Ok(None),
        (text, basis) => match Percent::from_canonical(text) {
            Ok(share) if !basis.is_empty() => Ok(Some(share)),
            _ => Err(row.wrong_cell("premix_percent", text, "a percent with a source or custom beside it")),
        },
    }
}

fn some(text: &str) -> Option<&str> {
    (!text.is_empty()).then_some(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::Hlb;
    use crate::quantity::{Celsius, Density, Ph};

    fn value<Q: Quantity>(material: &Material, field: Field) -> Option<Q> {
        material.fact(field).map(|fact| {
            Q::from_canonical(fact.text).unwrap_or_else(|problem| panic!("{} {field:?}: {problem:?}", material.id))
        })
    }

    fn density(id: &str) -> Density {
        value(material(id).unwrap_or_else(|| panic!("{id}")), Field::Density).unwrap_or_else(|| panic!("{id}"))
    }

    #[test]
    fn table_every_row_is_read() {
        let problems: Vec<_> = TABLE.parse(read_row).1.iter().map(ToString::to_string).collect();
        assert_eq!(problems, Vec::<String>::new());
        assert_eq!(materials().count(), TABLE.rows().count());
        assert!(materials().count() > 0);
    }

    #[test]
    fn table_ids_are_sorted_and_unique() {
        let ids: Vec<_> = TABLE.rows().map(|row| row.get("id").unwrap()).collect();
        for pair in ids.windows(2) {
            assert!(pair[0] < pair[1], "{:?} must stand before {:?}", pair[1], pair[0]);
        }
    }

    #[test]
    fn table_provenance_is_there_exactly_if_a_value_is() {
        let columns: Vec<_> = TABLE.header().iter().filter(|column| column.ends_with("_seen")).collect();
        for row in TABLE.rows() {
            for column in &columns {
                let valued = Field::ALL
                    .into_iter()
                    .filter(|field| field.seen_column() == Some(column.as_str()))
                    .any(|field| !row.get(field.key()).unwrap().is_empty());
                let expected: &[&str] = if valued { &["stored", "memory"] } else { &[""] };
                assert!(expected.contains(&row.get(column).unwrap()), "{}: {column}", row.get("id").unwrap());
            }
        }
    }

    #[test]
    fn table_numbers_are_canonical_and_in_order() {
        for material in materials() {
            let id = &material.id;
            let percent = |field| value::<Percent>(material, field);
            if let (Some(low), Some(high)) = (percent(Field::UseLow), percent(Field::UseHigh)) {
                assert!(low <= high, "{id}: usual share");
                assert!(percent(Field::Max).is_none_or(|max| high <= max), "{id}: the usual share ends above the most");
            }
            let ph = |field| value::<Ph>(material, field);
            if let (Some(min), Some(max)) = (ph(Field::PhMin), ph(Field::PhMax)) {
                assert!(min < max, "{id}: pH");
            }
            if let Some(density) = value::<Density>(material, Field::Density) {
                assert!((700_000..=2_200_000).contains(&density.units()), "{id}: density {}", density.canonical());
            }
            value::<Celsius>(material, Field::HeatMax);
            value::<Hlb>(material, Field::RequiredHlb);
            value::<Hlb>(material, Field::EmulsifierHlb);
            value::<crate::facts::Months>(material, Field::ShelfLifeMonths);
        }
    }

    #[test]
    fn table_links_look_like_ids() {
        for material in materials() {
            let links = material.links;
            for link in [links.fat, links.preservative, links.acid_base, links.hazard].into_iter().flatten() {
                assert!(IngredientId::parse(link).is_ok(), "{}: {link:?}", material.id);
            }
        }
    }

    #[test]
    fn table_functions_are_cosing_names_with_one_capital() {
        for material in materials() {
            for function in
                material.fact(Field::Functions).map_or("", |fact| fact.text).split("; ").filter(|name| !name.is_empty())
            {
                let (first, rest) = function.split_at(1);
                assert!(first == first.to_uppercase() && rest == rest.to_lowercase(), "{}: {function:?}", material.id);
            }
        }
    }

    #[test]
    fn table_every_row_has_a_name_and_some_have_other_names() {
        assert!(materials().all(|material| material.fact(Field::Name).is_some()));
        assert!(material("tocopherol").is_some_and(|material| material.also.contains(&"vitamin E")));
    }

    #[test]
    fn table_carriers_are_liquids_of_their_phase() {
        for material in materials() {
            let phase = material.fact(Field::UsualPhase).map(|fact| fact.text);
            let expected = match material.carrier {
                None => continue,
                Some(Solvent::Water) => "water",
                Some(Solvent::Oil) => "oil",
            };
            assert_eq!(phase, Some(expected), "{}", material.id);
            let links = material.links;
            assert!(links.preservative.is_none(), "{}", material.id);
            assert!(links.acid_base.is_none_or(|link| link == crate::facts::UNCOUNTED), "{}", material.id);
        }
    }

    // Sources: CRC Handbook of Chemistry and Physics, water at 20 °C, 0.9982 g/mL; and physical constants of organic
    // compounds, glycerol, 1.261 g/mL at 20 °C. Each must agree within the digits that the table prints.
    #[test]
    fn table_densities_agree_with_the_handbook() {
        assert!((density("water").units() - 998_200).abs() <= 500, "{:?}", density("water"));
        assert!((density("glycerin").units() - 1_261_300).abs() <= 500, "{:?}", density("glycerin"));
    }

    // Source: European Pharmacopoeia 5.0, ethanol (96 per cent), relative density 0.805 to 0.812.
    #[test]
    fn table_density_of_ethanol_is_within_the_pharmacopoeia() {
        assert!((805_000..=812_000).contains(&density("ethanol").units()), "{:?}", density("ethanol"));
    }

    // The values that rules may rest a hard Stop on. A change here must be a decision.
    #[test]
    fn table_verified_limits_are_the_known_ones() {
        let verified: Vec<_> = materials()
            .filter(|material| material.fact(Field::Max).is_some_and(|fact| fact.provenance.is_verified()))
            .map(|material| material.id.as_str())
            .collect();
        let expected = [
            "allantoin",
            "bht",
            "lactic-acid",
            "potassium-sorbate",
            "retinyl-palmitate",
            "sodium-benzoate",
            "tea-tree-essential-oil",
            "triethanolamine",
        ];
        assert_eq!(verified, expected);
    }
}
