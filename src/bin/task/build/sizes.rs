//! How large the page is, as it lies there and as a host sends it, and whether that is too much.

use super::site::Site;
use crate::child;
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;
use crate::setup::Node;

/// Node carries Brotli: no crate is needed for a figure.
const BROTLI: &str = "
const { brotliCompressSync, constants } = require('node:zlib');
const { readFileSync } = require('node:fs');
const params = { [constants.BROTLI_PARAM_QUALITY]: 11 };
for (const path of process.argv.slice(1)) console.log(brotliCompressSync(readFileSync(path), { params }).length);
";

/// What a first visit may take until the page can be used, in bytes as Brotli sends them: on a slow line of 1.6 Mbit/s
/// that is a second and a quarter. The build fails above it.
pub(crate) const FIRST_VISIT: usize = 250_000;

/// What the file of the law may take, in bytes as Brotli sends them: at 1.6 Mbit/s that is half a second.
const LAW_FILE: usize = 90_000;

/// Prints a row for each file, what a first visit takes until the page can be used, and the total with the offline copy.
///
/// # Errors
/// The first visit takes more than [`FIRST_VISIT`].
pub(super) fn weigh(project: &Project, node: Option<&Node>, site: &Site) -> Done {
    let sent: Vec<(&String, &Vec<u8>)> =
        site.files.iter().filter(|(path, _)| *path != "_headers" && *path != super::WAY_OUT).collect();
    let packed = node.and_then(|node| brotli(project, node, &sent));
    say!("\n{:>9} {:>9}  dist/", "bytes", "Brotli");
    for (index, (path, bytes)) in sent.iter().enumerate() {
        let small = packed.as_ref().map_or_else(|| "?".to_owned(), |sizes| sizes[index].to_string());
        say!("{:>9} {small:>9}  {path}", bytes.len());
    }
    let raw: usize = sent.iter().map(|(_, bytes)| bytes.len()).sum();
    let Some(packed) = packed else {
        say!(
            "{raw:>9} {:>9}  in all; without Node nobody knows what that is as Brotli, or whether it is too much\n",
            "?"
        );
        return Ok(());
    };
    let first: usize = sent.iter().zip(&packed).filter(|((path, _), _)| is_first(path)).map(|(_, size)| size).sum();
    say!("{:>9} {first:>9}  of that a first visit until the page can be used; at most {FIRST_VISIT}", "");
    say!("{raw:>9} {:>9}  in all: a first visit, with the offline copy\n", packed.iter().sum::<usize>());
    within_budget(first)?;
    let law = sent.iter().zip(&packed).find(|((path, _), _)| path.starts_with("assets/law-"));
    law_within_budget(law.map_or(0, |(_, size)| *size))
}

/// Style sheets that no first sight waits for: of what the second part shows, and of paper.
const STYLES_BEHIND: [&str; 3] = ["places", "print", "rooms"];

/// True for what a page asks for before it can be used: the shell, its scripts and styles, the first file of the program.
fn is_first(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap_or(path);
    let kinds = [".html", ".js", ".css", ".wasm"];
    if name.ends_with(".css") && STYLES_BEHIND.iter().any(|style| name.starts_with(style)) {
        return false;
    }
    kinds.iter().any(|kind| name.ends_with(kind)) && name != super::WORKER && !super::is_late(name)
}

fn law_within_budget(law: usize) -> Done {
    if law <= LAW_FILE {
        return Ok(());
    }
    Err(Failure::new("weighing dist/", format!("the law takes {law} bytes (Brotli), more than {LAW_FILE}"))
        .by_hand("look at its columns: src/law/pack.rs"))
}

fn within_budget(first: usize) -> Done {
    if first <= FIRST_VISIT {
        return Ok(());
    }
    let over = first - FIRST_VISIT;
    Err(Failure::new(
        "weighing dist/",
        format!("a first visit takes {first} bytes (Brotli) until the page can be used, {over} above the budget of {FIRST_VISIT}"),
    )
    .by_hand("look for what the first part calls of the second: DEVELOPERS.md, \"Three parts\""))
}

fn brotli(project: &Project, node: &Node, sent: &[(&String, &Vec<u8>)]) -> Option<Vec<usize>> {
    let mut command = child::tool(project, &node.program);
    command.args(["-e", BROTLI, "--"]).args(sent.iter().map(|(path, _)| project.dist().join(path)));
    let sizes: Vec<usize> = child::ask(command)?.lines().filter_map(|line| line.parse().ok()).collect();
    (sizes.len() == sent.len()).then_some(sizes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn first_visit_fits_up_to_its_budget_and_no_further() {
        assert!(within_budget(FIRST_VISIT).is_ok());
        let failure = within_budget(FIRST_VISIT + 1).unwrap_err();
        assert_eq!(
            failure.cause(),
            "a first visit takes 250001 bytes (Brotli) until the page can be used, 1 above the budget of 250000"
        );
    }

    #[test]
    fn law_file_has_a_budget_of_its_own() {
        assert!(law_within_budget(LAW_FILE).is_ok());
        assert!(law_within_budget(LAW_FILE + 1).is_err());
    }

    #[test]
    fn first_visit_is_all_but_the_lazy_file_icons_worker_and_data() {
        for path in [
            "index.html",
            "assets/boot-4c937559ffa6.js",
            "assets/parts-b5cec4105c2d.js",
            "assets/ledger-6795738a6215.css",
            "assets/hundred-parts_bg-33cb6b994401.wasm",
        ] {
            assert!(is_first(path), "{path}");
        }
        for path in [
            "assets/split_lazy-b067ab4d4e60.wasm",
            "assets/chunk_1-b067ab4d4e60.wasm",
            "assets/law-0123456789ab.txt",
            "assets/names-0123456789ab.txt",
            "sw.js",
            "assets/print-6795738a6215.css",
            "assets/places-6795738a6215.css",
            "assets/icon-192-69b2e36a20a6.png",
            "changes.json",
        ] {
            assert!(!is_first(path), "{path}");
        }
    }
}
