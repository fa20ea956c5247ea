//! The view layer by itself, in a real browser: keyed lists, regions, owners, listeners.

use super::{El, View, dynamic, each, effect, el, follow, when};
use leptos::prelude::*;
use leptos::task::tick;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_test::wasm_bindgen_test;
use web_sys::{Element, Event, HtmlElement};

/// What the browser refused.
type Outcome<T = ()> = Result<T, JsValue>;

/// An element in the page, and the owner of all that stands in it.
struct Stage {
    holder: HtmlElement,
    owner: Owner,
}

impl Stage {
    fn new(build: impl FnOnce() -> View) -> Outcome<Self> {
        let holder: HtmlElement = document().create_element("div")?.unchecked_into();
        document().body().ok_or("a page without a body")?.append_child(&holder)?;
        // Mounting starts what runs the effects.
        mount_to(holder.clone(), || ()).forget();
        let owner = Owner::new();
        owner.with(|| build().put_into(&holder));
        Ok(Self { holder, owner })
    }

    fn text(&self) -> String {
        self.holder.text_content().unwrap_or_default()
    }

    fn all(&self, selector: &str) -> Outcome<Vec<Element>> {
        let found = self.holder.query_selector_all(selector)?;
        Ok((0..found.length()).filter_map(|n| found.get(n)).map(|node| node.unchecked_into()).collect())
    }

    fn one(&self, selector: &str) -> Outcome<HtmlElement> {
        Ok(self.holder.query_selector(selector)?.ok_or("no such element")?.unchecked_into())
    }
}

impl Drop for Stage {
    fn drop(&mut self) {
        self.owner.cleanup();
        self.holder.remove();
    }
}

/// What follows a signal that follows another one has run, too.
async fn rest() {
    for _ in 0..3 {
        tick().await;
    }
}

/// How often something happened.
#[derive(Clone, Default)]
struct Calls(Rc<Cell<u32>>);

impl Calls {
    fn add(&self) {
        self.0.set(self.0.get() + 1);
    }

    fn get(&self) -> u32 {
        self.0.get()
    }
}

fn row(key: u32) -> El {
    el("p").text(&key.to_string())
}

fn is_focused(element: &Element) -> bool {
    document().active_element().as_ref() == Some(element)
}

#[wasm_bindgen_test]
async fn keyed_rows_are_made_once_and_move_with_their_keys() -> Outcome {
    let (keys, made) = (RwSignal::new(vec![1, 2, 3]), Calls::default());
    let counted = made.clone();
    let stage = Stage::new(|| {
        each(
            move || keys.get(),
            move |key| {
                counted.add();
                row(key)
            },
        )
    })?;
    let before = stage.all("p")?;
    for (order, text, expected) in
        [(vec![3, 1, 2], "312", [2, 0, 1]), (vec![2, 1, 3], "213", [1, 0, 2]), (vec![1, 2, 3], "123", [0, 1, 2])]
    {
        keys.set(order);
        rest().await;
        assert_eq!(stage.text(), text);
        for (element, was) in stage.all("p")?.iter().zip(expected) {
            assert!(*element == before[was], "another element in {text}");
        }
    }
    assert_eq!(made.get(), 3);
    Ok(())
}

#[wasm_bindgen_test]
async fn keyed_row_comes_between_and_goes_without_touching_the_others() -> Outcome {
    let keys = RwSignal::new(vec![1, 2]);
    let stage = Stage::new(|| {
        let rows = each(move || keys.get(), |key| el("input").id(&format!("row-{key}")));
        View::from_iter([View::from("before"), rows, View::from("behind")])
    })?;
    let second = stage.one("#row-2")?;
    second.focus()?;
    for (now, ids) in [(vec![1, 3, 2], "row-1 row-3 row-2"), (vec![3, 2], "row-3 row-2"), (vec![2, 4], "row-2 row-4")] {
        keys.set(now);
        rest().await;
        let shown: Vec<String> = stage.all("input")?.iter().map(Element::id).collect();
        assert_eq!(shown.join(" "), ids);
        assert!(is_focused(&second), "the focus left a row that stays, at {ids}");
    }
    keys.set(Vec::new());
    rest().await;
    assert_eq!((stage.all("input")?.len(), stage.text().as_str()), (0, "beforebehind"));
    Ok(())
}

