//! How large the page is: as it lies there, and as a host sends it.

use super::site::Site;
use crate::child;
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

/// Prints a row for each file and the total of a first visit, the offline copy included.
pub(super) fn print(project: &Project, node: Option<&Node>, site: &Site) {
    let sent: Vec<(&String, &Vec<u8>)> =
        site.files.iter().filter(|(path, _)| *path != "_headers" && *path != super::WAY_OUT).collect();
    let packed = node.and_then(|node| brotli(project, node, &sent));
    say!("\n{:>9} {:>9}  dist/", "bytes", "Brotli");
    for (index, (path, bytes)) in sent.iter().enumerate() {
        let small = packed.as_ref().map_or_else(|| "?".to_owned(), |sizes| sizes[index].to_string());
        say!("{:>9} {small:>9}  {path}", bytes.len());
    }
    let raw: usize = sent.iter().map(|(_, bytes)| bytes.len()).sum();
    let small = packed.map_or_else(|| "?".to_owned(), |sizes| sizes.iter().sum::<usize>().to_string());
    say!("{raw:>9} {small:>9}  in all: a first visit, with the offline copy\n");
}

fn brotli(project: &Project, node: &Node, sent: &[(&String, &Vec<u8>)]) -> Option<Vec<usize>> {
    let mut command = child::tool(project, &node.program);
    command.args(["-e", BROTLI, "--"]).args(sent.iter().map(|(path, _)| project.dist().join(path)));
    let sizes: Vec<usize> = child::ask(command)?.lines().filter_map(|line| line.parse().ok()).collect();
    (sizes.len() == sent.len()).then_some(sizes)
}
