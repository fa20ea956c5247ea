//! How long files and functions may be.

use crate::source::{Source, folder, is_test_item, is_test_method};
use syn::visit::{self, Visit};
use syn::{Block, Ident, ImplItemFn, Item, ItemFn, TraitItemFn};

/// Lines of a file.
const MOST_LINES: usize = 400;

/// Code lines of a function from which it is long, and very long.
const LONG: usize = 25;
const VERY_LONG: usize = 40;

/// How many of a thousand functions of `src` may be so long: a house that grows may have more of them, but no larger a share.
/// Lower them when there are fewer; never raise them.
const MOST_LONG: usize = 63;
const MOST_VERY_LONG: usize = 20;

/// A function and the lines of its body that hold code.
struct Function {
    at: String,
    lines: usize,
}

/// The functions of a source but for those of tests.
fn functions(source: &Source) -> Vec<Function> {
    if source.is_test() {
        return Vec::new();
    }
    let mut reader = Reader { source, lines: source.text.lines().collect(), found: Vec::new() };
    reader.visit_file(&source.syntax);
    reader.found
}

struct Reader<'a> {
    source: &'a Source,
    lines: Vec<&'a str>,
    found: Vec<Function>,
}

impl Reader<'_> {
    /// Counts what stands between the braces, without comments and empty lines.
    fn note(&mut self, name: &Ident, body: &Block) {
        let (open, close) = (body.brace_token.span.open().start().line, body.brace_token.span.close().end().line);
        let inside = self.lines.get(open..close.saturating_sub(1)).unwrap_or_default();
        let is_code = |line: &&&str| !line.trim().is_empty() && !line.trim_start().starts_with("//");
        let lines = inside.iter().filter(is_code).count();
        self.found.push(Function { at: format!("{}:{} {name}", self.source.path, name.span().start().line), lines });
    }
}

impl Visit<'_> for Reader<'_> {
    fn visit_item(&mut self, item: &Item) {
        if !is_test_item(item) {
            visit::visit_item(self, item);
        }
    }

    fn visit_item_fn(&mut self, function: &ItemFn) {
        self.note(&function.sig.ident, &function.block);
        visit::visit_item_fn(self, function);
    }

    fn visit_impl_item_fn(&mut self, method: &ImplItemFn) {
        if !is_test_method(method) {
            self.note(&method.sig.ident, &method.block);
            visit::visit_impl_item_fn(self, method);
        }
    }

    fn visit_trait_item_fn(&mut self, method: &TraitItemFn) {
        if let Some(body) = &method.default {
            self.note(&method.sig.ident, body);
        }
        visit::visit_trait_item_fn(self, method);
    }
}

/// What is wrong with the length of a file.
fn too_long(source: &Source) -> Option<String> {
    let lines = source.text.lines().count();
    (lines > MOST_LINES).then(|| format!("{}: {lines} lines", source.path))
}

#[test]
fn files_are_short() {
    let wrong: Vec<String> = folder("src").iter().filter_map(too_long).collect();
    assert!(wrong.is_empty(), "at most {MOST_LINES} lines:\n{}", wrong.join("\n"));
}

#[test]
fn long_functions_do_not_become_more() {
    let mut functions: Vec<Function> = folder("src").iter().flat_map(functions).collect();
    assert!(functions.len() > 2_000, "{}", functions.len());
    let all = functions.len();
    functions.retain(|function| function.lines > LONG);
    functions.sort_by_key(|function| std::cmp::Reverse(function.lines));
    let very_long = functions.iter().filter(|function| function.lines > VERY_LONG).count();
    println!(
        "{all} functions; {} functions of more than {LONG} code lines, {very_long} of more than {VERY_LONG}",
        functions.len()
    );
    let list: Vec<String> = functions.iter().map(|function| format!("{:>4} {}", function.lines, function.at)).collect();
    let of_thousand = |count: usize| count * 1000 / all;
    assert!(
        of_thousand(functions.len()) <= MOST_LONG && of_thousand(very_long) <= MOST_VERY_LONG,
        "of {all} functions {} have more than {LONG} code lines (at most {MOST_LONG} of a thousand), {very_long} more than \
         {VERY_LONG} (at most {MOST_VERY_LONG} of a thousand):\n{}",
        functions.len(),
        list.join("\n")
    );
}

#[test]
fn long_file_is_found() {
    let file = |lines: usize| Source::new("src/a.rs", &"// one\n".repeat(lines));
    assert_eq!(too_long(&file(400)), None);
    assert_eq!(too_long(&file(401)).unwrap(), "src/a.rs: 401 lines");
}

#[test]
fn code_lines_of_every_function_are_counted() {
    let text = "fn a() {\n    // why\n    b();\n\n    c(\n        d,\n    );\n}\nfn one() { b(); }\n\
                struct S;\nimpl S {\n    fn m(\n        &self,\n    ) {\n        b();\n    }\n}\n\
                trait T {\n    fn t() {\n        b();\n        c();\n    }\n    fn u();\n}\n\
                #[cfg(test)]\nmod tests {\n    fn x() {\n        b();\n    }\n}\n";
    let found = functions(&Source::new("src/a.rs", text));
    let found: Vec<(&str, usize)> =
        found.iter().map(|function| (function.at.rsplit(' ').next().unwrap(), function.lines)).collect();
    assert_eq!(found, [("a", 4), ("one", 0), ("m", 1), ("t", 2)]);
}
