//! Times and days by the clock where the maker is.

use hundred_parts::quantity::{Day, Timestamp};
use wasm_bindgen::JsValue;

/// A moment as the maker's locale writes it.
pub(crate) fn local_time(moment: Timestamp) -> String {
    let date = js_sys::Date::new(&JsValue::from_f64(moment.millis() as f64));
    String::from(date.to_locale_string("default", &js_sys::Object::new()))
}

/// How many minutes the maker's clock is ahead of UTC at a moment.
pub(crate) fn minutes_ahead(moment: Timestamp) -> i64 {
    let date = js_sys::Date::new(&JsValue::from_f64(moment.millis() as f64));
    -(date.get_timezone_offset() as i64)
}

/// Today where the maker is; none if the clock is far off the calendar.
pub(crate) fn today() -> Option<Day> {
    day_of(super::now())
}

/// The day of a moment where the maker is.
pub(crate) fn day_of(moment: Timestamp) -> Option<Day> {
    let date = js_sys::Date::new(&JsValue::from_f64(moment.millis() as f64));
    let (month, day) = (u8::try_from(date.get_month() + 1).ok()?, u8::try_from(date.get_date()).ok()?);
    Day::from_calendar(i32::try_from(date.get_full_year()).ok()?, month, day)
}
