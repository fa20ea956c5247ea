//! Calls by name. The second part of the program calls what it alone needs of a browser so: every function that is bound by
//! `web-sys` is a piece of the script that comes before the first sight, whichever part of the program calls it.

use js_sys::{Array, Function, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// A property.
pub(super) fn get(of: &JsValue, name: &str) -> Result<JsValue, JsValue> {
    Reflect::get(of, &JsValue::from_str(name))
}

/// Sets a property.
pub(super) fn set(of: &JsValue, name: &str, value: &JsValue) -> Result<(), JsValue> {
    Reflect::set(of, &JsValue::from_str(name), value).map(|_| ())
}

/// A property that is a whole number.
pub(super) fn number(of: &JsValue, name: &str) -> Option<u64> {
    get(of, name).ok()?.as_f64().filter(|number| *number >= 0.0).map(|number| number as u64)
}

/// Calls a method. A browser that does not have it gives an error.
pub(super) fn call(of: &JsValue, name: &str, arguments: &[&JsValue]) -> Result<JsValue, JsValue> {
    let method = get(of, name)?.dyn_into::<Function>()?;
    let all = Array::new();
    for argument in arguments {
        all.push(argument);
    }
    method.apply(of, &all)
}

/// Calls a method that promises something, and waits for it.
pub(super) async fn ask(of: &JsValue, name: &str, arguments: &[&JsValue]) -> Result<JsValue, JsValue> {
    JsFuture::from(call(of, name, arguments)?.dyn_into::<js_sys::Promise>()?).await
}

/// The window, where there is one.
pub(super) fn window() -> JsValue {
    web_sys::window().map_or(JsValue::UNDEFINED, JsValue::from)
}
