//! wasm-opt over the files of the program, once for each that it has not seen yet.

use std::fs;

use super::digest;
use super::site::Site;
use crate::child::Child;
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;
use crate::setup::WasmOpt;

/// How many earlier outcomes are worth their place.
const KEPT: usize = 16;

/// Replaces the files of the program by smaller ones, where there is a wasm-opt.
pub(super) fn programs(project: &Project, wasm_opt: Option<&WasmOpt>, site: &mut Site) -> Done {
    let Some(wasm_opt) = wasm_opt else { return Ok(()) };
    let programs: Vec<String> = site.files.keys().filter(|path| path.ends_with(".wasm")).cloned().collect();
    programs.iter().try_for_each(|name| one(project, wasm_opt, site, name))
}

fn one(project: &Project, wasm_opt: &WasmOpt, site: &mut Site, name: &str) -> Done {
    let step = "making the program smaller with wasm-opt";
    let bytes = site.take(name)?;
    let folder = project.tools().join("optimised");
    fs::create_dir_all(&folder).map_err(|error| Failure::new(step, error))?;
    let key = digest::sha256(&[&bytes, wasm_opt.fingerprint().as_bytes()].concat());
    let small = folder.join(format!("{key}.wasm"));
    if !small.is_file() {
        say!("  wasm-opt makes {name} smaller (about half a minute) …");
        tidy(&folder).map_err(|error| Failure::new(step, error))?;
        let from = folder.join("given.tmp");
        fs::write(&from, &bytes).map_err(|error| Failure::new(step, error))?;
        let work = folder.join("work.tmp");
        Child::new(step, wasm_opt.command(project, &from, &work)).run()?;
        fs::rename(&work, &small).map_err(|error| Failure::new(step, error))?;
    }
    let smaller = fs::read(&small).map_err(|error| Failure::new(step, error))?;
    site.files.insert(name.to_owned(), smaller);
    Ok(())
}

fn tidy(folder: &std::path::Path) -> std::io::Result<()> {
    let mut old = Vec::new();
    for entry in folder.read_dir()? {
        let entry = entry?;
        old.push((entry.metadata()?.modified()?, entry.path()));
    }
    old.sort();
    let surplus = old.len().saturating_sub(KEPT - 1);
    old.iter().take(surplus).try_for_each(|(_, path)| fs::remove_file(path))
}
