//! `cargo task build`: Trunk compiles, then `dist/` is composed of what it leaves: a page that works from any folder of
//! any static host.

mod compose;
mod data_files;
mod digest;
mod inspect;
mod optimise;
mod precache;
mod site;
mod sizes;
mod split;

use crate::arguments::Arguments;
use crate::child::{self, Child};
use crate::failure::Done;
use crate::project::{Project, crate_sources};
use crate::say::say;
use crate::setup::{self, BuildTools};
use site::Site;
pub(crate) use sizes::FIRST_VISIT;

/// The worker that keeps the offline copy.
const WORKER: &str = "sw.js";
/// What wasm-bindgen names its output.
const PROGRAM: &str = "hundred-parts_bg.wasm";
/// The worker that takes a broken one out of service; published by hand only.
const WAY_OUT: &str = "sw-off.js";
const GLUE: &str = "hundred-parts.js";
/// What the splitter names the script that loads what it has split off.
const LINK: &str = "__wasm_split.js";

/// True for a file of the program that comes later than the first: one that the splitter has split off.
fn is_late(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap_or(path);
    name.ends_with(".wasm") && ["split_", "chunk_"].iter().any(|start| name.starts_with(start))
}

pub(crate) fn command(words: &[String]) -> Done {
    Arguments::new(words).finish()?;
    let project = Project::find()?;
    let tools = setup::for_build(&project)?;
    release(&project, &tools)
}

/// Builds `dist/`.
pub(crate) fn release(project: &Project, tools: &BuildTools) -> Done {
    say!("Build: the release. The first one takes about 5 minutes.");
    compile(project, tools)?;
    let mut site = Site::read(&project.staging())?;
    split::program(project, tools, &mut site)?;
    optimise::programs(project, tools.wasm_opt.as_ref(), &mut site)?;
    data_files::add(&mut site)?;
    let site = compose::compose(site)?;
    inspect::inspect(&site)?;
    site.write(&project.dist())?;
    sizes::weigh(project, tools.node.as_ref(), &site)
}

fn compile(project: &Project, tools: &BuildTools) -> Done {
    // Trunk is told to stay off the network, and tells cargo the same: so the crates come first.
    let mut fetch = child::cargo(project);
    fetch.args(["fetch", "--quiet", "--target", "wasm32-unknown-unknown"]);
    tools.compiler.apply(project, &mut fetch);
    Child::new("fetching the crates of the page", fetch).by_hand("cargo fetch").run()?;

    let mut trunk = child::tool(project, &tools.trunk.program);
    trunk.args(["build", "--release", "--offline", "--dist"]).arg(project.staging());
    let unnamed = unnamed_folders();
    let flags: Vec<&str> = split::FLAGS.into_iter().chain(unnamed.iter().map(String::as_str)).collect();
    tools.compiler.apply_with(project, &mut trunk, &flags);
    trunk.env("PATH", child::path_with(&tools.path()));
    // Trunk reads this as a yes or no of its own and stops at any other value that people give it.
    trunk.env_remove("NO_COLOR");
    // wasm-opt strips both files in the end; until then the splitter needs the names.
    trunk.env("CARGO_PROFILE_RELEASE_STRIP", "none");
    data_files::tell(&mut trunk);
    Child::new("compiling the page with Trunk", trunk).by_hand("trunk build --release").run()
}

/// What keeps the names of this machine's folders out of the program: the crates' sources lie under the home folder of
/// whoever builds it, and messages of faults name them.
fn unnamed_folders() -> Vec<String> {
    let sources = crate_sources().and_then(|sources| sources.read_dir().ok());
    let folders = sources.into_iter().flatten().filter_map(|entry| Some(entry.ok()?.path()));
    folders.map(|folder| format!("--remap-path-prefix={}=", folder.display())).collect()
}