#[wasm_bindgen_test]
async fn dynamic_builds_anew_only_when_its_value_changes_and_follows_nothing_it_builds() -> Outcome {
    let (number, beside, built) = (RwSignal::new(1), RwSignal::new("a"), Calls::default());
    let counted = built.clone();
    let stage = Stage::new(|| {
        dynamic(
            move || number.get() / 10,
            move |tens| {
                counted.add();
                el("p").text(&format!("{tens}{}", beside.get())).into()
            },
        )
    })?;
    assert_eq!((stage.text().as_str(), built.get()), ("0a", 1));
    let first = stage.one("p")?;
    number.set(9);
    beside.set("b");
    rest().await;
    assert_eq!((stage.text().as_str(), built.get()), ("0a", 1));
    assert!(stage.one("p")? == first);
    number.set(10);
    rest().await;
    assert_eq!((stage.text().as_str(), built.get()), ("1b", 2));
    Ok(())
}

#[wasm_bindgen_test]
async fn clean_up_runs_once_when_its_region_or_row_goes() -> Outcome {
    let (shown, keys, ended) = (RwSignal::new(true), RwSignal::new(vec![1, 2]), RwSignal::new(Vec::new()));
    let ends = move |what: u32| on_cleanup(move || ended.update(|ended| ended.push(what)));
    let stage = Stage::new(|| {
        let region = when(
            move || shown.get(),
            move || {
                ends(0);
                row(0).into()
            },
        );
        let rows = each(
            move || keys.get(),
            move |key| {
                ends(key);
                row(key)
            },
        );
        View::from_iter([region, rows])
    })?;
    keys.set(vec![2]);
    rest().await;
    assert_eq!(ended.get_untracked(), [1]);
    shown.set(false);
    rest().await;
    assert_eq!(ended.get_untracked(), [1, 0]);
    drop(stage);
    assert_eq!(ended.get_untracked(), [1, 0, 2]);
    Ok(())
}

#[wasm_bindgen_test]
async fn listener_ends_with_its_view_and_reads_no_signal_that_is_gone() -> Outcome {
    let (shown, heard) = (RwSignal::new(true), Calls::default());
    let counted = heard.clone();
    let stage = Stage::new(|| {
        when(
            move || shown.get(),
            move || {
                // Goes with the view: reading it afterwards would panic.
                let own = RwSignal::new(0);
                let counted = counted.clone();
                let press = move || {
                    own.update(|own| *own += 1);
                    counted.add();
                };
                el("button").press(press).text_of(move || own.get().to_string()).into()
            },
        )
    })?;
    let button = stage.one("button")?;
    button.click();
    rest().await;
    assert_eq!((stage.text().as_str(), heard.get()), ("1", 1));
    shown.set(false);
    rest().await;
    button.click();
    button.dispatch_event(&Event::new("click")?)?;
    rest().await;
    assert_eq!(heard.get(), 1, "an event on a view that is gone did something");
    shown.set(true);
    rest().await;
    stage.one("button")?.click();
    rest().await;
    assert_eq!((stage.text().as_str(), heard.get()), ("1", 2));
    Ok(())
}

#[wasm_bindgen_test]
async fn field_is_left_before_its_region_or_row_goes() -> Outcome {
    let (shown, keys, left) = (RwSignal::new(true), RwSignal::new(vec![1, 2]), RwSignal::new(Vec::new()));
    let field = move |id: u32| {
        // What listens may still read the signals of the view.
        let own = RwSignal::new(id);
        el("input").id(&format!("field-{id}")).on("blur", move |_| left.update(|left| left.push(own.get())))
    };
    let stage = Stage::new(|| {
        let region = when(move || shown.get(), move || field(0).into());
        View::from_iter([region, each(move || keys.get(), field)])
    })?;
    stage.one("#field-0")?.focus()?;
    shown.set(false);
    rest().await;
    assert_eq!(left.get_untracked(), [0]);
    stage.one("#field-1")?.focus()?;
    keys.set(vec![2]);
    rest().await;
    assert_eq!(left.get_untracked(), [0, 1]);
    assert_eq!(stage.all("input")?.len(), 1);
    // A field without the focus goes in silence.
    keys.set(Vec::new());
    rest().await;
    assert_eq!(left.get_untracked(), [0, 1]);
    Ok(())
}

