//! Reading the table of plants, a few rows at a time.

use super::{Plant, PlantName, Plants, Product, TABLE};
use crate::facts::{CsvRow, InPieces};
use crate::names::key::words;
use crate::names::plain::plain;
use crate::quantity::sort_by;

/// Rows in one piece.
const PIECE: usize = 40;

impl InPieces for Plants {
    fn begin() -> Self {
        Self { plants: Vec::new(), names: Vec::new(), longest: 1, rows: TABLE.rows().collect(), is_sorted: false }
    }

    fn build(&mut self) -> bool {
        if self.is_sorted {
            return false;
        }
        if self.rows.is_empty() {
            sort_by(&mut self.names, |a, b| (&a.key, a.plant).cmp(&(&b.key, b.plant)));
            self.is_sorted = true;
        }
        let some: Vec<_> = self.rows.drain(..PIECE.min(self.rows.len())).collect();
        some.into_iter().for_each(|row| self.add(row));
        true
    }
}

impl Plants {
    fn add(&mut self, row: CsvRow<'static>) {
        let (Ok(latin), Ok(also), Ok(common), Ok(products)) =
            (row.get("latin"), row.get("also"), row.get("common"), row.get("products"))
        else {
            return;
        };
        let plant = self.plants.len();
        for name in core::iter::once(latin).chain(also.split("; ")).filter(|name| !name.is_empty()) {
            self.name(name, plant, true);
        }
        for name in common.split("; ").filter(|name| !name.is_empty()) {
            self.name(name, plant, false);
        }
        let products = products.split("; ").filter_map(Product::read).collect();
        self.plants.push(Plant { latin, products });
    }

    fn name(&mut self, name: &str, plant: usize, latin: bool) {
        let plain = plain(name);
        self.longest = self.longest.max(words(&plain).count());
        self.names.push(PlantName { key: words(&plain).collect(), plant, latin });
    }
}
