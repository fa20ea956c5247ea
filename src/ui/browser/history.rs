//! The entry of the browser's history that stands for what lies over the page, so that Back, or the gesture for it, takes
//! that away. The state of such an entry is a number; that of a place is none.

use super::{clock, fragment};
use std::cell::RefCell;
use web_sys::History;

/// Longer than a browser takes for a step back within a page, in milliseconds.
const STEP: f64 = 1000.0;

/// A step back that the page has asked for and the browser has not made yet.
struct Leaving {
    since: f64,
    /// The fragment of the place below.
    place: String,
    /// What has opened over it meanwhile.
    over: Option<u32>,
    /// Where a press has led meanwhile: the step must not take that back too.
    led_to: Option<String>,
}

thread_local! {
    static LEAVING: RefCell<Option<Leaving>> = const { RefCell::new(None) };
}

fn history() -> Option<History> {
    web_sys::window()?.history().ok()
}

fn number(history: &History) -> Option<u32> {
    history.state().ok()?.as_f64().map(|number| number as u32)
}

/// Whether the browser scrolls a place to where it was when an entry of its is come back to.
fn scrolls(history: &History, how: &str) {
    let _ = js_sys::Reflect::set(history, &"scrollRestoration".into(), &how.into());
}

/// True while a step back is on its way, after which this lies over the page.
fn waits(over: Option<u32>) -> bool {
    LEAVING.with_borrow_mut(|leaving| {
        let leaving = leaving.as_mut().filter(|leaving| clock() - leaving.since < STEP);
        leaving.map(|leaving| leaving.over = over).is_some()
    })
}

/// Adds an entry for what has opened over the page, or numbers that of what was open before.
pub(crate) fn enter_over(over: u32) {
    let Some(history) = history().filter(|_| !waits(Some(over))) else { return };
    if number(&history).is_some() {
        let _ = history.replace_state(&over.into(), "");
        return;
    }
    // What is below has not moved when it is come back to.
    scrolls(&history, "manual");
    let _ = history.push_state(&over.into(), "");
    scrolls(&history, "auto");
}

/// Takes the entry away again.
pub(crate) fn leave_over() {
    let Some(history) = history().filter(|history| !waits(None) && number(history).is_some()) else { return };
    LEAVING.set(Some(Leaving { since: clock(), place: fragment(), over: None, led_to: None }));
    let _ = history.back();
}

/// The number of the entry that was come to, none for a place. Nothing where the page had asked for the step itself.
pub(crate) fn come_to() -> Option<Option<u32>> {
    let history = history()?;
    let over = number(&history);
    if over.is_none() {
        scrolls(&history, "auto");
    }
    let Some(mut left) = LEAVING.take().filter(|left| clock() - left.since < STEP) else { return Some(over) };
    let place = fragment();
    if place != left.place {
        left.led_to = Some(place);
        LEAVING.set(Some(left));
        return Some(over);
    }
    if let Some(place) = left.led_to {
        let _ = web_sys::window()?.location().set_hash(&place);
    } else if let Some(over) = left.over {
        enter_over(over);
    }
    None
}
