//! What the domain is kept free of: the machine, the browser, and floats in the rooms of exact numbers.

use crate::arrows::ROOMS;
use crate::hold;
use crate::paths::named_in;
use crate::source::Source;
use proc_macro2::{TokenStream, TokenTree};
use syn::visit::{self, Visit};
use syn::{LitFloat, Macro};

/// Rooms whose numbers are integers.
const EXACT: [&str; 3] = ["quantity", "formula", "sheet"];

/// Files of exact rooms that hold a physical model, which reckons in floats and rounds once at its end.
const MODELS: [&str; 10] = [
    "src/sheet/fats.rs",
    "src/sheet/lye_acids.rs",
    "src/sheet/ph/",
    "src/sheet/in_water.rs",
    "src/sheet/preservation.rs",
    "src/sheet/swap/answer.rs",
    "src/sheet/swap/few.rs",
    "src/sheet/swap/mixture.rs",
    "src/sheet/swap/nearest.rs",
    "src/sheet/swap/simplex.rs",
];

/// Modules of the standard library that reach the machine.
const MACHINE: [&str; 7] = ["env", "fs", "io", "net", "process", "thread", "time"];
/// Crates of the browser.
const BROWSER: [&str; 6] = ["gloo_storage", "js_sys", "leptos", "wasm_bindgen", "wasm_bindgen_futures", "web_sys"];
/// Macros that print.
const PRINTING: [&str; 5] = ["dbg!", "eprint!", "eprintln!", "print!", "println!"];

/// What of a source reaches the machine or the browser.
fn impure(source: &Source) -> Vec<String> {
    let wrong = named_in(source).into_iter().filter(|named| !named.own).filter_map(|named| {
        let first = named.segments.first()?.as_str();
        let machine = first == "std" && named.segments.get(1).is_some_and(|next| MACHINE.contains(&next.as_str()));
        let prints = PRINTING.contains(&first) && named.segments.len() == 1;
        (machine || prints || BROWSER.contains(&first)).then(|| source.at(named.line, &named.text()))
    });
    wrong.collect()
}

/// Where a source reckons in floats: their types and their literals.
fn floats(source: &Source) -> Vec<String> {
    let mut reader = Floats::default();
    reader.visit_file(&source.syntax);
    reader.lines.into_iter().map(|line| source.at(line, "a float among exact numbers")).collect()
}

#[derive(Default)]
struct Floats {
    lines: Vec<usize>,
}

impl Floats {
    fn tokens(&mut self, tokens: TokenStream) {
        for token in tokens {
            match token {
                TokenTree::Group(group) => self.tokens(group.stream()),
                TokenTree::Ident(name) if is_float(&name) => self.lines.push(name.span().start().line),
                TokenTree::Literal(literal) => {
                    if matches!(syn::parse_str(&literal.to_string()), Ok(syn::Lit::Float(_))) {
                        self.lines.push(literal.span().start().line);
                    }
                }
                _ => {}
            }
        }
    }
}

fn is_float(name: &syn::Ident) -> bool {
    name == "f32" || name == "f64"
}

impl Visit<'_> for Floats {
    fn visit_ident(&mut self, name: &syn::Ident) {
        if is_float(name) {
            self.lines.push(name.span().start().line);
        }
    }

    fn visit_lit_float(&mut self, literal: &LitFloat) {
        self.lines.push(literal.span().start().line);
    }

    fn visit_macro(&mut self, call: &Macro) {
        self.tokens(call.tokens.clone());
        visit::visit_macro(self, call);
    }
}

#[test]
fn domain_has_no_clock_no_randomness_no_input_and_no_browser() {
    for room in ROOMS {
        hold(&format!("src/{room}"), impure);
    }
}

#[test]
fn amounts_are_no_floats() {
    for room in EXACT {
        hold(&format!("src/{room}"), |source| {
            let model = MODELS.iter().any(|model| source.path.starts_with(model));
            if model { Vec::new() } else { floats(source) }
        });
    }
}

#[test]
fn machine_and_browser_are_found_however_they_are_named() {
    for bad in [
        "use std::fs;",
        "use std::{rc::Rc, time::{Duration, Instant as Clock}};",
        "fn f() { std::env::args(); }",
        "fn f() { println!(\"here\"); }",
        "use leptos::prelude::RwSignal;",
        "fn f() -> web_sys::Element { g() }",
    ] {
        assert!(!impure(&Source::new("src/facts/table.rs", bad)).is_empty(), "{bad}");
    }
    let good = "use std::rc::Rc; use crate::quantity::time; fn f() { print(); }";
    assert_eq!(impure(&Source::new("src/facts/table.rs", good)), Vec::<String>::new());
}

#[test]
fn float_is_found_as_type_and_as_literal() {
    for bad in ["fn f(a: f64) {}", "const A: i64 = (1.5) as i64;", "fn f() { g!(2.0) }", "fn f() { f32::from(a) }"] {
        assert_eq!(floats(&Source::new("src/formula/line.rs", bad)).len(), 1, "{bad}");
    }
    assert_eq!(floats(&Source::new("src/formula/line.rs", "// f64\nfn f(a: i64) -> i64 { a.0 }")).len(), 0);
}
