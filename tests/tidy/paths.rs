//! Every path that a source names, from the root of its crate or as it stands: in imports (grouped ones, too), types,
//! expressions, patterns, and in what is handed to macros.

use crate::source::Source;
use proc_macro2::{Spacing, TokenStream, TokenTree};
use syn::visit::{self, Visit};
use syn::{ItemMod, ItemUse, Macro, Path, UseTree, VisRestricted};

/// A path that a source names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Named {
    /// Its segments; of the own crate those from its root, of anything else as they stand. That of a macro ends in `!`.
    pub(crate) segments: Vec<String>,
    /// True if it leads into the own crate: by `crate`, `self` or `super`.
    pub(crate) own: bool,
    /// Where it stands.
    pub(crate) line: usize,
}

impl Named {
    /// True if it begins with all of these.
    pub(crate) fn starts_with(&self, segments: &[&str]) -> bool {
        self.segments.len() >= segments.len() && self.segments.iter().zip(segments).all(|(one, other)| one == other)
    }

    /// As it is written from the root.
    pub(crate) fn text(&self) -> String {
        self.segments.join("::")
    }
}

/// All paths that a source names.
pub(crate) fn named_in(source: &Source) -> Vec<Named> {
    let mut reader = Reader { module: source.module(), found: Vec::new() };
    reader.visit_file(&source.syntax);
    reader.found
}

/// Walks a source and knows in which module it is.
struct Reader {
    module: Vec<String>,
    found: Vec<Named>,
}

impl Reader {
    /// Notes a path, with `crate`, `self` and `super` followed to the root of the crate.
    fn note(&mut self, written: &[String], line: usize) {
        let mut from = self.module.clone();
        let mut own = false;
        let mut rest = written;
        while let Some((first, further)) = rest.split_first() {
            match first.as_str() {
                "crate" => from.clear(),
                "super" => {
                    from.pop();
                }
                "self" => {}
                _ => break,
            }
            (own, rest) = (true, further);
        }
        let segments = if own { from.into_iter().chain(rest.iter().cloned()).collect() } else { rest.to_vec() };
        self.found.push(Named { segments, own, line });
    }

    /// Notes each path of an import.
    fn import(&mut self, tree: &UseTree, before: &[String]) {
        let with = |last: String| before.iter().cloned().chain([last]).collect::<Vec<_>>();
        match tree {
            UseTree::Path(path) => self.import(&path.tree, &with(path.ident.to_string())),
            UseTree::Name(name) if name.ident == "self" => self.note(before, name.ident.span().start().line),
            UseTree::Name(name) => self.note(&with(name.ident.to_string()), name.ident.span().start().line),
            UseTree::Rename(name) if name.ident == "self" => self.note(before, name.ident.span().start().line),
            UseTree::Rename(name) => self.note(&with(name.ident.to_string()), name.ident.span().start().line),
            UseTree::Glob(glob) => self.note(&with("*".into()), glob.star_token.span.start().line),
            UseTree::Group(group) => group.items.iter().for_each(|tree| self.import(tree, before)),
        }
    }

    /// Notes each path in what is handed to a macro, which the parser leaves as it is.
    fn tokens(&mut self, tokens: TokenStream) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let is_colon = |at: usize| matches!(tokens.get(at), Some(TokenTree::Punct(mark)) if mark.as_char() == ':');
        // A name before `!`, but not before `!=`.
        let is_call = |at: usize| matches!(tokens.get(at), Some(TokenTree::Punct(mark)) if mark.as_char() == '!' && mark.spacing() == Spacing::Alone);
        let mut at = 0;
        while let Some(token) = tokens.get(at) {
            at += 1;
            match token {
                TokenTree::Group(group) => self.tokens(group.stream()),
                TokenTree::Ident(first) => {
                    let mut path = vec![first.to_string()];
                    while is_colon(at)
                        && is_colon(at + 1)
                        && let Some(TokenTree::Ident(next)) = tokens.get(at + 2)
                    {
                        path.push(next.to_string());
                        at += 3;
                    }
                    if is_call(at) {
                        mark_macro(&mut path);
                    }
                    // `pub(crate)` names no path.
                    if path != ["crate"] {
                        self.note(&path, first.span().start().line);
                    }
                }
                _ => {}
            }
        }
    }
}

fn segments(path: &Path) -> Vec<String> {
    path.segments.iter().map(|segment| segment.ident.to_string()).collect()
}

fn line_of(path: &Path) -> usize {
    path.segments.first().map_or(0, |first| first.ident.span().start().line)
}

fn mark_macro(path: &mut [String]) {
    if let Some(last) = path.last_mut() {
        last.push('!');
    }
}

impl Visit<'_> for Reader {
    fn visit_item_mod(&mut self, module: &ItemMod) {
        self.module.push(module.ident.to_string());
        visit::visit_item_mod(self, module);
        self.module.pop();
    }

    fn visit_item_use(&mut self, import: &ItemUse) {
        self.import(&import.tree, &[]);
    }

    fn visit_vis_restricted(&mut self, _: &VisRestricted) {
        // Who may see something is no import: `pub(in crate::ui)`.
    }

    fn visit_path(&mut self, path: &Path) {
        self.note(&segments(path), line_of(path));
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, call: &Macro) {
        let mut written = segments(&call.path);
        mark_macro(&mut written);
        self.note(&written, line_of(&call.path));
        self.tokens(call.tokens.clone());
    }
}

#[cfg(test)]
fn own_paths(path: &str, text: &str) -> Vec<String> {
    named_in(&Source::new(path, text)).iter().filter(|named| named.own).map(Named::text).collect()
}

#[test]
fn grouped_and_nested_imports_count() {
    let found = own_paths("src/facts/table.rs", "use crate::{rules, words::{self, page::A as B}, desk::*};");
    assert_eq!(found, ["rules", "words", "words::page::A", "desk::*"]);
}

#[test]
fn paths_in_types_expressions_patterns_and_macros_count() {
    let text = "fn f(a: crate::desk::A) -> Vec<crate::rules::B> {
        if let crate::sheet::C::D = a {}
        crate::words::say();
        vec![format!(\"{}\", crate::paper::e(&[crate::batch::F]))]
    }";
    let found = own_paths("src/facts/table.rs", text);
    let expected = ["desk::A", "rules::B", "sheet::C::D", "words::say", "paper::e", "batch::F"];
    assert_eq!(found, expected);
}

#[test]
fn climbing_out_of_a_room_counts() {
    assert_eq!(own_paths("src/sheet/ph/solve.rs", "use super::super::super::words::page;"), ["words::page"]);
    assert_eq!(own_paths("src/sheet/ph/solve.rs", "mod inner { use super::super::lye; }"), ["sheet::ph::lye"]);
    assert_eq!(own_paths("src/sheet/ph/mod.rs", "use self::solve::x;"), ["sheet::ph::solve::x"]);
}

#[test]
fn visibilities_are_no_imports() {
    let text = "pub(crate) struct A; pub(in crate::ui) fn f() {} macro_rules! m { () => { pub(crate) struct B; } }";
    assert_eq!(own_paths("src/ui/shell.rs", text), Vec::<String>::new());
}
