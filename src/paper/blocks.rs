//! What a printed page is made of, without markup, colours or fonts. The page and the command line each draw it their way.

use super::Pictogram;

/// One part of a page, in reading order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Block {
    /// A heading; 1 is a section.
    Heading(u8, String),
    /// A paragraph.
    Text(String),
    /// A list.
    List(Vec<String>),
    /// A list of short lines, in two columns where there is room. A paper that has one is set small, to keep to a page.
    Columns(Vec<String>),
    /// A table; its head repeats on every page, no row is split.
    Table(Table),
    /// A frame around what must not be overlooked; never split over pages.
    Frame(Vec<Block>),
    /// Pictograms of the hazard standard, in a row.
    Pictograms(Vec<Pictogram>),
    /// The headings of level 1 with their numbers.
    Contents(Vec<String>),
    /// What follows begins on a new page.
    NewPage,
    /// Labels at true size.
    Labels(Labels),
}

/// A table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Table {
    /// Column heads.
    pub head: Vec<String>,
    /// Which columns hold numbers, to be aligned on the decimal sign.
    pub numbers: Vec<usize>,
    /// Which columns hold numbers of registries: one a line, never broken at a hyphen.
    pub codes: Vec<usize>,
    /// Rows of cells.
    pub rows: Vec<Vec<String>>,
}

/// One sheet of labels, all alike, with a ruler to check its size by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Labels {
    /// The sheet.
    pub format: LabelFormat,
    /// The lines of one label.
    pub lines: Vec<LabelLine>,
    /// True where what is looked for first stands at the left, and the list and the warnings beside it.
    pub two_sides: bool,
    /// Height of small letters (x-height), in micrometres: the least that is legible, or more if there is room.
    pub letter_um: i64,
    /// True if not even what must stand on the pack itself fits: a larger sheet is needed.
    pub too_small: bool,
    /// Length of the ruler that is printed beside, in millimetres.
    pub ruler_mm: i64,
}

/// One paragraph of a label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelLine {
    /// What it says.
    pub text: String,
    /// The product's name.
    pub strong: bool,
    /// The least height of its figures, in micrometres, where law gives one.
    pub figure_um: Option<i64>,
    /// An open jar is drawn before it: it is the period after opening.
    pub open_jar: bool,
    /// It stands on the front: what it is, what for, how much, until when.
    pub front: bool,
}

/// A sheet of labels, in micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LabelFormat {
    /// Its name in commands. Never changes.
    pub key: &'static str,
    /// Page width and height.
    pub page_um: (i64, i64),
    /// Label width and height.
    pub label_um: (i64, i64),
    /// Columns and rows.
    pub grid: (i64, i64),
    /// Left and top margin of the page.
    pub margin_um: (i64, i64),
    /// Distance from the left edge of one label to that of the next, and the same from top to top.
    pub pitch_um: (i64, i64),
}

impl Labels {
    /// Size of the letters, in micrometres: an x-height of so much asks for about twice that as the size of the font.
    pub const fn font_um(&self) -> i64 {
        self.letter_um * 2
    }

    /// How long the ruler is, as it stands beside it.
    pub fn ruler_text(&self) -> String {
        format!("{}\u{202f}mm", self.ruler_mm)
    }

    /// Left end and foot of that text, in micrometres.
    pub const fn ruler_text_um(&self) -> (i64, i64) {
        let (x, y) = self.format.ruler_um();
        (x + self.ruler_mm * 1_000 + 2_000, y + 4_000)
    }

    /// The ruler as a path in millimetres: a line of the whole length with a mark at every centimetre.
    pub fn ruler(&self) -> String {
        let marks: String = (0..=self.ruler_mm / 10).map(|n| format!("M{} 0V4", n * 10)).collect();
        format!("M0 4H{}{marks}", self.ruler_mm)
    }
}

impl LabelLine {
    /// One in the letters of the label.
    pub const fn plain(text: String) -> Self {
        Self { text, strong: false, figure_um: None, open_jar: false, front: false }
    }

    /// Size of its letters on a label whose letters are `font` large, if it has one of its own. Figures are about three
    /// quarters as high as their font is large.
    pub fn font_um(&self, font: i64) -> Option<i64> {
        self.figure_um.map(|figure| (figure * 4 / 3).max(font)).or(self.strong.then_some(font * 5 / 4))
    }
}

impl LabelFormat {
    /// Left and top of every label, in micrometres, row by row.
    pub fn places(&self) -> Vec<(i64, i64)> {
        let place = |n: i64| {
            let (column, row) = (n % self.grid.0, n / self.grid.0);
            (self.margin_um.0 + column * self.pitch_um.0, self.margin_um.1 + row * self.pitch_um.1)
        };
        (0..self.grid.0 * self.grid.1).map(place).collect()
    }

