//! Names of plants that German and Dutch write as one word with what is made of them: `Zitronenschalenöl`.

use super::plants::{PlantName, Plants};

/// What the end of a compound says.
#[derive(Clone, Copy)]
pub(super) struct Compound {
    end: &'static str,
    pub(super) product: &'static str,
    pub(super) part: Option<&'static str>,
}

const fn made(end: &'static str, product: &'static str) -> Compound {
    Compound { end, product, part: None }
}

const fn of(end: &'static str, product: &'static str, part: &'static str) -> Compound {
    Compound { end, product, part: Some(part) }
}

/// Ends of compounds.
const ENDS: [Compound; 44] = [
    of("fruchtfleischoel", "Oil", "Pulp"),
    of("kernoel", "Oil", "Kernel"),
    of("samenoel", "Oil", "Seed"),
    of("saatoel", "Oil", "Seed"),
    of("nussoel", "Oil", "Nut"),
    of("blatteroel", "Oil", "Leaf"),
    of("blattoel", "Oil", "Leaf"),
    of("blutenoel", "Oil", "Flower"),
    of("schalenoel", "Oil", "Peel"),
    of("wurzeloel", "Oil", "Root"),
    of("rindenoel", "Oil", "Bark"),
    of("keimoel", "Oil", "Germ"),
    of("kleieoel", "Oil", "Bran"),
    of("nadeloel", "Oil", "Needle"),
    of("holzoel", "Oil", "Wood"),
    of("fruchtoel", "Oil", "Fruit"),
    of("pitolie", "Oil", "Kernel"),
    of("zaadolie", "Oil", "Seed"),
    of("nootolie", "Oil", "Nut"),
    of("kiemolie", "Oil", "Germ"),
    of("kernfett", "Butter", "Kernel"),
    of("kernbutter", "Butter", "Kernel"),
    of("blutenwasser", "Water", "Flower"),
    of("blutenhydrolat", "Water", "Flower"),
    of("blutenextrakt", "Extract", "Flower"),
    of("blattextrakt", "Extract", "Leaf"),
    of("blatterextrakt", "Extract", "Leaf"),
    of("wurzelextrakt", "Extract", "Root"),
    of("samenextrakt", "Extract", "Seed"),
    of("rindenextrakt", "Extract", "Bark"),
    made("kernmehl", "Gum"),
    made("oel", "Oil"),
    made("olie", "Oil"),
    made("butter", "Butter"),
    made("boter", "Butter"),
    made("wachs", "Cera"),
    made("hydrolat", "Water"),
    made("wasser", "Water"),
    made("extrakt", "Extract"),
    made("absolue", "Absolute"),
    made("saft", "Juice"),
    made("starke", "Starch"),
    made("mehl", "Flour"),
    made("gummi", "Gum"),
];

/// The plants that a word names, and what it says is made of them.
pub(super) fn read<'a>(word: &str, plants: &'a Plants) -> Option<(&'a [PlantName], Compound)> {
    let found = ENDS.iter().filter_map(|compound| {
        let stem = word.strip_suffix(compound.end)?;
        // `Rosengeranienöl` of `Rosengeranie`, `Kamillenöl` of `Kamille`.
        let stems = [Some(stem), stem.strip_suffix('n'), stem.strip_suffix("en")];
        let names = stems.into_iter().flatten().find_map(|stem| plants.longest_at(&[stem], 0))?;
        Some((names.0, *compound))
    });
    // The longest name of a plant: orange blossoms, not oranges.
    found.min_by_key(|(_, compound)| compound.end.len())
}

/// The plant and the product of a compound as words of their own; any other word as it is.
pub(super) fn parted<'a>(word: &'a str, plants: &Plants) -> Vec<&'a str> {
    const SHORT: [(&str, &str); 3] = [("oel", "oel"), ("butter", "butter"), ("extrakt", "extrakt")];
    let short = SHORT.iter().find_map(|(end, product)| Some((word.strip_suffix(end)?, *product)));
    match short.filter(|(stem, _)| plants.longest_at(&[stem], 0).is_some()) {
        Some((stem, product)) => vec![stem, product],
        None => vec![word],
    }
}
