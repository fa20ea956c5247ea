//! What the page is kept free of: whatever can panic by choice or by an index, and raw markup.

use crate::hold;
use crate::source::{Source, is_test_item, is_test_method};
use proc_macro2::{Delimiter, TokenStream, TokenTree};
use syn::visit::{self, Visit};
use syn::{ExprIndex, ExprMethodCall, Ident, ImplItemFn, Item, LitStr, Macro};

/// Methods that panic on what they were not made for.
const METHODS: [&str; 9] = [
    "copy_from_slice",
    "expect",
    "expect_err",
    "expect_throw",
    "split_at",
    "swap_remove",
    "unwrap",
    "unwrap_err",
    "unwrap_throw",
];
/// Macros that panic.
const MACROS: [&str; 8] = ["assert", "assert_eq", "assert_ne", "dbg", "panic", "todo", "unimplemented", "unreachable"];
/// Where an element is made, which only an invalid name in our own code can refuse.
const MAKES_ELEMENTS: &str = "src/ui/dom/el.rs";
/// Words after which a bracket opens a list and no index.
const BEFORE_A_LIST: [&str; 9] = ["as", "break", "else", "if", "in", "let", "match", "mut", "return"];

/// What of a source may panic, or writes markup.
fn faults(source: &Source) -> Vec<String> {
    if source.is_test() {
        return Vec::new();
    }
    let mut reader = Faults::default();
    reader.visit_file(&source.syntax);
    let mut found = reader.found;
    // Two elements are made there, and nothing else may throw.
    if source.path == MAKES_ELEMENTS {
        let thrown = found.iter().filter(|(_, what)| what == ".unwrap_throw()").count();
        if thrown <= 2 {
            found.retain(|(_, what)| what != ".unwrap_throw()");
        }
    }
    found.iter().map(|(line, what)| source.at(*line, what)).collect()
}

#[derive(Default)]
struct Faults {
    found: Vec<(usize, String)>,
}

impl Faults {
    fn note(&mut self, name: &Ident, what: String) {
        self.found.push((name.span().start().line, what));
    }

    /// A method by its name, wherever it stands.
    fn method(&mut self, name: &Ident) {
        if METHODS.iter().any(|method| name == method) {
            self.note(name, format!(".{name}()"));
        }
    }

    fn called(&mut self, name: &Ident) {
        if MACROS.iter().any(|called| name == called) {
            self.note(name, format!("{name}!"));
        }
    }

    fn markup(&mut self, text: &str, line: usize) {
        if text.contains("inner_html") || text.contains("innerHTML") || text.contains("type=\"number\"") {
            self.found.push((line, format!("raw markup: {text}")));
        }
    }

    /// What is handed to a macro, which the parser leaves as it is.
    fn tokens(&mut self, tokens: TokenStream) {
        let mut before: Option<TokenTree> = None;
        let mut after_dot = false;
        for token in tokens {
            match &token {
                TokenTree::Group(group) => {
                    if group.delimiter() == Delimiter::Bracket && before.as_ref().is_some_and(can_be_indexed) {
                        self.found.push((group.span_open().start().line, "an index".into()));
                    }
                    self.tokens(group.stream());
                }
                TokenTree::Ident(name) if after_dot => self.method(name),
                TokenTree::Punct(mark) if mark.as_char() == '!' => {
                    if let Some(TokenTree::Ident(name)) = &before {
                        self.called(name);
                    }
                }
                TokenTree::Literal(literal) => self.markup(&literal.to_string(), literal.span().start().line),
                _ => {}
            }
            after_dot = matches!(&token, TokenTree::Punct(mark) if mark.as_char() == '.');
            before = Some(token);
        }
    }
}

