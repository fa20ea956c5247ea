//! One row of the table of preservatives, from its cells.

use crate::facts::{
    Barred, BlendPart, ChildRule, Cover, CsvRow, IngredientId, LabelDuty, PhWindow, Preservative, PreservativeGroup,
    Provenance, RowProblem, UseRange, Wrong, sources_of,
};
use crate::quantity::{Percent, Ph, Quantity};

pub(super) fn read_row(row: CsvRow<'static>, sources: &[(&str, &'static str)]) -> Result<Preservative, RowProblem> {
    let id = row.get("id")?;
    IngredientId::parse(id).map_err(|_| row.wrong_cell("id", id, "a kebab-case id"))?;
    let sum_with = row.get("sum_with")?;
    let low_high = (number::<Percent>(row, "use_low")?, number::<Percent>(row, "use_high")?);
    let min_max = (number::<Ph>(row, "ph_min")?, number::<Ph>(row, "ph_max")?);
    Ok(Preservative {
        id,
        group: one(row, "group", &GROUPS)?
            .ok_or_else(|| row.wrong_cell("group", "", "annex-v, booster, blend or banned"))?,
        entry: row.get("entry")?,
        sum_with: if sum_with.is_empty() { id } else { sum_with },
        leave_on: number(row, "leave_on")?,
        rinse_off: number(row, "rinse_off")?,
        limit_provenance: Provenance::of_value(row, "limit", &SEEN)?,
        counted: number(row, "counted")?.unwrap_or(Percent::WHOLE),
        acid: Some(row.get("acid")?).filter(|link| !link.is_empty()),
        window: (min_max != (None, None)).then_some(PhWindow { min: min_max.0, max: min_max.1 }),
        ph_worst: number(row, "ph_worst")?,
        usual: (low_high != (None, None)).then_some(UseRange { low: low_high.0, high: low_high.1 }),
        cover: read_cover(row)?,
        weak: row.get("weak")?,
        barred: row
            .get("barred")?
            .split("; ")
            .filter(|key| !key.is_empty())
            .map(|key| keyed(row, "barred", key, &BARRED))
            .collect::<Result<_, _>>()?,
        child: one(row, "child", &CHILD)?,
        label: one(row, "label", &LABEL)?,
        rules_provenance: Provenance::of_value(row, "rules", &SEEN)?,
        parts: read_parts(row)?,
        note: row.get("note")?,
        sources: sources_of(row, sources)?,
    })
}

/// What the column `seen` may list.
const SEEN: [&str; 3] = ["limit", "factor", "rules"];

const GROUPS: [(&str, PreservativeGroup); 4] = [
    ("annex-v", PreservativeGroup::Listed),
    ("booster", PreservativeGroup::Booster),
    ("blend", PreservativeGroup::Blend),
    ("banned", PreservativeGroup::Banned),
];

const BARRED: [(&str, Barred); 9] = [
    ("spray", Barred::Spray),
    ("lip", Barred::Lip),
    ("oral", Barred::Oral),
    ("inhaled", Barred::Inhaled),
    ("eye", Barred::Eye),
    ("body", Barred::Body),
    ("nappy-under-3", Barred::NappyUnderThree),
    ("amines", Barred::Amines),
    ("cmit-mit", Barred::CmitMit),
];

const CHILD: [(&str, ChildRule); 6] = [
    ("no-under-3", ChildRule::NotUnderThree),
    ("no-under-3-but-shampoo", ChildRule::NotUnderThreeButShampoo),
    ("no-under-3-but-wash", ChildRule::NotUnderThreeButWash),
    ("no-nappy-under-3", ChildRule::NotNappyUnderThree),
    ("avoid", ChildRule::Avoid),
    ("avoid-nappy", ChildRule::AvoidNappy),
];

const LABEL: [(&str, LabelDuty); 4] = [
    ("under-3", LabelDuty::UnderThree),
    ("nappy", LabelDuty::Nappy),
    ("formaldehyde", LabelDuty::Formaldehyde),
    ("eyes", LabelDuty::Eyes),
];

fn one<T: Copy>(row: CsvRow<'static>, column: &str, values: &[(&str, T)]) -> Result<Option<T>, RowProblem> {
    match row.get(column)? {
        "" => Ok(None),
        key => keyed(row, column, key, values).map(Some),
    }
}

fn keyed<T: Copy>(row: CsvRow<'static>, column: &str, key: &str, values: &[(&str, T)]) -> Result<T, RowProblem> {
    let found = values.iter().find(|(known, _)| *known == key).map(|(_, value)| *value);
    found.ok_or_else(|| row.wrong_cell(column, key, "a key that the program knows"))
}

fn number<Q: Quantity>(row: CsvRow<'static>, column: &str) -> Result<Option<Q>, RowProblem> {
    match row.get(column)? {
        "" => Ok(None),
        text => canonical(row, column, text).map(Some),
    }
}

fn canonical<Q: Quantity>(row: CsvRow<'static>, column: &str, text: &str) -> Result<Q, RowProblem> {
    Q::from_canonical(text)
        .map_err(|problem| row.wrong(Wrong::Number { column: column.to_owned(), found: text.to_owned(), problem }))
}

fn read_cover(row: CsvRow<'static>) -> Result<Option<Cover>, RowProblem> {
    let cell = row.get("cover")?;
    let grade = |c: &u8| (b'0'..=b'2').contains(c).then(|| c - b'0');
    match cell.as_bytes() {
        [] => Ok(None),
        [a, b, c, d] => match (grade(a), grade(b), grade(c), grade(d)) {
            (Some(gram_positive), Some(gram_negative), Some(yeast), Some(mould)) => {
                Ok(Some(Cover { gram_positive, gram_negative, yeast, mould }))
            }
            _ => Err(row.wrong_cell("cover", cell, "four grades of 0 to 2")),
        },
        _ => Err(row.wrong_cell("cover", cell, "four grades of 0 to 2")),
    }
}

/// `id low-high; id share`, in percent of the blend.
fn read_parts(row: CsvRow<'static>) -> Result<Vec<BlendPart>, RowProblem> {
    let cell = row.get("parts")?;
    let part = |text: &'static str| {
        let (id, range) = text.split_once(' ').ok_or_else(|| row.wrong_cell("parts", text, "an id and a share"))?;
        let (low, high) = range.split_once('-').unwrap_or((range, range));
        Ok(BlendPart { id, low: canonical(row, "parts", low)?, high: canonical(row, "parts", high)? })
    };
    cell.split("; ").filter(|text| !text.is_empty()).map(part).collect()
}
