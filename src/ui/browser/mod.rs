//! What only a browser can do: one small function each, no decisions.

mod by_name;
mod debounce;
mod drawing;
mod files;
mod history;
mod idb;
mod local_mirror;
mod photographs;
mod pointer;
mod presses;
mod scale;
mod stove;
mod tabs;
mod wall_clock;

pub(crate) use debounce::Debounce;
pub(crate) use drawing::Drawing;
pub(crate) use files::{download, download_parts, picked_files, picked_text};
pub(crate) use history::{come_to, enter_over, leave_over};
pub(crate) use idb::IdbJournal;
pub(crate) use local_mirror::{
    LocalStorageMirror, forget_preference, forget_preferences, open_here, preference, set_open_id, set_preference,
};
pub(crate) use photographs::{
    PhotographLock, estimate, hide_photograph, keep_photographs, kept_photographs, lock_photographs, photograph,
    remove_photographs, show_photograph,
};
pub(crate) use pointer::{hold_pointer, scroll_at_edge};
pub(crate) use presses::{after_press, follow_presses, hold_in_place};
pub(crate) use scale::{ScaleNews, connect_scale, has_bluetooth};
pub(crate) use stove::{ask_for_notices, is_half_typed, keep_awake, notify, sound, speak};
pub(crate) use tabs::{hear, tell_tabs};
pub(crate) use wall_clock::{day_of, local_time, minutes_ahead, today};

use hundred_parts::desk::{DocId, StoreError};
use hundred_parts::quantity::Timestamp;
use hundred_parts::words::DecimalSign;
use wasm_bindgen::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

thread_local! {
    static STOPPED: std::cell::Cell<bool> = const { std::cell::Cell::new(false) };
}

/// From now on nothing is written, neither to the journal nor to local storage: after a panic the state in memory cannot
/// be trusted, and what a newer version stored is not for this one to change.
pub(crate) fn stop_writing() {
    STOPPED.set(true);
}

/// Whether nothing is written any more.
pub(crate) fn stopped() -> bool {
    STOPPED.get()
}

/// Every write asks here first.
fn may_write() -> Result<(), StoreError> {
    if stopped() { Err(StoreError("writing has stopped".to_owned())) } else { Ok(()) }
}

/// The clock.
pub(crate) fn now() -> Timestamp {
    Timestamp::from_millis(js_sys::Date::now() as i64)
}

/// 64 random bits from two random numbers of 32.
pub(crate) fn random_bits() -> u64 {
    let half = || (js_sys::Math::random() * 4_294_967_296.0) as u64;
    half() << 32 | half()
}

/// A new document id.
pub(crate) fn new_id() -> DocId {
    DocId::random(random_bits())
}

/// The decimal sign of the maker's locale.
pub(crate) fn decimal_sign() -> DecimalSign {
    // The boot script has asked while the program was on its way.
    let known = root_attribute("data-decimal");
    let shown = known.unwrap_or_else(|| String::from(js_sys::Number::from(1.5).to_locale_string("default")));
    if shown.contains(',') { DecimalSign::Comma } else { DecimalSign::Point }
}

/// The fragment of the address, with its `#`.
pub(crate) fn fragment() -> String {
    web_sys::window().and_then(|window| window.location().hash().ok()).unwrap_or_default()
}

/// Replaces the fragment without a new entry in the history.
pub(crate) fn replace_fragment(address: &str) {
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(address));
    }
}

/// The page's own address without fragment and query.
pub(crate) fn page_address() -> String {
    let location = web_sys::window().map(|window| window.location());
    let part = |read: &dyn Fn(&web_sys::Location) -> Result<String, JsValue>| {
        location.as_ref().and_then(|l| read(l).ok()).unwrap_or_default()
    };
    format!("{}{}", part(&|l| l.origin()), part(&|l| l.pathname()))
}

/// What stands at the foot of every printed page of a paper: `print.css` reads it from the root of the page.
pub(crate) fn set_foot(text: &str) {
    if let Some(root) = web_sys::window().and_then(|w| w.document()).and_then(|d| d.document_element()) {
        let _ = root.set_attribute("data-foot", text);
    }
}

/// What stands at the head of every printed page.
pub(crate) fn set_stamp(text: &str) {
    if let Some(root) = web_sys::window().and_then(|w| w.document()).and_then(|d| d.document_element()) {
        let _ = root.set_attribute("data-stamp", text);
    }
}

/// Opens the print dialog.
pub(crate) fn print() {
    if let Some(window) = web_sys::window() {
        let _ = window.print();
    }
}

/// The text at an address of this page, if it came and has this digest (as `integrity` has it).
pub(crate) async fn fetch_checked(path: &str, digest: &str) -> Option<String> {
    let options = web_sys::RequestInit::new();
    options.set_integrity(digest);
    let response = JsFuture::from(web_sys::window()?.fetch_with_str_and_init(path, &options)).await.ok()?;
    let text = response.unchecked_into::<web_sys::Response>().text().ok()?;
    JsFuture::from(text).await.ok()?.as_string()
}