/// True for what a bracket behind it would index.
fn can_be_indexed(token: &TokenTree) -> bool {
    match token {
        TokenTree::Ident(name) => !BEFORE_A_LIST.iter().any(|word| name == word),
        TokenTree::Group(group) => matches!(group.delimiter(), Delimiter::Parenthesis | Delimiter::Bracket),
        TokenTree::Punct(mark) => mark.as_char() == '?',
        TokenTree::Literal(_) => false,
    }
}

impl Visit<'_> for Faults {
    fn visit_item(&mut self, item: &Item) {
        if !is_test_item(item) {
            visit::visit_item(self, item);
        }
    }

    fn visit_impl_item_fn(&mut self, method: &ImplItemFn) {
        if !is_test_method(method) {
            visit::visit_impl_item_fn(self, method);
        }
    }

    fn visit_expr_index(&mut self, index: &ExprIndex) {
        self.found.push((index.bracket_token.span.open().start().line, "an index".into()));
        visit::visit_expr_index(self, index);
    }

    fn visit_expr_method_call(&mut self, call: &ExprMethodCall) {
        self.method(&call.method);
        visit::visit_expr_method_call(self, call);
    }

    fn visit_expr_path(&mut self, path: &syn::ExprPath) {
        // `Option::unwrap`, handed on as a function.
        if path.path.segments.len() > 1
            && let Some(last) = path.path.segments.last()
        {
            self.method(&last.ident);
        }
        visit::visit_expr_path(self, path);
    }

    fn visit_macro(&mut self, call: &Macro) {
        if let Some(last) = call.path.segments.last() {
            self.called(&last.ident);
        }
        self.tokens(call.tokens.clone());
    }

    fn visit_ident(&mut self, name: &Ident) {
        self.markup(&name.to_string(), name.span().start().line);
    }

    fn visit_lit_str(&mut self, literal: &LitStr) {
        self.markup(&literal.value(), literal.span().start().line);
    }
}

#[test]
fn page_cannot_panic_by_choice_and_writes_no_raw_markup() {
    hold("src/ui", faults);
}

#[test]
fn every_way_to_panic_is_found() {
    for bad in [
        "let a = b[0];",
        "let a = &b[1..];",
        "let a = &text[..n];",
        "f()[0] = 1;",
        "let a = format!(\"{}\", b[0]);",
        "let a = vec![f(b)[0]];",
        "let a = b.unwrap();",
        "let a = b.expect(\"there\");",
        "let a = b.map(Option::unwrap);",
        "let a = format!(\"{}\", b.unwrap());",
        "panic!(\"no\");",
        "std::unreachable!();",
        "if a { todo!() }",
        "assert_eq!(a, b);",
        "let a = matches!(b, c if c[0] == 1);",
        "let (a, b) = text.split_at(3);",
        "element.set_inner_html(text);",
        "let a = \"<input type=\\\"number\\\">\";",
        "let a = js_sys::Reflect::set(b, \"innerHTML\");",
    ] {
        let text = format!("fn f() {{ {bad} }}");
        assert_eq!(faults(&Source::new("src/ui/shell.rs", &text)).len(), 1, "{bad}");
    }
}

#[test]
fn what_cannot_panic_is_let_through() {
    for good in [
        "let a = [1, 2]; for b in [1, 2] {} let c: [u8; 2] = a; let [d, e] = a;",
        "let a = b.first(); let c = b.get(1..); let d = b.unwrap_or_default();",
        "let a = vec![1, 2]; let b = matches!(a, [1, ..]); f![a, [b]];",
    ] {
        let text = format!("fn f() {{ {good} }}");
        assert_eq!(faults(&Source::new("src/ui/shell.rs", &text)), Vec::<String>::new());
    }
    let tests = "#[cfg(test)] mod tests { fn f() { a[0].unwrap(); } } #[test] fn g() { panic!() }";
    assert_eq!(faults(&Source::new("src/ui/shell.rs", tests)), Vec::<String>::new());
    assert_eq!(faults(&Source::new("src/ui/tests.rs", "fn f() { a[0]; }")), Vec::<String>::new());
}
