//! In the form of a pull: a photograph is taken or picked, looked at, and kept or not.

use super::super::typing::Typing;
use super::super::{Proof, of_study};
use super::small::small;
use crate::ui::browser::{self, Drawing};
use crate::ui::dom::{El, LOCAL, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::study::{Photograph, Pull, Study, StudyPhotograph, attempts, bare};
use hundred_parts::quantity::Day;
use hundred_parts::words::photographs as words;
use leptos::prelude::*;
use std::cell::RefCell;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// What has the focus once a photograph is there to be looked at.
const PREVIEW_TITLE: &str = "photograph-preview";
/// What has it once that is kept or not.
const TITLE: &str = "pull-photographs";

/// A photograph that is not kept yet.
#[derive(PartialEq)]
struct Chosen {
    /// The study and the form that it was chosen in.
    form: String,
    bytes: Vec<u8>,
    photograph: Photograph,
    /// How many bytes the file had.
    before: u64,
    address: String,
}

impl Drop for Chosen {
    fn drop(&mut self) {
        browser::hide_photograph(&self.address);
    }
}

thread_local! {
    /// It outlives the view: whoever looks at another place meanwhile finds it again.
    static CHOSEN: RefCell<Option<Arc<Chosen>>> = const { RefCell::new(None) };
}

/// What the form shows of it.
#[derive(Clone, PartialEq)]
enum Shown {
    Nothing,
    Working,
    Refused(String),
    Chosen(Arc<Chosen>),
}

fn form_of(proof: Proof, form: &str) -> String {
    let study = proof.desk.now(|open| open.open_study().map(|study| study.id().as_str().to_owned()));
    format!("{}.{form}", study.unwrap_or_default())
}

fn chosen_in(form: &str) -> Option<Arc<Chosen>> {
    CHOSEN.with_borrow(|chosen| chosen.clone().filter(|chosen| chosen.form == form))
}

/// Whether a photograph was chosen in this form and is not kept yet.
pub(in crate::ui::proof) fn waits(proof: Proof, form: &str) -> bool {
    chosen_in(&form_of(proof, form)).is_some()
}

/// It is not wanted.
pub(in crate::ui::proof) fn discard(_: Proof) {
    CHOSEN.take();
}

/// The part of the form.
pub(in crate::ui::proof) fn in_form(proof: Proof, pull: Pull, form: &str, on: Typing) -> El {
    let key = form_of(proof, form);
    let shown = RwSignal::new(chosen_in(&key).map_or(Shown::Nothing, Shown::Chosen));
    let caption = Typing::new(proof, form, "caption", "");
    let pick = |id: &str, label: &str, camera: bool| {
        let key = key.clone();
        let input = el("input").id(id).flag(LOCAL).attr("type", "file").attr("accept", "image/*");
        let input = if camera { input.attr("capture", "environment") } else { input };
        let input = input.on("change", move |event| {
            if let Some(file) = browser::picked_files(&event).into_iter().next() {
                spawn_local(choose(key.clone(), file, shown));
            }
        });
        el("label").class("file").child(el("span").text(label)).child(input)
    };
    let own = of_study(proof, move |study: &Study| own(study, &pull), move |own| already(proof, own));
    el("section")
        .class("camera")
        .attr("aria-labelledby", TITLE)
        .child(el("h4").id(TITLE).attr("tabindex", "-1").text(words::TITLE))
        .child(own)
        .child(el("div").class("actions").child(pick("photograph-take", words::TAKE, true)).child(pick(
            "photograph-choose",
            words::CHOOSE,
            false,
        )))
        .child(el("p").class("small").text(words::ABOUT))
        .child(el("p").class("small").text(words::SAME_LIGHT))
        .child(el("div").attr("aria-live", "polite").child(dynamic(
            move || shown.get(),
            move |now| match now {
                Shown::Nothing => View::nothing(),
                Shown::Working => el("p").text(words::MAKING_SMALL).into(),
                Shown::Refused(why) => el("p").class("refused").text(why).into(),
                Shown::Chosen(chosen) => preview(Look { proof, pull, on, caption, shown }, chosen.clone()).into(),
            },
        )))
}

fn own(study: &Study, pull: &Pull) -> Vec<StudyPhotograph> {
    study.photographs_of(pull).cloned().collect()
}

fn already(proof: Proof, own: &[StudyPhotograph]) -> View {
    if own.is_empty() {
        return View::nothing();
    }
    proof.shots.ask(proof.desk, own.iter().map(|one| one.photograph.id));
    let list = el("ul").child(own.iter().map(|one| el("li").child(small(proof, one))).collect::<View>());
    el("div").class("shots").child(list).into()
}

/// Makes a picked file small and shows it.
async fn choose(form: String, file: web_sys::File, shown: RwSignal<Shown>) {
    // What was chosen before stays until there is another one.
    shown.try_set(Shown::Working);
    let made = made_small(form.clone(), &file).await;
    let now = match made {
        Ok(chosen) => {
            let chosen = Arc::new(chosen);
            CHOSEN.set(Some(chosen.clone()));
            Shown::Chosen(chosen)
        }
        Err(why) => Shown::Refused(why.to_owned()),
    };
    if shown.try_set(now).is_none() {
        browser::focus_soon(PREVIEW_TITLE.to_owned());
    }
}

async fn made_small(form: String, file: &web_sys::File) -> Result<Chosen, &'static str> {
    let drawing = Drawing::of(file).await.ok_or(words::NOT_READ)?;
    for (width, height, quality) in attempts(drawing.width, drawing.height) {
        let written = drawing.written(width, height, quality).await.ok_or(words::NOT_SMALL)?;
        let Some(bytes) = bare(&written).map(|jpeg| jpeg.bytes) else { continue };
        if let Ok(photograph) = Photograph::of(&bytes, String::new()) {
            let address = browser::show_photograph(&bytes).ok_or(words::NOT_READ)?;
            return Ok(Chosen { form, bytes, photograph, before: drawing.bytes, address });
        }
    }
    Err(words::NOT_SMALL)
}

