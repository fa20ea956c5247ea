//! The tables against the code, against outside numbers, and the list of messages.

use hundred_parts::facts::{
    PreservativeGroup, ShareClass, SubstanceClass, criteria, criterion, fold, in_class, limits, preservative,
    preservative_named, preservatives, share_in,
};
use hundred_parts::formula::Choice;
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::sheet::consists_of;
use hundred_parts::shelf::{HIGHEST_CAP, Ingredient, Shelf, may_be_capped};

/// Every figure and class of the tables is asked for somewhere; that what is asked for is in the tables the compiler sees.
#[test]
fn criteria_and_classes_are_asked_for() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut code = String::new();
    let mut folders =
        ["src/facts", "src/shelf", "src/rules", "src/sheet", "src/paper"].map(|room| root.join(room)).to_vec();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                code += &std::fs::read_to_string(path).unwrap_or_default();
            }
        }
    }
    let asked = |name: String| {
        code.split(&name).skip(1).any(|rest| !rest.starts_with(|c: char| c == '_' || c.is_alphanumeric()))
    };
    assert!(!asked("criteria::NO_SUCH_FIGURE".into()) && criteria::all().len() > 25 && SubstanceClass::ALL.len() > 25);
    for criterion in criteria::all() {
        assert!(asked(format!("criteria::{}", criterion.name)), "{} is asked for nowhere", criterion.key);
    }
    for class in SubstanceClass::ALL {
        assert!(asked(format!("SubstanceClass::{class:?}")), "{} is asked for nowhere", class.key());
    }
}

/// `src/rules/MESSAGES.md` holds every message as the page shows it; regenerate it with `MESSAGES=write cargo test --test
/// safety messages`.
#[test]
fn messages_table_is_in_step() {
    use hundred_parts::rules::MessageId;
    let mut table = String::from(
        "# Messages of the safety rules\n\nMade by a test from the sentences in `src/words/safety.rs`. What stands in \u{2039}angles\u{203a} comes from the formula.\n\n| Key | Sentence |\n|---|---|\n",
    );
    let word = |name: &str| match name {
        "subject" => "\u{2039}what\u{203a}".to_owned(),
        "value" | "limit" => format!("\u{2039}{name}\u{203a}"),
        "as_acid" => String::new(),
        _ => "\u{2039}more\u{203a}".to_owned(),
    };
    for said in MessageId::ALL {
        // Some have another sentence where there is nothing more to it.
        for sentence in hundred_parts::words::specimens(*said, &word) {
            assert!(sentence.ends_with('.'), "{sentence}");
            table += &format!("| {} | {sentence} |\n", said.key());
        }
    }
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rules/MESSAGES.md");
    if std::env::var_os("MESSAGES").is_some() {
        std::fs::write(&path, &table).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let differs = kept.lines().zip(table.lines()).find(|(old, new)| old != new);
    assert!(kept == table, "run with MESSAGES=write: {differs:?}");
    let mut keys: Vec<_> = MessageId::ALL.iter().map(|said| said.key()).collect();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), MessageId::ALL.len());
}

fn vectors(text: &str) -> Vec<Vec<String>> {
    let table = hundred_parts::facts::CsvTable::read(text);
    let header = table.header().to_vec();
    table.rows().map(|row| header.iter().map(|name| row.get(name).unwrap().to_owned()).collect()).collect()
}

/// Source: molar masses of the library molmass 2026.1.8, and Directive 76/211/EEC Annex I applied by a script of its own
/// (`tests/vectors/safety.py`).
#[test]
fn tables_agree_with_outside_numbers() {
    use hundred_parts::facts::{fold, limits, preservative, share_in};
    use hundred_parts::quantity::{Mass, Percent, Quantity};
    let percent = |units: Percent| units.units() as f64 / 1e6;
    let rows = vectors(include_str!("../vectors/safety.csv"));
    let mut values: Vec<&str> = rows.iter().map(|row| row[2].as_str()).collect();
    values.sort_unstable();
    values.dedup();
    assert!(values.len() >= 60, "distinct outside values: {}", values.len());
    for row in rows {
        let [kind, key, value] = row.as_slice() else { panic!("{row:?}") };
        let expected: f64 = value.parse().unwrap();
        let found = match kind.as_str() {
            "factor" => match preservative(key) {
                Some(row) => percent(row.counted),
                None => {
                    let name = fold(key);
                    let parts = limits().iter().flat_map(|limit| &limit.names).filter(|(known, _)| *known == name);
                    percent(parts.map(|(_, part)| *part).next().unwrap_or_else(|| panic!("{key}")))
                }
            },
            "releaser" => percent(share_in(ShareClass::Releaser, &fold(key)).unwrap().0),
            "tolerance" => {
                let nominal = Mass::from_canonical(key).unwrap();
                hundred_parts::sheet::bounds(nominal).unwrap().error.units() as f64 / 1e6
            }
            "few" | "none" => {
                let bounds = hundred_parts::sheet::bounds(Mass::from_canonical(key).unwrap()).unwrap();
                let bound = if kind == "few" { bounds.few } else { bounds.none };
                bound.units() as f64 / 1e6
            }
            other => panic!("{other}"),
        };
        // Releasers are carried to a tenth of a percent, factors to a hundredth.
        let tolerance = match kind.as_str() {
            "factor" => 0.01,
            "releaser" => 0.06,
            _ => 1e-9,
        };
        assert!((found - expected).abs() <= tolerance, "{kind} {key}: {found} against {expected}");
    }
}

