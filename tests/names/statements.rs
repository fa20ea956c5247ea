//! Names in suppliers' statements: which are fragrance allergens, which are other substances, and which nobody here knows.

use hundred_parts::quantity::Percent;
use hundred_parts::shelf::Contained;

fn told(name: &str, cas: Option<&str>) -> String {
    let item =
        Contained { name: name.to_owned(), cas: cas.map(str::to_owned), low: Percent::ZERO, high: Percent::WHOLE };
    match (item.allergen(), item.known()) {
        (Some(row), _) => row.name.to_owned(),
        (None, Some(name)) => format!("other {name}"),
        (None, None) => "?".to_owned(),
    }
}

// Sources: names and isomers as the annex lists them (Regulation (EC) 1223/2009 Annex III/70, 73, 86, 88, 90, 131, 133,
// 157, 329, 331 to 333, 338, 341, 343, 371); which spellings suppliers use is common practice, no source.
#[test]
fn statements_prefixes_spellings_and_numbers_are_read() {
    for (name, expected) in [
        ("d-Limonene", "Limonene"),
        ("D-LIMONENE", "Limonene"),
        ("(+)-Limonene", "Limonene"),
        ("(R)-(+)-Limonene", "Limonene"),
        ("(4R)-Limonene", "Limonene"),
        ("dl-Limonene", "Limonene"),
        ("Limonene, d-", "Limonene"),
        ("Limonenes", "Limonene"),
        ("Dipentene", "Limonene"),
        ("alpha-Pinene", "Pinene"),
        ("(-)-\u{3b2}-Pinene", "Pinene"),
        ("(1S,5S)-alpha-pinene", "Pinene"),
        ("Pinene (alpha)", "Pinene"),
        ("b-Pinene", "Pinene"),
        ("L-Menthol", "Menthol"),
        ("trans-Anethole", "Anethole"),
        ("(E)-Anethole", "Anethole"),
        ("p-Anethole", "Anethole"),
        ("L-Carvone", "Carvone"),
        ("D-Camphor", "Camphor"),
        ("alpha-Terpineol", "Terpineol"),
        ("\u{3b3}-Terpineol", "Terpineol"),
        ("Caryophyllene", "Beta-Caryophyllene"),
        ("(E)-\u{3b2}-Caryophyllene", "Beta-Caryophyllene"),
        ("\u{df}-Caryophyllene", "Beta-Caryophyllene"),
        ("Linalol", "Linalool"),
        ("(-)-Linalool", "Linalool"),
        ("Oakmoss extract", "Evernia Prunastri Extract"),
        ("Methyleugenol", "other Methyl Eugenol"),
        ("Methyl-eugenol", "other Methyl Eugenol"),
        ("p-Anisyl alcohol", "Anise Alcohol"),
        ("o-Hydroxybenzaldehyde", "Salicylaldehyde"),
        ("\u{3b1}-Isomethyl ionone", "Alpha-Isomethyl Ionone"),
        ("a-Isomethyl ionone", "Alpha-Isomethyl Ionone"),
        ("trans,trans-Farnesol", "Farnesol"),
        ("2E,6E-Farnesol", "Farnesol"),
        ("cis-Isoeugenol", "Isoeugenol"),
        ("Hydroxy-citronellal", "Hydroxycitronellal"),
        ("\u{3b1}-Hexylcinnamaldehyde", "Hexyl Cinnamal"),
        ("\u{3b4}-Damascone", "Rose Ketones"),
        ("Linalool** (from essential oils)", "Linalool"),
        ("Geraniol\u{b0}", "Geraniol"),
        ("Citronellol, natural constituent of essential oil", "Citronellol"),
        ("Citral (neral + geranial)", "Citral"),
        ("Citrus Aurantium (Bergamia) Peel Oil", "Citrus Aurantium Bergamia Peel Oil"),
        ("Citrus Aurantium Dulcis (Orange) Peel Oil", "Citrus Aurantium Peel Oil"),
        ("Eugenia Caryophyllus (Clove) Bud Oil", "Eugenia Caryophyllus Oil"),
        ("Pogostemon Cablin Leaf Oil", "Pogostemon Cablin Oil"),
        ("Mentha Piperita Leaf Oil", "Mentha Piperita Oil"),
        ("Cananga Odorata Oil", "Cananga Odorata Oil/Extract"),
        ("Turpentine Oil", "Turpentine"),
        ("Cymbopogon Citratus Oil", "Lemongrass Oil"),
    ] {
        assert_eq!(told(name, None), expected, "{name}");
    }
    assert_eq!(told("Anything", Some("5989-27-5")), "Limonene");
    assert_eq!(told("5989-27-5", Some("5989-27-5")), "Limonene");
    assert_eq!(told("Anything", Some("93-15-2")), "other Methyl Eugenol");
    assert_eq!(told("Heart note 7", Some("106-25-2")), "other Nerol");
    // The name says one thing and the number another.
    assert_eq!(told("Citrus terpenes", Some("106-25-2")), "?");
}

// Source: what Annex III does not list; near names are common practice, no source.
#[test]
fn statements_near_names_are_told_apart_and_nothing_is_guessed() {
    for name in [
        "gamma-Terpinene",
        "alpha-Humulene (alpha-caryophyllene)",
        "alpha-Caryophyllene",
        "alpha-Ionone",
        "Terpinen-4-ol",
        "Terpinyl acetate",
        "Linalool oxide",
        "Caryophyllene oxide",
        "Nerol",
        "Citronellal",
        "Dihydrolinalool",
        "Ethyl vanillin",
        "4-Methylbenzylidene Camphor",
        "Menthone",
        "Eucalyptol",
        "Camphene",
        "Triacetin",
        "Glycerin",
        "Petitgrain oil",
        "Citronella oil",
    ] {
        assert!(told(name, None).starts_with("other"), "{name}: {}", told(name, None));
    }
    for name in [
        "Limonen3",
        "Secret base",
        "Total",
        "Terpinene",
        "o-Anethole",
        "p-Hydroxybenzaldehyde",
        "",
        "d-",
        "Cedarwood oil",
    ] {
        assert_eq!(told(name, None), "?", "{name}");
    }
    // A mistyped number is no number.
    assert_eq!(told("Anything", Some("5989-27-6")), "?");
}
