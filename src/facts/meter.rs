//! Buffers that a pH meter is checked with, and the bounds within which a check counts.

use std::sync::LazyLock;

use super::{Basis, CsvTable, Provenance, RowProblem};
use crate::quantity::{Ph, Quantity};

/// A buffer as it is sold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Buffer {
    /// Names its row.
    pub id: &'static str,
    /// What its bottle says.
    pub name: &'static str,
    /// Its pH at 25 °C, to a hundredth.
    pub ph: Ph,
    /// Where that comes from.
    pub basis: Basis,
}

/// What a check of a meter is held to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MeterBounds {
    /// Both buffers are at least so far apart, in hundredths of pH.
    pub apart: i64,
    /// A check holds for so many hours.
    pub hours: i64,
    /// In a buffer of pH 7 a meter is off by at most so many hundredths of pH.
    pub offset: i64,
    /// Between two buffers it moves by at least and at most so many hundredths of what they differ by.
    pub slope: (i64, i64),
}

/// Every buffer that is known, by its pH.
pub fn buffers() -> impl Iterator<Item = &'static Buffer> {
    BUFFERS.0.iter()
}

/// The bounds of a check.
pub fn meter_bounds() -> MeterBounds {
    let figure = |key, unit| FIGURES.0.iter().find(|row| row.key == key && row.unit == unit).map_or(0, |row| row.value);
    MeterBounds {
        apart: figure("apart", "ph-hundredth"),
        hours: figure("holds", "hour"),
        offset: figure("offset", "ph-hundredth"),
        slope: (figure("slope-least", "percent"), figure("slope-most", "percent")),
    }
}

#[derive(Debug, PartialEq, Eq)]
struct Figure {
    key: &'static str,
    value: i64,
    unit: &'static str,
}

static BUFFER_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/buffers.csv")));
static BUFFERS: LazyLock<(Vec<Buffer>, Vec<RowProblem>)> = LazyLock::new(|| {
    let (mut buffers, problems) = BUFFER_TABLE.parse(|row| {
        let text = row.get("ph")?;
        let ph = Ph::from_canonical(text).map_err(|_| row.wrong_cell("ph", text, "a pH"))?;
        let basis = Basis { source: row.get("source")?, provenance: Provenance::read(row, "seen")? };
        Ok(Buffer { id: row.get("id")?, name: row.get("name")?, ph, basis })
    });
    buffers.sort_by_key(|buffer: &Buffer| buffer.ph);
    (buffers, problems)
});
static METER_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/meter.csv")));
static FIGURES: LazyLock<(Vec<Figure>, Vec<RowProblem>)> = LazyLock::new(|| {
    METER_TABLE.parse(|row| {
        Provenance::read(row, "seen")?;
        let text = row.get("value")?;
        let value = text.parse().map_err(|_| row.wrong_cell("value", text, "a whole number"))?;
        Ok(Figure { key: row.get("key")?, value, unit: row.get("unit")? })
    })
});

#[cfg(test)]
mod tests {
    use super::*;

    // Source: Hetzer, Durst, Robinson and Bates 1977, J Res NBS 81A, 21 (the abstract was read): pH(S) of phthalate is
    // 2073.44/T - 13.3270 + 0.045199 T - 3.4846e-5 T², T in kelvin.
    #[test]
    fn phthalate_buffer_is_the_published_one_at_25_degrees() {
        let t = 298.15_f64;
        let published = 2073.44 / t - 13.3270 + 0.045_199 * t - 3.4846e-5 * t * t;
        let ours = buffers().find(|buffer| buffer.id == "phthalate").unwrap().ph.units() as f64 / 100.0;
        assert!((published - ours).abs() < 0.005, "{published}");
    }

    // Source: Staples and Bates 1969, J Res NBS 73A, 37 (the abstract was read): 10.012, and 9.180 below it.
    #[test]
    fn alkaline_buffers_are_the_published_ones() {
        let of = |id: &str| buffers().find(|buffer| buffer.id == id).unwrap().ph;
        assert_eq!((of("carbonate").units(), of("borax").units()), (1001, 918));
    }

    #[test]
    fn tables_are_read_whole() {
        assert_eq!((&BUFFERS.1, &FIGURES.1), (&Vec::new(), &Vec::new()));
        assert_eq!((BUFFERS.0.len(), FIGURES.0.len()), (5, 5), "a row that nothing reads");
        let bounds = meter_bounds();
        assert!(bounds.slope.0 < 100 && bounds.slope.1 > 100 && bounds.apart > 0 && bounds.hours > 0);
        // 30 mV at 59.16 mV per unit of pH (Nernst, 25 °C: R T ln 10 / F) is half a unit.
        assert!((bounds.offset as f64 / 100.0 - 30.0 / 59.16).abs() < 0.01);
    }
}
