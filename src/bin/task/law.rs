//! `cargo task law`: the compact data of the law from the Commission's exports, and what changed since the last ones.

use std::path::Path;

use crate::arguments::Arguments;
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;
use hundred_parts::law::{self, Annex, AnnexCell, Export, Extent};

const ANNEXES: &str = "src/law/annexes";
const COMPACT: &str = "src/law/data/law.txt";
const KNOWN_TO: &str = "src/law/data/known-to.txt";

pub(crate) fn command(words: &[String]) -> Done {
    let mut words = Arguments::new(words);
    let from = words.value::<String>("--from")?;
    words.finish()?;
    let project = Project::find()?;
    let home = project.root().join(ANNEXES);
    let mut exports = read_all(&home)?;
    if let Some(folder) = from {
        let folder = Path::new(&folder);
        let next = read_all(folder)?;
        tell_differences(&exports, &next);
        for annex in Annex::ALL {
            let step = format!("copying {}", file_name(annex));
            std::fs::copy(folder.join(file_name(annex)), home.join(file_name(annex)))
                .map_err(|error| Failure::new(step, error))?;
        }
        exports = next;
    }
    tell_slips(&exports);
    let compact = law::pack(&exports).map_err(|problem| Failure::new("packing the law", problem))?;
    let path = project.root().join(COMPACT);
    let same = std::fs::read_to_string(&path).is_ok_and(|before| before == compact);
    if !same {
        std::fs::write(&path, &compact).map_err(|error| Failure::new(format!("writing {COMPACT}"), error))?;
    }
    if let Some(day) = exports.iter().map(|export| export.updated).min() {
        std::fs::write(project.root().join(KNOWN_TO), day.text())
            .map_err(|error| Failure::new(format!("writing {KNOWN_TO}"), error))?;
    }
    for export in &exports {
        say!(
            "{}: {} entries, kept to {}, file of {}",
            export.annex,
            export.entries.len(),
            export.updated,
            export.created
        );
        tell_extent(export);
    }
    say!("{COMPACT}: {} bytes{}", compact.len(), if same { ", as it was" } else { ", written" });
    Ok(())
}

fn file_name(annex: Annex) -> String {
    format!("annex_{}.csv", annex.numeral())
}

fn read_all(folder: &Path) -> Done<Vec<Export>> {
    Annex::ALL.into_iter().map(|annex| read(folder, annex)).collect()
}

fn read(folder: &Path, annex: Annex) -> Done<Export> {
    let path = folder.join(file_name(annex));
    let step = format!("reading {}", path.display());
    let failure = |cause: String| {
        Failure::new(step.clone(), cause).by_hand(format!("put the export of {annex} there as CSV, unchanged"))
    };
    let bytes = std::fs::read(&path).map_err(|error| failure(error.to_string()))?;
    let export = Export::read(&bytes).map_err(|problem| failure(problem.to_string()))?;
    if export.annex == annex { Ok(export) } else { Err(failure(format!("it holds {}", export.annex))) }
}

fn tell_differences(before: &[Export], now: &[Export]) {
    for (before, now) in before.iter().zip(now) {
        if now.updated < before.updated {
            say!("{}: the new file is the older one, kept to {} only", now.annex, now.updated);
        }
        let differences = law::differences(&before.entries, &now.entries);
        for difference in &differences {
            say!("{difference}");
        }
        say!("{}: {} entries differ\n", now.annex, differences.len());
    }
}

/// How much of the entries a program reads: what it does not read whole is shown to the maker and decides nothing.
fn tell_extent(export: &Export) {
    let of: Vec<Extent> = export.entries.iter().map(|entry| law::read(entry).extent()).collect();
    let count = |extent| of.iter().filter(|found| **found == extent).count();
    let (whole, part, none) = (count(Extent::Whole), count(Extent::Part), count(Extent::None));
    say!("  read by program: {whole} whole, {part} in part, {none} not at all");
}

/// What in the files cannot be right. It stays as it is: the law is not ours to correct.
fn tell_slips(exports: &[Export]) {
    for export in exports {
        for (at, entry) in export.entries.iter().enumerate() {
            for cell in [AnnexCell::Cas, AnnexCell::Ec] {
                for number in law::broken_numbers(entry.get(cell)) {
                    say!("slip: {}, {}: {number} fails its check digit", entry.title(), cell.name());
                }
            }
            for number in law::cas_numbers(&entry.ec) {
                say!("slip: {}: {number} is a CAS number among EC numbers", entry.title());
            }
            if export.entries.iter().take(at).any(|before| before.reference == entry.reference) {
                say!("slip: {} stands there twice", entry.title());
            }
        }
    }
}
