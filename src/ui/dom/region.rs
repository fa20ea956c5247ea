//! Parts of the page that come and go.

use super::{El, View, effect};
use leptos::prelude::{Owner, document, untrack};
use std::cell::{Cell, RefCell};
use std::iter::successors;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, Node};

/// What stands between two empty text nodes, with the owner of everything that it follows.
struct NodeRange {
    start: Node,
    end: Node,
    parent: Owner,
    content: Owner,
}

impl NodeRange {
    /// An empty region and the fragment that it stands in until it is put into the page.
    fn new() -> (Self, View) {
        let view = View::nothing();
        let mark = || -> Node { document().create_text_node("").unchecked_into() };
        let (start, end) = (mark(), mark());
        let _ = view.node().append_child(&start);
        let _ = view.node().append_child(&end);
        let parent = Owner::current().unwrap_or_default();
        let content = parent.child();
        (Self { start, end, parent, content }, view)
    }

    /// Lets go of what is there and puts something else in its place.
    fn replace(&mut self, build: &dyn Fn() -> View) {
        let Some(holder) = self.end.parent_node() else { return };
        let going = || successors(self.start.next_sibling(), Node::next_sibling).take_while(|node| *node != self.end);
        leave_field(|focused| going().any(|node| node.contains(Some(focused))));
        self.content.cleanup();
        self.content = self.parent.child();
        while let Some(node) = self.start.next_sibling().filter(|node| *node != self.end) {
            let _ = holder.remove_child(&node);
        }
        let view = self.content.with(|| untrack(build));
        let _ = holder.insert_before(view.node(), Some(&self.end));
    }
}

/// Takes the focus out of a field that is about to go, while all that listens there is still alive: what was typed is
/// brought to its end as if the maker had left the field.
fn leave_field(goes: impl Fn(&Node) -> bool) {
    let focused = document().active_element().filter(|focused| goes(focused));
    if let Some(field) = focused.and_then(|focused| focused.dyn_into::<HtmlElement>().ok()) {
        // What listens may read signals, which this effect must not follow.
        untrack(|| {
            let _ = field.blur();
        });
    }
}

/// Shows what depends on a value. `of` is followed; `build` runs only when the value has changed, follows nothing by
/// itself, and what it made before is let go of.
pub(crate) fn dynamic<T: PartialEq + 'static>(
    of: impl Fn() -> T + 'static,
    build: impl Fn(&T) -> View + 'static,
) -> View {
    let shown = Rc::new(RefCell::new(None::<T>));
    let kept = shown.clone();
    let changed = move || {
        let now = of();
        let changed = kept.borrow().as_ref() != Some(&now);
        if changed {
            *kept.borrow_mut() = Some(now);
        }
        changed
    };
    let build = move || shown.borrow().as_ref().map_or_else(View::nothing, &build);
    region(Box::new(changed), Box::new(build))
}

fn region(changed: Box<dyn Fn() -> bool>, build: Box<dyn Fn() -> View>) -> View {
    let (mut region, view) = NodeRange::new();
    effect(Box::new(move || {
        if changed() {
            region.replace(&build);
        }
    }));
    view
}

/// Shows something while something holds.
pub(crate) fn when(holds: impl Fn() -> bool + 'static, build: impl Fn() -> View + 'static) -> View {
    let state = Rc::new(Cell::new(None));
    let kept = state.clone();
    let changed = move || {
        let now = Some(holds());
        kept.replace(now) != now
    };
    let build = move || if state.get() == Some(true) { build() } else { View::nothing() };
    region(Box::new(changed), Box::new(build))
}

/// A row of a list and the owner of everything that it follows.
struct KeyedRow {
    key: u32,
    element: Element,
    owner: Owner,
}

/// Shows a row for each key, in order. A row is made once; it moves when its key moves, and goes when its key goes.
pub(crate) fn each(keys: impl Fn() -> Vec<u32> + 'static, build: impl Fn(u32) -> El + 'static) -> View {
    rows(Box::new(keys), Box::new(build))
}

fn rows(keys: Box<dyn Fn() -> Vec<u32>>, build: Box<dyn Fn(u32) -> El>) -> View {
    let (region, view) = NodeRange::new();
    let mut rows: Vec<KeyedRow> = Vec::new();
    let mut shown: Option<Vec<u32>> = None;
    effect(Box::new(move || {
        let keys = keys();
        // Most of what is followed leaves the list as it is: not one node is asked for then.
        if shown.as_ref() == Some(&keys) {
            return;
        }
        let Some(holder) = region.end.parent_node() else { return };
        rows.retain(|row| {
            let stays = keys.contains(&row.key);
            if !stays {
                leave_field(|focused| row.element.contains(Some(focused)));
                row.owner.cleanup();
                row.element.remove();
            }
            stays
        });
        let mut next = region.end.clone();
        for key in keys.iter().rev() {
            let made = rows.iter().find(|row| row.key == *key).map(|row| row.element.clone());
            let element = made.unwrap_or_else(|| {
                let owner = region.parent.child();
                let element = owner.with(|| untrack(|| build(*key))).element().clone();
                rows.push(KeyedRow { key: *key, element: element.clone(), owner });
                element
            });
            let element: &Node = &element;
            // A row that stands right stays untouched, and with it the focus in it.
            if element.next_sibling().as_ref() != Some(&next) {
                let _ = holder.insert_before(element, Some(&next));
            }
            next = element.clone();
        }
        shown = Some(keys);
    }));
    view
}
