//! Fetches the data files: the law and the names by which it is looked up. They come after all else, since a maker can work
//! without them; until they are here nothing is checked, and the card says so.

use crate::ui::browser;
use crate::ui::desk::Desk;
use hundred_parts::compliance::is_ready;
use hundred_parts::facts::DataFile;
use hundred_parts::{law, names};
use leptos::prelude::{ArcRwSignal, Get, GetUntracked, Set, set_timeout};
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// Whether the data files are there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum FilesState {
    /// On their way.
    Coming,
    /// There.
    Here,
    /// They could not be fetched, or are not those of this release.
    Missing,
}

thread_local! {
    static STATE: ArcRwSignal<FilesState> = ArcRwSignal::new(FilesState::Coming);
}

/// How long the page may rest after the lazy chunk has come.
const A_WHILE: Duration = Duration::from_secs(1);

/// Address and digest of each file, as `cargo task build` wrote them; none in a program that has the tables in it.
fn addresses() -> [(Option<&'static str>, &'static DataFile); 2] {
    [(option_env!("HP_DATA_LAW"), &law::FILE), (option_env!("HP_DATA_NAMES"), &names::FILE)]
}

/// Whether they are there, tracked.
pub(super) fn state() -> FilesState {
    STATE.with(ArcRwSignal::get)
}

/// The same, once.
pub(super) fn is_here() -> bool {
    STATE.with(ArcRwSignal::get_untracked) == FilesState::Here
}

/// Fetches them once the page has come to rest.
pub(super) fn fetch_later(desk: Desk) {
    set_timeout(move || fetch(desk), A_WHILE);
}

/// Fetches those that are not there yet.
pub(super) fn fetch(desk: Desk) {
    set(FilesState::Coming);
    spawn_local(async move {
        for (address, file) in addresses() {
            if !file.is_here() {
                take(address, file).await;
            }
        }
        // A column at a time: all of it takes longer than a finger may wait.
        while law::prepare() {
            browser::pause(Duration::ZERO).await;
        }
        set(if is_ready() { FilesState::Here } else { FilesState::Missing });
        super::recompute(desk);
    });
}

fn set(state: FilesState) {
    STATE.with(|shown| shown.set(state));
}

async fn take(address: Option<&str>, file: &DataFile) -> Option<()> {
    let (path, digest) = address?.split_once(' ')?;
    let text = browser::fetch_checked(path, digest).await?;
    file.fill(text).ok()
}
