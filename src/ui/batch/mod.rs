//! The batch: how much, on which scale, and the weigh sheet.

mod plan;
mod sheet;

use leptos::prelude::*;

/// The place.
#[component]
pub(super) fn BatchPlace() -> impl IntoView {
    view! {
        <div class="batch">
            <plan::PlanCard />
            <sheet::Sheet />
        </div>
    }
}
