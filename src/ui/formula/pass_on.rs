//! Passing a formula on: file, link, QR code; and taking a file in.

use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el, svg, ticked};
use crate::ui::field::button;
use crate::ui::storage_notices;
use hundred_parts::desk::{Arrival, document_text, encode, encode_for_qr, read_export};
use hundred_parts::paper::file_name;
use hundred_parts::words::{batch_record, page};
use leptos::prelude::*;
use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;

/// Longer links are cut by some messengers. Common practice, no source.
const LONG_LINK: usize = 2000;
/// A QR code beyond version 25 is hard to read by hand. Common practice, no source.
const MOST_QR: u8 = 25;

const JSON: &str = "application/json";
const FILE_END: &str = ".hundred-parts.json";

/// Its ways.
pub(in crate::ui) fn pass_on(desk: Desk) -> View {
    // The link, and whether the notes are in it.
    let link = RwSignal::new(None::<(String, bool)>);
    let notes = RwSignal::new(false);
    // A link to what the formula was is not a link to what it is.
    Effect::new(move |_| {
        desk.with(|_| ());
        if link.with_untracked(Option::is_some) {
            link.set(None);
        }
    });
    let export_one = move || {
        spawn_local(async move {
            let open = desk.now(Clone::clone);
            let (document, whole) = desk.with_records(&open).await;
            if !whole {
                desk.say(batch_record::NOT_ALL, None);
            }
            let name = file_name(&open.state().formula.about.title, page::NAMELESS_FILE, FILE_END);
            // With the shelf as it is by now.
            desk.now(|open| browser::download(&name, JSON, &document_text(&document, open.shelf())));
        });
    };
    let import = move |event: web_sys::Event| {
        let Some(input) = event.target().and_then(|target| target.dyn_into().ok()) else { return };
        spawn_local(async move {
            let Some(text) = browser::picked_text(&input).await else { return };
            // What came in stands above the work.
            desk.close_overlay();
            desk.take_up(match read_export(&text) {
                Ok(incoming) => Arrival::Documents(incoming),
                Err(problem) => Arrival::Refused(format!("{}{problem}", page::FILE_BAD)),
            });
            browser::focus("work".to_owned());
        });
    };
    let make = move || {
        let with_notes = notes.get_untracked();
        let made = desk.now(|open| encode(open.state(), open.shelf(), with_notes));
        match made {
            Some(made) => link.set(Some((format!("{}#{made}", browser::page_address()), with_notes))),
            None => desk.say(page::NO_LINK, None),
        }
    };
    let pick =
        el("input").id("import").attr("type", "file").attr("accept", ".json,application/json").on("change", import);
    let tick = el("input")
        .attr("type", "checkbox")
        .checked_of(move || notes.get())
        .on("change", move |event| notes.set(ticked(&event)));
    let files = el("div")
        .class("actions")
        .child(button(page::EXPORT_ONE).press(export_one))
        .child(button(page::EXPORT_ALL).press(move || storage_notices::export_all(desk)))
        .child(el("label").class("file").text(page::IMPORT).text(" ").child(pick));
    let links = el("div")
        .class("actions")
        .child(el("label").class("tick").child(tick).text(" ").text(page::WITH_NOTES))
        .child(button(page::MAKE_LINK).press(make));
    let made = dynamic(
        move || link.get(),
        move |link| link.as_ref().map_or_else(View::nothing, |(text, notes)| made(desk, text, *notes)),
    );
    let about_link = el("p").text(page::LINK_HOLDS);
    let promise = storage_notices::promise(desk);
    View::from_iter([files.into(), promise.into(), about_link.into(), links.into(), made])
}

fn made(desk: Desk, text: &str, with_notes: bool) -> View {
    let copied = RwSignal::new(false);
    let link = text.to_owned();
    let copy = move || {
        let link = link.clone();
        spawn_local(async move { copied.set(browser::copy(&link).await) });
    };
    let said = move || if copied.get() { page::COPIED } else { page::COPY_LINK }.to_owned();
    let field = el("textarea").id("link").attr("rows", "4").flag("readonly").text(text);
    [
        View::from(el("label").attr("for", "link").text(page::LINK)),
        field.into(),
        View::from((text.len() > LONG_LINK).then_some(page::LINK_LONG)),
        button("").text_of(said).press(copy).into(),
        qr(desk, with_notes).into(),
    ]
    .into_iter()
    .collect()
}

/// The code as one path, dark on light in every theme.
fn qr(desk: Desk, with_notes: bool) -> El {
    let code = desk.now(|open| {
        let prefix = QrSegment::make_bytes(format!("{}#", browser::page_address()).as_bytes());
        let body = encode_for_qr(open.state(), open.shelf(), with_notes)?;
        let segments = [prefix, QrSegment::make_alphanumeric(&body)];
        QrCode::encode_segments_advanced(&segments, QrCodeEcc::Low, Version::MIN, Version::new(MOST_QR), None, true)
            .ok()
    });
    let Some(code) = code else { return el("p").text(page::QR_TOO_LONG) };
    let size = code.size();
    let modules = (0..size).flat_map(|y| (0..size).map(move |x| (x, y))).filter(|(x, y)| code.get_module(*x, *y));
    let path: String = modules.map(|(x, y)| format!("M{} {}h1v1h-1z", x + 4, y + 4)).collect();
    svg("svg")
        .class("qr")
        .attr("viewBox", &format!("0 0 {0} {0}", size + 8))
        .attr("role", "img")
        .attr("aria-label", page::QR)
        .child(svg("rect").attr("width", "100%").attr("height", "100%").attr("fill", "#fff"))
        .child(svg("path").attr("d", &path).attr("fill", "#000"))
}
