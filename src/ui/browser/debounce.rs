//! Trailing-edge debounce.

use super::clock;
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::set_timeout_with_handle;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

/// Runs an action once it has not been asked for during the delay. A timer that runs is left to run, and at its end looks whether
/// anybody has asked meanwhile: so a key costs a look at the clock, and not a timer put away and another one made.
#[derive(Clone, Default)]
pub(crate) struct Debounce(Rc<Inner>);

#[derive(Default)]
struct Inner {
    /// When it is to be done, by the browser's own clock, which is never set back.
    due: Cell<Option<f64>>,
    /// The timer that runs, and when it ends.
    timer: RefCell<Option<(TimeoutHandle, f64)>>,
}

impl Debounce {
    /// Asks for it: `run` is what is done, the same each time.
    pub(crate) fn ask(&self, wait: Duration, run: impl Fn() + 'static) {
        let due = clock() + wait.as_secs_f64() * 1000.0;
        self.0.due.set(Some(due));
        let in_time = self.0.timer.borrow().as_ref().is_some_and(|(_, end)| *end <= due);
        if !in_time {
            self.wind(due, Rc::new(run));
        }
    }

    /// Nobody asks any more.
    pub(crate) fn forget(&self) {
        self.0.due.set(None);
    }

    fn wind(&self, due: f64, run: Rc<dyn Fn()>) {
        if let Some((timer, _)) = self.0.timer.take() {
            timer.clear();
        }
        let this = self.clone();
        let end = move || {
            this.0.timer.take();
            match this.0.due.get() {
                Some(due) if due > clock() => this.wind(due, run),
                Some(_) => {
                    this.forget();
                    run();
                }
                None => {}
            }
        };
        let wait = Duration::from_secs_f64((due - clock()).max(0.0) / 1000.0);
        let timer = set_timeout_with_handle(end, wait).ok();
        self.0.timer.replace(timer.map(|timer| (timer, due)));
    }
}