/// What a preview needs of its form.
#[derive(Clone, Copy)]
struct Look {
    proof: Proof,
    pull: Pull,
    on: Typing,
    caption: Typing,
    shown: RwSignal<Shown>,
}

impl Look {
    fn day(self) -> Day {
        self.on.day().ok().flatten().unwrap_or_else(|| self.proof.today_now())
    }

    fn done(self, said: &str) {
        CHOSEN.take();
        self.caption.set(String::new());
        self.shown.try_set(Shown::Nothing);
        self.proof.desk.say(said, None);
        browser::focus_soon(TITLE.to_owned());
    }

    async fn keep(self, chosen: Arc<Chosen>) {
        let photograph = Photograph { caption: self.caption.now(), ..chosen.photograph.clone() };
        let has =
            self.proof.now(|study| study.photographs_of(&self.pull).any(|one| one.photograph.id == photograph.id));
        if has == Some(true) {
            return self.done(words::KEPT_ALREADY);
        }
        let kept = self.proof.desk.keep_photograph(self.pull, self.day(), photograph, &chosen.bytes).await;
        match kept {
            Ok(()) => self.done(words::KEPT),
            Err(why) => self.proof.desk.say(&why, None),
        }
    }
}

fn preview(look: Look, chosen: Arc<Chosen>) -> El {
    let Photograph { width, height, bytes, .. } = chosen.photograph;
    let measured = words::measured(width, height, bytes, chosen.before, look.proof.desk.sign);
    let called =
        move || format!("{} \u{201c}{}\u{201d}.", words::CAPTION_HINT, words::default_caption(&look.pull, look.day()));
    let (image, keeping) = (chosen.address.clone(), RwSignal::new(false));
    let keep = move || {
        if keeping.get_untracked() {
            return;
        }
        keeping.set(true);
        let chosen = chosen.clone();
        spawn_local(async move {
            look.keep(chosen).await;
            keeping.try_set(false);
        });
    };
    el("figure")
        .class("shot-preview")
        .child(el("h5").id(PREVIEW_TITLE).attr("tabindex", "-1").text(words::PREVIEW))
        .child(
            el("img")
                .attr("src", &image)
                .attr("alt", words::PREVIEW)
                .attr("width", &width.to_string())
                .attr("height", &height.to_string()),
        )
        .child(el("figcaption").class("small").text(&measured))
        .child(look.caption.words("photograph-caption", words::CAPTION).child(el("small").text_of(called)))
        .child(
            el("div")
                .class("actions")
                .child(button(words::KEEP).class("primary").press(keep))
                .child(button(words::DISCARD).press(move || look.done(words::DISCARDED))),
        )
}
