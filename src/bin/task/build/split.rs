//! The program in several files: what the first place needs, and what may come later.
//!
//! Trunk leaves the program in one piece. The splitter needs what the linker wrote, before wasm-bindgen: so it takes the
//! file that cargo left, and wasm-bindgen runs once more, over the first of them.

use std::fs;
use std::path::Path;

use super::site::Site;
use super::{GLUE, LINK, PROGRAM, is_late};
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::setup::{BuildTools, TRIPLE};

/// What the compiler is told besides: to compile the entry of `src/ui/lazy/entry.rs`, and to keep what the splitter reads.
pub(super) const FLAGS: [&str; 3] = ["--cfg", "split", "-Clink-arg=--emit-relocs"];

const NAME: &str = "hundred-parts";

/// Puts the files, and the scripts that load them, in the place of the one.
pub(super) fn program(project: &Project, tools: &BuildTools, site: &mut Site) -> Done {
    let linked = tools.compiler.target(project).join(TRIPLE).join("release").join(format!("{NAME}.wasm"));
    let work = project.tools().join("split");
    let step = "parting the program";
    match fs::remove_dir_all(&work) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(Failure::new(step, error)),
        _ => {}
    }
    let mut splitter = child::tool(project, &tools.splitter.program);
    splitter.args(["--target", "web", "--out-name", NAME]).args([&linked, &work]);
    Child::new(step, splitter).run()?;

    let bound = work.join("bound");
    let mut bindgen = child::tool(project, tools.bindgen.program());
    bindgen
        .args(["--target", "web", "--no-typescript", "--keep-lld-exports", "--split-linked-modules"])
        .args(["--out-name", NAME, "--out-dir"])
        .args([&bound, &work.join(format!("{NAME}.wasm"))]);
    Child::new("binding the program to the browser", bindgen).run()?;

    for (folder, name) in [(&bound, PROGRAM), (&bound, GLUE), (&work, LINK)] {
        site.files.insert(name.to_owned(), read(&folder.join(name))?);
    }
    let late = names_in(&work).map_err(|error| Failure::new(step, error))?;
    for name in late.into_iter().filter(|name| is_late(name)) {
        let bytes = read(&work.join(&name))?;
        site.files.insert(name, bytes);
    }
    Ok(())
}

fn names_in(folder: &Path) -> std::io::Result<Vec<String>> {
    folder.read_dir()?.map(|entry| Ok(entry?.file_name().to_string_lossy().into_owned())).collect()
}

fn read(path: &Path) -> Done<Vec<u8>> {
    fs::read(path).map_err(|error| Failure::new(format!("reading {}", path.display()), error))
}