/// Source: the statements of the Globally Harmonized System, revision 11, with those of the European Union, in a public
/// copy read in November 2026, twelve of them in several such copies that agree. Hazard statements are the same to the letter but for British spelling; of
/// precautionary ones, which leave a choice, nothing is added to the words of the list.
#[test]
fn statements_agree_with_the_published_list() {
    let words = |text: &str| -> Vec<String> {
        let plain = text.to_lowercase().replace("vapour", "vapor").replace("centre", "center");
        plain.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).map(str::to_owned).collect()
    };
    let rows = vectors(include_str!("../vectors/ghs-statements.csv"));
    assert_eq!(rows.len(), 68);
    for row in &rows {
        let code = if row[0] == "H361" { "H361d" } else { &row[0] };
        let ours = words(&hundred_parts::facts::statement(code).unwrap_or_else(|| panic!("{code}")));
        let theirs = words(&row[1]);
        if row[0].starts_with('P') || row[0] == "H361" {
            for word in &ours {
                assert!(theirs.contains(word) || ["or", "and"].contains(&word.as_str()), "{code}: {word}");
            }
        } else {
            assert_eq!(ours, theirs, "{code}");
        }
    }
    for hazard in hundred_parts::facts::hazards() {
        for code in hazard.statements.iter().chain(&hazard.precautions).flat_map(|code| code.split('+')) {
            let known = rows.iter().any(|row| row[0] == code || (code == "H361d" && row[0] == "H361"));
            assert!(known, "{}: {code} is not in the list", hazard.id);
        }
    }
}

/// What is wrong with a table of facts: a row without a source or a status, one that stands there twice, a percent that is
/// none from 0 to 100. `key` names the columns that tell rows apart, `percents` those that hold a percent.
fn faults(text: &str, key: &[&str], percents: &[&str]) -> Vec<String> {
    use hundred_parts::quantity::{Percent, Quantity};
    let table = hundred_parts::facts::CsvTable::read(text);
    let mut seen: Vec<String> = Vec::new();
    let mut faults = Vec::new();
    for row in table.rows() {
        let cell = |column: &str| row.get(column).unwrap_or_else(|problem| panic!("{problem}")).to_owned();
        let id = key.iter().map(|column| cell(column)).collect::<Vec<_>>().join(" / ");
        for column in ["sources", "seen"].into_iter().filter(|column| table.header().iter().any(|head| head == column))
        {
            // Of preservatives `seen` names what was read; where it is empty nothing was, and all of it is from memory.
            let may_be_empty = column == "seen" && table.header().iter().any(|head| head == "sum_with");
            if cell(column).trim().is_empty() && !may_be_empty {
                faults.push(format!("{id}: no {column}"));
            }
        }
        for column in percents {
            let text = cell(column);
            let value = Percent::from_canonical(&text).map(|percent| percent.units());
            if !text.is_empty() && !value.is_ok_and(|units| (0..=Percent::WHOLE.units()).contains(&units)) {
                faults.push(format!("{id}: {column} {text}"));
            }
        }
        if seen.contains(&id) {
            faults.push(format!("{id}: twice"));
        }
        seen.push(id);
    }
    faults
}

macro_rules! data {
    ($name:literal) => {
        ($name, include_str!(concat!("../../src/facts/data/", $name)))
    };
}

