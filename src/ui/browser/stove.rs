//! What only a browser can do beside a stove: sound, vibration, notifications, a screen that stays awake, speech. None of it is
//! in every browser, and all of it is asked for by its name: what is missing is missed without a word.

use js_sys::{Array, Function, Object, Promise, Reflect};
use std::cell::RefCell;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};

thread_local! {
    /// What keeps the screen awake, until it is let go.
    static AWAKE: RefCell<Option<JsValue>> = const { RefCell::new(None) };
    /// Whether it is wanted; nothing before anybody asked.
    static WANTED: RefCell<Option<bool>> = const { RefCell::new(None) };
}

pub(super) fn get(of: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(of, &name.into()).ok().filter(|value| !value.is_undefined() && !value.is_null())
}

pub(super) fn global(name: &str) -> Option<JsValue> {
    get(&js_sys::global(), name)
}

pub(super) fn call(of: &JsValue, name: &str, arguments: &[JsValue]) -> Option<JsValue> {
    let function: Function = get(of, name)?.dyn_into().ok()?;
    function.apply(of, &arguments.iter().collect::<Array>()).ok()
}

fn make(name: &str, arguments: &[JsValue]) -> Option<JsValue> {
    let class: Function = global(name)?.dyn_into().ok()?;
    Reflect::construct(&class, &arguments.iter().collect::<Array>()).ok()
}

pub(super) fn set(of: &JsValue, name: &str, value: impl Into<JsValue>) {
    let _ = Reflect::set(of, &name.into(), &value.into());
}

/// Keeps the screen awake, or lets it sleep. A browser lets go of it whenever the page is out of sight: it is asked for again
/// once that is back.
pub(crate) fn keep_awake(wanted: bool) {
    let known = WANTED.replace(Some(wanted));
    if known.is_none() {
        super::on_window("focus", ask_again);
        if let Some(document) = web_sys::window().and_then(|window| window.document()) {
            let again = Closure::<dyn Fn()>::new(ask_again);
            let _ = document.add_event_listener_with_callback("visibilitychange", again.as_ref().unchecked_ref());
            // For as long as the page lives.
            again.forget();
        }
    }
    ask(wanted);
}

fn ask_again() {
    if WANTED.with_borrow(|wanted| *wanted == Some(true)) && !super::is_hidden() {
        ask(true);
    }
}

fn ask(wanted: bool) {
    if !wanted {
        if let Some(lock) = AWAKE.take() {
            call(&lock, "release", &[]);
        }
        return;
    }
    let lock = global("navigator").and_then(|navigator| get(&navigator, "wakeLock"));
    let asked = lock.and_then(|lock| call(&lock, "request", &["screen".into()]));
    let Some(asked) = asked else { return };
    let asked = asked.unchecked_into::<Promise>();
    wasm_bindgen_futures::spawn_local(async move {
        if let Ok(lock) = wasm_bindgen_futures::JsFuture::from(asked).await {
            // The view may have gone while it was asked for.
            if WANTED.with_borrow(|wanted| *wanted == Some(true)) {
                AWAKE.set(Some(lock));
            } else {
                call(&lock, "release", &[]);
            }
        }
    });
}

/// Three short tones, and the vibration of a phone.
pub(crate) fn sound() {
    if let Some(navigator) = global("navigator") {
        let pattern: Array = [300, 150, 300, 150, 600].into_iter().map(JsValue::from).collect();
        call(&navigator, "vibrate", &[pattern.into()]);
    }
    let Some(context) = make("AudioContext", &[]) else { return };
    let now = get(&context, "currentTime").and_then(|now| now.as_f64()).unwrap_or(0.0);
    for at in [0.0, 0.4, 0.8] {
        let tone = call(&context, "createOscillator", &[]).zip(get(&context, "destination"));
        let Some((tone, speaker)) = tone else { return };
        if let Some(frequency) = get(&tone, "frequency") {
            set(&frequency, "value", 880.0);
        }
        call(&tone, "connect", &[speaker]);
        call(&tone, "start", &[(now + at).into()]);
        call(&tone, "stop", &[(now + at + 0.25).into()]);
    }
}

/// Asks whether notifications may be shown; only after a press, as browsers want it.
pub(crate) fn ask_for_notices() {
    if let Some(notices) = global("Notification")
        && get(&notices, "permission").and_then(|given| given.as_string()).as_deref() == Some("default")
    {
        call(&notices, "requestPermission", &[]);
    }
}

/// Shows a notification, where that was allowed.
pub(crate) fn notify(title: &str, text: &str) {
    let Some(notices) = global("Notification") else { return };
    if get(&notices, "permission").and_then(|given| given.as_string()).as_deref() != Some("granted") {
        return;
    }
    let options = Object::new();
    set(&options, "body", text);
    set(&options, "tag", "hundred-parts-timer");
    make("Notification", &[title.into(), options.into()]);
}

/// Speaks a text with a voice of the device; voices that send it elsewhere are not used.
pub(crate) fn speak(text: &str) {
    let Some(speech) = global("speechSynthesis") else { return };
    let voices = call(&speech, "getVoices", &[]).map(JsCast::unchecked_into::<Array>).unwrap_or_default();
    let local = |voice: &JsValue| get(voice, "localService").and_then(|local| local.as_bool()) == Some(true);
    let english = |voice: &JsValue| {
        get(voice, "lang").and_then(|lang| lang.as_string()).is_some_and(|lang| lang.starts_with("en"))
    };
    let Some(voice) = voices.iter().find(|voice| local(voice) && english(voice)) else { return };
    let Some(spoken) = make("SpeechSynthesisUtterance", &[text.into()]) else { return };
    set(&spoken, "voice", voice);
    set(&spoken, "lang", "en");
    call(&speech, "cancel", &[]);
    call(&speech, "speak", &[spoken]);
}

/// Whether something stands in a field of the browser's own that is not whole, such as half a date.
pub(crate) fn is_half_typed(id: &str) -> bool {
    let document = web_sys::window().and_then(|window| window.document());
    let field = document.and_then(|document| document.get_element_by_id(id));
    let bad = field.and_then(|field| get(&field, "validity")).and_then(|validity| get(&validity, "badInput"));
    bad.and_then(|bad| bad.as_bool()) == Some(true)
}
