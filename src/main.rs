//! The page. On the host this is a stub: `cargo task serve` builds and serves the real one.

#[cfg(target_arch = "wasm32")]
mod ui;

#[cfg(target_arch = "wasm32")]
fn main() {
    ui::start();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("This is a page for the browser: run `cargo task serve`.");
}