    /// Left and top of the ruler, in micrometres: at the foot of the page.
    pub const fn ruler_um(&self) -> (i64, i64) {
        (self.margin_um.0, self.page_um.1 - 10_000)
    }
}

const A4: (i64, i64) = (210_000, 297_000);
const LETTER: (i64, i64) = (215_900, 279_400);

const fn sheet(
    key: &'static str,
    page_um: (i64, i64),
    grid: (i64, i64),
    label_um: (i64, i64),
    margin_um: (i64, i64),
    pitch_um: (i64, i64),
) -> LabelFormat {
    LabelFormat { key, page_um, label_um, grid, margin_um, pitch_um }
}

/// Sheets that stationers sell, and one large label. Common practice, no source: measure yours.
pub const LABEL_FORMATS: [LabelFormat; 6] = [
    sheet("a4-2x7", A4, (2, 7), (99_100, 38_100), (4_650, 15_150), (101_600, 38_100)),
    sheet("a4-3x7", A4, (3, 7), (63_500, 38_100), (7_200, 15_150), (66_000, 38_100)),
    sheet("a4-2x4", A4, (2, 4), (99_100, 67_700), (4_650, 13_100), (101_600, 67_700)),
    sheet("letter-2x5", LETTER, (2, 5), (101_600, 50_800), (4_000, 12_700), (106_300, 50_800)),
    sheet("a4-one", A4, (1, 1), (180_000, 120_000), (15_000, 15_000), (180_000, 120_000)),
    sheet("letter-one", LETTER, (1, 1), (180_000, 120_000), (17_950, 15_000), (180_000, 120_000)),
];

/// A whole paper.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Paper {
    /// Its title.
    pub title: String,
    /// At the foot of every page.
    pub foot: String,
    /// Its parts.
    pub parts: Vec<Block>,
}

impl Paper {
    /// True if it is set small.
    pub fn dense(&self) -> bool {
        self.parts.iter().any(|part| matches!(part, Block::Columns(_)))
    }

    /// All text in reading order, for tests and for searching.
    pub fn text(&self) -> String {
        let mut text = format!("{}\n", self.title);
        push(&self.parts, &mut text);
        text.push_str(&self.foot);
        text
    }
}

fn push(parts: &[Block], text: &mut String) {
    for part in parts {
        match part {
            Block::Heading(_, line) | Block::Text(line) => push_line(line, text),
            Block::List(lines) | Block::Columns(lines) | Block::Contents(lines) => {
                lines.iter().for_each(|line| push_line(line, text))
            }
            Block::Table(table) => {
                push_line(&table.head.join(" | "), text);
                table.rows.iter().for_each(|row| push_line(&row.join(" | "), text));
            }
            Block::Frame(parts) => push(parts, text),
            Block::Labels(labels) => labels.lines.iter().for_each(|line| push_line(&line.text, text)),
            Block::Pictograms(_) | Block::NewPage => {}
        }
    }
}

fn push_line(line: &str, text: &mut String) {
    text.push_str(line);
    text.push('\n');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn label_formats_fit_on_their_page() {
        for format in LABEL_FORMATS {
            let places = format.places();
            assert_eq!(places.len() as i64, format.grid.0 * format.grid.1, "{}", format.key);
            for (left, top) in places {
                let (right, bottom) = (left + format.label_um.0, top + format.label_um.1);
                assert!(right <= format.page_um.0 && bottom <= format.page_um.1, "{}", format.key);
            }
            assert!(format.pitch_um.0 >= format.label_um.0 && format.pitch_um.1 >= format.label_um.1, "{}", format.key);
        }
    }

    // Worked by hand from the sheet of two columns: 4.65 mm margin, 101.6 mm from label to label; 15.15 mm and 38.1 mm.
    #[test]
    fn label_places_go_row_by_row() {
        let places = LABEL_FORMATS[0].places();
        assert_eq!(places[..3], [(4_650, 15_150), (106_250, 15_150), (4_650, 53_250)]);
        assert_eq!(LABEL_FORMATS[0].ruler_um(), (4_650, 287_000));
    }

    #[test]
    fn label_fonts_are_as_large_as_law_and_legibility_ask() {
        let line = |strong, figure_um| LabelLine { strong, figure_um, ..LabelLine::plain(String::new()) };
        let labels = Labels {
            format: LABEL_FORMATS[0],
            lines: Vec::new(),
            two_sides: false,
            letter_um: 1_200,
            too_small: false,
            ruler_mm: 20,
        };
        assert_eq!((labels.font_um(), labels.ruler().as_str()), (2_400, "M0 4H20M0 0V4M10 0V4M20 0V4"));
        assert_eq!(line(false, None).font_um(2_400), None);
        assert_eq!(line(true, None).font_um(2_400), Some(3_000));
        assert_eq!(line(false, Some(3_000)).font_um(2_400), Some(4_000));
        assert_eq!(line(false, Some(1_000)).font_um(2_400), Some(2_400));
    }
}
