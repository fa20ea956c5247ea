//! Debian's compiler for wasm32, where rustup cannot reach its server.
//!
//! Debian packages a current compiler and the matching source of the standard library, but no wasm32 library. So one is
//! built from that source, once, into a sysroot in the target folder: nothing of Debian's own files is changed.

use std::fs;
use std::os::unix::fs::symlink;
use std::path::{Path, PathBuf};
use std::process::Command;

use super::wasm_std::{TRIPLE, has_std};
use super::{apt, begin};
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;

const PACKAGES: [&str; 4] = ["rustc-web", "cargo-web", "rust-web-src", "lld-22"];
const RUSTC: &str = "/usr/bin/rustc";
const CARGO: &str = "/usr/bin/cargo";
/// Debian's compiler carries no linker of its own for wasm.
const LINKER: &str = "wasm-ld-22";
const STEP: &str = "building the standard library of wasm32 from Debian's source";

/// Debian's compiler with a sysroot of ours.
pub(crate) struct DebianCompiler {
    home: PathBuf,
}

impl DebianCompiler {
    fn sysroot(&self) -> PathBuf {
        self.home.join("sysroot")
    }

    fn library(&self) -> PathBuf {
        self.sysroot().join("lib/rustlib").join(TRIPLE).join("lib")
    }

    /// Holds `cargo` and `rustc` and nothing else, so that putting it first in `PATH` hides no other tool.
    pub(crate) fn folder(&self) -> PathBuf {
        self.home.join("bin")
    }

    /// Cargo's target folder: two compilers in one rebuild each other's work for ever.
    pub(crate) fn target(project: &Project) -> PathBuf {
        project.target().join("wasm-debian")
    }

    pub(crate) fn apply(&self, project: &Project, command: &mut Command, further: &[&str]) {
        let sysroot = self.sysroot().display().to_string();
        let flags = ["--sysroot", &sysroot].iter().chain(further).copied().collect::<Vec<_>>().join("\u{1f}");
        command
            .env("RUSTC", RUSTC)
            .env("CARGO_ENCODED_RUSTFLAGS", flags)
            .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", LINKER)
            .env("CARGO_TARGET_DIR", Self::target(project));
    }
}

/// The compiler, if an earlier run has left it complete.
pub(crate) fn ready(project: &Project) -> Option<DebianCompiler> {
    let debian = DebianCompiler { home: home(project)? };
    has_std(&debian.library()).then_some(debian)
}

pub(crate) fn provide(project: &Project) -> Done<DebianCompiler> {
    apt::install(project, &PACKAGES, "a compiler for wasm32", "about 2 minutes")?;
    let home = home(project).ok_or_else(|| Failure::new(STEP, format!("{RUSTC} does not run")))?;
    let debian = DebianCompiler { home };
    if !has_std(&debian.library()) {
        begin("Building the standard library of wasm32 from Debian's source", "about a minute, once");
        build(project, &debian)?;
    }
    Ok(debian)
}

pub(crate) fn provide_clippy(project: &Project) -> Done {
    apt::install(project, &["rust-web-clippy"], "the lints of the page", "a few seconds")
}

/// A folder for each version of the compiler: an upgrade by apt makes the old library useless.
fn home(project: &Project) -> Option<PathBuf> {
    let mut rustc = Command::new(RUSTC);
    rustc.arg("--version");
    let version = child::ask(rustc)?;
    let number = version.split_whitespace().nth(1)?;
    Some(project.tools().join(format!("debian-rust-{number}")))
}

fn build(project: &Project, debian: &DebianCompiler) -> Done {
    let seed = debian.home.join("seed");
    plant(&seed).map_err(|error| Failure::new(STEP, error))?;
    let mut cargo = child::tool(project, CARGO);
    cargo
        .current_dir(&seed)
        .args(["build", "--release", "--target", TRIPLE, "-Z", "build-std=std,panic_abort,proc_macro,test"])
        .env("RUSTC", RUSTC)
        .env("RUSTC_BOOTSTRAP", "1")
        // Without the bitcode a later build with `lto = true` fails.
        .env("RUSTFLAGS", "-C embed-bitcode=yes")
        .env("CARGO_TARGET_DIR", seed.join("target"))
        .env_remove("CARGO_ENCODED_RUSTFLAGS");
    Child::new(STEP, cargo).by_hand("rustup target add wasm32-unknown-unknown, where rustup can").run()?;
    harvest(&seed, debian).map_err(|error| Failure::new(STEP, error))
}

/// An empty crate: all that cargo then compiles is the standard library.
fn plant(seed: &Path) -> std::io::Result<()> {
    fs::create_dir_all(seed.join("src"))?;
    // A workspace of its own, since it lies inside the folder of another package.
    let manifest = "[package]\nname = \"seed\"\nversion = \"0.0.0\"\nedition = \"2021\"\n\n[workspace]\n";
    fs::write(seed.join("Cargo.toml"), manifest)?;
    fs::write(seed.join("src/lib.rs"), "")
}

fn harvest(seed: &Path, debian: &DebianCompiler) -> std::io::Result<()> {
    let made = seed.join("target").join(TRIPLE).join("release/deps");
    // Filled under another name and renamed at the end, so that a half-filled library is never taken for a whole one.
    let library = debian.library();
    let filling = library.with_extension("filling");
    fs::create_dir_all(&filling)?;
    for entry in made.read_dir()? {
        let path = entry?.path();
        let Some(name) = path.file_name() else { continue };
        let text = name.to_string_lossy();
        if text.ends_with(".rlib") && !text.starts_with("libseed-") {
            fs::copy(&path, filling.join(name))?;
        }
    }
    // Macros and build scripts are compiled for the host, with Debian's own library.
    link_host_library(debian)?;
    fs::create_dir_all(debian.folder())?;
    for program in ["cargo", "rustc", "cargo-clippy", "clippy-driver"] {
        replace_link(&Path::new("/usr/bin").join(program), &debian.folder().join(program))?;
    }
    fs::rename(&filling, &library)?;
    fs::remove_dir_all(seed)
}

fn link_host_library(debian: &DebianCompiler) -> std::io::Result<()> {
    let rustlib = debian.sysroot().join("lib/rustlib");
    fs::create_dir_all(&rustlib)?;
    for entry in Path::new("/usr/lib/rustlib").read_dir()? {
        let entry = entry?;
        if entry.file_name() != TRIPLE {
            replace_link(&entry.path(), &rustlib.join(entry.file_name()))?;
        }
    }
    Ok(())
}

fn replace_link(to: &Path, link: &Path) -> std::io::Result<()> {
    if link.symlink_metadata().is_ok() {
        fs::remove_file(link)?;
    }
    symlink(to, link)
}