/// Puts a text on the clipboard.
pub(crate) async fn copy(text: &str) -> bool {
    let Some(window) = web_sys::window() else { return false };
    JsFuture::from(window.navigator().clipboard().write_text(text)).await.is_ok()
}

/// Puts the focus on an element, and selects its text: once all that follows from what was just done stands in the page,
/// and before the next key comes. What is not there by then is looked for once more in the next frame.
pub(crate) fn focus(id: String) {
    // Effects wait in the same queue, before this.
    wasm_bindgen_futures::spawn_local(async move {
        if !focused(&id) {
            leptos::prelude::request_animation_frame(move || {
                focused(&id);
            });
        }
    });
}

/// The same, for what a change of the place brings: it is looked for in the frames that follow.
pub(crate) fn focus_soon(id: String) {
    fn look(id: String, frames: u32) {
        if !focused(&id) && frames > 0 {
            leptos::prelude::request_animation_frame(move || look(id, frames - 1));
        }
    }
    leptos::prelude::request_animation_frame(move || look(id, 20));
}

/// Puts the focus on an element. False if there is none.
fn focused(id: &str) -> bool {
    let found = element(id);
    found.iter().for_each(focus_on);
    found.is_some()
}

/// Puts the focus on an element, and selects its text.
pub(crate) fn focus_on(element: &web_sys::Element) {
    if let Some(element) = element.dyn_ref::<web_sys::HtmlElement>() {
        let _ = element.focus();
    }
    if let Some(input) = element.dyn_ref::<web_sys::HtmlInputElement>() {
        input.select();
    }
}

thread_local! {
    static LEFT: std::cell::RefCell<Option<web_sys::Element>> = const { std::cell::RefCell::new(None) };
}

/// Remembers what has the focus, before something opens over it. A button in a menu is gone with that: what opens the menu
/// stands for it.
pub(crate) fn remember_focus() {
    let focused = web_sys::window().and_then(|window| window.document()?.active_element());
    let menu = |focused: &web_sys::Element| {
        focused.closest("details.menu").ok().flatten()?.query_selector("summary").ok().flatten()
    };
    LEFT.set(focused.map(|focused| menu(&focused).unwrap_or(focused)));
}

/// Puts the focus back to what had it, or to the work where that is gone.
pub(crate) fn return_focus() {
    let left = LEFT.take();
    // What lay below takes no focus before the effects that follow have run.
    wasm_bindgen_futures::spawn_local(async move {
        match left.filter(|left| left.is_connected() && left.tag_name() != "BODY") {
            Some(left) => focus_on(&left),
            None => focus("work".to_owned()),
        }
    });
}

