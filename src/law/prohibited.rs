//! Reads an entry of Annex II: prohibited, or prohibited as far as its words go.

use super::condition::{Condition, Letters, Untold, What};
use super::scope::products;
use super::{AnnexEntry, Scope};

/// Words that take something out of a prohibition, or make it depend on something.
const LIMITS: [&str; 20] = [
    "except",
    "exempt",
    "unless",
    " if ",
    "when used",
    "provided",
    "other than",
    "excluding",
    "exclusion",
    "under the conditions",
    "apart from",
    "listed in",
    "listed under",
    "used as",
    "not including",
    "specified elsewhere",
    "contained in",
    "containing more",
    "in accordance",
    "regulated elsewhere",
];

/// The condition of the entry.
pub(super) fn read_prohibited(entry: &AnnexEntry) -> Condition {
    Condition { letters: Letters::ALL, what: what(&entry.chemical), words: entry.chemical.clone() }
}

fn what(name: &str) -> What {
    let plain = name.replace('\n', " ").to_lowercase();
    let dye = [
        "when used as a substance in hair dye products, including eyebrow dye products, and eyelash dye products",
        "when used as a substance in hair and eyelash dye products",
        "when used as a substance in hair dye products",
        "when used as a substance in hair dye product",
        "when used as substance in hair dye products",
    ];
    let plain = plain.trim_end_matches(['.', ' ']);
    if let Some(rest) = dye.iter().find_map(|words| plain.strip_suffix(words)) {
        let lashes = plain.contains("eyelash");
        let scope = if lashes { products("hair-dye|lash-dye") } else { products("hair-dye") };
        return if limited(rest) { What::Unread } else { What::Prohibited(scope) };
    }
    if let Some(rest) = plain.strip_suffix("when used as a fragrance ingredient") {
        return if limited(rest) { What::Unread } else { What::Confirm(Untold::Purpose) };
    }
    if limited(plain) { What::Unread } else { What::Prohibited(Scope::ALL) }
}

fn limited(name: &str) -> bool {
    let spaced = format!(" {name} ");
    LIMITS.iter().any(|words| spaced.contains(words))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Annex II/297, II/1286, II/424, II/464, II/10, II/450.
    #[test]
    fn prohibited_is_read_only_without_a_but() {
        for (name, expected) in [
            ("Trichloroacetic acid", What::Prohibited(Scope::ALL)),
            ("Methotrexate (INN) and its salts", What::Prohibited(Scope::ALL)),
            (
                "Selenium and its compounds with the exception of selenium disulphide under the conditions set out",
                What::Unread,
            ),
            ("Isobutane, if it contains = >0,1% w/w Butadiene", What::Unread),
            ("Benzyl cyanide, when used as a fragrance ingredient", What::Confirm(Untold::Purpose)),
            ("Verbena oils and derivatives other than absolute when used as a fragrance ingredient", What::Unread),
            (
                "2-Nitro-p-anisidine and its salts, when used as a substance in hair dye products",
                What::Prohibited(products("hair-dye")),
            ),
        ] {
            assert_eq!(what(name), expected, "{name}");
        }
    }
}
