//! The pictograms of the Globally Harmonized System that the hazard table uses, drawn here: a black symbol on white within
//! a red diamond that stands on its corner.
//!
//! Shapes are paths in a square of 100 by 100. Source of what is in them: GHS Annex 1 and CLP Annex V describe each symbol
//! (flame; corrosion; skull and crossbones; exclamation mark; health hazard; environment).

/// One pictogram.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pictogram {
    /// Its code.
    pub code: &'static str,
    /// The name of its symbol.
    pub name: &'static str,
    /// The symbol: paths to be filled black by the even-odd rule.
    pub symbol: &'static str,
}

/// The diamond: its path, to be filled white and drawn red.
pub const DIAMOND: &str = "M50 3 L97 50 L50 97 L3 50 Z";

/// The width of the diamond's red edge.
pub const EDGE: &str = "5";

/// An open jar, beside which the period after opening stands (Article 19(1)(c) of Regulation (EC) No 1223/2009, symbol of
/// Annex VII, point 2): a round jar with its lid lifted on one side, in our own lines. Filled black by the even-odd rule.
pub const OPEN_JAR: &str = "M16 46 H84 V58 H16 Z M21 51 V53 H79 V51 Z M20 58 H80 V84 C80 91 75 95 68 95 H32 C25 95 20 91 20 84 Z M25 58 V84 C25 88 28 90 32 90 H68 C72 90 75 88 75 84 V58 Z M13 30 L78 6 L83 20 L18 44 Z M19 33 L21 38 L77 17 L75 12 Z";

const ALL: [Pictogram; 6] = [
    Pictogram {
        code: "GHS02",
        name: "Flame",
        symbol: "M51 18 C53 28 67 36 67 51 C67 62 60 69 50 69 C40 69 33 62 33 52 C33 44 38 40 39 31 C43 34 45 37 45 42 C50 36 52 27 51 18 Z M50 65 C55 65 58 61 58 57 C58 52 54 50 53 45 C50 49 42 51 42 58 C42 62 45 65 50 65 Z M34 73 H66 V78 H34 Z",
    },
    Pictogram {
        code: "GHS05",
        name: "Corrosion",
        symbol: "M21 33 L44 23 L46.5 29 L23.5 39 Z M53.5 29 L56 23 L79 33 L76.5 39 Z M45 33 L47.5 40 A3.2 3.2 0 1 1 42.5 40 Z M42 45 L44 51 A2.6 2.6 0 1 1 40 51 Z M55 33 L57.5 40 A3.2 3.2 0 1 1 52.5 40 Z M59 45 L61 51 A2.6 2.6 0 1 1 57 51 Z M24 58 H36 C37 63 43 63 44 58 H47 V66 H24 Z M53 66 V61 C57 58 59 61 61 58 C62 63 66 62 67 58 L76 62 C78 63 77 66 75 66 Z",
    },
    Pictogram {
        code: "GHS06",
        name: "Skull and crossbones",
        symbol: "M50 20 C63 20 70 28 70 38 C70 45 66 49 61 51 V58 H56 V54 H53 V58 H47 V54 H44 V58 H39 V51 C34 49 30 45 30 38 C30 28 37 20 50 20 Z M42 34 A5 5 0 1 0 42 44 A5 5 0 1 0 42 34 Z M58 34 A5 5 0 1 0 58 44 A5 5 0 1 0 58 34 Z M50 44 L47 50 H53 Z M28 58 L32 56 L50 66 L68 56 L72 58 L71 62 L55 69 L71 76 L72 80 L68 82 L50 72 L32 82 L28 80 L29 76 L45 69 L29 62 Z",
    },
    Pictogram {
        code: "GHS07",
        name: "Exclamation mark",
        symbol: "M43 21 H57 L54 58 H46 Z M50 63 A7 7 0 1 1 50 77 A7 7 0 1 1 50 63 Z",
    },
    Pictogram {
        code: "GHS08",
        name: "Health hazard",
        symbol: "M50 15 C56 15 59 20 58 26 C57 31 55 33 55 36 C65 38 70 42 71 49 L72 58 L61 72 L50 84 L39 72 L28 58 L29 49 C30 42 35 38 45 36 C45 33 43 31 42 26 C41 20 44 15 50 15 Z M50 43 L53 52 L62 47 L57 55.5 L67 58 L57 60.5 L62 69 L53 64 L50 74 L47 64 L38 69 L43 60.5 L33 58 L43 55.5 L38 47 L47 52 Z",
    },
    Pictogram {
        code: "GHS09",
        name: "Environment",
        symbol: "M36 22 L38 22 L39 32 L45 26 L46 27 L40 36 L41 44 L47 38 L48 39 L42 49 L43 62 H36 L37 48 L30 40 L31 39 L37 44 L37 36 L31 30 L32 29 L37 32 Z M20 62 H52 C56 66 60 68 66 69 L62 72 H22 Z M52 56 C57 49 66 49 72 55 L79 50 L78 60 L79 68 L72 63 C66 68 57 66 52 56 Z M58 55 A1.6 1.6 0 1 0 58 58.2 A1.6 1.6 0 1 0 58 55 Z",
    },
];

/// The pictogram of a code with or without its letters; `None` for those that the table does not use.
pub fn pictogram(code: &str) -> Option<Pictogram> {
    ALL.into_iter().find(|one| one.code == code || one.code.strip_prefix("GHS") == Some(code))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::hazards;

    #[test]
    fn pictograms_of_the_table_are_drawn() {
        for row in hazards() {
            for code in &row.pictograms {
                assert!(pictogram(code).is_some(), "{}: {code}", row.id);
            }
        }
        assert_eq!(pictogram("GHS07").map(|one| one.name), Some("Exclamation mark"));
        assert_eq!(pictogram("99"), None);
    }

    #[test]
    fn pictogram_paths_hold_only_what_a_path_may() {
        assert!(OPEN_JAR.chars().all(|c| c.is_ascii_digit() || " .MLCAHVZ".contains(c)));
        for one in ALL {
            assert!(one.symbol.starts_with('M') && one.symbol.ends_with('Z'), "{}", one.code);
            assert!(one.symbol.chars().all(|c| c.is_ascii_digit() || " .MLCAHVZ".contains(c)), "{}", one.code);
        }
    }
}
