//! The colours of the page: every pair that meets is told apart well enough, in both themes.
//!
//! Source: WCAG 2.2, success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (parts of controls and pictures, 3 : 1), and its
//! definitions of contrast ratio and relative luminance.

use std::collections::BTreeMap;

const TOKENS: &str = include_str!("../style/tokens.css");

type Theme = BTreeMap<String, [f64; 3]>;

/// The custom properties of light and dark.
fn themes() -> [(&'static str, Theme); 2] {
    let (light, dark) = TOKENS.split_once("prefers-color-scheme: dark").expect("a dark theme");
    [("light", read(light)), ("dark", read(dark))]
}

fn read(css: &str) -> Theme {
    let colour = |line: &str| {
        let (name, value) = line.trim().strip_prefix("--")?.split_once(": #")?;
        let hex = value.strip_suffix(';')?;
        let part = |n: usize| u8::from_str_radix(&hex[n * 2..n * 2 + 2], 16).ok().map(f64::from);
        Some((name.to_owned(), [part(0)?, part(1)?, part(2)?]))
    };
    css.lines().filter_map(colour).collect()
}

fn luminance(colour: [f64; 3]) -> f64 {
    let linear = |part: f64| {
        let part = part / 255.0;
        if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2])
}

fn contrast(a: [f64; 3], b: [f64; 3]) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// What stands on what: text first, then edges, hues and shapes.
const TEXT: &[(&str, &str)] = &[
    ("ink", "paper"),
    ("ink", "sheet"),
    ("soft", "paper"),
    ("soft", "sheet"),
    ("accent", "paper"),
    ("accent", "sheet"),
    ("on-accent", "accent"),
    ("paper", "ink"),
    ("stop", "paper"),
    ("stop", "sheet"),
    ("care", "sheet"),
    ("fine", "sheet"),
];
const SHAPES: &[(&str, &str)] = &[
    ("edge", "paper"),
    ("edge", "sheet"),
    ("water", "sheet"),
    ("oil", "sheet"),
    ("cool-down", "sheet"),
    ("other", "sheet"),
];

#[test]
fn contrast_of_the_standards_own_examples() {
    // Source: WCAG 2.2, note on contrast ratio: black on white is 21 : 1; #767676 on white is the lightest grey over 4.5.
    assert!((contrast([0.0; 3], [255.0; 3]) - 21.0).abs() < 1e-9);
    assert!(contrast([118.0; 3], [255.0; 3]) >= 4.5 && contrast([119.0; 3], [255.0; 3]) < 4.5);
}

#[test]
fn colours_that_meet_are_told_apart_in_both_themes() {
    for (name, theme) in themes() {
        for (pairs, least) in [(TEXT, 4.5), (SHAPES, 3.0)] {
            for (front, back) in pairs {
                let found = contrast(theme[*front], theme[*back]);
                assert!(found >= least, "{name}: {front} on {back} is {found:.2} : 1, at least {least} : 1 is needed");
            }
        }
    }
}

/// The figures of a net content are as high on the drawing of a label as law asks: the classes of `places.css`, in tenths
/// of a millimetre, follow the table of heights.
#[test]
fn figures_of_labels_have_the_size_that_their_height_asks() {
    use hundred_parts::facts::figure_height;
    use hundred_parts::paper::LabelLine;
    use hundred_parts::quantity::{Mass, Quantity};
    let css = include_str!("../style/places.css");
    for grams in ["50", "200", "1000", "1001"] {
        let figure = figure_height(Mass::from_canonical(grams).unwrap()).unwrap();
        let line = LabelLine { figure_um: Some(figure), ..LabelLine::plain(String::new()) };
        let class = format!(".figure-{} {{ font-size: ", figure / 1_000);
        let size = css.split_once(&class).and_then(|(_, rest)| rest.split_once("px")).expect(&class).0;
        let size: f64 = size.parse().unwrap();
        assert!((size * 100.0 - line.font_um(0).unwrap() as f64).abs() < 1.0, "{grams}: {size}");
    }
}

/// Main text is to be read through steam, at arm's length: more than the standard asks.
#[test]
fn main_text_has_twelve_to_one() {
    for (name, theme) in themes() {
        let found = contrast(theme["ink"], theme["paper"]);
        assert!(found >= 12.0, "{name}: {found:.2} : 1");
    }
}

/// What stands in the document before the program starts is what the program puts in its place.
#[test]
fn frame_in_the_document_names_every_place() {
    use hundred_parts::desk::Screen;
    use hundred_parts::words::page;
    let shell = include_str!("../index.html");
    let (_, bar) = shell.split_once("<nav class=\"places\"").expect("the bar of places");
    let (bar, _) = bar.split_once("</nav>").expect("its end");
    let there: Vec<&str> = bar.lines().map(str::trim).filter(|line| line.starts_with("<a ")).collect();
    let expected = Screen::ALL.map(|screen| {
        let address = screen.address();
        let name = page::screen(screen);
        format!("<a href=\"{address}\" data-place=\"{}\"><span>{name}</span></a>", address.trim_start_matches("#/"))
    });
    assert_eq!(there, expected);
}
