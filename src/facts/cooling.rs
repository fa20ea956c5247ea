//! What is assumed of a pot that cools where nothing was measured: `data/cooling.csv`, choices of this program throughout.

use std::sync::LazyLock;

use crate::facts::{Basis, CsvRow, CsvTable, Provenance, RowProblem};
use crate::quantity::{Celsius, Quantity};

/// A temperature of which nobody knows more than a range: in nineteen of twenty cases it lies in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RoomRange {
    /// Its lower end.
    pub least: Celsius,
    /// What it is most likely.
    pub usual: Celsius,
    /// Its upper end.
    pub greatest: Celsius,
}

/// What is assumed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CoolingFigures {
    /// The temperature of the room.
    pub room: RoomRange,
    /// The same where the readings are enough to tell it, so that only they need to.
    pub elsewhere: RoomRange,
    /// Half the width of the error of a reading.
    pub reading_error: Celsius,
    /// The least time in which the distance to the room's temperature falls to 1/e of itself, in minutes.
    pub shortest_minutes: i64,
    /// The greatest.
    pub longest_minutes: i64,
}

/// The figures, and what they rest on. `None` only if the table were broken, which a test excludes.
pub fn cooling_figures() -> Option<(CoolingFigures, Basis)> {
    let millis = |key: &str| ROWS.0.iter().find(|row| row.key == key).map(|row| row.millis);
    let celsius = |key: &str| millis(key).map(Celsius::from_units);
    let usual = celsius("room-usual")?;
    let figures = CoolingFigures {
        room: RoomRange { least: celsius("room-least")?, usual, greatest: celsius("room-greatest")? },
        elsewhere: RoomRange { least: celsius("elsewhere-least")?, usual, greatest: celsius("elsewhere-greatest")? },
        reading_error: celsius("reading-error")?,
        shortest_minutes: millis("shortest-time")? / 1_000,
        longest_minutes: millis("longest-time")? / 1_000,
    };
    let basis = ROWS.0.iter().find(|row| row.key == "room-usual")?.basis;
    Some((figures, basis))
}

struct Row {
    key: &'static str,
    /// In thousandths of its unit.
    millis: i64,
    basis: Basis,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/cooling.csv")));
static ROWS: LazyLock<(Vec<Row>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(read));

fn read(row: CsvRow<'static>) -> Result<Row, RowProblem> {
    let number = |places| {
        let text = row.get("value")?;
        // Minutes may be many more than degrees, so both are read without the range of either.
        let read = crate::quantity::read_number(text).ok().filter(|number| number.places <= places);
        let millis = read.and_then(|number| i64::try_from(number.digits * 10i128.pow(3 - number.places)).ok());
        millis.ok_or_else(|| row.wrong_cell("value", text, "a number of its unit"))
    };
    let millis = match row.get("unit")? {
        "celsius" => number(3)?,
        "minute" => number(0)?,
        other => return Err(row.wrong_cell("unit", other, "celsius or minute")),
    };
    let basis = Basis { source: row.get("source")?, provenance: Provenance::read(row, "seen")? };
    Ok(Row { key: row.get("key")?, millis, basis })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_of_cooling_are_read_and_choices_of_ours() {
        assert_eq!(ROWS.1, Vec::new());
        assert!(ROWS.0.is_sorted_by(|a, b| a.key < b.key));
        assert_eq!(ROWS.0.len(), 8);
        for row in &ROWS.0 {
            assert!(row.basis.provenance == Provenance::Custom && row.basis.source.len() > 9, "{}", row.key);
        }
        let (found, _) = cooling_figures().unwrap();
        for range in [found.room, found.elsewhere] {
            assert!(range.least < range.usual && range.usual < range.greatest);
        }
        assert!(found.elsewhere.least < found.room.least && found.room.greatest < found.elsewhere.greatest);
        assert_eq!(found.room.least, Celsius::from_units(17_000));
        assert_eq!(found.reading_error, Celsius::from_units(500));
        assert_eq!((found.shortest_minutes, found.longest_minutes), (1, 2_880));
    }
}
