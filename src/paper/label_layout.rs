//! The layout of a label: what fits on it in legible letters, what goes onto a leaflet, and how large its letters can be.

use super::{LabelFormat, LabelLine, Labels};

/// Letters are made larger while there is room, up to this x-height in micrometres. A choice of ours.
const LARGE_LETTERS: i64 = 2_400;
/// By so much at a time.
const LETTER_STEP: i64 = 100;
/// Height of the row in which the jar is drawn, in tenths of its letters, and how many of them the jar takes the place of.
const JAR_TENTHS: i64 = 19;
const JAR_LETTERS: i64 = 4;
/// Length of the ruler beside the labels, in millimetres.
const RULER_MM: i64 = 50;

/// The texts of one label, before it is known which of them fit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelTexts {
    /// What must stand on the pack itself.
    pub on_pack: Vec<LabelLine>,
    /// What follows on the label where there is room, and else stands on a leaflet.
    pub or_leaflet: Vec<String>,
    /// What the label says instead of that where there is none.
    pub see_leaflet: String,
}

impl LabelTexts {
    /// A sheet of labels with letters of at least `least_um` (x-height, micrometres), and the paragraphs of the leaflet:
    /// none where all of it fits.
    pub fn lay_out(self, format: LabelFormat, least_um: i64) -> (Labels, Vec<String>) {
        let Self { on_pack: mut short, or_leaflet, see_leaflet } = self;
        let whole: Vec<LabelLine> =
            short.iter().cloned().chain(or_leaflet.iter().cloned().map(LabelLine::plain)).collect();
        let fits = |lines: &[LabelLine], letter_um: i64| fits(lines, format.label_um, letter_um * 2);
        let in_two = |lines: &[LabelLine], letter_um: i64| fits_in_two(lines, format.label_um, letter_um * 2);
        // Two sides are easier to read, and cost a little room.
        let two_sides = in_two(&whole, least_um);
        let all = two_sides || fits(&whole, least_um);
        let (lines, leaflet) = if all {
            (whole, Vec::new())
        } else {
            short.push(LabelLine::plain(see_leaflet));
            (short, or_leaflet)
        };
        let too_small = !all && !fits(&lines, least_um);
        let goes = |letter_um| if two_sides { in_two(&lines, letter_um) } else { fits(&lines, letter_um) };
        let mut letter_um = least_um;
        while !too_small && letter_um + LETTER_STEP <= LARGE_LETTERS && goes(letter_um + LETTER_STEP) {
            letter_um += LETTER_STEP;
        }
        (Labels { format, lines, two_sides, letter_um, too_small, ruler_mm: RULER_MM }, leaflet)
    }
}

/// Of the width of a label, so many hundredths are its front where it has two sides.
const FRONT: i64 = 38;

/// Whether the front and the rest fit beside each other on a label that is much wider than high.
fn fits_in_two(lines: &[LabelLine], (width, height): (i64, i64), font: i64) -> bool {
    let (front, rest): (Vec<_>, Vec<_>) = lines.iter().cloned().partition(|line| line.front);
    let side = |lines: &[LabelLine], share: i64| fits(lines, (width * share / 100, height), font);
    // A word of fifteen letters stands in one row of the front.
    let wide = width * 2 > height * 3 && width * FRONT / 100 - 4_000 >= font * 6 * 15 / 10;
    wide && !front.is_empty() && !rest.is_empty() && side(&front, FRONT) && side(&rest, 100 - FRONT)
}

/// Whether some paragraphs go onto a label in letters of a font, by a cautious estimate: a letter is six tenths as wide as
/// its font is large (bold: seven), a row six fifths as high, a paragraph ends with three tenths of a millimetre.
pub fn fits(lines: &[LabelLine], label_um: (i64, i64), font: i64) -> bool {
    // Two millimetres stay free at every edge.
    let (width, height) = (label_um.0 - 4_000, label_um.1 - 4_000);
    let needed = |line: &LabelLine| {
        let font = line.font_um(font).unwrap_or(font).max(1);
        let per_row = (width * 10 / (font * if line.strong { 7 } else { 6 })).max(1);
        let (jar_letters, jar_tenths) = if line.open_jar { (JAR_LETTERS, JAR_TENTHS - 12) } else { (0, 0) };
        let rows: i64 = line
            .text
            .split('\n')
            .map(|row| (row.chars().count() as i64 + jar_letters + per_row - 1).div_euclid(per_row).max(1))
            .sum();
        (rows * 12 + jar_tenths) * font / 10 + 300
    };
    lines.iter().map(needed).sum::<i64>() <= height
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paper::LABEL_FORMATS;

    fn texts(words: usize) -> LabelTexts {
        LabelTexts {
            on_pack: vec![LabelLine { strong: true, ..LabelLine::plain("Cream".to_owned()) }],
            or_leaflet: vec!["word ".repeat(words)],
            see_leaflet: "See the leaflet.".to_owned(),
        }
    }

    #[test]
    fn label_letters_grow_while_there_is_room_and_shrink_never_below_the_least() {
        let (few, leaflet) = texts(3).lay_out(LABEL_FORMATS[0], 1_200);
        assert_eq!((few.letter_um, few.lines.len(), leaflet.len()), (2_400, 2, 0));
        assert!(!few.two_sides, "nothing of it is the front");
        let (more, leaflet) = texts(90).lay_out(LABEL_FORMATS[0], 1_200);
        assert!((1_200..2_400).contains(&more.letter_um), "{}", more.letter_um);
        assert_eq!((more.lines.len(), leaflet.len()), (2, 0));
    }

    #[test]
    fn label_has_two_sides_where_both_have_room() {
        let with_front = |words: usize| {
            let mut texts = texts(words);
            texts.on_pack[0].front = true;
            texts
        };
        let wide = LABEL_FORMATS[0];
        assert!(wide.label_um.0 > wide.label_um.1 * 2);
        let (label, leaflet) = with_front(20).lay_out(wide, 1_200);
        assert_eq!((label.two_sides, leaflet.len()), (true, 0));
        assert!(label.letter_um > 1_200, "the letters of both sides grow: {}", label.letter_um);
        let (full, leaflet) = with_front(110).lay_out(wide, 1_200);
        assert!(!full.two_sides && leaflet.is_empty(), "one side where only that has the room");
        let square = LabelFormat { label_um: (50_000, 50_000), ..wide };
        assert!(!with_front(3).lay_out(square, 1_200).0.two_sides);
    }

    #[test]
    fn label_without_room_sends_what_may_go_to_the_leaflet() {
        let (label, leaflet) = texts(1_000).lay_out(LABEL_FORMATS[0], 1_200);
        let shown: Vec<&str> = label.lines.iter().map(|line| line.text.as_str()).collect();
        assert_eq!((shown, label.too_small), (vec!["Cream", "See the leaflet."], false));
        assert_eq!(leaflet, texts(1_000).or_leaflet);
    }

    #[test]
    fn label_too_small_for_what_must_stand_on_it_says_so_in_least_letters() {
        let on_pack = vec![LabelLine::plain("must ".repeat(1_000))];
        let (label, leaflet) = LabelTexts { on_pack, ..texts(3) }.lay_out(LABEL_FORMATS[0], 1_200);
        assert_eq!((label.too_small, label.letter_um, leaflet.len()), (true, 1_200, 1));
    }
}