#[test]
fn data_files_have_no_row_without_a_source_out_of_range_or_twice() {
    type File = ((&'static str, &'static str), &'static [&'static str], &'static [&'static str]);
    let files: [File; 10] = [
        (data!("allergens.csv"), &["name"], &["leave_on", "rinse_off"]),
        (data!("preservatives.csv"), &["id"], &["leave_on", "rinse_off", "counted", "use_low", "use_high"]),
        (data!("limits.csv"), &["id"], &["percent"]),
        (data!("classes.csv"), &["class"], &[]),
        (data!("shares.csv"), &["class", "name"], &["percent"]),
        (data!("criteria.csv"), &["key"], &["value"]),
        (data!("hazards.csv"), &["id"], &[]),
        (data!("cautions.csv"), &["key"], &[]),
        (data!("us-names.csv"), &["inci"], &[]),
        (("substance-names.csv", include_str!("../../src/names/data/substance-names.csv")), &["name"], &[]),
    ];
    for ((name, text), key, percents) in files {
        assert!(text.lines().count() > 8, "{name}");
        assert_eq!(faults(text, key, percents), Vec::<String>::new(), "{name}");
        // Each kind of fault is found where it is planted.
        let (head, first) = (text.lines().next().unwrap(), text.lines().nth(1).unwrap());
        assert!(faults(&format!("{head}\n{first}\n{first}\n"), key, percents)[0].ends_with("twice"), "{name}");
        let plant = |column: &str, cell: &str| {
            let table = hundred_parts::facts::CsvTable::read(text);
            let row = table.rows().next().unwrap();
            let cells = table.header().iter().map(|head| if head == column { cell } else { row.get(head).unwrap() });
            let cells: Vec<String> = cells.map(|cell| format!("\"{cell}\"")).collect();
            faults(&format!("{head}\n{}\n", cells.join(",")), key, percents)
        };
        assert!(plant("sources", "")[0].ends_with("no sources"), "{name}");
        for column in percents {
            assert!(!plant(column, "100.000001").is_empty() && !plant(column, "-1").is_empty(), "{name} {column}");
        }
    }
}

/// The column `capped` of the table of ingredients, by which masses are rounded down, says yes exactly where a table of law
/// or advice names the ingredient or a substance in it: the two cannot drift apart.
#[test]
fn capped_column_agrees_with_the_tables_of_caps() {
    let shelf = Shelf::default();
    let listed = |name: &str| {
        let row = preservative_named(name);
        row.is_some_and(|row| matches!(row.group, PreservativeGroup::Listed | PreservativeGroup::Banned))
    };
    let named = |name: &str| {
        limits().iter().any(|limit| limit.names.iter().any(|(capped, _)| capped == name))
            || [SubstanceClass::Alcohol, SubstanceClass::Aha, SubstanceClass::TeaTree]
                .iter()
                .any(|class| in_class(*class, name).is_some())
            || ShareClass::ALL.iter().any(|class| share_in(*class, name).is_some())
            || listed(name)
    };
    // A blend of preservatives as sold, one of the list without a name for labels, and what a certificate caps.
    let as_such = |entry: &Ingredient| {
        let row = entry.links().preservative.and_then(preservative);
        row.is_some_and(|row| row.group != PreservativeGroup::Booster) || entry.has_function("Fragrance")
    };
    let mut wrong = Vec::new();
    let mut expected = Vec::new();
    for entry in shelf.iter() {
        let capped = as_such(&entry)
            || consists_of(&Choice::Known(entry.id().clone()), &shelf).iter().any(|part| named(&fold(&part.name)));
        if capped {
            expected.push(entry.id().to_string());
        }
        if may_be_capped(&entry, Percent::millionths(1)) != capped {
            wrong.push(entry.id().to_string());
        }
    }
    assert_eq!(wrong, Vec::<String>::new(), "yes belongs to {}", expected.join(" "));
}

/// Above this share a pure substance is not rounded down for the sake of a cap: so no cap may be higher.
#[test]
fn no_cap_is_higher_than_the_highest() {
    let of = |most: Percent, counted: Percent| Percent::from_units(most.units() * 100_000_000 / counted.units());
    for limit in limits() {
        for (name, counted) in &limit.names {
            assert!(limit.most.is_none_or(|most| of(most, *counted) <= HIGHEST_CAP), "{}: {name}", limit.id);
        }
    }
    for row in preservatives().iter().filter(|row| row.counted > Percent::ZERO) {
        for most in [row.leave_on, row.rinse_off].into_iter().flatten() {
            assert!(of(most, row.counted) <= HIGHEST_CAP, "{}", row.id);
        }
    }
    for key in [
        criteria::CHILD_ALCOHOL,
        criteria::FRAGRANCE_CARE,
        criteria::FRAGRANCE_SOAP,
        criteria::TEA_TREE_FACE,
        criteria::PARABEN_ALL,
    ] {
        assert!(criterion(key).value <= HIGHEST_CAP, "{key:?}");
    }
}
