//! Passing a formula on: file, link, QR code; and taking a file in.

use crate::ui::browser;
use crate::ui::desk::{Arrival, use_desk};
use hundred_parts::desk::{collection_text, document_text, encode, encode_for_qr, read_export};
use hundred_parts::words::page;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;
use wasm_bindgen::JsCast;

/// Longer links are cut by some messengers. Common practice, no source.
const LONG_LINK: usize = 2000;
/// A QR code beyond version 25 is hard to read by hand. Common practice, no source.
const MOST_QR: u8 = 25;

const JSON: &str = "application/json";

fn file_name(title: &str) -> String {
    let kept: String = title.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).take(60).collect();
    format!("{}.hundred-parts.json", if kept.is_empty() { "formula" } else { &kept })
}

#[component]
pub(super) fn PassOn() -> impl IntoView {
    let desk = use_desk();
    let link = RwSignal::new(None::<String>);
    let notes = RwSignal::new(false);
    let copied = RwSignal::new(false);
    let export_one = move |_| {
        desk.with(|bench| {
            browser::download(
                &file_name(&bench.state().formula.about.title),
                JSON,
                &document_text(bench.document(), bench.shelf()),
            )
        });
    };
    let export_all = move |_| {
        spawn_local(async move {
            let documents = desk.all_documents().await;
            desk.with(|bench| {
                browser::download(
                    "all-formulas.hundred-parts.json",
                    JSON,
                    &collection_text(documents.iter(), bench.shelf()),
                )
            });
        });
    };
    let import = move |event: leptos::ev::Event| {
        let Some(input) = event.target().and_then(|target| target.dyn_into().ok()) else { return };
        spawn_local(async move {
            let Some(text) = browser::picked_text(&input).await else { return };
            desk.arrival.set(Some(match read_export(&text) {
                Ok(incoming) => Arrival::Documents(Arc::new(incoming)),
                Err(problem) => Arrival::Refused(format!("{}{problem}", page::FILE_BAD)),
            }));
            browser::focus("work".to_owned());
        });
    };
    let make = move |_| {
        copied.set(false);
        link.set(Some(
            desk.with(|bench| format!("{}#{}", browser::page_address(), encode(bench.state(), notes.get_untracked()))),
        ));
    };
    let copy = move |_| {
        let text = link.get_untracked().unwrap_or_default();
        spawn_local(async move { copied.set(browser::copy(&text).await) });
    };
    view! {
        <details class="card pass-on">
            <summary>{page::PASS_ON}</summary>
            <div class="actions">
                <button type="button" on:click=export_one>{page::EXPORT_ONE}</button>
                <button type="button" on:click=export_all>{page::EXPORT_ALL}</button>
                <label class="file">{page::IMPORT} <input id="import" type="file" accept=".json,application/json" on:change=import /></label>
            </div>
            <p>{page::LINK_HOLDS}</p>
            <div class="actions">
                <label class="check"><input type="checkbox" prop:checked=move || notes.get() on:change=move |event| notes.set(event_target_checked(&event)) /> {page::WITH_NOTES}</label>
                <button type="button" on:click=make>{page::MAKE_LINK}</button>
            </div>
            {move || link.get().map(|text| {
                let long = text.len() > LONG_LINK;
                view! {
                    <label for="link">{page::LINK}</label>
                    <textarea id="link" rows="4" readonly prop:value=text></textarea>
                    {long.then_some(page::LINK_LONG)}
                    <button type="button" on:click=copy>{move || if copied.get() { page::COPIED } else { page::COPY_LINK }}</button>
                    <Qr with_notes=notes.get_untracked() />
                }
            })}
        </details>
    }
}

/// The code as one path, dark on light in every theme.
#[component]
fn Qr(with_notes: bool) -> impl IntoView {
    use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};
    let desk = use_desk();
    let code = desk.with(|bench| {
        let prefix = QrSegment::make_bytes(format!("{}#", browser::page_address()).as_bytes());
        let body = encode_for_qr(bench.state(), with_notes);
        let segments = [prefix, QrSegment::make_alphanumeric(&body)];
        QrCode::encode_segments_advanced(&segments, QrCodeEcc::Low, Version::MIN, Version::new(MOST_QR), None, true)
            .ok()
    });
    match code {
        None => view! { <p>{page::QR_TOO_LONG}</p> }.into_any(),
        Some(code) => {
            let size = code.size();
            let modules =
                (0..size).flat_map(|y| (0..size).map(move |x| (x, y))).filter(|(x, y)| code.get_module(*x, *y));
            let path: String = modules.map(|(x, y)| format!("M{} {}h1v1h-1z", x + 4, y + 4)).collect();
            view! {
                <svg class="qr" viewBox=format!("0 0 {0} {0}", size + 8) role="img" aria-label=page::QR>
                    <rect width="100%" height="100%" fill="#fff" />
                    <path d=path fill="#000" />
                </svg>
            }
            .into_any()
        }
    }
}
