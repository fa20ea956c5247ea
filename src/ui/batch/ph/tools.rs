//! What the maker sets a pH with: which acid or base, how strong, on which scale. Kept for the next time.

use crate::ui::browser::{preference, set_preference};
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, dynamic, el, ticked, when};
use crate::ui::field::{pick_field, quantity_field};
use hundred_parts::batch::dose::usual_strength;
use hundred_parts::batch::{Adjuster, BatchRecord, Instrument, PhLog, PhSetting, SAMPLING_METHODS, Tools, adjusters};
use hundred_parts::desk::BatchState;
use hundred_parts::facts::IngredientId;
use hundred_parts::quantity::{Mass, Percent, Typed};
use hundred_parts::sheet::STEPS;
use hundred_parts::words::{self, FieldText, bench};
use leptos::prelude::*;
use std::rc::Rc;

/// The name under which it is kept.
const KEPT: &str = "ph-tools";

fn setting_of(batch: &BatchState) -> Option<PhSetting> {
    match batch {
        BatchState::Open(record) => record.ph(),
        _ => None,
    }
}

/// What stands on the bench: signals, cheap to clone.
#[derive(Clone)]
pub(super) struct PhBench {
    pub(super) desk: Desk,
    batch: RwSignal<BatchState>,
    pub(super) adjusters: Rc<Vec<Adjuster>>,
    titrant: RwSignal<usize>,
    solution: RwSignal<bool>,
    strength: RwSignal<Typed<Percent>>,
    step: RwSignal<Mass>,
    side_first: RwSignal<bool>,
    /// How the next reading is taken.
    pub(super) instrument: RwSignal<Instrument>,
    /// Its place in [`SAMPLING_METHODS`].
    pub(super) way: RwSignal<usize>,
}

impl PhBench {
    pub(super) fn new(desk: Desk, batch: RwSignal<BatchState>) -> Option<Self> {
        let all = desk.now(|open| adjusters(open.shelf()));
        let setting = batch.with_untracked(setting_of);
        let log = setting.as_ref().map(|setting| &setting.log);
        let first = desk.now(|open| {
            let state = open.state();
            let step = state.plan.step_value().unwrap_or(Mass::micrograms(10_000));
            let kept = preference(KEPT).and_then(|text| Tools::read(&text, &all));
            kept.or_else(|| Tools::first(&all, log, &state.formula, step))
        });
        let way = log.and_then(PhLog::last_way);
        let first = first?;
        let titrant = all.iter().position(|adjuster| adjuster.id == first.titrant)?;
        let solution = first.strength != usual_strength(all.get(titrant)?.row);
        let (instrument, dilution) = way.unwrap_or_default();
        Some(Self {
            desk,
            batch,
            adjusters: Rc::new(all),
            titrant: RwSignal::new(titrant),
            solution: RwSignal::new(solution),
            strength: RwSignal::new(if solution { Typed::of(first.strength) } else { Typed::default() }),
            step: RwSignal::new(first.step),
            side_first: RwSignal::new(true),
            instrument: RwSignal::new(instrument),
            way: RwSignal::new(SAMPLING_METHODS.iter().position(|way| way.0 == dilution).unwrap_or(0)),
        })
    }

    /// The setting of the pH as it stands, tracked.
    pub(super) fn setting(&self) -> Option<PhSetting> {
        self.batch.with(setting_of)
    }

    /// The record of the batch, tracked.
    pub(super) fn record(&self) -> Option<BatchRecord> {
        self.batch.with(|batch| match batch {
            BatchState::Open(record) => Some(BatchRecord::clone(record)),
            _ => None,
        })
    }

    /// What an acid or base is called.
    pub(super) fn name(&self, id: &IngredientId) -> String {
        let found = self.adjusters.iter().find(|adjuster| adjuster.id == *id);
        found.map_or_else(|| id.as_str().to_owned(), |adjuster| adjuster.name.clone())
    }

