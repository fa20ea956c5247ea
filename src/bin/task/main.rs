//! The developers' and the host's door: `cargo task …`.

#![deny(clippy::print_stdout, clippy::print_stderr, reason = "say.rs prints: who reads may stop reading")]

// The wasm32 builds of all targets pass here too; the tools exist on the host alone.
#[cfg(not(target_arch = "wasm32"))]
mod arguments;
#[cfg(not(target_arch = "wasm32"))]
mod bench;
#[cfg(not(target_arch = "wasm32"))]
mod build;
#[cfg(not(target_arch = "wasm32"))]
mod child;
#[cfg(not(target_arch = "wasm32"))]
mod failure;
#[cfg(not(target_arch = "wasm32"))]
mod help;
#[cfg(not(target_arch = "wasm32"))]
mod law;
#[cfg(not(target_arch = "wasm32"))]
mod names;
#[cfg(not(target_arch = "wasm32"))]
mod papers;
#[cfg(not(target_arch = "wasm32"))]
mod project;
#[cfg(not(target_arch = "wasm32"))]
mod say;
#[cfg(not(target_arch = "wasm32"))]
mod serve;
#[cfg(not(target_arch = "wasm32"))]
mod setup;
#[cfg(not(target_arch = "wasm32"))]
mod sheet;
#[cfg(not(target_arch = "wasm32"))]
mod soak;
#[cfg(not(target_arch = "wasm32"))]
mod test;

#[cfg(not(target_arch = "wasm32"))]
use say::complain;

#[cfg(not(target_arch = "wasm32"))]
fn main() -> std::process::ExitCode {
    let mut words = std::env::args().skip(1);
    let command = words.next();
    let rest: Vec<String> = words.collect();
    let outcome = match command.as_deref() {
        Some("help" | "--help" | "-h") => help::show(),
        Some("setup") => setup::command(&rest),
        Some("build") => build::command(&rest),
        Some("serve") => serve::command(&rest),
        // Their output and exit status are read by other programs.
        Some("test") => return test::command(&rest),
        Some("sheet") => return sheet::command(&rest),
        Some("names") => return names::command(&rest),
        Some("bench") => bench::command(&rest),
        Some("law") => law::command(&rest),
        Some("papers") => papers::command(&rest),
        Some("soak") => soak::command(&rest),
        other => {
            help::complain(other);
            return std::process::ExitCode::from(2);
        }
    };
    match outcome {
        Ok(()) => std::process::ExitCode::SUCCESS,
        Err(failure) => {
            complain!("\n{failure}");
            std::process::ExitCode::from(failure.status())
        }
    }
}

#[cfg(target_arch = "wasm32")]
fn main() {}
