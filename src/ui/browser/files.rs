//! Files: offered to be kept, and picked.

use js_sys::Array;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Offers a text as a file to be kept.
pub(crate) fn download(name: &str, kind: &str, text: &str) -> Option<()> {
    download_parts(name, kind, &Array::of1(&JsValue::from_str(text)))
}

/// Offers a file that is put together of texts.
pub(crate) fn download_parts(name: &str, kind: &str, parts: &Array) -> Option<()> {
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(kind);
    let blob = web_sys::Blob::new_with_str_sequence_and_options(parts, &options).ok()?;
    let address = web_sys::Url::create_object_url_with_blob(&blob).ok()?;
    let document = web_sys::window()?.document()?;
    let anchor: web_sys::HtmlAnchorElement = document.create_element("a").ok()?.dyn_into().ok()?;
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.click();
    web_sys::Url::revoke_object_url(&address).ok()
}

/// The text of the file that was picked in an input.
pub(crate) async fn picked_text(input: &web_sys::HtmlInputElement) -> Option<String> {
    let file = input.files()?.get(0)?;
    let text = JsFuture::from(file.text()).await.ok()?;
    input.set_value("");
    text.as_string()
}

/// The files that were picked in an input, which is emptied: the same one can be picked again.
pub(crate) fn picked_files(event: &web_sys::Event) -> Vec<web_sys::File> {
    let input = event.target().and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok());
    let Some((input, files)) = input.and_then(|input| Some((input.clone(), input.files()?))) else { return Vec::new() };
    let found = (0..files.length()).filter_map(|n| files.get(n)).collect();
    input.set_value("");
    found
}
