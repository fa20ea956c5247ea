//! A scale that speaks Bluetooth's Weight Scale service. Few browsers offer that; the others have no menu entry for it.

use super::stove::{call, get, global, set};
use js_sys::{Array, DataView, Object, Promise};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// The numbers that Bluetooth has assigned to the service, and to what a scale sends.
const SERVICE: u16 = 0x181D;
const MEASUREMENT: u16 = 0x2A9D;

/// What is heard of a scale.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum ScaleNews {
    /// It is connected.
    Connected,
    /// It sent this.
    Sent(Vec<u8>),
    /// It was not connected: the maker chose none, or it did not answer.
    Refused,
    /// It is gone.
    Gone,
}

type Heard = Rc<dyn Fn(ScaleNews)>;

thread_local! {
    /// The device that is connected, so that it can be let go.
    static CONNECTED: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

fn bluetooth() -> Option<JsValue> {
    get(&global("navigator")?, "bluetooth")
}

/// Whether a scale can be asked for.
pub(crate) fn has_bluetooth() -> bool {
    bluetooth().is_some()
}

/// Lets the maker choose a scale, and tells what is heard of it. Only after a press, as browsers want it.
pub(crate) fn connect_scale(heard: impl Fn(ScaleNews) + 'static) {
    let heard: Heard = Rc::new(heard);
    // Two scales at once would be one too many.
    if let Some(gatt) = CONNECTED.take().and_then(|device| get(&device, "gatt")) {
        call(&gatt, "disconnect", &[]);
    }
    // Asked for before anything else: a press is soon forgotten.
    let filter = Object::new();
    set(&filter, "services", Array::of1(&SERVICE.into()));
    let options = Object::new();
    set(&options, "filters", Array::of1(&filter));
    let chosen = bluetooth().and_then(|bluetooth| call(&bluetooth, "requestDevice", &[options.into()]));
    spawn_local(async move {
        match listen(chosen, heard.clone()).await {
            Some(()) => heard(ScaleNews::Connected),
            None => heard(ScaleNews::Refused),
        }
    });
}

async fn listen(chosen: Option<JsValue>, heard: Heard) -> Option<()> {
    let device = promised(chosen?).await?;
    let server = promised(call(&get(&device, "gatt")?, "connect", &[])?).await?;
    let service = promised(call(&server, "getPrimaryService", &[SERVICE.into()])?).await?;
    let measurement = promised(call(&service, "getCharacteristic", &[MEASUREMENT.into()])?).await?;
    let sent = heard.clone();
    let on_sent = Closure::<dyn Fn(JsValue)>::new(move |event: JsValue| {
        let value = get(&event, "target").and_then(|target| get(&target, "value"));
        if let Some(view) = value.and_then(|value| value.dyn_into::<DataView>().ok()) {
            sent(ScaleNews::Sent((0..view.byte_length()).map(|at| view.get_uint8(at)).collect()));
        }
    });
    let on_gone = Closure::<dyn Fn(JsValue)>::new(move |_| heard(ScaleNews::Gone));
    call(&measurement, "addEventListener", &["characteristicvaluechanged".into(), on_sent.as_ref().clone()]);
    call(&device, "addEventListener", &["gattserverdisconnected".into(), on_gone.as_ref().clone()]);
    promised(call(&measurement, "startNotifications", &[])?).await?;
    CONNECTED.set(Some(device));
    // For as long as the page lives: a scale may come back by itself.
    on_sent.forget();
    on_gone.forget();
    Some(())
}

async fn promised(asked: JsValue) -> Option<JsValue> {
    JsFuture::from(asked.dyn_into::<Promise>().ok()?).await.ok()
}