    /// What it comes to, tracked; nothing while the strength of a solution is not readable.
    pub(super) fn tools(&self) -> Option<Tools> {
        let adjuster = self.adjusters.get(self.titrant.get())?;
        let solution = self.solution.get().then(|| self.strength.get());
        Tools::of(adjuster, solution.as_ref(), self.step.get(), self.side_first.get())
    }

    fn keep(&self) {
        if let Some(tools) = untrack(|| self.tools()) {
            set_preference(KEPT, &tools.write());
        }
    }

    /// The fields.
    pub(super) fn fields(&self) -> El {
        let (desk, sign) = (self.desk, self.desk.sign);
        let Self { titrant, solution, strength, step, side_first, .. } = *self;
        let keep = {
            let bench = self.clone();
            move || bench.keep()
        };
        let (kept, kept_too, kept_as_well, all) = (keep.clone(), keep.clone(), keep.clone(), self.adjusters.clone());
        let which = pick_field(
            "ph-titrant",
            bench::TITRANT,
            self.adjusters.iter().map(bench::adjuster),
            move || titrant.get(),
            move |n| {
                titrant.set(n);
                solution.set(false);
                keep();
            },
        );
        let form = dynamic(
            move || titrant.get(),
            move |n| {
                let usual = all.get(*n).map_or(Percent::WHOLE, |adjuster| usual_strength(adjuster.row));
                let options = [bench::as_sold(usual, sign), bench::AS_SOLUTION.to_owned()];
                let kept = kept.clone();
                let set = move |n: usize| {
                    solution.set(n == 1);
                    kept();
                };
                pick_field("ph-form", bench::HAVE_AS, options, move || usize::from(solution.get()), set).into()
            },
        );
        let stated = when(
            move || solution.get(),
            move || {
                let shown = move || strength.with(|typed| FieldText::of(typed, sign));
                let kept = kept_too.clone();
                let set = move |text: String| {
                    strength.set(Typed::new(text));
                    kept();
                };
                quantity_field(desk, "ph-strength", bench::STRENGTH, "%", shown, set).flag(LOCAL).into()
            },
        );
        let steps = STEPS.iter().map(|step| words::with_unit(*step, "g", sign));
        let at = move || STEPS.iter().position(|known| *known == step.get()).unwrap_or(0);
        let scale = pick_field("ph-scale", bench::DOSE_SCALE, steps, at, move |n| {
            if let Some(known) = STEPS.get(n) {
                step.set(*known);
            }
            kept_as_well();
        });
        let tick = el("input")
            .attr("type", "checkbox")
            .checked_of(move || side_first.get())
            .on("change", move |event| side_first.set(ticked(&event)));
        let warned = el("p").class("small").text(words::dose::WITHOUT_SAMPLE).hidden_if(move || side_first.get());
        el("section")
            .class("set-with")
            .child(el("h3").text(bench::SET_WITH))
            .child(el("div").class("fields").child(which).child(form).child(stated).child(scale))
            .child(el("label").class("tick").child(tick).text(" ").text(bench::SIDE_FIRST))
            .child(warned)
    }

    /// How a reading is taken: with what, and in which dilution.
    pub(super) fn reading_fields(&self, id: &str) -> View {
        const INSTRUMENTS: &[Instrument] = &[Instrument::Meter, Instrument::Strip];
        let (instrument, way) = (self.instrument, self.way);
        let with = crate::ui::field::pick_one(
            &format!("{id}-with"),
            bench::READ_WITH,
            INSTRUMENTS,
            words::dose::instrument,
            move || instrument.get(),
            move |pick| instrument.set(pick),
        );
        let ways = SAMPLING_METHODS.iter().map(|(dilution, _)| words::dose::way(*dilution));
        let sample = pick_field(&format!("{id}-way"), bench::SAMPLE_OF, ways, move || way.get(), move |n| way.set(n));
        View::from_iter([with, sample])
    }
}
