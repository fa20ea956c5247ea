//! Tabs of this page telling each other which document was written. Only a hint: the journal's revision decides.

use std::cell::OnceCell;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use web_sys::{BroadcastChannel, MessageEvent};

const NAME: &str = "hundred-parts";

thread_local! {
    static CHANNEL: OnceCell<Option<BroadcastChannel>> = const { OnceCell::new() };
}

fn with_channel(act: impl FnOnce(&BroadcastChannel)) {
    CHANNEL.with(|channel| {
        if let Some(channel) = channel.get_or_init(|| BroadcastChannel::new(NAME).ok()) {
            act(channel);
        }
    });
}

/// Tells the other tabs that a document was written.
pub(crate) fn tell_tabs(id: &str) {
    with_channel(|channel| {
        let _ = channel.post_message(&JsValue::from_str(id));
    });
}

/// Calls back with the id of a document that another tab has written.
pub(crate) fn hear(call: impl Fn(String) + 'static) {
    let call = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        if let Some(id) = event.data().as_string() {
            call(id);
        }
    });
    with_channel(|channel| channel.set_onmessage(Some(call.as_ref().unchecked_ref())));
    call.forget();
}
