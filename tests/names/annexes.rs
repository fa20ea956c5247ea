//! Each entry of the annexes finds itself by every name and number that it lists.

use hundred_parts::law::AnnexEntry;
use hundred_parts::names::recognise;

use crate::annex_table::entries;

/// What the files print that is no name or number: the check digit of this number is wrong.
const EXCEPTIONS: [(&str, &str); 1] = [("III/250", "9556-89-9")];

#[test]
fn entries_find_themselves_by_every_name_and_number() {
    let (mut found, mut asked, mut missing) = (0, 0, Vec::new());
    for entry in entries() {
        for listed in entry.names.iter().chain(&entry.common).chain(&entry.cas) {
            asked += 1;
            let reading = recognise(listed, None);
            let named = |found: &&AnnexEntry| format!("{}/{}", found.annex.numeral(), found.reference) == entry.entry;
            if reading.entries.iter().any(named) {
                found += 1;
            } else if !EXCEPTIONS.contains(&(entry.entry.as_str(), listed.as_str())) {
                missing.push(format!("{}: {listed}", entry.entry));
            }
        }
    }
    println!("{found} of {asked} names and numbers of the annexes find their entry");
    assert!(asked > 5000 && missing.is_empty(), "{} missing:\n{}", missing.len(), missing.join("\n"));
}
