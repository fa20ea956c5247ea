//! A public type name means one thing.

use crate::source::{Source, folder};
use proc_macro2::{TokenStream, TokenTree};
use std::collections::{BTreeMap, BTreeSet};
use syn::visit::{self, Visit};
use syn::{Attribute, Ident, Item, ItemMacro, Visibility};

/// A declaration of a type or trait.
struct Declared {
    name: String,
    public: bool,
    at: String,
}

/// What declares a type or a trait.
const KEYWORDS: [&str; 5] = ["enum", "struct", "trait", "type", "union"];

/// The names that are public somewhere and are declared more than once.
fn doubles(sources: &[Source]) -> Vec<String> {
    let declaring: BTreeSet<String> = sources.iter().flat_map(declaring_macros).collect();
    let mut found: BTreeMap<String, Vec<Declared>> = BTreeMap::new();
    for source in sources {
        let mut reader = Reader { source, declaring: &declaring, found: Vec::new() };
        reader.visit_file(&source.syntax);
        for declared in reader.found {
            found.entry(declared.name.clone()).or_default().push(declared);
        }
    }
    let doubled = found.into_iter().filter(|(_, all)| all.len() > 1 && all.iter().any(|one| one.public));
    doubled
        .map(|(name, all)| {
            let places: Vec<String> = all.into_iter().map(|one| one.at).collect();
            format!("{name}: {}", places.join(", "))
        })
        .collect()
}

/// The macros of a source that declare a type by the first name that they are given: `struct $name` stands in them.
fn declaring_macros(source: &Source) -> Vec<String> {
    let rules = source.syntax.items.iter().filter_map(|item| match item {
        Item::Macro(rules) if rules.mac.path.is_ident("macro_rules") && declares_variable(&rules.mac.tokens) => {
            rules.ident.as_ref().map(Ident::to_string)
        }
        _ => None,
    });
    rules.collect()
}

fn declares_variable(tokens: &TokenStream) -> bool {
    let all: Vec<TokenTree> = tokens.clone().into_iter().collect();
    let here = all.windows(2).any(|pair| match pair {
        [TokenTree::Ident(word), TokenTree::Punct(mark)] => is_keyword(word) && mark.as_char() == '$',
        _ => false,
    });
    here || all.iter().any(|token| matches!(token, TokenTree::Group(group) if declares_variable(&group.stream())))
}

fn is_keyword(word: &Ident) -> bool {
    KEYWORDS.iter().any(|keyword| word == keyword)
}

struct Reader<'a> {
    source: &'a Source,
    declaring: &'a BTreeSet<String>,
    found: Vec<Declared>,
}

impl Reader<'_> {
    fn note(&mut self, name: &Ident, public: bool) {
        let at = format!("{}:{}", self.source.path, name.span().start().line);
        self.found.push(Declared { name: name.to_string(), public, at });
    }
}

impl Visit<'_> for Reader<'_> {
    fn visit_item(&mut self, item: &Item) {
        let declared: Option<(&Ident, &Visibility, &[Attribute])> = match item {
            Item::Struct(item) => Some((&item.ident, &item.vis, &item.attrs)),
            Item::Enum(item) => Some((&item.ident, &item.vis, &item.attrs)),
            Item::Union(item) => Some((&item.ident, &item.vis, &item.attrs)),
            Item::Trait(item) => Some((&item.ident, &item.vis, &item.attrs)),
            Item::Type(item) => Some((&item.ident, &item.vis, &item.attrs)),
            _ => None,
        };
        if let Some((name, visibility, _)) = declared {
            self.note(name, !matches!(visibility, Visibility::Inherited));
        }
        visit::visit_item(self, item);
    }

    fn visit_item_macro(&mut self, call: &ItemMacro) {
        let called = call.mac.path.segments.last().is_some_and(|last| self.declaring.contains(&last.ident.to_string()));
        // Its doc comments come first: `#[doc = …]`.
        let first = call.mac.tokens.clone().into_iter().find_map(|token| match token {
            TokenTree::Ident(name) => Some(name),
            _ => None,
        });
        if let (true, Some(name)) = (called, first) {
            self.note(&name, true);
        }
    }
}

#[test]
fn public_type_name_means_one_thing() {
    let mut sources = folder("src");
    sources.retain(|source| !source.path.starts_with("src/bin/"));
    let found = doubles(&sources);
    assert!(found.is_empty(), "declared more than once:\n{}", found.join("\n"));
}

#[test]
fn second_meaning_is_found_however_it_is_declared() {
    let first = "pub struct Row;";
    for second in [
        "pub enum Row { A }",
        "pub(crate) struct Row;",
        "struct Row;",
        "type Row = u8;",
        "trait Row {}",
        "mod inner { struct Row; }",
        "fn f() { struct Row; }",
        "declared! { /// A row.\n Row, 2 }",
    ] {
        let rules = "macro_rules! declared { ($(#[$m:meta])* $name:ident, $n:literal) => { pub struct $name(i64); } }";
        let house = [Source::new("src/a.rs", first), Source::new("src/b.rs", second), Source::new("src/c.rs", rules)];
        let found = doubles(&house);
        assert_eq!(found.len(), 1, "{second}: {found:?}");
        assert!(found[0].starts_with("Row: src/a.rs:1, src/b.rs:"), "{found:?}");
    }
}

#[test]
fn names_of_private_types_may_repeat() {
    let house = [Source::new("src/a.rs", "struct Row;"), Source::new("src/b.rs", "struct Row; pub struct Rows;")];
    assert_eq!(doubles(&house), Vec::<String>::new());
}