thread_local! {
    static SCROLLED: std::cell::RefCell<Vec<(&'static str, f64)>> = const { std::cell::RefCell::new(Vec::new()) };
}

/// Notes how far a place is scrolled that is about to be left.
pub(crate) fn note_scroll(place: &'static str) {
    let Some(by) = web_sys::window().and_then(|window| window.scroll_y().ok()) else { return };
    SCROLLED.with_borrow_mut(|all| {
        all.retain(|(known, _)| *known != place);
        all.push((place, by));
    });
}

/// Scrolls a place to where it was, once it stands there; to its top the first time.
pub(crate) fn scroll_back(place: &'static str) {
    let by = SCROLLED.with_borrow(|all| all.iter().find(|(known, _)| *known == place).map_or(0.0, |(_, by)| *by));
    wasm_bindgen_futures::spawn_local(async move {
        if let Some(window) = web_sys::window() {
            window.scroll_to_with_x_and_y(0.0, by);
        }
    });
}

/// Goes to a part of the page: it stands at the top of the window and has the focus.
pub(crate) fn go_to(id: &str) {
    if let Some(part) = element(id) {
        focus(id.to_owned());
        leptos::prelude::request_animation_frame(move || part.scroll_into_view());
    }
}

/// An element of the page.
pub(crate) fn element(id: &str) -> Option<web_sys::Element> {
    web_sys::window()?.document()?.get_element_by_id(id)
}

/// An attribute of the root, where the boot script leaves what it has to tell.
pub(crate) fn root_attribute(name: &str) -> Option<String> {
    web_sys::window()?.document()?.document_element()?.get_attribute(name)
}

/// True if the boot script has set this attribute of the root to `ready`: its events may come before anybody listens.
pub(crate) fn root_says(attribute: &str) -> bool {
    root_attribute(attribute).as_deref() == Some("ready")
}

/// Calls back on an event of the window, for as long as the page lives.
pub(crate) fn on_window(event: &str, call: impl Fn() + 'static) {
    let call = Closure::<dyn Fn()>::new(call);
    if let Some(window) = web_sys::window() {
        let _ = window.add_event_listener_with_callback(event, call.as_ref().unchecked_ref());
    }
    call.forget();
}

/// Calls back when the page comes back from where a browser keeps pages that were left, as it was.
pub(crate) fn on_return(call: impl Fn() + 'static) {
    let shown = Closure::<dyn Fn(web_sys::PageTransitionEvent)>::new(move |event: web_sys::PageTransitionEvent| {
        if event.persisted() {
            call();
        }
    });
    if let Some(window) = web_sys::window() {
        let _ = window.add_event_listener_with_callback("pageshow", shown.as_ref().unchecked_ref());
    }
    shown.forget();
}

/// The width of the window in CSS pixels.
fn width() -> Option<f64> {
    web_sys::window()?.inner_width().ok()?.as_f64()
}

/// True where three columns fit beside each other; the same width as in `places.css`.
pub(crate) fn is_wide() -> bool {
    width().is_some_and(|width| width >= 1100.0)
}

/// True where there is one column only; the same width as in `places.css`.
pub(crate) fn is_narrow() -> bool {
    width().is_some_and(|width| width < 600.0)
}

/// Whether the browser has promised to keep what is stored; `None` where it cannot say.
pub(crate) async fn persisted() -> Option<bool> {
    let promise = web_sys::window()?.navigator().storage().persisted().ok()?;
    JsFuture::from(promise).await.ok()?.as_bool().filter(|promised| *promised)
}

/// Asks the browser to keep what is stored. It decides by itself, and some ask the maker.
pub(crate) async fn ask_to_persist() -> Option<bool> {
    let promise = web_sys::window()?.navigator().storage().persist().ok()?;
    JsFuture::from(promise).await.ok()?.as_bool()
}

/// True in a browser's tab where the page could stand on the home screen instead: only there is `navigator.standalone`.
pub(crate) fn in_a_tab_of_ios() -> bool {
    let Some(window) = web_sys::window() else { return false };
    let standalone = js_sys::Reflect::get(&window.navigator(), &"standalone".into());
    standalone.ok().and_then(|value| value.as_bool()) == Some(false)
}

/// True where the browser keeps nothing for this page, neither in a database nor in local storage.
pub(crate) fn keeps_nothing() -> bool {
    local_mirror::is_missing() && web_sys::window().and_then(|window| window.indexed_db().ok().flatten()).is_none()
}

/// Milliseconds since the page was opened, by a clock that is never set back.
fn clock() -> f64 {
    web_sys::window().and_then(|window| window.performance()).map_or(0.0, |clock| clock.now())
}

/// Waits.
pub(crate) async fn pause(time: std::time::Duration) {
    let promise = js_sys::Promise::new(&mut |resolve, _| {
        leptos::prelude::set_timeout(
            move || {
                let _ = resolve.call0(&JsValue::NULL);
            },
            time,
        );
    });
    let _ = JsFuture::from(promise).await;
}

/// True while the page is hidden.
pub(crate) fn is_hidden() -> bool {
    web_sys::window().and_then(|w| w.document()).is_some_and(|d| d.hidden())
}

/// Takes the waiting version, if the boot script offers one.
pub(crate) fn take_update() {
    let Some(window) = web_sys::window() else { return };
    if let Ok(update) = js_sys::Reflect::get(&window, &"hpUpdate".into())
        && let Some(update) = update.dyn_ref::<js_sys::Function>()
    {
        let _ = update.call0(&JsValue::NULL);
    }
}

/// Leaves the boot script a way to what was typed and is not stored yet, for when the program ends. What `unsaved` gives is
/// the text of the download on the recovery card; nothing, if all was stored.
pub(crate) fn offer_rescue(unsaved: impl Fn() -> Option<Rescued> + 'static) {
    let Some(window) = web_sys::window() else { return };
    let rescue = Closure::<dyn Fn() -> JsValue>::new(move || {
        let Some(Rescued { kept, text }) = unsaved() else { return JsValue::NULL };
        js_sys::Array::of2(&kept.into(), &text.into()).into()
    });
    let _ = js_sys::Reflect::set(&window, &"hpRescue".into(), &rescue.into_js_value());
}

/// What was typed and was not stored when the program ended.
pub(crate) struct Rescued {
    /// Whether the quick copy has it now: then it is there when the page opens again.
    pub(crate) kept: bool,
    /// It, as it would be stored.
    pub(crate) text: String,
}

/// Shows the recovery card that stands in the page outside the app, with what happened; the boot script has its words
/// and its buttons.
pub(crate) fn show_crash(message: &str) {
    let Some(window) = web_sys::window() else { return };
    if let Ok(crash) = js_sys::Reflect::get(&window, &"hpCrash".into())
        && let Some(crash) = crash.dyn_ref::<js_sys::Function>()
    {
        let _ = crash.call1(&JsValue::NULL, &JsValue::from_str(message));
    }
}
