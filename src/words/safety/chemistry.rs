//! What is said of pH, and what undoes each other; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const NITROSAMINE: &[Template] = &[
    Template::new(
        Of::AminePurity,
        "{subject} is {value} of the product. Use only cosmetic grade (at least 99\u{202f}%, few secondary amines), and never combine it with bronopol, bronidox or nitrite.",
    ),
    Template::new(
        Of::NitrosaminePair,
        "{subject} ({value} of the product) and {partners} together form nitrosamines, which cause cancer. Remove one of them.",
    ),
];

pub(super) const PRODUCT_PH: &[Template] = &[
    Template::new(Of::NoPh, "No pH is stated for the product, so its preservative and its effect on skin could not be checked. Measure it, and enter the target pH."),
    Template::new(Of::LyeTooAlkaline, "The product has pH {value}; a product adjusted with lye must stay below pH {limit}. Do not put it on skin. Lower the pH."),
    Template::new(Of::SoapNotCured, "The soap has pH {value}, above the usual pH {limit}. Let it cure, and measure again before it touches skin."),
    Template::new(Of::SoapTooMild, "The soap has pH {value}, below pH {limit}, where part of it is fatty acid again: it washes poorly and may spoil. Measure again with a fresh solution; if it is confirmed, do not rely on it as soap, and do not sell it as soap."),
    Template::new(Of::SoapPh, "The soap has pH {value}, within the usual range for soap (up to pH {limit})."),
    Template::new(Of::TooAcid, "The product has pH {value}, below the pH {limit} that skin tolerates well. Raise the pH, or record in your notes why it is right.").or_with("peeling", "The product has pH {value}, below the pH {limit} that skin tolerates well; {peeling} needs a low pH to exfoliate. If that is intended, keep it at this pH, and off sore skin and the eyes; if not, raise the pH."),
    Template::new(Of::SkinPh, "The product has pH {value}, within what skin tolerates well (up to pH {limit})."),
    Template::new(Of::TooAlkaline, "The product has pH {value}, above the pH {limit} that skin tolerates well. Lower the pH, or record in your notes why it is right.").or_with("soaps", "The product has pH {value}, above the pH {limit} that skin tolerates well; its soap ({soaps}) breaks down in acid, so do not lower the pH. Keep it for skin that tolerates soap, or use another emulsifier."),
    Template::new(Of::UltramarineInAcid, "{subject} gives off a gas that smells of rotten eggs below pH {limit}; the product has pH {value}. Raise the pH, or use another colourant."),
    Template::new(Of::NiacinamidePh, "Outside pH 5 to 7, {subject} breaks down into a substance that makes skin flush; the product has pH {value}. Set it to pH {limit}."),
];

pub(super) const PH_WINDOW: &[Template] = &[
    Template::new(
        Of::PhBelow,
        "{subject} is stable and works at pH {limit} or more; the product has pH {value}. Raise the pH, or replace it.",
    ),
    Template::new(
        Of::PhAbove,
        "{subject} is stable and works up to pH {limit}; the product has pH {value}. Lower the pH, or replace it.",
    ),
];

pub(super) const CLASH: &[Template] = &[
    Template::new(
        Of::CationicWithAnionic,
        "{subject} ({value} of the product) carries a positive charge and {partners} a negative one: together they precipitate and the emulsion breaks. Replace one of them.",
    )
    .or_with(
        "gums",
        "{subject} ({value} of the product) carries a positive charge and {partners} a negative one: together they precipitate and the emulsion breaks. Replace one of them, for example {gums} with hydroxyethylcellulose.",
    ),
    Template::new(
        Of::TurnsWithIron,
        "{subject} ({value} of the product) turns red or brown with {partners}. Replace one of them.",
    ),
    Template::new(
        Of::ZincWithAcidPreservative,
        "{subject} ({value} of the product) raises the pH and neutralises the acid in {partners}, which then preserves nothing. Choose another preservative.",
    ),
    Template::new(
        Of::Fizzes,
        "{subject} ({value} of the product) and {partners} give off gas together, which can burst a closed jar. Remove one of them.",
    ),
    Template::new(
        Of::SaltThinsCarbomer,
        "{subject} ({value} of the product) is thinned by ingredients that act as salts: {partners}. Use less of those, or use another thickener.",
    ),
    Template::new(
        Of::BindsPreservative,
        "{subject} is {value} of the product and binds part of {partners}; that part no longer preserves the water. Use less of the solubiliser, or test the product.",
    ),
    Template::new(
        Of::SoapInAcid,
        "{subject} is a soap and breaks down below pH {limit}; the product has pH {value}. Raise the pH, or use another emulsifier.",
    ),
];