#[wasm_bindgen_test]
async fn text_attributes_and_classes_follow_signals_until_the_view_goes() -> Outcome {
    let (shown, number, asked) = (RwSignal::new(true), RwSignal::new(1), Calls::default());
    let counted = asked.clone();
    let stage = Stage::new(|| {
        when(
            move || shown.get(),
            move || {
                let counted = counted.clone();
                let text = move || {
                    counted.add();
                    number.get().to_string()
                };
                let odd = move || (number.get() % 2 == 1).then(|| "odd".to_owned());
                el("p").text_of(text).attr_of("title", odd).class_if("large", move || number.get() > 9).into()
            },
        )
    })?;
    let shows = |element: &Element| {
        (element.text_content().unwrap_or_default(), element.get_attribute("title"), element.class_name())
    };
    let line = stage.one("p")?;
    assert_eq!(shows(&line), ("1".into(), Some("odd".into()), String::new()));
    number.set(10);
    rest().await;
    assert_eq!(shows(&line), ("10".into(), None, "large".into()));
    shown.set(false);
    rest().await;
    let before = asked.get();
    number.set(3);
    rest().await;
    assert_eq!(asked.get(), before, "a text was asked for after its view had gone");
    assert_eq!(shows(&line), ("10".into(), None, "large".into()));
    Ok(())
}

#[wasm_bindgen_test]
async fn regions_nest_and_keep_their_places() -> Outcome {
    let (outer, inner, ended) = (RwSignal::new(true), RwSignal::new(1), RwSignal::new(0));
    let stage = Stage::new(|| {
        let nested = move || {
            let number = dynamic(
                move || inner.get(),
                move |number| {
                    on_cleanup(move || ended.update(|ended| *ended += 1));
                    View::from(number.to_string())
                },
            );
            View::from_iter([View::from("("), number, View::from(")")])
        };
        View::from_iter([View::from("a"), when(move || outer.get(), nested), View::from("b")])
    })?;
    assert_eq!(stage.text(), "a(1)b");
    inner.set(2);
    rest().await;
    assert_eq!((stage.text().as_str(), ended.get_untracked()), ("a(2)b", 1));
    outer.set(false);
    inner.set(3);
    rest().await;
    assert_eq!(stage.text(), "ab");
    let gone = ended.get_untracked();
    inner.set(4);
    rest().await;
    assert_eq!(ended.get_untracked(), gone, "an inner region lived on");
    outer.set(true);
    rest().await;
    assert_eq!(stage.text(), "a(4)b");
    Ok(())
}

#[wasm_bindgen_test]
async fn event_in_the_middle_of_an_effect_adds_nothing_to_what_it_follows() -> Outcome {
    let (cause, beside, runs) = (RwSignal::new(0), RwSignal::new(0), Calls::default());
    let counted = runs.clone();
    let _stage = Stage::new(|| {
        let button = el("button").press(move || {
            let _ = beside.get();
        });
        let pressed: HtmlElement = button.element().clone().unchecked_into();
        effect(Box::new(move || {
            let _ = cause.get();
            counted.add();
            pressed.click();
        }));
        button.into()
    })?;
    assert_eq!(runs.get(), 1);
    beside.set(1);
    rest().await;
    assert_eq!(runs.get(), 1, "the effect followed what the listener had read");
    cause.set(1);
    rest().await;
    assert_eq!(runs.get(), 2);
    Ok(())
}

#[wasm_bindgen_test]
async fn followed_value_changes_only_when_it_is_another_one() -> Outcome {
    let (number, asked) = (RwSignal::new(1), Calls::default());
    let counted = asked.clone();
    let stage = Stage::new(|| {
        let tens = follow(move || number.get() / 10);
        let text = move || {
            counted.add();
            tens.get().to_string()
        };
        el("p").text_of(text).into()
    })?;
    number.set(5);
    rest().await;
    assert_eq!((stage.text().as_str(), asked.get()), ("0", 1));
    number.set(15);
    rest().await;
    assert_eq!((stage.text().as_str(), asked.get()), ("1", 2));
    Ok(())
}

#[wasm_bindgen_test]
fn text_of_the_maker_never_becomes_markup() -> Outcome {
    let hostile = "<img src=x onerror=alert(1)>";
    let stage = Stage::new(|| el("p").attr("title", hostile).text(hostile).into())?;
    assert_eq!((stage.text().as_str(), stage.all("img")?.len()), (hostile, 0));
    assert_eq!(stage.one("p")?.get_attribute("title").as_deref(), Some(hostile));
    Ok(())
}
