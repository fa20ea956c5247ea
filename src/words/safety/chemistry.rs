//! What is said of pH, and what undoes each other; a table a rule.

use super::Template;
use crate::rules::MessageId as Of;

pub(super) const NITROSAMINE: &[Template] = &[
    Template::new(
        Of::AminePurity,
        "{subject} is {value} of the product. Take only cosmetic purity (at least 99\u{202f}%, few secondary amines), and never put bronopol, bronidox or nitrite beside it.",
    ),
    Template::new(
        Of::NitrosaminePair,
        "{subject} ({value} of the product) and {partners} make nitrosamines together, which cause cancer. Take one of them out.",
    ),
];

pub(super) const PRODUCT_PH: &[Template] = &[
    Template::new(Of::NoPh, "No pH of the product is stated, so neither its preservative nor what it does to skin could be checked against it. Measure it, and enter the target."),
    Template::new(Of::LyeTooAlkaline, "The product has pH {value}; where lye adjusts it, it must stay below pH {limit}. Do not put it on skin. Lower the pH."),
    Template::new(Of::SoapNotCured, "The soap has pH {value}, above the pH {limit} that is usual. Let it cure, and measure again before it touches skin."),
    Template::new(Of::SoapTooMild, "The soap has pH {value}, below the pH {limit} from which soap stays soap. Measure again; if it is so, do not count on it as soap."),
    Template::new(Of::SoapPh, "The soap has pH {value}, within what is usual for soap (up to pH {limit})."),
    Template::new(Of::TooAcid, "The product has pH {value}, below the pH {limit} that skin takes well. Raise the pH, or write into your notes why it is right.").or_with("peeling", "The product has pH {value}, below the pH {limit} that skin takes well; {peeling} needs a low pH to peel. If that is meant, keep it at this pH, and off sore skin and the eyes; if not, raise the pH."),
    Template::new(Of::SkinPh, "The product has pH {value}, within what skin takes well (up to pH {limit})."),
    Template::new(Of::TooAlkaline, "The product has pH {value}, above the pH {limit} that skin takes well. Lower the pH, or write into your notes why it is right.").or_with("soaps", "The product has pH {value}, above the pH {limit} that skin takes well; its soap ({soaps}) falls apart in acid, so do not lower the pH. Keep it for skin that bears soap, or build it with another emulsifier."),
    Template::new(Of::UltramarineInAcid, "{subject} gives off a gas that smells of rotten eggs below pH {limit}; the product has pH {value}. Raise the pH, or take another colour."),
    Template::new(Of::NiacinamidePh, "{subject} breaks down into what makes skin flush away from pH 5 to 7, and the product has pH {value}. Set it to pH {limit}."),
];

pub(super) const PH_WINDOW: &[Template] = &[
    Template::new(
        Of::PhBelow,
        "{subject} keeps and works from pH {limit} on, and the product has pH {value}. Raise the pH, or exchange it.",
    ),
    Template::new(
        Of::PhAbove,
        "{subject} keeps and works up to pH {limit}, and the product has pH {value}. Lower the pH, or exchange it.",
    ),
];

pub(super) const CLASH: &[Template] = &[
    Template::new(
        Of::CationicWithAnionic,
        "{subject} ({value} of the product) carries a positive charge and {partners} a negative one: together they fall out and the emulsion breaks. Exchange one of them, such as the gum for hydroxyethylcellulose.",
    ),
    Template::new(
        Of::TurnsWithIron,
        "{subject} ({value} of the product) turns red or brown with {partners}. Exchange one of them.",
    ),
    Template::new(
        Of::ZincWithAcidPreservative,
        "{subject} ({value} of the product) raises the pH and takes the acid from {partners}, which then preserves nothing. Choose another preservative.",
    ),
    Template::new(
        Of::Fizzes,
        "{subject} ({value} of the product) and {partners} make gas together, which can burst a closed jar. Take one of them out.",
    ),
    Template::new(
        Of::SaltThinsCarbomer,
        "{subject} ({value} of the product) is thinned by what acts as salt: {partners}. Take less of that, or another thickener.",
    ),
    Template::new(
        Of::BindsPreservative,
        "{subject} is {value} of the product and takes {partners} to itself, which then no longer preserves the water. Take less of the solubiliser, or test the product.",
    ),
    Template::new(
        Of::SoapInAcid,
        "{subject} is soap and falls apart below pH {limit}; the product has pH {value}. Raise the pH, or take another emulsifier.",
    ),
];
